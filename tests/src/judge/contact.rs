//! What must touch does: counted from the house, measured slice by slice.

use super::slices::{Near, Slice};
use super::{Case, Check, Fault};
use crate::body::Body;
use crate::hull::Tag;
use crate::neighbours::{Neighbours, neighbours};
use gable_plane::P3;
use gable_shell::{Joint, JointEnd, JointKind, Role};

/// How far from one gap apart a slice may be, mm.
const PLAY: f64 = 0.05;
/// Share of slices that must be one gap apart.
const SHARE: f64 = 0.98;

impl Case<'_> {
    /// Neighbours, counted from the house, that the solver does not list as a joint along their whole line.
    pub fn neighbours(&self) -> Vec<Fault> {
        let Some(part) = self.part() else { return vec![] };
        neighbours(part, &self.envelope).iter().filter_map(|n| self.missing(n)).collect()
    }

    fn missing(&self, pair: &Neighbours) -> Option<Fault> {
        let name = format!("{:?} and {:?}", pair.ends.0, pair.ends.1);
        let end = |role| self.piece(role).map(JointEnd::Piece);
        let ends = end(&pair.ends.0).zip(pair.ends.1.as_ref().map_or(Some(JointEnd::Board), end));
        let Some((a, b)) = ends else {
            return Some(Self::fault(Check::Neighbours, format!("no piece for one of {name}"), 1.0));
        };
        let joints = self.solved.joints.iter();
        let joints: Vec<&Joint> =
            joints.filter(|j| j.ends == [a.clone(), b.clone()] || j.ends == [b.clone(), a.clone()]).collect();
        if joints.is_empty() {
            return Some(Self::fault(Check::Neighbours, format!("no joint of {name}"), 1.0));
        }
        let line = pair.line?;
        let bare = uncovered(&line, &joints) - 2.0 * (pair.allowance + self.bridged);
        (bare > 0.0).then(|| Self::fault(Check::Neighbours, format!("joint of {name} too short by mm"), bare))
    }

    /// Joints whose two sides are not one gap apart in 98 % of the slices.
    pub fn contacts(&self) -> Vec<Fault> {
        let widest = |joint: &Joint| self.flush_gap(joint).unwrap_or(self.gap_of(joint));
        let apart = |joint: &Joint| self.apart(joint, &[], widest(joint), widest(joint));
        self.solved.joints.iter().filter_map(apart).collect()
    }

    /// A joint whose two sides are not one gap apart: at most `widest`, or `at_corners` where only corners of both are near.
    ///
    /// What is near enough to `filled`, icing in the corners of the first piece, need not be as near to its biscuit.
    pub(crate) fn apart(&self, joint: &Joint, filled: &[&Body], widest: f64, at_corners: f64) -> Option<Fault> {
        let gap = self.gap_of(joint);
        if (joint.gap.mm() - gap).abs() > 1e-9 {
            return Some(Self::fault(Check::Contact, format!("{} says gap mm", joint.id.0), joint.gap.mm()));
        }
        let length = (joint.line[1] - joint.line[0]).norm();
        if length < 0.5 {
            return Some(Self::fault(Check::Contact, format!("{} is no longer than mm", joint.id.0), length));
        }
        let along = (joint.line[1] - joint.line[0]) / length;
        let count = (length.round() as usize).max(1);
        let at = |k: usize| joint.line[0] + along * (length * (k as f64 + 0.5) / count as f64);
        // Beside the ends a baked piece may have stopped.
        let beside = |k: &usize| (*k as f64 + 0.5).min(count as f64 - *k as f64 - 0.5) < self.bridged(joint);
        let slices: Vec<Slice> = (0..count).filter(|k| !beside(k)).map(|k| Slice::new(at(k), along)).collect();
        let play = PLAY + self.bridged(joint);
        // A baked piece may take up half of a gap.
        let tightest = if self.bridged(joint) > 0.0 { gap / 2.0 } else { gap };
        let most = |near: &Near| if near.corners { at_corners } else { widest } + play;
        let meets = |near: &Near| near.distance <= most(near);
        let by_icing =
            |slice: &Slice| filled.iter().any(|b| self.to_second(joint, b, slice).is_some_and(|n| meets(&n)));
        let nears: Vec<Option<Near>> = slices.iter().map(|slice| self.distance(joint, slice)).collect();
        let is_good = |(near, slice): (&Option<Near>, &Slice)| {
            near.is_some_and(|n| n.distance >= tightest - PLAY && (meets(&n) || by_icing(slice)))
        };
        let good = std::iter::zip(&nears, &slices).filter(|pair| is_good(*pair)).count();
        let distances: Vec<Option<f64>> = nears.iter().map(|n| n.map(|n| n.distance)).collect();
        let share = good as f64 / slices.len().max(1) as f64;
        (share < SHARE && !slices.is_empty()).then(|| {
            let what = format!("{} {:?}: {}; share of slices", joint.id.0, joint.kind, summary(&distances, gap));
            Self::fault(Check::Contact, what, share)
        })
    }

    /// The second piece of a joint from something beside the first.
    fn to_second(&self, joint: &Joint, body: &Body, slice: &Slice) -> Option<Near> {
        let JointEnd::Piece(second) = joint.ends[1] else { return None };
        slice.distance(body, self.bodies.get(second)?)
    }

    fn distance(&self, joint: &Joint, slice: &Slice) -> Option<Near> {
        match joint.ends {
            [JointEnd::Piece(a), JointEnd::Piece(b)] => slice.distance(self.bodies.get(a)?, self.bodies.get(b)?),
            [JointEnd::Piece(a), JointEnd::Board] | [JointEnd::Board, JointEnd::Piece(a)] => {
                Some(Near { distance: slice.lowest(self.bodies.get(a)?)?, corners: false })
            }
            _ => None,
        }
    }

    /// Distance of the edges of a wall and a roof piece that ends flush with it: the underside passes one gap from the
    /// top of the wall, but stops before its nearest point, and edges are g / sin(dihedral) apart.
    fn flush_gap(&self, joint: &Joint) -> Option<f64> {
        let [JointEnd::Piece(wall), JointEnd::Piece(roof)] = joint.ends else { return None };
        let [wall, roof] = [wall, roof].map(|k| self.solved.pieces.get(k));
        let Role::Wall(side) = &wall?.role else { return None };
        let roof = roof.filter(|r| matches!(r.role, Role::Slope(..) | Role::Lid))?;
        let k = self.part()?.sides.iter().position(|s| s.id == *side)?;
        let plane = self.envelope.theory.planes.iter().find(|p| p.tag == Tag::Wall(k))?;
        let underside = roof.outline.iter().map(|p| roof.house_from_piece * P3::new(p.x, p.y, 0.0));
        let overhang = underside.map(|p| plane.excess(&p)).fold(f64::NEG_INFINITY, f64::max);
        let gap = self.envelope.sizes.gap;
        (overhang < gap).then(|| gap / joint.dihedral.sin())
    }

    /// The gap that a joint should have: none on the board; what the joint says where a wall stands on the floor.
    pub(crate) fn gap_of(&self, joint: &Joint) -> f64 {
        if joint.ends.contains(&JointEnd::Board) || (joint.kind == JointKind::Base && joint.gap.mm() == 0.0) {
            return 0.0;
        }
        self.envelope.sizes.gap
    }
}

fn summary(distances: &[Option<f64>], gap: f64) -> String {
    let off: Vec<(usize, Option<f64>)> =
        distances.iter().copied().enumerate().filter(|(_, d)| d.is_none_or(|d| (d - gap).abs() > PLAY)).collect();
    let missed = off.iter().filter(|(_, d)| d.is_none()).count();
    let widest = off.iter().filter_map(|(_, d)| *d).fold(0.0, f64::max);
    let (first, last) = (off.first().map_or(0, |o| o.0), off.last().map_or(0, |o| o.0));
    format!(
        "gap {gap}, {} of {} slices off (numbers {first} to {last}), {missed} miss a piece, widest {widest:.3}",
        off.len(),
        distances.len()
    )
}

/// Length of a line, mm, that lies over none of the joints' lines.
fn uncovered(line: &[P3; 2], joints: &[&Joint]) -> f64 {
    let length = (line[1] - line[0]).norm();
    let along = (line[1] - line[0]) / length;
    let mut spans: Vec<(f64, f64)> = joints
        .iter()
        .map(|j| j.line.map(|p| (p - line[0]).dot(&along).clamp(0.0, length)))
        .map(|[a, b]| (a.min(b), a.max(b)))
        .collect();
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut reached, mut bare) = (0.0, 0.0);
    for (from, to) in spans {
        bare += f64::max(0.0, from - reached);
        reached = f64::max(reached, to);
    }
    bare + length - reached
}
