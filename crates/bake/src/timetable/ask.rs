//! What a person asks for: where, who, when, by when.

use super::moment::minute;
use super::{Rates, TaskKind};
use jiff::civil::{Date, DateTime, Time};
use std::collections::BTreeMap;

/// A kitchen and what there is in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Workplace {
    /// Its name: 'Ida's kitchen'.
    pub name: String,
    /// Ovens.
    pub ovens: u32,
    /// Trays that an oven takes at once, one above the other; they change places half way (common practice).
    pub shelves: u32,
    /// Trays.
    pub trays: u32,
    /// Trays that find room in the freezer at once; none if there is no freezer for them.
    pub freezer: u32,
    /// Where flat pieces can lie and dry, dm².
    pub table: u32,
}

impl Workplace {
    /// What a kitchen is called of which nobody has said a name.
    pub const FIRST: &str = "Kitchen";

    /// A kitchen as many have it (common practice, no source).
    pub fn usual(name: &str) -> Self {
        Self { name: name.to_owned(), ovens: 1, shelves: 1, trays: 2, freezer: 1, table: 100 }
    }
}

/// Some hours of a day that somebody has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shift {
    /// The day.
    pub date: Date,
    /// First minute.
    pub from: Time,
    /// When it is over; midnight and what is before `from` are of the next day.
    pub to: Time,
    /// Index into [`Ask::kitchens`].
    pub kitchen: usize,
}

impl Shift {
    /// Its first minute and the minute after its last.
    pub(super) fn minutes(&self) -> (i64, i64) {
        let (from, to) = (minute(self.date.to_datetime(self.from)), minute(self.date.to_datetime(self.to)));
        (from, if to <= from { to + 1440 } else { to })
    }
}

/// Somebody who helps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Helper {
    /// Name.
    pub name: String,
    /// The hours, in any order.
    pub shifts: Vec<Shift>,
}

/// What is asked of a timetable.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// The moment of asking: nothing is planned before it.
    pub now: DateTime,
    /// When the house must stand.
    pub stand_by: DateTime,
    /// How long before that it should be done if there is time enough, in minutes.
    pub reserve: u32,
    /// The kitchens.
    pub kitchens: Vec<Workplace>,
    /// Index of the kitchen in which the house is put up.
    pub home: usize,
    /// Minutes from one kitchen to another.
    pub between: u32,
    /// Who helps.
    pub helpers: Vec<Helper>,
    /// Whether the air is damp, above 60 %.
    pub damp: bool,
    /// Whether there are lights in the house.
    pub lights: bool,
    /// Whether it is carried somewhere once it stands.
    pub carried: bool,
    /// How long things take.
    pub rates: Rates,
    /// How much longer (above 1) or shorter this person takes for tasks of a kind than the rates say, as learned.
    pub learned: BTreeMap<TaskKind, f64>,
}

/// Minutes from one kitchen to another, until a person says otherwise (an assumption).
pub const BETWEEN: u32 = 30;

impl Ask {
    /// What most would ask: one kitchen as many have it, a day to spare, the house is put up where it stands. Nobody helps yet.
    pub fn usual(now: DateTime, stand_by: DateTime) -> Self {
        Self {
            now,
            stand_by,
            reserve: 1440,
            kitchens: vec![Workplace::usual(Workplace::FIRST)],
            home: 0,
            between: BETWEEN,
            helpers: Vec::new(),
            damp: false,
            lights: false,
            carried: false,
            rates: Rates::default(),
            learned: BTreeMap::new(),
        }
    }
}
