//! Which form of a text goes with a number: the formula of `Plural-Forms` in the header of a catalogue, in the notation of C
//! (GNU gettext manual, 'Additional functions for plural forms').

use winnow::ascii::{digit1, multispace0};
use winnow::combinator::{alt, delimited, opt, preceded};
use winnow::prelude::*;

/// A number that text goes by.
pub trait Count {
    /// The whole number that stands for it; what is not whole counts as many.
    fn count(&self) -> u64;
}

macro_rules! whole {
    ($($kind:ty),*) => { $(impl Count for $kind {
        fn count(&self) -> u64 {
            u64::try_from(*self).unwrap_or(0)
        }
    })* };
}
whole!(u8, u16, u32, u64, usize, i32, i64);

impl Count for f64 {
    fn count(&self) -> u64 {
        // Beyond 2^53 there are no odd numbers; no text goes by such.
        if self.fract() == 0.0 && (0.0..9e15).contains(self) {
            *self as u64
        } else {
            (self.abs().min(9e15) as u64).max(2)
        }
    }
}

impl<T: Count> Count for &T {
    fn count(&self) -> u64 {
        (*self).count()
    }
}

/// The formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Rule {
    N,
    Number(u64),
    Not(Box<Rule>),
    Two(&'static str, Box<Rule>, Box<Rule>),
    If(Box<Rule>, Box<Rule>, Box<Rule>),
}

/// Formulas are a line of text; deeper and longer ones are nobody's grammar.
const DEEPEST: usize = 60;
/// Longest formula, bytes.
const LONGEST: usize = 600;

impl Rule {
    /// Two forms, as in English.
    pub(crate) fn english() -> Self {
        Self::Two("!=", Box::new(Self::N), Box::new(Self::Number(1)))
    }

    /// Reads the value of `Plural-Forms`: how many forms, and which.
    pub(crate) fn read(header: &str) -> Option<(usize, Self)> {
        let value = |name: &str| {
            header
                .split(';')
                .find_map(|part| part.split_once('=').filter(|(own, _)| own.trim() == name))
                .map(|(_, v)| v.trim())
        };
        let formula = value("plural")?;
        if formula.len() > LONGEST || formula.matches(['(', '!', '?']).count() > DEEPEST {
            return None;
        }
        Some((value("nplurals")?.parse().ok()?, chosen.parse(formula).ok()?))
    }

    /// The form that goes with a number, counted from 0.
    pub(crate) fn form(&self, n: u64) -> u64 {
        match self {
            Self::N => n,
            Self::Number(number) => *number,
            Self::Not(rule) => u64::from(rule.form(n) == 0),
            Self::If(rule, yes, no) => {
                if rule.form(n) != 0 {
                    yes.form(n)
                } else {
                    no.form(n)
                }
            }
            Self::Two(sign, a, b) => worked_out(sign, a.form(n), b.form(n)),
        }
    }
}

fn worked_out(sign: &str, a: u64, b: u64) -> u64 {
    match sign {
        "%" => a.checked_rem(b).unwrap_or(0),
        "/" => a.checked_div(b).unwrap_or(0),
        "*" => a.wrapping_mul(b),
        "+" => a.wrapping_add(b),
        "-" => a.wrapping_sub(b),
        "==" => u64::from(a == b),
        "!=" => u64::from(a != b),
        "<=" => u64::from(a <= b),
        ">=" => u64::from(a >= b),
        "<" => u64::from(a < b),
        ">" => u64::from(a > b),
        "&&" => u64::from(a != 0 && b != 0),
        _ => u64::from(a != 0 || b != 0),
    }
}

/// Signs between two numbers; those that bind least come first. Longer signs stand before shorter ones.
const SIGNS: [&[&str]; 6] = [&["||"], &["&&"], &["==", "!="], &["<=", ">=", "<", ">"], &["+", "-"], &["*", "/", "%"]];

fn chosen(input: &mut &str) -> winnow::Result<Rule> {
    let rule = level(0).parse_next(input)?;
    if opt(word("?")).parse_next(input)?.is_none() {
        return Ok(rule);
    }
    let yes = chosen.parse_next(input)?;
    let no = preceded(word(":"), chosen).parse_next(input)?;
    Ok(Rule::If(Box::new(rule), Box::new(yes), Box::new(no)))
}

fn level(at: usize) -> impl FnMut(&mut &str) -> winnow::Result<Rule> {
    move |input| {
        let Some(signs) = SIGNS.get(at) else { return single(input) };
        let mut rule = level(at + 1)(input)?;
        let sign = |input: &mut &str| signs.iter().find_map(|s| word(s).parse_next(input).ok());
        while let Some(sign) = sign(input) {
            rule = Rule::Two(sign, Box::new(rule), Box::new(level(at + 1)(input)?));
        }
        Ok(rule)
    }
}

fn single(input: &mut &str) -> winnow::Result<Rule> {
    let not = preceded(word("!"), single).map(|rule| Rule::Not(Box::new(rule)));
    let number = delimited(multispace0, digit1.parse_to(), multispace0).map(Rule::Number);
    alt((word("n").value(Rule::N), number, delimited(word("("), chosen, word(")")), not)).parse_next(input)
}

fn word<'a>(sign: &'static str) -> impl Parser<&'a str, &'static str, winnow::error::ContextError> {
    delimited(multispace0, sign, multispace0).value(sign)
}
