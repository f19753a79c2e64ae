use super::Need;

/// How much of a place is taken when: a step function.
#[derive(Clone, Debug, Default)]
pub(super) struct Profile {
    /// From each moment on so much is taken, in order; before the first nothing.
    steps: Vec<(i64, Load)>,
}

/// How much there is of a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Room {
    /// All of it.
    pub(super) units: u32,
    /// Of how much of it all must be of one sort.
    pub(super) together: u32,
}

/// What is taken at a moment.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Load {
    plain: u32,
    /// By sort, in order, none of them zero.
    sorts: Vec<(usize, u32)>,
}

impl Load {
    /// How much of a place is gone with one more use, what nothing of another sort may be put beside included.
    fn with(&self, need: Need, together: u32) -> u32 {
        let together = together.max(1);
        let whole = |units: u32| units.div_ceil(together) * together;
        let Some(sort) = need.sort else {
            return self.plain + need.units + self.sorts.iter().map(|(_, units)| whole(*units)).sum::<u32>();
        };
        let others = self.sorts.iter().filter(|(own, _)| *own != sort).map(|(_, units)| whole(*units)).sum::<u32>();
        self.plain + others + whole(self.of(sort) + need.units)
    }

    fn of(&self, sort: usize) -> u32 {
        self.sorts.iter().find(|(own, _)| *own == sort).map_or(0, |(_, units)| *units)
    }

    fn change(&mut self, need: Need, new: impl Fn(u32, u32) -> u32) {
        let Some(sort) = need.sort else {
            self.plain = new(self.plain, need.units);
            return;
        };
        let units = new(self.of(sort), need.units);
        self.sorts.retain(|(own, _)| *own != sort);
        if units > 0 {
            self.sorts.insert(self.sorts.partition_point(|(own, _)| *own < sort), (sort, units));
        }
    }
}

impl Profile {
    /// The end of the last stretch within `from .. to` in which there is no room for a use. A use that must cover all of
    /// `from .. to` cannot begin before it.
    pub(super) fn conflict(&self, from: i64, to: i64, need: Need, room: Room) -> Option<i64> {
        if need.units > room.units {
            return Some(i64::MAX);
        }
        let end = self.steps.partition_point(|step| step.0 < to);
        let begin = self.steps.partition_point(|step| step.0 <= from).saturating_sub(1);
        let full = (begin..end).rev().find(|&k| self.steps[k].1.with(need, room.together) > room.units)?;
        // The last step takes nothing, so a full stretch always has an end.
        let until = self.steps.get(full + 1).map_or(i64::MAX, |step| step.0);
        (until > from && from < to).then_some(until)
    }

    /// Takes what a use needs from `from` to `to`.
    pub(super) fn take(&mut self, from: i64, to: i64, need: Need) {
        self.change(from, to, |load| load.change(need, |taken, units| taken + units));
    }

    /// Gives back what was taken.
    pub(super) fn give(&mut self, from: i64, to: i64, need: Need) {
        self.change(from, to, |load| load.change(need, u32::saturating_sub));
    }

    fn change(&mut self, from: i64, to: i64, new: impl Fn(&mut Load)) {
        if from >= to {
            return;
        }
        let (first, last) = (self.cut(from), self.cut(to));
        // Cutting at `to` adds a step after `first`, which stays where it is.
        self.steps[first..last].iter_mut().for_each(|step| new(&mut step.1));
        self.join(last);
        self.join(first);
    }

    /// Index of the step that begins at `at`, which is made where there is none.
    fn cut(&mut self, at: i64) -> usize {
        let k = self.steps.partition_point(|step| step.0 < at);
        if self.steps.get(k).is_none_or(|step| step.0 != at) {
            let before = if k == 0 { Load::default() } else { self.steps[k - 1].1.clone() };
            self.steps.insert(k, (at, before));
        }
        k
    }

    /// Takes a step away that changes nothing.
    fn join(&mut self, k: usize) {
        let before = if k == 0 { Load::default() } else { self.steps[k - 1].1.clone() };
        if self.steps.get(k).is_some_and(|step| step.1 == before) {
            self.steps.remove(k);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// So much room for one or two plain uses.
    fn conflict(oven: &Profile, from: i64, to: i64, units: u32, all: u32) -> Option<i64> {
        oven.conflict(from, to, Need::of(0, units), Room { units: all, together: 1 })
    }

    #[test]
    fn a_place_is_full_until_what_took_it_is_over() {
        let (mut oven, one) = (Profile::default(), Need::of(0, 1));
        assert_eq!(conflict(&oven, 0, 10, 1, 1), None);
        oven.take(10, 20, one);
        oven.take(20, 30, one);
        assert_eq!(conflict(&oven, 0, 10, 1, 1), None);
        assert_eq!(conflict(&oven, 0, 11, 1, 1), Some(30));
        assert_eq!(conflict(&oven, 30, 40, 1, 1), None);
        assert_eq!(conflict(&oven, 12, 40, 1, 2), None);
        assert_eq!(conflict(&oven, 12, 40, 2, 2), Some(30));
        oven.give(10, 20, one);
        assert_eq!(conflict(&oven, 5, 20, 1, 1), None);
        oven.give(20, 30, one);
        assert!(oven.steps.is_empty());
        assert_eq!(conflict(&oven, 0, 1, 3, 2), Some(i64::MAX));
    }

    /// Two ovens of two shelves: one bakes what takes 18 minutes, the other what takes 7.
    #[test]
    fn only_one_sort_lies_in_what_belongs_together() {
        let room = Room { units: 4, together: 2 };
        let sort = |sort| Need { sort: Some(sort), ..Need::of(0, 1) };
        let mut ovens = Profile::default();
        ovens.take(0, 18, sort(18));
        ovens.take(0, 7, sort(7));
        assert_eq!(ovens.conflict(0, 5, sort(12), room), Some(7), "both ovens are taken");
        assert_eq!(ovens.conflict(0, 7, sort(7), room), None, "beside its like");
        assert_eq!(ovens.conflict(0, 18, sort(18), room), None);
        ovens.take(0, 18, sort(18));
        assert_eq!(ovens.conflict(0, 18, sort(18), room), Some(7), "a third one takes an oven of its own");
        ovens.give(0, 18, sort(18));
        ovens.give(0, 18, sort(18));
        ovens.give(0, 7, sort(7));
        assert!(ovens.steps.is_empty());
    }
}
