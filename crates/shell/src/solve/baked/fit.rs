//! The sizes that walls have as they stand: measured ones where a person measured, else what their thickness makes of the plan.

use super::ease::Ease;
use super::stand::{self, Standing};
use crate::solve::plan::{self, PlanSide};
use crate::solve::settle::{foot_of, height_of, lift, with_heights};
use crate::{Baked, Batch, House, Outline, Part, PartId, Place, Placing, Repeat, Surface};
use gable_measure::Length;
use gable_plane::{P2, bounds};

/// A turn smaller than this faces straight away from the wall behind, radians.
const STRAIGHT: f64 = 1e-9;

/// Corners this near to the foremost one are at the front too, mm.
const FRONT: f64 = 1e-6;

/// A part as its baked walls stand, wider and higher where it gives way; none if it cannot be built.
pub(super) fn part(planned: &House, house: &House, part: &Part, ease: &Ease) -> Option<Part> {
    let baked = house.baked_batch(&part.id, Batch::Walls)?;
    let Standing { moves, ends } = stand::standing(planned, house, part)?;
    let old = part.outline.corners();
    let pushed = stand::pushed_out(&plan::sides(&old), &moves);
    let mut new = part.clone();
    keep_openings(&mut new, &plan::sides(&old), &ends);
    let mut corners = measured(part, baked, &old, pushed);
    if ease.spread > 0.0 {
        let sides = plan::sides(&corners);
        corners = stand::pushed_out(&sides, &vec![ease.spread; sides.len()]);
    }
    new.outline = stand::outline(&part.outline, &corners);
    keep_place(&mut new, &old, &corners);
    if let Some(height) = baked.height {
        with_heights(&mut new, height);
    }
    on_slope(planned, part, &mut new);
    raise(&mut new, Length::mm_of(ease.lift));
    Some(new)
}

/// A part that stands against another one, so much farther along it and out of it.
pub(super) fn moved(part: &mut Part, ease: &Ease) {
    let Place::Against { along, out, .. } = &mut part.place else { return };
    shift(along, Length::mm_of(ease.along));
    *out += Length::mm_of(ease.out);
}

fn shift(along: &mut Placing, by: Length) {
    match along {
        Placing::Centred { offset: from } | Placing::FromLeft { distance: from } => *from += by,
        Placing::FromRight { distance } => *distance -= by,
    }
}

/// Raises the roof and the lid of a part.
fn raise(part: &mut Part, by: Length) {
    part.sides.iter_mut().for_each(|s| lift(&mut s.top, by));
    if let Some(lid) = &mut part.lid {
        lid.height += by;
    }
}

/// Keeps openings where they are in walls that begin farther from the corners of the plan, from which they are placed.
fn keep_openings(part: &mut Part, old: &[PlanSide], ends: &[[f64; 2]]) {
    for opening in part.openings.iter_mut().filter(|o| o.face == Surface::Wall && !o.shape.is_whole_face()) {
        let Some(k) = part.sides.iter().position(|s| s.id == opening.side) else { continue };
        let [left, right] = ends[k].map(Length::mm_of);
        // Spread evenly, a row would spread with its wall: it keeps the gaps that it was cut with.
        let first = opening.layout(old[k].length()).boxes.first().map(|(low, _)| Length::mm_of(low.x));
        if let (Some(Repeat { gap: gap @ None, .. }), Some(first)) = (&mut opening.repeat, first) {
            *gap = Some(first);
            opening.placing = Placing::FromLeft { distance: first };
        }
        match &mut opening.placing {
            Placing::Centred { offset } => *offset += (left - right) / 2.0,
            Placing::FromLeft { distance } => *distance += left,
            Placing::FromRight { distance } => *distance += right,
        }
    }
}

/// A plan with the sizes that were measured.
fn measured(part: &Part, baked: &Baked, old: &[P2], mut corners: Vec<P2>) -> Vec<P2> {
    let Some((low, high)) = bounds(&corners) else { return corners };
    let middle = nalgebra::center(&low, &high);
    let factor = |size: Option<Length>, now: f64| size.map_or(1.0, |size| size.mm() / now);
    let x = factor(baked.width, high.x - low.x);
    if matches!(part.outline, Outline::Polygon { .. } | Outline::HalfPolygon { .. }) {
        corners.iter_mut().for_each(|p| *p *= x);
        return corners;
    }
    let stands_out = stands_out(part).map(|out| out + foremost(old, 0.0) - foremost(&corners, 0.0));
    match (stands_out, baked.depth) {
        (Some(now), Some(depth)) => {
            let front = low.y + FRONT;
            corners.iter_mut().filter(|p| p.y < front).for_each(|p| p.y -= depth.mm() - now);
        }
        (_, depth) => {
            let y = factor(depth, high.y - low.y);
            corners.iter_mut().for_each(|p| p.y = middle.y + (p.y - middle.y) * y);
        }
    }
    corners.iter_mut().for_each(|p| p.x = middle.x + (p.x - middle.x) * x);
    corners
}

impl House {
    /// What can be measured of a batch of a part, as it is planned; none of what cannot.
    pub fn as_planned(&self, part: &PartId, batch: Batch) -> Option<Baked> {
        let own = self.part(part)?;
        let planned =
            Baked { thickness: Some(self.planned_dough(own, batch)?.baked()), ..Baked::new(part.clone(), batch) };
        if batch != Batch::Walls {
            return Some(planned);
        }
        let (low, high) = bounds(&own.outline.corners())?;
        let is_regular = matches!(own.outline, Outline::Polygon { .. } | Outline::HalfPolygon { .. });
        let depth = stands_out(own).unwrap_or(high.y - low.y);
        Some(Baked {
            width: Some(Length::mm_of(high.x - low.x)),
            depth: (!is_regular).then(|| Length::mm_of(depth)),
            height: height_of(own),
            ..planned
        })
    }
}

/// How far a part stands out from the wall it faces straight away from, mm: what of its depth can be measured.
fn stands_out(part: &Part) -> Option<f64> {
    match &part.place {
        Place::Against { out, turn, .. } if turn.rad().abs() < STRAIGHT => Some(out.mm()),
        _ => None,
    }
}

/// The least y of a turned plan.
fn foremost(corners: &[P2], turn: f64) -> f64 {
    extent(corners, turn).map_or(0.0, |(low, _)| low.y)
}

fn extent(corners: &[P2], turn: f64) -> Option<(P2, P2)> {
    let turn = nalgebra::Rotation2::new(turn);
    bounds(&corners.iter().map(|p| turn * p).collect::<Vec<_>>())
}

/// Keeps the origin of a plan where it is by its host, whatever its corners have become: places count from the extent.
fn keep_place(part: &mut Part, old: &[P2], new: &[P2]) {
    let turn = part.place.turn().rad();
    let (Some(old), Some(new)) = (extent(old, turn), extent(new, turn)) else { return };
    let (left, right) = (new.0.x - old.0.x, new.1.x - old.1.x);
    let forward = Length::mm_of(old.0.y - new.0.y);
    let keep = |along: &mut Placing| match along {
        Placing::Centred { offset } => *offset += Length::mm_of((left + right) / 2.0),
        Placing::FromLeft { distance } => *distance += Length::mm_of(left),
        Placing::FromRight { distance } => *distance -= Length::mm_of(right),
    };
    match &mut part.place {
        Place::Against { along, out, .. } => {
            keep(along);
            *out += forward;
        }
        Place::OnSlope { along, up, .. } => {
            keep(along);
            *up -= forward;
        }
        Place::Ground(_) | Place::Astride { .. } | Place::OnTop { .. } => {}
    }
}

/// What stands on a slope counts its heights from where its front meets the roof: a front that stands farther down lowers
/// that, so the heights grow by as much, and the tops stay where they are.
fn on_slope(planned: &House, old: &Part, new: &mut Part) {
    if !matches!(old.place, Place::OnSlope { .. }) {
        return;
    }
    let Some(k) = planned.parts.iter().position(|p| p.id == old.id) else { return };
    let mut moved = planned.clone();
    moved.parts[k] = new.clone();
    if let (Some(before), Some(after)) = (foot_of(planned, k), foot_of(&moved, k)) {
        let by = Length::mm_of(before - after);
        raise(new, by);
        new.openings.iter_mut().filter(|o| o.face == Surface::Wall).for_each(|o| o.sill += by);
    }
}
