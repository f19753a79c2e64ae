//! What is told piece by piece in the picture: what the checks noticed, or how well pieces will do.

use crate::panels::severity_word;
use crate::selection::Selection;
use gable_measure::{Finding, Severity};
use gable_shell::{House, PieceId, Solved};
use gable_stand::Class;
use std::collections::BTreeMap;

/// By what pieces are coloured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Marking {
    /// By the worst that was noticed of them.
    Noticed,
    /// By how well they will do.
    Standing,
}

/// What is told of each piece, and the key to it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Marks {
    /// How bad it is, piece by piece; empty while nothing is told.
    pub(crate) of: Vec<Option<Severity>>,
    /// What each severity means here, the worst first.
    pub(crate) key: Vec<(Severity, String)>,
    /// All of it in a sentence, for those who do not see it.
    pub(crate) words: String,
}

impl Marks {
    /// What was noticed.
    pub(crate) fn noticed(of: Vec<Option<Severity>>) -> Self {
        let words = format!("Something was noticed of {}.", of.iter().flatten().count());
        Self { key: key(&of, severity_word), of, words }
    }

    /// How well each piece will do; nothing of pieces that are new since that was worked out. `ready` tells that the answers are those
    /// for the house as it is.
    pub(crate) fn standing(solved: &Solved, classes: &BTreeMap<PieceId, Class>, ready: bool) -> Self {
        let of = solved.pieces.iter().map(|p| classes.get(&p.id).copied().and_then(bad)).collect::<Vec<_>>();
        let mut key = key(&of, |severity| class_of(severity).words());
        let sound = of.iter().filter(|bad| bad.is_none()).count();
        let words = if ready {
            key.push((Severity::Note, format!("{}: {sound}", Class::Sound.words())));
            let told: Vec<&str> = key.iter().map(|(_, words)| words.as_str()).collect();
            format!("Will it stand: {}.", told.join(", "))
        } else {
            key.push((Severity::Note, "working it out…".to_owned()));
            "Will it stand: working it out.".to_owned()
        };
        Self { of, key, words }
    }
}

/// The severity that a class is coloured as.
fn bad(class: Class) -> Option<Severity> {
    match class {
        Class::Sound => None,
        Class::Care => Some(Severity::Caution),
        Class::Breaks => Some(Severity::Blocking),
    }
}

fn class_of(severity: Severity) -> Class {
    match severity {
        Severity::Note => Class::Sound,
        Severity::Caution => Class::Care,
        Severity::Blocking => Class::Breaks,
    }
}

/// How many pieces there are of each severity, with its words.
fn key(of: &[Option<Severity>], words: impl Fn(Severity) -> &'static str) -> Vec<(Severity, String)> {
    let count = |severity| of.iter().flatten().filter(|s| **s == severity).count();
    let all = [Severity::Blocking, Severity::Caution, Severity::Note].map(|s| (s, count(s)));
    let line = |(severity, n): (Severity, usize)| (severity, format!("{}: {n}", words(severity)));
    all.into_iter().filter(|(_, n)| *n > 0).map(line).collect()
}

/// A sign for each severity, beside its colour.
pub(crate) const fn sign(severity: Severity) -> &'static str {
    match severity {
        Severity::Blocking => "×",
        Severity::Caution => "!",
        Severity::Note => "·",
    }
}

/// The worst that was noticed of each piece, of one that is cut like it, of its side or of its part.
pub(crate) fn worst_of_each(solved: &Solved, findings: &[Finding], house: &House) -> Vec<Option<Severity>> {
    let pieces = &solved.pieces;
    let alike = |named: usize, k: usize| {
        let group = solved.groups.iter().find(|g| g.members.iter().any(|m| m.piece == named));
        named == k || group.is_some_and(|g| g.members.iter().any(|m| m.piece == k))
    };
    let mut worst: Vec<Option<Severity>> = vec![None; pieces.len()];
    for finding in findings {
        let named = pieces.iter().position(|p| p.id.0 == finding.place);
        let selection = Selection::of_place(&finding.place, house, pieces);
        for (k, piece) in pieces.iter().enumerate() {
            let meant = match named {
                Some(named) => alike(named, k),
                None => selection.holds(piece, house) || selection == Selection::Part(piece.part.clone()),
            };
            worst[k] = worst[k].max(meant.then_some(finding.severity));
        }
    }
    worst
}
