use super::*;
use crate::ring_area;
use std::f64::consts::PI;

fn filled(data: &str, width: f64, height: f64) -> Vec<Contour> {
    SvgPath::read(data).unwrap().contours(P2::origin(), P2::new(width, height))
}

#[test]
fn circular_arcs_stay_what_they_are() {
    // Closed form: a round-headed outline, 20 wide, of a half circle over 30 of straight sides.
    let [arch] = filled("M0 40 V10 A10 10 0 0 1 20 10 V40 Z", 40.0, 80.0).try_into().unwrap();
    assert!((arch.area() - (40.0 * 60.0 + PI * 200.0)).abs() < 1e-9, "{}", arch.area());
    let arcs: Vec<&Segment> = arch.segments().iter().filter(|s| matches!(s, Segment::Arc { .. })).collect();
    assert_eq!(arcs.len(), 2);
    // The same with letters for relative steps, and run the other way round.
    let [same] = filled("m20,40v-30a10,10,0,0,0,-20,0v30z", 40.0, 80.0).try_into().unwrap();
    assert!((same.area() - arch.area()).abs() < 1e-9);
    // A leaning ellipse that the stretching makes a circle.
    let [round] = filled("M-10 0 A10 5 0 1 0 10 0 A10 5 0 1 0 -10 0", 60.0, 60.0).try_into().unwrap();
    assert!((round.area() - PI * 900.0).abs() < 1e-9 && round.segments().len() == 4);
}

#[test]
fn curves_are_followed_within_the_tolerance() {
    // Closed form: the area under a parabola of chord 10 and control height 10 is 2/3 of the triangle's 50.
    let [parabola] = filled("M0 0 Q5 -10 10 0 Z", 100.0, 50.0).try_into().unwrap();
    assert!((parabola.area() - 100.0 * 50.0 * 2.0 / 3.0).abs() < CURVE_TOLERANCE * 100.0, "{}", parabola.area());
    assert!(parabola.segments().len() < 40, "{}", parabola.segments().len());
    // Its points are on y = 2 x (100 - x) / 100 of the box.
    for p in parabola.flatten(0.001) {
        let slope = (2.0 - 4.0 * p.x / 100.0).hypot(1.0);
        assert!((p.y - 2.0 * p.x * (100.0 - p.x) / 100.0).abs() / slope < 0.02, "{p}");
    }
    let (low, high) = parabola.bounds();
    assert!(low.coords.norm() < 1e-6 && (high - P2::new(100.0, 50.0)).norm() < CURVE_TOLERANCE);
    // A cubic that is the same curve, its control points by raising the degree, and smooth steps that go on.
    let [cubic] =
        filled("M0 0 C3.3333333333 -6.6666666667 6.6666666667 -6.6666666667 10 0 Z", 100.0, 50.0).try_into().unwrap();
    assert!((cubic.area() - parabola.area()).abs() < 0.5);
    let [wave] = filled("M0 0 Q5 -10 10 0 T20 0 V30 H0 Z", 20.0, 35.0).try_into().unwrap();
    assert!((wave.area() - 20.0 * 30.0).abs() < 0.05, "{}", wave.area());
}

#[test]
fn holes_run_round_like_their_rim() {
    let path = "M-10 0 A10 5 0 1 0 10 0 A10 5 0 1 0 -10 0 Z M-1.5 0 a1.5 1.5 0 1 1 3 0 a1.5 1.5 0 1 1 -3 0 Z";
    let [rim, hole] = filled(path, 40.0, 20.0).try_into().unwrap();
    assert!((hole.area() - PI * 9.0).abs() < 1e-9);
    assert!((ring_area(&rim.flatten(0.001)) - PI * 200.0).abs() < 0.5);
    assert_eq!(SvgPath::read(path).unwrap().single(), Err(PathError::Several(2)));
}

#[test]
fn what_is_no_outline_says_why() {
    let single = |data: &str| SvgPath::read(data).and_then(|p| p.single()).map_err(|e| e.to_string());
    for (data, said) in [
        ("M0 0 L10 0 L5 -10 Z", Ok(())),
        ("M0 0 L10 0 L5 -10 L0 0", Ok(())),
        ("", Err("the path encloses nothing")),
        ("M0 0 L1 0", Err("the path encloses nothing")),
        ("M0 0 L10 0 L10 -1e999 Z", Err("the path cannot be read from character 16 on")),
        ("M0 0 L10 0 L10 -1e300 Z", Err("the path encloses nothing")),
        ("rubbish", Err("the path cannot be read from character 1 on")),
        ("M0 0 L10 0 L5 -10 X", Err("the path cannot be read from character 19 on")),
        ("M0 0 L10 0 L5 -10 é", Err("the path cannot be read from character 19 on")),
        ("M0 0 L10 0 L5 -10", Err("the path does not come back to where it begins")),
        ("M0 0 L10 0 L5 -10 Z M50 0 L60 0 L55 -10 Z", Err("the path has 2 outlines where one is wanted")),
        ("M0 0 L10 10 V0 L0 10 Z", Err("the path crosses or touches itself near x 5.0000, y 5.0000")),
        ("M0 0 H10 V10 L5 14 L10 10 Z", Err("the path crosses or touches itself near x 10.0000, y 10.0000")),
        ("M0 0 H10 V10 L5 0 L0 10 Z", Err("the path crosses or touches itself near x 5.0000, y 0.0000")),
    ] {
        assert_eq!(single(data), said.map_err(str::to_owned), "{data}");
    }
    let long = "L1 1".repeat(MOST_STEPS + 1);
    assert_eq!(SvgPath::read(&format!("M0 0{long}")).unwrap_err(), PathError::TooLong);
}

#[test]
fn points_of_hearts_and_drops_are_no_crossings() {
    // Two curves that end in one direction, so that the point has no angle; a heart; a star.
    let drop = "M0 0 C0 -10 -8 -14 -8 -20 A8 8 0 0 1 8 -20 C8 -14 0 -10 0 0 Z";
    let heart = "M0 0 C-18 -14 -14 -26 -7 -26 C-3 -26 0 -23 0 -20 C0 -23 3 -26 7 -26 C14 -26 18 -14 0 0 Z";
    let star = "M50 0 L61 35 L98 35 L68 57 L79 91 L50 70 L21 91 L32 57 L2 35 L39 35 Z";
    for data in [drop, heart, star] {
        assert_eq!(SvgPath::read(data).unwrap().single(), Ok(()), "{data}");
    }
}

proptest::proptest! {
    /// Whatever is typed: no panic, and a single outline fills its box.
    #[test]
    fn nothing_breaks_the_reader(data in "([MLHVCSQTAZmlhvcsqtaz][-0-9. ,e]{0,24}){0,12}") {
        if let Ok(path) = SvgPath::read(&data) {
            let contours = path.contours(P2::origin(), P2::new(30.0, 40.0));
            if path.single().is_ok() {
                let (low, high) = contours[0].bounds();
                proptest::prop_assert!(low.coords.norm() < 0.02 && (high - P2::new(30.0, 40.0)).norm() < 0.02);
                proptest::prop_assert!(contours[0].area() > 0.0);
            }
        }
    }
}
