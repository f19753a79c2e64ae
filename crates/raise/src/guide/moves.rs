//! Stages by name, and moved by hand.

use super::{Guide, Stage};
use gable_shell::{Before, Piece, PieceKind, Raised, Role, Solved};
use gable_words::tr;

impl Stage {
    /// 'walls of Main body'; the piece itself if there is but one.
    pub fn name(&self, solved: &Solved) -> String {
        let pieces = self.pieces(solved);
        let Some(first) = pieces.first() else { return String::new() };
        if pieces.len() == 1 {
            return first.name.clone();
        }
        let part = solved.parts.iter().find(|p| p.id == first.part).map_or("", |p| p.name.as_str());
        let posts = pieces.iter().all(|p| matches!(p.role, Role::Post(..)));
        let what = match PieceKind::of(&first.role) {
            PieceKind::Floor => tr!("pieces of a part" => "floor"),
            PieceKind::Walls if posts => tr!("pieces of a part" => "posts"),
            kind => kind.words(),
        };
        tr!("{what} of {part}")
    }

    fn pieces<'a>(&self, solved: &'a Solved) -> Vec<&'a Piece> {
        self.steps.iter().filter_map(|s| solved.pieces.get(s.piece)).collect()
    }

    /// Its pieces in as few names as there are for them.
    fn raised(&self, solved: &Solved) -> Vec<Raised> {
        let pieces = self.pieces(solved);
        let Some(first) = pieces.first() else { return Vec::new() };
        let part = || first.part.clone();
        let all = |raised: &Raised| {
            let held = solved.pieces.iter().filter(|p| raised.holds(&p.id, &p.part, &p.role));
            held.count() == pieces.iter().filter(|p| raised.holds(&p.id, &p.part, &p.role)).count()
        };
        let few = [Raised::Part(part()), Raised::Kind(part(), PieceKind::of(&first.role))];
        match few.into_iter().find(all) {
            Some(one) if pieces.len() > 1 => vec![one],
            _ => pieces.iter().map(|p| Raised::Piece(p.id.clone())).collect(),
        }
    }
}

impl Guide {
    /// What is wanted of the order once the stage after `stage` is to come before it: the person's last word counts, so
    /// earlier wishes of the opposite are gone. Without a stage after it nothing changes.
    pub fn swapped(&self, solved: &Solved, order: &[Before], stage: usize) -> Vec<Before> {
        let Some([earlier, later]) = self.stages.get(stage..).and_then(|s| s.get(..2)) else { return order.to_vec() };
        let is_in =
            |of: &Stage, raised: &Raised| of.pieces(solved).iter().any(|p| raised.holds(&p.id, &p.part, &p.role));
        let stays = |b: &&Before| !(is_in(earlier, &b.first) && is_in(later, &b.then));
        let mut order: Vec<Before> = order.iter().filter(stays).cloned().collect();
        for first in later.raised(solved) {
            for then in earlier.raised(solved) {
                add(&mut order, Before { first: first.clone(), then });
            }
        }
        order
    }

    /// The same for two pieces of a stage, the one at `step` and the next.
    pub fn swapped_within(&self, solved: &Solved, order: &[Before], (stage, step): (usize, usize)) -> Vec<Before> {
        let pieces = self.stages.get(stage).map(|s| s.pieces(solved)).unwrap_or_default();
        let Some([earlier, later]) = pieces.get(step..).and_then(|s| s.get(..2)) else { return order.to_vec() };
        let [first, then] = [later, earlier].map(|p| Raised::Piece(p.id.clone()));
        let opposite = Before { first: then.clone(), then: first.clone() };
        let mut order: Vec<Before> = order.iter().filter(|b| **b != opposite).cloned().collect();
        add(&mut order, Before { first, then });
        order
    }
}

fn add(order: &mut Vec<Before>, wish: Before) {
    if !order.contains(&wish) {
        order.push(wish);
    }
}
