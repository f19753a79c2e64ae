//! Whether two solved houses have the same pieces.

use gable_plane::{P2, Rigid};
use gable_shell::{Joint, Piece, PieceOpening, Solved};

/// Lengths that differ by less, mm, are the same.
const SAME: f64 = 1e-6;

/// What differs between two answers, the second moved by `motion` against the first.
pub fn differences(one: &Solved, other: &Solved, motion: &Rigid) -> Vec<String> {
    let mut found = Vec::new();
    let mut note = |same: bool, what: String| {
        if !same {
            found.push(what);
        }
    };
    note(one.pieces.len() == other.pieces.len(), "number of pieces".to_owned());
    note(one.joints.len() == other.joints.len(), "number of joints".to_owned());
    let kinds = |s: &Solved| s.findings.iter().map(|f| (f.kind, f.place.clone())).collect::<Vec<_>>();
    note(kinds(one) == kinds(other), format!("findings: {:?} and {:?}", kinds(one), kinds(other)));
    note(one.groups == other.groups, format!("groups: {:?} and {:?}", one.groups, other.groups));
    for (a, b) in one.pieces.iter().zip(&other.pieces) {
        note(same_piece(a, b), format!("piece {} and {}", a.id.0, b.id.0));
        let off = a.outline.iter().map(|p| {
            let p = gable_plane::P3::new(p.x, p.y, 0.0);
            ((motion * a.house_from_piece) * p - b.house_from_piece * p).norm()
        });
        note(off.fold(0.0, f64::max) < SAME, format!("place of {}", a.id.0));
    }
    for (a, b) in one.joints.iter().zip(&other.joints) {
        note(same_joint(a, b, motion), format!("joint {} and {}", a.id.0, b.id.0));
    }
    found
}

fn same_piece(a: &Piece, b: &Piece) -> bool {
    (&a.name, a.group, &a.edges) == (&b.name, b.group, &b.edges) && same_shape(a, b)
}

/// Whether two pieces are one and the same, whatever their numbers in their houses and the order of their openings.
pub fn same_shape(a: &Piece, b: &Piece) -> bool {
    let openings = |p: &Piece| {
        let mut all: Vec<_> = p.openings.iter().chain(&p.notches).cloned().collect();
        all.sort_by(|x, y| x.id.cmp(&y.id));
        all
    };
    let (mine, theirs) = (openings(a), openings(b));
    (&a.id, &a.role, &a.dough) == (&b.id, &b.role, &b.dough)
        && near(a.thickness.mm(), b.thickness.mm())
        && near(a.rolled.mm(), b.rolled.mm())
        && same_ring(&a.outline, &b.outline)
        && same_ring(&a.outline_back, &b.outline_back)
        && mine.len() == theirs.len()
        && mine.iter().zip(&theirs).all(|(x, y)| same_opening(x, y))
}

fn same_opening(a: &PieceOpening, b: &PieceOpening) -> bool {
    let ring = |o: &PieceOpening| o.contour.pairs().map(|(p, _)| p).collect::<Vec<_>>();
    (&a.id, a.mode) == (&b.id, b.mode) && same_ring(&ring(a), &ring(b)) && near(a.contour.length(), b.contour.length())
}

fn same_joint(a: &Joint, b: &Joint, motion: &Rigid) -> bool {
    (&a.id, &a.letter, a.kind, &a.ends, a.wedge.side) == (&b.id, &b.letter, b.kind, &b.ends, b.wedge.side)
        && near(a.dihedral.rad(), b.dihedral.rad())
        && near(a.bevel.rad(), b.bevel.rad())
        && near(a.gap.mm(), b.gap.mm())
        && near(a.wedge.width.mm(), b.wedge.width.mm())
        && (a.wedge.volume - b.wedge.volume).abs() <= 1e-6 * (1.0 + a.wedge.volume)
        && a.line.iter().zip(&b.line).all(|(p, q)| (motion * p - q).norm() < SAME)
}

fn same_ring(a: &[P2], b: &[P2]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(p, q)| (p - q).norm() < SAME)
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < SAME
}
