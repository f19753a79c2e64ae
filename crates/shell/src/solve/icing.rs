//! What icing fills: gaps and wedges, as convex solids.
//!
//! The shell of a part (between its outer and inner faces) is split into one region per plate. What a region holds
//! beyond an edge of its plate is icing of the joint along that edge: beyond edge k and within edges 0 to k - 1,
//! so that the solids are convex and do not overlap.

use super::draft::{Draft, JointDraft};
use super::joints::Places;
use super::plan::PlanSide;
use super::plate::{Cause, Plate};
use super::roof::Roof;
use super::slopes::halving;
use gable_plane::{HalfSpace, P3, Solid, V3};

/// Smaller solids are dropped, mm³: a grain of a tenth of a millimetre. Larger ones, side by side, would leave a tunnel.
const CRUMB: f64 = 1e-3;

/// Solids that share less are apart, mm³: the promise of no overlap.
const FILM: f64 = 1e-3;

/// A solid with the cause of the edge that it lies beyond.
type Body = (Cause, Solid);

fn everywhere() -> Solid {
    const FAR: f64 = 2e4;
    Solid::block(P3::new(-FAR, -FAR, -FAR), P3::new(FAR, FAR, FAR))
}

fn crumbs_off(bodies: Vec<Solid>) -> impl Iterator<Item = Solid> {
    bodies.into_iter().filter(|b| b.volume() > CRUMB)
}

/// Splits what of `region` is beyond the edges with the wanted causes.
pub(super) fn beyond(region: Option<Solid>, plate: &Plate, wanted: impl Fn(Cause) -> bool) -> Vec<Body> {
    let mut found = Vec::new();
    let mut rest = region;
    for k in (0..plate.count()).filter(|&k| wanted(plate.causes[k])) {
        let Some(solid) = rest else { break };
        let side = plate.side_of(k);
        found.extend(solid.clip(&side.flipped()).filter(|b| b.volume() > CRUMB).map(|b| (plate.causes[k], b)));
        rest = solid.clip(&side);
    }
    found
}

/// What lies within some half-spaces.
pub(super) fn column(bounds: &[HalfSpace]) -> Option<Solid> {
    everywhere().clip_all(bounds)
}

/// The ring of walls, or of parapet strips, that icing joins.
pub(super) struct RingIcing<'a> {
    pub(super) drafts: &'a [Draft],
    pub(super) places: &'a [Option<usize>],
    pub(super) sides: &'a [PlanSide],
    /// What lies over the ring; empty for a parapet.
    pub(super) lids: Vec<HalfSpace>,
    /// Height of what the ring stands on.
    pub(super) ground: f64,
}

impl RingIcing<'_> {
    fn plate(&self, side: usize) -> Option<&Plate> {
        self.places[side].map(|d| &self.drafts[d].plate)
    }

    /// Everything within the outer faces, under the lids and above the ground.
    fn bulk(&self) -> Option<Solid> {
        let ground = HalfSpace { normal: -V3::z(), offset: -self.ground };
        let outer: Vec<HalfSpace> = self.sides.iter().map(|s| s.half_space(0.0)).collect();
        everywhere().clip_all(outer.iter().chain(&self.lids).chain([&ground]))
    }

    /// The two ends of a side's plate, at its start and at its end, each with its corner.
    fn ends<'p>(&self, side: usize, plate: &'p Plate) -> impl Iterator<Item = (usize, HalfSpace)> + 'p {
        let count = self.sides.len();
        let (before, after) = ((side + count - 1) % count, (side + 1) % count);
        let corners = [(side, before), (after, after)].into_iter();
        corners.filter_map(|(k, other)| Some((k, Self::end(plate, k, other)?)))
    }

    /// The region of a side: its slab between its two ends.
    fn column(&self, side: usize, plate: &Plate) -> Vec<HalfSpace> {
        plate.frame.slab(plate.thickness).into_iter().chain(self.ends(side, plate).map(|e| e.1)).collect()
    }

    /// What of a plate with a notch reaches past its ends, over its neighbours.
    fn tips(&self, side: usize, plate: &Plate) -> Vec<Solid> {
        self.ends(side, plate).flat_map(|(_, end)| plate.beyond(&end)).map(|tip| tip.solid()).collect()
    }

    /// Takes the tips of plates with a notch out of icing that was found without thinking of them.
    pub(super) fn clear_of_tips<'j>(&self, joints: impl Iterator<Item = &'j mut JointDraft>) {
        let sides = (0..self.sides.len()).filter_map(|s| Some((s, self.plate(s)?)));
        let tips: Vec<Solid> = sides.flat_map(|(s, plate)| self.tips(s, plate)).collect();
        if tips.is_empty() {
            return;
        }
        for joint in joints {
            for tip in &tips {
                let bodies = std::mem::take(&mut joint.icing);
                let clear = |body: Solid| {
                    if body.shared_with(tip) > FILM { body.without(&tip.half_spaces()) } else { vec![body] }
                };
                joint.icing = bodies.into_iter().flat_map(clear).filter(|b| b.volume() > CRUMB).collect();
            }
        }
    }

    /// The end of a side's plate at corner k, where `other` is the side on the other side of the corner.
    fn end(plate: &Plate, k: usize, other: usize) -> Option<HalfSpace> {
        let ends = plate.edges_of(Cause::Corner(k)).chain(plate.edges_of(Cause::WallPlane(other)));
        let long = |&e: &usize| {
            let [a, b] = plate.edge(e);
            (b - a).norm()
        };
        ends.max_by(|a, b| long(a).total_cmp(&long(b))).map(|e| plate.side_of(e))
    }

    /// Adds to each joint what icing it holds. Joints are given with their corner.
    pub(super) fn fill_corners(&self, joints: &mut [(usize, JointDraft)]) {
        let Some(bulk) = self.bulk() else { return };
        for (k, joint) in joints {
            let (a, b) = ((*k + self.sides.len() - 1) % self.sides.len(), *k);
            // The plate that stops is second.
            let (host, guest) = if self.places[a] == joint.first { (a, b) } else { (b, a) };
            let (Some(hp), Some(gp)) = (self.plate(host), self.plate(guest)) else { continue };
            let (Some(host_end), Some(guest_end)) = (Self::end(hp, *k, guest), Self::end(gp, *k, host)) else {
                continue;
            };
            // Past the end at this corner, but not past the far ends: where walls turn slowly, the slab of one goes on
            // through its neighbour to the next corner.
            let far = [(host, hp), (guest, gp)];
            let far: Vec<HalfSpace> =
                far.iter().flat_map(|&(s, p)| self.ends(s, p)).filter(|e| e.0 != *k).map(|e| e.1).collect();
            let past = |plate: &Plate, end: &HalfSpace| {
                let slab = plate.frame.slab(plate.thickness);
                bulk.clip_all(slab.iter().chain(&far).chain([&end.flipped()]))
            };
            let past_guest = past(gp, &guest_end);
            if let Some(solid) = &past_guest {
                joint.icing.extend(crumbs_off(solid.without(&self.column(host, hp))));
            }
            let Some(past_host) = past(hp, &host_end) else { continue };
            let taken = past_guest.map(|s| s.half_spaces());
            for rest in past_host.without(&self.column(guest, gp)) {
                match &taken {
                    Some(taken) => joint.icing.extend(crumbs_off(rest.without(taken))),
                    None => joint.icing.extend(crumbs_off(vec![rest])),
                }
            }
        }
    }

    /// Solids over the top edges of a side, each with its slope.
    pub(super) fn over(&self, side: usize) -> Vec<Body> {
        let Some(plate) = self.plate(side) else { return Vec::new() };
        let region = self.bulk().and_then(|bulk| bulk.clip_all(&self.column(side, plate)));
        beyond(region, plate, |c| matches!(c, Cause::Slope(_) | Cause::Base))
    }
}

/// Solids in the Vs of slope s, each with the slope on the other side.
pub(super) fn between_slopes(
    drafts: &[Draft],
    places: &Places,
    roof: &Roof,
    laps: &[(usize, usize)],
    s: usize,
) -> Vec<Body> {
    let Some(plate) = places.slopes[s].map(|d| &drafts[d].plate) else { return Vec::new() };
    let mut limits: Vec<HalfSpace> = plate.frame.slab(plate.thickness).to_vec();
    let others = (0..roof.slopes.len()).filter(|&r| r != s);
    limits.extend(others.map(|r| halving(&roof.slopes[s], &roof.slopes[r])));
    limits
        .extend((0..plate.count()).filter(|&k| !matches!(plate.causes[k], Cause::Slope(_))).map(|k| plate.side_of(k)));
    let bodies = beyond(everywhere().clip_all(&limits), plate, |c| matches!(c, Cause::Slope(_)));
    bodies.into_iter().flat_map(|(cause, body)| uncovered(drafts, places, laps, s, cause, body)).collect()
}

/// Takes the covering plate out of a V that is lapped.
fn uncovered(
    drafts: &[Draft],
    places: &Places,
    laps: &[(usize, usize)],
    s: usize,
    cause: Cause,
    body: Solid,
) -> Vec<Body> {
    let Cause::Slope(r) = cause else { return vec![(cause, body)] };
    let cover = places.slopes[r].filter(|_| laps.contains(&(r, s))).map(|d| drafts[d].plate.solid());
    match cover {
        Some(cover) => crumbs_off(body.without(&cover.half_spaces())).map(|b| (cause, b)).collect(),
        None => vec![(cause, body)],
    }
}

/// The layer of icing round a floor that lies between the walls.
pub(super) fn round_floor(floor: &Plate, sides: &[PlanSide], depths: &[f64]) -> Vec<Body> {
    let inner: Vec<HalfSpace> = sides.iter().zip(depths).map(|(s, d)| s.half_space(-d)).collect();
    let slab = floor.frame.slab(floor.thickness);
    beyond(everywhere().clip_all(inner.iter().chain(&slab)), floor, |c| matches!(c, Cause::WallPlane(_)))
}
