use crate::{Baker, board_size};
use gable_bake::timetable::Build;
use gable_bake::{About, Lots};
use gable_dress::Dressed;
use gable_measure::Length;
use gable_raise::Guide;
use gable_shell::{House, Solved, solve};

/// A house with everything that plans of its bake and its standing are made from.
#[derive(Clone, Debug)]
pub struct Complete {
    /// The house as it was given.
    pub house: House,
    /// Its pieces.
    pub solved: Solved,
    /// What is put on them.
    pub dressed: Dressed,
    /// How it is raised, if there is an order.
    pub guide: Option<Guide>,
    /// Width and depth of its base board; nothing without pieces.
    pub board: Option<(Length, Length)>,
}

impl Complete {
    /// Works out all of it.
    pub fn of(house: House) -> Self {
        let solved = solve(&house);
        let dressed = gable_dress::dress(&house, &solved);
        let guide = Guide::of(&solved).ok();
        let board = board_size(&house, &solved);
        Self { house, solved, dressed, guide, board }
    }

    /// The same as plans take it.
    pub fn about(&self) -> About<'_> {
        let Self { house, solved, dressed, guide, board } = self;
        About { house, solved, dressed, guide: guide.as_ref(), board: *board }
    }
}

/// Reads the other houses of a bake; `load` finds one by what it was called.
///
/// # Errors
/// Which of them cannot be read, and why.
pub fn others<E>(build: Option<&Build>, load: impl Fn(&str) -> Result<House, E>) -> Result<Vec<(House, usize)>, E> {
    let all = build.map_or(&[][..], |build| &build.others);
    all.iter().map(|other| Ok((load(&other.house)?, other.copies))).collect()
}

/// Whatever is baked together with a house of one person.
#[derive(Clone, Debug)]
pub struct Together(Vec<(Complete, usize)>);

impl Together {
    /// Works out every other house, as it is baked in their kitchen.
    pub fn of(baker: &Baker) -> Self {
        let complete = |(house, copies): &(House, usize)| (Complete::of(baker.notebook.baked_here(house)), *copies);
        Self(baker.others.iter().map(complete).collect())
    }

    /// The other houses.
    pub fn iter(&self) -> impl Iterator<Item = &Complete> {
        self.0.iter().map(|(complete, _)| complete)
    }

    /// What is baked with a house, and how many there are of each.
    pub fn lots<'a>(&'a self, first: About<'a>, baker: &Baker) -> Lots<'a> {
        let build = baker.notebook.build(first.house);
        let others = self.0.iter().map(|(complete, copies)| (complete.about(), *copies));
        let mut lots = Lots::of((first, build.map_or(1, |build| build.copies)), others);
        lots.until = build.map(|build| build.until).unwrap_or_default();
        lots
    }
}
