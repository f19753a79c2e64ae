//! Numbers with fractions and units: `8 1/2 in`, `1' 2 3/4"`, `½`.

use super::error::{Fault, Problem};
use super::sum::Parsed;
use super::token::{Kind, Symbol, Token, Tokens};
use super::value::Value;
use gable_words::tr;
use winnow::combinator::{alt, fail, opt, peek, preceded, terminated};
use winnow::error::ErrMode;
use winnow::prelude::*;
use winnow::token::{any, one_of};

/// A number and its unit, or feet and inches together.
pub(super) fn quantity(input: &mut Tokens<'_>) -> Parsed<Value> {
    let value = plain(input)?;
    let Some((symbol, mark)) = opt(unit).parse_next(input)? else { return Ok(value) };
    let value = value.with_unit(symbol, &mark.range()).map_err(ErrMode::Cut)?;
    if symbol != Symbol::Foot {
        return Ok(value);
    }
    // `1'-2"` is how the trade joins feet and inches (common practice, no source).
    let Some(inches) = opt(alt((preceded(hyphen, inches), inches))).parse_next(input)? else { return Ok(value) };
    Ok(Value { number: value.number + inches.number, range: value.range.start..inches.range.end, ..value })
}

/// A unit and its token.
pub(super) fn unit<'t>(input: &mut Tokens<'t>) -> Parsed<(Symbol, &'t Token)> {
    let token = any.parse_next(input)?;
    match token.kind {
        Kind::Unit(symbol) => Ok((symbol, token)),
        _ => fail.parse_next(input),
    }
}

fn inches(input: &mut Tokens<'_>) -> Parsed<Value> {
    let value = plain(input)?;
    let mark = one_of(|t: &Token| t.kind == Kind::Unit(Symbol::Inch)).parse_next(input)?;
    value.with_unit(Symbol::Inch, &mark.range()).map_err(ErrMode::Cut)
}

/// A number without unit: mixed, fraction, decimal or whole.
fn plain(input: &mut Tokens<'_>) -> Parsed<Value> {
    alt((mixed, fraction, vulgar, decimal, whole)).parse_next(input)?.within_bounds().map_err(ErrMode::Cut)
}

/// `8 1/2`, `8½`, and `8-1/2` with nothing between.
fn mixed(input: &mut Tokens<'_>) -> Parsed<Value> {
    let whole = whole(input)?;
    let part = alt((preceded(hyphen, proper), proper)).parse_next(input)?;
    Ok(Value::bare(whole.number + part.number, whole.range.start..part.range.end))
}

/// A fraction below one.
fn proper(input: &mut Tokens<'_>) -> Parsed<Value> {
    alt((glued_fraction.verify(|f: &Value| f.number < 1.0), vulgar)).parse_next(input)
}

/// `1/4`; with spaces only before a unit, where a division would make no sense.
fn fraction(input: &mut Tokens<'_>) -> Parsed<Value> {
    alt((glued_fraction, terminated(spaced_fraction, peek(unit)))).parse_next(input)
}

fn glued_fraction(input: &mut Tokens<'_>) -> Parsed<Value> {
    let above = whole(input)?;
    between(Kind::Over, input)?;
    divide(&above, &whole(input)?)
}

fn spaced_fraction(input: &mut Tokens<'_>) -> Parsed<Value> {
    let above = whole(input)?;
    one_of(|t: &Token| t.kind == Kind::Over).parse_next(input)?;
    divide(&above, &whole(input)?)
}

fn divide(above: &Value, below: &Value) -> Parsed<Value> {
    let range = above.range.start..below.range.end;
    if below.number == 0.0 {
        return Err(ErrMode::Cut(Fault { range, problem: Problem::Wrong(tr!("this divides by zero")) }));
    }
    Ok(Value::bare(above.number / below.number, range))
}

fn whole(input: &mut Tokens<'_>) -> Parsed<Value> {
    number_if(input, |kind| if let Kind::Whole(number) = kind { Some(number) } else { None })
}

fn decimal(input: &mut Tokens<'_>) -> Parsed<Value> {
    number_if(input, |kind| if let Kind::Decimal(number) = kind { Some(number) } else { None })
}

fn vulgar(input: &mut Tokens<'_>) -> Parsed<Value> {
    number_if(input, |kind| if let Kind::Vulgar(number) = kind { Some(number) } else { None })
}

fn number_if(input: &mut Tokens<'_>, number: impl Fn(Kind) -> Option<f64>) -> Parsed<Value> {
    any.verify_map(|t: &Token| number(t.kind).map(|n| Value::bare(n, t.range()))).parse_next(input)
}

/// A minus that joins two things, as in `8-1/2` and `1'-2"`.
fn hyphen(input: &mut Tokens<'_>) -> Parsed<()> {
    between(Kind::Minus, input)
}

/// A token with no white space on either side.
fn between(kind: Kind, input: &mut Tokens<'_>) -> Parsed<()> {
    one_of(move |t: &Token| t.kind == kind && !t.spaced).parse_next(input)?;
    peek(one_of(|t: &Token| !t.spaced)).void().parse_next(input)
}
