use crate::adapters;
use egui::{TextEdit, Ui};
use gable_measure::{Length, Unit};

/// What is typed for a length, where it is not just the length itself.
pub(in crate::dialogs) type Typed = Option<String>;

/// A field for a length behind its name. Once it is left, the length itself is shown again. Gives what is wrong with what
/// is typed.
pub(in crate::dialogs) fn field(
    ui: &mut Ui,
    name: &str,
    length: &mut Length,
    typed: &mut Typed,
    unit: Unit,
) -> Option<String> {
    let label = ui.label(name);
    let mut text = typed.clone().unwrap_or_else(|| unit.print(*length));
    let field = ui
        .add(TextEdit::singleline(&mut text).desired_width(130.0).align(egui::Align2::LEFT_CENTER))
        .labelled_by(label.id);
    if field.changed() {
        *typed = Some(text);
    }
    match adapters::read_length(typed.as_deref()?, unit) {
        Ok(read) => {
            *length = read;
            if field.lost_focus() {
                *typed = None;
            }
            None
        }
        Err(error) => Some(format!("{name}: {error}")),
    }
}
