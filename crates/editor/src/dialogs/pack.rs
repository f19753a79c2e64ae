use super::asking;
use crate::adapters::{self, sentence};
use crate::theme::{Palette, bold};
use egui::{
    Button, Context, Grid, Rect, RichText, Sense, Stroke, StrokeKind, TextEdit, Ui, WidgetInfo, accesskit::Role, pos2,
    vec2,
};
use gable_export::{Margins, PackOptions, Paper};
use gable_measure::{Length, Unit};

/// What the printed set should be like.
#[derive(Clone, Debug, Default)]
pub(crate) struct PackChoice {
    /// What the pages are made from.
    pub(crate) options: PackOptions,
    /// What is typed for each margin, where it is not just the margin itself.
    typed: [Option<String>; 4],
}

/// The margins by name, in the order of [`PackChoice::typed`].
const SIDES: [&str; 4] = ["Left margin", "Right margin", "Top margin", "Bottom margin"];

impl PackChoice {
    /// The choice without what was typed and could not be read.
    pub(crate) fn settled(self) -> Self {
        Self { typed: Default::default(), ..self }
    }

    fn margin(&mut self, k: usize) -> &mut Length {
        let margins = &mut self.options.margins;
        match k {
            0 => &mut margins.left,
            1 => &mut margins.right,
            2 => &mut margins.top,
            _ => &mut margins.bottom,
        }
    }
}

/// Asks what the pack is printed on. `Some(true)`: go on and choose a folder; `Some(false)`: not now.
///
/// `blocked`: the house cannot be built, so there is nothing to print.
pub(crate) fn pack(ctx: &Context, choice: &mut PackChoice, unit: Unit, blocked: bool) -> Option<bool> {
    let mut answer = None;
    let modal = asking(ctx, "pack").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 560.0));
        ui.heading("Make the pack");
        ui.label("The pattern of every piece at true scale, ready to print and cut out.");
        ui.add_space(8.0);
        let mut read = true;
        egui::ScrollArea::vertical().max_height((room.y - 190.0).max(120.0)).show(ui, |ui| {
            read = settings(ui, choice, unit);
            ui.add_space(8.0);
            ui.label("Print at actual size, not 'fit to page', and check the bars with a ruler before you cut.");
            ui.label(
                "Ink and paper are not food: always lay baking paper between the pattern and the dough or biscuit.",
            );
        });
        ui.add_space(10.0);
        if blocked {
            let words = "As it is the house cannot be built. Mend what 'What we noticed' says first.";
            ui.label(RichText::new(words).color(Palette::of(ctx).blocking));
        }
        ui.horizontal(|ui| {
            let go = ui.add_enabled(read && !blocked, Button::new("Choose where it goes…"));
            answer = go.clicked().then_some(true);
            answer = answer.or(ui.button("Not now").clicked().then_some(false));
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(false));
    }
    answer
}

/// Paper and margins beside a picture of the page. Whether pages can be made so.
fn settings(ui: &mut Ui, choice: &mut PackChoice, unit: Unit) -> bool {
    let mut read = true;
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            ui.set_width(ui.available_width().min(370.0));
            ui.label(bold("Which paper is in the printer?"));
            for paper in Paper::ALL {
                ui.radio_value(&mut choice.options.paper, paper, words_of(paper, unit));
            }
            ui.add_space(8.0);
            ui.label(bold("Which margins can it not print on?"));
            read = margins(ui, choice, unit);
            ui.add_space(8.0);
            ui.checkbox(&mut choice.options.without_baked, "Leave out what is baked already");
        });
        page(ui, &choice.options);
    });
    let palette = Palette::of(ui.ctx());
    match choice.options.room() {
        Ok((width, height)) => {
            let words =
                format!("This leaves {} × {} of a page for patterns.", unit.print_bare(width), unit.print(height));
            ui.label(RichText::new(words).color(palette.faint_ink));
        }
        Err(error) => {
            read = false;
            ui.label(RichText::new(sentence(&error.to_string())).color(palette.blocking));
        }
    }
    read
}

/// A field for each margin; whether all of them can be read.
fn margins(ui: &mut Ui, choice: &mut PackChoice, unit: Unit) -> bool {
    let mut errors = Vec::new();
    Grid::new("margins").num_columns(2).spacing([12.0, 6.0]).show(ui, |ui| {
        for (k, name) in SIDES.into_iter().enumerate() {
            let label = ui.label(name);
            let mut text = choice.typed[k].clone().unwrap_or_else(|| unit.print(*choice.margin(k)));
            let field = ui
                .add(TextEdit::singleline(&mut text).desired_width(130.0).align(egui::Align2::LEFT_CENTER))
                .labelled_by(label.id);
            if field.changed() {
                choice.typed[k] = Some(text);
            }
            if let Some(error) = take(choice, k, unit, field.lost_focus()) {
                errors.push(format!("{name}: {error}"));
            }
            ui.end_row();
        }
    });
    for error in &errors {
        ui.label(RichText::new(error).color(Palette::of(ui.ctx()).blocking));
    }
    ui.horizontal_wrapped(|ui| {
        if ui.button("Usual margins").on_hover_text("What most home printers can do").clicked() {
            (choice.options.margins, choice.typed) = (Margins::default(), Default::default());
        }
        let first = *choice.margin(0);
        let alike = choice.options.margins == Margins::all(first);
        let all = ui.add_enabled(!alike, Button::new("All as the left one"));
        if all.on_hover_text("Gives every side the left margin").clicked() {
            choice.options.margins = Margins::all(first);
            choice.typed = [choice.typed[0].take(), None, None, None];
        }
    });
    errors.is_empty()
}

/// Reads what is typed for a margin; gives what is wrong with it. Once the field is left the margin itself is shown.
fn take(choice: &mut PackChoice, k: usize, unit: Unit, left: bool) -> Option<String> {
    let text = choice.typed[k].clone()?;
    match adapters::read_length(&text, unit) {
        Ok(length) => {
            *choice.margin(k) = length;
            if left {
                choice.typed[k] = None;
            }
            None
        }
        Err(error) => Some(error),
    }
}

fn words_of(paper: Paper, unit: Unit) -> String {
    let (width, height) = paper.size();
    let size = format!("{} × {}", unit.print_bare(width), unit.print(height));
    match paper {
        Paper::A4AndLetter => format!("Either: pages that fit on both, {size}"),
        Paper::A4 | Paper::Letter => format!("{}, {size}", paper.name()),
    }
}

/// A small page with its margins.
fn page(ui: &mut Ui, options: &PackOptions) {
    let palette = Palette::of(ui.ctx());
    let (area, response) = ui.allocate_exact_size(vec2(140.0, 190.0), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, "The page with its margins"));
    let (width, height) = options.paper.size();
    let scale = (area.width() / width.mm() as f32).min(area.height() / height.mm() as f32);
    let sheet = Rect::from_center_size(area.center(), vec2(width.mm() as f32, height.mm() as f32) * scale);
    let painter = ui.painter();
    painter.rect(sheet, 2.0, palette.paper, Stroke::new(1.0, palette.ink), StrokeKind::Inside);
    let m = options.margins;
    let [left, right, top, bottom] = [m.left, m.right, m.top, m.bottom].map(|l| l.mm() as f32 * scale);
    let inner = Rect::from_min_max(
        pos2(sheet.left() + left, sheet.top() + top),
        pos2(sheet.right() - right, sheet.bottom() - bottom),
    );
    if inner.is_positive() && sheet.contains_rect(inner) {
        painter.rect(
            inner,
            0.0,
            palette.dough.gamma_multiply(0.5),
            Stroke::new(1.0, palette.accent),
            StrokeKind::Inside,
        );
    }
}
