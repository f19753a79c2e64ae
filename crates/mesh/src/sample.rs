//! Houses made by hand, so that tests here need no solver.

use gable_measure::{Length, Unit};
use gable_plane::{Contour, P2, P3, Rigid, V2, V3};
use gable_shell::{
    DoughId, EdgeKind, Mode, OpeningId, PartId, Piece, PieceId, PieceOpening, Role, SideId, Solved, SolvedPart, Tier,
};
use nalgebra::{Matrix3, Rotation3, Translation3, UnitQuaternion};

pub(crate) const WALL: f64 = 6.0;
pub(crate) const ROOF: f64 = 5.0;

/// A box 100 x 140 with walls 80 high under a gable roof of 40 degrees that reaches 15 past it all round.
pub(crate) fn gable() -> Solved {
    let (w, d, h, over) = (50.0, 140.0, 80.0, 15.0);
    let (sin, cos) = 40f64.to_radians().sin_cos();
    let peak = h + w * sin / cos;
    let end = ring(&[(-w, 0.0), (w, 0.0), (w, h), (0.0, peak), (-w, h)]);
    let long = ring(&[(WALL + 1.0, 0.0), (d - WALL - 1.0, 0.0), (d - WALL - 1.0, h), (WALL + 1.0, h)]);
    let slope = ring(&[(-over, -over / cos), (d + over, -over / cos), (d + over, w / cos), (-over, w / cos)]);
    let side = |s: &str| SideId(s.to_owned());
    let wall = |s: &str, outline: &[P2], at: P3, x: V3| plate(Role::Wall(side(s)), outline, WALL, at, x, V3::z());
    let roof = |s: &str, at: P3, x: V3, y: V3| plate(Role::Slope(side(s), Tier::Single), &slope, ROOF, at, x, y);
    let mut front = wall("front", &end, P3::origin(), -V3::x());
    let door = Contour::round_headed(P2::new(-15.0, 10.0), P2::new(15.0, 60.0)).unwrap();
    front.openings.push(opening("door", door, Mode::Cut));
    let mut left = wall("left", &long, P3::new(-w, 0.0, 0.0), V3::y());
    left.openings.push(opening("panel", Contour::rectangle(P2::new(30.0, 20.0), P2::new(60.0, 60.0)), Mode::Pressed));
    let pieces = vec![
        front,
        wall("right", &long, P3::new(w, d, 0.0), -V3::y()),
        wall("back", &end, P3::new(0.0, d, 0.0), V3::x()),
        left,
        roof("right", P3::new(w, 0.0, h), V3::y(), V3::new(-cos, 0.0, sin)),
        roof("left", P3::new(-w, d, h), -V3::y(), V3::new(cos, 0.0, sin)),
    ];
    let plan = ring(&[(-w, 0.0), (w, 0.0), (w, d), (-w, d)]);
    let part = SolvedPart {
        id: part_id(),
        name: "Hut".into(),
        house_from_part: gable_plane::Rigid::identity(),
        plan,
        ridge_height: Length::mm_of(peak),
    };
    Solved {
        unit: Unit::Millimetre,
        gap: Length::ZERO,
        parts: vec![part],
        pieces,
        joints: vec![],
        groups: vec![],
        findings: vec![],
        wishes: Vec::new(),
        offers: vec![],
        changes: vec![],
    }
}

pub(crate) fn ring(corners: &[(f64, f64)]) -> Vec<P2> {
    corners.iter().map(|&(x, y)| P2::new(x, y)).collect()
}

fn part_id() -> PartId {
    PartId("main".into())
}

fn opening(name: &str, contour: Contour, mode: Mode) -> PieceOpening {
    PieceOpening { id: OpeningId(name.to_owned()), copy: 0, name: name.to_owned(), contour, mode }
}

/// A straight-cut piece whose axes lie along x and y in the house.
pub(crate) fn plate(role: Role, outline: &[P2], thickness: f64, at: P3, x: V3, y: V3) -> Piece {
    let turn = Rotation3::from_matrix_unchecked(Matrix3::from_columns(&[x, y, x.cross(&y)]));
    Piece {
        id: PieceId(format!("main/{role:?}")),
        name: format!("{role:?}"),
        part: part_id(),
        baked: false,
        role,
        group: 0,
        dough: DoughId("dough".into()),
        rolled: Length::mm_of(thickness),
        thickness: Length::mm_of(thickness),
        outline: outline.to_vec(),
        outline_back: outline.to_vec(),
        edges: vec![EdgeKind::Free; outline.len()],
        openings: vec![],
        notches: vec![],
        house_from_piece: Rigid::from_parts(Translation3::from(at.coords), UnitQuaternion::from_rotation_matrix(&turn)),
        up: V2::y(),
    }
}
