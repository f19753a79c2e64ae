//! Houses of several parts against published carpentry: valleys, ridges of wings, dormers, saddles behind chimneys.
//!
//! Every figure is measured on solved pieces and joints. A straight-cut guest touches the upper face of its host's slope
//! with its underside, along a line that is parallel to the theoretical valley and as long. Sources are named at the rows:
//! - Navy: US Navy, Builder 3 & 2, volume 2 (NAVEDTRA 14044), chapter 2
//! - Griffith: Ira S. Griffith, Carpentry, 1916
//! - Radford: W. A. Radford (ed.), Cyclopedia of Construction, volume 3, Roof Framing Simplified
//! - Ayers: S. Ayers, roof framing notes, sbebuilders.blogspot.com, August 2014
//! - chart: slope and hip-valley factor chart at martinsmetalroofing.com
//! - saw: compound mitre saw manuals, models 315.21212 p. 24, 315.212050 p. 29, TSS121 p. 32 (the same table)
//! - Bartok: Joe Bartok, roof framing geometry pages, web_sketches
//! - Grazier: lfctips.blogspot.com, April 2009, data credited to D. Grazier
//! - Estimating: Estimating Building Costs, panotbook.com
//! - chimneys: a building code's saddle rule as quoted at fishingcowboymusic.com (only 12 in 12 was readable there)

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise, helpers included")]

use gable_measure::{Angle, Length, Pitch};
use gable_plane::{P2, P3, V3, ring_area};
use gable_shell::{
    EdgeKind, House, Joint, JointEnd, JointKind, Lid, Outline, Part, PartId, Piece, Place, Placing, Role, SideId,
    Solved, Top, solve,
};
use gable_tests::build::{degrees, eave, gable, house, in_twelve, mm, part, rectangle};

const HEIGHT: f64 = 60.0;
const THICK: f64 = 4.0;
/// Eaves of a wing over those of its host, so that its valleys begin past the square end of the host's slope, which has a
/// thickness here and none in a carpenter's drawing.
const HIGHER: f64 = 10.0;
const CENTRED: Placing = Placing::Centred { offset: Length::ZERO };

fn near(found: f64, published: f64, tolerance: f64, what: &str) {
    assert!((found - published).abs() <= tolerance, "{what}: found {found}, published {published} ± {tolerance}");
}

/// A gable house with its ridge from left to right and no overhangs; no gap is kept.
fn host(width: f64, depth: f64, pitch: Pitch, thick: f64) -> House {
    let slope = eave(HEIGHT, pitch, 0.0);
    house(part(rectangle(width, depth), &[slope, gable(0.0), slope, gable(0.0)]), THICK, thick, 0.0)
}

/// A part that is open to the back, where its host closes it.
fn guest(id: &str, outline: Outline, tops: [Top; 4], place: Place) -> Part {
    let mut guest = part(outline, &tops);
    guest.sides[2].wall = false;
    (guest.id, guest.place) = (PartId(id.to_owned()), place);
    guest
}

fn main_front() -> (PartId, SideId) {
    (PartId("main".to_owned()), SideId("front".to_owned()))
}

/// A gable wing before the front: how far it reaches out of it and into it.
fn wing(span: f64, reach: [f64; 2], pitch: Pitch, turn: f64) -> Part {
    let ((host, side), slope) = (main_front(), eave(HEIGHT + HIGHER, pitch, 0.0));
    let [out, inside] = reach;
    let place = Place::Against { host, side, along: CENTRED, out: mm(out), turn: Angle::degrees(turn) };
    guest("guest", rectangle(span, out + inside), [gable(0.0), slope, gable(0.0), slope], place)
}

/// On the front slope: a guest this deep whose front is so far up.
fn on_slope(id: &str, size: [f64; 2], tops: [Top; 4], up: f64) -> Part {
    let (host, side) = main_front();
    let place = Place::OnSlope { host, side, along: CENTRED, up: mm(up), turn: Angle::degrees(0.0) };
    guest(id, rectangle(size[0], size[1]), tops, place)
}

fn solved(house: &House) -> Solved {
    let solved = solve(house);
    assert!(solved.blocking().next().is_none(), "refused: {:?}", solved.findings);
    solved
}

fn with(mut host: House, guest: Part) -> Solved {
    host.parts.push(guest);
    solved(&host)
}

/// A gable wing on a house of another pitch.
fn house_and_wing(main: Pitch, wings: Pitch, turn: f64) -> Solved {
    with(host(900.0, 640.0, main, THICK), wing(80.0, [150.0, 240.0], wings, turn))
}

fn piece<'a>(solved: &'a Solved, part: &str, is: impl Fn(&Role) -> bool) -> &'a Piece {
    solved.pieces.iter().find(|p| p.part.0 == part && is(&p.role)).unwrap_or_else(|| panic!("nothing of {part}"))
}

fn slope<'a>(solved: &'a Solved, part: &str, side: &str) -> &'a Piece {
    piece(solved, part, |role| matches!(role, Role::Slope(s, _) if s.0 == side))
}

fn edge(piece: &Piece, k: usize) -> [P3; 2] {
    let ring = &piece.outline;
    let at = |p: &P2| piece.house_from_piece * P3::new(p.x, p.y, 0.0);
    [at(&ring[k]), at(&ring[(k + 1) % ring.len()])]
}

fn edges(piece: &Piece) -> Vec<[P3; 2]> {
    (0..piece.outline.len()).map(|k| edge(piece, k)).collect()
}

/// Upwards.
fn run(edge: &[P3; 2]) -> V3 {
    let along = edge[1] - edge[0];
    if along.z < 0.0 { -along } else { along }
}

/// Angle between two lines, at most a right one, degrees.
fn lines(a: &V3, b: &V3) -> f64 {
    let angle = a.angle(b).to_degrees();
    angle.min(180.0 - angle)
}

fn level(v: &V3) -> V3 {
    V3::new(v.x, v.y, 0.0)
}

/// The direction of a guest's ridge and eaves, into the host.
fn axis(solved: &Solved, part: &str) -> V3 {
    solved.parts.iter().find(|p| p.id.0 == part).unwrap().house_from_part * V3::y()
}

/// Where a guest's slope lies on its host's slope.
struct Valley<'a> {
    joint: &'a Joint,
    panel: &'a Piece,
    /// The panel's edge there.
    edge: [P3; 2],
    /// Along the guest's ridge, into the host.
    axis: V3,
}

impl<'a> Valley<'a> {
    fn of(solved: &'a Solved, part: &str, side: &str) -> Self {
        let panel = slope(solved, part, side);
        let found = panel.edges.iter().enumerate().find_map(|(k, kind)| match kind {
            EdgeKind::Joint(j) if solved.joints[*j].kind == JointKind::Valley => Some((k, &solved.joints[*j])),
            _ => None,
        });
        let (k, joint) = found.unwrap_or_else(|| panic!("{} meets no slope in a valley", panel.id.0));
        let host = slope(solved, "main", "front");
        let whole = solved.pieces.iter().position(|p| p.id == host.id).unwrap();
        assert_eq!(joint.ends[0], JointEnd::Piece(whole), "{}", joint.id.0);
        Self { joint, panel, edge: edge(panel, k), axis: axis(solved, part) }
    }

    fn run(&self) -> V3 {
        run(&self.edge)
    }

    fn length(&self) -> f64 {
        self.run().norm()
    }

    /// Angle in plan to the guest's eave, degrees.
    fn plan_angle(&self) -> f64 {
        lines(&level(&self.run()), &self.axis)
    }

    /// Angle in plan to the host's eave, degrees.
    fn plan_angle_of_host(&self) -> f64 {
        lines(&level(&self.run()), &V3::x())
    }

    fn slope(&self) -> f64 {
        self.run().z.atan2(level(&self.run()).norm()).to_degrees()
    }

    /// Angle in the guest's panel between its ridge and the valley, degrees.
    fn panel_angle(&self) -> f64 {
        lines(&self.run(), &self.axis)
    }

    /// Angle in the host's panel between its ridge and the valley, degrees.
    fn panel_angle_of_host(&self) -> f64 {
        lines(&self.run(), &V3::x())
    }

    /// What a panel leans from square to the upright plane through the valley, degrees.
    fn backing(&self, panel: &Piece) -> f64 {
        let upright = self.run().cross(&V3::z()).normalize();
        (panel.house_from_piece * V3::z()).dot(&upright).abs().asin().to_degrees()
    }

    /// Angle between the slopes, measured outside, degrees.
    fn outside(&self) -> f64 {
        360.0 - self.joint.dihedral.deg()
    }

    /// Length of the panel square to its ridge, so far before the valley's upper end: a valley jack.
    fn jack(&self, before: f64) -> f64 {
        let upper = self.edge.iter().fold(self.edge[0], |a, b| if b.z > a.z { *b } else { a });
        let mut cuts = Vec::new();
        for [a, b] in edges(self.panel) {
            let from = |p: P3| (p - upper).dot(&self.axis) + before;
            if from(a) * from(b) < 0.0 {
                cuts.push(a + (b - a) * (from(a) / (from(a) - from(b))));
            }
        }
        assert_eq!(cuts.len(), 2);
        (cuts[1] - cuts[0]).norm()
    }
}

/// Longest and shortest of the two level edges of a panel: ridge and eave.
fn ridge_and_eave(panel: &Piece) -> (f64, f64) {
    let mut found: Vec<(f64, f64)> = edges(panel)
        .iter()
        .filter(|e| (e[1].z - e[0].z).abs() < 1e-6 && (e[1] - e[0]).norm() > 1.0)
        .map(|e| (e[0].z, (e[1] - e[0]).norm()))
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    assert_eq!(found.len(), 2, "{}", panel.id.0);
    (found[0].1, found[1].1)
}

#[test]
fn valleys_of_equal_pitch() {
    // chart; 1 in 12 is flatter than a slope may be and left out
    let rows = [
        (2., 1.4240),
        (3., 1.4362),
        (4., 1.4530),
        (5., 1.4743),
        (6., 1.5000),
        (7., 1.5298),
        (8., 1.5635),
        (9., 1.6008),
        (10., 1.6415),
        (11., 1.6853),
        (12., 1.7320),
    ];
    for (rise, factor) in rows {
        let house = house_and_wing(in_twelve(rise), in_twelve(rise), 0.0);
        for side in ["left", "right"] {
            let valley = Valley::of(&house, "guest", side);
            let what = format!("{side} valley, {rise} in 12");
            near(valley.length() / 40.0, factor, 1.1e-4, &what);
            // Navy p. 79: the run of the valley is the run of the common rafter times the root of two
            near(level(&valley.run()).norm() / 40.0, 2.0_f64.sqrt(), 1e-5, &what);
        }
    }
    // per foot of common run: Radford for 6, Navy p. 73 and 80 for 8 and 9, Griffith App. IV for 12
    for (rise, published) in [(6., 18.0), (8., 18.76), (9., 19.21), (12., 20.78)] {
        let house = house_and_wing(in_twelve(rise), in_twelve(rise), 0.0);
        near(Valley::of(&house, "guest", "left").length() / 40.0 * 12.0, published, 0.006, "valley per foot");
    }
}

#[test]
fn a_worked_valley() {
    // Navy p. 80: addition of 30 ft span, unit rise 9: valley 15 × 19.21 = 288.15 in, its run 21.21 ft. A millimetre an inch.
    let pitch = in_twelve(9.0);
    let house = with(host(600.0, 500.0, pitch, THICK), wing(360.0, [100.0, 240.0], pitch, 0.0));
    for side in ["left", "right"] {
        let valley = Valley::of(&house, "guest", side);
        near(valley.length(), 288.15, 0.006 * 15.0, "valley");
        near(level(&valley.run()).norm() / 12.0, 21.21, 0.006, "run of the valley, ft");
    }
}

#[test]
fn the_ridge_of_a_wing_runs_half_its_span_into_the_roof() {
    // Navy pp. 79 and 86, equal pitch; a wing of less span has a lower ridge by the same rule
    for (rise, span) in [(6., 80.0), (8., 120.0), (8., 80.0), (12., 120.0)] {
        let pitch = in_twelve(rise);
        let house = with(host(600.0, 500.0, pitch, THICK), wing(span, [90.0, 200.0], pitch, 0.0));
        for side in ["left", "right"] {
            let panel = slope(&house, "guest", side);
            let (ridge, eave) = ridge_and_eave(panel);
            near(ridge - eave, span / 2.0, 1e-4, &format!("ridge past the plate, span {span}, {rise} in 12"));
            // closed form: the underside of the ridge ends at the upper face of the host's slope
            let slope = (rise / 12.0_f64).atan();
            let past_plate = span / 2.0 + HIGHER / slope.tan() - THICK / slope.sin();
            near(ridge, 90.0 + past_plate, 1e-4, "length of the ridge");
            let top = edges(panel).iter().flatten().map(|p| p.z).fold(0.0, f64::max);
            near(top - HEIGHT - HIGHER, span / 2.0 * rise / 12.0, 1e-6, "height of the ridge over the eaves");
        }
    }
}

#[test]
fn valleys_of_unequal_pitch_over_a_square_corner() {
    // Bartok. The house slopes 10 in 12, the wing 13 in 12.
    let house = house_and_wing(in_twelve(10.0), in_twelve(13.0), 0.0);
    near(Valley::of(&house, "guest", "left").slope(), 33.44556, 1e-5, "valley slope, 10 and 13 in 12");

    // Bartok: 10 in 12 and 11 in 12, a hip there; the line and the angles of a valley are the same
    let house = house_and_wing(in_twelve(10.0), in_twelve(11.0), 0.0);
    for side in ["left", "right"] {
        let valley = Valley::of(&house, "guest", side);
        near(valley.plan_angle_of_host(), 47.72631, 1e-5, "plan angle, main");
        near(valley.plan_angle(), 42.27369, 1e-5, "plan angle, adjacent");
        near(valley.slope(), 90.0 - 58.34132, 1e-5, "valley slope");
        near(valley.panel_angle_of_host(), 90.0 - 34.92979, 1e-5, "sheathing angle, main");
        near(valley.panel_angle(), 90.0 - 39.03754, 1e-5, "sheathing angle, adjacent");
        near(valley.backing(slope(&house, "main", "front")), 25.50784, 1e-5, "backing, main");
        near(valley.backing(valley.panel), 29.99972, 1e-5, "backing, adjacent");
        near(valley.outside(), 180.0 - 25.50784 - 29.99972, 2e-5, "angle between the slopes");
        near(valley.joint.bevel.deg(), 90.0 - 25.50784 - 29.99972, 2e-5, "bevel that lays the wing on the house");
    }

    // Bartok: 10 in 12 and 3 in 12, a valley
    let house = house_and_wing(in_twelve(10.0), in_twelve(3.0), 0.0);
    let valley = Valley::of(&house, "guest", "right");
    near(valley.plan_angle(), 73.30076, 1e-5, "plan angle, adjacent");
    near(valley.slope(), 90.0 - 76.53371, 1e-5, "valley slope");
    near(valley.backing(valley.panel), 3.99630, 1e-5, "backing, adjacent");
    near(valley.panel_angle(), 73.77275, 1e-5, "sheathing angle, adjacent");

    // Grazier, a valley between 5 in 12 and 3 in 12; printed to a degree, measured from square on the steep side
    let house = house_and_wing(in_twelve(3.0), in_twelve(5.0), 0.0);
    near(90.0 - Valley::of(&house, "guest", "left").panel_angle(), 57.0, 0.5, "5 and 3 in 12");
}

#[test]
fn valleys_of_unequal_pitch_at_a_corner_of_135_degrees() {
    // Bartok: 10 in 12 and 8½ in 12. A wing turned by 45° has one such valley.
    for (side, turn) in [("left", 45.0), ("right", -45.0)] {
        let house = house_and_wing(in_twelve(10.0), in_twelve(8.5), turn);
        let valley = Valley::of(&house, "guest", side);
        near(valley.plan_angle_of_host(), 56.42456, 1e-5, "plan angle, main");
        near(valley.plan_angle(), 78.57544, 1e-5, "plan angle, adjacent");
        near(valley.slope(), 34.77220, 1e-5, "valley slope");
        near(valley.backing(slope(&house, "main", "front")), 20.73487, 1e-5, "backing, main");
        near(valley.backing(valley.panel), 6.57434, 1e-5, "backing, adjacent");
        near(valley.panel_angle_of_host(), 90.0 - 27.01842, 1e-5, "sheathing angle, main");
        near(valley.panel_angle(), 90.0 - 9.36400, 1e-5, "sheathing angle, adjacent");
        near(valley.outside(), 180.0 - 20.73487 - 6.57434, 2e-5, "angle between the slopes");
    }
}

#[test]
fn valleys_at_the_corners_of_regular_polygons() {
    // saw: slope from level, then mitre and bevel for a corner as of 4, 5, 6, 8 and 10 sides. Turned by 90° - 360°/n, the
    // side of a wing makes that corner with the front of its host.
    let rows: [(f64, [(f64, f64); 5]); 6] = [
        (15., [(44.01, 10.55), (35.06, 8.75), (29.15, 7.44), (21.81, 5.68), (17.42, 4.59)]),
        (20., [(43.22, 14.00), (34.32, 11.60), (28.48, 9.85), (21.27, 7.52), (16.98, 6.07)]),
        (30., [(40.89, 20.70), (32.18, 17.09), (26.57, 14.48), (19.73, 11.03), (15.72, 8.89)]),
        (40., [(37.45, 27.03), (29.10, 22.20), (23.86, 18.75), (17.60, 14.24), (13.98, 11.46)]),
        (45., [(35.26, 30.00), (27.19, 24.56), (22.21, 20.70), (16.32, 15.70), (12.94, 12.62)]),
        (50., [(32.73, 32.80), (25.03, 26.76), (20.36, 22.52), (14.91, 17.05), (11.80, 13.69)]),
    ];
    for (angle, row) in rows {
        for (sides, (mitre, bevel)) in [4.0, 5.0, 6.0, 8.0, 10.0].into_iter().zip(row) {
            let house = house_and_wing(degrees(angle), degrees(angle), 90.0 - 360.0 / sides);
            let valley = Valley::of(&house, "guest", "left");
            let what = format!("corner of {sides} sides at {angle}°");
            near(valley.panel_angle(), 90.0 - mitre, 0.006, &format!("mitre, {what}"));
            near(valley.backing(valley.panel), bevel, 0.006, &format!("backing, {what}"));
            near(valley.outside(), 180.0 - 2.0 * bevel, 0.012, &format!("angle between the slopes, {what}"));
        }
    }
}

#[test]
fn valleys_of_an_octagon() {
    let eight = in_twelve(8.0);
    let house = house_and_wing(eight, eight, 45.0);
    let valley = Valley::of(&house, "guest", "left");
    // Bartok: plan angle 67.5°, slope
    near(valley.plan_angle(), 67.5, 1e-5, "plan angle");
    near(valley.slope(), 31.62973, 1e-5, "octagon valley, 8 in 12");
    // Griffith §38 and §42: run 13 (exact 12.9887) and tangent 4.97 (used as 5) per foot of common run
    near(level(&valley.run()).norm() / 40.0 * 12.0, 13.0, 0.13, "run of the valley per foot");
    near(valley.run().dot(&valley.axis).abs() / 40.0 * 12.0, 4.97, 0.006, "tangent per foot");
    // Griffith §42: a jack is 12/5 of that of a square corner at the same place (exact 2.4142)
    let square = house_and_wing(eight, eight, 0.0);
    let ratio = valley.jack(8.0) / Valley::of(&square, "guest", "left").jack(8.0);
    near(ratio, 12.0 / 5.0, 0.01 * 12.0 / 5.0, "octagon jack to square jack");
}

fn dormer(span: f64, cheek: f64, pitch: Pitch) -> Part {
    let slope = eave(cheek, pitch, 0.0);
    on_slope("guest", [span, 220.0], [gable(0.0), slope, gable(0.0), slope], 40.0)
}

#[test]
fn the_ridge_of_a_dormer_runs_back_to_the_roof() {
    // Navy pp. 81 and 86, equal pitch: past its eaves the ridge is half the span long, and the valley the long side of a
    // triangle of two such runs
    for rise in [6.0, 9.0, 12.0] {
        let house = with(host(500.0, 560.0, in_twelve(rise), THICK), dormer(60.0, 12.0, in_twelve(rise)));
        for side in ["left", "right"] {
            let (ridge, eave) = ridge_and_eave(slope(&house, "guest", side));
            near(ridge - eave, 30.0, 1e-4, &format!("ridge of a dormer, {rise} in 12"));
            let valley = Valley::of(&house, "guest", side);
            near(level(&valley.run()).norm(), 30.0_f64.hypot(30.0), 1e-4, "run of its valley");
        }
    }
    // closed form, unequal pitch: past its eaves the ridge is the dormer's rise over the main slope, and the eaves run back
    // for the height of the cheek over the main slope
    for (main, own) in [(12., 5.), (8., 6.), (9., 14.)] {
        let house = with(host(500.0, 560.0, in_twelve(main), THICK), dormer(60.0, 12.0, in_twelve(own)));
        let (ridge, eave) = ridge_and_eave(slope(&house, "guest", "left"));
        near(ridge - eave, 30.0 * own / main, 1e-4, "ridge past the eaves");
        near(eave, 12.0 * 12.0 / main, 1e-4, "eaves");
    }
}

#[test]
fn a_dormer_of_another_pitch() {
    // Ayers: a dormer of 6 in 12 on a roof of 8 in 12: mitre, and the bevel that lays it on the roof
    let house = with(host(500.0, 560.0, in_twelve(8.0), THICK), dormer(60.0, 12.0, in_twelve(6.0)));
    for side in ["left", "right"] {
        let valley = Valley::of(&house, "guest", side);
        near(90.0 - valley.panel_angle(), 33.85451, 1e-5, "mitre");
        near(valley.joint.bevel.deg(), 48.09115, 1e-5, "bevel");
    }
}

#[test]
fn cheeks_of_a_dormer_are_triangles_at_the_slope_of_the_roof() {
    // Ayers: slope angles
    for (rise, angle) in [(5., 22.61986), (7., 30.25644), (8., 33.69007), (9., 36.86990), (12., 45.0)] {
        let house = with(host(500.0, 560.0, in_twelve(rise), THICK), dormer(60.0, 24.0, in_twelve(6.0)));
        for side in ["left", "right"] {
            let cheek = piece(&house, "guest", |role| *role == Role::Wall(SideId(side.to_owned())));
            assert_eq!(cheek.outline.len(), 3, "{}", cheek.id.0);
            let runs: Vec<V3> = edges(cheek).iter().map(run).collect();
            let is = |v: &&V3, flat: bool| if flat { v.z.abs() < 1e-6 } else { level(v).norm() < 1e-6 };
            let top = runs.iter().find(|v| is(v, true)).unwrap();
            let front = runs.iter().find(|v| is(v, false)).unwrap();
            let foot = runs.iter().find(|v| !is(v, true) && !is(v, false)).unwrap();
            near(lines(top, foot), angle, 1e-5, "cheek on the roof");
            // closed form: behind the front wall the cheek is lower by what the roof has risen
            near(front.z, 24.0 - THICK * rise / 12.0, 1e-4, "height of the cheek");
        }
    }
}

#[test]
fn a_low_roof_cut_against_a_steep_one() {
    // Griffith §46: the slopes are subtracted; Ayers: slope angles of 3, 4, 9 and 12 in 12
    for (main, own, published) in [(12., 3., 45.0 - 14.03624), (9., 4., 36.86990 - 18.43495)] {
        let shed = [eave(20.0, in_twelve(own), 0.0), gable(0.0), gable(0.0), gable(0.0)];
        let guest = on_slope("guest", [60.0, 150.0], shed, 40.0);
        let house = with(host(500.0, 560.0, in_twelve(main), THICK), guest);
        let valley = Valley::of(&house, "guest", "front");
        near(valley.joint.dihedral.deg() - 180.0, published, 1e-5, "bend between the roofs");
        assert!(valley.run().z.abs() < 1e-6, "it meets the roof in a level line");
    }
}

#[test]
fn a_saddle_behind_a_chimney() {
    // chimneys: half the width of the chimney at 12 in 12. The other fractions of the same rule are from memory.
    const WIDTH: f64 = 60.0;
    for (rise, share) in [(12., 1. / 2.), (8., 1. / 3.), (6., 1. / 4.), (4., 1. / 6.), (3., 1. / 8.)] {
        let mut house = host(500.0, 560.0, in_twelve(rise), THICK);
        let mut chimney = on_slope("chimney", [WIDTH, 30.0], [gable(0.0); 4], 40.0);
        chimney.sides[2].wall = true;
        chimney.lid = Some(Lid { height: mm(60.0), overhang: Length::ZERO, parapet: None });
        let slope_of_saddle = eave(5.0, in_twelve(rise), 0.0);
        let tops = [gable(0.0), slope_of_saddle, gable(0.0), slope_of_saddle];
        let mut saddle = on_slope("saddle", [WIDTH, 120.0], tops, 70.0);
        saddle.sides[0].wall = false;
        house.parts.extend([chimney, saddle]);
        let house = solved(&house);
        let what = format!("saddle, {rise} in 12");
        for side in ["left", "right"] {
            let valley = Valley::of(&house, "saddle", side);
            near(valley.run().z / WIDTH, share, 1e-5, &what);
            near(valley.plan_angle(), 45.0, 1e-5, &what);
            let (ridge, eave) = ridge_and_eave(valley.panel);
            near(ridge - eave, WIDTH / 2.0, 1e-4, &what);
        }
    }
}

/// Plan area of the host's slope that a wing of equal eaves covers: behind the host's front, within the wing's panels.
fn covered(house: &Solved, span: f64, front: f64) -> f64 {
    let panels = ["left", "right"].map(|side| slope(house, "guest", side));
    let corners = panels.iter().flat_map(|p| edges(p)).map(|e| e[0].xy()).filter(|p| p.y > front);
    let plate = [P2::new(-span / 2.0, front), P2::new(span / 2.0, front)];
    ring_area(&gable_plane::convex_hull(&corners.chain(plate).collect::<Vec<_>>()))
}

#[test]
fn roofs_of_one_pitch_have_one_area_whatever_their_valleys() {
    // Estimating: plan of 40 × 22 ft and a wing of 8 × 16 ft, any number of slopes of one pitch; ½, ⅓, ¼ and ¾ pitch, worked
    // with rounded factors (half a per cent). Fifty millimetres a foot and thin roofs, for a carpenter's have no thickness.
    for (rise, square_feet) in [(12., 1432.), (8., 1210.), (6., 1129.), (18., 1815.)] {
        let pitch = in_twelve(rise);
        let mut wing = wing(800.0, [400.0, 500.0], pitch, 0.0);
        for k in [1, 3] {
            wing.sides[k].top = eave(HEIGHT, pitch, 0.0);
        }
        let house = with(host(2000.0, 1100.0, pitch, 1.0), wing);
        let slopes = house.pieces.iter().filter(|p| matches!(p.role, Role::Slope(..)));
        let all: f64 = slopes.map(|p| ring_area(&p.outline)).sum();
        let factor = rise.hypot(12.0) / 12.0;
        let seen = (all - covered(&house, 800.0, -550.0) * factor) / 2500.0;
        near(seen, square_feet, 0.005 * square_feet, &format!("{rise} in 12"));
    }
}
