//! Who helps and when, as people write it: 'mon-fri 18:00-21:00', 'sat 9:00-17:00 in Ida's kitchen', '2026-12-05 off'.

use super::moment::{minute, moment};
use super::{Helper, Shift, Workplace};
use gable_words::tr;
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time, Weekday};
use std::fmt;

/// Nobody stands in a kitchen for longer at a stretch; times the wrong way round come to more.
const LONGEST_SHIFT: i32 = 16 * 60;
/// Days for which hours are laid out; more would only take time.
const LONGEST: i64 = 366;

const DAYS: [(&str, Weekday); 7] = [
    ("mon", Weekday::Monday),
    ("tue", Weekday::Tuesday),
    ("wed", Weekday::Wednesday),
    ("thu", Weekday::Thursday),
    ("fri", Weekday::Friday),
    ("sat", Weekday::Saturday),
    ("sun", Weekday::Sunday),
];

/// Somebody with the hours that they have in any week, and on single days.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    /// Name.
    pub name: String,
    /// The hours. A day that is named by its date has those alone, whatever is said of its day of the week.
    pub hours: Vec<Times>,
}

/// From when to when on which days, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Times {
    /// On which days.
    pub on: On,
    /// From when to when, over midnight if need be; none for a day off.
    pub span: Option<(Time, Time)>,
    /// Name of the kitchen; empty for the first.
    pub kitchen: String,
}

/// Which days.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// From one day of the week to another, over Sunday if need be.
    Days(Weekday, Weekday),
    /// One day.
    Date(Date),
}

/// Why hours were not understood.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", tr!("{0}; give hours such as 'mon-fri 18:00-21:00', 'sat 9:00-17:00' or '2026-12-05 off'", .0))]
pub struct HoursError(String);

impl Person {
    /// Hours of one who says none: evenings, and the days of the weekend (an assumption, and said to be one).
    pub fn usual() -> Self {
        let time = |h, m| Time::constant(h, m, 0, 0);
        let of = |from, to, span| Times { on: On::Days(from, to), span: Some(span), kitchen: String::new() };
        Self {
            name: tr!("You").to_owned(),
            hours: vec![
                of(Weekday::Monday, Weekday::Friday, (time(18, 0), time(21, 30))),
                of(Weekday::Saturday, Weekday::Sunday, (time(9, 0), time(18, 0))),
            ],
        }
    }

    /// Reads 'Ida: mon-fri 18:00-21:00, sat 9:00-17:00'.
    ///
    /// # Errors
    /// When there is no name, or hours are not understood.
    pub fn read(text: &str) -> Result<Self, HoursError> {
        let named = text.split_once(": ").filter(|(name, _)| !name.trim().is_empty());
        let (name, hours) = named.ok_or_else(|| HoursError("there is no name before the hours".to_owned()))?;
        Ok(Self { name: name.trim().to_owned(), hours: Times::read_all(hours)? })
    }

    /// What is said of one name is one person's.
    pub fn joined(all: impl IntoIterator<Item = Self>) -> Vec<Self> {
        let mut joined: Vec<Self> = Vec::new();
        for mut one in all {
            match joined.iter_mut().find(|known| known.name == one.name) {
                Some(known) => known.hours.append(&mut one.hours),
                None => joined.push(one),
            }
        }
        joined
    }

    /// The hours from the day of one moment to that of another. Hours in a kitchen that is not there are left out; those in
    /// another kitchen begin once one can be there, `between` minutes after the last.
    pub fn helper(&self, from: DateTime, to: DateTime, kitchens: &[Workplace], between: u32) -> Helper {
        // Hours that began on the evening before may last until now.
        let first = from.date().checked_sub(1.day()).unwrap_or(from.date());
        // Plans are made backwards: of a longer time its last year counts.
        let first = first.max(to.date().checked_sub(LONGEST.days()).unwrap_or(first));
        let days = std::iter::successors(Some(first), |date| date.checked_add(1.day()).ok());
        let days = days.take_while(|date| *date <= to.date());
        let shifts = days.flat_map(|date| self.on(date).filter_map(move |times| times.shift(date, kitchens)));
        let shifts = shifts.filter(|shift| shift.minutes().1 > minute(from));
        Helper { name: self.name.clone(), shifts: apart(shifts.collect(), i64::from(between)) }
    }

    /// What counts on a day.
    fn on(&self, date: Date) -> impl Iterator<Item = &Times> {
        let single = self.hours.iter().any(|times| times.on == On::Date(date));
        self.hours.iter().filter(move |times| match times.on {
            On::Date(own) => own == date,
            On::Days(from, to) => !single && from.until(date.weekday()) <= from.until(to),
        })
    }
}

/// Shifts in order; those that overlap in one kitchen are one, and none begins before one can be there.
fn apart(mut shifts: Vec<Shift>, between: i64) -> Vec<Shift> {
    shifts.sort_by_key(Shift::minutes);
    let mut all: Vec<Shift> = Vec::new();
    for mut shift in shifts {
        let (from, to) = shift.minutes();
        if let Some(last) = all.last_mut() {
            let end = last.minutes().1;
            if last.kitchen == shift.kitchen && end >= from {
                last.to = if end >= to { last.to } else { shift.to };
                continue;
            }
            let there = moment(end + between);
            if last.kitchen != shift.kitchen && minute(there) > from {
                (shift.date, shift.from) = (there.date(), there.time());
                if minute(there) >= to {
                    continue;
                }
            }
        }
        all.push(shift);
    }
    all
}

impl Times {
    /// Several of them with commas between.
    ///
    /// # Errors
    /// When one is not understood.
    pub fn read_all(text: &str) -> Result<Vec<Self>, HoursError> {
        text.split(',').map(Self::read).collect()
    }

    /// Reads 'mon-fri 18:00-21:00', 'daily 20:00-22:00', '2026-12-05 9:00-17:00 in Ida's kitchen', '2026-12-06 off'.
    ///
    /// # Errors
    /// When it is not understood.
    pub fn read(text: &str) -> Result<Self, HoursError> {
        let wrong = |what: &str| HoursError(what.to_owned());
        let text = text.trim();
        let (text, kitchen) = text.split_once(" in ").unwrap_or((text, ""));
        let (days, times) = text.trim().split_once(' ').ok_or_else(|| wrong("days or times are missing"))?;
        let on = On::read(days).ok_or_else(|| wrong(&format!("{days} is no day")))?;
        let (times, kitchen) = (times.trim(), kitchen.trim().to_owned());
        if times == "off" {
            return Ok(Self { on, span: None, kitchen });
        }
        let (start, end) = times.split_once(['-', '–']).ok_or_else(|| wrong("from when to when is missing"))?;
        let time = |t: &str| clock(t.trim()).ok_or_else(|| wrong(&format!("{} is no time of day", t.trim())));
        let (start, end) = (time(start)?, time(end)?);
        if minutes(start, end) > LONGEST_SHIFT {
            return Err(wrong(&format!("{times} is more than 16 hours at a stretch")));
        }
        Ok(Self { on, span: Some((start, end)), kitchen })
    }

    fn shift(&self, date: Date, kitchens: &[Workplace]) -> Option<Shift> {
        let (from, to) = self.span?;
        let named = kitchens.iter().position(|own| own.name == self.kitchen);
        let kitchen = if self.kitchen.is_empty() { 0 } else { named? };
        Some(Shift { date, from, to, kitchen })
    }
}

impl fmt::Display for Times {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.on {
            On::Date(date) => write!(f, "{date}")?,
            On::Days(from, to) if from == to => f.write_str(word(from))?,
            On::Days(from, to) => write!(f, "{}-{}", word(from), word(to))?,
        }
        match self.span {
            Some((from, to)) => write!(f, " {}-{}", from.strftime("%-H:%M"), to.strftime("%-H:%M"))?,
            None => f.write_str(" off")?,
        }
        if self.kitchen.is_empty() { Ok(()) } else { write!(f, " in {}", self.kitchen) }
    }
}

impl fmt::Display for Person {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hours: Vec<String> = self.hours.iter().map(ToString::to_string).collect();
        write!(f, "{}: {}", self.name, hours.join(", "))
    }
}

impl On {
    fn read(text: &str) -> Option<Self> {
        let day = |text: &str| {
            let text = text.trim().to_lowercase();
            DAYS.iter().find(|(short, _)| text.get(..3) == Some(short)).map(|(_, day)| *day)
        };
        if let Ok(date) = text.parse::<Date>() {
            return Some(Self::Date(date));
        }
        match text.split_once('-') {
            Some((from, to)) => Some(Self::Days(day(from)?, day(to)?)),
            None if text == "daily" => Some(Self::Days(Weekday::Monday, Weekday::Sunday)),
            None => day(text).map(|one| Self::Days(one, one)),
        }
    }
}

fn word(day: Weekday) -> &'static str {
    DAYS.iter().find(|(_, own)| *own == day).map_or("", |(word, _)| word)
}

/// Minutes from one time to another, over midnight if need be.
fn minutes(from: Time, to: Time) -> i32 {
    let of = |time: Time| i32::from(time.hour()) * 60 + i32::from(time.minute());
    let span = of(to) - of(from);
    if span <= 0 { span + 24 * 60 } else { span }
}

/// '9:00', '18:30'.
fn clock(text: &str) -> Option<Time> {
    let (hour, minute) = text.split_once(':')?;
    Time::new(hour.parse().ok()?, minute.parse().ok()?, 0, 0).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    /// A Monday, and the Sunday after.
    fn week(people: &[Person]) -> Vec<Helper> {
        let (from, to) = (date(2026, 12, 7).at(8, 0, 0, 0), date(2026, 12, 13).at(20, 0, 0, 0));
        let kitchens = [Workplace::usual("Here"), Workplace::usual("Ole's kitchen")];
        people.iter().map(|person| person.helper(from, to, &kitchens, 30)).collect()
    }

    fn shifts(text: &str) -> Vec<(i8, i8, i8)> {
        let helpers = week(&[Person::read(text).unwrap()]);
        helpers[0].shifts.iter().map(|s| (s.date.day(), s.from.hour(), s.to.hour())).collect()
    }

    #[test]
    fn hours_are_read_as_people_write_them() {
        assert_eq!(shifts("Ida: mon-tue 18:00-21:00, sat 9:00-17:00"), [(7, 18, 21), (8, 18, 21), (12, 9, 17)]);
        assert_eq!(shifts("Ida: sat-mon 9:00-10:00"), [(7, 9, 10), (12, 9, 10), (13, 9, 10)]);
        assert_eq!(shifts("Ole: 2026-12-09 7:30-8:00"), [(9, 7, 8)]);
        assert_eq!(shifts("Ole: daily 20:00-22:00").len(), 7);
        assert_eq!(shifts("Ole: Friday 20:00-22:00"), [(11, 20, 22)]);
    }

    #[test]
    fn a_day_with_hours_of_its_own_has_no_others() {
        assert_eq!(shifts("Ida: mon-wed 18:00-21:00, 2026-12-08 off"), [(7, 18, 21), (9, 18, 21)]);
        assert_eq!(shifts("Ida: mon-tue 18:00-21:00, 2026-12-08 9:00-10:00"), [(7, 18, 21), (8, 9, 10)]);
        assert_eq!(shifts("Ida: mon 18:00-20:00, mon 19:00-21:00"), [(7, 18, 21)], "hours that overlap are one");
        assert_eq!(shifts("Ida: mon 18:00-20:00, mon 20:00-21:00"), [(7, 18, 21)], "and hours that touch");
        assert_eq!(shifts("Ida: mon 18:00-22:00, mon 19:00-20:00"), [(7, 18, 22)], "hours within others add nothing");
    }

    #[test]
    fn hours_may_be_in_another_kitchen() {
        let helpers = week(&[Person::read("Ole: mon 9:00-10:00 in Ole's kitchen, tue 9:00-10:00").unwrap()]);
        assert_eq!(helpers[0].shifts.iter().map(|s| s.kitchen).collect::<Vec<_>>(), [1, 0]);
        let way = week(&[Person::read("Ole: mon 9:00-10:00, mon 10:00-12:00 in Ole's kitchen").unwrap()]);
        assert_eq!(way[0].shifts[1].from, Time::constant(10, 30, 0, 0), "half an hour on the way");
        assert_eq!(week(&[Person::read("Ole: mon 9:00-10:00 in the barn").unwrap()])[0].shifts, []);
        let short = "Ole: mon 9:00-10:00, mon 10:00-10:30 in Ole's kitchen";
        assert_eq!(shifts(short), [(7, 9, 10)], "over before one is there");
        let twice = week(&[Person::read("Ole: mon 9:00-10:00, mon 10:10-11:00").unwrap()]);
        assert_eq!(twice[0].shifts[1].from, Time::constant(10, 10, 0, 0), "no way within one kitchen");
    }

    #[test]
    fn hours_over_midnight_last_until_they_end() {
        let late = date(2026, 12, 8).at(0, 30, 0, 0);
        let person = Person::read("Ida: mon 20:00-2:00").unwrap();
        let found = person.helper(late, date(2026, 12, 9).at(0, 0, 0, 0), &[Workplace::usual("Here")], 0);
        assert_eq!(found.shifts.len(), 1);
    }

    #[test]
    fn years_ahead_the_last_year_has_hours() {
        let (now, then) = (date(2026, 12, 9).at(1, 0, 0, 0), date(2030, 12, 20).at(15, 0, 0, 0));
        let found = Person::read("Ida: daily 18:00-19:00").unwrap().helper(now, then, &[Workplace::usual("Here")], 0);
        assert_eq!((found.shifts[0].date, found.shifts.len()), (date(2029, 12, 19), 367));
        assert_eq!(found.shifts.last().unwrap().date, date(2030, 12, 20));
    }

    #[test]
    fn hours_are_written_as_they_are_read() {
        for text in ["Ida: mon-fri 18:00-21:30, sat 9:00-17:00 in Ole's kitchen, 2026-12-05 off", "Ole: sun 22:00-1:00"]
        {
            assert_eq!(Person::read(text).unwrap().to_string(), text);
        }
        assert_eq!(Person::usual().to_string(), "You: mon-fri 18:00-21:30, sat-sun 9:00-18:00");
    }

    #[test]
    fn what_is_said_twice_of_one_name_is_one_person() {
        let said = ["Ida: tue 9:00-10:00", "Ole: mon 9:00-10:00", "Ida: mon 22:00-1:00"];
        let found = week(&Person::joined(said.map(|text| Person::read(text).unwrap())));
        let days: Vec<i8> = found[0].shifts.iter().map(|s| s.date.day()).collect();
        assert_eq!((found.len(), days), (2, vec![7, 8]));
    }

    #[test]
    fn what_are_no_hours_is_refused_with_an_example() {
        for wrong in [
            "",
            "mon 9:00-10:00",
            "Ida: ",
            "Ida: mon",
            "Ida: mon 9-10",
            "Ida: mon 9:00-9:00",
            "Ida: mon 9:00-1:01",
            "Ida: someday 9:00-10:00",
            "Ida: mon 25:00-26:00",
            "Ida: mon 21:00-18:00",
        ] {
            let error = Person::read(wrong).unwrap_err().to_string();
            assert!(error.contains("give hours such as"), "{error}");
        }
    }
}
