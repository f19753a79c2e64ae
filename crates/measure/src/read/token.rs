use std::ops::Range;
use winnow::ascii::{digit0, digit1};
use winnow::combinator::{alt, opt, repeat};
use winnow::error::EmptyError;
use winnow::prelude::*;
use winnow::stream::{LocatingSlice, TokenSlice};
use winnow::token::{any, one_of, take_while};

/// The tokens of a text; the last one is always [`Kind::End`].
pub(super) type Tokens<'t> = TokenSlice<'t, Token>;
type Text<'t> = LocatingSlice<&'t str>;
type Lexed<T> = Result<T, EmptyError>;

/// A word, number or sign and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Token {
    pub(super) kind: Kind,
    /// First byte.
    pub(super) start: usize,
    /// One past the last byte.
    pub(super) end: usize,
    /// There is white space before it.
    pub(super) spaced: bool,
}

impl Token {
    pub(super) fn range(&self) -> Range<usize> {
        self.start..self.end
    }
}

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Kind {
    /// Digits alone.
    Whole(f64),
    /// Digits with a decimal point or comma.
    Decimal(f64),
    /// One of ½ ¼ ¾ ….
    Vulgar(f64),
    /// `1,200`: a thousand or a bit over one.
    Thousands,
    Plus,
    Minus,
    Times,
    Over,
    Open,
    Close,
    Colon,
    Unit(Symbol),
    Ridge,
    /// `height` or `at`, which may follow `ridge`.
    Filler,
    /// Anything that means nothing here.
    Other,
    End,
}

/// A unit of length or angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Symbol {
    Millimetre,
    Centimetre,
    Metre,
    Inch,
    Foot,
    Degree,
}

/// Cuts a text into tokens. Nothing is refused here: what has no meaning becomes [`Kind::Other`].
pub(super) fn tokens(text: &str) -> Vec<Token> {
    let mut input = LocatingSlice::new(text);
    let read: Lexed<Vec<Token>> = repeat(0.., token).parse_next(&mut input);
    let mut tokens = read.unwrap_or_default();
    tokens.push(Token { kind: Kind::End, start: text.len(), end: text.len(), spaced: false });
    tokens
}

fn token(input: &mut Text<'_>) -> Lexed<Token> {
    let space = take_while(0.., char::is_whitespace).parse_next(input)?;
    let (kind, span) = alt((number, sign, word, any.value(Kind::Other))).with_span().parse_next(input)?;
    Ok(Token { kind, start: span.start, end: span.end, spaced: !space.is_empty() })
}

fn number(input: &mut Text<'_>) -> Lexed<Kind> {
    let point = || one_of(['.', ',']);
    let with_whole = (digit1, opt(point()), digit0);
    let without_whole = (point(), digit1).map(|(point, decimals)| ("", Some(point), decimals));
    let (whole, point, decimals): (&str, Option<char>, &str) = alt((with_whole, without_whole)).parse_next(input)?;
    let thousands =
        point == Some(',') && decimals.len() == 3 && whole.len() <= 3 && !whole.starts_with('0') && !whole.is_empty();
    let value = format!("0{whole}.{decimals}0").parse().unwrap_or(f64::INFINITY);
    Ok(match point {
        _ if thousands => Kind::Thousands,
        Some(_) => Kind::Decimal(value),
        None => Kind::Whole(value),
    })
}

fn sign(input: &mut Text<'_>) -> Lexed<Kind> {
    let double_prime = alt(("''", "′′", "’’")).value(Kind::Unit(Symbol::Inch));
    alt((double_prime, any.verify_map(meaning_of_sign))).parse_next(input)
}

fn meaning_of_sign(sign: char) -> Option<Kind> {
    Some(match sign {
        '½' => Kind::Vulgar(1.0 / 2.0),
        '¼' => Kind::Vulgar(1.0 / 4.0),
        '¾' => Kind::Vulgar(3.0 / 4.0),
        '⅓' => Kind::Vulgar(1.0 / 3.0),
        '⅔' => Kind::Vulgar(2.0 / 3.0),
        '⅛' => Kind::Vulgar(1.0 / 8.0),
        '⅜' => Kind::Vulgar(3.0 / 8.0),
        '⅝' => Kind::Vulgar(5.0 / 8.0),
        '⅞' => Kind::Vulgar(7.0 / 8.0),
        '+' => Kind::Plus,
        // Hyphen, minus sign, en dash.
        '-' | '\u{2212}' | '\u{2013}' => Kind::Minus,
        '*' | '×' | '·' => Kind::Times,
        // Slash, fraction slash, division sign.
        '/' | '\u{2044}' | '÷' => Kind::Over,
        '(' => Kind::Open,
        ')' => Kind::Close,
        ':' => Kind::Colon,
        '"' | '″' | '”' | '“' => Kind::Unit(Symbol::Inch),
        '\'' | '′' | '’' => Kind::Unit(Symbol::Foot),
        '°' | 'º' => Kind::Unit(Symbol::Degree),
        _ => return None,
    })
}

fn word(input: &mut Text<'_>) -> Lexed<Kind> {
    take_while(1.., char::is_alphabetic).map(|word: &str| meaning(&word.to_lowercase())).parse_next(input)
}

fn meaning(word: &str) -> Kind {
    match word {
        "mm" => Kind::Unit(Symbol::Millimetre),
        "cm" => Kind::Unit(Symbol::Centimetre),
        "m" => Kind::Unit(Symbol::Metre),
        "in" | "inch" | "inches" => Kind::Unit(Symbol::Inch),
        "ft" | "foot" | "feet" => Kind::Unit(Symbol::Foot),
        "deg" | "degree" | "degrees" => Kind::Unit(Symbol::Degree),
        "ridge" => Kind::Ridge,
        "height" | "at" => Kind::Filler,
        _ => Kind::Other,
    }
}
