//! Who helps and when, as it is typed: 'Ida: mon-fri 18:00-21:00, sat 9:00-17:00'.

use crate::failure::Failure;
use gable_bake::timetable::{Helper, Shift};
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time, Weekday};

/// Hours of one who says none: evenings, and the days of the weekend (an assumption, and said to be one).
pub(super) const USUAL: &str = "You: mon-fri 18:00-21:30, sat-sun 9:00-18:00";
/// Nobody stands in a kitchen for longer at a stretch; times the wrong way round come to more.
const LONGEST_SHIFT: i32 = 16 * 60;
/// Longer plans have no end.
const LONGEST: usize = 366;

const DAYS: [(&str, Weekday); 7] = [
    ("mon", Weekday::Monday),
    ("tue", Weekday::Tuesday),
    ("wed", Weekday::Wednesday),
    ("thu", Weekday::Thursday),
    ("fri", Weekday::Friday),
    ("sat", Weekday::Saturday),
    ("sun", Weekday::Sunday),
];

/// Helpers with their hours; what is said of one name is one helper's.
pub(super) fn helpers(texts: &[String], from: DateTime, to: DateTime) -> Result<Vec<Helper>, Failure> {
    let mut all: Vec<Helper> = Vec::new();
    for text in texts {
        let mut one = helper(text, from, to)?;
        match all.iter_mut().find(|known| known.name == one.name) {
            Some(known) => {
                known.shifts.append(&mut one.shifts);
                known.shifts.sort_by_key(|s| (s.date, s.from));
            }
            None => all.push(one),
        }
    }
    Ok(all)
}

/// Minutes from one time to another, over midnight if need be.
fn minutes(from: Time, to: Time) -> i32 {
    let of = |time: Time| i32::from(time.hour()) * 60 + i32::from(time.minute());
    let span = of(to) - of(from);
    if span <= 0 { span + 24 * 60 } else { span }
}

/// One helper with the hours from one moment to another.
fn helper(text: &str, from: DateTime, to: DateTime) -> Result<Helper, Failure> {
    let wrong = |what: &str| {
        Failure::Usage(format!("--hours {text}: {what}; give hours such as 'Ida: mon-fri 18:00-21:00, sat 9:00-17:00'"))
    };
    let (name, hours) = text.split_once(": ").ok_or_else(|| wrong("there is no name before the hours"))?;
    if name.trim().is_empty() {
        return Err(wrong("there is no name before the hours"));
    }
    let mut shifts = Vec::new();
    for part in hours.split(',') {
        let (days, times) = part.trim().split_once(' ').ok_or_else(|| wrong("days or times are missing"))?;
        let (start, end) = times.trim().split_once('-').ok_or_else(|| wrong("from when to when is missing"))?;
        let time = |t: &str| clock(t.trim()).ok_or_else(|| wrong(&format!("{t} is no time of day")));
        let (start, end) = (time(start)?, time(end)?);
        if minutes(start, end) > LONGEST_SHIFT {
            return Err(wrong(&format!("{times} is more than 16 hours at a stretch")));
        }
        let on = On::read(days).ok_or_else(|| wrong(&format!("{days} is no day")))?;
        let all = dates(from.date(), to.date()).filter(|date| on.holds(*date));
        shifts.extend(all.map(|date| Shift { date, from: start, to: end, kitchen: 0 }));
    }
    shifts.sort_by_key(|s| (s.date, s.from));
    Ok(Helper { name: name.trim().to_owned(), shifts })
}

fn dates(from: Date, to: Date) -> impl Iterator<Item = Date> {
    std::iter::successors(Some(from), |date| date.checked_add(1.day()).ok()).take_while(move |d| *d <= to).take(LONGEST)
}

/// '9:00', '18:30'.
fn clock(text: &str) -> Option<Time> {
    let (hour, minute) = text.split_once(':')?;
    Time::new(hour.parse().ok()?, minute.parse().ok()?, 0, 0).ok()
}

/// Which days.
enum On {
    /// From one day of the week to another, over Sunday if need be.
    Days(Weekday, Weekday),
    /// One day.
    Date(Date),
}

impl On {
    fn read(text: &str) -> Option<Self> {
        let day = |word: &str| {
            let word = word.trim().to_lowercase();
            DAYS.iter().find(|(short, _)| word.get(..3) == Some(short)).map(|(_, day)| *day)
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

    fn holds(&self, date: Date) -> bool {
        match self {
            Self::Date(own) => *own == date,
            Self::Days(from, to) => from.until(date.weekday()) <= from.until(*to),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn shifts(text: &str) -> Vec<(i8, i8, i8)> {
        // A Monday, and the Sunday after.
        let (from, to) = (date(2026, 12, 7).at(8, 0, 0, 0), date(2026, 12, 13).at(20, 0, 0, 0));
        let helper = helper(text, from, to).unwrap();
        helper.shifts.iter().map(|s| (s.date.day(), s.from.hour(), s.to.hour())).collect()
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
    fn what_is_said_twice_of_one_name_is_one_helper() {
        let (from, to) = (date(2026, 12, 7).at(8, 0, 0, 0), date(2026, 12, 13).at(20, 0, 0, 0));
        let said = ["Ida: tue 9:00-10:00", "Ole: mon 9:00-10:00", "Ida: mon 22:00-1:00"].map(String::from);
        let found = helpers(&said, from, to).unwrap();
        let days: Vec<i8> = found[0].shifts.iter().map(|s| s.date.day()).collect();
        assert_eq!((found.len(), days), (2, vec![7, 8]));
    }

    #[test]
    fn what_are_no_hours_is_refused_with_an_example() {
        let at = date(2026, 12, 7).at(8, 0, 0, 0);
        for wrong in [
            "",
            "mon 9:00-10:00",
            "Ida: ",
            "Ida: mon",
            "Ida: mon 9-10",
            "Ida: someday 9:00-10:00",
            "Ida: mon 25:00-26:00",
            "Ida: mon 21:00-18:00",
        ] {
            let Err(Failure::Usage(words)) = helper(wrong, at, at) else { panic!("{wrong} was read") };
            assert!(words.contains("give hours such as"), "{words}");
        }
    }
}
