//! Where other pieces stand on the face of a piece, away from its own edges.

use gable_plane::{P2, V2};
use gable_shell::{EdgeKind, Joint, JointEnd, JointKind, Piece, Role, Solved};

/// A line that runs this far outside the outline still counts as on it, mm: the gap for icing and rounding.
const BESIDE: f64 = 0.5;
/// Shorter lines are not worth drawing, mm.
const LEAST: f64 = 2.0;
/// Lines of congruent pieces that agree within this are one line, mm.
const ALIKE: f64 = 1.0;

/// The line of a joint on the face of one piece.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stand {
    /// Letter of the joint.
    pub(super) letter: String,
    /// From where to where.
    pub(super) ends: [P2; 2],
}

/// A line printed on a template.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct StandMark {
    /// From where to where.
    pub(super) ends: [P2; 2],
    /// Joint letters, one for each piece of the template; empty for a piece on which nothing stands there.
    pub(super) letters: Vec<String>,
}

/// The joints that have a piece as an end but no edge of it, where they fall on it, in its own coordinates. A wall under a
/// roof that hangs over it stands on its face too.
pub(super) fn on_piece(solved: &Solved, index: usize) -> Vec<Stand> {
    let Some(piece) = solved.pieces.get(index) else { return Vec::new() };
    let of_piece = |joint: &&Joint| joint.ends.contains(&JointEnd::Piece(index));
    let at_edge = |k: usize| piece.edges.contains(&EdgeKind::Joint(k)) && !hangs_over(solved, piece, k);
    let joints = solved.joints.iter().enumerate().filter(|(k, joint)| of_piece(joint) && !at_edge(*k));
    let stands = joints.map(|(_, joint)| {
        let stand = |ends| Stand { letter: joint.letter.clone(), ends };
        lines_of(joint, piece).into_iter().map(stand).collect::<Vec<_>>()
    });
    stands.flatten().collect()
}

/// Whether a roof piece reaches past the wall that it has an eave with, so that the wall stands on its face, not at its edge.
pub(super) fn hangs_over(solved: &Solved, piece: &Piece, joint: usize) -> bool {
    let Some(joint) = solved.joints.get(joint) else { return false };
    let roof = matches!(piece.role, Role::Slope(..) | Role::Lid) && joint.kind == JointKind::Eave;
    let lines = if roof { lines_of(joint, piece) } else { Vec::new() };
    lines.iter().any(|line| !on_rim(line, &piece.outline))
}

/// Where the line of a joint falls on a piece.
fn lines_of(joint: &Joint, piece: &Piece) -> Vec<[P2; 2]> {
    let to_piece = piece.house_from_piece.inverse();
    let [a, b] = joint.line.map(|p| (to_piece * p).xy());
    within(a, b, &piece.outline)
}

/// The lines of all pieces of a template, given in its coordinates, like lines as one.
pub(super) fn merged(pieces: &[Vec<Stand>]) -> Vec<StandMark> {
    let mut marks: Vec<StandMark> = Vec::new();
    for (member, stand) in pieces.iter().enumerate().flat_map(|(k, list)| list.iter().map(move |s| (k, s))) {
        let free = |m: &&mut StandMark| alike(&m.ends, &stand.ends) && m.letters[member].is_empty();
        if let Some(mark) = marks.iter_mut().find(free) {
            mark.letters[member].clone_from(&stand.letter);
        } else {
            let mut letters = vec![String::new(); pieces.len()];
            letters[member].clone_from(&stand.letter);
            marks.push(StandMark { ends: stand.ends, letters });
        }
    }
    marks
}

fn alike(a: &[P2; 2], b: &[P2; 2]) -> bool {
    let near = |p: P2, q: P2| (p - q).norm() < ALIKE;
    (near(a[0], b[0]) && near(a[1], b[1])) || (near(a[0], b[1]) && near(a[1], b[0]))
}

/// The parts of a line that lie inside a ring, on its rim or just beside it.
fn within(a: P2, b: P2, ring: &[P2]) -> Vec<[P2; 2]> {
    let length = (b - a).norm();
    let Some(along) = (b - a).try_normalize(LEAST) else { return Vec::new() };
    let mut cuts = vec![0.0, length];
    for (p, q) in edges(ring) {
        let (here, there) = (along.perp(&(p - a)), along.perp(&(q - a)));
        let at = |p: P2| along.dot(&(p - a));
        if (here < 0.0) != (there < 0.0) {
            cuts.push(at(p) + (at(q) - at(p)) * here / (here - there));
        }
        if here.abs() < BESIDE {
            cuts.push(at(p));
        }
    }
    cuts.retain(|t| (0.0..=length).contains(t));
    cuts.sort_by(f64::total_cmp);
    let mut parts: Vec<(f64, f64)> = Vec::new();
    for pair in cuts.windows(2) {
        if pair[1] - pair[0] < 1e-9 || !on(&(a + along * ((pair[0] + pair[1]) / 2.0)), ring) {
            continue;
        }
        match parts.last_mut() {
            Some(last) if pair[0] - last.1 < 1e-6 => last.1 = pair[1],
            _ => parts.push((pair[0], pair[1])),
        }
    }
    parts.retain(|(from, to)| to - from >= LEAST);
    parts.into_iter().map(|(from, to)| [a + along * from, a + along * to]).collect()
}

/// Whether a line runs along the rim of a ring, where the outline is drawn already.
pub(super) fn on_rim([a, b]: &[P2; 2], ring: &[P2]) -> bool {
    edges(ring).any(|(p, q)| distance(*a, p, q) <= BESIDE && distance(*b, p, q) <= BESIDE)
}

fn edges(ring: &[P2]) -> impl Iterator<Item = (P2, P2)> + '_ {
    ring.iter().zip(ring.iter().cycle().skip(1)).map(|(p, q)| (*p, *q))
}

fn on(p: &P2, ring: &[P2]) -> bool {
    super::ground::inside(p, ring) || edges(ring).any(|(a, b)| distance(*p, a, b) <= BESIDE)
}

fn distance(p: P2, a: P2, b: P2) -> f64 {
    let v: V2 = b - a;
    let share = if v.norm_squared() > 0.0 { ((p - a).dot(&v) / v.norm_squared()).clamp(0.0, 1.0) } else { 0.0 };
    (p - (a + v * share)).norm()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn p(x: f64, y: f64) -> P2 {
        P2::new(x, y)
    }

    /// A U of 30 × 20 with a slot of 10 × 10 from above.
    fn u() -> Vec<P2> {
        [(0., 0.), (30., 0.), (30., 20.), (20., 20.), (20., 10.), (10., 10.), (10., 20.), (0., 20.)]
            .map(|(x, y)| p(x, y))
            .to_vec()
    }

    #[test]
    fn lines_are_cut_off_at_the_outline() {
        assert_eq!(
            within(p(-5.0, 15.0), p(35.0, 15.0), &u()),
            [[p(0.0, 15.0), p(10.0, 15.0)], [p(20.0, 15.0), p(30.0, 15.0)]]
        );
        assert_eq!(within(p(5.0, 5.0), p(25.0, 5.0), &u()), [[p(5.0, 5.0), p(25.0, 5.0)]]);
        assert!(within(p(0.0, 22.0), p(30.0, 22.0), &u()).is_empty());
        assert!(within(p(5.0, 5.0), p(5.0, 6.0), &u()).is_empty());
    }

    #[test]
    fn lines_on_the_rim_or_just_beside_it_are_kept() {
        assert_eq!(within(p(2.0, 0.0), p(28.0, 0.0), &u()), [[p(2.0, 0.0), p(28.0, 0.0)]]);
        assert_eq!(within(p(0.0, 20.3), p(30.0, 20.3), &u()).len(), 2);
        assert!(on_rim(&[p(2.0, 0.2), p(28.0, 0.0)], &u()));
        assert!(!on_rim(&[p(2.0, 0.0), p(2.0, 20.0)], &u()));
    }

    #[test]
    fn like_lines_of_congruent_pieces_are_one() {
        let stand = |letter: &str, ends| Stand { letter: letter.into(), ends };
        let (one, other) = ([p(0.0, 0.0), p(9.0, 0.0)], [p(9.0, 0.1), p(0.0, 0.1)]);
        let marks = merged(&[vec![stand("G", one)], vec![stand("K", other), stand("L", [p(0.0, 5.0), p(9.0, 5.0)])]]);
        let letters: Vec<Vec<String>> = marks.into_iter().map(|m| m.letters).collect();
        assert_eq!(letters, [["G", "K"], ["", "L"]]);
    }
}
