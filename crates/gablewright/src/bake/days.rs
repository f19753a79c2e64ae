//! The timetable: when what is done, so that the house stands in time.

use super::hours;
use crate::args::BakeArgs;
use crate::failure::Failure;
use gable_bake::timetable::{Ask, CalendarChoice, Entry, Tasks, Timetable, Workplace, long, plan::ROUNDS, when};
use gable_bake::{About, BakePlan, Chapter, Notebook};
use gable_export::{plain_reason, save};
use jiff::civil::DateTime;
use std::path::Path;

/// Width of a chart, mm: an A4 sheet, lying, within its margins.
const CHART: f64 = 277.0;

/// The timetable and what was asked for it.
pub(super) struct Days {
    pub(super) ask: Ask,
    pub(super) table: Timetable,
}

impl Days {
    /// Plans the days, if somebody has said by when the house must stand.
    pub(super) fn plan(
        args: &BakeArgs,
        about: &About<'_>,
        plan: &BakePlan,
        notebook: &Notebook,
    ) -> Result<Option<Self>, Failure> {
        let Some(by) = &args.ready_by else { return Ok(None) };
        if plan.copies > 1 {
            let words = "--ready-by plans the days of one house; leave out --copies, or plan without the days";
            return Err(Failure::Usage(words.into()));
        }
        let moment = |option: &str, text: &str| {
            // A day alone would mean its first minute, which nobody thinks of.
            let read = text.parse::<DateTime>().ok().filter(|_| text.contains(':'));
            read.ok_or_else(|| {
                Failure::Usage(format!("--{option} {text}: give a date and a time such as 2026-12-20T15:00"))
            })
        };
        let stand_by = moment("ready-by", by)?;
        let now = match &args.now {
            Some(text) => moment("now", text)?,
            None => jiff::Zoned::now().datetime(),
        };
        let now = now.with().second(0).subsec_nanosecond(0).build().unwrap_or(now);
        if stand_by <= now {
            return Err(Failure::Usage(format!("--ready-by {by}: that is past; give a moment after {}", when(now))));
        }
        let usual = [hours::USUAL.to_owned()];
        let said = if args.hours.is_empty() { &usual[..] } else { &args.hours };
        let helpers = hours::helpers(said, now, stand_by)?;
        let ask = Ask {
            now,
            stand_by,
            reserve: 120,
            kitchens: vec![Workplace { ovens: args.ovens, trays: args.tray_count, ..Workplace::usual("Kitchen") }],
            home: 0,
            between: 0,
            helpers,
            damp: args.damp,
            lights: plan.needs.lights,
            carried: false,
            rates: Default::default(),
            learned: Default::default(),
        };
        let tasks = Tasks::of(about, &plan.ovenfuls, &plan.needs.dough, &notebook.figures, &ask);
        let table = Timetable::of(&tasks, &ask, ROUNDS).map_err(|faults| {
            let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
            Failure::Usage(format!("the days cannot be planned: {}", said.join("; ")))
        })?;
        Ok(Some(Self { ask, table }))
    }

    /// Writes calendar and chart where they are wanted, and says where.
    pub(super) fn write(&self, args: &BakeArgs, house: &str) -> Result<Vec<String>, Failure> {
        let mut written = Vec::new();
        if let Some(path) = &args.calendar {
            let stamp = jiff::Timestamp::now().to_zoned(jiff::tz::TimeZone::UTC).datetime();
            let stamp = if args.now.is_some() { self.ask.now } else { stamp };
            let choice = CalendarChoice { house: house.to_owned(), stamp, helper: None, alarm: Some(15), waits: true };
            keep(path, self.table.calendar(&self.ask, &choice).as_bytes())?;
            written.push(path.display().to_string());
        }
        if let (Some(path), Some(chart)) = (&args.chart, self.table.chart(&self.ask, CHART)) {
            keep(path, gable_export::write_svg(&chart).as_bytes())?;
            written.push(path.display().to_string());
        }
        Ok(written)
    }

    /// The days in words.
    pub(super) fn chapters(&self, assumed: bool) -> Vec<Chapter> {
        let table = &self.table;
        let mut lines = Vec::new();
        match (table.stands, &table.trouble) {
            (Some(stands), None) => {
                lines.push(format!("It stands on {}; asked for {}.", when(stands), when(table.stand_by)))
            }
            (stands, trouble) => {
                let late = stands.map_or_else(String::new, |at| format!(" It would stand on {}.", when(at)));
                lines.push(format!("It cannot stand by {}.{late}", when(table.stand_by)));
                if let Some(misfit) = trouble {
                    lines.extend(misfit.short.iter().cloned());
                    let help = |o: &gable_bake::timetable::Offer| {
                        format!("This helps: {}; it then stands on {}.", o.words, when(o.stands))
                    };
                    lines.extend(misfit.helps.iter().map(help));
                }
            }
        }
        if assumed {
            lines.push(format!("Hours taken as: {}. Give yours with --hours.", hours::USUAL));
        }
        let mut chapters = vec![Chapter { title: "Days".to_owned(), lines }];
        let mut day: Vec<&Entry> = Vec::new();
        for entry in &table.entries {
            if day.first().is_some_and(|first| first.from().date() != entry.from().date()) {
                chapters.extend(self.day(&std::mem::take(&mut day)));
            }
            day.push(entry);
        }
        chapters.extend(self.day(&day));
        chapters
    }

    fn day(&self, entries: &[&Entry]) -> Option<Chapter> {
        let date = entries.first()?.from().date();
        let line = |e: &&Entry| {
            let who = if e.who.is_empty() { "waits".to_owned() } else { e.who.join(", ") };
            format!("{}  {}, {} ({who})", e.from().strftime("%H:%M"), e.name, long(e.minutes()))
        };
        Some(Chapter { title: date.strftime("%A %-d %B").to_string(), lines: entries.iter().map(line).collect() })
    }
}

fn keep(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    if let Some(folder) = path.parent().filter(|f| !f.as_os_str().is_empty()) {
        std::fs::create_dir_all(folder).map_err(|e| {
            Failure::Usage(format!("{}: the folder cannot be made: {}", folder.display(), plain_reason(&e)))
        })?;
    }
    save(path, bytes).map_err(|e| Failure::Usage(e.to_string()))
}
