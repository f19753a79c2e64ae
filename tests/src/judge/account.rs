//! Shell = biscuit + icing.

use super::{Case, Check, Fault};
use crate::body::Body;
use crate::envelope::{Envelope, Sizes};
use crate::hull::{Hull, Tag};
use gable_shell::{FloorKind, Part};
use manifold_rust::manifold::Manifold;

/// How much of the shell may be missing or too much.
pub(crate) const SHARE: f64 = 0.001;

impl Case<'_> {
    /// The shell between outer and inner envelope against the biscuit and icing in it, and the same for a parapet.
    ///
    /// Overhangs lie outside and do not count. A side without a wall has no thickness in the envelope: its neighbours
    /// reach its plane. Where they do so askew, their square ends leave a wedge that nothing fills.
    pub fn account(&self) -> Vec<Fault> {
        let missing = || {
            let Some(part) = self.part() else { return 0.0 };
            let open: Vec<Tag> = (0..part.sides.len()).filter(|&k| !part.sides[k].wall).map(Tag::Wall).collect();
            bare_ends(&self.envelope, &open) + under_doors(part, &self.envelope.sizes)
        };
        let walls = self.shell("shell", [&self.envelope.outer, &self.envelope.inner], missing);
        let parapet = self.envelope.parapet.as_ref();
        let parapet = parapet.and_then(|[outer, inner]| self.shell("parapet", [outer, inner], || 0.0));
        walls.into_iter().chain(parapet).collect()
    }

    /// What lies between two hulls against the biscuit and icing there; `missing` mm³ need not be filled.
    fn shell(&self, name: &str, [outer, inner]: [&Hull; 2], missing: impl Fn() -> f64) -> Option<Fault> {
        let (outer_solid, inner_solid) = (outer.solid(), inner.solid());
        let shell = outer_solid.volume() - inner_solid.volume();
        let filling = |body: &Body| within(body, outer, &outer_solid) - within(body, inner, &inner_solid);
        let biscuit: f64 = self.bodies.iter().map(filling).sum();
        let icing: f64 = self.icing.iter().map(|(_, body)| filling(body)).sum();
        let share = (biscuit + icing) / shell - 1.0;
        (share > SHARE || share < -SHARE - missing() / shell || !share.is_finite()).then(|| {
            let what = format!("{name} {shell:.1} mm³, biscuit {biscuit:.1}, icing {icing:.1}; difference as a share");
            Self::fault(Check::Account, what, share)
        })
    }
}

/// Volume, mm³, of the gaps between a floor slab and the doors that this judge walls up.
pub(crate) fn under_doors(part: &Part, sizes: &Sizes) -> f64 {
    if part.floor.kind != FloorKind::Under {
        return 0.0;
    }
    let doors = part.openings.iter().filter(|o| o.sill.mm() <= sizes.floor + sizes.gap);
    doors.map(|o| o.width.mm() * sizes.wall * sizes.gap).sum()
}

/// Volume, mm³, of the wedges at the free ends of walls beside an open side: a triangle t by t cot(angle).
pub(crate) fn bare_ends(envelope: &Envelope, open: &[Tag]) -> f64 {
    let count = envelope.plan.len();
    let is_open = |k: usize| open.contains(&Tag::Wall(k % count));
    let askew = (0..count).filter(|&k| is_open(k) != is_open(k + count - 1));
    let wedge = |k: usize| {
        let corner = envelope.plan[k];
        let points = envelope.outer.points();
        let line = points.iter().filter(|p| (p.xy() - corner).norm() < 1e-3).map(|p| p.z);
        let (low, high) = line.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), z| (a.min(z), b.max(z)));
        envelope.sizes.wall.powi(2) / envelope.turn(k).tan().abs() / 2.0 * (high - low).max(0.0)
    };
    askew.map(wedge).sum()
}

/// Volume of a body inside a hull, mm³; the library is spared the cases that one plane settles.
fn within(body: &Body, hull: &Hull, solid: &Manifold) -> f64 {
    let reach: Vec<(f64, f64)> = hull
        .planes
        .iter()
        .map(|plane| {
            let (low, high) = body.reach(&plane.normal);
            (low - plane.offset, high - plane.offset)
        })
        .collect();
    if reach.iter().all(|(_, high)| *high <= 1e-6) {
        return body.volume();
    }
    if reach.iter().any(|(low, _)| *low >= -1e-6) {
        return 0.0;
    }
    body.solid().intersection(solid).volume()
}
