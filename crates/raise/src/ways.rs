//! Directions in which a piece may be taken away.

use gable_plane::{P3, V3};
use gable_shell::{Joint, JointEnd, Piece, Solved};
use std::collections::BTreeSet;

/// Directions nearer than this (sine of the angle between them) are tried as one.
const SAME: f64 = 1e-6;

/// How far to look for directions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Reach {
    /// Up, off its own face, and between the two.
    Plain,
    /// Also off the faces, and along the lines, of the joints that hold it.
    Joints,
    /// Also between any two of those, and along the line common to two of their planes.
    Pairs,
}

/// Unit directions in the house, easy ones first, none that leads into the base board.
pub(crate) fn ways(solved: &Solved, piece: usize, reach: Reach) -> Vec<V3> {
    let mut found = plain(&solved.pieces[piece]);
    if reach >= Reach::Joints {
        found.extend(of_joints(solved, piece));
    }
    if reach >= Reach::Pairs {
        let base = tidy(found.clone());
        for (k, a) in base.iter().enumerate() {
            found.extend(base[k + 1..].iter().flat_map(|b| [a.cross(b), b.cross(a), a + b]));
        }
    }
    tidy(found)
}

fn plain(piece: &Piece) -> Vec<V3> {
    let out = piece.outward();
    let level = V3::new(out.x, out.y, 0.0);
    vec![V3::z(), out, level, V3::z() + level, -level, V3::z() - level]
}

fn of_joints(solved: &Solved, piece: usize) -> Vec<V3> {
    let mut found = Vec::new();
    let mut seen = BTreeSet::new();
    for joint in &solved.joints {
        let Some(other) = other_end(joint, piece) else { continue };
        let along = joint.line[1] - joint.line[0];
        found.extend([along, -along]);
        if seen.insert(other) {
            let out = solved.pieces[other].outward();
            found.extend([out, -out, V3::new(out.x, out.y, 0.0), -V3::new(out.x, out.y, 0.0)]);
        }
    }
    found.extend(off_edges(&solved.pieces[piece]));
    found
}

/// Out of the cut edges of a piece, and into them.
fn off_edges(piece: &Piece) -> Vec<V3> {
    let count = piece.outline.len();
    let at = |k: usize| piece.house_from_piece * P3::new(piece.outline[k % count].x, piece.outline[k % count].y, 0.0);
    let out = piece.outward();
    (0..count).map(|k| (at(k + 1) - at(k)).cross(&out)).flat_map(|n| [n, -n]).collect()
}

fn other_end(joint: &Joint, piece: usize) -> Option<usize> {
    match joint.ends {
        [JointEnd::Piece(a), JointEnd::Piece(b)] if a == piece => Some(b),
        [JointEnd::Piece(a), JointEnd::Piece(b)] if b == piece => Some(a),
        _ => None,
    }
}

fn tidy(found: Vec<V3>) -> Vec<V3> {
    let mut kept: Vec<V3> = Vec::new();
    for way in found.into_iter().filter_map(|w| w.try_normalize(1e-6)) {
        let new = kept.iter().all(|k| k.dot(&way) < 0.0 || k.cross(&way).norm() > SAME);
        if new && way.z >= -1e-9 {
            kept.push(way);
        }
    }
    kept
}
