//! Collecting findings with their places.

use crate::House;
use gable_measure::{Finding, Length, Severity, Unit};

/// The findings of one part; knows how to write its places and lengths.
pub(super) struct Findings {
    unit: Unit,
    part: String,
    found: Vec<Finding>,
}

impl Findings {
    pub(super) fn new(house: &House, index: usize) -> Self {
        Self { unit: house.unit, part: format!("parts[{index}]"), found: Vec::new() }
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

    pub(super) fn note(&mut self, kind: &'static str, place: &str, what: String, remedy: &str) {
        self.add(Severity::Note, kind, place, what, remedy);
    }

    pub(super) fn blocked(&self) -> bool {
        self.found.iter().any(|f| f.severity == Severity::Blocking)
    }

    pub(super) fn into_vec(self) -> Vec<Finding> {
        self.found
    }
}
