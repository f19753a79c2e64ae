//! Whether panes and doors have the room that they take.

use super::flat::convex_pieces;
use super::solids::Solids;
use super::{Closed, Job, Notes};
use gable_measure::{Length, Severity};
use gable_plane::{Contour, P3, Rigid, Solid, V3};
use gable_shell::{OpeningId, Solved};

/// Things that share more than this clash, mm³: half a square millimetre of a leaf.
const CLASH: f64 = 0.05;
/// How closely arcs are followed, mm.
const LOOK: f64 = 0.05;
/// Sugar and doors lie against the sides of their openings: what they share with their own piece by rounding is nothing,
/// so they are looked at a little smaller, mm.
const LESS: f64 = 0.02;

/// Something that takes room in or behind an opening.
struct Thing<'a> {
    name: &'a str,
    piece: usize,
    opening: &'a OpeningId,
    solids: Vec<Solid>,
    reach: (V3, V3),
}

impl<'a> Thing<'a> {
    fn new(
        (name, piece, opening): (&'a str, usize, &'a OpeningId),
        outline: &Contour,
        thickness: Length,
        place: &Rigid,
    ) -> Option<Self> {
        let inner = super::flat::grown(&outline.flatten(LOOK), -LESS);
        let rings = inner.iter().flat_map(|area| convex_pieces(area));
        let solid = |ring: Vec<gable_plane::P2>| {
            let lift = |z: f64| ring.iter().map(|p| P3::new(p.x, p.y, z)).collect::<Vec<_>>();
            Solid::prism(&lift(0.0), &lift(thickness.mm())).moved(place)
        };
        let solids: Vec<Solid> = rings.map(solid).collect();
        let reach = solids.iter().map(Solid::bounds).reduce(|a, b| (a.0.inf(&b.0), a.1.sup(&b.1)))?;
        Some(Self { name, piece, opening, solids, reach })
    }

    fn meets(&self, others: &[Solid]) -> bool {
        let near = |s: &&Solid| {
            let (low, high) = s.bounds();
            (0..3).all(|a| low[a] <= self.reach.1[a] && self.reach.0[a] <= high[a])
        };
        let near: Vec<&Solid> = others.iter().filter(near).collect();
        let shared = |s: &Solid| near.iter().map(|o| s.shared_with(o)).sum::<f64>();
        !near.is_empty() && self.solids.iter().map(shared).sum::<f64>() > CLASH
    }
}

/// Panes and doors against the biscuit and against each other.
pub(super) fn clashes(closed: &Closed, solved: &Solved, solids: &Solids, jobs: &[Job<'_>], notes: &mut Notes<'_>) {
    let panes = closed
        .panes
        .iter()
        .filter_map(|p| Thing::new((&p.name, p.piece, &p.opening), &p.outline, p.thickness, &p.house_from_pane));
    let doors = closed
        .doors
        .iter()
        .filter_map(|d| Thing::new((&d.name, d.piece, &d.opening), &d.outline, d.thickness, &d.house_from_door));
    let things: Vec<Thing<'_>> = panes.chain(doors).collect();
    let mut said = |thing: &Thing<'_>, other: &str| {
        let job = jobs.iter().find(|j| j.index == thing.piece && j.shown.id == *thing.opening);
        let what = format!("{} and {other} would be in the same place", thing.name);
        let place = job.map_or("", |j| j.place.as_str());
        notes.add(Severity::Caution, "pane-clash", place, what, "move one of them, or open the door less");
    };
    for (k, thing) in things.iter().enumerate() {
        for (piece, biscuit) in solids.pieces.iter().enumerate() {
            if thing.meets(biscuit) {
                said(thing, &solved.pieces[piece].name);
            }
        }
        for other in things[..k].iter().filter(|other| thing.meets(&other.solids)) {
            said(thing, other.name);
        }
    }
}
