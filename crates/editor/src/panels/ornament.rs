//! What is made apart and stuck on.

use super::dressing::tints;
use super::part_sizes::words;
use crate::fields::Form;
use crate::selection::Selection;
use crate::table::ornaments::bearer;
use egui::Ui;
use gable_shell::{House, Opening, Ornament, OrnamentKind, Part, Style, Surface};
use gable_words::tr;

/// What a kind of ornament is called.
pub(super) fn word(kind: OrnamentKind) -> String {
    crate::adapters::capital(kind.words())
}

/// What people call an ornament: 'Shutters of Window', 'Bargeboard of Main body'.
pub(crate) fn ornament_name(house: &House, k: usize) -> String {
    let Some(ornament) = house.dressing.ornaments.get(k) else { return String::new() };
    let part = house.part(&ornament.part);
    let opening = part.and_then(|p| p.openings.iter().find(|o| Some(&o.id) == ornament.opening.as_ref()));
    let whose = opening.map(|o| &o.name).or(part.map(|p| &p.name)).cloned().unwrap_or_default();
    tr!("{} of {whose}", word(ornament.kind))
}

/// The sizes of one ornament; `next` is what is selected from then on.
pub(super) fn one(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize, next: &mut Selection) {
    if k >= house.dressing.ornaments.len() {
        return;
    }
    ui.label(tr!("It is made apart and stuck on, and follows the size of what it belongs to."));
    fields(ui, form, house, k);
    let whole = bearer(house, k);
    if ui.button(tr!("What it belongs to")).on_hover_text(tr!("Show the sizes of that")).clicked() {
        *next = whole.clone();
    }
    let missing = without(house, k);
    let tip = tr!("Copy it to every opening, or every part, that is of the same sort and has none");
    if !missing.is_empty() && ui.button(tr!("The same on others")).on_hover_text(tip).clicked() {
        house.dressing.ornaments.extend(missing);
        form.touch("dressing.ornaments", tr!("copies of an ornament"));
    }
    if ui.button(tr!("Remove {}", ornament_name(house, k))).clicked() {
        house.dressing.ornaments.remove(k);
        form.touch("dressing.ornaments", tr!("removed ornament"));
        *next = whole;
    }
}

/// Copies for whatever could have the same and has none of that kind: doors for doors, windows for windows, parts for parts.
fn without(house: &House, k: usize) -> Vec<Ornament> {
    let Some(own) = house.dressing.ornaments.get(k) else { return Vec::new() };
    let has = |copy: &Ornament| {
        let same = |o: &Ornament| o.kind == own.kind && o.part == copy.part;
        house.dressing.ornaments.iter().any(|o| same(o) && (o.opening.is_none() || o.opening == copy.opening))
    };
    let free = house.parts.iter().filter(|p| !p.locked);
    let copies: Vec<Ornament> = match &own.opening {
        None if own.kind == OrnamentKind::ChimneyCap => {
            free.filter(|p| p.lid.is_some()).map(|p| Ornament { part: p.id.clone(), ..own.clone() }).collect()
        }
        None => free.map(|p| Ornament { part: p.id.clone(), side: None, ..own.clone() }).collect(),
        Some(id) => {
            let openings = || house.parts.iter().flat_map(|p| p.openings.iter().map(move |o| (p, o)));
            let sort = |o: &Opening| (o.face == Surface::Wall, o.sill.mm() <= 0.0);
            let wanted = openings().find(|(p, o)| p.id == own.part && &o.id == id).map(|(_, o)| sort(o));
            let alike = openings().filter(|(p, o)| !p.locked && Some(sort(o)) == wanted && !o.shape.is_whole_face());
            let copy = |(p, o): (&Part, &Opening)| Ornament {
                part: p.id.clone(),
                opening: Some(o.id.clone()),
                side: None,
                ..own.clone()
            };
            alike.map(copy).collect()
        }
    };
    copies.into_iter().filter(|copy| !has(copy)).collect()
}

/// Its size, pressed lines and colour.
pub(super) fn fields(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) {
    let at = |key: &str| format!("dressing.ornaments[{k}].{key}");
    let ornament = &mut house.dressing.ornaments[k];
    let name = crate::adapters::capital(ornament.kind.size_words());
    form.length(ui, (&at("size"), &name, tr!("change of an ornament")), &mut ornament.size);
    if matches!(ornament.kind, OrnamentKind::Shutters | OrnamentKind::Door | OrnamentKind::WindowBox) {
        let styles = words(&[
            (Style::Plain, tr!("Plain")),
            (Style::Slatted, tr!("Slatted")),
            (Style::Boarded, tr!("Boarded")),
            (Style::Battened, tr!("Boarded, with battens")),
        ]);
        form.choice(
            ui,
            (&at("style"), tr!("Pressed lines"), tr!("change of an ornament")),
            &mut ornament.style,
            &styles,
        );
    }
    form.choice(ui, (&at("tint"), tr!("Colour"), tr!("change of an ornament")), &mut ornament.tint, &tints());
}
