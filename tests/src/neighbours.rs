//! Which pieces must touch, counted from the house alone.

use crate::envelope::{Envelope, is_bare_floor};
use crate::hull::{Ridge, Tag};
use gable_plane::P3;
use gable_shell::{FloorKind, Part, Role};

/// Two things that must meet, and where.
#[derive(Clone, Debug)]
pub struct Neighbours {
    /// The two pieces; the second is the base board when there is none.
    pub ends: (Role, Option<Role>),
    /// The line on the envelope, when the contact follows one of its edges.
    pub line: Option<[P3; 2]>,
    /// How much of each end of the line may be taken up by the thickness of other pieces, mm.
    pub allowance: f64,
}

/// All that must touch in a part. Edges too short to tell from the thickness of the biscuit are left out.
pub fn neighbours(part: &Part, envelope: &Envelope) -> Vec<Neighbours> {
    let mut found: Vec<Neighbours> =
        envelope.theory.ridges().iter().filter_map(|ridge| along(ridge, part, envelope)).collect();
    found.extend(parapet(part, envelope));
    found
}

/// Thickness that pieces of both kinds and the gap take up together, mm.
fn thickness(envelope: &Envelope) -> f64 {
    envelope.sizes.wall + envelope.sizes.roof + envelope.sizes.gap
}

fn along(ridge: &Ridge, part: &Part, envelope: &Envelope) -> Option<Neighbours> {
    let [a, b] = ridge.tags.map(|tag| role(tag, part));
    let (a, b) = if ridge.tags[0] == Tag::Base { (b?, base(part)) } else { (a?, Some(b?)) };
    let least = 2.0 * thickness(envelope).powi(2);
    let real = |tag: &Tag| *tag == Tag::Base || envelope.theory.face_area(*tag) > least;
    let allowance = allowance(ridge, envelope) + doors(ridge, part, envelope) / 2.0;
    let length = (ridge.line[1] - ridge.line[0]).norm();
    (ridge.tags.iter().all(real) && length > 2.0 * allowance + 5.0).then_some(Neighbours {
        ends: (a, b),
        line: Some(ridge.line),
        allowance,
    })
}

fn base(part: &Part) -> Option<Role> {
    (part.floor.kind == FloorKind::Under).then_some(Role::Floor)
}

fn role(tag: Tag, part: &Part) -> Option<Role> {
    match tag {
        Tag::Wall(k) => part.sides[k].wall.then(|| Role::Wall(part.sides[k].id.clone())),
        Tag::Slope(k, tier) => Some(Role::Slope(part.sides[k].id.clone(), tier)),
        Tag::Lid => (!is_bare_floor(part)).then_some(Role::Lid),
        Tag::Base => None,
    }
}

/// Ends of a wall stop short of its neighbours' plates: where walls of thickness t enclose an angle a, by
/// t (1 / sin a + cot a) = t cot(a / 2). Roof pieces draw back from each other by parts of the gap, more so in sharp
/// corners.
fn allowance(ridge: &Ridge, envelope: &Envelope) -> f64 {
    let thick = thickness(envelope);
    let length = (ridge.line[1] - ridge.line[0]).norm();
    match ridge.tags {
        [Tag::Wall(_), Tag::Wall(_)] => 2.0 * thick + envelope.sizes.floor,
        [Tag::Wall(k), _] | [_, Tag::Wall(k)] => wall_end(k, envelope),
        _ => thick + 0.05 * length,
    }
}

/// Width of the doors that leave no foot of a wall, mm.
fn doors(ridge: &Ridge, part: &Part, envelope: &Envelope) -> f64 {
    let ([Tag::Base, Tag::Wall(k)] | [Tag::Wall(k), Tag::Base]) = ridge.tags else { return 0.0 };
    let foot = if part.floor.kind == FloorKind::Under { envelope.sizes.floor + envelope.sizes.gap } else { 0.0 };
    let doors = part.openings.iter().filter(|o| o.side == part.sides[k].id && o.sill.mm() <= foot);
    doors.map(|o| o.width.mm()).sum()
}

fn wall_end(side: usize, envelope: &Envelope) -> f64 {
    let cut_back = |corner: usize| (envelope.turn(corner) / 2.0).tan();
    thickness(envelope) * (0.5 + cut_back(side).max(cut_back(side + 1)))
}

/// Strips stand on the lid and meet at corners; a floor inside meets every wall.
fn parapet(part: &Part, envelope: &Envelope) -> Vec<Neighbours> {
    let count = part.sides.len();
    let length = |k: usize| (envelope.plan[(k + 1) % count] - envelope.plan[k]).norm();
    let long = |k: usize| length(k) > 2.0 * wall_end(k, envelope) + 5.0;
    let loose = |ends| Neighbours { ends, line: None, allowance: 0.0 };
    let strip = |k: usize| Role::Parapet(part.sides[k % count].id.clone());
    let mut found = Vec::new();
    for k in (0..count).filter(|&k| long(k)) {
        if part.floor.kind == FloorKind::Inside && part.sides[k].wall {
            found.push(loose((Role::Wall(part.sides[k].id.clone()), Some(Role::Floor))));
        }
        if part.lid.as_ref().is_some_and(|lid| lid.parapet.is_some()) {
            found.push(loose((strip(k), Some(Role::Lid))));
            if long((k + 1) % count) {
                found.push(loose((strip(k), Some(strip(k + 1)))));
            }
        }
    }
    found
}
