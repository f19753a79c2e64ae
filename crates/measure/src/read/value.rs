use super::error::{Fault, Problem};
use super::token::Symbol;
use super::{LARGEST_ANGLE, LARGEST_LENGTH};
use crate::{Angle, Length, Unit};
use gable_words::tr;
use std::ops::Range;

/// A number with what it measures, and where it stands in the text.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Value {
    /// As typed, in millimetres, or in degrees.
    pub(super) number: f64,
    pub(super) kind: Kind,
    pub(super) range: Range<usize>,
}

/// What a number measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Bare,
    Length,
    Angle,
}

/// The four operators.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Operator {
    Add,
    Subtract,
    Multiply,
    Divide,
}

impl Value {
    pub(super) fn bare(number: f64, range: Range<usize>) -> Self {
        Self { number, kind: Kind::Bare, range }
    }

    /// A bare number becomes so many of a unit; only for values without a unit.
    pub(super) fn with_unit(self, symbol: Symbol, range: &Range<usize>) -> Result<Self, Fault> {
        if self.kind != Kind::Bare {
            let problem = Problem::Wrong(tr!("there is a unit already"));
            return Err(Fault { range: range.clone(), problem });
        }
        let (number, kind) = match symbol {
            Symbol::Millimetre => (self.number, Kind::Length),
            Symbol::Centimetre => (Length::cm_of(self.number).mm(), Kind::Length),
            Symbol::Metre => (self.number * 1000.0, Kind::Length),
            Symbol::Inch => (Length::inches(self.number).mm(), Kind::Length),
            Symbol::Foot => (Length::inches(self.number * 12.0).mm(), Kind::Length),
            Symbol::Degree => (self.number, Kind::Angle),
        };
        Ok(Self { number, kind, range: self.range.start..range.end })
    }

    /// `self operator other`; a bare number beside a length is in the house's unit, beside an angle in degrees.
    pub(super) fn apply(self, operator: Operator, other: Self, unit: Unit) -> Result<Self, Fault> {
        let range = self.range.start..other.range.end;
        let wrong = |what| Fault { range: range.clone(), problem: Problem::Wrong(what) };
        let (number, kind) = match operator {
            Operator::Add | Operator::Subtract => {
                let kind = if self.kind == Kind::Bare { other.kind } else { self.kind };
                let (Some(a), Some(b)) = (self.number_as(kind, unit), other.number_as(kind, unit)) else {
                    return Err(wrong(tr!("a length and an angle cannot be added")));
                };
                (if operator == Operator::Add { a + b } else { a - b }, kind)
            }
            Operator::Multiply => match (self.kind, other.kind) {
                (kind, Kind::Bare) | (Kind::Bare, kind) => (self.number * other.number, kind),
                _ => return Err(wrong(tr!("one of two things that are multiplied must be a plain number"))),
            },
            Operator::Divide if other.number == 0.0 => return Err(wrong(tr!("this divides by zero"))),
            Operator::Divide if other.kind != Kind::Bare => {
                return Err(wrong(tr!("only a plain number can stand after the division sign")));
            }
            Operator::Divide => (self.number / other.number, self.kind),
        };
        Self { number, kind, range }.within_bounds()
    }

    fn number_as(&self, kind: Kind, unit: Unit) -> Option<f64> {
        match (self.kind, kind) {
            (Kind::Bare, Kind::Length) => Some(unit.length(self.number).mm()),
            (Kind::Bare, _) => Some(self.number),
            (own, wanted) => (own == wanted).then_some(self.number),
        }
    }

    /// Guards every step of a sum, so that no overflow can cancel out.
    pub(super) fn within_bounds(self) -> Result<Self, Fault> {
        const LARGEST_NUMBER: f64 = 1e12;
        if self.number.abs() <= LARGEST_NUMBER {
            return Ok(self);
        }
        Err(Fault { range: self.range, problem: Problem::Wrong(tr!("this number is too large")) })
    }

    pub(super) fn length(&self, unit: Unit) -> Result<Length, Fault> {
        let wrong = |what| self.wrong(what);
        let mm = self.number_as(Kind::Length, unit).ok_or_else(|| wrong(tr!("this is an angle, not a length")))?;
        // A comparison that NaN fails too.
        if mm.abs() <= LARGEST_LENGTH.mm() {
            Ok(Length::mm_of(mm))
        } else {
            Err(wrong(tr!("this is longer than 100 m")))
        }
    }

    pub(super) fn bare_number(&self) -> Result<f64, Fault> {
        match self.kind {
            Kind::Bare => Ok(self.number),
            Kind::Length => Err(self.wrong(tr!("this is a length, not a number"))),
            Kind::Angle => Err(self.wrong(tr!("this is an angle, not a number"))),
        }
    }

    fn wrong(&self, what: &'static str) -> Fault {
        Fault { range: self.range.clone(), problem: Problem::Wrong(what) }
    }

    pub(super) fn angle(&self) -> Result<Angle, Fault> {
        let wrong = |what| self.wrong(what);
        if self.kind == Kind::Length {
            return Err(wrong(tr!("this is a length, not an angle")));
        }
        let inside = self.number.abs() <= LARGEST_ANGLE.deg();
        if inside { Ok(Angle::degrees(self.number)) } else { Err(wrong(tr!("this is more than a full turn"))) }
    }
}
