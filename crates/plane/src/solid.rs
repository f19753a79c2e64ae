use crate::{P3, Rigid, SAME_POINT, V3};

/// The points with `normal · p <= offset`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HalfSpace {
    /// Unit direction out of what is kept.
    pub normal: V3,
    /// Distance of the plane from the origin along `normal`, mm.
    pub offset: f64,
}

impl HalfSpace {
    /// The half-space that ends at `point` and lies against `normal` (any length).
    pub fn through(point: P3, normal: V3) -> Self {
        let normal = normal.normalize();
        Self { normal, offset: normal.dot(&point.coords) }
    }

    /// How far a point is past the plane, mm; negative inside.
    pub fn excess(&self, p: &P3) -> f64 {
        self.normal.dot(&p.coords) - self.offset
    }

    /// The same plane moved out by `distance` mm.
    pub fn moved(&self, distance: f64) -> Self {
        Self { normal: self.normal, offset: self.offset + distance }
    }

    /// The other side of the plane.
    pub fn flipped(&self) -> Self {
        Self { normal: -self.normal, offset: -self.offset }
    }
}

/// One flat face of a solid.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// Corners, counter-clockwise seen from outside.
    pub corners: Vec<P3>,
    /// Unit direction out of the solid.
    pub normal: V3,
}

/// A convex solid, given by its faces.
#[derive(Clone, Debug, PartialEq)]
pub struct Solid {
    faces: Vec<Face>,
}

impl Solid {
    /// An upright box.
    pub fn block(low: P3, high: P3) -> Self {
        let bottom = [(low.x, low.y), (high.x, low.y), (high.x, high.y), (low.x, high.y)];
        let ring = |z: f64| bottom.iter().map(|&(x, y)| P3::new(x, y, z)).collect::<Vec<_>>();
        Self::prism(&ring(low.z), &ring(high.z))
    }

    /// The solid between two rings with the same number of corners, joined corner by corner.
    /// `top` lies where `bottom`'s counter-clockwise side looks.
    pub fn prism(bottom: &[P3], top: &[P3]) -> Self {
        let count = bottom.len().min(top.len());
        let face = |corners: Vec<P3>| Face { normal: newell(&corners), corners };
        let mut faces = vec![face(bottom.iter().rev().copied().collect()), face(top.to_vec())];
        for k in 0..count {
            let next = (k + 1) % count;
            faces.push(face(vec![bottom[k], bottom[next], top[next], top[k]]));
        }
        Self { faces }
    }

    /// The solid after a rigid motion.
    pub fn moved(&self, motion: &Rigid) -> Self {
        let face = |f: &Face| Face {
            corners: f.corners.iter().map(|p| motion * p).collect(),
            normal: motion.rotation * f.normal,
        };
        Self { faces: self.faces.iter().map(face).collect() }
    }

    /// The faces.
    pub fn faces(&self) -> &[Face] {
        &self.faces
    }

    /// The corners, each once.
    pub fn corners(&self) -> Vec<P3> {
        let mut found: Vec<P3> = Vec::new();
        for p in self.faces.iter().flat_map(|f| &f.corners) {
            if found.iter().all(|q| (p - q).norm() > SAME_POINT) {
                found.push(*p);
            }
        }
        found
    }

    /// The part inside a half-space; `None` when nothing of any size is left.
    pub fn clip(&self, half: &HalfSpace) -> Option<Self> {
        let excess = |p: &P3| half.excess(p);
        let all = || self.faces.iter().flat_map(|f| f.corners.iter());
        if all().all(|p| excess(p) <= SAME_POINT) {
            return Some(self.clone());
        }
        if all().all(|p| excess(p) >= -SAME_POINT) {
            return None;
        }
        let mut faces: Vec<Face> = Vec::new();
        let mut rim: Vec<P3> = Vec::new();
        for face in &self.faces {
            let kept = clip_ring(&face.corners, &excess);
            if kept.len() >= 3 {
                rim.extend(kept.iter().filter(|p| excess(p).abs() <= SAME_POINT));
                faces.push(Face { corners: kept, normal: face.normal });
            }
        }
        if let Some(cap) = cap(rim, half.normal) {
            faces.push(cap);
        }
        (faces.len() >= 4).then_some(Self { faces })
    }

    /// The part inside every half-space.
    pub fn clip_all<'a>(&self, halves: impl IntoIterator<Item = &'a HalfSpace>) -> Option<Self> {
        halves.into_iter().try_fold(self.clone(), |solid, half| solid.clip(half))
    }

    /// What is left of the solid outside the convex `tool` given by its half-spaces, as convex solids.
    ///
    /// A \ B is the disjoint union over B's planes of (A outside plane k, inside planes 0..k).
    pub fn without(&self, tool: &[HalfSpace]) -> Vec<Self> {
        let mut rest = Some(self.clone());
        let mut found = Vec::new();
        for half in tool {
            let Some(solid) = rest else { break };
            found.extend(solid.clip(&half.flipped()));
            rest = solid.clip(half);
        }
        if rest.is_none() && found.is_empty() { vec![self.clone()] } else { found }
    }

    /// The half-spaces of the faces.
    pub fn half_spaces(&self) -> Vec<HalfSpace> {
        self.faces.iter().filter_map(|f| f.corners.first().map(|&p| HalfSpace::through(p, f.normal))).collect()
    }

    /// The solid with every face moved out by `distance` mm (edges stay sharp).
    pub fn grown(&self, distance: f64) -> Option<Self> {
        if distance == 0.0 {
            return Some(self.clone());
        }
        let (low, high) = self.bounds();
        let reach = V3::repeat(distance * 100.0 + (high - low).norm());
        let room = Self::block(P3::from(low - reach), P3::from(high + reach));
        let halves: Vec<HalfSpace> = self.half_spaces().iter().map(|h| h.moved(distance)).collect();
        room.clip_all(&halves)
    }

    /// Volume that two solids share, mm³.
    pub fn shared_with(&self, other: &Self) -> f64 {
        if !self.boxes_meet(other) {
            return 0.0;
        }
        self.clip_all(&other.half_spaces()).map_or(0.0, |s| s.volume())
    }

    /// Least and greatest coordinates.
    pub fn bounds(&self) -> (V3, V3) {
        let points = self.faces.iter().flat_map(|f| &f.corners);
        points.fold((V3::repeat(f64::INFINITY), V3::repeat(f64::NEG_INFINITY)), |(low, high), p| {
            (low.inf(&p.coords), high.sup(&p.coords))
        })
    }

    fn boxes_meet(&self, other: &Self) -> bool {
        let ((al, ah), (bl, bh)) = (self.bounds(), other.bounds());
        (0..3).all(|k| al[k] < bh[k] && bl[k] < ah[k])
    }

    /// Volume, mm³.
    pub fn volume(&self) -> f64 {
        let Some(origin) = self.faces.first().and_then(|f| f.corners.first()) else { return 0.0 };
        let cone = |f: &Face| {
            let Some(apex) = f.corners.first() else { return 0.0 };
            let fan = f.corners.windows(2).map(|w| (w[0] - apex).cross(&(w[1] - apex)));
            (apex - origin).dot(&fan.sum::<V3>()) / 6.0
        };
        self.faces.iter().map(cone).sum()
    }
}

/// Unit normal of a ring that need not be perfectly flat.
fn newell(ring: &[P3]) -> V3 {
    let Some(first) = ring.first() else { return V3::zeros() };
    let sum: V3 = ring.windows(2).map(|w| (w[0] - first).cross(&(w[1] - first))).sum();
    sum.try_normalize(0.0).unwrap_or_else(V3::zeros)
}

fn clip_ring(ring: &[P3], excess: &impl Fn(&P3) -> f64) -> Vec<P3> {
    let mut kept: Vec<P3> = Vec::new();
    let mut push = |p: P3| {
        if kept.last().is_none_or(|q| (p - q).norm() > SAME_POINT) {
            kept.push(p);
        }
    };
    for k in 0..ring.len() {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        let (here, there) = (excess(&a), excess(&b));
        if here <= SAME_POINT {
            push(a);
        }
        if (here < -SAME_POINT && there > SAME_POINT) || (here > SAME_POINT && there < -SAME_POINT) {
            push(a + (b - a) * (here / (here - there)));
        }
    }
    if kept.len() > 1 && (kept[0] - kept[kept.len() - 1]).norm() <= SAME_POINT {
        kept.pop();
    }
    // A ring that only touches the plane along an edge keeps no area.
    if kept.iter().all(|p| excess(p) >= -SAME_POINT) { Vec::new() } else { kept }
}

/// The new face where a plane cut a solid: the convex ring through the cut points.
fn cap(rim: Vec<P3>, normal: V3) -> Option<Face> {
    let mut points: Vec<P3> = Vec::new();
    for p in rim {
        if points.iter().all(|q| (p - q).norm() > 2.0 * SAME_POINT) {
            points.push(p);
        }
    }
    if points.len() < 3 {
        return None;
    }
    let centre = P3::from(points.iter().fold(V3::zeros(), |s, p| s + p.coords) / points.len() as f64);
    let x = (points[0] - centre).try_normalize(0.0)?;
    let y = normal.cross(&x);
    let turn = |p: &P3| (p - centre).dot(&y).atan2((p - centre).dot(&x));
    points.sort_by(|a, b| turn(a).total_cmp(&turn(b)));
    Some(Face { corners: points, normal })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unit() -> Solid {
        Solid::block(P3::origin(), P3::new(1.0, 1.0, 1.0))
    }

    #[test]
    fn clipping_a_cube_by_its_diagonal_plane_halves_it() {
        let half = HalfSpace::through(P3::new(0.5, 0.5, 0.5), V3::new(1.0, 0.0, 1.0));
        let solid = unit().clip(&half).unwrap();
        assert!((solid.volume() - 0.5).abs() < 1e-12);
        assert_eq!(solid.faces().len(), 5);
    }

    #[test]
    fn a_difference_and_what_it_took_make_the_whole() {
        let tool = Solid::block(P3::new(0.25, 0.25, 0.25), P3::new(2.0, 0.75, 0.75));
        let rest: f64 = unit().without(&tool.half_spaces()).iter().map(Solid::volume).sum();
        assert!((rest - (1.0 - 0.75 * 0.25)).abs() < 1e-12);
        let apart = Solid::block(P3::new(2.0, 0.0, 0.0), P3::new(3.0, 1.0, 1.0));
        let whole: f64 = unit().without(&apart.half_spaces()).iter().map(Solid::volume).sum();
        assert!((whole - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_corner_cut_off_a_cube_is_a_tetrahedron() {
        let half = HalfSpace::through(P3::new(0.5, 0.0, 0.0), V3::new(1.0, 1.0, 1.0));
        assert!((unit().clip(&half).unwrap().volume() - 0.125 / 6.0).abs() < 1e-12);
    }
}
