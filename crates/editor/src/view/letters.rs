//! Letters of joints in the picture.

use super::camera::Camera;
use super::model::Model;
use super::pick;
use egui::{Pos2, Rect};
use gable_plane::{P3, Rigid};
use gable_shell::{Joint, JointEnd, Solved};

/// Letters nearer to each other than this could not be told apart, in points.
const APART: f32 = 23.0;

/// The same while no piece is chosen, so that the house can still be seen; who steps nearer sees more of them.
const WIDE_APART: f32 = 36.0;

/// How deep in its own two pieces a joint may lie and still count as seen, in thicknesses of the pieces: its line lies on
/// one face, and the eye may see the other.
const DEEP: f64 = 2.5;

/// A letter and where it is in the picture.
pub(super) type Letter = (Pos2, String);

/// What letters are shown of.
pub(super) struct Shot<'a> {
    pub(super) solved: &'a Solved,
    pub(super) model: &'a Model,
    pub(super) pose: &'a [Rigid],
    /// Whether the pieces stand where they belong, so that both edges of a joint are in one place.
    pub(super) standing: bool,
    /// The pieces of which alone letters are wanted; of all when none is.
    pub(super) chosen: &'a [bool],
    pub(super) camera: &'a Camera,
    pub(super) picture: Rect,
}

/// The letters of the joints that can be seen, the longest joints first; fewer where they would crowd.
pub(super) fn letters(shot: &Shot<'_>) -> Vec<Letter> {
    let mut joints: Vec<&Joint> = shot.solved.joints.iter().collect();
    let length = |j: &Joint| (j.line[1] - j.line[0]).norm();
    joints.sort_by(|a, b| length(b).total_cmp(&length(a)));
    let mut found: Vec<Letter> = Vec::new();
    let any = shot.chosen.iter().any(|c| *c);
    let is_wanted = |k: &usize| !any || shot.chosen.get(*k).copied().unwrap_or(false);
    let apart = if any { APART } else { WIDE_APART };
    for joint in joints {
        let pieces = pieces(joint);
        let shown: Vec<usize> = if shot.standing {
            pieces.first().filter(|_| pieces.iter().any(is_wanted)).copied().into_iter().collect()
        } else {
            pieces.iter().copied().filter(is_wanted).collect()
        };
        for k in shown {
            if let Some(at) = place(shot, joint, k)
                && found.iter().all(|(other, _)| other.distance(at) >= apart)
            {
                found.push((at, joint.letter.clone()));
            }
        }
    }
    found
}

/// The pieces that meet at a joint; one alone on the board.
fn pieces(joint: &Joint) -> Vec<usize> {
    let piece = |end: &JointEnd| match end {
        JointEnd::Piece(k) => Some(*k),
        JointEnd::Board => None,
    };
    joint.ends.iter().filter_map(piece).collect()
}

/// Where the edge of a piece at a joint is seen, at its middle or a little to the side.
fn place(shot: &Shot<'_>, joint: &Joint, piece: usize) -> Option<Pos2> {
    let ends = pieces(joint);
    let (solved, pose) = (shot.solved.pieces.get(piece)?, shot.pose.get(piece)?);
    let moved = pose * solved.house_from_piece.inverse();
    let [from, to] = joint.line;
    let at = |share: f64| moved * (from + (to - from) * share);
    [0.5, 0.25, 0.75]
        .into_iter()
        .map(at)
        .find(|p| is_seen(shot, *p, &ends))
        .and_then(|p| shot.camera.at(shot.picture, p))
}

/// Whether nothing hides a point but the pieces that meet there, and those not by much.
pub(super) fn is_seen(shot: &Shot<'_>, point: P3, ends: &[usize]) -> bool {
    let eye = shot.camera.seen_from(point);
    let far = (point - eye).norm();
    let Some(along) = (point - eye).try_normalize(1e-9) else { return false };
    let ray = super::camera::Ray { from: eye, along };
    let thickness = |k: usize| shot.solved.pieces.get(k).map_or(0.0, |p| p.thickness.mm());
    shot.model.bodies.iter().zip(shot.pose).enumerate().all(|(k, (body, place))| {
        let slack = if ends.contains(&k) { DEEP * thickness(k) } else { 1.0 };
        pick::nearest(body, place, &ray).is_none_or(|near| near >= far - slack)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_measure::Unit;
    use gable_shell::House;

    fn letters_of(around: f64, chosen: impl Fn(&str) -> bool) -> Vec<Letter> {
        let solved = gable_shell::solve(&House::simple(Unit::Millimetre));
        let model = Model::of(&solved, &gable_dress::Dressed::default());
        let pose: Vec<Rigid> = solved.pieces.iter().map(|p| p.house_from_piece).collect();
        let mut camera = Camera { around, ..Camera::default() };
        assert!(camera.fit(&model.outermost(&pose), 1.2));
        let chosen: Vec<bool> = solved.pieces.iter().map(|p| chosen(&p.id.0)).collect();
        letters(&Shot {
            solved: &solved,
            model: &model,
            pose: &pose,
            standing: true,
            chosen: &chosen,
            camera: &camera,
            picture: Rect::from_min_size(Pos2::ZERO, egui::vec2(600.0, 500.0)),
        })
    }

    /// The letter of the joint between two pieces.
    fn letter(a: &str, b: &str) -> String {
        let solved = gable_shell::solve(&House::simple(Unit::Millimetre));
        let meets = |j: &&Joint| [a, b].iter().all(|id| pieces(j).into_iter().any(|k| solved.pieces[k].id.0 == *id));
        solved.joints.iter().find(meets).map(|j| j.letter.clone()).unwrap_or_else(|| panic!("{a} and {b} do not meet"))
    }

    #[test]
    fn what_is_seen_has_its_letter_and_what_is_hidden_has_none() {
        // From the front and the right.
        let found = letters_of(0.62, |_| false);
        let has = |l: &str| found.iter().any(|(_, word)| word == l);
        assert!(has(&letter("main/wall-front", "main/wall-right")), "{found:?}");
        assert!(has(&letter("main/roof-left", "main/roof-right")), "{found:?}");
        assert!(!has(&letter("main/wall-back", "main/wall-left")), "{found:?}");
    }

    #[test]
    fn letters_keep_apart_and_a_chosen_piece_shows_its_own_alone() {
        let found = letters_of(0.62, |_| false);
        for (k, (a, _)) in found.iter().enumerate() {
            assert!(found[k + 1..].iter().all(|(b, _)| a.distance(*b) >= APART));
        }
        let own = letters_of(0.62, |id| id == "main/wall-front");
        assert!(own.len() < found.len() && !own.is_empty());
        let ridge = letter("main/roof-left", "main/roof-right");
        assert!(own.iter().all(|(_, word)| *word != ridge));
    }
}
