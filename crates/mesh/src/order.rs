use gable_plane::{P3, Rigid, Solid, V3};

/// Directions nearer than this (sine of the angle between them) count as one.
///
/// A metre of biscuit turned by it moves 1e-6 mm, so no axis that matters is lost.
const SAME_DIRECTION: f64 = 1e-9;

/// A convex body as the test by separating axes needs it: corners, face normals, edge directions.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    corners: Vec<P3>,
    /// Unit, out of the body; parallel ones once for each sense.
    normals: Vec<V3>,
    /// Unit; parallel ones once.
    edges: Vec<V3>,
}

impl Body {
    /// The body of a convex solid. Faces that are a little warped count as the triangles they can be folded into,
    /// and the body as the hull of its corners.
    pub fn of(solid: &Solid) -> Self {
        let mut body = Self { corners: solid.corners().to_vec(), normals: Vec::new(), edges: Vec::new() };
        for face in solid.faces() {
            body.add_normal(face.normal);
            body.add_warped(&face.corners, face.normal);
            for k in 0..face.corners.len() {
                body.add_edge(face.corners[(k + 1) % face.corners.len()] - face.corners[k]);
            }
        }
        body
    }

    fn add_normal(&mut self, normal: V3) {
        let Some(unit) = normal.try_normalize(1e-12) else { return };
        if self.normals.iter().all(|n| n.dot(&unit) < 0.0 || n.cross(&unit).norm() > SAME_DIRECTION) {
            self.normals.push(unit);
        }
    }

    fn add_edge(&mut self, edge: V3) {
        let Some(unit) = edge.try_normalize(1e-9) else { return };
        if self.edges.iter().all(|e| e.cross(&unit).norm() > SAME_DIRECTION) {
            self.edges.push(unit);
        }
    }

    fn add_warped(&mut self, ring: &[P3], normal: V3) {
        let &[a, b, c, d] = ring else { return };
        if ((d - a).dot(&normal)).abs() < 1e-9 && ((c - a).dot(&normal)).abs() < 1e-9 {
            return;
        }
        for [p, q, r] in [[a, b, c], [a, c, d], [b, c, d], [a, b, d]] {
            self.add_normal((q - p).cross(&(r - p)));
        }
        self.add_edge(c - a);
        self.add_edge(d - b);
    }

    /// The same body somewhere else.
    pub fn moved(&self, to_from: &Rigid) -> Self {
        Self {
            corners: self.corners.iter().map(|p| to_from * p).collect(),
            normals: self.normals.iter().map(|n| to_from * n).collect(),
            edges: self.edges.iter().map(|e| to_from * e).collect(),
        }
    }

    /// The corners, mm.
    pub fn corners(&self) -> &[P3] {
        &self.corners
    }

    /// Mean of the corners.
    pub fn middle(&self) -> P3 {
        middle(&self.corners)
    }

    /// How far the body reaches along an axis: least and most, mm.
    pub fn span(&self, axis: &V3) -> (f64, f64) {
        let reach = self.corners.iter().map(|p| axis.dot(&p.coords));
        reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| (low.min(x), high.max(x)))
    }

    /// Whether the two share more than a film `slack` mm thick. Bodies that only touch do not.
    ///
    /// Two convex bodies are apart exactly when they are apart along a face normal of one of them or along a direction
    /// square to an edge of each.
    pub fn overlaps(&self, other: &Self, slack: f64) -> bool {
        let crossed = self.edges.iter().flat_map(|e| other.edges.iter().map(|f| e.cross(f)));
        let faces = self.normals.iter().chain(&other.normals).copied();
        !faces.chain(crossed).any(|axis| self.gap(other, &axis) >= -slack || other.gap(self, &axis) >= -slack)
    }

    /// Whether this body, swept along `direction` without end, meets the other by more than a film `slack` mm thick.
    ///
    /// The swept body is convex again. It reaches without end along every axis that looks `direction`'s way, so an axis
    /// from it to the other can only part them when it looks against `direction` or square to it; what it adds to the
    /// axes are those square to `direction` and an edge, along which the shadows of the two are apart.
    pub fn swept_meets(&self, direction: &V3, other: &Self, slack: f64) -> bool {
        let parts = |axis: &V3| axis.dot(direction) <= 1e-9 && self.gap(other, axis) >= -slack;
        let either = |axis: V3| parts(&if axis.dot(direction) > 1e-9 { -axis } else { axis });
        let aside = |axis: V3| {
            let Some(axis) = axis.try_normalize(SAME_DIRECTION) else { return false };
            let (own, its) = (self.span(&axis), other.span(&axis));
            its.0 - own.1 >= -slack || own.0 - its.1 >= -slack
        };
        let shadows = self.edges.iter().chain(&other.edges).map(|e| e.cross(direction));
        if shadows.into_iter().any(aside) {
            return false;
        }
        if self.normals.iter().any(parts) || other.normals.iter().any(|n| parts(&-n)) {
            return false;
        }
        let mut crossed = self.edges.iter().flat_map(|e| other.edges.iter().map(|f| e.cross(f)));
        !crossed.any(either)
    }

    /// Room between this body and the other along an axis of any length, mm; negative where they share it.
    /// Axes too short to have a direction part nothing.
    fn gap(&self, other: &Self, axis: &V3) -> f64 {
        let Some(axis) = axis.try_normalize(SAME_DIRECTION) else { return f64::NEG_INFINITY };
        other.span(&axis).0 - self.span(&axis).1
    }
}

/// Mean of some points; the origin without any.
pub(crate) fn middle(points: &[P3]) -> P3 {
    let sum = points.iter().fold(V3::zeros(), |s, p| s + p.coords);
    P3::from(sum / points.len().max(1) as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(x: f64, y: f64, z: f64) -> Body {
        Body::of(&Solid::block(P3::new(x, y, z), P3::new(x + 1.0, y + 1.0, z + 1.0)))
    }

    fn turned(x: f64, axis: V3, degrees: f64) -> Body {
        let turn = nalgebra::UnitQuaternion::new(axis.normalize() * degrees.to_radians());
        let block = Body::of(&Solid::block(P3::new(-0.5, -0.5, -0.5), P3::new(0.5, 0.5, 0.5)));
        block.moved(&Rigid::from_parts(nalgebra::Translation3::new(x, 0.0, 0.0), turn))
    }

    #[test]
    fn touching_is_no_overlap() {
        let here = block(0.0, 0.0, 0.0);
        assert!(!here.overlaps(&block(1.0, 0.0, 0.0), 1e-9));
        assert!(!here.overlaps(&block(1.0, 1.0, 1.0), 1e-9));
        assert!(here.overlaps(&block(0.999, 0.0, 0.0), 1e-9));
        assert!(here.overlaps(&here, 1e-9));
    }

    /// Half the diagonal of a unit square is 0.7071, of a unit cube 0.8660 (closed forms).
    #[test]
    fn turned_cubes_meet_where_their_diagonals_say() {
        let still = turned(0.0, V3::z(), 0.0);
        assert!(still.overlaps(&turned(1.2070, V3::z(), 45.0), 1e-9));
        assert!(!still.overlaps(&turned(1.2072, V3::z(), 45.0), 1e-9));
        // Corner to face: the diagonal of the cube turned on to the x axis.
        let onto_x = V3::new(1.0, 1.0, 1.0).cross(&V3::x());
        let degrees = (1.0 / 3f64.sqrt()).acos().to_degrees();
        assert!(still.overlaps(&turned(1.3659, onto_x, degrees), 1e-9));
        assert!(!still.overlaps(&turned(1.3661, onto_x, degrees), 1e-9));
    }

    /// Edge against edge, which no face normal parts: two cubes on edge, crossed, each 0.7071 high.
    #[test]
    fn crossed_edges_part_bodies() {
        let low = turned(0.0, V3::y(), 45.0);
        let high = turned(0.0, V3::x(), 45.0);
        let lifted = |z: f64| high.moved(&Rigid::translation(0.0, 0.0, z));
        assert!(low.overlaps(&lifted(1.4141), 1e-9));
        assert!(!low.overlaps(&lifted(1.4143), 1e-9));
    }

    #[test]
    fn a_sweep_meets_what_is_ahead_only() {
        let here = block(0.0, 0.0, 0.0);
        assert!(here.swept_meets(&V3::x(), &block(5.0, 0.5, 0.5), 1e-9));
        assert!(!here.swept_meets(&V3::x(), &block(-5.0, 0.5, 0.5), 1e-9));
        assert!(!here.swept_meets(&V3::x(), &block(5.0, 1.0, 0.0), 1e-9));
        assert!(here.swept_meets(&V3::x(), &block(1.0, 0.0, 0.0), 1e-9));
        assert!(!here.swept_meets(&-V3::x(), &block(1.0, 0.0, 0.0), 1e-9));
        let up = V3::new(1.0, 0.0, 1.0).normalize();
        assert!(here.swept_meets(&up, &block(5.0, 0.0, 6.9), 1e-9));
        assert!(!here.swept_meets(&up, &block(5.0, 0.0, 7.1), 1e-9));
    }

    /// A long sweep is the hull of the body here and far along, so the plain test on that hull must agree.
    #[test]
    fn sweeps_agree_with_the_hull_of_start_and_end() {
        let direction = V3::new(0.3, -0.7, 0.2).normalize();
        for k in 0..60 {
            let spread = |m: u64| ((k as u64 * m + 3) % 29) as f64 / 7.0 - 2.0;
            let other = turned(0.0, V3::new(spread(7), 1.0, spread(5)), spread(11) * 40.0).moved(&Rigid::translation(
                spread(13),
                spread(17),
                spread(19),
            ));
            let steps = (0..=4000).map(|s| {
                turned(0.0, V3::x(), 0.0).moved(&Rigid::from_parts(
                    (direction * f64::from(s) * 0.0025).into(),
                    nalgebra::UnitQuaternion::identity(),
                ))
            });
            let met = steps.into_iter().any(|b| b.overlaps(&other, 1e-2));
            let still = turned(0.0, V3::x(), 0.0);
            if met {
                assert!(still.swept_meets(&direction, &other, 1e-9), "case {k}");
            }
            if still.swept_meets(&direction, &other, 2e-2) {
                let loose = (0..=4000).map(|s| {
                    still.moved(&Rigid::from_parts(
                        (direction * f64::from(s) * 0.0025).into(),
                        nalgebra::UnitQuaternion::identity(),
                    ))
                });
                assert!(loose.into_iter().any(|b| b.overlaps(&other, 1e-9)), "case {k}");
            }
        }
    }
}
