use crate::solid::solid_of;
use gable_dress::OrnamentPiece;
use gable_measure::Length;
use gable_plane::{Contour, P2, P3, Rigid, V2};
use gable_shell::{DoughId, EdgeKind, Mode, OpeningId, PartId, Piece, PieceId, PieceOpening, Role, SideId, Tier};

/// Width of a pressed line as it is shown, mm.
pub(crate) const LINE: f64 = 0.45;
/// How far above its face it is shown, mm.
pub(crate) const ABOVE: f64 = 0.12;

/// An ornament as a piece, for everything that knows solids of pieces: good face at z = thickness.
pub(crate) fn as_piece(ornament: &OrnamentPiece) -> Piece {
    let hole = |ring: &Vec<P2>| PieceOpening {
        copy: 0,
        id: OpeningId(String::new()),
        name: String::new(),
        contour: Contour::polygon(&ring.iter().rev().copied().collect::<Vec<_>>()),
        mode: Mode::Cut,
    };
    let plain = plate(&ornament.id, &ornament.outline, ornament.thickness, false);
    Piece { openings: ornament.holes.iter().map(hole).collect(), ..plain }
}

/// A plain plate as a piece where it lies in its own coordinates; `reference_is_outside` says which face is the good one.
pub(crate) fn plate(id: &str, outline: &[P2], thickness: Length, reference_is_outside: bool) -> Piece {
    let side = SideId(String::new());
    Piece {
        id: PieceId(id.to_owned()),
        name: id.to_owned(),
        part: PartId(String::new()),
        baked: false,
        role: if reference_is_outside { Role::Wall(side) } else { Role::Slope(side, Tier::Single) },
        group: 0,
        dough: DoughId(String::new()),
        rolled: thickness,
        thickness,
        outline: outline.to_vec(),
        outline_back: outline.to_vec(),
        edges: vec![EdgeKind::Free; outline.len()],
        openings: Vec::new(),
        notches: Vec::new(),
        house_from_piece: Rigid::identity(),
        up: V2::y(),
    }
}

/// Strips along the pressed lines of an ornament, in its own plane, counter-clockwise.
pub(crate) fn pressed_strips(ornament: &OrnamentPiece) -> impl Iterator<Item = [P2; 4]> + '_ {
    ornament.pressed.iter().filter_map(|line| strip(line, LINE))
}

/// The strip of a width along a line, counter-clockwise; none along a point.
pub(crate) fn strip([a, b]: &[P2; 2], width: f64) -> Option<[P2; 4]> {
    let along = (b - a).try_normalize(1e-9)?;
    let right = V2::new(along.y, -along.x) * (width / 2.0);
    Some([a + right, b + right, b - right, a - right])
}

/// An ornament as triangles with their colours, in the house.
pub fn ornament_of(ornament: &OrnamentPiece) -> Vec<([P3; 3], [u8; 3])> {
    let solid = solid_of(&as_piece(ornament));
    let place = |p: P3| ornament.house_from_piece * p;
    let tint = ornament.tint.rgb();
    let corner = |k: u32| solid.positions.get(k as usize).copied().unwrap_or_default();
    let mut triangles: Vec<([P3; 3], [u8; 3])> =
        solid.triangles.iter().map(|t| (t.map(|k| place(corner(k))), tint)).collect();
    for strip in pressed_strips(ornament) {
        let [a, b, c, d] = strip.map(|p| place(P3::new(p.x, p.y, ornament.thickness.mm() + ABOVE)));
        triangles.extend([[a, b, c], [a, c, d]].map(|t| (t, darker(tint))));
    }
    triangles
}

/// The colour of a line pressed into something of a colour.
pub(crate) fn darker(rgb: [u8; 3]) -> [u8; 3] {
    rgb.map(|c| (f64::from(c) * 0.55) as u8)
}
