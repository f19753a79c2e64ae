//! Single values. Each reader notes a fault and returns `None` when the value is not of its kind.

use super::log::{Log, shown};
use super::tree::Tree;
use crate::file::figure::{settled, settled_angle, settled_pitch};
use gable_measure::{Angle, Length, Pitch, Unit, read_angle, read_length, read_pitch};
use gable_words::tr;

/// Reads one value that stands at a path.
pub(super) type Reader<T> = fn(&Tree, &str, &mut Log) -> Option<T>;

pub(super) fn length(tree: &Tree, path: &str, log: &mut Log) -> Option<Length> {
    let unit = log.unit;
    let length = match tree {
        Tree::Number(number) => Some(unit.length(*number)),
        Tree::Text(text) => typed(text, path, log, read_length),
        other => wrong(other, path, log, &length_kind(unit)),
    };
    length.map(|l| settled(l, unit))
}

pub(super) fn pitch(tree: &Tree, path: &str, log: &mut Log) -> Option<Pitch> {
    let unit = log.unit;
    let pitch = match tree {
        Tree::Number(degrees) => Some(Pitch::Angle(Angle::degrees(*degrees))),
        Tree::Text(text) => typed(text, path, log, read_pitch),
        other => wrong(other, path, log, tr!("degrees, or text such as \"8 in 12\" or \"ridge 216 mm\"")),
    };
    pitch.map(|p| settled_pitch(p, unit))
}

pub(super) fn angle(tree: &Tree, path: &str, log: &mut Log) -> Option<Angle> {
    let angle = match tree {
        Tree::Number(degrees) => Some(Angle::degrees(*degrees)),
        Tree::Text(text) => typed(text, path, log, read_angle),
        other => wrong(other, path, log, "degrees"),
    };
    angle.map(settled_angle)
}

pub(super) fn number(tree: &Tree, path: &str, log: &mut Log) -> Option<f64> {
    match tree {
        Tree::Number(number) => Some(gable_measure::tidy(*number)),
        other => wrong(other, path, log, tr!("a number")),
    }
}

/// A number of sides; whether it is a sensible one is checked later.
pub(super) fn count(tree: &Tree, path: &str, log: &mut Log) -> Option<u8> {
    match tree {
        // Saturates, and nothing that large passes the checks.
        Tree::Number(number) if number.fract() == 0.0 && *number >= 0.0 => Some(*number as u8),
        other => wrong(other, path, log, tr!("a whole number")),
    }
}

pub(super) fn flag(tree: &Tree, path: &str, log: &mut Log) -> Option<bool> {
    match tree {
        Tree::Flag(flag) => Some(*flag),
        other => wrong(other, path, log, tr!("true or false")),
    }
}

pub(super) fn text(tree: &Tree, path: &str, log: &mut Log) -> Option<String> {
    match tree {
        Tree::Text(text) => Some(text.clone()),
        other => wrong(other, path, log, tr!("text in quotes")),
    }
}

pub(super) fn list<'t>(tree: &'t Tree, path: &str, log: &mut Log) -> Option<&'t [Tree]> {
    match tree {
        Tree::List(items) => Some(items),
        other => wrong(other, path, log, tr!("a list in square brackets")),
    }
}

/// Notes that something else was expected.
pub(super) fn wrong<T>(found: &Tree, path: &str, log: &mut Log, expected: &str) -> Option<T> {
    log.add(path, tr!("expected {expected}, found {}", found.words()), "");
    None
}

fn length_kind(unit: Unit) -> String {
    match unit {
        Unit::Millimetre => tr!("a length in mm, or text such as \"21.6 cm\"").to_owned(),
        Unit::Inch(_) => tr!("a length in inches, or text such as \"8 1/2 in\"").to_owned(),
    }
}

fn typed<T>(
    text: &str,
    path: &str,
    log: &mut Log,
    read: fn(&str, Unit) -> Result<T, gable_measure::ReadError>,
) -> Option<T> {
    match read(text, log.unit) {
        Ok(value) => Some(value),
        Err(error) => {
            log.add(path, tr!("\"{}\" cannot be read: {error}", shown(text)), "");
            None
        }
    }
}
