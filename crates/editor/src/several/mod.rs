//! Several things that are selected at once: what they are, how they are lined up, spaced and taken away together.

mod deeds;
mod line;

use gable_words::tr;
pub(crate) use line::{Line, Space, spaced};

use crate::selection::Selection;
use gable_shell::House;

/// What is selected beside the one thing whose sizes are shown, in the order in which it was chosen.
///
/// All of it is of one kind: parts, openings of one face, ornaments, or what stands beside the house.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Company(Vec<Selection>);

impl Company {
    /// Whether something is selected beside the one thing.
    pub(crate) fn holds(&self, what: &Selection) -> bool {
        self.0.contains(what)
    }

    /// Whether nothing else is selected.
    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// All that is selected, `lead` first.
    pub(crate) fn with(&self, lead: &Selection) -> Vec<Selection> {
        std::iter::once(lead).chain(&self.0).cloned().collect()
    }

    /// Only the one thing is selected.
    pub(crate) fn dismiss(&mut self) {
        self.0.clear();
    }

    /// Takes something to the rest, or out of it. What cannot be together with the rest is selected alone. What was
    /// chosen last is the one whose sizes are shown.
    pub(crate) fn toggle(&mut self, lead: &mut Selection, what: Selection, house: &House) {
        if what == *lead {
            *lead = self.0.pop().unwrap_or(what);
        } else if self.holds(&what) {
            self.0.retain(|s| *s != what);
        } else if mixes(lead, &what, house) {
            self.0.push(std::mem::replace(lead, what));
        } else {
            self.0.clear();
            *lead = what;
        }
    }

    /// Selects all of these, the last one to be shown, beside what is selected if `more`. Nothing happens without any.
    pub(crate) fn take(&mut self, lead: &mut Selection, all: Vec<Selection>, more: bool, house: &House) {
        let mut all = all.into_iter();
        if !more && let Some(first) = all.next() {
            self.0.clear();
            *lead = first;
        }
        for what in all {
            if what != *lead && !self.holds(&what) {
                self.toggle(lead, what, house);
            }
        }
    }

    /// Another thing is shown: one of these changes places with `before`, anything else is selected alone.
    pub(crate) fn follow(&mut self, before: &Selection, now: &Selection) {
        match self.0.iter_mut().find(|s| *s == now) {
            Some(own) => *own = before.clone(),
            None if now != before => self.0.clear(),
            None => {}
        }
    }

    /// Forgets what is not in the house, or cannot be together with what is shown.
    pub(crate) fn settle(&mut self, lead: &Selection, house: &House) {
        self.0.retain(|s| s.within(house) == *s && mixes(lead, s, house));
    }
}

/// Whether two things can be selected together.
fn mixes(one: &Selection, other: &Selection, house: &House) -> bool {
    match (one, other) {
        (Selection::Part(a), Selection::Part(b)) => a != b,
        (Selection::Extra(a), Selection::Extra(b)) | (Selection::Ornament(a), Selection::Ornament(b)) => a != b,
        (Selection::Opening(part, a), Selection::Opening(other, b)) if part == other && a != b => {
            let openings = house.part(part).map(|p| p.openings.as_slice()).unwrap_or_default();
            let face = |id| openings.iter().find(|o| &o.id == id).map(|o| (&o.side, o.face));
            face(a) == face(b)
        }
        _ => false,
    }
}

/// '3 openings', '2 parts', '2 ornaments' or '2 things beside the house', for what is selected together.
pub(crate) fn count_words(all: &[Selection]) -> String {
    let count = all.len();
    match all.first() {
        Some(Selection::Part(_)) => tr!("part" | "{n} parts" % count),
        Some(Selection::Extra(_)) => tr!("thing beside the house" | "{n} things beside the house" % count),
        Some(Selection::Ornament(_)) => tr!("ornament" | "{n} ornaments" % count),
        _ => tr!("opening" | "{n} openings" % count),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_measure::Unit;
    use gable_shell::{OpeningId, SideId};

    fn house() -> House {
        let mut house = House::simple(Unit::Millimetre);
        let door = house.parts[0].openings[0].clone();
        for (name, side) in [("a", "left"), ("b", "left"), ("c", "right")] {
            let mut window = door.clone();
            (window.id, window.side) = (OpeningId(name.to_owned()), SideId(side.to_owned()));
            house.parts[0].openings.push(window);
        }
        house
    }

    #[test]
    fn openings_of_one_wall_are_selected_together_and_no_others() {
        let house = house();
        let opening = |name: &str| Selection::Opening(house.parts[0].id.clone(), OpeningId(name.to_owned()));
        let (mut company, mut lead) = (Company::default(), opening("a"));
        company.toggle(&mut lead, opening("b"), &house);
        assert_eq!((&lead, company.with(&lead).len()), (&opening("b"), 2));
        // The same again takes it out.
        company.toggle(&mut lead, opening("b"), &house);
        assert_eq!((&lead, company.is_empty()), (&opening("a"), true));
        company.toggle(&mut lead, opening("b"), &house);
        company.toggle(&mut lead, opening("c"), &house);
        assert_eq!((&lead, company.is_empty()), (&opening("c"), true), "another wall");
        company.take(&mut lead, vec![opening("a"), opening("b")], false, &house);
        company.follow(&opening("b"), &opening("a"));
        assert!(company.holds(&opening("b")) && !company.holds(&opening("a")));
        company.follow(&opening("a"), &Selection::House);
        assert!(company.is_empty());
    }
}
