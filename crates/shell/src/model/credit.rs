//! Who drew a house, and after whom.

use super::{House, Owner};
use crate::file::limits::LONGEST_LINE;

impl Owner {
    /// Who drew it, and after whose design: 'The harbour pilots, after a design by Ada'. Empty when nothing is known.
    pub fn credits(&self) -> String {
        let (by, after) = (self.credit.trim(), self.after.trim());
        match (by.is_empty(), after.is_empty()) {
            (_, true) => by.to_owned(),
            (true, false) => format!("After a design by {after}"),
            (false, false) => format!("{by}, after a design by {after}"),
        }
    }

    /// Somebody draws on from here: whoever drew it so far keeps the credit. Nothing happens when it is the same person, or
    /// when nobody had drawn it.
    ///
    /// ```
    /// let mut owner = gable_shell::Owner { credit: "Ada".into(), ..Default::default() };
    /// owner.redrawn_by("Bo");
    /// assert_eq!(owner.credits(), "Bo, after a design by Ada");
    /// owner.redrawn_by("Cleo");
    /// assert_eq!(owner.credits(), "Cleo, after a design by Bo, after Ada");
    /// ```
    pub fn redrawn_by(&mut self, name: &str) {
        if !is_same(&self.credit, name) && !is_nobody(name) {
            self.after = self.followed();
            name.trim().clone_into(&mut self.credit);
        }
    }

    /// After whose design a house is that is drawn on from this one.
    fn followed(&self) -> String {
        let (by, after) = (self.credit.trim(), self.after.trim());
        let chain = if after.is_empty() { by.to_owned() } else { format!("{by}, after {after}") };
        match (is_nobody(by), chain.chars().count() > LONGEST_LINE) {
            (true, _) => after.to_owned(),
            (false, false) => chain,
            // There is no room for everybody: whom it follows most nearly.
            (false, true) => by.to_owned(),
        }
    }
}

impl House {
    /// A changed copy of somebody else's house keeps the credit, as 'after a design by …'.
    ///
    /// `opened` is the house as it was found, `before` as it was before the last change, and `me` who makes the change;
    /// empty where that is not known. It is a changed copy
    /// - from when another name is put in place of the one it was found with, until that one is put back;
    /// - from the first change of the design by somebody whose name is known and is not the one it was found with.
    ///
    /// What is only printed otherwise (unit, what came out of the oven, tools, the order in which it is put up), and
    /// title, edition, licence and notes are no change of the design.
    pub fn keep_credit(&mut self, opened: &Self, before: &Self, me: &str) {
        let found = &opened.owner;
        if is_nobody(&found.credit) {
            return;
        }
        if self.owner.credit != before.owner.credit {
            if is_same(&self.owner.credit, &found.credit) {
                self.owner.after.clone_from(&found.after);
            } else if self.owner.after == found.after {
                self.owner.after = found.followed();
            }
        } else if is_same(&self.owner.credit, &found.credit) && !before.is_redesign(opened) && self.is_redesign(opened)
        {
            self.owner.redrawn_by(me);
        }
    }

    /// Whether it is another design than a house, whoever drew the two.
    fn is_redesign(&self, of: &Self) -> bool {
        let design = |h: &Self| Self {
            owner: Owner::default(),
            unit: of.unit,
            order: Vec::new(),
            baked: Vec::new(),
            dressing: super::Dressing { glazier: of.dressing.glazier, rates: of.dressing.rates, ..h.dressing.clone() },
            ..h.clone()
        };
        design(self) != design(of)
    }
}

fn is_nobody(name: &str) -> bool {
    name.trim().is_empty()
}

/// Whether two spellings are of one name: case and spaces do not count.
fn is_same(a: &str, b: &str) -> bool {
    let plain = |s: &str| s.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    plain(a) == plain(b)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use gable_measure::Length;

    fn found() -> House {
        let house = demo::house("boat-hut").unwrap();
        assert!(!house.owner.credit.is_empty() && house.owner.after.is_empty());
        house
    }

    fn with(house: &House, change: impl FnOnce(&mut House)) -> House {
        let mut house = house.clone();
        change(&mut house);
        house
    }

    fn kept(opened: &House, before: &House, changed: &House, me: &str) -> Owner {
        with(changed, |h| h.keep_credit(opened, before, me)).owner
    }

    #[test]
    fn a_changed_copy_keeps_the_credit() {
        let opened = found();
        let pilots = opened.owner.credit.clone();
        let wider = with(&opened, |h| h.gap += Length::mm_of(0.1));
        let owner = kept(&opened, &opened, &wider, "Ada");
        assert_eq!((owner.credit.as_str(), owner.after.as_str()), ("Ada", pilots.as_str()));
        // Nobody is known, or it is the same person however the name is spelt.
        for me in ["", " ", &pilots.to_uppercase(), &pilots.replace(' ', "  ")] {
            assert_eq!(kept(&opened, &opened, &wider, me), opened.owner, "{me}");
        }
        // The person's last word counts: a credit put back by hand stays.
        let back = with(&wider, |h| h.gap += Length::mm_of(0.1));
        assert_eq!(kept(&opened, &wider, &back, "Ada"), opened.owner);
    }

    #[test]
    fn another_name_follows_the_one_that_was_there_until_that_is_put_back() {
        let opened = with(&found(), |h| h.owner.after = "Bo".into());
        let pilots = &opened.owner.credit;
        let mine = with(&opened, |h| h.owner.credit = "Ada".into());
        let owner = kept(&opened, &opened, &mine, "");
        assert_eq!((owner.credit.as_str(), owner.after), ("Ada", format!("{pilots}, after Bo")));
        let mine = with(&mine, |h| h.keep_credit(&opened, &opened, ""));
        // A slip of the pen in one's own name is no further design.
        let spelt = with(&mine, |h| h.owner.credit = "Ada L.".into());
        assert_eq!(kept(&opened, &mine, &spelt, "").after, mine.owner.after);
        let back = with(&mine, |h| h.owner.credit.clone_from(pilots));
        assert_eq!(kept(&opened, &mine, &back, ""), opened.owner);
        let struck = with(&opened, |h| h.owner.credit.clear());
        assert_eq!(kept(&opened, &opened, &struck, "").credits(), format!("After a design by {pilots}, after Bo"));
    }

    #[test]
    fn what_is_no_change_of_the_design_changes_no_credit() {
        let opened = found();
        for same in [
            with(&opened, |h| h.owner.title = "Mine".into()),
            with(&opened, |h| h.owner.notes = "Baked at ours".into()),
            with(&opened, |h| h.unit = gable_measure::Unit::Inch(gable_measure::InchStep::Sixteenth)),
            with(&opened, |h| {
                h.order.push(crate::Before { first: crate::Raised::read("a"), then: crate::Raised::read("b") })
            }),
            with(&opened, |h| h.came_out(&opened.parts[0].id, crate::Batch::Walls)),
        ] {
            assert_eq!(kept(&opened, &opened, &same, "Ada").after, "");
        }
        // Nobody's house is nobody's loss.
        let plain = House::simple(gable_measure::Unit::Millimetre);
        let mine = with(&plain, |h| h.owner.credit = "Ada".into());
        assert_eq!(kept(&plain, &plain, &mine, "Ada").credits(), "Ada");
    }

    #[test]
    fn a_long_line_of_designers_ends_with_the_nearest() {
        let mut owner = Owner { credit: "a".repeat(200), ..Owner::default() };
        owner.redrawn_by(&"b".repeat(200));
        owner.redrawn_by("c");
        assert_eq!(owner.after, "b".repeat(200));
    }
}
