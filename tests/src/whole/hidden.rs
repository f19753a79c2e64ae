//! Parts that the solver says are hidden in others: whether that is so.

use super::Whole;
use crate::hull::{Hull, Plane, Tag, hull_of};
use gable_plane::{P3, V3};
use manifold_rust::manifold::Manifold;

/// What is thinner than a blade nobody can cut, mm (common practice, no source).
const BLADE: f64 = 1.0;
/// A piece smaller than this nobody can hold, mm² (common practice, no source).
const CRUMB: f64 = 20.0;

impl Whole<'_> {
    /// Whether the solver says of a part that it is hidden, and no piece that it left out could have been made.
    pub(super) fn is_hidden(&self, part: usize) -> bool {
        let place = format!("parts[{part}].place");
        let said = self.case.solved.findings.iter().any(|f| f.kind == "part-hidden" && f.place == place);
        let made = self.by_role(part);
        said && self.faces(part).iter().filter(|(_, role)| !made.contains_key(role)).all(|(face, _)| {
            let (room, thickness) = self.room_for_piece(part, face);
            room <= (CRUMB + BLADE * BLADE) * thickness
        })
    }

    /// Room for a straight-cut piece behind a face, mm³, and its thickness: the plate less all that stands, at any depth,
    /// in or within a gap and a blade of an obstacle.
    fn room_for_piece(&self, part: usize, face: &Plane) -> (f64, f64) {
        let Self { parts, .. } = self;
        let sizes = parts[part].envelope.sizes;
        let thickness = if matches!(face.tag, Tag::Wall(_)) { sizes.wall } else { sizes.roof };
        let behind = Plane { normal: -face.normal, offset: thickness - face.offset, ..*face };
        let within = |hull: &Hull, grown: f64| -> Option<Hull> {
            let planes = hull.planes.iter().map(|p| Plane { offset: p.offset + grown, ..*p });
            let cut = Hull::new(planes.chain([*face, behind]).collect());
            (cut.points().len() >= 4).then_some(cut)
        };
        let envelope = &parts[part].envelope;
        let body = if matches!(face.tag, Tag::Wall(_)) { &envelope.theory } else { &envelope.outer };
        let Some(plate) = within(body, 0.0) else { return (0.0, thickness) };
        let closed = self.obstacles(part).filter(|&k| self.open_sides(k).is_empty());
        let shadow = |k: usize| {
            let hull = within(&parts[k].envelope.outer, sizes.gap + BLADE)?;
            Some(swept(&hull.points(), face.normal * thickness))
        };
        let free = closed.filter_map(shadow).fold(plate.solid(), |rest, shadow| rest.difference(&shadow));
        (free.volume(), thickness)
    }
}

/// The convex body round some points, moved to and fro.
fn swept(points: &[P3], by: V3) -> Manifold {
    hull_of(&points.iter().flat_map(|p| [p + by, p - by]).collect::<Vec<_>>())
}
