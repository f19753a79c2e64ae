use crate::file::fault::Fault;
use gable_measure::Unit;
use gable_words::tr;
use std::collections::BTreeMap;

/// The faults found so far, and the unit of bare numbers.
#[derive(Debug, Default)]
pub(super) struct Log {
    pub(super) unit: Unit,
    faults: Vec<Fault>,
    /// Faults beyond those that are kept.
    more: usize,
    aliases: BTreeMap<String, String>,
}

impl Log {
    /// Faults that are kept; nobody reads more, and a file may be all faults.
    const MOST: usize = 500;

    pub(super) fn add(&mut self, path: &str, what: impl Into<String>, hint: &str) {
        self.push(Fault::new(path, what.into(), hint));
    }

    fn push(&mut self, fault: Fault) {
        if self.faults.len() < Self::MOST { self.faults.push(fault) } else { self.more += 1 }
    }

    /// What the house has at one path stands in the file at another.
    pub(super) fn alias(&mut self, house: String, file: String) {
        self.aliases.insert(house, file);
    }

    /// A fault of the house, at its place in the file; the same place is named only once for the same thing.
    pub(super) fn add_at_source(&mut self, fault: Fault) {
        let path = self.aliases.get(&fault.path).cloned().unwrap_or(fault.path);
        let fault = Fault { path, ..fault };
        if !self.faults.contains(&fault) {
            self.push(fault);
        }
    }

    pub(super) fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// All faults: first those of the house as a whole, then dough by dough and part by part.
    pub(super) fn into_faults(self) -> Vec<Fault> {
        let mut faults = self.faults;
        faults.sort_by_key(|fault| place(&fault.path));
        if self.more > 0 {
            faults.push(Fault::new(
                "file",
                tr!("there is one more fault" | "there are {n} more faults" % self.more),
                tr!("mend these first"),
            ));
        }
        faults
    }
}

/// Rank of the group that a path is in, and its number there.
fn place(path: &str) -> (u8, usize) {
    let numbered = |group: &str| {
        let number = path.strip_prefix(group)?.strip_prefix('[')?.split(']').next()?;
        number.parse().ok()
    };
    match (numbered("doughs"), numbered("parts")) {
        (Some(number), _) => (1, number),
        (_, Some(number)) => (2, number),
        _ => (0, 0),
    }
}

/// The known word that an unknown one was probably meant to be, as a question; empty if none is near.
pub(in crate::file) fn meant(word: &str, known: &[&str]) -> String {
    // Two letters in three right: 'heigth' is near to 'height', 'colour' to nothing.
    const NEAR: f64 = 0.66;
    // Longer words are no words, and comparing them would take for ever.
    const LONGEST: usize = 100;
    if word.len() > LONGEST {
        return String::new();
    }
    let known = known.iter().filter(|k| k.len() <= LONGEST);
    let likeness = |k: &&str| strsim::normalized_damerau_levenshtein(&word.to_lowercase(), k);
    let nearest = known.map(|k| (likeness(k), k)).max_by(|a, b| a.0.total_cmp(&b.0));
    match nearest {
        Some((likeness, k)) if likeness >= NEAR => tr!("did you mean \"{k}\"?"),
        _ => String::new(),
    }
}

/// A hint for an unknown word: the one that was probably meant, else all the known ones under a heading.
pub(in crate::file) fn meant_or_known(word: &str, known: &[&str], heading: &str) -> String {
    let hint = meant(word, known);
    if hint.is_empty() { format!("{heading} {}", known.join(", ")) } else { hint }
}

/// What is wrong with a list that is too long for a file.
pub(in crate::file) fn too_many(length: usize, most: usize) -> String {
    tr!("there are {length}; {most} at most can be read")
}

/// At most so many characters of a text, for messages.
pub(in crate::file) fn shown(text: &str) -> String {
    const MOST: usize = 40;
    let clean: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(MOST).collect();
    if text.chars().count() > MOST { format!("{clean}…") } else { clean }
}
