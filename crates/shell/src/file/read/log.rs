use crate::file::fault::Fault;
use gable_measure::Unit;

/// The faults found so far, and the unit of bare numbers.
#[derive(Debug, Default)]
pub(super) struct Log {
    pub(super) unit: Unit,
    faults: Vec<Fault>,
}

impl Log {
    pub(super) fn add(&mut self, path: &str, what: impl Into<String>, hint: &str) {
        self.faults.push(Fault::new(path, what.into(), hint));
    }

    pub(super) fn into_faults(self) -> Vec<Fault> {
        self.faults
    }
}

/// The known word that an unknown one was probably meant to be, as a question; empty if none is near.
pub(in crate::file) fn meant(word: &str, known: &[&str]) -> String {
    // Two letters in three right: 'heigth' is near to 'height', 'colour' to nothing.
    const NEAR: f64 = 0.66;
    let likeness = |k: &&str| strsim::normalized_damerau_levenshtein(&word.to_lowercase(), k);
    let nearest = known.iter().map(|k| (likeness(k), k)).max_by(|a, b| a.0.total_cmp(&b.0));
    match nearest {
        Some((likeness, k)) if likeness >= NEAR => format!("did you mean \"{k}\"?"),
        _ => String::new(),
    }
}

/// At most so many characters of a text, for messages.
pub(in crate::file) fn shown(text: &str) -> String {
    const MOST: usize = 40;
    let clean: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(MOST).collect();
    if text.chars().count() > MOST { format!("{clean}…") } else { clean }
}
