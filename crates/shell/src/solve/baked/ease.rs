//! How the surroundings of baked pieces give way, so that they can stay what they are.
//!
//! A roof lies on the highest edge below it, a part that stands by another one is moved as it stands, one on a roof stands
//! on its lowest foot, and walls that do not close all round stand apart at their corners. What is left open is icing.

use super::apart::{self, SAME};
use super::fill::BRIDGED;
use super::fitted;
use super::room::{self, Stray};
use super::shape::Shape;
use crate::solve::plain;
use crate::solve::settle::height_of;
use crate::{EdgeKind, House, JointEnd, Part, PartId, Piece, PieceId, Place, Role, Solved};
use gable_plane::{Rigid, V2, V3};
use std::collections::BTreeMap;

/// How often the house is worked out anew.
const ROUNDS: usize = 10;
/// Nothing gives way by more than this, mm: more would leave wider joints than icing bridges.
const MOST: f64 = 6.0;
/// Edges that rise less than this for each mm are upright.
const LEVEL: f64 = 0.1;
/// A little more than what is needed, mm: less than a knife sees, more than files round away.
const CLEAR: f64 = 2e-3;

/// How a part gives way for baked pieces, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Ease {
    /// How much higher its roof lies over where its walls are worked out.
    pub(super) lift: f64,
    /// How much higher the walls themselves stand, on a roof.
    pub(super) raise: f64,
    /// How much farther out all of its walls stand.
    pub(super) spread: f64,
    /// How much farther along the wall of its host, to the right, it stands.
    pub(super) along: f64,
    /// How much farther out of that wall it stands.
    pub(super) out: f64,
}

impl Ease {
    fn most(&self) -> f64 {
        [self.lift, self.raise, self.spread, self.along, self.out].into_iter().map(f64::abs).fold(0.0, f64::max)
    }
}

/// How each part gives way; those that need not are not in it.
pub(super) type Eases = BTreeMap<PartId, Ease>;

/// A house as it stands, what it is worked out to, and how its parts give way.
pub(super) struct Eased {
    pub(super) house: House,
    pub(super) solved: Solved,
    pub(super) eases: Eases,
}

/// Works a house out so that its baked pieces lie within the room that is left for them, as far as that can be.
pub(super) fn ease(house: &House, shapes: &BTreeMap<PieceId, Shape>) -> Eased {
    let mut best: Option<(f64, Eased)> = None;
    let mut eases = Eases::new();
    for _ in 0..ROUNDS {
        let (stands, told) = fitted(house, &eases);
        let solved = plain(&stands, told);
        let eased = Eased { house: stands, solved, eases: eases.clone() };
        let (out, next) = demands(house, &eased, shapes);
        if best.as_ref().is_none_or(|(before, _)| out < before - CLEAR / 2.0) {
            best = Some((out, eased));
        }
        if out <= 0.0 || next == eases {
            break;
        }
        eases = next;
    }
    match best {
        Some((_, eased)) => eased,
        None => {
            let (stands, told) = fitted(house, &Eases::new());
            let solved = plain(&stands, told);
            Eased { house: stands, solved, eases: Eases::new() }
        }
    }
}

/// How much higher the walls of each part lie in it than where their shapes were worked out, mm: on the board they stand on
/// their feet, on a roof they keep their heights.
pub(super) fn raised(
    stands: &House,
    eases: &Eases,
    pieces: &[Piece],
    shapes: &BTreeMap<PieceId, Shape>,
) -> BTreeMap<PartId, f64> {
    let lowest = |ring: &[gable_plane::P2]| ring.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let raised = |part: &Part| {
        let ease = eases.get(&part.id).copied().unwrap_or_default();
        let walls = pieces.iter().filter(|p| p.baked && p.part == part.id && matches!(p.role, Role::Wall(_)));
        let pairs: Vec<(&Piece, &Shape)> = walls.filter_map(|p| Some((p, shapes.get(&p.id)?))).collect();
        let planned = pairs.first()?.1.walls;
        if is_on_roof(&part.place) {
            return Some(height_of(part)?.mm() - ease.lift - planned + ease.raise);
        }
        let feet = pairs.iter().map(|(p, s)| (lowest(&p.outline), lowest(&s.outline)));
        let (now, then) = feet.fold((f64::INFINITY, f64::INFINITY), |all, one| (all.0.min(one.0), all.1.min(one.1)));
        Some(now - then)
    };
    stands.parts.iter().filter_map(|part| Some((part.id.clone(), raised(part)?))).collect()
}

fn is_on_roof(place: &Place) -> bool {
    matches!(place, Place::OnSlope { .. } | Place::Astride { .. } | Place::OnTop { .. })
}

/// How far baked pieces stick out, or leave open what icing does not bridge, all together, and how the parts have to give way for them.
fn demands(house: &House, eased: &Eased, shapes: &BTreeMap<PieceId, Shape>) -> (f64, Eases) {
    let mut out = 0.0;
    let mut wanted: BTreeMap<PartId, Wanted> = BTreeMap::new();
    let raised = raised(&eased.house, &eased.eases, &eased.solved.pieces, shapes);
    for piece in eased.solved.pieces.iter().filter(|p| p.baked) {
        let Some(shape) = shapes.get(&piece.id) else { continue };
        let laid = room::laid(shape, piece, raised.get(&piece.part).copied().unwrap_or(0.0));
        let strays = strays_of(piece, &laid);
        let most = strays.iter().map(|s| s.by).fold(0.0, f64::max);
        let open = apart::ring_apart(&laid.outline, &piece.outline) - BRIDGED;
        out += open.max(0.0);
        if most <= SAME {
            continue;
        }
        out += most;
        for stray in &strays {
            want(house, eased, piece, stray, &mut wanted);
        }
    }
    let mut eases = eased.eases.clone();
    for (part, wanted) in wanted {
        let mut ease = eases.get(&part).copied().unwrap_or_default();
        wanted.add_to(&mut ease);
        if ease.most() <= MOST {
            eases.insert(part, ease);
        }
    }
    (out, eases)
}

/// How far a piece sticks out of its room at most, mm.
pub(super) fn sticks_out(piece: &Piece, laid: &Shape) -> f64 {
    strays_of(piece, laid).iter().map(|s| s.by).fold(0.0, f64::max)
}

/// Where a piece sticks out of its room, on either face.
fn strays_of(piece: &Piece, laid: &Shape) -> Vec<Stray> {
    let front = room::strays(&laid.outline, &piece.outline);
    let back = room::strays(&laid.back, &piece.outline_back);
    front.into_iter().chain(back).filter(|stray| !is_door(piece, stray)).collect()
}

/// Whether it is only the side of a door, which nothing meets.
fn is_door(piece: &Piece, stray: &Stray) -> bool {
    piece.edges.get(stray.edge) == Some(&EdgeKind::Free) && !piece.notches.is_empty()
}

/// The most that is asked of a part.
#[derive(Default)]
struct Wanted {
    lift: f64,
    raise: f64,
    spread: f64,
    /// To the lower and to the higher side.
    along: [f64; 2],
    out: [f64; 2],
}

impl Wanted {
    fn push(&mut self, along: f64, out: f64) {
        let keep = |both: &mut [f64; 2], by: f64| {
            both[0] = both[0].min(by);
            both[1] = both[1].max(by);
        };
        keep(&mut self.along, along);
        keep(&mut self.out, out);
    }

    fn add_to(&self, ease: &mut Ease) {
        let more = |by: f64| if by > 0.0 { by + CLEAR } else { 0.0 };
        let both = |[low, high]: [f64; 2]| more(high) - more(-low);
        ease.raise += more(self.raise);
        ease.lift += more(self.lift.max(self.raise));
        ease.spread += more(self.spread);
        ease.along += both(self.along);
        ease.out += both(self.out);
    }
}

/// What has to give way where a piece sticks out.
fn want(house: &House, eased: &Eased, piece: &Piece, stray: &Stray, wanted: &mut BTreeMap<PartId, Wanted>) {
    let Some(part) = house.part(&piece.part) else { return };
    let entry = wanted.entry(piece.part.clone()).or_default();
    if stray.out.y > LEVEL {
        entry.lift = entry.lift.max(stray.by / stray.out.y);
        return;
    }
    if stray.out.y < -LEVEL {
        if is_on_roof(&part.place) {
            entry.raise = entry.raise.max(stray.by / -stray.out.y);
        }
        return;
    }
    let Some(other) = across(eased, piece, stray.edge) else { return };
    if other == piece.part {
        let turn = std::f64::consts::PI / part.sides.len() as f64;
        entry.spread = entry.spread.max(stray.by / turn.tan());
        return;
    }
    let out = piece.house_from_piece.rotation * V3::new(stray.out.x, stray.out.y, 0.0) * stray.by;
    let beside = |place: &&Place| matches!(place, Place::Against { .. });
    let others = house.part(&other).map(|p| &p.place).filter(beside);
    match others.filter(|_| part.place.host() != Some(&other)) {
        Some(place) => push(place, &other, eased, out, wanted),
        None => push(&part.place, &piece.part, eased, -out, wanted),
    }
}

/// The part on the other side of an edge.
fn across(eased: &Eased, piece: &Piece, edge: usize) -> Option<PartId> {
    let EdgeKind::Joint(joint) = piece.edges.get(edge)? else { return None };
    let pieces = &eased.solved.pieces;
    let ends = eased.solved.joints.get(*joint)?.ends.iter();
    let others = ends.filter_map(|end| if let JointEnd::Piece(k) = end { pieces.get(*k) } else { None });
    others.filter(|p| p.id != piece.id).map(|p| p.part.clone()).next()
}

/// Moves what stands against another part by a way in the house.
fn push(place: &Place, part: &PartId, eased: &Eased, way: V3, wanted: &mut BTreeMap<PartId, Wanted>) {
    let Place::Against { turn, .. } = place else { return };
    let Some(stands) = eased.solved.parts.iter().find(|p| &p.id == part) else { return };
    let to_host = Rigid::rotation(V3::z() * turn.rad()) * stands.house_from_part.inverse();
    let way: V2 = (to_host.rotation * way).xy();
    // Straight out is what keeps a part in its place; along only where that does not help.
    let (along, out) = if way.y.abs() > way.norm() * LEVEL { (0.0, -way.y) } else { (way.x, 0.0) };
    wanted.entry(part.clone()).or_default().push(along, out);
}
