//! How many leaves the panes take.

use gable_dress::Dressed;
use gable_measure::Length;
use gable_nest::{Item, Job, Search, Sheet, Turns};
use gable_plane::{P2, V2, bounds};
use gable_shell::{Glass, Glazier};

/// How far chords may be off arcs where only the number of leaves matters, mm.
const CHORD: f64 = 0.1;
/// Steps of a millimetre to which the corners of panes are rounded.
const FINENESS: f64 = 1e6;

/// How many leaves all panes that are cut from leaves take, laid side by side; `None` where one of them fits on no leaf.
pub fn leaves(dressed: &Dressed, glazier: &Glazier) -> Option<usize> {
    let panes = dressed.panes.iter().filter(|p| p.glass == Glass::Leaf);
    let item = |p: &gable_dress::Pane| Item::new(alone(&coarse(&p.outline.flatten(CHORD))), Turns::Quarter);
    let items: Vec<Item> = panes.map(item).collect();
    if items.is_empty() {
        return Some(0);
    }
    // A tenth of a millimetre more: panes were cut to the leaf exactly.
    let spare = Length::mm_of(0.1);
    let leaf = Sheet::rectangle(glazier.leaf_length + spare, glazier.leaf_width + spare);
    let job = Job::new(items, vec![leaf], Length::ZERO).ok()?;
    let search = Search::new(job, 1);
    Some(search.best().sheets_paid(search.job()))
}

/// A ring without the corners that lie within [`CHORD`] of the chord between those that stay. Grown panes come with
/// hundreds of them, and the time it takes to make a shape ready to be laid goes by their number.
fn coarse(ring: &[P2]) -> Vec<P2> {
    let count = ring.len();
    let near = |from: usize, to: usize| {
        let chord = ring[to % count] - ring[from];
        let length = chord.norm_squared().max(f64::MIN_POSITIVE);
        (from + 1..to).all(|k| {
            let off = ring[k] - ring[from];
            (off - chord * (off.dot(&chord) / length).clamp(0.0, 1.0)).norm() <= CHORD
        })
    };
    let mut left = Vec::new();
    let mut from = 0;
    while from < count {
        left.push(ring[from]);
        let mut to = from + 1;
        while to < count && near(from, to + 1) {
            to += 1;
        }
        from = to;
    }
    if left.len() < 3 { ring.to_vec() } else { left }
}

/// An outline wherever it lies in its piece, so that panes of one shape are the same: making a shape ready to be laid takes
/// longer than laying it.
fn alone(outline: &[P2]) -> Vec<P2> {
    let low = bounds(outline).map_or(V2::zeros(), |(low, _)| low.coords);
    outline.iter().map(|p| P2::from((p.coords - low).map(|mm| (mm * FINENESS).round() / FINENESS))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::{Contour, Rigid};

    /// By hand: of a leaf of 230 by 70, three panes of 70 by 60 take one (3 × 70 = 210), the fourth a second one.
    #[test]
    fn panes_share_leaves_as_far_as_they_go() {
        let pane = gable_dress::Pane {
            id: String::new(),
            name: String::new(),
            piece: 0,
            opening: gable_shell::OpeningId(String::new()),
            copy: 0,
            glass: Glass::Leaf,
            outline: Contour::rectangle(P2::origin(), P2::new(60.0, 70.0)),
            thickness: Length::mm_of(0.1),
            house_from_pane: Rigid::identity(),
        };
        let count = |panes: usize, glazier: &Glazier| {
            leaves(&Dressed { panes: vec![pane.clone(); panes], ..Dressed::default() }, glazier)
        };
        let glazier = Glazier::default();
        assert_eq!([0, 1, 3, 4, 7].map(|n| count(n, &glazier)), [Some(0), Some(1), Some(1), Some(2), Some(3)]);
        assert_eq!(count(1, &Glazier { leaf_width: Length::mm_of(50.0), ..glazier }), None);
    }

    /// By hand: chords of a circle of 20 mm that are 0.1 mm off it span 11.5°, so 32 of them go round; a square keeps its
    /// corners, whatever lies between them.
    #[test]
    fn needless_corners_are_left_out() {
        let turn = |k: i32, of: i32| std::f64::consts::TAU * f64::from(k) / f64::from(of);
        let round: Vec<P2> = (0..720).map(|k| P2::new(20.0 * turn(k, 720).cos(), 20.0 * turn(k, 720).sin())).collect();
        let left = coarse(&round);
        assert!((32..=34).contains(&left.len()), "{}", left.len());
        // With a hundred corners in place of each.
        let finer: Vec<P2> =
            round.iter().flat_map(|p| (0..100).map(move |k| p + V2::repeat(f64::from(k) * 1e-5))).collect();
        assert!(coarse(&finer).len() <= 36, "{}", coarse(&finer).len());
        let lost = gable_plane::ring_area(&round) - gable_plane::ring_area(&left);
        assert!((0.0..0.01 * 400.0 * std::f64::consts::PI).contains(&lost), "{lost}");
        let side = |from: P2, to: P2| (0..50).map(move |k| from + (to - from) * (f64::from(k) / 50.0));
        let corners = [[0.0, 0.0], [40.0, 0.0], [40.0, 40.0], [0.0, 40.0]].map(P2::from);
        let square: Vec<P2> = (0..4).flat_map(|k| side(corners[k], corners[(k + 1) % 4])).collect();
        assert_eq!(coarse(&square), corners);
    }

    /// Twelve corners on an ellipse, in two places of a piece.
    #[test]
    fn panes_of_one_shape_are_the_same_wherever_they_are() {
        let ring = |x: f64, y: f64| -> Vec<P2> {
            (0..12)
                .map(|k| f64::from(k) * std::f64::consts::FRAC_PI_6)
                .map(|a| P2::new(x + 20.0 * a.cos(), y + 17.0 * a.sin()))
                .collect()
        };
        assert_ne!(ring(0.1, 0.2), ring(70.3, 113.7));
        assert_eq!(alone(&ring(0.1, 0.2)), alone(&ring(70.3, 113.7)));
        assert_ne!(alone(&ring(0.0, 0.0)), alone(&ring(0.0, 0.0).iter().map(|p| p * 1.001).collect::<Vec<_>>()));
    }
}
