//! What the checks noticed of each piece.

use super::{Mark, Marks};
use crate::panels::severity_word;
use crate::selection::Selection;
use crate::view::Shown;
use gable_measure::{Finding, Severity};
use gable_shell::{House, Solved};
use gable_words::{Tongue, spoken, tr};

/// What was noticed of each piece, kept until the house, its findings or the language change.
#[derive(Clone, Debug, Default)]
pub(crate) struct Noticed {
    /// Number of the house that is shown, revision of the one that is worked on, language.
    asked: Option<(u64, u64, Tongue)>,
    findings: Vec<Finding>,
    marks: Marks,
}

impl Noticed {
    /// That of what is shown, of a house at this revision.
    pub(crate) fn of(&mut self, shown: &Shown, findings: &[Finding], (house, revision): (&House, u64)) -> Marks {
        let asked = Some((shown.number, revision, spoken()));
        if self.asked != asked || self.findings != findings {
            (self.asked, self.findings) = (asked, findings.to_vec());
            self.marks = Marks::noticed(&worst_of_each(&shown.solved, findings, house));
        }
        self.marks.clone()
    }
}

impl Marks {
    /// What was noticed.
    fn noticed(of: &[Option<Severity>]) -> Self {
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
fn worst_of_each(solved: &Solved, findings: &[Finding], house: &House) -> Vec<Option<Severity>> {
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
