use crate::{P2, ring_area};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::float::simplify::SimplifyShape;

/// The rims of what rings cover together, whichever way they run; largest first, counter-clockwise. Holes are left out.
pub fn united(rings: &[Vec<P2>]) -> Vec<Vec<P2>> {
    let plain = |ring: &Vec<P2>| -> Vec<[f64; 2]> { turned(ring.clone()).iter().map(|p| [p.x, p.y]).collect() };
    let loops: Vec<Vec<[f64; 2]>> = rings.iter().map(plain).collect();
    // Whole numbers of 64 bits: over a metre its grid is finer than f64 itself.
    let shapes = loops.simplify_shape_as::<i64>(FillRule::NonZero);
    let rims = shapes.into_iter().filter_map(|shape| shape.into_iter().next());
    let mut rims: Vec<Vec<P2>> = rims.map(|rim| turned(rim.into_iter().map(P2::from).collect())).collect();
    rims.sort_by(|a, b| ring_area(b).total_cmp(&ring_area(a)));
    rims
}

/// The ring counter-clockwise.
fn turned(mut ring: Vec<P2>) -> Vec<P2> {
    if ring_area(&ring) < 0.0 {
        ring.reverse();
    }
    ring
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(x: f64, y: f64, w: f64, h: f64) -> Vec<P2> {
        [(x, y), (x + w, y), (x + w, y + h), (x, y + h)].map(|(x, y)| P2::new(x, y)).to_vec()
    }

    /// Closed form: two squares of 10 mm that share one of 5 mm cover 175 mm², whichever way they run.
    #[test]
    fn what_lies_in_both_counts_once() {
        let mut other = block(5.0, 5.0, 10.0, 10.0);
        other.reverse();
        let rims = united(&[block(0.0, 0.0, 10.0, 10.0), other, block(30.0, 0.0, 2.0, 2.0)]);
        let areas: Vec<f64> = rims.iter().map(|r| ring_area(r)).collect();
        assert!(areas.len() == 2 && (areas[0] - 175.0).abs() < 1e-9 && (areas[1] - 4.0).abs() < 1e-9, "{areas:?}");
    }
}
