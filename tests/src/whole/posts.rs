//! Posts stand where the house says, on something and under something.

use super::Whole;
use crate::judge::{Case, Check, Fault};
use gable_plane::{P2, P3};
use gable_shell::{Joint, JointEnd, JointKind, Part, Role};

impl Whole<'_> {
    /// Posts that are missing where nothing cuts them, and posts without a joint at foot or head.
    pub(super) fn posts(&self) -> Vec<Fault> {
        (0..self.parts.len())
            .flat_map(|part| self.missing_posts(part).into_iter().chain(self.loose_posts(part)))
            .collect()
    }

    fn missing_posts(&self, part: usize) -> Vec<Fault> {
        let standing = &self.parts[part];
        let wanted =
            (0..standing.part.sides.len()).flat_map(|side| middles(standing.part, side, &standing.envelope.plan));
        let here = |p: &P2, role: &Role| {
            let at = |k: &usize| {
                let body = &self.case.bodies[*k];
                let own = matches!((&self.case.solved.pieces[*k].role, role), (Role::Post(a, n, _), Role::Post(b, m, _)) if a == b && n == m);
                own && (body.low.x..=body.high.x).contains(&p.x) && (body.low.y..=body.high.y).contains(&p.y)
            };
            standing.pieces.iter().any(at)
        };
        let level = standing.level + standing.envelope.sizes.floor + 1.0;
        let missing = wanted.filter(|(p, role)| self.uncut(part, None, &P3::new(p.x, p.y, level)) && !here(p, role));
        missing
            .map(|(_, role)| Case::fault(Check::Neighbours, format!("{}: no {role:?}", standing.part.id.0), 1.0))
            .collect()
    }

    fn loose_posts(&self, part: usize) -> Vec<Fault> {
        let pieces = &self.case.solved.pieces;
        let mut faults = Vec::new();
        for &k in self.parts[part].pieces.iter().filter(|&&k| matches!(pieces[k].role, Role::Post(..))) {
            let body = &self.case.bodies[k];
            let foot = P3::from((body.low.coords + body.high.coords) / 2.0);
            if !self.uncut(part, None, &P3::new(foot.x, foot.y, body.low.z)) {
                continue;
            }
            let joints: Vec<&Joint> =
                self.case.solved.joints.iter().filter(|j| j.ends.contains(&JointEnd::Piece(k))).collect();
            let stands = joints.iter().any(|j| j.kind == JointKind::Base);
            let carries = joints.iter().any(|j| matches!(j.kind, JointKind::Eave | JointKind::Rake));
            if !(stands && carries) {
                let what = format!("{} stands {stands}, carries {carries}", self.case.name(k));
                faults.push(Case::fault(Check::Neighbours, what, 1.0));
            }
        }
        faults
    }
}

/// The middle of each post of a row that begins and ends at square corners without walls, on the outer face.
fn middles(part: &Part, side: usize, plan: &[P2]) -> Vec<(P2, Role)> {
    let count = plan.len();
    let (before, after) = (&part.sides[(side + count - 1) % count], &part.sides[(side + 1) % count]);
    let Some(posts) = part.sides[side].posts.filter(|p| p.at_ends && p.count > 1) else { return vec![] };
    let (from, to) = (plan[side], plan[(side + 1) % count]);
    let (along, length) = ((to - from).normalize(), (to - from).norm());
    let square = |other: P2, corner: P2| (other - corner).normalize().dot(&along).abs() < 1e-6;
    let corners = square(plan[(side + count - 1) % count], from) && square(plan[(side + 2) % count], to);
    if before.wall || after.wall || !corners {
        return vec![];
    }
    let shared = after.posts.is_some_and(|p| p.at_ends && p.count > 1);
    let (number, width) = (usize::from(posts.count), posts.width.mm());
    let space = (length - width) / (number - 1) as f64;
    // Just inside of the outer face, wherever the side looks.
    let inward = gable_plane::V2::new(-along.y, along.x) * 0.5;
    let at = |k: usize| from + along * (width / 2.0 + space * k as f64) + inward;
    let role = |k: usize| Role::Post(part.sides[side].id.clone(), k as u8 + 1, None);
    (0..number - usize::from(shared)).map(|k| (at(k), role(k))).collect()
}
