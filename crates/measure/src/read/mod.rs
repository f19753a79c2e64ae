//! The reader for lengths, angles and roof pitches as people type them.
//!
//! Text becomes tokens, tokens become a [`value::Value`]; every error keeps its place in the text.

mod error;
mod pitch;
mod quantity;
mod sum;
mod token;
mod value;

pub use error::ReadError;
pub use pitch::read_pitch;

use crate::{Angle, Length, Unit};
use error::{Fault, Problem};
use gable_words::tr;
use token::{Token, Tokens};
use value::Value;

/// The largest length that is read, 100 m: far beyond any biscuit, and small enough that nothing overflows.
pub const LARGEST_LENGTH: Length = Length::mm_of(100_000.0);

/// The largest angle that is read: one full turn.
pub const LARGEST_ANGLE: Angle = Angle::degrees(360.0);

/// Characters that a text may have; nobody types more into a field, and it bounds the work.
const LONGEST_TEXT: usize = 500;

/// Reads a length: a number, a number with a unit, or a sum of such.
///
/// Units are mm, cm, m, in (`"`, `″`) and ft (`'`, `′`). A bare number takes the house's unit, also when it is added to a
/// length; multiplied with a length it is a plain factor. Fractions may be `1/2` or `½`; `8-1/2` is eight and a half, and
/// `1'-2"` is one foot two, both as the trade writes them, as long as nothing is typed between.
///
/// # Errors
///
/// What was expected and where, when the text is no length; also division by zero and lengths beyond [`LARGEST_LENGTH`].
///
/// ```
/// use gable_measure::{InchStep, Length, Unit, read_length};
/// let inch = Unit::Inch(InchStep::Sixteenth);
/// assert_eq!(read_length("21,6 cm", Unit::Millimetre), Ok(Length::mm_of(216.0)));
/// assert_eq!(read_length("216 + 3mm", Unit::Millimetre), Ok(Length::mm_of(219.0)));
/// assert_eq!(read_length("8 1/2 in / 2", inch), Ok(Length::inches(4.25)));
/// assert_eq!(read_length("14\" - 2*1/4\"", inch), Ok(Length::inches(13.5)));
/// let wrong = read_length("216 x", Unit::Millimetre).unwrap_err();
/// assert_eq!(wrong.to_string(), "\"x\" is not understood here; expected a number, a unit or a sign such as +");
/// ```
pub fn read_length(text: &str, unit: Unit) -> Result<Length, ReadError> {
    let length = evaluate(text, tr!("a length such as 216 mm or 8 1/2 in"), unit).and_then(|value| value.length(unit));
    length.map_err(|fault| ReadError::new(text, fault))
}

/// Reads an angle in degrees: `35`, `35°`, `35 deg`, `22 1/2°`, `90 / 4`.
///
/// # Errors
///
/// What was expected and where, when the text is no angle; also angles beyond [`LARGEST_ANGLE`].
///
/// ```
/// use gable_measure::{Unit, read_angle};
/// assert!((read_angle("(180° - 110°) / 2", Unit::Millimetre).unwrap().deg() - 35.0).abs() < 1e-12);
/// assert!(read_angle("35 mm", Unit::Millimetre).is_err());
/// ```
pub fn read_angle(text: &str, unit: Unit) -> Result<Angle, ReadError> {
    let angle = evaluate(text, tr!("an angle such as 35"), unit).and_then(|value| value.angle());
    angle.map_err(|fault| ReadError::new(text, fault))
}

/// Reads a plain number with fractions and sums: `2 1/2`, `½`, `2,5`, `3 * 1/4`.
///
/// # Errors
///
/// What was expected and where, when the text is no number; also numbers beyond a million million.
///
/// ```
/// use gable_measure::read_number;
/// assert_eq!(read_number("2 1/2"), Ok(2.5));
/// assert_eq!(read_number("¾"), Ok(0.75));
/// assert!(read_number("3 mm").is_err());
/// ```
pub fn read_number(text: &str) -> Result<f64, ReadError> {
    let number = evaluate(text, tr!("a number such as 2 1/2"), Unit::Millimetre).and_then(|value| value.bare_number());
    number.map_err(|fault| ReadError::new(text, fault))
}

/// Tokens of a whole text; an error when there are none or too many.
fn tokens_of(text: &str, wanted: &'static str) -> Result<Vec<Token>, Fault> {
    if text.chars().count() > LONGEST_TEXT {
        return Err(Fault::whole(text, Problem::Wrong(tr!("this is too long to be a length or an angle"))));
    }
    let tokens = token::tokens(text);
    match tokens.as_slice() {
        [] | [_] => Err(Fault::whole(text, Problem::Empty(wanted))),
        _ => Ok(tokens),
    }
}

fn evaluate(text: &str, wanted: &'static str, unit: Unit) -> Result<Value, Fault> {
    let tokens = tokens_of(text, wanted)?;
    sum::whole(&mut Tokens::new(&tokens), unit)
}
