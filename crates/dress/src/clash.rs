//! Whether everything that is put on or beside a house has the room that it takes: one check for panes, doors, ornaments
//! and what stands free, against the biscuit and against each other.

use crate::panes::flat::{convex_pieces, grown};
use crate::panes::solids::Solids;
use crate::{Dressed, OrnamentPiece};
use gable_measure::{Finding, Length, Severity};
use gable_plane::{Contour, P2, P3, Rigid, Solid, V3};
use gable_shell::{House, OpeningId, Solved};
use gable_words::tr;
use std::collections::BTreeSet;

/// More than this must be shared before two things are in each other's way, mm: a hair.
const HAIR: f64 = 0.3;
/// Things that share more than this clash, mm³: half a square millimetre of a leaf.
const CLASH: f64 = 0.05;
/// How closely arcs are followed, mm.
const LOOK: f64 = 0.05;
/// Sugar and doors lie against the sides of their openings: what they share with their own piece by rounding is nothing,
/// so they are looked at a little smaller, mm.
const LESS: f64 = 0.02;

/// What kind of thing it is: what is said about it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// A pane or a door.
    Closing,
    Ornament,
    /// What stands free.
    Free,
}

impl Kind {
    fn finding(self) -> (&'static str, &'static str) {
        match self {
            Self::Closing => ("pane-clash", tr!("move one of them, or open the door less")),
            Self::Ornament => ("ornament-in-the-way", tr!("make the ornament smaller, or leave one of them out")),
            Self::Free => ("extra-in-the-way", tr!("move it away, or make it smaller")),
        }
    }
}

struct Thing<'a> {
    kind: Kind,
    name: &'a str,
    place: String,
    /// The piece that it is stuck on, which it may touch.
    host: Option<usize>,
    /// Pieces of one thing that stands free, which are slotted into each other.
    family: Option<usize>,
    solids: Vec<Solid>,
    reach: (V3, V3),
}

/// Notes everything that would be where something else is.
pub(crate) fn clashes(
    house: &House,
    solved: &Solved,
    dressed: &Dressed,
    biscuit: &Solids,
    findings: &mut Vec<Finding>,
) {
    let things = things(house, solved, dressed);
    let mut said: BTreeSet<(&'static str, String)> = BTreeSet::new();
    let mut say = |thing: &Thing<'_>, other: &str| {
        let (kind, remedy) = thing.kind.finding();
        // Of an opening with many copies once.
        if thing.kind == Kind::Closing && !said.insert((kind, thing.place.clone())) {
            return;
        }
        let what = tr!("{} and {other} would be in the same place", thing.name);
        let (place, remedy) = (thing.place.clone(), remedy.to_owned());
        findings.push(Finding { kind, severity: Severity::Caution, place, what, remedy });
    };
    for (k, thing) in things.iter().enumerate() {
        for (piece, lumps) in biscuit.pieces.iter().enumerate().filter(|(piece, _)| Some(*piece) != thing.host) {
            if thing.meets_biscuit(lumps) {
                say(thing, &solved.pieces[piece].name);
            }
        }
        let kin = |other: &Thing<'_>| thing.family.is_some() && other.family == thing.family;
        for other in things[..k].iter().filter(|other| !kin(other) && thing.meets(&other.solids)) {
            say(thing, other.name);
        }
    }
}

fn things<'a>(house: &House, solved: &Solved, dressed: &'a Dressed) -> Vec<Thing<'a>> {
    let place = |piece: usize, opening: &OpeningId| {
        let part = solved.pieces.get(piece).map(|p| &p.part);
        let index = house.parts.iter().position(|p| Some(&p.id) == part);
        let own = |p: usize| house.parts[p].openings.iter().position(|o| o.id == *opening).map(|k| (p, k));
        index.and_then(own).map_or_else(String::new, |(p, k)| format!("parts[{p}].openings[{k}]"))
    };
    let mut found: Vec<Option<Thing<'a>>> = Vec::new();
    for p in &dressed.panes {
        let solids = sheet(&p.outline, p.thickness, &p.house_from_pane);
        found.push(Thing::new(Kind::Closing, (&p.name, place(p.piece, &p.opening)), solids));
    }
    for d in &dressed.doors {
        let solids = sheet(&d.outline, d.thickness, &d.house_from_door);
        found.push(Thing::new(Kind::Closing, (&d.name, place(d.piece, &d.opening)), solids));
    }
    for o in &dressed.ornaments {
        let thing = Thing::new(Kind::Ornament, (&o.name, o.id.clone()), slim(&o.solids()));
        found.push(thing.map(|t| Thing { host: o.host, ..t }));
    }
    for e in &dressed.extras {
        let at = format!("dressing.extras[{}]", e.ornament);
        found.push(
            Thing::new(Kind::Free, (&e.name, at), slim(&upright(e))).map(|t| Thing { family: Some(e.ornament), ..t }),
        );
    }
    found.into_iter().flatten().collect()
}

impl<'a> Thing<'a> {
    fn new(kind: Kind, (name, place): (&'a str, String), solids: Vec<Solid>) -> Option<Self> {
        let reach = solids.iter().map(Solid::bounds).reduce(|a, b| (a.0.inf(&b.0), a.1.sup(&b.1)))?;
        Some(Self { kind, name, place, host: None, family: None, solids, reach })
    }

    fn near(&self, solid: &Solid) -> bool {
        let (low, high) = solid.bounds();
        (0..3).all(|a| low[a] <= self.reach.1[a] && self.reach.0[a] <= high[a])
    }

    fn meets<'s>(&self, others: impl IntoIterator<Item = &'s Solid>) -> bool {
        let near: Vec<&Solid> = others.into_iter().filter(|s| self.near(s)).collect();
        let shared = |s: &Solid| near.iter().map(|o| s.shared_with(o)).sum::<f64>();
        !near.is_empty() && self.solids.iter().map(shared).sum::<f64>() > CLASH
    }

    /// Panes lie on biscuit: there a micrometre counts. Everything else may touch it by a hair.
    fn meets_biscuit(&self, lumps: &[Solid]) -> bool {
        if self.kind == Kind::Closing {
            return self.meets(lumps);
        }
        let near: Vec<Solid> = lumps.iter().filter(|s| self.near(s)).filter_map(slimmer).collect();
        self.meets(&near)
    }
}

/// A pane or a door as convex solids in the house.
fn sheet(outline: &Contour, thickness: Length, place: &Rigid) -> Vec<Solid> {
    let inner = grown(&outline.flatten(LOOK), -LESS);
    let rings = inner.iter().flat_map(|area| convex_pieces(area));
    rings.map(|ring| prism(&ring, thickness, place)).collect()
}

/// What stands free, with its inward corners.
fn upright(piece: &OrnamentPiece) -> Vec<Solid> {
    let rings: Vec<Vec<P2>> = std::iter::once(&piece.outline).chain(&piece.holes).cloned().collect();
    convex_pieces(&rings).iter().map(|ring| prism(ring, piece.thickness, &piece.house_from_piece)).collect()
}

fn prism(ring: &[P2], thickness: Length, place: &Rigid) -> Solid {
    let lift = |z: f64| ring.iter().map(|p| P3::new(p.x, p.y, z)).collect::<Vec<_>>();
    Solid::prism(&lift(0.0), &lift(thickness.mm())).moved(place)
}

fn slim(solids: &[Solid]) -> Vec<Solid> {
    solids.iter().filter_map(slimmer).collect()
}

/// Drawn in by half a hair on all sides, the other half is the other's.
fn slimmer(solid: &Solid) -> Option<Solid> {
    solid.grown(-HAIR / 2.0)
}

#[cfg(test)]
mod tests {
    use gable_measure::{Length, Unit};
    use gable_shell::{
        Extra, ExtraKind, Glass, Glazing, House, Mode, Opening, OpeningId, Ornament, OrnamentKind, SideId, solve,
    };

    fn kinds(house: &House) -> Vec<(&'static str, String)> {
        let found = crate::dress(house, &solve(house)).findings;
        found.into_iter().map(|f| (f.kind, f.place)).collect()
    }

    fn at(kind: ExtraKind, x: f64, y: f64) -> Extra {
        let mut extra = Extra::usual(kind);
        (extra.spot.x, extra.spot.y) = (Length::mm_of(x), Length::mm_of(y));
        extra
    }

    /// The walls of the plain house are at half its width and depth: what stands farther out is free, nearer is not.
    #[test]
    fn what_stands_free_keeps_off_walls_and_off_each_other() {
        let mut house = House::simple(Unit::Millimetre);
        let gable_shell::Outline::Rectangle { width, depth } = house.parts[0].outline else { panic!() };
        let (x, y) = (width.mm() / 2.0, depth.mm() / 2.0);
        house.dressing.extras = vec![at(ExtraKind::Tree, x + 80.0, 0.0), at(ExtraKind::Figure, x + 80.0, -90.0)];
        assert_eq!(kinds(&house), []);
        // A tree 60 wide in the wall, a sledge in the other tree.
        house.dressing.extras[0] = at(ExtraKind::Tree, x, 0.0);
        house.dressing.extras.push(at(ExtraKind::Sledge, x + 80.0, -90.0));
        house.dressing.extras.push(at(ExtraKind::Fence, 0.0, -y - 40.0));
        let found = kinds(&house);
        assert!(found.contains(&("extra-in-the-way", "dressing.extras[0]".to_owned())), "{found:?}");
        assert!(found.contains(&("extra-in-the-way", "dressing.extras[2]".to_owned())), "{found:?}");
        assert!(
            found.iter().all(|(_, place)| place != "dressing.extras[3]" && place != "dressing.extras[1]"),
            "{found:?}"
        );
    }

    /// Poured sugar 3 mm thick leaves 3 mm and more of the opening free; an ornament door as thick as the wall does not fit
    /// into that.
    #[test]
    fn panes_and_ornaments_do_not_fill_one_opening() {
        let mut house = House::simple(Unit::Millimetre);
        let mut window = Opening {
            id: OpeningId("window".into()),
            name: "Window".into(),
            side: SideId("front".into()),
            width: Length::mm_of(24.0),
            height: Length::mm_of(30.0),
            sill: Length::mm_of(20.0),
            mode: Mode::Glazed,
            ..Opening::default()
        };
        window.glazing = Glazing { glass: Glass::Poured, ..Glazing::default() };
        house.parts[0].openings = vec![window];
        let mut leaf = Ornament::usual(OrnamentKind::Door, house.parts[0].id.clone());
        leaf.opening = Some(OpeningId("window".into()));
        leaf.thickness = Length::mm_of(2.0);
        house.dressing.ornaments = vec![leaf.clone()];
        assert!(kinds(&house).iter().all(|(kind, _)| *kind != "ornament-in-the-way"));
        leaf.thickness = Length::mm_of(6.5);
        house.dressing.ornaments = vec![leaf];
        assert!(kinds(&house).iter().any(|(kind, _)| *kind == "ornament-in-the-way"));
    }
}
