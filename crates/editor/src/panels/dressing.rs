//! What faces are covered with, and what is stuck on beside openings and along roofs.

use super::part_sizes::words;
use super::sizes::heading;
use crate::fields::Form;
use crate::theme::bold;
use egui::Ui;
use gable_dress::{Dressed, Tally, duration, finish_amounts, glass_amounts};
use gable_shell::{
    Bond, Covering, Faces, Finish, House, OpeningId, Ornament, OrnamentKind, PartId, Share, SideId, Stuff, TileShape,
    Tint, Where,
};
use gable_words::tr;

/// As many shades as a file may have.
const MOST_SHADES: usize = 12;

/// Finishes of a whole part and what runs along its roof.
pub(super) fn part(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, id: &PartId, dressed: Option<&Dressed>) {
    heading(ui, tr!("Finish"));
    let lid = house.part(id).is_some_and(|p| p.lid.is_some());
    let faces = |which: Where| Faces { part: Some(id.clone()), which, side: None };
    finish(ui, form, house, (faces(Where::Walls), tr!("Walls")), dressed);
    finish(ui, form, house, (faces(Where::Slopes), tr!("Roof")), dressed);
    snow(ui, form, house, faces(Where::Slopes), dressed);
    if lid {
        finish(ui, form, house, (faces(Where::Lids), tr!("Lid")), dressed);
    }
    heading(ui, tr!("Ornaments"));
    let kinds = OrnamentKind::ALL.iter().map(|(_, kind)| *kind).filter(|kind| !kind.is_at_openings());
    for kind in kinds.filter(|kind| *kind != OrnamentKind::ChimneyCap || lid) {
        ornament(ui, form, house, Ornament::usual(kind, id.clone()));
    }
}

/// Finishes of all parts that say nothing of their own, and what stands beside the house.
pub(super) fn house(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, dressed: Option<&Dressed>) {
    heading(ui, tr!("Finish of the whole house"));
    let faces = |which: Where| Faces { which, ..Faces::default() };
    finish(ui, form, house, (faces(Where::Walls), tr!("Walls")), dressed);
    finish(ui, form, house, (faces(Where::Slopes), tr!("Roofs")), dressed);
    snow(ui, form, house, faces(Where::Slopes), dressed);
    totals(ui, form, house, dressed);
    super::beside::list(ui, form, house);
}

/// Finishes of one side.
pub(super) fn side(
    ui: &mut Ui,
    form: &mut Form<'_>,
    house: &mut House,
    (id, side): (&PartId, &SideId),
    dressed: Option<&Dressed>,
) {
    heading(ui, tr!("Finish of this side alone"));
    let faces = |which: Where| Faces { part: Some(id.clone()), which, side: Some(side.clone()) };
    finish(ui, form, house, (faces(Where::Walls), tr!("Wall")), dressed);
    finish(ui, form, house, (faces(Where::Slopes), tr!("Slope")), dressed);
}

/// Ornaments of one opening.
pub(super) fn opening(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, id: &PartId, opening: &OpeningId) {
    heading(ui, tr!("Ornaments"));
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
    let wider = |f: &Finish| f.faces.part.is_none() && f.faces.which == faces.which && !is_snow(f);
    let none = match (&faces.part, &faces.side) {
        (_, Some(_)) => tr!("As the other sides"),
        (Some(_), None) if house.dressing.finishes.iter().any(wider) => tr!("As the whole house"),
        _ => tr!("Bare biscuit"),
    };
    let coverings = Covering::USUAL.iter().filter(|(word, _)| *word != "snow");
    let mut choices = vec![("", none.to_owned())];
    choices.extend(coverings.map(|(word, covering)| (*word, crate::adapters::capital(covering.words()))));
    let field = format!("dressing.{:?}.{label}", faces);
    form.choice(ui, (&field, label, tr!("change of finish")), &mut word, &choices);
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

/// Later ones count: those of the whole house come first, then those of parts, then those of single sides.
fn put(house: &mut House, finish: Finish) {
    let rank = |f: &Finish| usize::from(f.faces.part.is_some()) + usize::from(f.faces.side.is_some());
    let finishes = &mut house.dressing.finishes;
    let at = finishes.iter().position(|f| rank(f) > rank(&finish)).unwrap_or(finishes.len());
    finishes.insert(at, finish);
}

fn snow(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, faces: Faces, dressed: Option<&Dressed>) {
    let own = |f: &Finish| f.faces == faces && is_snow(f);
    let at = house.dressing.finishes.iter().position(own);
    let mut there = at.is_some();
    form.tick(ui, ("dressing.snow", tr!("Snow along the eaves"), tr!("change of the snow")), &mut there);
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
    let change = tr!("change of a finish");
    match &mut finish.covering {
        Covering::Tiles { shape, .. } => {
            let shapes = words(&[
                (TileShape::Square, tr!("Square")),
                (TileShape::Rounded, tr!("Rounded")),
                (TileShape::Pointed, tr!("Pointed")),
                (TileShape::Staggered, tr!("Staggered")),
            ]);
            form.choice(ui, (&at("shape"), tr!("Lower end"), change), shape, &shapes);
        }
        Covering::Brick { bond, .. } => {
            let bonds = words(&[
                (Bond::Stretcher, tr!("Stretcher bond")),
                (Bond::English, tr!("English bond")),
                (Bond::Flemish, tr!("Flemish bond")),
            ]);
            form.choice(ui, (&at("bond"), tr!("Bond"), change), bond, &bonds);
        }
        Covering::HalfTimber { braces, .. } => {
            form.tick(ui, (&at("braces"), tr!("Braces in the end bays"), change), braces)
        }
        _ => {}
    }
    for (key, size) in finish.covering.sizes_mut() {
        form.length(ui, (&at(key), size_name(key), change), size);
    }
    let stuffs: Vec<(Stuff, String)> = Stuff::ALL.iter().map(|s| (*s, crate::adapters::capital(s.words()))).collect();
    form.choice(ui, (&at("made_of"), tr!("Made of"), change), &mut finish.stuff, &stuffs);
    form.length(ui, (&at("thickness"), tr!("Thickness"), change), &mut finish.thickness);
    shades(ui, form, &mut finish.shades, &at("shades"));
}

/// The colours of a finish and how much of each.
fn shades(ui: &mut Ui, form: &mut Form<'_>, shades: &mut Vec<Share>, place: &str) {
    let (tints, change) = (tints(), tr!("change of a shade"));
    let several = shades.len() > 1;
    for (n, share) in shades.iter_mut().enumerate() {
        let at = |key: &str| format!("{place}[{n}].{key}");
        form.choice(ui, (&at("tint"), &tr!("Shade {}", n + 1), change), &mut share.tint, &tints);
        if several {
            form.number(ui, (&at("share"), &tr!("Parts of shade {}", n + 1), change), &mut share.share);
        }
    }
    ui.horizontal(|ui| {
        let unused = Tint::ALL.iter().find(|t| shades.iter().all(|s| s.tint != **t));
        if let Some(&tint) = unused.filter(|_| shades.len() < MOST_SHADES)
            && ui.button(tr!("Add a shade")).clicked()
        {
            shades.push(Share { tint, share: 1.0 });
            form.touch(place, tr!("added shade"));
        }
        if several && ui.button(tr!("Remove the last shade")).clicked() {
            shades.pop();
            form.touch(place, tr!("removed shade"));
        }
    });
}

/// How fast the person works, and what all finishes and the glazing come to.
fn totals(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, dressed: Option<&Dressed>) {
    let Some(dressed) = dressed.filter(|d| !d.finishes.is_empty() || !d.panes.is_empty()) else { return };
    heading(ui, tr!("What the finishes take"));
    let rates = &mut house.dressing.rates;
    let change = tr!("change of the rates");
    form.number(ui, ("dressing.rates.set", tr!("Seconds to set a piece"), change), &mut rates.set);
    form.number(ui, ("dressing.rates.cut", tr!("Seconds more to cut one"), change), &mut rates.cut);
    form.number(ui, ("dressing.rates.pipe", tr!("Seconds to pipe 100 mm"), change), &mut rates.pipe);
    let amounts = finish_amounts(house, dressed);
    for line in amounts.iter().map(|a| a.sentence(house)).chain(glass_amounts(dressed).iter().map(|g| g.sentence())) {
        ui.small(line);
    }
    let minutes: f64 = amounts.iter().map(|a| a.tally.minutes).sum();
    ui.label(bold(tr!("About {} of work in all", duration(minutes))));
}

pub(super) fn tints() -> Vec<(Tint, String)> {
    Tint::ALL.iter().map(|tint| (*tint, crate::adapters::capital(tint.words()))).collect()
}

fn size_name(key: &str) -> &'static str {
    match key {
        "width" => tr!("Width"),
        "length" => tr!("Length"),
        "height" => tr!("Height"),
        "exposure" => tr!("Shows of each"),
        "joint" => tr!("Mortar"),
        "size" => tr!("Usual stone"),
        "board" => tr!("Board"),
        "batten" => tr!("Batten"),
        "timber" => tr!("Timber"),
        "bay" => tr!("Bay at most"),
        "depth" => tr!("Up the roof"),
        _ => tr!("Tongue"),
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
    let shade = |n: usize| tr!("{} {} whole, {} cut", finish.shades[n].tint.words(), sum.whole[n], sum.cut[n]);
    let shades: Vec<String> = (0..finish.shades.len()).map(shade).collect();
    ui.small(format!("{}.", crate::adapters::capital(&shades.join("; "))));
    ui.small(tr!(
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
    let word = super::ornament::word(usual.kind);
    let field = format!("dressing.{}.{:?}", usual.kind.word(), usual.opening);
    form.tick(ui, (&field, &word, tr!("change of an ornament")), &mut there);
    let Some(k) = at else {
        house.dressing.ornaments.extend(there.then_some(usual));
        return;
    };
    if there {
        super::ornament::fields(ui, form, house, k);
    } else {
        house.dressing.ornaments.remove(k);
    }
}
