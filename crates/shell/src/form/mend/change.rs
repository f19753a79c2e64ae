//! A change to a house that puts something right.

use crate::{Decided, House, Outline, Part, PartId, Place, Placing, Relation, Top};
use gable_measure::{Length, Unit};
use gable_words::tr;

/// What would be changed, from what to what.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// A part stands a little elsewhere.
    Move {
        /// The part.
        part: PartId,
        /// Where it stands.
        from: Place,
        /// Where it would stand.
        to: Place,
    },
    /// The walls of a part that end under a slope become higher or, below zero, lower; the roof keeps its shape.
    Walls {
        /// The part.
        part: PartId,
        /// By how much.
        by: Length,
    },
    /// A part becomes wider or deeper.
    Plan {
        /// The part.
        part: PartId,
        /// Its outline.
        from: Outline,
        /// The outline that it would have.
        to: Outline,
    },
    /// Of two parts that meet, the other one is cut.
    StaysWhole(Decided),
    /// A height follows another.
    Level(Relation),
}

impl Change {
    /// Makes the change; nothing else of the house is touched.
    pub fn apply(&self, house: &mut House) {
        match self {
            Self::Move { part, to, .. } => with(house, part, |p| p.place = to.clone()),
            Self::Walls { part, by } => with(house, part, |p| raise(p, *by)),
            Self::Plan { part, to, .. } => with(house, part, |p| p.outline = to.clone()),
            Self::StaysWhole(decided) => {
                let pair = |d: &Decided| (&d.whole, &d.cut) == (&decided.cut, &decided.whole);
                house.decided.retain(|d| !pair(d) && d != decided);
                house.decided.push(decided.clone());
            }
            Self::Level(relation) => house.follow(relation.clone()),
        }
    }

    /// The part that changes.
    pub fn part(&self) -> &PartId {
        match self {
            Self::Move { part, .. } | Self::Walls { part, .. } | Self::Plan { part, .. } => part,
            Self::StaysWhole(decided) => &decided.cut,
            Self::Level(relation) => &relation.follower.part,
        }
    }

    /// What to do, as on a button: 'Move Chimney 4 mm to the right'.
    pub fn words(&self, house: &House) -> String {
        let name = house.part(self.part()).map_or(self.part().0.as_str(), |p| p.name.as_str());
        let unit = house.unit;
        match self {
            Self::Move { from, to, .. } => match step(from, to) {
                Some((by, way)) => tr!("Move {name} {} {way}", unit.print(by)),
                None => tr!("Move {name}"),
            },
            Self::Walls { by, .. } if *by > Length::ZERO => tr!("Raise the walls of {name} by {}", unit.print(*by)),
            Self::Walls { by, .. } => tr!("Lower the walls of {name} by {}", unit.print(-*by)),
            Self::Plan { from, to, .. } => grown(name, from, to, unit),
            Self::StaysWhole(_) => tr!("Let {name} be cut instead"),
            Self::Level(_) => tr!("Make them level").to_owned(),
        }
    }
}

fn with(house: &mut House, id: &PartId, change: impl FnOnce(&mut Part)) {
    if let Some(part) = house.parts.iter_mut().find(|p| &p.id == id) {
        change(part);
    }
}

fn raise(part: &mut Part, by: Length) {
    for side in &mut part.sides {
        match &mut side.top {
            Top::Eave { height, .. } => *height += by,
            Top::HalfHip { start, .. } => *start += by,
            Top::Knee { height, knee, .. } => {
                *height += by;
                *knee += by;
            }
            Top::Gable { .. } => {}
        }
    }
}

/// How far from one place to another, and which way, seen from outside.
fn step(from: &Place, to: &Place) -> Option<(Length, &'static str)> {
    let way = |by: Length, more: &'static str, less: &'static str| {
        (by != Length::ZERO).then(|| if by > Length::ZERO { (by, more) } else { (-by, less) })
    };
    let aside = |from: &Placing, to: &Placing| match (from, to) {
        (Placing::Centred { offset: a }, Placing::Centred { offset: b })
        | (Placing::FromLeft { distance: a }, Placing::FromLeft { distance: b }) => *b - *a,
        (Placing::FromRight { distance: a }, Placing::FromRight { distance: b }) => *a - *b,
        _ => Length::ZERO,
    };
    let (right, left) = (tr!("to the right"), tr!("to the left"));
    match (from, to) {
        (Place::Against { along: a, out: c, .. }, Place::Against { along: b, out: d, .. }) => {
            way(aside(a, b), right, left).or_else(|| way(*d - *c, "out", "in"))
        }
        (Place::OnSlope { along: a, up: c, .. }, Place::OnSlope { along: b, up: d, .. }) => {
            way(aside(a, b), right, left).or_else(|| way(*d - *c, tr!("up the slope"), tr!("down the slope")))
        }
        (Place::Astride { along: a, .. }, Place::Astride { along: b, .. }) => way(*b - *a, right, left),
        (Place::Ground(a), Place::Ground(b)) => {
            way(b.x - a.x, right, left).or_else(|| way(b.y - a.y, tr!("to the back"), tr!("to the front")))
        }
        (Place::OnTop { spot: a, .. }, Place::OnTop { spot: b, .. }) => {
            way(b.x - a.x, right, left).or_else(|| way(b.y - a.y, tr!("to the back"), tr!("to the front")))
        }
        _ => None,
    }
}

fn grown(name: &str, from: &Outline, to: &Outline, unit: Unit) -> String {
    let (Outline::Rectangle { width: a, depth: c }, Outline::Rectangle { width: b, depth: d }) = (from, to) else {
        return tr!("Change the plan of {name}");
    };
    let (by, more, less) =
        if a == b { (*d - *c, tr!("deeper"), tr!("less deep")) } else { (*b - *a, tr!("wider"), tr!("narrower")) };
    let (by, way) = if by > Length::ZERO { (by, more) } else { (-by, less) };
    tr!("Make {name} {} {way}", unit.print(by))
}
