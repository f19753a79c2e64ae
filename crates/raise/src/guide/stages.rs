//! Which pieces are raised together.

use super::site::Site;
use crate::Step;
use crate::block::Obstacle;
use crate::links::kind;
use gable_measure::Length;
use gable_mesh::chunks_within;
use gable_shell::{JointEnd, Solved};

/// How far the chords of round openings may be off the arc where pieces pass each other.
const ROUND: Length = Length::mm_of(0.005);

/// The steps divided into stages: pieces of one kind of one part that do not rest on each other. Of a roof only pieces
/// that do not meet are laid in one stage, so that what is laid has set before its neighbour leans on it. What is wanted before a piece stays before it.
pub(super) fn runs(site: &Site<'_>, steps: &[Step]) -> Vec<Vec<Step>> {
    let obstacles: Vec<Obstacle> = (site.solved.pieces.iter())
        .map(|p| {
            let bodies: Vec<_> = chunks_within(p, ROUND).iter().map(|b| b.moved(&p.house_from_piece)).collect();
            Obstacle::new(&bodies)
        })
        .collect();
    let mut left: Vec<Step> = steps.to_vec();
    let mut stands = vec![false; site.solved.pieces.len()];
    let mut runs = Vec::new();
    while !left.is_empty() {
        let mut run: Vec<Step> = Vec::new();
        let mut skipped: Vec<Step> = Vec::new();
        for step in std::mem::take(&mut left) {
            let joins = run.first().is_none_or(|first| {
                is_alike(site, first.piece, step.piece)
                    && fits_in(site, &run, &stands, step.piece)
                    && !skipped.iter().any(|s| {
                        site.links.later[s.piece].contains(&step.piece)
                            || obstacles[s.piece].is_stopped(&-s.way, &obstacles[step.piece])
                    })
            });
            if joins { run.push(step) } else { skipped.push(step) }
        }
        run.iter().for_each(|s| stands[s.piece] = true);
        runs.push(run);
        left = skipped;
    }
    runs
}

/// Whether both are of one part and one kind: floors, walls and posts, roof, parapet.
fn is_alike(site: &Site<'_>, a: usize, b: usize) -> bool {
    let (a, b) = (site.piece(a), site.piece(b));
    a.part == b.part && kind(&a.role) == kind(&b.role)
}

/// Whether a piece can be raised in one stage with others: it rests on the board or on what stood before, and, unless it
/// is upright, meets none of them.
fn fits_in(site: &Site<'_>, run: &[Step], stands: &[bool], piece: usize) -> bool {
    let meets = site.joints[piece].iter().filter_map(|(_, other)| *other).any(|o| run.iter().any(|s| s.piece == o));
    let rests =
        site.links.is_on_board(piece) || site.joints[piece].iter().any(|(_, other)| other.is_none_or(|o| stands[o]));
    rests && (site.is_upright(piece) || !meets)
}

/// Per piece the number of its stage.
pub(super) fn when(runs: &[Vec<Step>], pieces: usize) -> Vec<usize> {
    let mut when = vec![usize::MAX; pieces];
    for (k, run) in runs.iter().enumerate() {
        run.iter().for_each(|s| when[s.piece] = k);
    }
    when
}

/// The joints that can be iced in a stage: one end is new, the other stands or is new too.
pub(super) fn joints(solved: &Solved, when: &[usize], stage: usize) -> Vec<usize> {
    let made = |j: &usize| {
        let ends =
            solved.joints[*j].ends.iter().filter_map(|e| if let JointEnd::Piece(k) = e { when.get(*k) } else { None });
        ends.max() == Some(&stage)
    };
    (0..solved.joints.len()).filter(made).collect()
}

/// Whether a piece of the stage rests on what was raised in the stage before.
pub(super) fn waits(site: &Site<'_>, when: &[usize], stage: usize) -> bool {
    let new = (0..when.len()).filter(|&k| when[k] == stage);
    stage > 0 && new.into_iter().any(|k| site.joints[k].iter().any(|(_, o)| o.is_some_and(|o| when[o] + 1 == stage)))
}
