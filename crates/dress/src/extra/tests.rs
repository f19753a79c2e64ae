use super::*;
use gable_measure::{Length, Unit};
use gable_plane::ring_area;

fn made(extra: Extra) -> (Vec<OrnamentPiece>, Vec<Finding>) {
    let mut house = House::simple(Unit::Millimetre);
    house.dressing.extras = vec![extra];
    let mut findings = Vec::new();
    (extras(&house, &mut findings), findings)
}

#[test]
fn halves_of_a_tree_go_into_each_other() {
    let extra = Extra::usual(ExtraKind::Tree);
    let (pieces, _) = made(extra.clone());
    let [first, second] = pieces.as_slice() else { panic!("{}", pieces.len()) };
    for piece in [first, second] {
        assert!(ring_area(&piece.outline) > 0.0);
        let (low, high) = gable_plane::bounds(&piece.outline).unwrap();
        assert!((low.y, high.x) == (0.0, 30.0) && high.y <= 90.0 + 1e-9);
    }
    // Points of the first half inside the second one's plate lie in its slot, and the other way round: at each height
    // one of the two is cut away over the width of the other.
    let slot = extra.thickness.mm() / 2.0 + LOOSE / 2.0 - 1e-6;
    for step in 1..90 {
        let y = f64::from(step);
        let filled = |piece: &OrnamentPiece| {
            [-slot, 0.0, slot].iter().any(|x| gable_plane::ring_contains(&piece.outline, P2::new(*x, y)))
        };
        assert!(!(filled(first) && filled(second)), "{y}");
    }
}

#[test]
fn the_area_of_a_path_is_that_of_its_curve() {
    // Closed form: an ellipse of 20 by 10 made 30 mm high, with a round hole of a third of its height.
    let path = "M-10 0 A10 5 0 1 0 10 0 A10 5 0 1 0 -10 0 Z M-1.5 0 A1.5 1.5 0 1 1 1.5 0 A1.5 1.5 0 1 1 -1.5 0 Z";
    let extra = Extra { path: path.to_owned(), height: Length::mm_of(30.0), ..Extra::usual(ExtraKind::Outline) };
    let (pieces, findings) = made(extra);
    assert_eq!(findings, []);
    let expected = std::f64::consts::PI * (30.0 * 15.0 - 4.5 * 4.5);
    assert!((pieces[0].area() - expected).abs() < 0.005 * expected, "{} {expected}", pieces[0].area());
    for broken in ["", "M0 0", "rubbish", "M0 0 L1 0", "M0 0 L10 0 L5 -10 Z M50 0 L60 0 L55 -10 Z"] {
        let (pieces, findings) = made(Extra { path: broken.to_owned(), ..Extra::usual(ExtraKind::Outline) });
        assert_eq!((pieces.len(), findings.len()), (0, 1), "{broken}");
    }
}

#[test]
fn a_sledge_stands_on_its_runners() {
    let (pieces, _) = made(Extra::usual(ExtraKind::Sledge));
    assert_eq!(pieces.len(), 3);
    let solids: Vec<gable_plane::Solid> =
        pieces.iter().filter(|p| p.id.contains("seat")).flat_map(|p| p.solids()).collect();
    // The seat lies on the runners: its underside is their height, 16 mm less its own 5 mm.
    assert!((solids[0].bounds().0.z - 11.0).abs() < 1e-9 && (solids[0].bounds().1.z - 16.0).abs() < 1e-9);
    for kind in [ExtraKind::Fence, ExtraKind::Figure] {
        let (pieces, _) = made(Extra::usual(kind));
        assert!(pieces.len() == 1 && ring_area(&pieces[0].outline) > 100.0, "{kind:?}");
    }
}
