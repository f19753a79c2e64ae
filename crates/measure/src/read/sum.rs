//! Sums of quantities: + - * / and brackets, with the usual precedence.

use super::error::{Fault, Problem};
use super::quantity::{quantity, unit as unit_mark};
use super::token::{Kind, Token, Tokens};
use super::value::{Operator, Value};
use crate::Unit;
use gable_words::tr;
use winnow::combinator::{opt, repeat};
use winnow::error::ErrMode;
use winnow::prelude::*;
use winnow::token::one_of;

pub(super) type Parsed<T> = winnow::ModalResult<T, Fault>;

/// Brackets within brackets; more would only be a way to exhaust the stack.
const DEEPEST: usize = 32;

/// The sum that all the tokens make.
pub(super) fn whole(input: &mut Tokens<'_>, unit: Unit) -> Result<Value, Fault> {
    let value = sum(input, unit, 0).map_err(|error| match error {
        ErrMode::Backtrack(fault) | ErrMode::Cut(fault) => fault,
        ErrMode::Incomplete(_) => unexpected(input, tr!("a number")),
    })?;
    match input.first() {
        Some(token) if token.kind != Kind::End => Err(unexpected(input, tr!("a unit or a sign such as +"))),
        _ => Ok(value),
    }
}

fn sum(input: &mut Tokens<'_>, unit: Unit, depth: usize) -> Parsed<Value> {
    let mut total = product(input, unit, depth)?;
    while let Some(sign) = opt(one_of([Kind::Plus, Kind::Minus])).parse_next(input)? {
        let operator = if sign.kind == Kind::Plus { Operator::Add } else { Operator::Subtract };
        let right = product(input, unit, depth)?;
        total = total.apply(operator, right, unit).map_err(ErrMode::Cut)?;
    }
    Ok(total)
}

fn product(input: &mut Tokens<'_>, unit: Unit, depth: usize) -> Parsed<Value> {
    let mut total = signed(input, unit, depth)?;
    while let Some(sign) = opt(one_of([Kind::Times, Kind::Over])).parse_next(input)? {
        let operator = if sign.kind == Kind::Times { Operator::Multiply } else { Operator::Divide };
        let right = signed(input, unit, depth)?;
        total = total.apply(operator, right, unit).map_err(ErrMode::Cut)?;
    }
    Ok(total)
}

fn signed(input: &mut Tokens<'_>, unit: Unit, depth: usize) -> Parsed<Value> {
    let signs = repeat(0.., one_of([Kind::Plus, Kind::Minus]));
    let factor = signs.fold(|| 1.0, |factor, sign: &Token| if sign.kind == Kind::Minus { -factor } else { factor });
    let factor: f64 = { factor }.parse_next(input)?;
    let value = operand(input, unit, depth)?;
    Ok(Value { number: value.number * factor, ..value })
}

fn operand(input: &mut Tokens<'_>, unit: Unit, depth: usize) -> Parsed<Value> {
    let Some(bracket) = opt(one_of([Kind::Open])).parse_next(input)? else {
        return match opt(quantity).parse_next(input)? {
            Some(value) => Ok(value),
            None => Err(ErrMode::Cut(unexpected(input, tr!("a number")))),
        };
    };
    if depth == DEEPEST {
        return Err(ErrMode::Cut(Fault::at(bracket, Problem::Wrong(tr!("too many brackets within brackets")))));
    }
    let inside = sum(input, unit, depth + 1)?;
    let Some(close) = opt(one_of([Kind::Close])).parse_next(input)? else {
        return Err(ErrMode::Cut(unexpected(input, tr!("a closing bracket"))));
    };
    let value = Value { range: bracket.start..close.end, ..inside };
    match opt(unit_mark).parse_next(input)? {
        Some((symbol, mark)) => value.with_unit(symbol, &mark.range()).map_err(ErrMode::Cut),
        None => Ok(value),
    }
}

/// What to say about the token that comes next.
fn unexpected(input: &Tokens<'_>, expected: &'static str) -> Fault {
    let Some(token) = input.first() else { return Fault { range: 0..0, problem: Problem::Expected(expected) } };
    let problem = match token.kind {
        Kind::Thousands => Problem::Wrong(tr!(
            "a comma before three figures can be read in two ways; write 1200 or 1.2, without the comma"
        )),
        Kind::Other => Problem::Expected(tr!("a number, a unit or a sign such as +")),
        _ => Problem::Expected(expected),
    };
    Fault::at(token, problem)
}

impl winnow::stream::ContainsToken<&'_ Token> for Kind {
    fn contains_token(&self, token: &'_ Token) -> bool {
        token.kind == *self
    }
}

impl<const N: usize> winnow::stream::ContainsToken<&'_ Token> for [Kind; N] {
    fn contains_token(&self, token: &'_ Token) -> bool {
        self.contains(&token.kind)
    }
}
