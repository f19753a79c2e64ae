//! What faces are covered with, and what is stuck on beside openings and along roofs.

use super::part_sizes::words;
use super::sizes::heading;
use crate::fields::Form;
use egui::Ui;
use gable_dress::{Dressed, Tally};
use gable_shell::{
    Bond, Covering, Faces, Finish, House, OpeningId, Ornament, OrnamentKind, PartId, SideId, Stuff, Style, TileShape,
    Tint, Where,
};

/// Finishes of a whole part and what runs along its roof.
pub(super) fn part(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, id: &PartId, dressed: Option<&Dressed>) {
    heading(ui, "Finish");
    let lid = house.part(id).is_some_and(|p| p.lid.is_some());
    let faces = |which: Where| Faces { part: Some(id.clone()), which, side: None };
    finish(ui, form, house, (faces(Where::Walls), "Walls"), dressed);
    finish(ui, form, house, (faces(Where::Slopes), "Roof"), dressed);
    snow(ui, form, house, faces(Where::Slopes), dressed);
    if lid {
        finish(ui, form, house, (faces(Where::Lids), "Lid"), dressed);
    }
    heading(ui, "Ornaments");
    let kinds = OrnamentKind::ALL.iter().map(|(_, kind)| *kind).filter(|kind| !kind.is_at_openings());
    for kind in kinds.filter(|kind| *kind != OrnamentKind::ChimneyCap || lid) {
        ornament(ui, form, house, Ornament::usual(kind, id.clone()));
    }
}

/// Finishes of one side.
pub(super) fn side(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    (id, side): (&PartId, &SideId),
    dressed: Option<&Dressed>,
) {
    heading(ui, "Finish of this side alone");
    let faces = |which: Where| Faces { part: Some(id.clone()), which, side: Some(side.clone()) };
    finish(ui, form, house, (faces(Where::Walls), "Wall"), dressed);
    finish(ui, form, house, (faces(Where::Slopes), "Slope"), dressed);
}

/// Ornaments of one opening.
pub(super) fn opening(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, id: &PartId, opening: &OpeningId) {
    heading(ui, "Ornaments");
    for kind in OrnamentKind::ALL.iter().map(|(_, kind)| *kind).filter(|kind| kind.is_at_openings()) {
        let usual = Ornament::usual(kind, id.clone());
        ornament(ui, form, house, Ornament { opening: Some(opening.clone()), ..usual });
    }
}

fn is_snow(finish: &Finish) -> bool {
    matches!(finish.covering, Covering::Snow { .. })
}

/// One finish: what it is and, if there is one, its sizes and amounts.
fn finish(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    (faces, label): (Faces, &str),
    dressed: Option<&Dressed>,
) {
    let own = |f: &Finish| f.faces == faces && !is_snow(f);
    let at = house.dressing.finishes.iter().position(own);
    let old = at.map_or("", |k| house.dressing.finishes[k].covering.word());
    let mut word = old;
    let none = if faces.side.is_some() { "As the other sides" } else { "Bare biscuit" };
    let coverings = Covering::USUAL.iter().filter(|(word, _)| *word != "snow");
    let mut choices = vec![("", none.to_owned())];
    choices.extend(coverings.map(|(word, covering)| (*word, crate::adapters::capital(covering.words()))));
    let field = format!("dressing.{:?}.{label}", faces);
    form.choice(ui, (&field, label, "change of finish"), &mut word, &choices);
    if word != old {
        let covering = Covering::USUAL.iter().find(|(own, _)| *own == word).map(|(_, covering)| *covering);
        house.dressing.finishes.retain(|f| !own(f));
        if let Some(covering) = covering {
            put(house, Finish::usual(covering, faces));
        }
    } else if let Some(k) = at {
        sizes(ui, form, house, k);
        amounts(ui, form, house, k, dressed);
    }
}

/// Finishes of one side count before those of the whole part, so they come later in the list.
fn put(house: &mut House, finish: Finish) {
    let finishes = &mut house.dressing.finishes;
    let first_of_side = finishes.iter().position(|f| f.faces.side.is_some());
    let at = if finish.faces.side.is_some() { finishes.len() } else { first_of_side.unwrap_or(finishes.len()) };
    finishes.insert(at, finish);
}

fn snow(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, faces: Faces, dressed: Option<&Dressed>) {
    let own = |f: &Finish| f.faces == faces && is_snow(f);
    let at = house.dressing.finishes.iter().position(own);
    let mut there = at.is_some();
    form.tick(ui, ("dressing.snow", "Snow along the eaves", "change of the snow"), &mut there);
    match at {
        Some(k) if there => {
            sizes(ui, form, house, k);
            amounts(ui, form, house, k, dressed);
        }
        Some(k) => {
            house.dressing.finishes.remove(k);
        }
        None if there => {
            let snow = Covering::USUAL.iter().find(|(word, _)| *word == "snow").map(|(_, covering)| *covering);
            house.dressing.finishes.extend(snow.map(|covering| Finish::usual(covering, faces)));
        }
        None => {}
    }
}

fn sizes(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) {
    let at = |key: &str| format!("dressing.finishes[{k}].{key}");
    let finish = &mut house.dressing.finishes[k];
    let change = "change of a finish";
    match &mut finish.covering {
        Covering::Tiles { shape, .. } => {
            let shapes = words(&[
                (TileShape::Square, "Square"),
                (TileShape::Rounded, "Rounded"),
                (TileShape::Pointed, "Pointed"),
                (TileShape::Staggered, "Staggered"),
            ]);
            form.choice(ui, (&at("shape"), "Lower end", change), shape, &shapes);
        }
        Covering::Brick { bond, .. } => {
            let bonds = words(&[
                (Bond::Stretcher, "Stretcher bond"),
                (Bond::English, "English bond"),
                (Bond::Flemish, "Flemish bond"),
            ]);
            form.choice(ui, (&at("bond"), "Bond", change), bond, &bonds);
        }
        Covering::HalfTimber { braces, .. } => form.tick(ui, (&at("braces"), "Braces in the end bays", change), braces),
        _ => {}
    }
    for (key, size) in finish.covering.sizes_mut() {
        form.length(ui, (&at(key), size_name(key), change), size);
    }
    let stuffs: Vec<(Stuff, String)> = Stuff::ALL.iter().map(|s| (*s, crate::adapters::capital(s.words()))).collect();
    form.choice(ui, (&at("made_of"), "Made of", change), &mut finish.stuff, &stuffs);
    form.length(ui, (&at("thickness"), "Thickness", change), &mut finish.thickness);
    let tints = tints();
    for (n, share) in finish.shades.iter_mut().enumerate() {
        let field = at(&format!("shades[{n}].tint"));
        form.choice(ui, (&field, &format!("Shade {}", n + 1), "change of a shade"), &mut share.tint, &tints);
    }
}

fn tints() -> Vec<(Tint, String)> {
    Tint::ALL.iter().map(|tint| (*tint, crate::adapters::capital(tint.word()))).collect()
}

fn size_name(key: &str) -> &'static str {
    match key {
        "width" => "Width",
        "length" => "Length",
        "height" => "Height",
        "exposure" => "Shows of each",
        "joint" => "Mortar",
        "size" => "Usual stone",
        "board" => "Board",
        "batten" => "Batten",
        "timber" => "Timber",
        "bay" => "Bay at most",
        "depth" => "Up the roof",
        _ => "Tongue",
    }
}

/// How many units there are of each shade, and what they come to.
fn amounts(ui: &mut Ui, form: &Form<'_>, house: &House, k: usize, dressed: Option<&Dressed>) {
    let mut sum = Tally::default();
    let faces = dressed.iter().flat_map(|d| &d.finishes).filter(|c| c.finish == k);
    faces.for_each(|c| sum.add(&c.tally));
    let finish = &house.dressing.finishes[k];
    if sum.face <= 0.0 || sum.whole.len() != finish.shades.len() {
        return;
    }
    let shade = |n: usize| format!("{} {} whole, {} cut", finish.shades[n].tint.word(), sum.whole[n], sum.cut[n]);
    let shades: Vec<String> = (0..finish.shades.len()).map(shade).collect();
    ui.small(format!("{}.", crate::adapters::capital(&shades.join("; "))));
    ui.small(format!(
        "{:.0} cm², {:.0} g of {}, {} to pipe, about {:.0} min.",
        sum.covered / 100.0,
        sum.mass,
        finish.stuff.words(),
        form.unit.print(sum.piping),
        sum.minutes.ceil()
    ));
}

/// An ornament that can be there or not, with its size.
fn ornament(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, usual: Ornament) {
    let own = |o: &Ornament| o.kind == usual.kind && o.part == usual.part && o.opening == usual.opening;
    let at = house.dressing.ornaments.iter().position(own);
    let mut there = at.is_some();
    let word = crate::adapters::capital(&usual.kind.word().replace('-', " "));
    let field = format!("dressing.{}.{:?}", usual.kind.word(), usual.opening);
    form.tick(ui, (&field, &word, "change of an ornament"), &mut there);
    let Some(k) = at else {
        house.dressing.ornaments.extend(there.then_some(usual));
        return;
    };
    if !there {
        house.dressing.ornaments.remove(k);
        return;
    }
    let at = |key: &str| format!("dressing.ornaments[{k}].{key}");
    let ornament = &mut house.dressing.ornaments[k];
    let name = crate::adapters::capital(ornament.kind.size_words());
    form.length(ui, (&at("size"), &name, "change of an ornament"), &mut ornament.size);
    if matches!(ornament.kind, OrnamentKind::Shutters | OrnamentKind::Door | OrnamentKind::WindowBox) {
        let styles = words(&[
            (Style::Plain, "Plain"),
            (Style::Slatted, "Slatted"),
            (Style::Boarded, "Boarded"),
            (Style::Battened, "Boarded, with battens"),
        ]);
        form.choice(ui, (&at("style"), "Pressed lines", "change of an ornament"), &mut ornament.style, &styles);
    }
    form.choice(ui, (&at("tint"), "Colour", "change of an ornament"), &mut ornament.tint, &tints());
}
