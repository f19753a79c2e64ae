use super::Action;
use crate::several::{Line, Space};
use gable_words::tr;

/// The menus.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Group {
    /// Files, and what is made from the house.
    House,
    /// Changes of the house.
    Edit,
    /// What is selected.
    Selected,
    /// The house in space.
    View,
    /// Drawing table and window.
    Look,
    /// Help.
    Help,
}

impl Group {
    /// Every menu, from left to right.
    pub(crate) const ALL: [Self; 6] = [Self::House, Self::Edit, Self::Selected, Self::View, Self::Look, Self::Help];

    /// What it is called.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::House => tr!("House"),
            Self::Edit => tr!("Edit"),
            Self::Selected => tr!("Selected"),
            Self::View => tr!("In space"),
            Self::Look => tr!("Look"),
            Self::Help => tr!("Help"),
        }
    }

    /// Whether something else begins with an action in its menu, to be told by a line before it.
    pub(crate) const fn parts_before(action: Action) -> bool {
        matches!(
            action,
            Action::MakePack
                | Action::Trays
                | Action::Quit
                | Action::Resize
                | Action::LineUp(Line::Left)
                | Action::Space(Space::Across)
                | Action::LookCorner
                | Action::Flat
                | Action::Clear
                | Action::Noticed
                | Action::SwitchTheme
        )
    }

    /// What is in it, from top to bottom.
    pub(crate) fn actions(self) -> impl Iterator<Item = Action> {
        Action::ALL.into_iter().filter(move |action| action.group() == self)
    }
}
