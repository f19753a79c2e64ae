use super::{Known, OutOfRange};
use crate::Basis;
use std::collections::BTreeMap;

/// Something that has a usual value until a person sets it: an amount or a share ([`crate::Figure`]), or how long things take
/// ([`crate::timetable::Rate`]).
pub trait Settable: Copy + Ord + 'static {
    /// Every one, in the order in which they are shown.
    fn all() -> &'static [Self];

    /// What is known of it.
    fn known(self) -> Known;

    /// The one of a word in files.
    fn of_word(word: &str) -> Option<Self> {
        Self::all().iter().copied().find(|one| one.known().word == word)
    }
}

/// The values of one person: what was set, and the usual ones of the rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Values<S: Ord> {
    own: BTreeMap<S, f64>,
}

impl<S: Ord> Default for Values<S> {
    fn default() -> Self {
        Self { own: BTreeMap::new() }
    }
}

impl<S: Settable> Values<S> {
    /// The value that counts.
    pub fn get(&self, one: S) -> f64 {
        self.own.get(&one).copied().unwrap_or(one.known().usual)
    }

    /// How well it is founded: the person's own values are theirs.
    pub fn basis(&self, one: S) -> Basis {
        if self.own.contains_key(&one) { Basis::Own } else { one.known().basis }
    }

    /// Sets a value.
    ///
    /// # Errors
    /// When the value makes no sense; it stays what it was.
    pub fn set(&mut self, one: S, value: f64) -> Result<(), OutOfRange> {
        one.known().check(value)?;
        self.own.insert(one, value);
        Ok(())
    }

    /// Goes back to the usual value.
    pub fn forget(&mut self, one: S) {
        self.own.remove(&one);
    }

    /// What the person has set.
    pub fn own(&self) -> impl Iterator<Item = (S, f64)> + '_ {
        self.own.iter().map(|(one, value)| (*one, *value))
    }

    /// Everything that is no more than an assumption, with what it is taken as.
    pub fn assumed(&self) -> Vec<(S, f64)> {
        let all = S::all().iter().copied();
        all.filter(|one| self.basis(*one).is_assumption()).map(|one| (one, self.get(one))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::timetable::Rate;
    use crate::{Figure, Figures};

    fn is_well_kept<S: Settable + std::fmt::Debug>() {
        for one in S::all() {
            let known = one.known();
            assert_eq!(S::of_word(known.word), Some(*one));
            assert!(known.range.0 <= known.usual && known.usual <= known.range.1, "{one:?}");
            assert!(known.bounds.0 <= known.range.0 && known.range.1 <= known.bounds.1, "{one:?}");
            assert!(!known.source.is_empty() || known.basis == Basis::Practice, "{one:?}");
        }
    }

    #[test]
    fn each_has_one_word_and_a_usual_value_in_its_range() {
        is_well_kept::<Figure>();
        is_well_kept::<Rate>();
        assert!(Figure::ALL.iter().all(|f| Rate::of_word(f.known().word).is_none()), "no word means two things");
    }

    #[test]
    fn what_a_person_sets_is_theirs_and_must_make_sense() {
        let mut figures = Figures::default();
        assert_eq!(figures.basis(Figure::DoughTrim), Basis::Practice);
        figures.set(Figure::DoughTrim, 0.3).unwrap();
        assert_eq!((figures.get(Figure::DoughTrim), figures.basis(Figure::DoughTrim)), (0.3, Basis::Own));
        assert!(figures.assumed().iter().all(|(figure, _)| *figure != Figure::DoughTrim));
        for wrong in [-0.1, 7.0, f64::NAN] {
            let error = figures.set(Figure::DoughTrim, wrong).unwrap_err().to_string();
            assert!(error.contains("give 0 to 100 %"), "{error}");
        }
        assert_eq!(figures.get(Figure::DoughTrim), 0.3);
        figures.forget(Figure::DoughTrim);
        assert_eq!(figures, Figures::default());
        let said = Values::default().set(Rate::Damp, 0.5).unwrap_err().to_string();
        assert_eq!(said, "longer drying in damp air: 0.5 times is out of range; give 1 to 5 times");
    }
}
