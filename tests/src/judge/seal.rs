//! The inside is closed.

use super::{Case, Check, Fault};
use crate::envelope::Envelope;
use crate::hull::{Hull, Plane, Tag, hull_of};
use gable_plane::{P3, V3};
use manifold_rust::linalg::Vec3;
use manifold_rust::manifold::Manifold;
use manifold_rust::types::MeshGL64;

/// Pieces grow by the gap and this much, mm.
pub(crate) const GROWTH: f64 = 0.05;
/// Icing bodies that lie face on face are apart by rounding, which a solid library takes for a slit; so they grow by
/// this, mm. Too little leaves slits, too much hides real ones; icing runs into anything thinner than a hair (0.05 mm).
pub(crate) const WELD: f64 = 0.005;

impl Case<'_> {
    /// Whether pieces (openings filled, grown by gap + 0.05 mm), icing, base board and plugs for missing walls leave a
    /// closed hollow that takes up most of the inside.
    pub fn seal(&self) -> Option<Fault> {
        let share = self.hollow(self.envelope.sizes.gap + GROWTH, true);
        (share < 0.5).then(|| Self::fault(Check::Seal, "closed hollow as a share of the inside".to_owned(), share))
    }

    /// The smallest growth, mm, that closes the inside without any icing, within 0.05 mm; `None` above `most`.
    pub fn dry_way_in(&self, most: f64) -> Option<f64> {
        let (mut open, mut closed) = (0.0, most);
        if self.hollow(closed, false) < 0.2 {
            return None;
        }
        while closed - open > 0.05 {
            let middle = f64::midpoint(open, closed);
            if self.hollow(middle, false) < 0.2 {
                open = middle;
            } else {
                closed = middle;
            }
        }
        Some(closed)
    }

    /// Volume of the largest closed hollow over that of the inside.
    fn hollow(&self, growth: f64, icing: bool) -> f64 {
        self.hollow_of(&|_| growth, growth, icing)
    }

    /// The same with a growth for each piece.
    pub fn hollow_of(&self, by: &dyn Fn(usize) -> f64, growth: f64, icing: bool) -> f64 {
        let grown = self.bodies.iter().enumerate().map(|(k, body)| body.grown(by(k)));
        let mut solids: Vec<Manifold> = grown.collect();
        if icing {
            solids.extend(self.icing.iter().map(|(_, body)| body.grown(WELD)));
        }
        solids.extend(self.plugs(growth));
        solids.push(self.board());
        let joined = union_of(solids);
        largest_hollow(&joined) / self.envelope.inner.solid().volume()
    }

    pub(crate) fn board(&self) -> Manifold {
        let (low, high) = self.all_round(20.0);
        let size = Vec3::new(high.x - low.x, high.y - low.y, 6.0);
        Manifold::cube(size, false).translate(Vec3::new(low.x, low.y, -6.0))
    }

    /// A box round all pieces, and this much more on every side.
    pub(crate) fn all_round(&self, more: f64) -> (P3, P3) {
        let more = V3::new(more, more, more);
        let low = self.bodies.iter().map(|b| b.low).reduce(|a, b| a.inf(&b)).unwrap_or_else(P3::origin);
        let high = self.bodies.iter().map(|b| b.high).reduce(|a, b| a.sup(&b)).unwrap_or_else(P3::origin);
        (low - more, high + more)
    }

    /// A plate just inside the plane of each side without a wall.
    fn plugs(&self, growth: f64) -> Vec<Manifold> {
        let Some(part) = self.part() else { return vec![] };
        let bare = part.sides.iter().enumerate().filter(|(_, side)| !side.wall);
        bare.map(|(k, _)| self.plug(k, growth)).collect()
    }

    fn plug(&self, side: usize, growth: f64) -> Manifold {
        plug(&self.envelope, Tag::Wall(side), growth)
    }
}

/// A plate just inside a plane of a part, up to the roof.
pub(crate) fn plug(envelope: &Envelope, tag: Tag, growth: f64) -> Manifold {
    let mut planes: Vec<Plane> = envelope.theory.planes.clone();
    let raise = |p: &mut Plane| {
        if matches!(p.tag, Tag::Slope(..) | Tag::Lid) {
            p.offset += envelope.sizes.gap;
        }
    };
    planes.iter_mut().for_each(raise);
    if let Some(plane) = planes.iter().find(|p| p.tag == tag).copied() {
        planes.push(Plane { normal: -plane.normal, offset: 1.0 - plane.offset, ..plane });
    }
    let steps = [V3::x(), V3::y(), V3::z()].into_iter().flat_map(|v| [v * growth, -v * growth]);
    let steps: Vec<V3> = steps.collect();
    let points = Hull::new(planes).points();
    hull_of(&points.iter().flat_map(|p| steps.iter().map(move |s| p + s)).collect::<Vec<_>>())
}

/// Volume of the largest closed hollow in a solid, mm³; 0 without one.
fn largest_hollow(solid: &Manifold) -> f64 {
    // The skin of a hollow is turned inside out: its volume is negative.
    -solid.decompose().iter().map(signed_volume).fold(0.0, f64::min)
}

/// The closed hollows in a solid, as solids.
pub(crate) fn hollows(solid: &Manifold) -> Vec<Manifold> {
    solid.decompose().iter().filter(|skin| signed_volume(skin) < 0.0).map(turned_inside_out).collect()
}

fn turned_inside_out(skin: &Manifold) -> Manifold {
    let mesh = skin.get_mesh_gl64(-1);
    let count = mesh.vert_properties.len() / mesh.num_prop.max(1) as usize;
    Manifold::from_mesh_gl64(&MeshGL64 {
        num_prop: 3,
        vert_properties: (0..count).flat_map(|k| mesh.get_vert_pos(k)).collect(),
        tri_verts: mesh.tri_verts.chunks_exact(3).flat_map(|t| [t[0], t[2], t[1]]).collect(),
        ..MeshGL64::default()
    })
}

fn signed_volume(skin: &Manifold) -> f64 {
    let mesh = skin.get_mesh_gl64(-1);
    let at = |k: u64| {
        let [x, y, z] = mesh.get_vert_pos(k as usize);
        V3::new(x, y, z)
    };
    mesh.tri_verts.chunks_exact(3).map(|t| at(t[0]).dot(&at(t[1]).cross(&at(t[2]))) / 6.0).sum()
}

/// The union of all, by halves, so that no step is larger than it must be.
pub(crate) fn union_of(mut solids: Vec<Manifold>) -> Manifold {
    while solids.len() > 1 {
        solids = solids.chunks(2).map(|pair| if let [a, b] = pair { a.union(b) } else { pair[0].clone() }).collect();
    }
    solids.pop().unwrap_or_else(Manifold::empty)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_of_plates_has_a_hollow_and_one_with_a_slit_has_none() {
        let block = |x: f64, y: f64, z: f64, at: [f64; 3]| {
            Manifold::cube(Vec3::new(x, y, z), false).translate(Vec3::new(at[0], at[1], at[2]))
        };
        let box_of = |last: f64| {
            union_of(vec![
                block(10.0, 10.0, 1.0, [0.0, 0.0, 0.0]),
                block(10.0, 10.0, 1.0, [0.0, 0.0, 9.0]),
                block(1.0, 10.0, 10.0, [0.0, 0.0, 0.0]),
                block(1.0, 10.0, 10.0, [9.0, 0.0, 0.0]),
                block(10.0, 1.0, 10.0, [0.0, 0.0, 0.0]),
                block(10.0, 1.0, last, [0.0, 9.0, 0.0]),
            ])
        };
        assert!((largest_hollow(&box_of(10.0)) - 512.0).abs() < 1e-9);
        assert_eq!(largest_hollow(&box_of(8.9)), 0.0);
        let inside: f64 = hollows(&box_of(10.0)).iter().map(Manifold::volume).sum();
        assert!((inside - 512.0).abs() < 1e-9, "{inside}");
    }
}
