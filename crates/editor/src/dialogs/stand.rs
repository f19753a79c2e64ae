//! Whether the house will stand and travel: worked out beside the window for one room.

use super::{asking, chapter};
use crate::errands::{Errand, Progress};
use crate::theme::{Palette, bold};
use egui::{Context, DragValue, RichText, ScrollArea, Ui};
use gable_bake::Chapter;
use gable_export::{Baker, Complete};
use gable_shell::House;
use gable_stand::bend::Kept;
use gable_stand::damp::Air;
use gable_stand::{ABOUT_CAKE, Ask, Class, Matter, Report, Site};

/// What is asked, and what of the answers is looked at.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct StandChoice {
    part: StandPart,
    ask: Ask,
}

impl Default for StandChoice {
    fn default() -> Self {
        Self { part: StandPart::Weak, ask: Ask::default() }
    }
}

/// What of the answers is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum StandPart {
    /// What is not sound, and what would help.
    Weak,
    /// Every answer.
    All,
    /// The room and the way.
    Carry,
    /// What nobody has measured.
    Assumptions,
}

impl StandPart {
    const ALL: [Self; 4] = [Self::Weak, Self::All, Self::Carry, Self::Assumptions];

    const fn words(self) -> &'static str {
        match self {
            Self::Weak => "What needs care",
            Self::All => "Everything",
            Self::Carry => "Room and way",
            Self::Assumptions => "Assumptions",
        }
    }
}

/// The answers in words.
#[derive(Clone, Debug, Default, PartialEq)]
struct Said {
    short: Vec<String>,
    /// By matter: what is not sound.
    weak: Vec<(&'static str, Vec<(Class, String)>)>,
    tried: Chapter,
    matters: Vec<Chapter>,
    way: Vec<Chapter>,
    assumed: Chapter,
}

/// Answers beside the window.
#[derive(Default)]
pub(crate) struct Asker {
    /// What is asked: revision of the house, the baker, the room.
    asked: Option<(u64, Baker, Ask)>,
    working: Option<Errand<Said>>,
    found: Option<Said>,
    lost: bool,
}

impl Asker {
    fn follow(&mut self, ctx: &Context, house: &House, key: (u64, &Baker, &Ask)) {
        if let Some(errand) = self.working.take() {
            match errand.look() {
                Progress::Under => self.working = Some(errand),
                Progress::Done(found, _) => self.found = Some(found),
                Progress::Lost => self.lost = true,
            }
        }
        let key = (key.0, key.1.clone(), key.2.clone());
        // One at a time: what is under way is waited for, and thrown away.
        if self.asked.as_ref() != Some(&key) && self.working.is_none() {
            let (house, baker, ask) = (house.clone(), key.1.clone(), key.2.clone());
            *self = Self { asked: Some(key), ..Self::default() };
            self.working = Some(Errand::start(ctx, move || answered(&house, &baker, &ask)));
        }
    }

    /// The answers to what is asked now; older ones are not shown.
    fn found(&self, key: (u64, &Baker, &Ask)) -> Option<&Said> {
        let current = self.asked.as_ref().is_some_and(|(r, b, a)| (*r, b, a) == key);
        self.found.as_ref().filter(|_| current)
    }
}

fn answered(house: &House, baker: &Baker, ask: &Ask) -> Said {
    let complete = Complete::of(baker.notebook.baked_here(house));
    let site = Site::new(complete.about(), &baker.notebook);
    let mut report = Report::of(&site, ask, &mut Kept::default());
    report.try_changes(&site, || true);
    let weak = |matter: Matter| {
        let own = report.told.iter().filter(|t| t.matter == matter && t.class() > Class::Sound);
        (matter.title(), own.map(|t| (t.class(), t.line())).collect::<Vec<_>>())
    };
    let [tried, bows, spares, room, carry, sections, assumed] = report.others(&site);
    Said {
        short: report.in_short().lines,
        weak: Matter::ALL.map(weak).into_iter().filter(|(_, lines)| !lines.is_empty()).collect(),
        tried,
        matters: Matter::ALL.map(|m| report.of_matter(m)).to_vec(),
        way: vec![room, carry, sections, bows, spares],
        assumed,
    }
}

/// Shows what will stand and travel; true once the person has seen enough.
pub(crate) fn stand(
    ctx: &Context,
    choice: &mut StandChoice,
    asker: &mut Asker,
    (house, revision, baker): (&House, u64, &Baker),
) -> bool {
    let mut done = false;
    let modal = asking(ctx, "stand").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 640.0));
        ui.heading("Will it stand?");
        air(ui, &mut choice.ask.air);
        ui.horizontal_wrapped(|ui| {
            for part in StandPart::ALL {
                ui.selectable_value(&mut choice.part, part, part.words());
            }
        });
        ui.add_space(6.0);
        let key = (revision, baker, &choice.ask);
        asker.follow(ctx, house, key);
        let tall = (room.y - 290.0).max(120.0);
        match asker.found(key) {
            Some(said) => {
                let scroll = ScrollArea::vertical().id_salt("stand").auto_shrink(false);
                scroll.min_scrolled_height(tall).max_height(tall).show(ui, |ui| show(ui, choice.part, said));
            }
            None if asker.lost => _ = ui.label("It could not be worked out."),
            None => _ = ui.label("Working it out…"),
        }
        ui.add_space(6.0);
        ui.small(ABOUT_CAKE);
        ui.add_space(6.0);
        done = ui.button("Close").clicked();
    });
    done || modal.should_close()
}

/// The room where it is on show.
fn air(ui: &mut Ui, air: &mut Air) {
    let mut percent = air.humidity * 100.0;
    ui.horizontal_wrapped(|ui| {
        let label = ui.label("In a room of");
        let field = DragValue::new(&mut percent).range(10.0..=90.0).max_decimals(0).suffix(" % humidity");
        ui.add(field).labelled_by(label.id).on_hover_text("Relative humidity, as a hygrometer shows it");
        let label = ui.label("for");
        let field = DragValue::new(&mut air.days).range(0.0..=366.0).max_decimals(0).suffix(" days");
        ui.add(field).labelled_by(label.id);
    });
    air.humidity = percent / 100.0;
}

fn show(ui: &mut Ui, part: StandPart, said: &Said) {
    match part {
        StandPart::Weak => weak(ui, said),
        StandPart::All => said.matters.iter().for_each(|c| chapter(ui, c)),
        StandPart::Carry => said.way.iter().for_each(|c| chapter(ui, c)),
        StandPart::Assumptions => chapter(ui, &said.assumed),
    }
}

fn weak(ui: &mut Ui, said: &Said) {
    ui.label(said.short.join("; "));
    ui.add_space(8.0);
    let palette = Palette::of(ui.ctx());
    for (title, lines) in &said.weak {
        ui.label(bold(*title));
        for (class, line) in lines {
            let text = RichText::new(line);
            ui.label(if *class == Class::Breaks { text.color(palette.blocking) } else { text });
        }
        ui.add_space(8.0);
    }
    chapter(ui, &said.tried);
}
