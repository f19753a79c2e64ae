//! What is said about a timetable, in the words of a baker.

use super::moment::moment;
use super::plan::{Change, Short};
use super::{Ask, Tasks};
use gable_dress::duration;
use jiff::civil::DateTime;

/// A moment as people write it: 'Thu 3 Dec, 18:00'.
pub fn when(at: DateTime) -> String {
    at.strftime("%a %-d %b, %H:%M").to_string()
}

/// Minutes as people say them, days where there are many: '2 days', '1 day 4 h', '3 h 20 min'.
pub fn long(minutes: i64) -> String {
    let days = minutes / 1440;
    let rest = minutes % 1440;
    let day = if days == 1 { "1 day".to_owned() } else { format!("{days} days") };
    match (days, rest) {
        (0, rest) => duration(rest as f64),
        (_, 0) => day,
        // Beyond a day hours are close enough.
        (_, rest) => format!("{day} {}", duration((rest as f64 / 60.0).ceil() * 60.0)),
    }
}

pub(super) fn short(short: &Short, tasks: &Tasks) -> String {
    let some = |jobs: &[usize]| {
        let name = jobs.first().and_then(|&k| tasks.tasks.get(k)).map_or("", |task| task.name.as_str());
        match jobs.len() {
            0 | 1 => format!("'{name}'"),
            count => format!("{count} tasks, the first of them '{name}'"),
        }
    };
    match short {
        Short::Nowhere(jobs) => {
            format!("No kitchen has the helpers, ovens, trays and room that are needed for {}.", some(jobs))
        }
        Short::Time(minutes) => format!(
            "It takes {} longer than there is, even with any number of helpers, ovens and trays in the same hours: too much has \
             to rest, dry and set one after the other.",
            long(*minutes)
        ),
        Short::NoHours(jobs) => {
            format!("The hours that helpers have do not reach for {}, however the work is shared.", some(jobs))
        }
        Short::People { needed, there } => {
            // Work is given in hours: a day of work is no day.
            format!("There are {} of work, and helpers have {} until then.", hours(*needed), hours(*there))
        }
        Short::Place { place, needed, there } => {
            let name = tasks.project.places.get(*place).map_or("", |place| place.name.as_str());
            format!("Of the {name} {} are needed, and there are {} until then.", hours(*needed), hours(*there))
        }
        Short::Crowded => "Nothing is short by itself; too much comes at the same time.".to_owned(),
    }
}

fn hours(minutes: i64) -> String {
    duration(minutes as f64)
}

pub(super) fn change(change: &Change, tasks: &Tasks, ask: &Ask) -> String {
    let helper = |k: usize| ask.helpers.get(k).map_or("", |helper| helper.name.as_str());
    match *change {
        Change::Hours(person, hours) => {
            let (from, to) = (moment(hours.from), moment(hours.to));
            format!("{} helps on {} to {} too", helper(person), when(from), to.strftime("%H:%M"))
        }
        Change::Place(place) => {
            let Some(place) = tasks.project.places.get(place) else { return String::new() };
            let kitchen = ask.kitchens.get(place.kitchen).map_or("", |own| own.name.as_str());
            format!("one more {} in {kitchen}", place.name)
        }
        Change::Helper(person) => format!("another pair of hands, whenever {} is there", helper(person)),
        Change::LeaveOut(spare) => {
            let name = tasks.project.spare.get(spare).map_or("", |spare| spare.name.as_str());
            format!("leave out {name}")
        }
        Change::Later(minutes) => format!("let it stand {} later", long(minutes)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn moments_and_times_are_said_as_people_say_them() {
        assert_eq!(when(date(2026, 12, 3).at(18, 5, 0, 0)), "Thu 3 Dec, 18:05");
        let said = [0, 59, 200, 1440, 1500, 2881].map(long);
        assert_eq!(said, ["0 min", "59 min", "3 h 20 min", "1 day", "1 day 1 h", "2 days 1 h"]);
    }
}
