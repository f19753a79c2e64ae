use super::compare::{Side, ago, sides};
use super::{asking, body};
use crate::adapters;
use crate::document::Document;
use crate::keep::Left;
use crate::keeping::unreadable;
use egui::Context;
use gable_shell::House;
use gable_words::tr;
use std::path::Path;
use std::time::SystemTime;

/// Unsaved work of a window that was killed, beside the house as it was saved.
#[derive(Debug)]
pub(crate) struct Rescued {
    /// Where it lies; held, so that no other window offers it.
    pub(crate) left: Left,
    /// How many more there are.
    pub(crate) others: usize,
    title: String,
    house: House,
    saved: Option<House>,
    changed: Side,
    before: Option<Side>,
}

/// What shall become of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Rescue {
    /// Go on with the changes.
    Changed,
    /// Go on with the house as it was saved.
    Saved,
    /// Throw away what was in no file.
    ThrowAway,
    /// Decide another time.
    Later,
}

impl Rescued {
    /// Unsaved work, with the house as it is in its file if that can be read.
    pub(crate) fn found(left: Left, others: usize) -> Result<Self, Option<String>> {
        let saved = left.file.as_deref().and_then(|file| adapters::read_house(file).ok());
        Self::of(left, saved.as_ref(), others)
    }

    /// Unsaved work beside what was saved.
    ///
    /// # Errors
    /// `None` when both are the same: nothing is lost. Else why the work cannot be read.
    pub(crate) fn of(left: Left, saved: Option<&House>, others: usize) -> Result<Self, Option<String>> {
        let house = adapters::read_house(&left.copy).map_err(|why| Some(unreadable(&left, &why)))?;
        if saved == Some(&house) {
            left.throw_away();
            return Err(None);
        }
        let now = SystemTime::now();
        let written = left.file.as_deref().and_then(|f| std::fs::metadata(f).ok()?.modified().ok());
        let before = saved.map(|house| {
            let when = written.map_or_else(String::new, |when| format!(", {}", ago(when, now)));
            Side::of(tr!("As saved{when}"), house)
        });
        let kind =
            if before.is_some() { tr!("With the changes that were not saved") } else { tr!("In no file yet, changed") };
        let comma = if before.is_some() { "," } else { "" };
        let changed = Side::of(format!("{kind}{comma} {}", ago(left.when, now)), &house);
        let title = title_of(&house, left.file.as_deref());
        Ok(Self { left, others, title, saved: saved.cloned(), house, changed, before })
    }

    /// The house to go on with. Whichever it is, the other one is a step away.
    pub(crate) fn document(&self, changed: bool) -> Document {
        let Some((saved, file)) = self.saved.as_ref().zip(self.left.file.clone()) else {
            return Document::unsaved(self.house.clone(), self.left.file.clone());
        };
        let mut document = Document::from_file(saved.clone(), file);
        document.change(tr!("changes that were not saved"), self.house.clone(), None);
        if !changed {
            document.undo();
        }
        document
    }
}

fn title_of(house: &House, file: Option<&Path>) -> String {
    let title = house.owner.title.trim();
    if !title.is_empty() {
        return title.to_owned();
    }
    let name = file.and_then(Path::file_name).map(|n| n.to_string_lossy().into_owned());
    name.unwrap_or_else(|| tr!("House without a name").to_owned())
}

/// Offers the work again.
pub(crate) fn rescue(ctx: &Context, rescued: &Rescued) -> Option<Rescue> {
    let mut answer = None;
    let modal = asking(ctx, "rescue").show(ctx, |ui| {
        ui.set_width((ctx.content_rect().width() - 80.0).clamp(260.0, 520.0));
        ui.heading(tr!("Unsaved work was found"));
        body(ui, |ui| {
            ui.label(tr!("The last window with '{}' ended before it was saved.", rescued.title));
            if rescued.others > 0 {
                ui.label(tr!("There is unsaved work of one more house, which is asked about next."
                    | "There is unsaved work of {n} more, which is asked about next." % rescued.others));
            }
            ui.add_space(6.0);
            let shown: Vec<&Side> = rescued.before.iter().chain([&rescued.changed]).collect();
            sides(ui, &shown);
        });
        ui.add_space(8.0);
        ui.horizontal_wrapped(|ui| {
            if rescued.before.is_some() {
                let tip = tr!("Undo takes you back to the house as it was saved");
                let taken = ui.button(tr!("Go on with the changes")).on_hover_text(tip).clicked();
                answer = taken.then_some(Rescue::Changed);
                let tip = tr!("The changes are thrown away; Redo has them until you close the window");
                let dropped = ui.button(tr!("Go on as saved")).on_hover_text(tip).clicked();
                answer = answer.or(dropped.then_some(Rescue::Saved));
            } else {
                answer = ui.button(tr!("Go on with it")).clicked().then_some(Rescue::Changed);
                answer = answer.or(ui.button(tr!("Throw it away")).clicked().then_some(Rescue::ThrowAway));
            }
            let tip = tr!("Both stay as they are, and you are asked again");
            answer = answer.or(ui.button(tr!("Not now")).on_hover_text(tip).clicked().then_some(Rescue::Later));
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(Rescue::Later));
    }
    answer
}
