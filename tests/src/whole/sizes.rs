//! Typed sizes are met where nothing cuts them.

use super::Whole;
use crate::hull::Tag;
use crate::judge::sizes::NEAR;
use crate::judge::{Case, Check, Fault};
use gable_plane::V3;
use gable_shell::{Role, Top};

impl Whole<'_> {
    /// Walls that stand off their typed plane, stand above their typed height, or do not reach it although nothing cuts
    /// them there.
    pub(super) fn sizes(&self) -> Vec<Fault> {
        (0..self.parts.len()).flat_map(|part| self.sizes_of(part)).collect()
    }

    fn sizes_of(&self, part: usize) -> Vec<Fault> {
        let standing = &self.parts[part];
        let roles = self.by_role(part);
        let mut faults = Vec::new();
        for (k, side) in standing.part.sides.iter().enumerate() {
            let plane = standing.envelope.theory.planes.iter().find(|p| p.tag == Tag::Wall(k));
            let (Some(walls), Some(plane)) = (roles.get(&Role::Wall(side.id.clone())), plane) else { continue };
            for &wall in walls {
                let (_, out) = self.case.bodies[wall].reach(&plane.normal);
                if (out - plane.offset).abs() > NEAR {
                    let what = format!("{} stands off its typed line by mm", self.case.name(wall));
                    faults.push(Case::fault(Check::Size, what, out - plane.offset));
                }
            }
            let (Top::Eave { height, .. } | Top::Knee { height, .. }) = side.top else { continue };
            let tops = walls.iter().map(|&wall| self.case.bodies[wall].reach(&V3::z()).1);
            let miss = tops.fold(f64::NEG_INFINITY, f64::max) - standing.level - height.mm();
            let baked = walls.iter().any(|&wall| self.case.solved.pieces[wall].baked);
            let less = if baked { self.case.bridged } else { 0.0 };
            let short = miss < -NEAR - less && self.eave_is_free(part, k) && !self.excused(part, &side.id.0);
            if short || (miss > NEAR && !self.excused(part, &side.id.0)) {
                let what = format!("{} misses its height by mm", self.case.name(walls[0]));
                faults.push(Case::fault(Check::Size, what, miss));
            }
        }
        faults
    }

    /// Whether some of the eave over a wall is in nobody's way.
    fn eave_is_free(&self, part: usize, side: usize) -> bool {
        let ridges = self.parts[part].envelope.theory.ridges();
        let eaves = ridges.iter().filter(|r| {
            r.tags.contains(&Tag::Wall(side)) && r.tags.iter().any(|t| matches!(t, Tag::Slope(s, _) if *s == side))
        });
        let free = |line| Self::steps(line).iter().filter(|p| self.uncut(part, None, p)).count() > 30;
        eaves.into_iter().any(|eave| free(&eave.line))
    }

    fn excused(&self, part: usize, side: &str) -> bool {
        let id = &self.parts[part].part.id.0;
        let index = self.case.house.parts.iter().position(|p| p.id.0 == *id);
        let path = format!("parts[{}].sides.{side}", index.unwrap_or_default());
        self.case
            .solved
            .findings
            .iter()
            .any(|f| f.place.contains(&path) || f.place.starts_with(&format!("{id}/wall-{side}")))
    }
}
