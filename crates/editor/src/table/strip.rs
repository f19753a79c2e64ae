//! What may lie on the table, to choose from: buttons where they find room in two rows, else a list.

use egui::{Button, ComboBox, TextStyle, Ui, WidgetInfo, accesskit::Role, vec2};
use gable_words::{mark, say, tr};

/// What was chosen: nothing new, the plan, or the piece of a number.
type Chosen = Option<Option<usize>>;

const PLAN: &str = mark!("Plan");
/// Space between buttons, in points.
const SPACE: f32 = 2.0;

/// Whether buttons of these names and one for the plan stand in at most two rows.
pub(super) fn fits(ui: &Ui, names: &[String]) -> bool {
    let font = TextStyle::Button.resolve(ui.style());
    let padding = 2.0 * ui.spacing().button_padding.x + SPACE;
    let (mut rows, mut used) = (1, 0.0);
    for name in std::iter::once(say(PLAN)).chain(names.iter().map(String::as_str)) {
        let text = ui.painter().layout_no_wrap(name.to_owned(), font.clone(), egui::Color32::BLACK);
        let width = text.size().x + padding;
        if used + width > ui.available_width() {
            (rows, used) = (rows + 1, 0.0);
        }
        used += width;
        if rows > 2 {
            return false;
        }
    }
    true
}

/// A button for each.
pub(super) fn buttons(ui: &mut Ui, names: &[String], laid: Option<usize>) -> Chosen {
    let mut chosen = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(SPACE, 3.0);
        if ui.add(Button::selectable(laid.is_none(), say(PLAN))).clicked() {
            chosen = Some(None);
        }
        for (k, name) in names.iter().enumerate() {
            if ui.add(Button::selectable(laid == Some(k), name)).clicked() {
                chosen = Some(Some(k));
            }
        }
    });
    chosen
}

/// A list that folds out, with buttons for the plan and for the face before and after.
pub(super) fn list(ui: &mut Ui, names: &[String], laid: Option<usize>) -> Chosen {
    let mut chosen = None;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        if ui.add(Button::selectable(laid.is_none(), say(PLAN))).clicked() {
            chosen = Some(None);
        }
        let count = names.len();
        let step = |ui: &mut Ui, sign: &str, name: &str, to: usize| {
            let button = ui.add_enabled(count > 0, Button::new(sign)).on_hover_text(name);
            button.widget_info(|| WidgetInfo::labeled(Role::Button, count > 0, name));
            button.clicked().then_some(Some(to))
        };
        let before = laid.map_or(count.saturating_sub(1), |k| (k + count - 1) % count.max(1));
        chosen = step(ui, "‹", tr!("The face before"), before).or(chosen);
        let after = laid.map_or(0, |k| (k + 1) % count.max(1));
        let shown = laid.and_then(|k| names.get(k)).map_or(tr!("Choose a face"), String::as_str);
        let width = (ui.available_width() - 44.0).clamp(60.0, 260.0);
        let folded = ComboBox::from_id_salt("faces").selected_text(shown).width(width).truncate().height(360.0);
        let inner = folded.show_ui(ui, |ui| {
            for (k, name) in names.iter().enumerate() {
                if ui.selectable_label(laid == Some(k), name).clicked() {
                    chosen = Some(Some(k));
                }
            }
        });
        inner.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, tr!("Face: {shown}")));
        chosen = step(ui, "›", tr!("The face after"), after).or(chosen);
    });
    chosen
}
