use crate::board_size;
use gable_bake::About;
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
