//! What has been done, and what that teaches about the next house.

use super::{Task, TaskKind};
use crate::median::median;
use jiff::civil::DateTime;
use std::collections::BTreeMap;

/// What has been done of a house so far.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Log {
    /// One for each task that was begun or done, in the order in which that was written down.
    pub ticks: Vec<Tick>,
}

/// What was written down of one task.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Stable name of the task.
    pub id: String,
    /// Its kind.
    pub kind: TaskKind,
    /// Minutes it should have taken by the rates alone.
    pub usual: f64,
    /// When it was done; none while it is under way.
    pub done: Option<DateTime>,
    /// Minutes that were worked on it, if that was written down.
    pub minutes: Option<f64>,
    /// In which kitchen, by its index.
    pub kitchen: Option<usize>,
}

/// How long a person takes for tasks of a kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Learned {
    /// The median of what tasks took over what the rates say.
    pub factor: f64,
    /// Of how many tasks.
    pub count: usize,
}

/// So many tasks of a kind are needed before the next house goes by them (an assumption: two can both be odd).
const ENOUGH: usize = 3;
/// What was written down by mistake, such as hours for minutes, is not believed (an assumption).
const BELIEVED: std::ops::RangeInclusive<f64> = 0.1..=10.0;

impl Log {
    /// Ticks a task off. Ticking it again replaces what was written.
    pub fn done(&mut self, task: &Task, at: DateTime, minutes: Option<f64>, kitchen: Option<usize>) {
        self.write(task, Some(at), minutes, kitchen);
    }

    /// Writes down that a task was begun, and how many minutes were worked on it.
    pub fn begun(&mut self, task: &Task, minutes: f64, kitchen: Option<usize>) {
        self.write(task, None, Some(minutes), kitchen);
    }

    /// Takes back what was written of a task.
    pub fn forget(&mut self, id: &str) {
        self.ticks.retain(|tick| tick.id != id);
    }

    /// What was written of a task.
    pub fn of(&self, id: &str) -> Option<&Tick> {
        self.ticks.iter().find(|tick| tick.id == id)
    }

    /// What had been done by a moment.
    #[must_use]
    pub(super) fn until(&self, at: DateTime) -> Self {
        let by = |tick: &&Tick| tick.done.is_none_or(|done| done <= at);
        Self { ticks: self.ticks.iter().filter(by).cloned().collect() }
    }

    fn write(&mut self, task: &Task, done: Option<DateTime>, minutes: Option<f64>, kitchen: Option<usize>) {
        self.forget(&task.id);
        let minutes = minutes.filter(|minutes| minutes.is_finite() && *minutes >= 0.0);
        self.ticks.push(Tick { id: task.id.clone(), kind: task.kind, usual: task.usual, done, minutes, kitchen });
    }

    /// What tasks really took, by kind. Waiting teaches nothing: it is as long as one lets it be.
    pub fn learned<'l>(logs: impl IntoIterator<Item = &'l Self>) -> BTreeMap<TaskKind, Learned> {
        let mut ratios: BTreeMap<TaskKind, Vec<f64>> = BTreeMap::new();
        for tick in logs.into_iter().flat_map(|log| &log.ticks) {
            let (Some(minutes), Some(_)) = (tick.minutes, tick.done) else { continue };
            let ratio = minutes / tick.usual;
            if !tick.kind.is_wait() && BELIEVED.contains(&ratio) {
                ratios.entry(tick.kind).or_default().push(ratio);
            }
        }
        let learned = |(kind, mut ratios): (TaskKind, Vec<f64>)| {
            ratios.sort_by(f64::total_cmp);
            Some((kind, Learned { factor: median(&ratios)?, count: ratios.len() }))
        };
        ratios.into_iter().filter_map(learned).collect()
    }

    /// The same, of kinds with enough tasks to go by, as [`super::Ask::learned`] takes it.
    pub fn factors<'l>(logs: impl IntoIterator<Item = &'l Self>) -> BTreeMap<TaskKind, f64> {
        let enough = Self::learned(logs).into_iter().filter(|(_, learned)| learned.count >= ENOUGH);
        enough.map(|(kind, learned)| (kind, learned.factor)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn log(kind: TaskKind, times: &[(f64, f64)]) -> Log {
        let mut log = Log::default();
        for (k, &(usual, minutes)) in times.iter().enumerate() {
            let task = Task { id: format!("{k}"), kind, name: String::new(), pieces: Vec::new(), usual };
            log.done(&task, date(2026, 12, 1).at(20, 0, 0, 0), Some(minutes), None);
        }
        log
    }

    #[test]
    fn one_odd_evening_does_not_spoil_what_was_learned() {
        let log = log(TaskKind::Decorate, &[(20.0, 30.0), (10.0, 14.0), (30.0, 48.0), (10.0, 90.0), (20.0, 0.1)]);
        let learned = Log::learned([&log])[&TaskKind::Decorate];
        assert_eq!(learned.count, 4, "what cannot be true is left out");
        assert!((learned.factor - 1.55).abs() < 1e-9, "between 1.5 and 1.6: {learned:?}");
        assert_eq!(Log::factors([&log]).len(), 1);
    }

    #[test]
    fn too_little_and_waiting_teach_nothing() {
        assert_eq!(Log::factors([&log(TaskKind::Decorate, &[(20.0, 30.0), (10.0, 15.0)])]).len(), 0);
        assert_eq!(Log::learned([&log(TaskKind::Dry, &[(120.0, 200.0); 5])]).len(), 0);
        let two = log(TaskKind::Cut, &[(20.0, 30.0), (10.0, 15.0)]);
        let other = log(TaskKind::Cut, &[(20.0, 30.0)]);
        assert_eq!(Log::factors([&two, &other])[&TaskKind::Cut], 1.5, "several houses count together");
    }

    #[test]
    fn a_tick_can_be_written_again_and_taken_back() {
        let mut log = log(TaskKind::Cut, &[(20.0, 30.0)]);
        let task =
            Task { id: "0".to_owned(), kind: TaskKind::Cut, name: String::new(), pieces: Vec::new(), usual: 20.0 };
        log.begun(&task, 5.0, Some(0));
        assert_eq!((log.ticks.len(), log.of("0").unwrap().done), (1, None));
        log.forget("0");
        assert_eq!(log, Log::default());
    }
}
