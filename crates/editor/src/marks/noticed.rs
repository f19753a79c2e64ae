//! What the checks noticed of each piece.

use super::{Mark, Marks};
use crate::panels::severity_word;
use crate::selection::Selection;
use gable_measure::{Finding, Severity};
use gable_shell::{House, Solved};
use gable_words::tr;

impl Marks {
    /// What was noticed.
    pub(crate) fn noticed(of: &[Option<Severity>]) -> Self {
        let count = |severity| of.iter().flatten().filter(|s| **s == severity).count();
        let line = |severity| {
            let n = count(severity);
            (n > 0).then(|| (Some(Mark::bad(severity)), format!("{}: {n}", severity_word(severity))))
        };
        let all = [Severity::Blocking, Severity::Caution, Severity::Note];
        let mut key: Vec<_> = all.into_iter().filter_map(line).collect();
        if key.is_empty() {
            key.push((None, tr!("nothing of any piece").to_owned()));
        }
        let of = of.iter().map(|worst| worst.map(Mark::bad)).collect();
        Self::told(tr!("What we noticed"), of, key)
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
