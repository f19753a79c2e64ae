use super::{asking, body};
use crate::adapters;
use crate::theme::{Palette, bold};
use egui::{Align2, Button, Context, RichText, TextEdit, Ui};
use gable_measure::{Length, Unit};
use gable_shell::kitchen::{Kitchen, Tools, Tray};
use gable_words::tr;

/// The trays that a person is writing down.
#[derive(Clone, Debug, Default)]
pub(crate) struct TrayChoice {
    name: String,
    /// Blade and bridge as they are typed.
    tools: [String; 2],
    /// What they come to; nothing while nobody has said.
    cuts: Option<Tools>,
    rows: Vec<Row>,
}

/// A tray, and what is typed for its sides where that is not just the side itself.
#[derive(Clone, Debug)]
struct Row {
    tray: Tray,
    typed: [Option<String>; 2],
}

impl Row {
    fn of(tray: Tray) -> Self {
        Self { tray, typed: [None, None] }
    }
}

impl TrayChoice {
    /// What is known so far.
    pub(crate) fn of(kitchen: &Kitchen, unit: Unit) -> Self {
        let tools = kitchen.tools.unwrap_or_default();
        let typed = [unit.print(tools.blade), tools.bridge.map_or_else(String::new, |b| unit.print(b))];
        Self {
            name: kitchen.name.clone(),
            tools: typed,
            cuts: kitchen.tools,
            rows: kitchen.trays.iter().cloned().map(Row::of).collect(),
        }
    }

    /// What was written down.
    pub(crate) fn kitchen(self) -> Kitchen {
        Kitchen {
            name: self.name.trim().to_owned(),
            trays: self.rows.into_iter().map(|row| row.tray).collect(),
            tools: self.cuts,
        }
    }
}

/// Asks what the person is called and bakes on. `Some(true)`: keep them; `Some(false)`: leave them as they were.
pub(crate) fn trays(ctx: &Context, choice: &mut TrayChoice, unit: Unit) -> Option<bool> {
    let mut answer = None;
    let modal = asking(ctx, "trays").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 520.0));
        ui.heading(tr!("Your kitchen"));
        let read = body(ui, |ui| {
            ui.label(tr!("What is yours, not a house's. It stays on your computer."));
            ui.add_space(8.0);
            name(ui, choice);
            ui.add_space(8.0);
            ui.label(bold(tr!("Trays")));
            ui.label(tr!(
                "What you bake on. You are told of every piece that fits on none of them, whichever way it lies."
            ));
            ui.label(tr!("Measure the flat inside: that is what a piece has to lie on."));
            ui.add_space(8.0);
            let read = rows(ui, choice, unit);
            more(ui, choice, unit);
            tools(ui, choice, unit) && read
        });
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            answer = ui.add_enabled(read, Button::new(tr!("Keep this"))).clicked().then_some(true);
            answer = answer.or(ui.button(tr!("Not now")).clicked().then_some(false));
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(false));
    }
    answer
}

/// The person's name, for what they draw.
fn name(ui: &mut Ui, choice: &mut TrayChoice) {
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(bold(tr!("Your name")));
        let field = TextEdit::singleline(&mut choice.name).char_limit(300).desired_width(260.0);
        ui.add(field.align(Align2::LEFT_CENTER)).labelled_by(label.id);
    });
    let words = tr!("When you change a house that somebody else drew, it says that it is yours, after their design.");
    ui.label(RichText::new(words).small());
}

/// A row for each tray; whether everything in them can be read.
fn rows(ui: &mut Ui, choice: &mut TrayChoice, unit: Unit) -> bool {
    let mut away = None;
    let mut read = true;
    for (k, row) in choice.rows.iter_mut().enumerate() {
        let number = k + 1;
        ui.horizontal_wrapped(|ui| {
            let label = ui.label(bold(tr!("Tray {number}")));
            let name = TextEdit::singleline(&mut row.tray.name).desired_width(220.0).align(Align2::LEFT_CENTER);
            ui.add(name).labelled_by(label.id);
            if ui.button(tr!("Remove")).on_hover_text(tr!("Strike out tray {number}")).clicked() {
                away = Some(k);
            }
        });
        ui.horizontal_wrapped(|ui| {
            for side in 0..2 {
                read &= side_field(ui, row, side, number, unit);
            }
        });
        ui.add_space(8.0);
    }
    if let Some(k) = away {
        choice.rows.remove(k);
    }
    read
}

fn side_field(ui: &mut Ui, row: &mut Row, side: usize, number: usize, unit: Unit) -> bool {
    let value = if side == 0 { &mut row.tray.width } else { &mut row.tray.depth };
    let label = ui.label(tr!("{} of tray {number}", if side == 0 { tr!("Width") } else { tr!("Depth") }));
    let mut text = row.typed[side].clone().unwrap_or_else(|| unit.print(*value));
    let field = TextEdit::singleline(&mut text).desired_width(90.0).align(Align2::LEFT_CENTER);
    let field = ui.add(field).labelled_by(label.id);
    if field.changed() {
        row.typed[side] = Some(text);
    }
    let Some(text) = &row.typed[side] else { return true };
    match side_of(text, unit) {
        Ok(length) => {
            *value = length;
            if field.lost_focus() {
                row.typed[side] = None;
            }
            true
        }
        Err(error) => {
            ui.label(RichText::new(error).color(Palette::of(ui.ctx()).blocking));
            false
        }
    }
}

/// Reads the side of a tray.
fn side_of(text: &str, unit: Unit) -> Result<Length, String> {
    let length = adapters::read_length(text, unit)?;
    let [least, most] = [Tray::SMALLEST, Tray::LARGEST];
    if (least..=most).contains(&length) {
        return Ok(length);
    }
    Err(tr!("Give {} to {}.", unit.print(least), unit.print(most)))
}

/// What the person cuts with; whether it can be read. What was never typed over stays unsaid.
fn tools(ui: &mut Ui, choice: &mut TrayChoice, unit: Unit) -> bool {
    ui.add_space(8.0);
    ui.label(bold(tr!("What you cut with")));
    let labels = [tr!("Narrowest blade or cutter"), tr!("Least biscuit to leave")];
    let mut touched = false;
    for (text, words) in choice.tools.iter_mut().zip(labels) {
        ui.horizontal_wrapped(|ui| {
            let label = ui.label(words);
            let field = TextEdit::singleline(text).desired_width(90.0).align(Align2::LEFT_CENTER);
            touched |= ui.add(field).labelled_by(label.id).changed();
        });
    }
    ui.label(RichText::new(tr!("Left empty, as much biscuit is to stay as the dough is thick.")).small());
    let read = |text: &str| {
        let length = adapters::read_length(text, unit)?;
        let most = Tools::WIDEST;
        if (Length::ZERO..=most).contains(&length) { Ok(length) } else { Err(tr!("Give up to {}.", unit.print(most))) }
    };
    let blade = read(&choice.tools[0]);
    let bridge = Some(choice.tools[1].trim()).filter(|t| !t.is_empty()).map(read).transpose();
    match (blade, bridge) {
        (Ok(blade), Ok(bridge)) => {
            if touched {
                choice.cuts = Some(Tools { blade, bridge });
            }
            true
        }
        (Err(error), _) | (_, Err(error)) => {
            ui.label(RichText::new(error).color(Palette::of(ui.ctx()).blocking));
            false
        }
    }
}

/// Buttons for trays that many people have.
fn more(ui: &mut Ui, choice: &mut TrayChoice, unit: Unit) {
    ui.label(bold(tr!("Add a tray; its sizes can be typed over")));
    ui.horizontal_wrapped(|ui| {
        for tray in Tray::usual() {
            let words = format!("{}, {} × {}", tray.name, unit.print_bare(tray.width), unit.print(tray.depth));
            if ui.button(words).clicked() {
                choice.rows.push(Row::of(tray));
            }
        }
    });
}
