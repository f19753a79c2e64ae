//! One answer as it is told: what it is about, the number, the reason, and what to do.

use crate::{Answer, Class, Range};
use gable_measure::decimal;
use gable_plane::P3;
use gable_words::tr;

/// Where something is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spot {
    /// The piece, as an index into [`gable_shell::Solved::pieces`].
    pub piece: Option<usize>,
    /// The joint, as an index into [`gable_shell::Solved::joints`].
    pub joint: Option<usize>,
    /// The point in the house, mm.
    pub at: Option<P3>,
    /// Its name for people.
    pub name: String,
}

/// What an answer is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Matter {
    /// A slope on fresh icing slides.
    Slides,
    /// A wall on fresh icing tips.
    Tips,
    /// A slope pushes the wall under it out.
    Pushes,
    /// What a joint carries once it has set.
    Carries,
    /// A piece in the hand.
    Lifted,
    /// The narrowest strip of biscuit of a piece.
    Bridge,
    /// Panes in damp air.
    Panes,
    /// Long pieces in damp air.
    Grows,
    /// A piece bends where it stands.
    Bends,
    /// A wall or post buckles under its load.
    Buckles,
    /// The base board.
    Board,
    /// What travels badly.
    Travels,
    /// Openings that stay dark, lamps out of reach.
    Light,
}

impl Matter {
    /// Every matter, in the order in which it is told.
    pub const ALL: [Self; 13] = [
        Self::Slides,
        Self::Tips,
        Self::Pushes,
        Self::Carries,
        Self::Lifted,
        Self::Bridge,
        Self::Bends,
        Self::Buckles,
        Self::Panes,
        Self::Grows,
        Self::Board,
        Self::Travels,
        Self::Light,
    ];

    /// Stable word for files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Slides => "slides",
            Self::Tips => "tips",
            Self::Pushes => "pushes",
            Self::Carries => "joint",
            Self::Lifted => "lifted",
            Self::Bridge => "bridge",
            Self::Bends => "bends",
            Self::Buckles => "buckles",
            Self::Panes => "panes",
            Self::Grows => "grows",
            Self::Board => "board",
            Self::Travels => "travels",
            Self::Light => "light",
        }
    }

    /// Heading for people.
    pub fn title(self) -> &'static str {
        match self {
            Self::Slides => tr!("Slopes on fresh icing"),
            Self::Tips => tr!("Walls before they are joined"),
            Self::Pushes => tr!("Walls under the first slope"),
            Self::Carries => tr!("Joints that have set"),
            Self::Lifted => tr!("Pieces in the hand"),
            Self::Bridge => tr!("Narrow strips of biscuit"),
            Self::Bends => tr!("Pieces where they stand"),
            Self::Buckles => tr!("Posts and lone walls under what rests on them"),
            Self::Panes => tr!("Panes in this air"),
            Self::Grows => tr!("Pieces that grow in damp air"),
            Self::Board => tr!("The base board"),
            Self::Travels => tr!("On the way"),
            Self::Light => tr!("Light"),
        }
    }
}

/// An answer with what to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// What it is about.
    pub matter: Matter,
    /// The answer.
    pub answer: Answer<Spot>,
    /// Unit of its number, as written behind it.
    pub unit: &'static str,
    /// What to do, a plain sentence without its full stop; empty where nothing needs to be done.
    pub remedy: String,
}

impl Told {
    /// How well it will do.
    pub const fn class(&self) -> Class {
        self.answer.class
    }

    /// On one line: 'handle with care – Main body: front roof: pulls …; keep its prop …'.
    pub fn line(&self) -> String {
        self.line_for(&self.answer.place.name)
    }

    /// The same for several of that name.
    pub(crate) fn line_for(&self, name: &str) -> String {
        let Answer { class, reason, .. } = &self.answer;
        let what = if name.is_empty() { String::new() } else { format!("{name}: ") };
        let remedy = if self.remedy.is_empty() { String::new() } else { format!("; {}", self.remedy) };
        format!("{} – {what}{reason}{remedy}", class.words())
    }
}

/// A range in words, to two places that count: '0.4 to 1.8', or '1.2' where all three are told alike.
pub(crate) fn between(range: Range, unit: &str) -> String {
    let [low, high] = [range.low, range.high].map(short);
    let gap = if unit.is_empty() { "" } else { " " };
    if low == high { format!("{low}{gap}{unit}") } else { tr!("{low} to {high}{gap}{unit}") }
}

/// A share in per cent with its range: '14 % (9 to 40 %)'.
pub(crate) fn share(range: Range) -> String {
    let [low, usual, high] = [range.low, range.usual, range.high].map(|v| short(v * 100.0));
    if low == high { format!("{usual} %") } else { tr!("{usual} % ({low} to {high} %)") }
}

/// Two places that count, and no more than one after the point.
pub(crate) fn short(value: f64) -> String {
    if value.is_infinite() {
        return tr!("a number" => "any").to_owned();
    }
    let size = value.abs();
    let step = if size < 1e-9 { 0.1 } else { 10_f64.powf(size.log10().floor() - 1.0).max(0.1) };
    decimal((value / step).round() * step, 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_keep_two_places() {
        for (value, said) in [(0.04, "0"), (0.26, "0.3"), (1.234, "1.2"), (12.6, "13"), (187.0, "190"), (0.0, "0")] {
            assert_eq!(short(value), said);
        }
        assert_eq!(between(Range::new(40.0, 90.0, 188.0), "g"), "40 to 190 g");
        assert_eq!(between(Range::exactly(3.0), "mm"), "3 mm");
        assert_eq!(share(Range::new(0.09, 0.138, 0.41)), "14 % (9 to 41 %)");
    }

    #[test]
    fn every_matter_has_its_own_word_and_heading() {
        let words: std::collections::BTreeSet<_> = Matter::ALL.iter().map(|m| (m.word(), m.title())).collect();
        assert_eq!(words.len(), Matter::ALL.len());
    }
}
