/// How much of a place is taken when: a step function.
#[derive(Clone, Debug, Default)]
pub(super) struct Profile {
    /// From each moment on so much is taken, in order; before the first nothing.
    steps: Vec<(i64, u32)>,
}

impl Profile {
    /// The end of the last stretch within `from .. to` in which less than `units` of `all` are free. A use that must cover
    /// all of `from .. to` cannot begin before it.
    pub(super) fn conflict(&self, from: i64, to: i64, units: u32, all: u32) -> Option<i64> {
        if units > all {
            return Some(i64::MAX);
        }
        let end = self.steps.partition_point(|step| step.0 < to);
        let begin = self.steps.partition_point(|step| step.0 <= from).saturating_sub(1);
        let full = (begin..end).rev().find(|&k| self.steps[k].1 + units > all)?;
        // The last step takes nothing, so a full stretch always has an end.
        let until = self.steps.get(full + 1).map_or(i64::MAX, |step| step.0);
        (until > from && from < to).then_some(until)
    }

    /// Takes `units` from `from` to `to`.
    pub(super) fn take(&mut self, from: i64, to: i64, units: u32) {
        self.change(from, to, |taken| taken + units);
    }

    /// Gives back what was taken.
    pub(super) fn give(&mut self, from: i64, to: i64, units: u32) {
        self.change(from, to, |taken| taken.saturating_sub(units));
    }

    fn change(&mut self, from: i64, to: i64, new: impl Fn(u32) -> u32) {
        if from >= to {
            return;
        }
        let (first, last) = (self.cut(from), self.cut(to));
        // Cutting at `to` adds a step after `first`, which stays where it is.
        self.steps[first..last].iter_mut().for_each(|step| step.1 = new(step.1));
        self.join(last);
        self.join(first);
    }

    /// Index of the step that begins at `at`, which is made where there is none.
    fn cut(&mut self, at: i64) -> usize {
        let k = self.steps.partition_point(|step| step.0 < at);
        if self.steps.get(k).is_none_or(|step| step.0 != at) {
            let before = if k == 0 { 0 } else { self.steps[k - 1].1 };
            self.steps.insert(k, (at, before));
        }
        k
    }

    /// Takes a step away that changes nothing.
    fn join(&mut self, k: usize) {
        let before = if k == 0 { 0 } else { self.steps[k - 1].1 };
        if self.steps.get(k).is_some_and(|step| step.1 == before) {
            self.steps.remove(k);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_full_until_what_took_it_is_over() {
        let mut oven = Profile::default();
        assert_eq!(oven.conflict(0, 10, 1, 1), None);
        oven.take(10, 20, 1);
        oven.take(20, 30, 1);
        assert_eq!(oven.conflict(0, 10, 1, 1), None);
        assert_eq!(oven.conflict(0, 11, 1, 1), Some(30));
        assert_eq!(oven.conflict(30, 40, 1, 1), None);
        assert_eq!(oven.conflict(12, 40, 1, 2), None);
        assert_eq!(oven.conflict(12, 40, 2, 2), Some(30));
        oven.give(10, 20, 1);
        assert_eq!(oven.conflict(5, 20, 1, 1), None);
        oven.give(20, 30, 1);
        assert!(oven.steps.is_empty());
        assert_eq!(oven.conflict(0, 1, 3, 2), Some(i64::MAX));
    }
}
