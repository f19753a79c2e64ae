//! Which pieces must touch, counted from the house, and whether the solver lists them as joints.

use super::Whole;
use super::contact::AROUND;
use crate::envelope::is_bare_floor;
use crate::hull::{Plane, Tag, hull_of};
use crate::judge::{Case, Check, Fault};
use crate::neighbours::{Neighbours, neighbours};
use gable_plane::P3;
use gable_shell::{FloorKind, Joint, JointEnd, Role};

/// Contacts no longer than this need no joint, mm.
const SHORT: f64 = 5.0;
/// Millimetres of a contact that may be in no joint.
const BARE: f64 = 3.0;
/// How far outside the plane of a side without a wall counts as in it, mm.
const BARELY: f64 = 0.01;
/// Sine of the angle below which two faces run along each other rather than into each other: 15°.
const ALONG: f64 = 0.26;

impl Whole<'_> {
    /// Neighbours that the solver does not list as a joint all the way.
    ///
    /// Within a part: the edges of its envelope, where no obstacle and no passage is near. Between parts: wherever an outer
    /// face (wall or upper face of a roof) of a part that is cut runs into an outer face of an obstacle, away from the
    /// edges of both by more than the thickness of all plates, and from every other part.
    pub(super) fn neighbours(&self) -> Vec<Fault> {
        let mut faults: Vec<Fault> = Vec::new();
        for part in 0..self.parts.len() {
            let standing = &self.parts[part];
            let found = neighbours(standing.part, &standing.envelope);
            faults.extend(found.iter().filter_map(|pair| self.missing_within(part, pair)));
            for obstacle in self.obstacles(part) {
                faults.extend(self.missing_between(part, obstacle));
            }
        }
        faults
    }

    fn missing_within(&self, part: usize, pair: &Neighbours) -> Option<Fault> {
        let standing = &self.parts[part];
        let stands = standing.level.abs() < 1e-6 || standing.part.floor.kind == FloorKind::Under;
        let on_foot = pair.ends.1.is_none() || pair.ends.1 == Some(Role::Floor);
        if on_foot && (standing.on_roof || !stands) {
            return None;
        }
        let joints = self.joints((part, &pair.ends.0), pair.ends.1.as_ref().map(|role| (part, role)));
        let name = format!("{}: {:?} and {:?}", standing.part.id.0, pair.ends.0, pair.ends.1);
        let Some(line) = pair.line else {
            let alone = (0..self.parts.len()).all(|k| k == part || self.far(part, k));
            return (alone && joints.is_empty())
                .then(|| Case::fault(Check::Neighbours, format!("no joint of {name}"), 1.0));
        };
        let free: Vec<P3> = Self::steps(&line).into_iter().filter(|p| self.uncut(part, None, p)).collect();
        let least = 2.0 * pair.allowance + SHORT;
        self.bare(&free, &joints, 2.0 * pair.allowance, least, &name)
    }

    /// Whether two parts are so far from each other that neither cuts the other.
    fn far(&self, a: usize, b: usize) -> bool {
        let margin = self.margin(a, b) + 30.0;
        let ((low, high), other) = (self.box_of_part(a), self.box_of_part(b));
        (0..3).any(|i| low[i] > other.1[i] + margin || other.0[i] > high[i] + margin)
    }

    fn missing_between(&self, part: usize, obstacle: usize) -> Vec<Fault> {
        let mut faults = Vec::new();
        for (face, role) in self.faces(part) {
            for (other, other_role) in self.faces(obstacle) {
                let Some(line) = self.crossing(part, &face, obstacle, &other) else { continue };
                let mut steps = Self::steps(&line);
                steps.retain(|p| self.uncut(part, Some(obstacle), p) && self.uncut(obstacle, Some(part), p));
                steps.retain(|p| !self.is_in_lost_opening(part, p) && !self.is_in_lost_opening(obstacle, p));
                let name = format!(
                    "{} {role:?} and {} {other_role:?}",
                    self.parts[part].part.id.0, self.parts[obstacle].part.id.0
                );
                let joints = self.joints((part, &role), Some((obstacle, &other_role)));
                faults.extend(self.bare(&steps, &joints, BARE, SHORT, &name));
            }
        }
        faults
    }

    /// Whether a point lies in a door or window that another part cuts into: no biscuit is there.
    fn is_in_lost_opening(&self, part: usize, p: &P3) -> bool {
        let around = || hull_of(&AROUND.map(|d| p + d));
        self.lost_openings(part).iter().any(|opening| opening.intersection(&around()).volume() > 0.0)
    }

    /// Outer faces that a plate lies behind, with its role.
    pub(super) fn faces(&self, part: usize) -> Vec<(Plane, Role)> {
        let standing = &self.parts[part];
        let role = |plane: &Plane| match plane.tag {
            Tag::Wall(k) => standing.part.sides[k].wall.then(|| Role::Wall(standing.part.sides[k].id.clone())),
            Tag::Slope(k, tier) => Some(Role::Slope(standing.part.sides[k].id.clone(), tier)),
            Tag::Lid if !is_bare_floor(standing.part) => Some(Role::Lid),
            Tag::Lid | Tag::Base => None,
        };
        standing.envelope.outer.planes.iter().filter_map(|plane| Some((*plane, role(plane)?))).collect()
    }

    /// Whether no plate lies behind a face, so that others come up to it.
    pub(super) fn is_bare(&self, part: usize, tag: Tag) -> bool {
        matches!(tag, Tag::Wall(k) if !self.parts[part].part.sides[k].wall)
    }

    /// The line in which two faces cross, well inside both.
    fn crossing(&self, part: usize, face: &Plane, obstacle: usize, other: &Plane) -> Option<[P3; 2]> {
        let along = face.normal.cross(&other.normal);
        if along.norm() < ALONG {
            return None;
        }
        let foot = (other.normal.cross(&along) * face.offset + along.cross(&face.normal) * other.offset)
            / along.norm_squared();
        let (at, along) = (P3::from(foot), along.normalize());
        let margin = self.margin(part, obstacle);
        let (mut from, mut to) = (f64::NEG_INFINITY, f64::INFINITY);
        for (k, own) in [(part, face.tag), (obstacle, other.tag)] {
            let planes = &self.parts[k].envelope.outer.planes;
            // Out of the other part, along the face. A side without a wall counts up to its plane where the part comes up
            // to the other with it; an end that only just comes out of the other, as through its far side, does not.
            let out = if k == part { other.normal } else { face.normal };
            for plane in planes.iter().filter(|plane| plane.tag != own) {
                let comes_up = self.is_bare(k, plane.tag) && plane.normal.dot(&out) <= 0.0;
                // Walls stand on a floor under them.
                let on_floor = plane.tag == Tag::Base && self.parts[k].part.floor.kind == FloorKind::Under;
                let foot = if on_floor { self.parts[k].envelope.sizes.floor } else { 0.0 };
                let margin = if comes_up { -BARELY } else { margin + foot };
                let (room, rate) = (-margin - plane.excess(&at), plane.normal.dot(&along));
                if rate.abs() < 1e-9 {
                    if room < 0.0 {
                        return None;
                    }
                } else if rate > 0.0 {
                    to = to.min(room / rate);
                } else {
                    from = from.max(room / rate);
                }
            }
        }
        (to - from > SHORT && from.is_finite() && to.is_finite()).then(|| [at + along * from, at + along * to])
    }

    /// The joints of two roles; the second is the board when there is none.
    fn joints(&self, one: (usize, &Role), other: Option<(usize, &Role)>) -> Vec<&Joint> {
        let pieces = |(part, role): (usize, &Role)| self.by_role(part).remove(role).unwrap_or_default();
        let mine = pieces(one);
        let theirs: Option<Vec<usize>> = other.map(pieces);
        let is_mine = |end: &JointEnd| matches!(end, JointEnd::Piece(k) if mine.contains(k));
        let is_theirs = |end: &JointEnd| match (end, &theirs) {
            (JointEnd::Piece(k), Some(theirs)) => theirs.contains(k),
            (JointEnd::Board, None) => true,
            _ => false,
        };
        let meets = |j: &&Joint| {
            (is_mine(&j.ends[0]) && is_theirs(&j.ends[1])) || (is_mine(&j.ends[1]) && is_theirs(&j.ends[0]))
        };
        self.case.solved.joints.iter().filter(meets).collect()
    }

    /// A fault when too many of the points, a millimetre each, lie beside none of the joints; fewer than `least` need none.
    fn bare(&self, points: &[P3], joints: &[&Joint], most: f64, least: f64, name: &str) -> Option<Fault> {
        if points.len() as f64 <= least {
            return None;
        }
        let beside = |p: &P3| {
            joints.iter().any(|joint| {
                let [from, to] = joint.line;
                let share = (p - from).dot(&(to - from)) / (to - from).norm_squared().max(1e-12);
                (0.0..=1.0).contains(&share)
            })
        };
        let bare = points.iter().filter(|p| !beside(p)).count() as f64;
        let what = if joints.is_empty() { "no joint of" } else { "joint too short by mm:" };
        (bare > most).then(|| Case::fault(Check::Neighbours, format!("{what} {name}"), bare))
    }
}
