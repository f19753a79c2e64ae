//! How well each piece will do.

use super::{Mark, Marks, count_classes, severity_of};
use gable_shell::{PieceId, Solved};
use gable_stand::Class;
use gable_words::tr;
use std::collections::BTreeMap;

impl Marks {
    /// How well each piece will do; nothing of pieces that are new since that was worked out. `ready` tells that the answers are those
    /// for the house as it is.
    pub(crate) fn standing(solved: &Solved, classes: &BTreeMap<PieceId, Class>, ready: bool) -> Self {
        let own: Vec<Class> =
            solved.pieces.iter().map(|p| classes.get(&p.id).copied().unwrap_or(Class::Sound)).collect();
        let mut key = count_classes(own.iter().copied());
        let sound = own.iter().filter(|class| **class == Class::Sound).count();
        let rest =
            if ready { format!("{}: {sound}", Class::Sound.words()) } else { tr!("working it out…").to_owned() };
        key.push((None, rest));
        let of = own.into_iter().map(|class| severity_of(class).map(Mark::bad)).collect();
        let marks = Self::told(tr!("Will it stand"), of, key);
        if ready { marks } else { Self { words: tr!("Will it stand: working it out.").to_owned(), ..marks } }
    }
}
