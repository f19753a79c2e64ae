use gable_plane::{P2, ring_area};
use gable_shell::{Piece, Solved};
use serde::Serialize;

/// Arcs are flattened so that no point is farther than this from the true line, mm.
const FLATNESS: f64 = 0.02;

type Ring = Vec<[f64; 2]>;

/// One piece of the contract.
#[derive(Serialize)]
pub(super) struct PieceData<'a> {
    id: &'a str,
    name: &'a str,
    group: usize,
    material: &'a str,
    thickness: f64,
    baked: bool,
    rolled: f64,
    outline: Ring,
    outline_back: Ring,
    holes: Vec<Ring>,
    house_from_piece: [f64; 16],
}

impl<'a> PieceData<'a> {
    pub(super) fn new(solved: &Solved, piece: &'a Piece) -> Self {
        let cut = piece.openings.iter().filter(|o| o.mode.goes_through());
        let matrix = piece.house_from_piece.to_homogeneous();
        let mut rows = [0.0; 16];
        for (k, number) in rows.iter_mut().enumerate() {
            *number = matrix[(k / 4, k % 4)];
        }
        Self {
            id: &piece.id.0,
            name: &piece.name,
            group: solved.template_number(piece),
            material: &piece.dough.0,
            thickness: piece.thickness.mm(),
            baked: piece.baked,
            rolled: piece.rolled.mm(),
            outline: ring(&piece.outline),
            outline_back: ring(&piece.outline_back),
            holes: cut.map(|o| clockwise(o.contour.flatten(FLATNESS))).map(|r| ring(&r)).collect(),
            house_from_piece: rows,
        }
    }
}

fn ring(corners: &[P2]) -> Ring {
    corners.iter().map(|p| [p.x, p.y]).collect()
}

fn clockwise(mut ring: Vec<P2>) -> Vec<P2> {
    if ring_area(&ring) > 0.0 {
        ring.reverse();
    }
    ring
}
