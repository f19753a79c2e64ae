use super::error::{Fault, Problem, ReadError};
use super::token::{Kind, Symbol, Token, Tokens};
use super::value::{self, Value};
use super::{sum, tokens_of};
use crate::{Pitch, Unit};
use gable_words::tr;

/// Reads the slope of a roof, and keeps the way it was given.
///
/// Degrees (`35`, `35°`, `35 deg`), rise in run (`8 in 12`, `2:3`, `8/12`) or the height of the ridge
/// (`ridge 216 mm`, `ridge 8 1/2 in`).
///
/// # Errors
///
/// What was expected and where, when the text is no pitch; also when rise, run or ridge height is not above zero.
/// How steep a roof may be is not judged here.
///
/// ```
/// use gable_measure::{Length, Pitch, Unit, read_pitch};
/// assert_eq!(read_pitch("8 in 12", Unit::Millimetre), Ok(Pitch::RiseInRun { rise: 8.0, run: 12.0 }));
/// assert_eq!(read_pitch("ridge 216", Unit::Millimetre), Ok(Pitch::RidgeHeight(Length::mm_of(216.0))));
/// ```
pub fn read_pitch(text: &str, unit: Unit) -> Result<Pitch, ReadError> {
    pitch(text, unit).map_err(|fault| ReadError::new(text, fault))
}

fn pitch(text: &str, unit: Unit) -> Result<Pitch, Fault> {
    let tokens = tokens_of(text, tr!("a pitch such as 35, 8 in 12 or ridge 216 mm"))?;
    if tokens[0].kind == Kind::Ridge {
        return ridge_height(&tokens[1..], unit);
    }
    match split(&tokens, text) {
        Some(at) => rise_in_run(&tokens, at, unit),
        None => Ok(Pitch::Angle(evaluate(&tokens, unit)?.angle()?)),
    }
}

fn ridge_height(tokens: &[Token], unit: Unit) -> Result<Pitch, Fault> {
    let tokens = if tokens.first().is_some_and(|t| t.kind == Kind::Filler) { &tokens[1..] } else { tokens };
    let value = evaluate(tokens, unit)?;
    let height = value.length(unit)?;
    positive(&value)?;
    Ok(Pitch::RidgeHeight(height))
}

/// Index of the colon or the word 'in' between rise and run, or of the slash in '8/12'.
///
/// The word is the one that a number follows; the inch marks of '8 in in 12 in' are not.
fn split(tokens: &[Token], text: &str) -> Option<usize> {
    // Roofers write 8/12 for 8 in 12 (common practice, no source); nobody means two thirds of a degree.
    let twelfths = |t: &[Token]| matches!(t, [_, over, run, end] if over.kind == Kind::Over && run.kind == Kind::Whole(12.0) && end.kind == Kind::End);
    if twelfths(tokens) {
        return Some(1);
    }
    let starts_number = |t: &Token| {
        matches!(t.kind, Kind::Whole(_) | Kind::Decimal(_) | Kind::Vulgar(_) | Kind::Thousands | Kind::Open)
    };
    tokens.windows(2).position(|pair| {
        let is_in = pair[0].kind == Kind::Unit(Symbol::Inch) && text[pair[0].range()].eq_ignore_ascii_case("in");
        pair[0].kind == Kind::Colon || (is_in && starts_number(&pair[1]))
    })
}

fn rise_in_run(tokens: &[Token], at: usize, unit: Unit) -> Result<Pitch, Fault> {
    let mut before = tokens[..at].to_vec();
    before.push(Token { kind: Kind::End, ..tokens[at] });
    let (rise, run) = (evaluate(&before, unit)?, evaluate(&tokens[at + 1..], unit)?);
    let alike = rise.kind == run.kind && rise.kind != value::Kind::Angle;
    if !alike {
        let problem = Problem::Wrong(tr!("rise and run must be two plain numbers or two lengths"));
        return Err(Fault { range: rise.range.start..run.range.end, problem });
    }
    positive(&rise)?;
    positive(&run)?;
    let number = |value: &Value| match value.kind {
        value::Kind::Length => value.length(unit).map(|length| unit.tidy_number(length)),
        _ => Ok(value.number),
    };
    Ok(Pitch::RiseInRun { rise: number(&rise)?, run: number(&run)? })
}

fn positive(value: &Value) -> Result<(), Fault> {
    if value.number > 0.0 {
        return Ok(());
    }
    Err(Fault { range: value.range.clone(), problem: Problem::Wrong(tr!("this must be more than zero")) })
}

fn evaluate(tokens: &[Token], unit: Unit) -> Result<Value, Fault> {
    sum::whole(&mut Tokens::new(tokens), unit)
}
