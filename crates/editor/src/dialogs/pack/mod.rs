mod length;
mod paper;
mod preview;
mod purpose;
mod spread;

use super::asking;
use crate::adapters::sentence;
use crate::theme::{Palette, bold};
use egui::{
    Button, Checkbox, Context, Grid, Rect, RichText, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role, pos2,
    vec2,
};
use gable_export::{Baker, Margins, PackOptions, Paper, Section};
use gable_measure::{Length, Unit};
use gable_shell::House;
use gable_words::{mark, say, tr};
pub(super) use length::{Typed, field};
pub(super) use paper::PaperChoice;
pub(crate) use preview::Preview;
use purpose::PurposeChoice;

/// What the printed set should be like.
#[derive(Clone, Debug, Default)]
pub(crate) struct PackChoice {
    /// What the pages are made from.
    pub(crate) options: PackOptions,
    paper: PaperChoice,
    purpose: PurposeChoice,
    /// Whether the pages are looked at.
    looks: bool,
    /// What is typed for each margin.
    typed: [Typed; 4],
}

/// Between both columns, points.
const GUTTER: f32 = 16.0;
/// The margins by name, in the order of [`PackChoice::typed`].
const SIDES: [&str; 4] = [mark!("Left margin"), mark!("Right margin"), mark!("Top margin"), mark!("Bottom margin")];

impl PackChoice {
    /// On another paper.
    pub(crate) fn on(mut self, paper: Paper) -> Self {
        self.options.paper = paper;
        self.paper = PaperChoice::of(paper);
        self
    }

    /// The choice without what was typed and could not be read.
    pub(crate) fn settled(self) -> Self {
        let (paper, purpose) = (self.paper.settled(), self.purpose.settled());
        Self { typed: Default::default(), looks: false, paper, purpose, ..self }
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
/// `house`: what is printed, with its revision, and for whom. `blocked`: it cannot be built, so there is nothing to print.
pub(crate) fn pack(
    ctx: &Context,
    choice: &mut PackChoice,
    preview: &mut Preview,
    (house, revision, name, baker): (&House, u64, &str, &Baker),
    blocked: bool,
) -> Option<bool> {
    let unit = house.unit;
    let mut answer = None;
    let modal = asking(ctx, "pack").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 700.0));
        if choice.looks && !blocked {
            preview.follow(ctx, (house, revision, name), &choice.options, baker);
            ui.heading(tr!("The pages of the pack"));
            preview.show(ui, vec2(ui.available_width(), (room.y - 230.0).max(120.0)));
            ui.add_space(10.0);
            choice.looks = !ui.button(tr!("Back to the choices")).clicked();
            return;
        }
        ui.heading(tr!("Make the pack"));
        ui.label(tr!(
            "Everything to print: the pattern of every piece at true scale, and the house itself inside the PDF."
        ));
        ui.add_space(8.0);
        let mut read = true;
        let tall = (room.y - 190.0).max(120.0);
        egui::ScrollArea::vertical().max_height(tall).min_scrolled_height(tall).show(ui, |ui| {
            read = settings(ui, choice, unit);
            ui.add_space(8.0);
            ui.label(tr!("Print at actual size, not 'fit to page', and check the bars with a ruler before you cut."));
            ui.label(tr!(
                "Ink and paper are not food: always lay baking paper between the pattern and the dough or biscuit."
            ));
        });
        ui.add_space(10.0);
        if blocked {
            let words = tr!("As it is the house cannot be built. Mend what 'What we noticed' says first.");
            ui.label(RichText::new(words).color(Palette::of(ctx).blocking));
        }
        ui.horizontal(|ui| {
            let go = ui.add_enabled(read && !blocked, Button::new(tr!("Choose where it goes…")));
            answer = go.clicked().then_some(true);
            let look = ui.add_enabled(read && !blocked, Button::new(tr!("Look at the pages")));
            choice.looks = look.clicked();
            answer = answer.or(ui.button(tr!("Not now")).clicked().then_some(false));
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(false));
    }
    answer
}

/// Pages, paper and margins beside a picture of the page. Whether pages can be made so.
fn settings(ui: &mut Ui, choice: &mut PackChoice, unit: Unit) -> bool {
    let mut errors = Vec::new();
    let half = (ui.available_width() - GUTTER) / 2.0;
    ui.horizontal_top(|ui| {
        ui.vertical(|ui| {
            ui.set_width(half);
            ui.label(bold(tr!("Which paper is in the printer?")));
            errors.extend(choice.paper.show(ui, &mut choice.options.paper, unit));
            ui.add_space(8.0);
            ui.label(bold(tr!("Whom is it for?")));
            errors.extend(choice.purpose.show(ui, &mut choice.options, unit));
            ui.add_space(8.0);
            ui.label(bold(tr!("Which margins can it not print on?")));
            errors.extend(margins(ui, choice, unit));
        });
        ui.add_space(GUTTER);
        ui.vertical(|ui| {
            ui.set_width(half);
            ui.label(bold(tr!("Which pages?")));
            for section in Section::ALL {
                let mut chosen = choice.options.sections.holds(section);
                ui.checkbox(&mut chosen, section.title());
                choice.options.sections.set(section, chosen);
            }
            ui.checkbox(&mut choice.options.without_baked, tr!("Leave out what is baked already"));
            ui.checkbox(
                &mut choice.options.every_piece,
                tr!("A pattern for every single piece, not one for all alike"),
            );
            let fewer = Checkbox::new(&mut choice.options.fewer_pages, tr!("Look longer for fewer pages"));
            let fewer = ui.add_enabled(!matches!(choice.options.paper, Paper::Roll { .. }), fewer);
            fewer.on_hover_text(tr!(
                "Takes a quarter of a minute or so. Words on the patterns may then stand sideways."
            ));
            ui.add_space(8.0);
            page(ui, &choice.options);
        });
    });
    let palette = Palette::of(ui.ctx());
    if choice.options.sections.is_empty() {
        errors.push(tr!("Choose at least one kind of page.").to_owned());
    }
    match choice.options.room() {
        Ok((width, height)) => {
            let words = tr!("This leaves {} × {} of a page for patterns.", unit.print_bare(width), unit.print(height));
            ui.label(RichText::new(words).color(palette.faint_ink));
        }
        Err(error) => errors.push(sentence(&error.to_string())),
    }
    for error in &errors {
        ui.label(RichText::new(error).color(palette.blocking));
    }
    errors.is_empty()
}

/// A field for each margin; what is wrong with what is typed.
fn margins(ui: &mut Ui, choice: &mut PackChoice, unit: Unit) -> Vec<String> {
    let mut errors = Vec::new();
    Grid::new("margins").num_columns(2).spacing([12.0, 6.0]).show(ui, |ui| {
        for (k, name) in SIDES.map(say).into_iter().enumerate() {
            let (mut margin, mut typed) = (*choice.margin(k), choice.typed[k].take());
            errors.extend(field(ui, name, &mut margin, &mut typed, unit));
            *choice.margin(k) = margin;
            choice.typed[k] = typed;
            ui.end_row();
        }
    });
    ui.horizontal_wrapped(|ui| {
        if ui.button(tr!("Usual margins")).on_hover_text(tr!("What most home printers can do")).clicked() {
            (choice.options.margins, choice.typed) = (Margins::default(), Default::default());
        }
        let first = *choice.margin(0);
        let alike = choice.options.margins == Margins::all(first);
        let all = ui.add_enabled(!alike, Button::new(tr!("All as the left one")));
        if all.on_hover_text(tr!("Gives every side the left margin")).clicked() {
            choice.options.margins = Margins::all(first);
            choice.typed = [choice.typed[0].take(), None, None, None];
        }
    });
    errors
}

/// A small page with its margins.
fn page(ui: &mut Ui, options: &PackOptions) {
    let palette = Palette::of(ui.ctx());
    let (area, response) = ui.allocate_exact_size(vec2(140.0, 190.0), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, tr!("The page with its margins")));
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
