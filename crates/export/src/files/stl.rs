//! Pieces as binary STL.

use gable_mesh::PieceSolid;
use gable_plane::P3;

/// Length of the header, bytes.
const HEADER: usize = 80;

/// A closed mesh as binary STL in millimetres, times `scale`; moved so that it lies on z = 0 with x and y from 0 on.
///
/// 80 bytes of header, which must not begin with 'solid'; the number of triangles; for each a normal out of the solid,
/// three corners counter-clockwise seen from outside, and two spare bytes; all little-endian.
pub(super) fn stl(solid: &PieceSolid, name: &str, scale: f64) -> Vec<u8> {
    let low = solid.positions.iter().fold(P3::from([f64::INFINITY; 3]), |low, p| P3::from(low.coords.inf(&p.coords)));
    let place = |k: u32| solid.positions.get(k as usize).map_or_else(P3::origin, |p| P3::from((p - low) * scale));
    let mut bytes = header(name);
    bytes.extend((solid.triangles.len() as u32).to_le_bytes());
    for triangle in &solid.triangles {
        let [a, b, c] = triangle.map(place);
        let normal = (b - a).cross(&(c - a)).try_normalize(0.0).unwrap_or_default();
        let rows = [normal, a.coords, b.coords, c.coords];
        bytes.extend(rows.iter().flat_map(|v| v.iter().copied()).flat_map(|x| (x as f32).to_le_bytes()));
        bytes.extend([0; 2]);
    }
    bytes
}

/// STL says no unit, so the header does. What has no ASCII is left out.
fn header(name: &str) -> Vec<u8> {
    let text = format!("STL in mm, made with Gablewright: {name}");
    let mut bytes: Vec<u8> = text.bytes().filter(|b| (b' '..=b'~').contains(b)).collect();
    bytes.resize(HEADER, b' ');
    bytes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pack::sample::gable_box;

    /// 84 + 50 n bytes.
    #[test]
    fn a_file_is_as_long_as_its_triangles_say() {
        let (_, solved) = gable_box(1.0);
        let solid = gable_mesh::solid_of(&solved.pieces[0]);
        let bytes = stl(&solid, "front wall ½", 0.5);
        assert_eq!(bytes.len(), 84 + 50 * solid.triangles.len());
        assert!(bytes.starts_with(b"STL in mm, made with Gablewright: front wall  "));
    }
}
