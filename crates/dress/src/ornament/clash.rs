use super::OrnamentPiece;
use gable_measure::{Finding, Severity};
use gable_plane::{ConvexPolygon, P2, P3, Solid};
use gable_shell::{Piece, Solved};

/// More than this must be shared before two things are in each other's way, mm: a hair.
const HAIR: f64 = 0.3;

/// Notes ornaments that are in the way of biscuit or of each other.
pub(super) fn remark(pieces: &[OrnamentPiece], solved: &Solved, findings: &mut Vec<Finding>) {
    let ornaments: Vec<Vec<Solid>> = pieces.iter().map(|p| p.solids().iter().filter_map(slimmer).collect()).collect();
    let biscuit: Vec<Vec<Solid>> = solved.pieces.iter().map(lumps).collect();
    for (k, own) in ornaments.iter().enumerate() {
        let others = ornaments[k + 1..].iter().zip(&pieces[k + 1..]).map(|(s, p)| (s, p.name.as_str()));
        let walls = biscuit.iter().zip(&solved.pieces).enumerate().filter(|(n, _)| Some(*n) != pieces[k].host);
        let all = others.chain(walls.map(|(_, (s, p))| (s, p.name.as_str())));
        for (_, name) in all.filter(|(other, _)| meet(own, other)) {
            findings.push(Finding {
                kind: "ornament-in-the-way",
                severity: Severity::Caution,
                place: pieces[k].id.clone(),
                what: format!("{} and {name} would be in the same place", pieces[k].name),
                remedy: "make the ornament smaller, or leave one of them out".to_owned(),
            });
        }
    }
}

/// Drawn in by half a hair on all sides, the other half is the other's.
fn slimmer(solid: &Solid) -> Option<Solid> {
    solid.grown(-HAIR / 2.0)
}

fn meet(a: &[Solid], b: &[Solid]) -> bool {
    a.iter().any(|p| b.iter().any(|q| p.shared_with(q) > 0.0))
}

/// Convex bodies of a piece in the house; its openings count as filled.
fn lumps(piece: &Piece) -> Vec<Solid> {
    let ring = ConvexPolygon { corners: piece.outline.clone(), labels: vec![(); piece.outline.len()] };
    let lift = |ring: &[P2], z: f64| -> Vec<P3> {
        ring.iter().map(|p| piece.house_from_piece * P3::new(p.x, p.y, z)).collect()
    };
    let thick = piece.thickness.mm();
    let parts = ring.convex_parts();
    if let [_] = parts.as_slice() {
        return slimmer(&Solid::prism(&lift(&piece.outline, 0.0), &lift(&piece.outline_back, thick)))
            .into_iter()
            .collect();
    }
    parts.iter().filter_map(|p| slimmer(&Solid::prism(&lift(&p.corners, 0.0), &lift(&p.corners, thick)))).collect()
}
