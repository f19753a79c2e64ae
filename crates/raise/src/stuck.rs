use gable_shell::Solved;
use gable_words::tr;
use std::fmt;
use thiserror::Error;

/// No order by straight moves was found: what is left when everything else has been taken away.
#[derive(Clone, Debug, PartialEq, Error)]
pub struct Stuck {
    /// The pieces that are left, and why.
    pub left: Vec<Held>,
}

/// A piece that cannot be taken away.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// Index into [`Solved::pieces`].
    pub piece: usize,
    /// Its name.
    pub name: String,
    /// What holds it.
    pub why: Why,
}

/// Why a piece cannot be taken away.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// These pieces are in its way, by name, whichever way it goes; the way with the fewest of them is meant.
    InTheWay(Vec<String>),
    /// These pieces would rest on nothing without it, by name.
    Carries(Vec<String>),
    /// It belongs under the roof of its own part, which cannot be taken away.
    UnderItsRoof,
    /// The person wants these pieces after it, by name, and they cannot be taken away.
    Wanted(Vec<String>),
    /// It rests on nothing, neither on the base board nor on another piece.
    Floats,
}

impl Stuck {
    pub(crate) fn new(solved: &Solved, left: Vec<(usize, Reason)>) -> Self {
        let name = |k: usize| solved.pieces.get(k).map(|p| p.name.clone()).unwrap_or_default();
        let names = |list: Vec<usize>| list.into_iter().map(name).collect();
        let held = |(piece, reason)| {
            let why = match reason {
                Reason::InTheWay(list) => Why::InTheWay(names(list)),
                Reason::Carries(list) => Why::Carries(names(list)),
                Reason::UnderItsRoof => Why::UnderItsRoof,
                Reason::Wanted(list) => Why::Wanted(names(list)),
                Reason::Floats => Why::Floats,
            };
            Held { piece, name: name(piece), why }
        };
        Self { left: left.into_iter().map(held).collect() }
    }
}

/// The same as [`Why`] with indices of pieces.
pub(crate) enum Reason {
    InTheWay(Vec<usize>),
    Carries(Vec<usize>),
    UnderItsRoof,
    Wanted(Vec<usize>),
    Floats,
}

impl Reason {
    /// How little it tells of why these pieces cannot come first: what speaks of them tells most.
    pub(crate) fn rank(&self, first: &[usize]) -> (bool, u8) {
        let (kind, named): (u8, &[usize]) = match self {
            Self::InTheWay(list) => (0, list),
            Self::Carries(list) => (1, list),
            Self::UnderItsRoof => (2, &[]),
            Self::Wanted(list) => (3, list),
            Self::Floats => (4, &[]),
        };
        (!named.iter().any(|k| first.contains(k)), kind)
    }
}

impl fmt::Display for Stuck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", tr!("no order by straight moves"))?;
        // Walls under a roof that is held are held by what holds the roof.
        let telling = self.left.iter().filter(|h| h.why != Why::UnderItsRoof);
        for (k, held) in telling.enumerate() {
            write!(f, "{} {held}", if k == 0 { ":" } else { ";" })?;
        }
        Ok(())
    }
}

impl fmt::Display for Held {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.why {
            Why::InTheWay(names) => write!(f, "{}", tr!("{} cannot pass {}", self.name, names.join(" and "))),
            Why::Carries(names) => write!(f, "{}", tr!("{} must stand before {}", self.name, names.join(" and "))),
            Why::UnderItsRoof => write!(f, "{}", tr!("{} must stand before its roof", self.name)),
            Why::Wanted(names) => write!(f, "{}", tr!("{} is wanted before {}", self.name, names.join(" and "))),
            Why::Floats => write!(f, "{}", tr!("{} rests on nothing", self.name)),
        }
    }
}
