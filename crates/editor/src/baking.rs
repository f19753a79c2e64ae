//! The bake, and whether the house will stand: what is said there goes into the notebook, and the days into files.

use crate::app::Editor;
use crate::dialogs::{self, BakeAsked, BakeChoice, Dialog, PathUse, StandAsked, StandChoice};
use crate::document::Document;
use crate::fields::Touched;
use crate::panels::Notice;
use crate::table::Gesture;
use egui::Context;
use gable_bake::timetable::{CalendarChoice, Other};
use gable_words::tr;
use std::path::Path;

/// Minutes before work at which a calendar reminds of it.
const REMIND: u32 = 15;

impl Editor {
    /// The same editor with a clock that stands still, for checks.
    #[must_use]
    pub fn at_moment(mut self, now: jiff::civil::DateTime) -> Self {
        self.planner.clock = Some(now);
        self
    }

    /// Opens the bake, with the notebook as it lies there now.
    pub(crate) fn begin_bake(&mut self) {
        let trouble = self.home.notes.reread();
        self.dialog = Some(Dialog::Bake(Box::new(BakeChoice::new(trouble))));
    }

    /// The same, where it is said what is baked together.
    pub(crate) fn begin_bake_at_hours(&mut self) {
        let trouble = self.home.notes.reread();
        self.dialog = Some(Dialog::Bake(Box::new(BakeChoice::new(trouble).at_hours())));
    }

    /// Bakes the house of a file together with this one.
    pub(crate) fn bake_another(&mut self, path: &Path) -> Result<(), String> {
        crate::adapters::read_house(path)?;
        let Some(document) = &self.document else { return Ok(()) };
        let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        let mut notebook = self.home.notes.notebook().clone();
        let other = Other { house: whole.display().to_string(), copies: 1 };
        notebook.build_mut(document.house()).others.push(other);
        self.home.notes.note(notebook)
    }

    pub(crate) fn bake(&mut self, ctx: &Context, mut choice: Box<BakeChoice>) {
        let Some(document) = &self.document else { return };
        let mut notebook = self.home.notes.notebook().clone();
        let former = gable_bake::notebook::title(document.opened()).to_owned();
        let house = (document.house(), document.revision(), &self.home.baker());
        let asked = dialogs::bake(ctx, &mut choice, &mut self.planner, house, (&mut notebook, &former));
        if &notebook != self.home.notes.notebook() {
            choice.trouble = self.home.notes.note(notebook).err();
            ctx.request_repaint();
        }
        match asked {
            BakeAsked::Close => self.planner.forget(),
            BakeAsked::Nothing => self.dialog = Some(Dialog::Bake(choice)),
            BakeAsked::Another => self.ask_path(ctx, PathUse::Another),
            BakeAsked::Calendar => self.ask_path(ctx, PathUse::Calendar),
            BakeAsked::Table => self.ask_path(ctx, PathUse::Table),
            BakeAsked::ShoppingList => self.ask_path(ctx, PathUse::ShoppingList),
        }
    }

    /// Asks whether the house will stand, with the notebook as it lies there now.
    pub(crate) fn begin_stand(&mut self) {
        let trouble = self.home.notes.reread();
        self.dialog = Some(Dialog::Stand(Box::new(StandChoice::new(trouble))));
    }

    pub(crate) fn stand(&mut self, ctx: &Context, mut choice: Box<StandChoice>) {
        let Some(document) = &self.document else { return };
        let mut notebook = self.home.notes.notebook().clone();
        let house = (document.house(), document.revision(), &self.home.baker());
        let asked = dialogs::stand(ctx, &mut choice, &mut self.asker, house, &mut notebook);
        if &notebook != self.home.notes.notebook() {
            choice.trouble = self.home.notes.note(notebook).err();
            ctx.request_repaint();
        }
        match asked {
            StandAsked::Close => self.asker.rest(),
            StandAsked::Nothing => self.dialog = Some(Dialog::Stand(choice)),
            StandAsked::Take(change, name) => {
                if let Some(mut house) = self.house().cloned() {
                    change.apply(&mut house);
                    self.fields.clear();
                    let touched = Touched { place: String::new(), text: String::new(), name };
                    self.commit(house, Some(touched), Gesture::default());
                }
                self.dialog = Some(Dialog::Stand(choice));
            }
        }
    }

    /// Writes what was planned last, the shopping list or the days; why that could not be.
    pub(crate) fn write_plan(&mut self, purpose: PathUse, path: &Path) -> Result<(), String> {
        if purpose == PathUse::ShoppingList {
            let planned = self.planner.found();
            let Some(planned) = planned else { return Err(tr!("The bake is not planned yet.").to_owned()) };
            let unit = self.document.as_ref().map(|document| document.house().unit).unwrap_or_default();
            let list = planned.plan.shopping.clone().of(&self.home.notes.notebook().cupboard);
            gable_export::keep(path, &list.csv(unit).map_err(|e| e.to_string())?)?;
            self.notice = Some(Notice::passing(tr!("The shopping list is in {}.", path.display())));
            return Ok(());
        }
        let title = self.document.as_ref().map_or_else(String::new, Document::title);
        let days = self.planner.found().and_then(|planned| planned.days.as_ref()?.as_ref().ok());
        let Some(days) = days else { return Err(tr!("The days are not planned yet.").to_owned()) };
        let text = if purpose == PathUse::Calendar {
            let stamp = jiff::Timestamp::now().to_zoned(jiff::tz::TimeZone::UTC).datetime();
            let choice = CalendarChoice { house: title, stamp, helper: None, waits: true, alarm: Some(REMIND) };
            days.table.calendar(&days.work.ask, &choice)
        } else {
            days.table.csv(&days.work.ask).map_err(|e| e.to_string())?
        };
        gable_export::keep(path, &text)?;
        self.notice = Some(Notice::passing(tr!("The days are in {}.", path.display())));
        Ok(())
    }
}
