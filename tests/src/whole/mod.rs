//! Whether a house of several parts closes.
//!
//! What is judged: the pieces and joints as data, and the typed sizes of each part put where
//! [`gable_shell::SolvedPart::house_from_part`] says. Of two parts one stays whole: by the person's decision, else the one
//! that says so, else the earlier in the list. The part that stays whole is called the obstacle here, the other is cut.

mod account;
mod contact;
mod free;
mod hidden;
mod neighbours;
mod openings;
mod posts;
mod seal;
mod sizes;

use crate::body::{Body, holes_of};
use crate::envelope::Envelope;
use crate::hull::{Hull, Tag};
use crate::judge::{Case, Fault};
use gable_plane::{P2, P3};
use gable_shell::{Behind, FloorKind, House, Part, Place, Role, Solved};
use manifold_rust::manifold::Manifold;
use std::collections::BTreeMap;

/// How far a side without a wall may stand off the part that closes it, mm: a gap, and rounding.
const LEANS: f64 = 2.0;

/// A house of any number of parts and what the solver made of it.
pub struct Whole<'a> {
    case: Case<'a>,
    parts: Vec<Standing<'a>>,
}

/// A part where it stands.
struct Standing<'a> {
    part: &'a Part,
    envelope: Envelope,
    /// Height of its foot above the board.
    level: f64,
    /// Whether it stands on a roof.
    on_roof: bool,
    /// Its pieces.
    pieces: Vec<usize>,
}

impl<'a> Whole<'a> {
    /// Makes solids of all that there is; `None` when a part has no place.
    pub fn new(house: &'a House, solved: &'a Solved) -> Option<Self> {
        let mut parts: Vec<Standing<'a>> = Vec::new();
        for part in &house.parts {
            let place = solved.parts.iter().find(|p| p.id == part.id)?.house_from_part;
            let on_roof = !matches!(part.place, Place::Ground(_) | Place::Against { .. });
            let host = part.place.host().and_then(|id| parts.iter().find(|p| &p.part.id == id)).filter(|_| on_roof);
            let foot = host.map_or(0.0, |host| {
                let under = |p: &P2| lowest_roof(&host.envelope.inner, &(place * P3::new(p.x, p.y, 0.0)));
                let own = Envelope::own_planes(part).0;
                own.iter().map(under).fold(place.translation.z, f64::min) - place.translation.z
            });
            let pieces = (0..solved.pieces.len()).filter(|&k| solved.pieces[k].part == part.id).collect();
            let envelope = Envelope::standing(house, part, &place, foot);
            parts.push(Standing { part, envelope, level: place.translation.z, on_roof, pieces });
        }
        let body =
            |p: &gable_shell::Piece| Body::with_holes(p, &house.part(&p.part).map_or(vec![], |part| holes_of(p, part)));
        let bodies = solved.pieces.iter().map(body).collect();
        let case = Case::of(house, solved, parts.first()?.envelope.clone(), bodies);
        Some(Self { case, parts })
    }

    /// The same, with so much icing, mm, allowed round pieces that are baked already.
    #[must_use]
    pub fn bridging(self, bridged: f64) -> Self {
        Self { case: self.case.bridging(bridged), ..self }
    }

    /// All checks but the seal, which is slow.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = self.case.contract();
        if faults.is_empty() {
            faults.extend(self.case.overlaps());
            faults.extend(self.case.icing_overlaps());
            faults.extend(self.contacts());
            faults.extend(self.neighbours());
            faults.extend(self.account());
            faults.extend(self.sizes());
            faults.extend(self.posts());
        }
        faults
    }

    /// Pairs of pieces that share room.
    pub fn overlaps(&self) -> Vec<Fault> {
        self.case.overlaps()
    }

    /// Whether part `a` stays whole where it meets part `b`.
    fn stays_whole(&self, a: usize, b: usize) -> bool {
        let (one, other) = (self.parts[a].part, self.parts[b].part);
        for decided in &self.case.house.decided {
            if (&decided.whole, &decided.cut) == (&one.id, &other.id) {
                return true;
            }
            if (&decided.whole, &decided.cut) == (&other.id, &one.id) {
                return false;
            }
        }
        if one.stays_whole == other.stays_whole { a < b } else { one.stays_whole }
    }

    /// The parts that a part is cut to, wherever they are.
    fn obstacles(&self, part: usize) -> impl Iterator<Item = usize> + '_ {
        (0..self.parts.len()).filter(move |&other| other != part && self.stays_whole(other, part))
    }

    /// The parts that have a passage into a part.
    fn passages(&self, part: usize) -> impl Iterator<Item = usize> + '_ {
        let id = &self.parts[part].part.id;
        let through = move |k: &usize| {
            let guest = self.parts[*k].part;
            guest.behind != Behind::Whole && guest.place.host() == Some(id)
        };
        (0..self.parts.len()).filter(through)
    }

    /// Sides without a wall that no other part closes.
    fn open_sides(&self, part: usize) -> Vec<Tag> {
        let standing = &self.parts[part];
        let bare = standing.part.sides.iter().enumerate().filter(|(_, side)| !side.wall).map(|(k, _)| Tag::Wall(k));
        let mut open: Vec<Tag> = bare.filter(|&tag| !self.leans(part, tag)).collect();
        if standing.level > 1e-6 && !standing.on_roof && standing.part.floor.kind == FloorKind::None {
            open.push(Tag::Base);
        }
        open
    }

    /// Whether a face of a part lies in others, which close it.
    fn leans(&self, part: usize, tag: Tag) -> bool {
        let corners = self.parts[part].envelope.theory.face(tag);
        let middle = corners.iter().map(|p| p.coords).sum::<gable_plane::V3>() / corners.len().max(1) as f64;
        let shares = [0.02, 0.25, 0.5, 0.75, 1.0];
        corners.iter().all(|p| {
            let mut points = shares.iter().map(|s| P3::from(p.coords + (middle - p.coords) * *s));
            points.all(|p| (0..self.parts.len()).any(|k| k != part && self.parts[k].envelope.outer.excess(&p) < LEANS))
        })
    }

    /// What is no room for others: a part up to its upper faces, or only its shell where it is open.
    fn obstacle(&self, part: usize) -> Manifold {
        let envelope = &self.parts[part].envelope;
        let outer = envelope.outer.solid();
        if self.open_sides(part).is_empty() { outer } else { outer.difference(&envelope.inner.solid()) }
    }

    /// Pieces of a part by role; a wall may be in several.
    fn by_role(&self, part: usize) -> BTreeMap<&'a Role, Vec<usize>> {
        let mut found: BTreeMap<&Role, Vec<usize>> = BTreeMap::new();
        for &k in &self.parts[part].pieces {
            found.entry(&self.case.solved.pieces[k].role).or_default().push(k);
        }
        found
    }
}

/// Height in the house of a roof's lowest plane over a point.
fn lowest_roof(hull: &Hull, at: &P3) -> f64 {
    let roof = hull.planes.iter().filter(|p| matches!(p.tag, Tag::Slope(..) | Tag::Lid));
    let over = roof.map(|p| (p.offset - p.normal.x * at.x - p.normal.y * at.y) / p.normal.z);
    over.fold(f64::INFINITY, f64::min)
}

/// Whether the boxes of two bodies are apart.
fn boxes_apart(a: (P3, P3), b: (P3, P3)) -> bool {
    (0..3).any(|i| a.0[i] > b.1[i] || b.0[i] > a.1[i])
}

fn box_of(points: &[P3]) -> (P3, P3) {
    let fold = |pick: fn(f64, f64) -> f64, start: f64| {
        points.iter().fold(P3::new(start, start, start), |a, p| P3::new(pick(a.x, p.x), pick(a.y, p.y), pick(a.z, p.z)))
    };
    (fold(f64::min, f64::INFINITY), fold(f64::max, f64::NEG_INFINITY))
}
