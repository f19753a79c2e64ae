//! What of a drawing can be moved: where it lies on it, and which of its numbers grow when it goes somewhere.

use super::face::Lay;
use super::{Desk, Sheet, guests, ornaments};
use crate::openings::as_typed;
use crate::selection::{Selection, is_face};
use gable_dress::Dressed;
use gable_measure::Length;
use gable_plane::{P2, V2};
use gable_shell::{House, Opening, Part, PartId, Piece, Placing, Solved};

/// Something that can be moved on a drawing, or only lies there.
#[derive(Clone, Debug)]
pub(crate) struct Member {
    /// What it is.
    pub(crate) what: Selection,
    /// Lower left and upper right corner on the drawing, mm.
    pub(crate) bounds: (P2, P2),
    /// Unit directions of the drawing in which its two numbers grow, and how much they grow for a millimetre that way;
    /// nothing where it cannot be moved.
    axes: [(V2, f64); 2],
}

impl Member {
    /// Where it is, by its two numbers (along; out, up or back), mm.
    pub(crate) fn numbers(&self, house: &House) -> Option<V2> {
        match &self.what {
            Selection::Part(id) => Some(guests::there(&house.part(id)?.place)),
            Selection::Opening(part, id) => {
                let opening = house.part(part)?.openings.iter().find(|o| &o.id == id)?;
                Some(V2::new(right_of(&opening.placing), opening.sill.mm()))
            }
            Selection::Extra(k) => {
                let spot = &house.dressing.extras.get(*k)?.spot;
                Some(V2::new(spot.x.mm(), spot.y.mm()))
            }
            _ => None,
        }
    }

    /// Something in the plan that goes wherever it is taken.
    pub(super) const fn free(what: Selection, bounds: (P2, P2)) -> Self {
        Self { what, bounds, axes: [(V2::new(1.0, 0.0), 1.0), (V2::new(0.0, 1.0), 1.0)] }
    }

    /// Something that is stuck on: it goes where its opening or roof goes.
    pub(super) const fn stuck(what: Selection, bounds: (P2, P2)) -> Self {
        Self { what, bounds, axes: [(V2::new(1.0, 0.0), 0.0), (V2::new(0.0, 1.0), 0.0)] }
    }

    /// How much its numbers grow when it goes so far on the drawing.
    pub(crate) fn growth(&self, way: V2) -> V2 {
        let [along, up] = self.axes.map(|(axis, rate)| way.dot(&axis) * rate);
        V2::new(along, up)
    }

    /// How far it goes on the drawing when its numbers grow by so much.
    pub(crate) fn way(&self, by: V2) -> V2 {
        let go = |(axis, rate): (V2, f64), by: f64| if rate == 0.0 { V2::zeros() } else { axis * (by / rate) };
        go(self.axes[0], by.x) + go(self.axes[1], by.y)
    }

    /// Whether it can go so far this way.
    pub(crate) fn can_go(&self, way: V2) -> bool {
        (self.way(self.growth(way)) - way).norm() < 1e-6
    }

    /// Where it lies on the drawing now, if it is there.
    pub(super) fn now(&self, desk: &Desk<'_, '_>) -> Option<(P2, P2)> {
        desk.members.iter().find(|m| m.what == self.what).map(|m| m.bounds)
    }

    /// Whether it can go anywhere.
    pub(crate) fn is_movable(&self) -> bool {
        self.axes.iter().any(|(_, rate)| *rate != 0.0)
    }

    /// Puts it where its numbers are these; what does not change stays as it was typed.
    pub(crate) fn put(&self, house: &mut House, numbers: V2) {
        match &self.what {
            Selection::Part(id) => {
                if let Some(part) = house.parts.iter_mut().find(|p| &p.id == id) {
                    guests::set_place(&mut part.place, numbers);
                }
            }
            Selection::Opening(part, id) => {
                let part = house.parts.iter_mut().find(|p| &p.id == part);
                if let Some(opening) = part.and_then(|p| p.openings.iter_mut().find(|o| &o.id == id)) {
                    place(opening, numbers);
                }
            }
            Selection::Extra(k) => {
                if let Some(extra) = house.dressing.extras.get_mut(*k) {
                    guests::set_spot(&mut extra.spot, numbers);
                }
            }
            _ => {}
        }
    }
}

/// Where something is along a wall, growing to the right, mm.
pub(super) fn right_of(placing: &Placing) -> f64 {
    match placing {
        Placing::Centred { offset } => offset.mm(),
        Placing::FromLeft { distance } => distance.mm(),
        Placing::FromRight { distance } => -distance.mm(),
    }
}

/// Sets what [`right_of`] tells, unless it is that already.
pub(super) fn set_right_of(placing: &mut Placing, to: f64) {
    if (to - right_of(placing)).abs() <= SAME {
        return;
    }
    match placing {
        Placing::Centred { offset: at } | Placing::FromLeft { distance: at } => *at = Length::mm_of(to),
        Placing::FromRight { distance } => *distance = Length::mm_of(-to),
    }
}

/// What differs by less was not moved, mm.
pub(super) const SAME: f64 = 1e-9;

fn place(opening: &mut Opening, to: V2) {
    set_right_of(&mut opening.placing, to.x);
    if (opening.sill.mm() - to.y).abs() > SAME {
        opening.sill = Length::mm_of(to.y);
    }
}

/// Everything on a drawing that could be selected together.
pub(crate) fn members((solved, dressed): (&Solved, &Dressed), house: &House, sheet: &Sheet) -> Vec<Member> {
    match sheet {
        Sheet::Plan => {
            let parts = guests::members_in_plan(solved, house);
            parts.into_iter().chain(super::beside::members(dressed, house)).collect()
        }
        Sheet::Face(id) => match solved.pieces.iter().find(|p| &p.id == id) {
            Some(piece) => {
                let guests = guests::members_on_face(solved, house, piece);
                openings(house, piece).chain(guests).chain(ornaments::members(solved, dressed, piece)).collect()
            }
            None => Vec::new(),
        },
    }
}

/// The openings of a face, as they were typed.
pub(super) fn openings<'a>(house: &'a House, piece: &'a Piece) -> impl Iterator<Item = Member> + 'a {
    let lay = Lay::of(piece);
    let part = house.part(&piece.part);
    let own = part
        .into_iter()
        .flat_map(move |p| p.openings.iter().filter(move |o| is_face(&piece.role, o)).map(move |o| (p, o)));
    own.filter_map(move |(part, opening)| {
        let rings = as_typed(part, opening).into_iter().flat_map(|c| <[P2; 2]>::from(c.bounds()));
        let corners: Vec<P2> = rings.map(|p| lay.table(p)).collect();
        let rate = |moves: bool| if moves && !part.locked { 1.0 } else { 0.0 };
        // A row with equal spaces to both corners is where these put it.
        let along = opening.repeat.is_none_or(|r| r.gap.is_some());
        Some(Member {
            what: Selection::Opening(part.id.clone(), opening.id.clone()),
            bounds: gable_plane::bounds(&corners)?,
            axes: [(V2::x(), rate(along)), (V2::y(), rate(true))],
        })
    })
}

/// A part on a drawing, with the directions in which its numbers grow there.
pub(super) fn of_part(part: &Part, ring: &[P2], axes: [(V2, f64); 2]) -> Option<Member> {
    let axes = axes.map(|(axis, rate)| (axis, if part.locked || axis == V2::zeros() { 0.0 } else { rate }));
    Some(Member { what: Selection::Part(part.id.clone()), bounds: gable_plane::bounds(ring)?, axes })
}

/// Of these all but parts that stand by another of them, directly or not: those go where their host goes.
pub(crate) fn movers<'a>(members: &'a [Member], house: &House) -> Vec<&'a Member> {
    let chosen = |id: &PartId| members.iter().any(|m| matches!(&m.what, Selection::Part(own) if own == id));
    let goes_along = |m: &Member| {
        let Selection::Part(id) = &m.what else { return false };
        let hosts = std::iter::successors(house.part(id), |p| house.part(p.place.host()?)).skip(1);
        // A circle of hosts, which the checks refuse, must not go on for ever.
        hosts.take(house.parts.len()).any(|host| chosen(&host.id))
    };
    members.iter().filter(|m| !goes_along(m)).collect()
}
