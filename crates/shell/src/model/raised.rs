use super::{House, PartId};
use crate::{PieceId, Role};
use gable_words::tr;
use std::fmt;

/// What the person wants of the order in which the house is put up: one thing before another.
///
/// Names, not numbers: a resized house keeps them, and what is gone is left out.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Before {
    /// It is put up first.
    pub first: Raised,
    /// It is put up after that, sooner or later.
    pub then: Raised,
}

/// Pieces that are spoken of together when a house is put up.
///
/// As text `porch` is a part, `porch/roof` its roof, and `porch/wall-front` a piece.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Raised {
    /// All pieces of a part.
    Part(PartId),
    /// All pieces of one kind of a part.
    Kind(PartId, PieceKind),
    /// One piece.
    Piece(PieceId),
}

/// What pieces of a part are put up together, in the usual order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PieceKind {
    /// Floor and the plates under it.
    Floor,
    /// Walls and posts.
    Walls,
    /// Slopes and lid.
    Roof,
    /// The strips of the parapet.
    Parapet,
}

impl PieceKind {
    /// Every kind, with its word.
    pub const ALL: [(&'static str, Self); 4] =
        [("floors", Self::Floor), ("walls", Self::Walls), ("roof", Self::Roof), ("parapet", Self::Parapet)];

    /// The kind of a piece.
    pub const fn of(role: &Role) -> Self {
        match role {
            Role::Floor | Role::Layer(_) => Self::Floor,
            Role::Wall(_) | Role::Post(..) => Self::Walls,
            Role::Slope(..) | Role::Lid => Self::Roof,
            Role::Parapet(_) => Self::Parapet,
        }
    }

    /// What people call it, as in 'the roof of Main body'.
    pub fn words(self) -> &'static str {
        match self {
            Self::Floor => tr!("pieces of a part" => "floors"),
            Self::Walls => tr!("pieces of a part" => "walls"),
            Self::Roof => tr!("pieces of a part" => "roof"),
            Self::Parapet => tr!("pieces of a part" => "parapet"),
        }
    }

    /// Its word for files.
    pub fn word(self) -> &'static str {
        Self::ALL.into_iter().find(|(_, kind)| *kind == self).map_or("", |(word, _)| word)
    }
}

impl Raised {
    /// Reads what [`fmt::Display`] writes.
    pub fn read(text: &str) -> Self {
        let Some((part, rest)) = text.split_once('/') else { return Self::Part(PartId(text.to_owned())) };
        let kind = PieceKind::ALL.into_iter().find(|(word, _)| *word == rest);
        match kind {
            Some((_, kind)) => Self::Kind(PartId(part.to_owned()), kind),
            None => Self::Piece(PieceId(text.to_owned())),
        }
    }

    /// The part that it is, or is of.
    pub fn part(&self) -> PartId {
        match self {
            Self::Part(part) | Self::Kind(part, _) => part.clone(),
            Self::Piece(piece) => PartId(piece.0.split('/').next().unwrap_or_default().to_owned()),
        }
    }

    /// Whether a piece is of it.
    pub fn holds(&self, piece: &PieceId, part: &PartId, role: &Role) -> bool {
        match self {
            Self::Part(own) => own == part,
            Self::Kind(own, kind) => own == part && *kind == PieceKind::of(role),
            Self::Piece(own) => own == piece,
        }
    }

    /// What people call it, as far as the house alone knows: 'Porch', 'roof of Porch'.
    pub fn words(&self, house: &House) -> String {
        let name = |part: &PartId| house.part(part).map_or_else(|| part.0.clone(), |p| p.name.clone());
        match self {
            Self::Part(part) => name(part),
            Self::Kind(part, kind) => tr!("{} of {}", kind.words(), name(part)),
            Self::Piece(piece) => piece.0.clone(),
        }
    }
}

impl fmt::Display for Raised {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Part(part) => f.write_str(&part.0),
            Self::Kind(part, kind) => write!(f, "{}/{}", part.0, kind.word()),
            Self::Piece(piece) => f.write_str(&piece.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_again() {
        let part = || PartId("porch".into());
        for raised in [
            Raised::Part(part()),
            Raised::Kind(part(), PieceKind::Walls),
            Raised::Kind(part(), PieceKind::Floor),
            Raised::Piece(PieceId("porch/floor".into())),
            Raised::Piece(PieceId("porch/wall-front".into())),
        ] {
            assert_eq!(Raised::read(&raised.to_string()), raised);
        }
    }
}
