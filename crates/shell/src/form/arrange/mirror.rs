use super::row::offset;
use super::{NotArranged, extent, judge};
use crate::form::guests::site::Site;
use crate::form::pair;
use crate::{House, Measure, Outline, Part, PartId, Place, Placing, SideId};
use gable_measure::{Angle, Length};

/// At what a part is mirrored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mirror {
    /// To the other end of the same side or ridge.
    OtherEnd,
    /// To the same place on the opposite side.
    OppositeSide,
}

impl House {
    /// Adds the mirror image of a part with all that stand by it; gives the id of the new part.
    ///
    /// # Errors
    /// When there is no such part, nothing to mirror it at, or its image cannot be built.
    pub fn mirror_part(&mut self, part: &PartId, at: Mirror) -> Result<PartId, NotArranged> {
        let original = self.part(part).ok_or(NotArranged::NoSuchPart)?.clone();
        let (site, ground) = judge(self, &original)?;
        let place = image(&site, &original, at)?;
        let mut tried = self.clone();
        let id = tried.double(&original, place);
        for id in tried.with_guests(&id) {
            tried.turn_over(&id);
        }
        let moved = tried.part(&id).ok_or(NotArranged::NoSuchPart)?;
        if !ground.is_free(&site, moved) || ground.cautions(&tried).is_none() {
            return Err(NotArranged::NoRoom { part: original.name });
        }
        *self = tried;
        Ok(id)
    }

    /// Turns a part left to right, and the places of what stands by it.
    pub(super) fn turn_over(&mut self, id: &PartId) {
        let Some(part) = self.parts.iter_mut().find(|p| &p.id == id) else { return };
        let names: Vec<SideId> = part.sides.iter().map(|s| s.id.clone()).collect();
        turn_part_over(part);
        let outline = part.outline.clone();
        let other = |side: &SideId| {
            let k = names.iter().position(|n| n == side)?;
            names.get(other_side(&outline, k)).cloned()
        };
        let across = ridge_runs_across(&outline);
        for guest in self.parts.iter_mut().filter(|p| p.place.host() == Some(id)) {
            turn_place_over(&mut guest.place, other, across);
        }
        let finishes = self.dressing.finishes.iter_mut().filter(|f| f.faces.part.as_ref() == Some(id));
        let ornaments = self.dressing.ornaments.iter_mut().filter(|o| &o.part == id);
        let sides = finishes.map(|f| &mut f.faces.side).chain(ornaments.map(|o| &mut o.side));
        for side in sides.flatten() {
            if let Some(new) = other(side) {
                *side = new;
            }
        }
        let measures = self.relations.iter_mut().flat_map(|r| [&mut r.follower, &mut r.leader]);
        for measured in measures.filter(|m| &m.part == id) {
            if let Measure::Eave(Some(side)) = &mut measured.measure
                && let Some(new) = other(side)
            {
                *side = new;
            }
        }
    }
}

/// Where the mirror image stands.
fn image(site: &Site<'_>, part: &Part, at: Mirror) -> Result<Place, NotArranged> {
    let in_the_middle = || NotArranged::InTheMiddle { part: part.name.clone() };
    let mut place = part.place.clone();
    match &mut place {
        Place::Ground(_) => return Err(NotArranged::NoHost { part: part.name.clone() }),
        Place::Against { side, along, turn, .. } | Place::OnSlope { side, along, turn, .. } => {
            let k = site.host.sides.iter().position(|s| &s.id == side).ok_or(NotArranged::HostFails)?;
            if at == Mirror::OppositeSide {
                *side = opposite(site, part, k)?;
            } else if offset(along, site.surface.length(k), extent(part)).abs() < extent(part) / 2.0 {
                return Err(in_the_middle());
            }
            *along = other_end(along);
            *turn = back(*turn);
        }
        Place::Astride { along, turn, .. } => {
            if along.abs().mm() < extent(part) / 2.0 {
                return Err(in_the_middle());
            }
            (*along, *turn) = (-*along, back(*turn));
        }
        Place::OnTop { spot, .. } => {
            let across = if at == Mirror::OppositeSide { &mut spot.y } else { &mut spot.x };
            if across.abs().mm() < extent(part) / 2.0 {
                return Err(in_the_middle());
            }
            *across = -*across;
            spot.turn = back(spot.turn);
        }
    }
    Ok(place)
}

/// The side that looks the other way, with a wall and a top of the same kind.
fn opposite(site: &Site<'_>, part: &Part, side: usize) -> Result<SideId, NotArranged> {
    let sides = &site.host.sides;
    let alike = |k: usize| {
        sides[k].wall == sides[side].wall
            && std::mem::discriminant(&sides[k].top) == std::mem::discriminant(&sides[side].top)
    };
    let pairs = pair::parallel(&site.host.outline);
    let other = pairs.iter().find_map(|&(a, b)| if a == side { Some(b) } else { (b == side).then_some(a) });
    let other = other.filter(|k| alike(*k)).map(|k| sides[k].id.clone());
    other.ok_or_else(|| NotArranged::NoOtherSide { part: part.name.clone() })
}

fn other_end(along: &Placing) -> Placing {
    match *along {
        Placing::Centred { offset } => Placing::Centred { offset: -offset },
        Placing::FromLeft { distance } => Placing::FromRight { distance },
        Placing::FromRight { distance } => Placing::FromLeft { distance },
    }
}

/// The other way round, and never minus nought.
fn back(turn: Angle) -> Angle {
    if turn.rad() == 0.0 { turn } else { Angle::degrees(-turn.deg()) }
}

/// Turns a part left to right about its y axis: what was to the right is to the left.
pub(super) fn turn_part_over(part: &mut Part) {
    if let Outline::Free { corners } = &mut part.outline {
        corners.reverse();
        corners.iter_mut().for_each(|c| c.0 = Length::ZERO - c.0);
    }
    let names: Vec<SideId> = part.sides.iter().map(|s| s.id.clone()).collect();
    let old = part.sides.clone();
    for (k, side) in part.sides.iter_mut().enumerate() {
        if let Some(from) = old.get(other_side(&part.outline, k)) {
            (side.wall, side.posts, side.top) = (from.wall, from.posts, from.top);
        }
    }
    for side in part.floor.steps.iter_mut().flat_map(|steps| &mut steps.sides) {
        let from = names.iter().position(|n| n == side);
        if let Some(to) = from.and_then(|k| names.get(other_side(&part.outline, k))) {
            *side = to.clone();
        }
    }
    for opening in &mut part.openings {
        let from = names.iter().position(|n| n == &opening.side);
        if let Some(to) = from.and_then(|k| names.get(other_side(&part.outline, k))) {
            opening.side = to.clone();
        }
        opening.placing = other_end(&opening.placing);
        opening.shape = opening.shape.mirrored();
        if let Some(door) = &mut opening.door {
            door.hinge = door.hinge.other();
        }
    }
}

/// The side that a side becomes when a plan is turned left to right.
fn other_side(outline: &Outline, side: usize) -> usize {
    let count = outline.count();
    match outline {
        // Front and back stay; so does side 1 of a polygon, which is its front.
        Outline::Rectangle { .. } | Outline::Polygon { .. } => (count - side) % count,
        // The straight back is the last.
        Outline::HalfPolygon { .. } if side + 1 == count => side,
        Outline::HalfPolygon { .. } => count - 2 - side,
        // Corners run the other way: side k ran from corner k to the next.
        Outline::Free { .. } => (2 * count - 2 - side) % count,
    }
}

/// Whether a ridge is likelier to run from left to right than from front to back.
fn ridge_runs_across(outline: &Outline) -> bool {
    let corners = outline.corners();
    let Some((low, high)) = gable_plane::bounds(&corners) else { return true };
    high.x - low.x >= high.y - low.y
}

/// The place of a guest of a part that was turned over.
fn turn_place_over(place: &mut Place, other: impl Fn(&SideId) -> Option<SideId>, ridge_across: bool) {
    match place {
        Place::Ground(_) => {}
        Place::Against { side, along, turn, .. } | Place::OnSlope { side, along, turn, .. } => {
            if let Some(new) = other(side) {
                *side = new;
            }
            *along = other_end(along);
            *turn = back(*turn);
        }
        Place::Astride { along, turn, .. } => {
            if ridge_across {
                *along = -*along;
            }
            *turn = back(*turn);
        }
        Place::OnTop { spot, .. } => {
            spot.x = -spot.x;
            spot.turn = back(spot.turn);
        }
    }
}
