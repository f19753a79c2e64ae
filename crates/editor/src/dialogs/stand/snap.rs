//! The snap test: what was measured of strips that were broken, and what that says.

use crate::adapters::sentence;
use crate::dialogs::bake::drafts::{Drafts, length, mass};
use crate::theme::{Palette, bold};
use egui::{ComboBox, Grid, RichText, Ui, WidgetInfo, accesskit::Role};
use gable_bake::{Figure, Mass, Notebook, SnapTest, Snapped, Spread, Strip};
use gable_measure::{Length, decimal};
use gable_shell::{House, dough_words};
use gable_words::tr;

/// What is measured, while the form is filled in.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct SnapForm {
    /// Begun with the first dough of the house.
    form: Option<Form>,
}

#[derive(Clone, Debug, PartialEq)]
struct Form {
    dough: String,
    span: Length,
    rows: Vec<Row>,
}

/// One strip as far as it is filled in.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Row {
    width: Length,
    thickness: Length,
    broke_at: Option<Mass>,
    load: Option<Mass>,
    sag: Length,
}

impl Default for Row {
    fn default() -> Self {
        let none = Length::ZERO;
        Self { width: SnapTest::WIDTH, thickness: none, broke_at: None, load: None, sag: none }
    }
}

impl Row {
    fn is_empty(&self) -> bool {
        Self { width: SnapTest::WIDTH, ..*self } == Self::default()
    }

    fn strip(&self) -> Strip {
        let sag = self.load.filter(|_| self.sag > Length::ZERO).map(|load| (load, self.sag));
        Strip { width: self.width, thickness: self.thickness, broke_at: self.broke_at.unwrap_or(Mass::ZERO), sag }
    }
}

impl Form {
    fn begun(house: &House) -> Self {
        let dough = house.doughs.first().map_or_else(String::new, |d| d.id.0.clone());
        Self { dough, span: SnapTest::SPAN, rows: vec![Row::default(); SnapTest::STRIPS] }
    }

    fn test(&self) -> SnapTest {
        let strips = self.rows.iter().filter(|r| !r.is_empty()).map(Row::strip).collect();
        SnapTest { dough: self.dough.clone(), span: self.span, strips }
    }
}

impl SnapForm {
    /// Shows the form; the notebook is changed by what the person keeps or strikes out.
    pub(super) fn show(&mut self, ui: &mut Ui, house: &House, notebook: &mut Notebook, drafts: &mut Drafts) {
        ui.label(
            tr!("How much biscuit carries is hardly published. Bake five strips of your dough and break them over two straight edges: \
             the pack has a page for it. From then on everything here goes by your biscuit."),
        );
        ui.add_space(6.0);
        let form = self.form.get_or_insert_with(|| Form::begun(house));
        fields(ui, form, house, drafts);
        ui.add_space(6.0);
        let test = form.test();
        match test.judge() {
            Ok(found) => {
                said(ui, &found);
                if ui.button(tr!("Keep these strips")).clicked() {
                    notebook.snaps.push(test);
                    self.form = None;
                }
            }
            Err(_) if test.strips.is_empty() => _ = ui.label(tr!("Fill in what you measured.")),
            Err(error) => {
                _ = ui.label(RichText::new(sentence(&error.to_string())).color(Palette::of(ui.ctx()).caution))
            }
        }
        kept(ui, house, notebook);
    }
}

fn fields(ui: &mut Ui, form: &mut Form, house: &House, drafts: &mut Drafts) {
    let unit = house.unit;
    ui.horizontal_wrapped(|ui| {
        ui.label(tr!("Dough"));
        let combo =
            ComboBox::from_id_salt("dough of strips").selected_text(dough_words(&form.dough)).show_ui(ui, |ui| {
                for dough in &house.doughs {
                    ui.selectable_value(&mut form.dough, dough.id.0.clone(), dough.id.words());
                }
            });
        let spoken = tr!("Dough: {}", dough_words(&form.dough));
        combo.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &spoken));
        ui.label(tr!("The edges are apart by"));
        length(ui, tr!("Distance of the edges"), &mut form.span, drafts, unit);
    });
    ui.add_space(4.0);
    Grid::new("strips").num_columns(6).min_col_width(74.0).spacing([12.0, 6.0]).show(ui, |ui| {
        for head in
            [tr!("Strip"), tr!("Width"), tr!("Thickness"), tr!("Broke at"), tr!("Smaller load"), tr!("Sag under it")]
        {
            ui.label(bold(head));
        }
        ui.end_row();
        for (number, row) in (1..).zip(&mut form.rows) {
            ui.label(number.to_string());
            let name = |what: &str| tr!("{what} of strip {number}");
            length(ui, &name(tr!("Width")), &mut row.width, drafts, unit);
            length(ui, &name(tr!("Thickness")), &mut row.thickness, drafts, unit);
            mass(ui, &name(tr!("Load at the break")), &mut row.broke_at, drafts, unit);
            mass(ui, &name(tr!("Smaller load")), &mut row.load, drafts, unit);
            length(ui, &name(tr!("Sag")), &mut row.sag, drafts, unit);
            ui.end_row();
        }
    });
    if ui.button(tr!("One more strip")).clicked() {
        form.rows.push(Row::default());
    }
    ui.small(tr!(
        "The smaller load and the sag under it may be left out; from two strips on they tell how stiff your biscuit is."
    ));
}

/// What strips say.
fn said(ui: &mut Ui, found: &Snapped) {
    ui.label(bold(tr!("What they say")));
    ui.label(tr!("Your biscuit carries {}.", spread(&found.strength)));
    match &found.stiffness {
        Some(stiffness) => ui.label(tr!("Its stiffness is {}.", spread(stiffness))),
        None => ui.label(tr!("How stiff it is was not measured; that stays as assumed.")),
    };
}

fn spread(spread: &Spread) -> String {
    let [low, mean, high] = [spread.low, spread.mean, spread.high].map(|v| decimal(v, if v < 10.0 { 2 } else { 0 }));
    tr!("{mean} MPa on average, {low} to {high} MPa to be expected")
}

/// What is kept of strips, the latest of each dough first.
fn kept(ui: &mut Ui, house: &House, notebook: &mut Notebook) {
    if notebook.snaps.is_empty() {
        return;
    }
    ui.add_space(8.0);
    ui.label(bold(tr!("In your notebook, the latest of each dough counts")));
    let set = [Figure::BiscuitStrength, Figure::BiscuitStiffness];
    if set.iter().any(|figure| notebook.figures.basis(*figure) == gable_bake::Basis::Own) {
        ui.label(tr!(
            "You have set strength or stiffness yourself, under 'Figures' in 'The bake': that counts more than strips."
        ));
    }
    let mut away = None;
    for (k, test) in notebook.snaps.iter().enumerate() {
        ui.horizontal_wrapped(|ui| {
            let carried =
                test.judge().map_or_else(|_| tr!("not to be used").to_owned(), |found| spread(&found.strength));
            let (count, span) = (test.strips.len(), house.unit.print(test.span));
            ui.label(tr!(
                "{}. Dough '{}', one strip over {span}: {carried}"
                    | "{}. Dough '{}', {n} strips over {span}: {carried}" % count,
                k + 1,
                dough_words(&test.dough)
            ));
            let strike = ui.button(tr!("Strike out"));
            let spoken = tr!("Strike out snap test {}", k + 1);
            strike.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
            if strike.clicked() {
                away = Some(k);
            }
        });
    }
    if let Some(k) = away {
        notebook.snaps.remove(k);
    }
}
