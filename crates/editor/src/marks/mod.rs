//! What is told piece by piece in the picture: what the checks noticed, how well pieces will do, what bakes alike, and how narrow
//! their narrowest strips are.

mod alike;
mod narrow;
mod noticed;
mod standing;

pub(crate) use alike::Sorted;
pub(crate) use narrow::Strips;
pub(crate) use noticed::Noticed;

use crate::panels::severity_colour;
use crate::theme::Palette;
use egui::Color32;
use gable_measure::Severity;
use gable_plane::P2;
use gable_stand::Class;

/// By what pieces are coloured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Marking {
    /// By the worst that was noticed of them.
    Noticed,
    /// By how well they will do.
    Standing,
    /// By what bakes alike.
    Alike,
    /// By their narrowest strips of biscuit.
    Narrow,
}

/// The colour of a piece of which something is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tone {
    /// How bad it is.
    Bad(Severity),
    /// One kind among others, counted from 0.
    Kind(usize),
    /// Nothing but its sign: the piece keeps its colour.
    Plain,
}

impl Tone {
    /// As it is shown.
    pub(crate) fn colour(self, palette: &Palette) -> Color32 {
        match self {
            Self::Bad(severity) => severity_colour(palette, severity),
            Self::Kind(k) => palette.kinds[k % palette.kinds.len()],
            Self::Plain => palette.rim,
        }
    }
}

/// What is told of one piece. Colour is never the only thing that tells.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Mark {
    /// Its colour.
    pub(crate) tone: Tone,
    /// What is written on it.
    pub(crate) sign: String,
    /// Where on the piece, on its reference face; anywhere if it is all the same.
    pub(crate) at: Option<P2>,
}

impl Mark {
    /// Something bad, with its sign.
    fn bad(severity: Severity) -> Self {
        Self { tone: Tone::Bad(severity), sign: sign(severity).to_owned(), at: None }
    }
}

/// A line of the key: a mark if there is one, and what it means.
pub(crate) type Line = (Option<Mark>, String);

/// What is told of each piece, and the key to it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Marks {
    /// What it is, piece by piece; empty while nothing is told.
    pub(crate) of: Vec<Option<Mark>>,
    /// What is told at all.
    pub(crate) title: &'static str,
    /// What each mark means here, the worst first.
    pub(crate) key: Vec<Line>,
    /// All of it in a sentence, for those who do not see it.
    pub(crate) words: String,
}

impl Marks {
    /// With a sentence made of the key.
    fn told(title: &'static str, of: Vec<Option<Mark>>, key: Vec<Line>) -> Self {
        let lines: Vec<&str> = key.iter().map(|(_, words)| words.as_str()).collect();
        let words = format!("{title}: {}.", lines.join(", "));
        Self { of, title, key, words }
    }
}

/// The severity that a class is coloured as.
fn severity_of(class: Class) -> Option<Severity> {
    match class {
        Class::Sound => None,
        Class::Care => Some(Severity::Caution),
        Class::Breaks => Some(Severity::Blocking),
    }
}

/// How many pieces there are of each class that is not sound, the worst first.
fn count_classes(classes: impl Iterator<Item = Class> + Clone) -> Vec<Line> {
    let line = |class: Class| {
        let count = classes.clone().filter(|c| *c == class).count();
        let mark = severity_of(class).map(Mark::bad);
        (count > 0).then(|| (mark, format!("{}: {count}", class.words())))
    };
    [Class::Breaks, Class::Care].into_iter().filter_map(line).collect()
}

/// A sign for each severity, beside its colour.
const fn sign(severity: Severity) -> &'static str {
    match severity {
        Severity::Blocking => "×",
        Severity::Caution => "!",
        Severity::Note => "·",
    }
}
