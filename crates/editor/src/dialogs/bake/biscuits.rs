//! Two test biscuits: what is measured of them, and what that says.

use super::drafts::{Drafts, length, mass, number};
use crate::adapters::sentence;
use crate::theme::{Palette, bold};
use egui::{ComboBox, Grid, RichText, Ui, WidgetInfo, accesskit::Role};
use gable_bake::{Found, Notebook, TestBiscuits};
use gable_measure::{Length, Unit, decimal};
use gable_shell::House;
use gable_words::tr;

/// What is measured, while the form is filled in.
#[derive(Clone, Debug, Default)]
pub(crate) struct BiscuitForm {
    /// Begun with the doughs of the house.
    form: Option<TestBiscuits>,
}

impl BiscuitForm {
    pub(super) fn show(&mut self, ui: &mut Ui, house: &House, notebook: &mut Notebook, drafts: &mut Drafts) {
        ui.label(
            tr!("Before the first house: cut a long strip and a square with a hole from your dough, bake them, and measure. The pack \
             has a page for it. From then on amounts, patterns and thicknesses go by your dough and your oven."),
        );
        ui.add_space(6.0);
        let begun = || TestBiscuits {
            dough: house.doughs.first().map_or_else(String::new, |d| d.id.0.clone()),
            rolled: house.doughs.first().map_or(Length::mm_of(6.0), |d| d.rolled),
            baked: Length::mm_of(0.0),
            strip_cut: TestBiscuits::STRIP,
            strip_baked: Length::mm_of(0.0),
            hole_cut: TestBiscuits::HOLE,
            hole_baked: Length::mm_of(0.0),
            before: None,
            after: None,
            minutes: None,
        };
        let form = self.form.get_or_insert_with(begun);
        fields(ui, form, house, drafts);
        ui.add_space(6.0);
        match form.judge() {
            Ok(found) => {
                said(ui, &found, house.unit);
                if ui.button(tr!("Keep these biscuits")).clicked() {
                    notebook.biscuits.push(form.clone());
                    self.form = None;
                }
            }
            Err(_) if form.baked.mm() <= 0.0 && form.strip_baked.mm() <= 0.0 => {
                ui.label(tr!("Fill in what came out of the oven."));
            }
            Err(error) => {
                _ = ui.label(RichText::new(sentence(&error.to_string())).color(Palette::of(ui.ctx()).caution))
            }
        }
        kept(ui, house, notebook);
    }
}

fn fields(ui: &mut Ui, form: &mut TestBiscuits, house: &House, drafts: &mut Drafts) {
    let unit = house.unit;
    let combo =
        ComboBox::from_label(tr!("Dough")).selected_text(gable_shell::dough_words(&form.dough)).show_ui(ui, |ui| {
            for dough in &house.doughs {
                if ui.selectable_label(form.dough == dough.id.0, dough.id.words()).clicked() {
                    (form.dough, form.rolled) = (dough.id.0.clone(), dough.rolled);
                }
            }
        });
    let spoken = tr!("Dough: {}", gable_shell::dough_words(&form.dough));
    combo.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &spoken));
    Grid::new("biscuits").num_columns(3).spacing([12.0, 6.0]).show(ui, |ui| {
        ui.label("");
        ui.label(bold(tr!("As cut")));
        ui.label(bold(tr!("As baked")));
        ui.end_row();
        for (words, cut, baked) in [
            (tr!("Thickness"), &mut form.rolled, &mut form.baked),
            (tr!("Length of the strip"), &mut form.strip_cut, &mut form.strip_baked),
            (tr!("Width of the hole"), &mut form.hole_cut, &mut form.hole_baked),
        ] {
            ui.label(words);
            length(ui, &tr!("{words} as cut"), cut, drafts, unit);
            length(ui, &tr!("{words} as baked"), baked, drafts, unit);
            ui.end_row();
        }
        ui.label(tr!("Mass of both"));
        mass(ui, tr!("Mass before baking"), &mut form.before, drafts, unit);
        mass(ui, tr!("Mass after baking"), &mut form.after, drafts, unit);
        ui.end_row();
        ui.label(tr!("Minutes in the oven"));
        ui.label("");
        let shown = form.minutes.map_or_else(String::new, |m| decimal(m, 1));
        let read = |text: &str| if text.trim().is_empty() { Ok(None) } else { number(text).map(Some) };
        if let Some(minutes) = drafts.field(ui, tr!("Minutes in the oven"), (&shown, 90.0), read) {
            form.minutes = minutes;
        }
        ui.end_row();
    });
}

/// What two biscuits say.
fn said(ui: &mut Ui, found: &Found, unit: Unit) {
    ui.label(bold(tr!("What they say")));
    ui.label(tr!("The dough rises to {} times its thickness.", decimal(found.rise, 2)));
    let (share, edge) = (decimal(found.share.abs() * 100.0, 2), unit.print(found.edge));
    ui.label(if found.share < 0.0 {
        tr!("It shrinks by {share} %, and at each edge by {edge} beyond that.")
    } else {
        tr!("It grows by {share} %, and at each edge by {edge} beyond that.")
    });
    if let Some(loss) = found.loss {
        ui.label(tr!("It loses {} % of its mass.", decimal(loss * 100.0, 1)));
    }
}

/// What is kept of biscuits, the latest last.
fn kept(ui: &mut Ui, house: &House, notebook: &mut Notebook) {
    if notebook.biscuits.is_empty() {
        return;
    }
    ui.add_space(8.0);
    ui.label(bold(tr!("In your notebook, the latest counts")));
    let mut away = None;
    for (k, biscuits) in notebook.biscuits.iter().enumerate() {
        ui.horizontal(|ui| {
            let (rolled, baked) = (house.unit.print(biscuits.rolled), house.unit.print(biscuits.baked));
            ui.label(tr!("{}. Dough '{}', rolled {rolled}, baked {baked}", k + 1, biscuits.dough));
            let strike = ui.button(tr!("Strike out"));
            let spoken = tr!("Strike out biscuits {}", k + 1);
            strike.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
            if strike.clicked() {
                away = Some(k);
            }
        });
    }
    if let Some(k) = away {
        notebook.biscuits.remove(k);
    }
}
