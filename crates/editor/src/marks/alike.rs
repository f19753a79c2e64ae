//! What bakes alike.

use super::{Mark, Marks, Tone};
use crate::view::Shown;
use gable_bake::{About, Figures, Notebook, OvenNote, ToBake, alike};
use gable_shell::{House, Solved};
use gable_words::tr;
use std::collections::BTreeMap;

/// What bakes alike, kept until house or notebook change.
#[derive(Clone, Debug, Default)]
pub(crate) struct Sorted {
    asked: Option<(u64, Figures, Vec<OvenNote>)>,
    /// What each kind is, with how many biscuits are of it, in the order in which they are baked.
    kinds: Vec<(String, usize)>,
    /// The kind of each piece, by its id.
    of: BTreeMap<String, usize>,
}

impl Sorted {
    /// Sorts what is shown. While something is dragged, `held`, all stays as it was sorted last: kinds hardly change, and sorting
    /// takes its time.
    pub(crate) fn follow(&mut self, shown: &Shown, house: &House, notebook: &Notebook, held: bool) {
        let asked = (shown.number, notebook.figures.clone(), notebook.oven_log.clone());
        if self.asked.as_ref() == Some(&asked) || (held && self.asked.is_some()) {
            return;
        }
        let about = About { house, solved: &shown.solved, dressed: &shown.dressed, guide: None, board: None };
        let to_bake = ToBake::all(&about);
        let all = alike(&to_bake, &notebook.figures, &notebook.oven_log);
        self.kinds = all.iter().map(|(class, members)| (class.words(house.unit), members.len())).collect();
        let members = all.iter().enumerate().flat_map(|(k, (_, members))| members.iter().map(move |one| (one, k)));
        self.of = members.map(|(one, k)| (one.id.clone(), k)).collect();
        self.asked = Some(asked);
    }
}

impl Marks {
    /// What bakes alike, by numbers in the order in which it is baked; nothing of what is baked already.
    pub(crate) fn alike(solved: &Solved, sorted: &Sorted) -> Self {
        let mark = |k: usize| Mark { tone: Tone::Kind(k), sign: (k + 1).to_string(), at: None };
        let kind = |p: &gable_shell::Piece| sorted.of.get(&p.id.0).filter(|_| !p.baked).copied().map(mark);
        let lines = sorted.kinds.iter().enumerate();
        let mut key: Vec<_> = lines.map(|(k, (words, n))| (Some(mark(k)), format!("{words}: {n}"))).collect();
        let baked = solved.pieces.iter().filter(|p| p.baked).count();
        if baked > 0 {
            key.push((None, tr!("baked already: {baked}")));
        }
        Self::told(tr!("What bakes alike"), solved.pieces.iter().map(kind).collect(), key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_shell::{demo, solve};

    /// Small pieces are those whose longer side is no longer than the figure says, measured here from the outlines alone.
    #[test]
    fn pieces_of_one_dough_are_told_apart_by_their_size_alone() {
        let house = demo::house("pilot-house").expect("a demo");
        let shown = Shown::of(1, &house);
        let notebook = Notebook::default();
        let mut sorted = Sorted::default();
        sorted.follow(&shown, &house, &notebook, false);
        let marks = Marks::alike(&shown.solved, &sorted);
        let small = notebook.figures.get(gable_bake::Figure::SmallPiece);
        let mut seen = BTreeMap::new();
        for (piece, mark) in solve(&house).pieces.iter().zip(&marks.of) {
            let mark = mark.as_ref().expect("nothing is baked yet");
            let (width, height) = piece.size();
            let key = (format!("{:.2}", piece.rolled.mm()), width.mm().max(height.mm()) > small);
            assert_eq!(seen.entry(key).or_insert(mark.tone), &mark.tone, "{}", piece.name);
        }
        assert!(seen.len() > 1, "large and small ones: {seen:?}");
        let told: usize = sorted.kinds.iter().map(|(_, n)| n).sum();
        assert!(told >= shown.solved.pieces.len() && marks.words.starts_with("What bakes alike: "), "{}", marks.words);
    }

    #[test]
    fn what_was_sorted_stays_while_something_is_dragged() {
        let house = demo::house("boat-hut").expect("a demo");
        let mut thick = house.clone();
        thick.doughs.iter_mut().for_each(|d| d.rolled = d.rolled * 2.0);
        let (notebook, mut sorted) = (Notebook::default(), Sorted::default());
        sorted.follow(&Shown::of(1, &house), &house, &notebook, false);
        let before = sorted.kinds.clone();
        sorted.follow(&Shown::of(2, &thick), &thick, &notebook, true);
        assert_eq!(sorted.kinds, before);
        sorted.follow(&Shown::of(2, &thick), &thick, &notebook, false);
        assert_ne!(sorted.kinds, before);
    }
}
