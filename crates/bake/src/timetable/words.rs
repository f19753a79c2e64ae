//! What is said about a timetable, in the words of a baker.

use super::moment::moment;
use super::plan::{Change, Short};
use super::{Ask, Broke, Entry, Tasks, Timetable, Today, Way};
use crate::Chapter;
use crate::words::taken_as;
use gable_dress::duration;
use gable_measure::Unit;
use gable_words::tr;
use jiff::civil::DateTime;

/// A moment as people write it: 'Thu 3 Dec, 18:00'.
pub fn when(at: DateTime) -> String {
    at.strftime("%a %-d %b, %H:%M").to_string()
}

/// Minutes as people say them, days where there are many: '2 days', '1 day 4 h', '3 h 20 min'.
pub fn long(minutes: i64) -> String {
    let days = minutes / 1440;
    let rest = minutes % 1440;
    let day = tr!("1 day" | "{n} days" % days);
    match (days, rest) {
        (0, rest) => duration(rest as f64),
        (_, 0) => day,
        // Beyond a day hours are close enough.
        (_, rest) => format!("{day} {}", duration((rest as f64 / 60.0).ceil() * 60.0)),
    }
}

impl Timetable {
    /// Whether it is done in time; if not, what is short, and what would help.
    pub fn verdict(&self) -> Vec<String> {
        let Some(misfit) = &self.trouble else {
            let stands = self.stands.map_or_else(String::new, |at| tr!("It stands on {}; ", when(at)));
            let first = tr!("{stands}asked for {}.", when(self.stand_by));
            return std::iter::once(first).chain(self.remarks.iter().cloned()).collect();
        };
        let late = self.stands.map_or_else(String::new, |at| tr!(" It would stand on {}.", when(at)));
        let first = tr!("It cannot stand by {}.{late}", when(self.stand_by));
        let help = |offer: &super::Offer| tr!("This helps: {}; it then stands on {}.", offer.words, when(offer.stands));
        std::iter::once(first)
            .chain(misfit.short.iter().cloned())
            .chain(misfit.helps.iter().map(help))
            .chain(self.remarks.iter().cloned())
            .collect()
    }

    /// Every day with what begins on it.
    pub fn days(&self) -> Vec<Chapter> {
        let days = self.entries.chunk_by(|a, b| a.from().date() == b.from().date());
        days.filter_map(|day| {
            let title = day.first()?.from().strftime("%A %-d %B").to_string();
            Some(Chapter { title, lines: day.iter().map(Entry::line).collect() })
        })
        .collect()
    }
}

impl Entry {
    /// Time, task, how long, who.
    pub fn line(&self) -> String {
        let who = if self.who.is_empty() { tr!("waits").to_owned() } else { self.who.join(", ") };
        format!("{}  {}, {} ({who})", self.from().strftime("%H:%M"), self.name, self.how_long())
    }

    /// How long it takes; of the oven to the minute.
    fn how_long(&self) -> String {
        self.oven.map_or_else(|| long(self.minutes()), long)
    }

    /// What waits, and until when.
    fn wait(&self) -> String {
        tr!("{}, until {}", self.name, when(self.to()))
    }

    fn with_day(&self) -> String {
        format!("{}: {}, {} ({})", when(self.from()), self.name, self.how_long(), self.who.join(", "))
    }
}

impl Today<'_> {
    /// What to do now, what comes next, what waits, and where someone could be hurt.
    pub fn chapters(&self) -> Vec<Chapter> {
        let some = |title: &str, entries: &[&Entry], line: fn(&Entry) -> String, none: &str| {
            let mut lines: Vec<String> = entries.iter().map(|entry| line(entry)).collect();
            if lines.is_empty() && !none.is_empty() {
                lines.push(none.to_owned());
            }
            Chapter { title: title.to_owned(), lines }
        };
        let mut cautions = Vec::new();
        for caution in self.now.iter().chain(&self.next).flat_map(|entry| entry.kind.cautions()) {
            let line = format!("{}: {}", caution.title(), caution.words());
            if !cautions.contains(&line) {
                cautions.push(line);
            }
        }
        vec![
            some(tr!("Now"), &self.now, Entry::line, tr!("Nothing is to be done at this moment.")),
            some(tr!("Next"), &self.next, Entry::with_day, tr!("Nothing is left to be done.")),
            some(tr!("Later today"), &self.later, Entry::line, ""),
            some(tr!("Waits by itself"), &self.waits, Entry::wait, ""),
            Chapter { title: tr!("Cautions (local rules come first)").to_owned(), lines: cautions },
        ]
    }
}

impl Broke {
    /// Both ways, with what they take and when it is done.
    pub fn words(&self, unit: Unit) -> Vec<String> {
        let way = |name: &str, way: &Way| {
            let when = way.when.map_or_else(
                || tr!("no time is left for it").to_owned(),
                |(from, to)| tr!("from {} to {}", when(from), to.strftime("%H:%M")),
            );
            let stands = match (way.table.stands, way.in_time) {
                (Some(at), true) => tr!("the house stands in time, on {}", super::when(at)),
                (Some(at), false) => tr!("the house is late and stands on {}", super::when(at)),
                (None, _) => tr!("not everything finds a time then").to_owned(),
            };
            format!("{name}: {when}; {stands}.")
        };
        let again = self.again.as_ref().map_or_else(
            || tr!("Baked again it cannot be: it stands in the house already.").to_owned(),
            |again| tr!("{} It takes {} of dough.", way(tr!("Bake it again"), again), self.dough.print(unit)),
        );
        vec![again, way(tr!("Mend it with icing along the crack and a splint inside"), &self.mend)]
    }
}

impl Ask {
    /// How long things are taken to last, where nobody has measured it.
    pub fn assumption_words(&self) -> Chapter {
        Chapter {
            title: tr!("Times taken as, until your notebook says otherwise").to_owned(),
            lines: self.rates.assumed().iter().map(|(rate, value)| taken_as(&rate.known(), *value)).collect(),
        }
    }
}

pub(super) fn short(short: &Short, tasks: &Tasks) -> String {
    let some = |jobs: &[usize]| {
        let name = jobs.first().and_then(|&k| tasks.tasks.get(k)).map_or("", |task| task.name.as_str());
        match jobs.len() {
            0 => String::new(),
            count => tr!("'{name}'" | "{n} tasks, the first of them '{name}'" % count),
        }
    };
    match short {
        Short::Nowhere(jobs) => {
            tr!("No kitchen has the helpers, ovens, trays and room that are needed for {}.", some(jobs))
        }
        Short::Time(minutes) => tr!(
            "It takes {} longer than there is, even with any number of helpers, ovens and trays in the same hours: too much has \
             to rest, dry and set one after the other.",
            long(*minutes)
        ),
        Short::NoHours(jobs) => {
            tr!("The hours that helpers have do not reach for {}, however the work is shared.", some(jobs))
        }
        Short::People { needed, there } => {
            // Work is given in hours: a day of work is no day.
            tr!("There are {} of work, and helpers have {} until then.", hours(*needed), hours(*there))
        }
        Short::Place { place, needed, there } => {
            let name = tasks.project.places.get(*place).map_or("", |place| place.name.as_str());
            tr!("Of the {name} {} are needed, and there are {} until then.", hours(*needed), hours(*there))
        }
        Short::Crowded => tr!("Nothing is short by itself; too much comes at the same time.").to_owned(),
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
            tr!("{} helps on {} to {} too", helper(person), when(from), to.strftime("%H:%M"))
        }
        Change::Place(place) => {
            let Some(place) = tasks.project.places.get(place) else { return String::new() };
            let kitchen = ask.kitchens.get(place.kitchen).map_or("", |own| own.name.as_str());
            tr!("one more {} in {kitchen}", place.name)
        }
        Change::Helper(person) => tr!("another pair of hands, whenever {} is there", helper(person)),
        Change::LeaveOut(spare) => {
            let name = tasks.project.spare.get(spare).map_or("", |spare| spare.name.as_str());
            tr!("leave out {name}")
        }
        Change::Later(minutes) => tr!("let it stand {} later", long(minutes)),
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
