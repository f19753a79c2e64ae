use super::token::{Token, Tokens};
use gable_words::tr;
use std::fmt;
use std::ops::Range;
use winnow::error::ParserError;

/// Why a text could not be read: where, and what was expected.
///
/// The text of the message is written for the person who typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadError {
    range: Range<usize>,
    place: Place,
    found: String,
    problem: Problem,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Place {
    /// Counted from 1.
    Character(usize),
    Nowhere,
}

/// What went wrong, without its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Problem {
    /// Something else was expected here.
    Expected(&'static str),
    /// It can be read but makes no sense.
    Wrong(&'static str),
    /// Nothing was typed.
    Empty(&'static str),
}

/// A problem and the bytes it is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Fault {
    pub(super) range: Range<usize>,
    pub(super) problem: Problem,
}

impl Fault {
    pub(super) fn at(token: &Token, problem: Problem) -> Self {
        Self { range: token.range(), problem }
    }

    pub(super) fn whole(text: &str, problem: Problem) -> Self {
        Self { range: 0..text.len(), problem }
    }
}

impl ParserError<Tokens<'_>> for Fault {
    type Inner = Self;

    fn from_input(input: &Tokens<'_>) -> Self {
        let range = input.first().map_or(0..0, Token::range);
        Self { range, problem: Problem::Expected(tr!("a number")) }
    }

    fn into_inner(self) -> Result<Self::Inner, Self> {
        Ok(self)
    }
}

impl ReadError {
    pub(super) fn new(text: &str, fault: Fault) -> Self {
        let found: String = text.get(fault.range.clone()).unwrap_or_default().trim().to_owned();
        let before = text.get(..fault.range.start).unwrap_or_default();
        let place = match fault.problem {
            Problem::Empty(_) => Place::Nowhere,
            _ if found.is_empty() => Place::Nowhere,
            Problem::Wrong(_) if fault.range == (0..text.len()) => Place::Nowhere,
            // What stands there once needs no counting.
            Problem::Expected(_) if text.matches(found.as_str()).count() == 1 => Place::Nowhere,
            _ => Place::Character(before.chars().count() + 1),
        };
        Self { range: fault.range, place, found, problem: fault.problem }
    }

    /// The bytes of the text that the error is about; empty at the end of the text.
    pub fn range(&self) -> Range<usize> {
        self.range.clone()
    }

    /// What was expected there, if something else could have stood there.
    pub fn expected(&self) -> Option<&'static str> {
        match self.problem {
            Problem::Expected(what) | Problem::Empty(what) => Some(what),
            Problem::Wrong(_) => None,
        }
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.place {
            Place::Character(number) => write!(f, "{}", tr!("at character {number}: "))?,
            Place::Nowhere => {}
        }
        match self.problem {
            Problem::Empty(what) => write!(f, "{}", tr!("nothing is written here; expected {what}")),
            Problem::Wrong(what) => f.write_str(what),
            Problem::Expected(what) if self.found.is_empty() => {
                write!(f, "{}", tr!("something is missing at the end; expected {what}"))
            }
            Problem::Expected(what) => {
                write!(f, "{}", tr!("\"{}\" is not understood here; expected {what}", self.found))
            }
        }
    }
}

impl std::error::Error for ReadError {}
