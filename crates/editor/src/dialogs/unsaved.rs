use super::asking;
use egui::{Context, Key};
use gable_words::tr;

/// What the person said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Answer {
    /// Save first.
    Save,
    /// Throw the changes away.
    Drop,
    /// Go back to the house.
    Stay,
}

/// Asks what to do with changes that are in no file.
pub(crate) fn unsaved(ctx: &Context, title: &str) -> Option<Answer> {
    let mut answer = None;
    let modal = asking(ctx, "unsaved").show(ctx, |ui| {
        ui.set_max_width(420.0);
        ui.heading(tr!("Keep your changes?"));
        ui.label(tr!("'{title}' has changes that are not in a file yet."));
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            let save = ui.button(tr!("Save them"));
            if answer.is_none() && ui.memory(|m| m.focused().is_none()) {
                save.request_focus();
            }
            answer = save.clicked().then_some(Answer::Save);
            answer = answer.or(ui.button(tr!("Throw them away")).clicked().then_some(Answer::Drop));
            answer = answer.or(ui.button(tr!("Back to the house")).clicked().then_some(Answer::Stay));
        });
    });
    if modal.should_close() || ctx.input(|i| i.key_pressed(Key::Escape)) {
        answer = answer.or(Some(Answer::Stay));
    }
    answer
}
