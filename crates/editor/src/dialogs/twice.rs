use super::compare::{Side, sides};
use super::{asking, body};
use crate::document::Document;
use egui::Context;
use gable_shell::House;
use gable_words::tr;

/// A file that is open in another window.
#[derive(Debug)]
pub(crate) struct Twice {
    /// The house as it is in the file.
    pub(crate) document: Document,
    /// Number of the process that has it.
    pub(crate) process: u32,
}

/// What to do with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Met {
    /// Work on a copy without a file.
    Copy,
    /// Open it here too.
    Both,
    /// Leave it.
    Neither,
}

/// Says that a file is open in another window.
pub(crate) fn twice(ctx: &Context, twice: &Twice) -> Option<Met> {
    let mut answer = None;
    let modal = asking(ctx, "twice").show(ctx, |ui| {
        ui.set_max_width(460.0);
        ui.heading(tr!("This house is open in another window"));
        let (title, process) = (twice.document.title(), twice.process);
        ui.label(tr!(
            "'{title}' is being worked on there (process {process}). What one window saves, the other may save over."
        ));
        ui.add_space(10.0);
        ui.horizontal_wrapped(|ui| {
            let tip = tr!("It gets a file of its own when you save it");
            answer = ui.button(tr!("Work on a copy")).on_hover_text(tip).clicked().then_some(Met::Copy);
            let tip = tr!("You are asked whenever the other window has saved");
            answer = answer.or(ui.button(tr!("Open it here too")).on_hover_text(tip).clicked().then_some(Met::Both));
            answer = answer.or(ui.button(tr!("Not now")).clicked().then_some(Met::Neither));
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(Met::Neither));
    }
    answer
}

/// A file that something else has changed while it was open.
#[derive(Clone, Debug)]
pub(crate) struct Differing {
    /// The house as it is in the file now.
    pub(crate) house: House,
    title: String,
    here: Side,
    there: Side,
}

impl Differing {
    pub(crate) fn of(document: &Document, house: House) -> Self {
        let here = Side::of(tr!("Here in the window").to_owned(), document.house());
        Self { title: document.title(), here, there: Side::of(tr!("In the file").to_owned(), &house), house }
    }
}

/// Asks which of the two counts; true for the one in the file.
pub(crate) fn differing(ctx: &Context, differing: &Differing) -> Option<bool> {
    let mut answer = None;
    asking(ctx, "differing").show(ctx, |ui| {
        ui.set_width((ctx.content_rect().width() - 80.0).clamp(260.0, 520.0));
        ui.heading(tr!("The file has changed"));
        body(ui, |ui| {
            ui.label(tr!(
                "Something else has written the file of '{}' since it was opened or saved here.",
                differing.title
            ));
            ui.add_space(6.0);
            sides(ui, &[&differing.here, &differing.there]);
        });
        ui.add_space(8.0);
        ui.horizontal_wrapped(|ui| {
            let tip = tr!("The file stays as it is until you save over it");
            answer = ui.button(tr!("Go on with mine")).on_hover_text(tip).clicked().then_some(false);
            let tip = tr!("Undo takes you back to yours");
            answer = answer.or(ui.button(tr!("Take the one in the file")).on_hover_text(tip).clicked().then_some(true));
        });
    });
    answer
}
