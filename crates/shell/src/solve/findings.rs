//! Collecting findings with their places.

use crate::{House, Offer, Relation, Solved};
use gable_measure::{Finding, Length, Severity, Unit};

/// The findings of one part; knows how to write its places and lengths.
pub(super) struct Findings {
    unit: Unit,
    part: String,
    found: Vec<Finding>,
    /// What would put a finding right, by its index.
    offers: Vec<(usize, Relation)>,
}

impl Findings {
    pub(super) fn new(house: &House, index: usize) -> Self {
        Self { unit: house.unit, part: format!("parts[{index}]"), found: Vec::new(), offers: Vec::new() }
    }

    /// A length of so many mm, as the person reads it.
    pub(super) fn print(&self, mm: f64) -> String {
        self.unit.print(Length::mm_of(mm))
    }

    /// Notes a finding at `place` within the part, such as `sides.left.height`; empty for the part itself.
    pub(super) fn add(&mut self, severity: Severity, kind: &'static str, place: &str, what: String, remedy: &str) {
        let dot = if place.is_empty() { "" } else { "." };
        let place = format!("{}{dot}{place}", self.part);
        self.found.push(Finding { kind, severity, place, what, remedy: remedy.to_owned() });
    }

    pub(super) fn block(&mut self, kind: &'static str, place: &str, what: String, remedy: &str) {
        self.add(Severity::Blocking, kind, place, what, remedy);
    }

    pub(super) fn caution(&mut self, kind: &'static str, place: &str, what: String, remedy: &str) {
        self.add(Severity::Caution, kind, place, what, remedy);
    }

    /// The same once for a place, whatever its copies.
    pub(super) fn caution_once(&mut self, kind: &'static str, place: &str, what: String, remedy: &str) {
        if !self.found.iter().any(|f| f.kind == kind && f.place.strip_prefix(&self.part) == Some(&format!(".{place}")))
        {
            self.caution(kind, place, what, remedy);
        }
    }

    pub(super) fn note(&mut self, kind: &'static str, place: &str, what: String, remedy: &str) {
        self.add(Severity::Note, kind, place, what, remedy);
    }

    pub(super) fn blocked(&self) -> bool {
        self.found.iter().any(|f| f.severity == Severity::Blocking)
    }

    /// Offers what would put the last finding right.
    pub(super) fn offer(&mut self, relation: Option<Relation>) {
        let last = self.found.len().checked_sub(1);
        self.offers.extend(last.zip(relation));
    }

    /// Adds findings and offers to those of the house.
    pub(super) fn hand_over(self, solved: &mut Solved) {
        let before = solved.findings.len();
        solved.offers.extend(self.offers.into_iter().map(|(k, relation)| Offer { finding: before + k, relation }));
        solved.findings.extend(self.found);
    }
}
