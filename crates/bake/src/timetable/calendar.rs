//! The timetable as a calendar file after RFC 5545.
//!
//! Written by hand: it is forty lines, and the library that was tried stamped alarms with the clock and folded some lines
//! one octet too late. Times are those on the wall (RFC 5545, 3.3.5, form 1), so they need no time zone.

use super::{Ask, Entry, Timetable, long};
use gable_words::tr;
use jiff::civil::DateTime;

/// What goes into a calendar.
#[derive(Clone, Debug, PartialEq)]
pub struct CalendarChoice {
    /// Name of the house, part of every event's stable id.
    pub house: String,
    /// The moment of writing, in UTC.
    pub stamp: DateTime,
    /// Only what this helper does, by name; everything if none.
    pub helper: Option<String>,
    /// Whether what waits is in it too, with an alarm when it is over.
    pub waits: bool,
    /// Minutes before work at which an alarm goes off; none for no alarms at all.
    pub alarm: Option<u32>,
}

/// Longest line in octets, its end left out (RFC 5545, 3.1).
const LONGEST: usize = 75;
/// Waits shorter than this need no alarm: one is still in the kitchen, minutes.
const SHORT_WAIT: i64 = 45;

impl Timetable {
    /// The calendar. The same timetable gives the same bytes, and the same task keeps its id when it is planned anew.
    pub fn calendar(&self, ask: &Ask, choice: &CalendarChoice) -> String {
        let mut file = File(String::new());
        file.line("BEGIN", "VCALENDAR");
        file.line("VERSION", "2.0");
        file.line("PRODID", "-//Gablewright//Timetable//EN");
        file.line("CALSCALE", "GREGORIAN");
        for entry in &self.entries {
            let wait = entry.who.is_empty();
            let own = choice.helper.as_ref().is_none_or(|helper| wait || entry.who.contains(helper));
            if !own || (wait && !choice.waits) {
                continue;
            }
            for (part, span) in entry.spans.iter().enumerate() {
                event(&mut file, ask, choice, entry, part, *span);
            }
        }
        self.last(&mut file, choice);
        file.line("END", "VCALENDAR");
        file.0
    }

    /// When the house must stand.
    fn last(&self, file: &mut File, choice: &CalendarChoice) {
        file.line("BEGIN", "VEVENT");
        file.line("UID", &uid(choice, "stand-by", 0));
        file.line("DTSTAMP", &utc(choice.stamp));
        file.line("DTSTART", &local(self.stand_by));
        file.text("SUMMARY", &format!("{}: must stand", choice.house));
        file.line("TRANSP", "TRANSPARENT");
        file.line("END", "VEVENT");
    }
}

fn event(file: &mut File, ask: &Ask, choice: &CalendarChoice, entry: &Entry, part: usize, span: (DateTime, DateTime)) {
    let wait = entry.who.is_empty();
    file.line("BEGIN", "VEVENT");
    file.line("UID", &uid(choice, &entry.id, part));
    file.line("DTSTAMP", &utc(choice.stamp));
    file.line("DTSTART", &local(span.0));
    file.line("DTEND", &local(span.1));
    let more = if entry.spans.len() > 1 { format!(" ({} of {})", part + 1, entry.spans.len()) } else { String::new() };
    file.text("SUMMARY", &format!("{}{more}", entry.name));
    file.text("DESCRIPTION", &description(entry));
    if let Some(kitchen) = ask.kitchens.get(entry.kitchen).filter(|own| !own.name.is_empty()) {
        file.text("LOCATION", &kitchen.name);
    }
    file.line("TRANSP", if wait { "TRANSPARENT" } else { "OPAQUE" });
    match choice.alarm {
        Some(before) if !wait => alarm(file, &entry.name, &format!("TRIGGER:-PT{before}M")),
        Some(_) if entry.minutes() >= SHORT_WAIT => {
            alarm(file, &tr!("Over: {}", entry.name), "TRIGGER;RELATED=END:PT0S");
        }
        _ => {}
    }
    file.line("END", "VEVENT");
}

fn description(entry: &Entry) -> String {
    let mut lines = Vec::new();
    if !entry.who.is_empty() {
        lines.push(entry.who.join(" and "));
    }
    match entry.slack {
        Some(0) => lines.push(tr!("Cannot begin later.").to_owned()),
        Some(slack) => lines.push(tr!("May begin up to {} later if what follows is then late too.", long(slack))),
        None => {}
    }
    lines.extend(entry.kind.cautions().iter().map(|caution| format!("{}: {}", caution.title(), caution.words())));
    lines.join("\n")
}

fn alarm(file: &mut File, text: &str, trigger: &str) {
    file.line("BEGIN", "VALARM");
    file.line("ACTION", "DISPLAY");
    file.text("DESCRIPTION", text);
    file.folded(trigger);
    file.line("END", "VALARM");
}

/// The stable id of an event: the house, the task, which piece of it.
fn uid(choice: &CalendarChoice, id: &str, part: usize) -> String {
    let plain = |text: &str| -> String {
        let letter = |c: char| {
            if c.is_ascii_alphanumeric() || "-./".contains(c) { c.to_string() } else { format!("_{:x}", c as u32) }
        };
        text.chars().map(letter).collect()
    };
    let part = if part == 0 { String::new() } else { format!("+{}", part + 1) };
    format!("{}/{}{part}@gablewright", plain(&choice.house), plain(id))
}

fn local(at: DateTime) -> String {
    at.strftime("%Y%m%dT%H%M%S").to_string()
}

fn utc(at: DateTime) -> String {
    local(at) + "Z"
}

/// A calendar as it is written.
struct File(String);

impl File {
    /// A line whose value is no free text.
    fn line(&mut self, name: &str, value: &str) {
        self.folded(&format!("{name}:{value}"));
    }

    /// A line of free text (RFC 5545, 3.3.11).
    fn text(&mut self, name: &str, text: &str) {
        let mut escaped = String::new();
        for c in text.chars() {
            match c {
                '\\' | ';' | ',' => escaped.extend(['\\', c]),
                '\n' => escaped.push_str("\\n"),
                c if c.is_control() => {}
                c => escaped.push(c),
            }
        }
        self.line(name, &escaped);
    }

    /// Folds a line (RFC 5545, 3.1); letters of several octets stay whole.
    fn folded(&mut self, line: &str) {
        let mut long = 0;
        for c in line.chars() {
            if long + c.len_utf8() > LONGEST {
                self.0.push_str("\r\n ");
                long = 1;
            }
            self.0.push(c);
            long += c.len_utf8();
        }
        self.0.push_str("\r\n");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_folded_and_text_is_escaped() {
        let mut file = File(String::new());
        file.text("SUMMARY", &format!("a;b,c\\d\ne\r{}", "ö".repeat(60)));
        assert!(file.0.starts_with("SUMMARY:a\\;b\\,c\\\\d\\neö"), "{}", file.0);
        assert!(file.0.split("\r\n").all(|line| line.len() <= 75));
        assert_eq!(file.0.replace("\r\n ", "").matches('ö').count(), 60);
        let exact = |count: usize| {
            let mut file = File(String::new());
            file.folded(&"x".repeat(count));
            file.0.split("\r\n").map(str::len).collect::<Vec<_>>()
        };
        assert_eq!(exact(75), [75, 0]);
        assert_eq!(exact(76), [75, 2, 0]);
        assert_eq!(exact(150), [75, 75, 2, 0]);
    }
}
