//! The timetable as a drawing: all days on one sheet, or one day task by task.

use super::moment::minute;
use super::{Ask, Entry, TaskKind, Timetable, when};
use gable_drawing::{Anchor, Drawing, Fill, Layer, LineRole, Shade, Stroke, Text};
use gable_plane::{Contour, P2};
use gable_words::tr;
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Time};

/// Height of a row, mm.
const ROW: f64 = 6.0;
/// Height of capitals, mm (ISO 3098).
const LETTERS: f64 = 2.5;
/// The same of small words.
const SMALL: f64 = 1.8;
/// Width of a letter beside the height of a capital, about.
const WIDE: f64 = 0.72;
/// The same on average over many letters, as in names.
const WIDE_NAME: f64 = 0.66;
/// Room for words on the left, mm.
const WORDS: f64 = 50.0;
/// Share of the width for words where tasks have their whole names.
const NAMES: f64 = 0.66;
/// Thinnest bar that is still seen, mm.
const THIN: f64 = 0.5;
/// Share of a row that a bar takes.
const BAR: f64 = 0.62;
/// A day on one sheet begins at this hour and lasts so many.
const MORNING: i64 = 4;

/// A drawing with an axis of time.
struct Sheet {
    drawing: Drawing,
    left: f64,
    from: i64,
    per_minute: f64,
    /// Top of the next row.
    y: f64,
    /// Height of capitals in rows, mm.
    letters: f64,
    top: f64,
}

impl Sheet {
    fn new(width: f64, left: f64, (from, to): (i64, i64), rows: usize, head: f64) -> Self {
        let height = head + rows as f64 * ROW + 2.0;
        let per_minute = (width - left) / (to - from).max(1) as f64;
        let (drawing, top) = (Drawing::new(width, height), height - head);
        Self { drawing, left, from, per_minute, y: top, letters: LETTERS, top }
    }

    fn x(&self, minute: i64) -> f64 {
        let x = self.left + (minute - self.from) as f64 * self.per_minute;
        x.clamp(self.left, self.drawing.width)
    }

    fn at(&self, moment: DateTime) -> f64 {
        self.x(minute(moment))
    }

    fn note(&mut self, x: f64, y: f64, height: f64, anchor: Anchor, bold: bool, text: &str) {
        self.drawing.push(Text { bold, ..Text::note(P2::new(x, y), height, anchor, text) });
    }

    /// Makes letters of rows so small that the longest of some words has room, but no smaller than small words are.
    fn fit(&mut self, words: impl Iterator<Item = usize>, indent: f64) {
        let longest = words.max().unwrap_or(0).max(1) as f64;
        self.letters = ((self.left - 2.0 - indent) / (longest * WIDE_NAME)).clamp(SMALL, LETTERS);
    }

    /// The words on the left of a row; what is too long even so stands on two lines, and is cut off only where that is no room
    /// either.
    fn words(&mut self, text: &str, indent: f64, bold: bool) {
        let (room, letters) = (self.left - 2.0 - indent, self.letters);
        let most = |letters: f64| (room / (letters * WIDE_NAME) + 1e-6).max(4.0) as usize;
        let middle = self.y - ROW / 2.0;
        if text.chars().count() <= most(letters) {
            self.note(indent, middle - letters / 2.0, letters, Anchor::Start, bold, text);
            return;
        }
        let (first, rest) = wrapped(text, most(SMALL));
        let apart = (ROW - 2.0 * SMALL) / 3.0;
        self.note(indent, middle + apart / 2.0, SMALL, Anchor::Start, bold, &first);
        self.note(indent, middle - apart / 2.0 - SMALL, SMALL, Anchor::Start, bold, &rest);
    }

    /// A bar in the row: work is dark, what waits is pale with a rim.
    fn bar(&mut self, (from, to): (DateTime, DateTime), wait: bool, part: f64) {
        let (low, high) = (self.at(from), self.at(to));
        if high <= self.left || low >= self.drawing.width {
            return;
        }
        let high = high.max(low + THIN);
        let half = ROW * BAR * part / 2.0;
        let middle = self.y - ROW / 2.0;
        let corners = [P2::new(low, middle - half), P2::new(high, middle + half)];
        let ring = Contour::rectangle(corners[0], corners[1]);
        let shade = if wait { Shade::Tint } else { Shade::Biscuit { light: 0.25 } };
        self.drawing.push(Fill { layer: Layer::Picture, shade, rings: vec![ring.flatten(1.0)] });
        self.drawing.push(Stroke::contour(Layer::Picture, if wait { LineRole::Fine } else { LineRole::Thin }, &ring));
    }

    fn upright(&mut self, x: f64, role: LineRole, from: f64, to: f64) {
        self.drawing.line(Layer::Notes, role, P2::new(x, from), P2::new(x, to));
    }

    fn rule(&mut self) {
        let y = self.y;
        let width = self.drawing.width;
        self.drawing.line(Layer::Notes, LineRole::Fine, P2::new(0.0, y), P2::new(width, y));
    }

    fn next(&mut self) {
        self.y -= ROW;
    }
}

impl Timetable {
    /// All days on a sheet of a width in mm: a row for each kind of task and each helper, work dark, waiting pale. Nothing
    /// if nothing finds a time.
    pub fn chart(&self, ask: &Ask, width: f64) -> Option<Drawing> {
        let first = self.entries.iter().map(Entry::from).min()?.date();
        let last = self.entries.iter().map(Entry::to).max()?.max(self.stand_by);
        let days = days(first, last.date());
        let from = midnight(first);
        let to = midnight(*days.last()?) + 1440;
        let kinds: Vec<TaskKind> =
            TaskKind::ALL.into_iter().filter(|kind| self.entries.iter().any(|entry| entry.kind == *kind)).collect();
        let rows = kinds.len() + ask.helpers.len() + 1;
        let mut sheet = Sheet::new(width, WORDS, (from, to), rows, 16.0);
        let (height, foot) = (sheet.drawing.height, 1.0);
        self.title(&mut sheet, height);
        for day in &days {
            let (begin, end) = (sheet.x(midnight(*day)), sheet.x(midnight(*day) + 1440));
            sheet.upright(begin, LineRole::Fine, foot, sheet.top + 3.5);
            let label = day.strftime("%a %-d").to_string();
            // Names of days are left out where there is no room.
            let label = if label.len() as f64 * SMALL * WIDE < end - begin { label } else { day.day().to_string() };
            let y = sheet.top + 1.2;
            sheet.note((begin + end) / 2.0, y, SMALL, Anchor::Middle, false, &label);
        }
        for kind in kinds {
            sheet.rule();
            sheet.words(kind.words(), 0.0, false);
            for entry in self.entries.iter().filter(|entry| entry.kind == kind) {
                entry.spans.iter().for_each(|span| sheet.bar(*span, entry.who.is_empty(), 1.0));
            }
            sheet.next();
        }
        sheet.rule();
        sheet.words(tr!("Helpers"), 0.0, true);
        sheet.next();
        for helper in &ask.helpers {
            sheet.rule();
            sheet.words(&helper.name, 0.0, false);
            for shift in &helper.shifts {
                let (from, to) = shift.minutes();
                sheet.bar((super::moment::moment(from), super::moment::moment(to)), true, 1.0);
            }
            for entry in self.entries.iter().filter(|entry| entry.who.contains(&helper.name)) {
                entry.spans.iter().for_each(|span| sheet.bar(*span, false, 0.6));
            }
            sheet.next();
        }
        sheet.rule();
        let x = sheet.at(self.stand_by);
        // Not through the name of its day.
        let top = sheet.top + 0.8;
        sheet.upright(x, LineRole::Edge, foot, top);
        Some(sheet.drawing)
    }

    fn title(&self, sheet: &mut Sheet, height: f64) {
        let stands = match self.stands {
            Some(stands) if self.trouble.is_none() => tr!("Stands {}", when(stands)),
            Some(stands) => tr!("Would stand only {}", when(stands)),
            None => tr!("Does not fit").to_owned(),
        };
        let width = sheet.drawing.width;
        sheet.note(0.0, height - 4.5, 3.5, Anchor::Start, true, &stands);
        let by = tr!("must stand by {} (thick line)", when(self.stand_by));
        sheet.note(width, height - 4.5, LETTERS, Anchor::End, false, &by);
    }

    /// One day task by task, on as many sheets as it takes: work with its time and who does it, and what waits. A sheet is
    /// `width` wide and at most `tall` high, mm.
    pub fn day_charts(&self, day: Date, width: f64, tall: f64) -> Vec<Drawing> {
        let from = midnight(day) + MORNING * 60;
        let (begin, end) = (super::moment::moment(from), super::moment::moment(from + 1440));
        let on = |e: &&Entry| e.spans.iter().any(|span| span.0 < end && span.1 > begin);
        let own: Vec<&Entry> = self.entries.iter().filter(on).collect();
        // A wait that follows work of the same day is drawn behind it.
        let mut rows: Vec<Row<'_>> = Vec::new();
        for &entry in &own {
            match rows.iter_mut().find(|row| row.entry.to() == entry.from() && follows(row.entry, entry)) {
                Some(row) => row.wait = Some(entry),
                None => rows.push(Row { entry, wait: None }),
            }
        }
        if own.is_empty() {
            return Vec::new();
        }
        // From the first hour in which someone works to the last in which something happens.
        let moments = own.iter().flat_map(|entry| &entry.spans).filter(|span| span.0 >= begin && span.0 < end);
        let low = moments.clone().map(|span| minute(span.0)).min().unwrap_or(from);
        let work =
            own.iter().filter(|e| !e.who.is_empty()).flat_map(|e| &e.spans).filter(|s| s.0 >= begin && s.0 < end);
        let high = work.map(|span| minute(span.1)).max().unwrap_or(from + 1440);
        let (low, high) = (low.div_euclid(60) * 60, (high + 59).div_euclid(60) * 60);
        let high = high.max(low + 180).min(from + 1440);
        let room = (((tall - 18.0) / ROW).floor() as usize).max(1);
        rows.chunks(room).map(|rows| day_sheet(day, rows, (low, high), (begin, end), width)).collect()
    }
}

fn day_sheet(day: Date, rows: &[Row<'_>], span: (i64, i64), (begin, end): (DateTime, DateTime), width: f64) -> Drawing {
    let mut sheet = Sheet::new(width, width * NAMES, span, rows.len(), 16.0);
    let height = sheet.drawing.height;
    sheet.note(0.0, height - 4.5, 3.5, Anchor::Start, true, &day.strftime("%A %-d %B").to_string());
    let step = if span.1 - span.0 > 12 * 60 { 120 } else { 60 };
    let mut hour = span.0;
    while hour <= span.1 {
        let x = sheet.x(hour);
        let top = sheet.top + 0.8;
        sheet.upright(x, LineRole::Fine, 1.0, top);
        if hour < span.1 {
            let label = super::moment::moment(hour).strftime("%H:%M").to_string();
            sheet.note(x, top + 0.6, SMALL, Anchor::Start, false, &label);
        }
        hour += step;
    }
    sheet.fit(rows.iter().map(|row| row.entry.with_helpers().chars().count()), CLOCKS);
    for Row { entry, wait } in rows {
        sheet.rule();
        let on = |span: &&(DateTime, DateTime)| span.0 < end && span.1 > begin;
        let (from, to) = entry.spans.iter().find(on).copied().unwrap_or((entry.from(), entry.to()));
        let clock = |at: DateTime| {
            if at < begin || at > end { at.strftime("%a").to_string() } else { at.strftime("%H:%M").to_string() }
        };
        sheet.words(&format!("{}–{}", clock(from), clock(to)), 0.0, false);
        sheet.words(&entry.with_helpers(), CLOCKS, false);
        entry.spans.iter().for_each(|span| sheet.bar(*span, entry.who.is_empty(), 1.0));
        wait.iter().flat_map(|wait| &wait.spans).for_each(|span| sheet.bar(*span, true, 1.0));
        sheet.next();
    }
    sheet.rule();
    sheet.drawing
}

/// Room for two times of day before a name, mm.
const CLOCKS: f64 = 24.0;

impl Entry {
    /// 'Ida, Ole: Put up the front wall'; what waits by itself is nobody's.
    fn with_helpers(&self) -> String {
        let who = if self.who.is_empty() { String::new() } else { format!("{}: ", self.who.join(", ")) };
        who + &self.name
    }
}

/// A task of a day, and what waits as soon as it is done.
struct Row<'t> {
    entry: &'t Entry,
    wait: Option<&'t Entry>,
}

/// Whether a wait is the one that begins with the end of some work.
fn follows(work: &Entry, wait: &Entry) -> bool {
    let key = work.id.split_once('/').map_or("", |(_, key)| key);
    wait.id == format!("{}/{}-{key}", wait.kind.word(), work.kind.word())
}

/// A text on two lines of so many letters at most, broken between words where it can be; the second is cut off where it is
/// longer.
fn wrapped(text: &str, most: usize) -> (String, String) {
    let letters: Vec<char> = text.chars().collect();
    let end = most.min(letters.len());
    let at = (1..end).rev().find(|&k| letters[k] == ' ').unwrap_or(end);
    let first = letters[..at].iter().collect();
    let rest: String = letters[at..].iter().collect::<String>().trim_start().to_owned();
    if rest.chars().count() <= most {
        return (first, rest);
    }
    (first, rest.chars().take(most - 1).chain(['…']).collect())
}

fn midnight(day: Date) -> i64 {
    minute(day.to_datetime(Time::midnight()))
}

fn days(first: Date, last: Date) -> Vec<Date> {
    // Nobody bakes for longer than a year; what is typed wrong must not fill the memory.
    let next = |day: &Date| day.checked_add(1.days()).ok().filter(|next| *next <= last);
    std::iter::successors(Some(first), next).take(366).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_names_are_broken_between_words_and_cut_off_last_of_all() {
        let both = |text, most| {
            let (first, rest) = wrapped(text, most);
            format!("{first}|{rest}")
        };
        assert_eq!(both("Decorate Main body: back wall", 20), "Decorate Main body:|back wall");
        assert_eq!(
            both("Decorate Main body: back wall, brick of fondant", 20),
            "Decorate Main body:|back wall, brick of…"
        );
        assert_eq!(both("Featherstonehaugh", 8), "Feathers|tonehau…");
        assert_eq!(both("wall wall", 4), "wall|wall");
    }
}
