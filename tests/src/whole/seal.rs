//! The inside of every part is closed.

use super::{Whole, box_of, boxes_apart};
use crate::hull::Tag;
use crate::judge::seal::{GROWTH, WELD, hollows, plug, union_of};
use crate::judge::{Case, Check, Fault};
use gable_plane::P3;
use gable_shell::Place;
use manifold_rust::linalg::Vec3;
use manifold_rust::manifold::Manifold;

/// Room that may lie open, mm³: what a side without a wall leaves beside its plug.
const GRAIN: f64 = 500.0;
/// Share of the room in a part that may lie open.
const OPEN: f64 = 0.1;
/// Blocks that are put in to find a hole are this large, mm.
const BLOCK: f64 = 5.0;

impl Whole<'_> {
    /// Parts whose inside is not closed.
    ///
    /// The pieces (doors and windows filled, passages not) are grown by gap + 0.05 mm and joined with icing, base board and
    /// plugs for sides without a wall that lie in no other part. Room in a part, its inner envelope less the bodies of its
    /// obstacles, that this leaves must lie in hollows of the union but for a tenth. A foot that reaches beyond the host's
    /// walls is plugged like a side without a wall, and a part that rises above the ridge that it ends at is left out:
    /// both only when the solver says so.
    pub fn seal(&self) -> Vec<Fault> {
        self.seal_at(self.case.house.gap.mm() + GROWTH)
    }

    /// The same with another growth, mm: what is closed then has no hole of twice the difference.
    pub fn seal_at(&self, growth: f64) -> Vec<Fault> {
        self.open_in(&self.joined(growth))
    }

    /// Corners of pieces where a block of 5 mm closes what is open, each with its piece: that is where the holes are.
    pub fn leaks(&self) -> Vec<String> {
        let joined = self.joined(self.case.house.gap.mm() + GROWTH);
        let open = self.open_in(&joined).len();
        let mut found = Vec::new();
        let size = Vec3::new(BLOCK, BLOCK, BLOCK);
        for (k, piece) in self.case.solved.pieces.iter().enumerate().filter(|_| open > 0) {
            let rings = [(&piece.outline, 0.0), (&piece.outline_back, piece.thickness.mm())];
            for p in rings.iter().flat_map(|(ring, z)| ring.iter().map(move |p| P3::new(p.x, p.y, *z))) {
                let at = piece.house_from_piece * p;
                let block = Manifold::cube(size, true).translate(Vec3::new(at.x, at.y, at.z));
                if self.open_in(&joined.union(&block)).len() < open {
                    found.push(format!("{:.1} {:.1} {:.1} of {}", at.x, at.y, at.z, self.case.name(k)));
                }
            }
        }
        found.sort();
        found.dedup();
        found
    }

    fn open_in(&self, joined: &Manifold) -> Vec<Fault> {
        let hollows = hollows(joined);
        let mut faults = Vec::new();
        for (k, standing) in self.parts.iter().enumerate().filter(|(k, _)| !self.rises_above_ridge(*k)) {
            let room = self.box_of_part(k);
            let near = self.obstacles(k).filter(|&o| !boxes_apart(room, self.box_of_part(o)));
            let inside = near.fold(standing.envelope.inner.solid(), |inside, o| inside.difference(&self.obstacle(o)));
            let closed: f64 = hollows.iter().map(|hollow| hollow.intersection(&inside).volume()).sum();
            let open = inside.difference(joined).volume() - closed;
            if open > GRAIN && open > OPEN * (open + closed) {
                let what = format!(
                    "inside of {}: {open:.0} mm³ open, {closed:.0} closed; open as a share",
                    standing.part.id.0
                );
                faults.push(Case::fault(Check::Seal, what, open / (open + closed)));
            }
        }
        faults
    }

    fn joined(&self, growth: f64) -> Manifold {
        let mut solids: Vec<Manifold> = self.case.bodies.iter().map(|body| body.grown(growth)).collect();
        solids.extend(self.case.icing.iter().map(|(_, body)| body.grown(WELD)));
        for (k, standing) in self.parts.iter().enumerate() {
            solids.extend(self.lost_openings(k));
            let foot = self.hangs(k).then_some(Tag::Base);
            solids.extend(self.open_sides(k).into_iter().chain(foot).map(|tag| plug(&standing.envelope, tag, growth)));
        }
        solids.push(self.case.board());
        union_of(solids)
    }

    fn said(&self, part: usize, kind: &str) -> bool {
        let place = format!("parts[{part}].place");
        self.case.solved.findings.iter().any(|f| f.kind == kind && f.place == place)
    }

    fn host(&self, part: usize) -> Option<usize> {
        let id = self.parts[part].part.place.host()?;
        self.parts.iter().position(|p| &p.part.id == id)
    }

    /// Whether a part on a roof stands with some corner beyond the walls of its host.
    fn hangs(&self, part: usize) -> bool {
        let beyond = |host: usize| {
            let walls = self.parts[host].envelope.outer.planes.iter().filter(|p| matches!(p.tag, Tag::Wall(_)));
            let walls: Vec<_> = walls.collect();
            let plan = self.parts[part].envelope.plan.iter().map(|p| P3::new(p.x, p.y, 0.0));
            plan.into_iter().any(|p| walls.iter().any(|plane| plane.excess(&p) > 0.0))
        };
        self.parts[part].on_roof && self.said(part, "hangs-in-the-air") && self.host(part).is_some_and(beyond)
    }

    /// Whether a part on a slope is higher than the roof that it stands on.
    fn rises_above_ridge(&self, part: usize) -> bool {
        let top = |k: usize| box_of(&self.parts[k].envelope.outer.points()).1.z;
        let is_on_slope = matches!(self.parts[part].part.place, Place::OnSlope { .. });
        is_on_slope && self.said(part, "open-behind") && self.host(part).is_some_and(|host| top(part) > top(host))
    }
}
