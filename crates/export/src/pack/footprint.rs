//! What a drawn template takes of the paper.

use super::ground::rectangle;
use super::lying::Art;
use gable_plane::{P2, V2, convex_hull, united};

/// Half the width that pointers take, and the bridges that tie words to their outline, mm.
const HALF_BRIDGE: f64 = 0.2;
/// How far a bridge reaches into what it ties, mm.
const INTO: f64 = 0.5;

/// One ring round all that is drawn: the outlines, and the words beside them with what ties these to it.
pub(super) fn footprint(art: &Art) -> Vec<P2> {
    let mut rings: Vec<Vec<P2>> = art.faces.clone();
    for beside in &art.beside {
        match beside.as_slice() {
            [from, to] => rings.push(bridge(*from, *to)),
            area => {
                let middle = P2::from(area.iter().map(|p| p.coords).sum::<V2>() / area.len().max(1) as f64);
                rings.push(area.to_vec());
                rings.extend(art.faces.first().map(|face| bridge(middle, nearest(middle, face))));
            }
        }
    }
    let mut rims = united(&rings);
    if rims.len() == 1 { rims.remove(0) } else { convex_hull(&rings.concat()) }
}

fn bridge(from: P2, to: P2) -> Vec<P2> {
    let Some(along) = (to - from).try_normalize(1e-9) else {
        return rectangle(from - V2::new(HALF_BRIDGE, HALF_BRIDGE), V2::new(2.0, 2.0) * HALF_BRIDGE).to_vec();
    };
    let aside = V2::new(-along.y, along.x) * HALF_BRIDGE;
    let (from, to) = (from - along * INTO, to + along * INTO);
    vec![from - aside, to - aside, to + aside, from + aside]
}

fn nearest(p: P2, ring: &[P2]) -> P2 {
    let on = |k: usize| {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        let way = b - a;
        let share =
            if way.norm_squared() > 0.0 { ((p - a).dot(&way) / way.norm_squared()).clamp(0.0, 1.0) } else { 0.0 };
        a + way * share
    };
    let places = (0..ring.len()).map(on);
    places.min_by(|a, b| (a - p).norm().total_cmp(&(b - p).norm())).unwrap_or(p)
}
