//! In which order the house is put up, and how the person wants it.

use crate::adapters::{capital, sentence};
use crate::fields::Form;
use crate::theme::{Palette, bold};
use crate::view::Shown;
use egui::accesskit::Role;
use egui::{Button, CollapsingHeader, RichText, ScrollArea, Ui, WidgetInfo};
use gable_raise::Guide;
use gable_shell::{Before, House, Piece, PieceId, Solved};
use gable_words::tr;

/// What a person asked of the list.
enum Asked {
    Show(PieceId),
    Order(Vec<Before>, &'static str),
}

/// The stages of the assembly, to be looked at and moved. Returns the piece that was clicked.
pub(crate) fn stages(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, shown: &Shown) -> Option<PieceId> {
    let mut asked = None;
    ScrollArea::vertical().id_salt("stages").auto_shrink([false, false]).show(ui, |ui| {
        let guide = shown.guide().and_then(|g| g.as_ref().ok());
        asked = wishes(ui, house, guide, &shown.solved);
        match shown.guide() {
            None => {
                ui.label(tr!("Looking for an order…"));
            }
            Some(Err(stuck)) => {
                ui.label(sentence(&stuck.to_string()));
            }
            Some(Ok(guide)) => {
                for k in 0..guide.stages.len() {
                    ui.push_id(k, |ui| asked = stage(ui, &shown.solved, house, guide, k).or(asked.take()));
                }
            }
        }
    });
    match asked? {
        Asked::Show(id) => Some(id),
        Asked::Order(order, name) => {
            house.order = order;
            form.touch("order", name);
            None
        }
    }
}

fn stage(ui: &mut Ui, solved: &Solved, house: &House, guide: &Guide, k: usize) -> Option<Asked> {
    let stage = &guide.stages[k];
    let name = stage.name(solved);
    let mut asked = None;
    ui.horizontal(|ui| {
        ui.label(bold(format!("{}.", k + 1)));
        let first = stage.steps.first().and_then(|s| solved.pieces.get(s.piece));
        if ui.button(capital(&name)).on_hover_text(tr!("Show it")).clicked() {
            asked = first.map(|p| Asked::Show(p.id.clone()));
        }
        let order =
            |at: usize| Asked::Order(guide.swapped(solved, &house.order, at), tr!("change of the order of assembly"));
        if step(ui, tr!("Earlier"), &name, k > 0) {
            asked = Some(order(k - 1));
        }
        if step(ui, tr!("Later"), &name, k + 1 < guide.stages.len()) {
            asked = Some(order(k));
        }
    });
    if stage.steps.len() > 1 {
        let pieces: Vec<&Piece> = stage.steps.iter().map(|s| &solved.pieces[s.piece]).collect();
        let names: Vec<&str> = pieces.iter().map(|p| own_name(p)).collect();
        let header = RichText::new(tr!("In this order: {}", names.join(", "))).small();
        CollapsingHeader::new(header).id_salt(("order of", k)).show(ui, |ui| {
            for (n, piece) in pieces.iter().enumerate() {
                asked = within(ui, solved, house, guide, (k, n), piece).or(asked.take());
            }
        });
    }
    asked
}

/// A piece of a stage that has several.
fn within(
    ui: &mut Ui,
    solved: &Solved,
    house: &House,
    guide: &Guide,
    (k, n): (usize, usize),
    piece: &Piece,
) -> Option<Asked> {
    let mut asked = None;
    let order = |at: usize| {
        Asked::Order(guide.swapped_within(solved, &house.order, (k, at)), tr!("change of the order of assembly"))
    };
    ui.horizontal(|ui| {
        if ui.button(capital(own_name(piece))).on_hover_text(tr!("Show it")).clicked() {
            asked = Some(Asked::Show(piece.id.clone()));
        }
        if step(ui, tr!("Earlier"), &piece.name, n > 0) {
            asked = Some(order(n - 1));
        }
        if step(ui, tr!("Later"), &piece.name, n + 1 < guide.stages[k].steps.len()) {
            asked = Some(order(n));
        }
    });
    asked
}

/// A button that moves something; its name says what.
fn step(ui: &mut Ui, words: &str, what: &str, possible: bool) -> bool {
    let button = ui.add_enabled(possible, Button::new(words));
    button.widget_info(|| WidgetInfo::labeled(Role::Button, possible, format!("{words}: {what}")));
    let tip = if words == tr!("Earlier") {
        tr!("Put it up before what comes before it now")
    } else {
        tr!("Put it up after what follows now")
    };
    button.on_hover_text(tip).clicked()
}

/// What the person wants of the order, with what cannot be had.
fn wishes(ui: &mut Ui, house: &House, guide: Option<&Guide>, solved: &Solved) -> Option<Asked> {
    if house.order.is_empty() {
        return None;
    }
    let palette = Palette::of(ui.ctx());
    let mut asked = None;
    ui.horizontal(|ui| {
        ui.label(bold(tr!("What you want of the order")));
        let tip = tr!("Strike out all of this: the program finds an order by itself");
        if ui.button(tr!("The usual order")).on_hover_text(tip).clicked() {
            asked = Some(Asked::Order(Vec::new(), tr!("return to the usual order of assembly")));
        }
    });
    for (index, before) in house.order.iter().enumerate() {
        let known = solved.wishes.iter().find(|w| w.index == index).map(|w| w.words.clone());
        let words = known.unwrap_or_else(|| tr!("{} before {}", before.first.words(house), before.then.words(house)));
        ui.horizontal_wrapped(|ui| {
            let button = ui.button(tr!("Strike out"));
            button.widget_info(|| WidgetInfo::labeled(Role::Button, true, tr!("Strike out: {words}")));
            if button.on_hover_text(tr!("Forget this wish")).clicked() {
                let mut order = house.order.clone();
                order.remove(index);
                asked = Some(Asked::Order(order, tr!("struck out wish about the order")));
            }
            ui.label(capital(&words));
            let refused = guide.and_then(|g| g.refused.iter().find(|(w, _)| w.index == index));
            if let Some((_, why)) = refused {
                let words = tr!("Cannot be had: {}.", Guide::because(why));
                ui.label(RichText::new(words).color(palette.caution));
            }
        });
    }
    ui.add_space(4.0);
    ui.separator();
    asked
}

/// 'left wall' of 'Main body: left wall'.
fn own_name(piece: &Piece) -> &str {
    piece.name.split_once(": ").map_or(piece.name.as_str(), |(_, own)| own)
}
