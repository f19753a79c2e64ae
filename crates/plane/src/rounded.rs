use crate::{HalfSpace, Solid, V3};

/// Edges that turn by more than this are bevelled when a solid is grown, radians: at 36° a sharp edge would be
/// 1 / cos 18° = 1.05 times the distance away.
const SHARP: f64 = 37.0 * std::f64::consts::PI / 180.0;
/// No bevel turns by more than this, radians.
const STEP: f64 = 36.0 * std::f64::consts::PI / 180.0;

impl Solid {
    /// The solid with everything added that is within `distance` mm of it, as half-spaces round a convex solid.
    ///
    /// Every face lies exactly `distance` out. Round its edges the true shape is rounded; here it is bevelled, and at most
    /// 1.06 times the distance away (at corners a little more).
    pub fn rounded(&self, distance: f64) -> Vec<HalfSpace> {
        let mut halves: Vec<HalfSpace> = self.half_spaces().iter().map(|h| h.moved(distance)).collect();
        if distance == 0.0 {
            return halves;
        }
        let flat = self.half_spaces();
        for (k, one) in flat.iter().enumerate() {
            for (other_k, other) in flat.iter().enumerate().skip(k + 1) {
                let turn = one.normal.angle(&other.normal);
                if turn < SHARP {
                    continue;
                }
                let Some(on_edge) = self.shared_corner(k, other_k) else { continue };
                let steps = (turn / STEP).ceil();
                for step in 1..steps as u32 {
                    let normal = between(&one.normal, &other.normal, f64::from(step) / steps);
                    halves.push(HalfSpace::through(on_edge, normal).moved(distance));
                }
            }
        }
        halves
    }
}

/// The unit direction a share of the way from one to another.
fn between(from: &V3, to: &V3, share: f64) -> V3 {
    nalgebra::UnitVector3::new_normalize(*from).slerp(&nalgebra::UnitVector3::new_normalize(*to), share).into_inner()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::P3;

    #[test]
    fn a_cube_grows_by_its_faces_and_has_its_edges_bevelled() {
        let cube = Solid::block(P3::origin(), P3::new(10.0, 10.0, 10.0));
        let room = Solid::block(P3::new(-50.0, -50.0, -50.0), P3::new(50.0, 50.0, 50.0));
        let grown = room.clip_all(&cube.rounded(1.0)).unwrap();
        // A cube of 12 less, along each of its 12 edges, a prism of what three tangents of 30° each leave of a square of
        // 1 mm, 1 - 3 tan 15° across and between 10 mm long (the edge) and 12 mm (with the corners, which the prisms share).
        let across = 1.0 - 3.0 * 15f64.to_radians().tan();
        let less = (1728.0 - grown.volume()) / 12.0 / across;
        assert!(less > 10.0 && less < 12.0, "{less}");
        assert_eq!(cube.rounded(1.0).len(), 6 + 2 * 12);
    }
}
