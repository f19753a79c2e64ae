use super::{Entry, Timetable};
use jiff::ToSpan;
use jiff::civil::DateTime;

/// What to do at a moment, what comes next, and what waits.
#[derive(Clone, Debug, PartialEq)]
pub struct Today<'t> {
    /// Work that is on now.
    pub now: Vec<&'t Entry>,
    /// The next work of each helper, on this day or a later one.
    pub next: Vec<&'t Entry>,
    /// What comes after that on this day.
    pub later: Vec<&'t Entry>,
    /// What dries, rests, bakes or cools now.
    pub waits: Vec<&'t Entry>,
}

/// Hours after midnight that still belong to the day before.
const NIGHT: i64 = 4;

impl Timetable {
    /// The page of a moment.
    pub fn today(&self, now: DateTime) -> Today<'_> {
        let is_on = |entry: &&Entry| entry.spans.iter().any(|&(from, to)| from <= now && now < to);
        let work = || self.entries.iter().filter(|entry| !entry.who.is_empty());
        let mut helpers: Vec<&String> = work().flat_map(|entry| &entry.who).collect();
        helpers.sort();
        helpers.dedup();
        // Work that is laid down comes again.
        let comes = |entry: &Entry| entry.spans.iter().map(|span| span.0).find(|&from| from > now);
        let first =
            |helper: &&String| work().filter(|e| e.who.contains(helper) && comes(e).is_some()).min_by_key(|e| comes(e));
        let mut next: Vec<&Entry> = helpers.iter().filter_map(first).collect();
        next.sort_by_key(|entry| (comes(entry), &entry.id));
        next.dedup_by_key(|entry| &entry.id);
        let end =
            day(now).checked_add(1.days()).and_then(|end| end.checked_add(NIGHT.hours())).unwrap_or(DateTime::MAX);
        let later = work().filter(|e| comes(e).is_some_and(|from| from < end));
        Today {
            later: later.filter(|entry| !next.iter().any(|other| other.id == entry.id)).collect(),
            now: work().filter(is_on).collect(),
            waits: self.entries.iter().filter(|entry| entry.who.is_empty()).filter(is_on).collect(),
            next,
        }
    }
}

/// Midnight at which the day began; small hours belong to the day before.
fn day(now: DateTime) -> DateTime {
    let midnight = now.date().to_datetime(jiff::civil::Time::midnight());
    if i64::from(now.hour()) < NIGHT { midnight.checked_sub(1.days()).unwrap_or(midnight) } else { midnight }
}
