use crate::triangulate::triangulate;
use gable_dress::{Covered, Unit};
use gable_plane::{P2, P3, V2, ring_centroid};
use gable_shell::{Piece, Tint};

/// How far above its face what shows between units lies, mm: enough for a graphics card to tell the two apart.
const GROUND: f64 = 0.15;

/// What a finish adds to its piece, as triangles with their colours, in piece coordinates; counter-clockwise seen from
/// outside. Units stand out by their thickness; where courses lap, their lower ends by twice as much.
pub fn relief_of(covered: &Covered, piece: &Piece) -> Vec<([P3; 3], [u8; 3])> {
    let shape = Shape { out: if covered.faces_up { 1.0 } else { -1.0 }, base: covered.z.mm() };
    let mut triangles = Vec::new();
    if let Some(tint) = covered.ground {
        let flat = |p: &P2| shape.lift(*p, GROUND);
        triangles.extend(shape.face(&covered.area, &flat).into_iter().map(|t| (t, tint.rgb())));
    }
    for unit in &covered.units {
        let tint = covered.tints.get(unit.shade).copied().unwrap_or_default();
        shape.unit(unit, covered, piece.up, tint, &mut triangles);
    }
    triangles
}

struct Shape {
    /// Which way is outside along z.
    out: f64,
    base: f64,
}

impl Shape {
    fn lift(&self, p: P2, height: f64) -> P3 {
        P3::new(p.x, p.y, self.base + self.out * height)
    }

    /// Corners in the order that shows their front to the outside.
    fn turned(&self, [a, b, c]: [P3; 3]) -> [P3; 3] {
        if self.out > 0.0 { [a, b, c] } else { [a, c, b] }
    }

    /// The triangles inside rings.
    fn face(&self, rings: &[Vec<P2>], lift: &impl Fn(&P2) -> P3) -> Vec<[P3; 3]> {
        if let [rim] = rings
            && let Some(fan) = star(rim)
        {
            return fan.into_iter().map(|t| self.turned(t.map(|p| lift(&p)))).collect();
        }
        let corners: Vec<P2> = rings.iter().flatten().copied().collect();
        let found = triangulate(rings).unwrap_or_default();
        found.into_iter().map(|t| self.turned(t.map(|k| lift(&corners[k])))).collect()
    }

    fn unit(&self, unit: &Unit, covered: &Covered, up: V2, tint: Tint, triangles: &mut Vec<([P3; 3], [u8; 3])>) {
        let levels = || unit.outline.iter().map(|p| p.coords.dot(&up));
        let (low, high) = (levels().fold(f64::INFINITY, f64::min), levels().fold(f64::NEG_INFINITY, f64::max));
        let thick = covered.thickness.mm();
        let height = |p: &P2| {
            let share = (p.coords.dot(&up) - low) / (high - low).max(1e-6);
            if covered.lapped { thick * (2.0 - share) } else { thick }
        };
        let lift = |p: &P2| self.lift(*p, height(p));
        let rings: Vec<Vec<P2>> = std::iter::once(&unit.outline).chain(&unit.holes).cloned().collect();
        triangles.extend(self.face(&rings, &lift).into_iter().map(|t| (t, tint.rgb())));
        for ring in &rings {
            for k in 0..ring.len() {
                let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
                // The right side of an edge is outside; lapped courses hide each other's upper edges.
                let outwards = V2::new((b - a).y, -(b - a).x);
                if covered.lapped && outwards.dot(&up) > 0.0 {
                    continue;
                }
                let (low_a, low_b, high_a, high_b) = (self.lift(a, 0.0), self.lift(b, 0.0), lift(&a), lift(&b));
                let side = [[low_a, low_b, high_b], [low_a, high_b, high_a]];
                triangles.extend(side.map(|t| (self.turned(t), tint.rgb())));
            }
        }
    }
}

/// Triangles from the middle of a counter-clockwise ring; `None` where one of them would be turned over.
fn star(ring: &[P2]) -> Option<Vec<[P2; 3]>> {
    let middle = if let [a, b, c, d] = ring {
        // The halves of a convex quadrangle.
        let halves = [[*a, *b, *c], [*a, *c, *d]];
        if halves.iter().all(|[p, q, r]| (q - p).perp(&(r - p)) > 0.0) {
            return Some(halves.to_vec());
        }
        ring_centroid(ring)
    } else {
        ring_centroid(ring)
    };
    let triangle = |k: usize| [middle, ring[k], ring[(k + 1) % ring.len()]];
    let fan: Vec<[P2; 3]> = (0..ring.len()).map(triangle).collect();
    fan.iter().all(|[p, q, r]| (q - p).perp(&(r - p)) >= 0.0).then_some(fan)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::V3;
    use gable_shell::{Covering, Faces, Finish, Where, demo, solve};

    fn area([a, b, c]: &[P3; 3]) -> V3 {
        (b - a).cross(&(c - a)) / 2.0
    }

    /// Area of the faces that look out against the area that the tally gives, which comes from clipping.
    #[test]
    fn units_stand_out_over_the_area_that_they_cover() {
        let mut house = demo::house("pilot-house").unwrap();
        for (k, which) in [(1, Where::Walls), (2, Where::Walls), (5, Where::Walls)] {
            let faces = Faces { which, ..Faces::default() };
            house.dressing.finishes = vec![Finish::usual(Covering::USUAL[k].1, faces)];
            let solved = solve(&house);
            for covered in &gable_dress::dress(&house, &solved).finishes {
                let piece = &solved.pieces[covered.piece];
                let out = if covered.faces_up { 1.0 } else { -1.0 };
                let top = covered.z.mm() + out * covered.thickness.mm();
                let up = relief_of(covered, piece).into_iter().map(|(t, _)| t);
                let level = up.filter(|t| t.iter().all(|p| (p.z - top).abs() < 1e-9));
                let sum: f64 = level.map(|t| area(&t).z * out).sum();
                // Nothing is left of some faces, and nothing covers them.
                assert!((sum - covered.tally.covered).abs() <= 1e-3 * sum.abs(), "{sum} {}", covered.tally.covered);
            }
        }
    }
}
