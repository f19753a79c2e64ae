//! Tasks ticked off.

use super::Notebook;
use crate::timetable::{Task, TaskKind};
use crate::{OvenNote, Ovenfuls};
use gable_shell::House;
use jiff::civil::DateTime;

/// When something was done, how long it took, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// When it was done; none while it is under way.
    pub done: Option<DateTime>,
    /// Minutes that were worked on it, if that is known.
    pub minutes: Option<f64>,
    /// In which kitchen, by its index.
    pub kitchen: Option<usize>,
}

impl Notebook {
    /// Writes down of a task of a house that it was done, or begun. What an ovenful took is written into the oven's log too.
    pub fn tick(&mut self, house: &House, task: &Task, moment: Moment, ovenfuls: &Ovenfuls) {
        self.take_back(house, &task.id, ovenfuls);
        if let (Some(_), Some(minutes)) = (moment.done, moment.minutes.filter(|m| *m > 0.0)) {
            self.oven_log.extend(oven_note(&task.id, minutes, ovenfuls));
        }
        let log = &mut self.build_mut(house).log;
        match moment.done {
            Some(at) => log.done(task, at, moment.minutes, moment.kitchen),
            None => log.begun(task, moment.minutes.unwrap_or(0.0), moment.kitchen),
        }
    }

    /// Takes back what was written of a task.
    pub fn take_back(&mut self, house: &House, id: &str, ovenfuls: &Ovenfuls) {
        let log = &mut self.build_mut(house).log;
        let before = log.of(id).filter(|tick| tick.done.is_some()).and_then(|tick| tick.minutes);
        log.forget(id);
        let note = before.and_then(|minutes| oven_note(id, minutes, ovenfuls));
        if let Some(k) = note.and_then(|note| self.oven_log.iter().rposition(|own| *own == note)) {
            self.oven_log.remove(k);
        }
    }
}

/// What an ovenful teaches of the oven; none for other tasks.
fn oven_note(id: &str, minutes: f64, ovenfuls: &Ovenfuls) -> Option<OvenNote> {
    let first = id.strip_prefix(TaskKind::Bake.word())?.strip_prefix('/')?;
    let tray = ovenfuls.trays.iter().find(|tray| tray.pieces.first().is_some_and(|on| on.id == first))?;
    let class = ovenfuls.classes.get(tray.class)?;
    Some(OvenNote { rolled: class.thickest, size: class.size, minutes })
}
