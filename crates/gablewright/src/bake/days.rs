//! The timetable: when what is done, so that the house stands in time.

use super::said::moment;
use crate::args::BakeArgs;
use crate::failure::Failure;
use gable_bake::timetable::{CalendarChoice, Person, Timetable, Work, plan::ROUNDS, when};
use gable_bake::{BakePlan, Chapter, Lots};
use gable_export::{Baker, keep};
use jiff::civil::DateTime;
use std::path::Path;

/// Width of a chart, mm: an A4 sheet, lying, within its margins.
const CHART: f64 = 277.0;

/// The timetable and what was asked for it.
pub(super) struct Days {
    pub(super) work: Work,
    pub(super) table: Timetable,
    /// Whether nobody has said who helps.
    assumed: bool,
}

impl Days {
    /// Plans the days, if somebody has said by when the house must stand.
    pub(super) fn plan(
        lots: &Lots<'_>,
        plan: &BakePlan,
        baker: &Baker,
        now: DateTime,
    ) -> Result<Option<Self>, Failure> {
        let notebook = &baker.notebook;
        let Some(build) = notebook.build(lots.first().about.house) else { return Ok(None) };
        let Some(work) = build.work(lots, plan, (notebook, &baker.kitchen), now) else { return Ok(None) };
        let table = Timetable::of(&work.left, &work.ask, ROUNDS).map_err(|faults| {
            let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
            Failure::Usage(format!("the days cannot be planned: {}", said.join("; ")))
        })?;
        Ok(Some(Self { work, table, assumed: notebook.people.is_empty() }))
    }

    /// Writes calendar, chart and table where they are wanted, and says where.
    pub(super) fn write(&self, args: &BakeArgs, house: &str) -> Result<Vec<String>, Failure> {
        let mut written = Vec::new();
        let mut put = |path: &Path, text: String| {
            written.push(path.display().to_string());
            keep(path, &text).map_err(Failure::Usage)
        };
        if let Some(path) = &args.calendar {
            ends_in(path, "ics", "--calendar")?;
            let stamp = jiff::Timestamp::now().to_zoned(jiff::tz::TimeZone::UTC).datetime();
            let stamp = if args.now.is_some() { self.work.ask.now } else { stamp };
            let choice = CalendarChoice { house: house.to_owned(), stamp, helper: None, alarm: Some(15), waits: true };
            put(path, self.table.calendar(&self.work.ask, &choice))?;
        }
        if let (Some(path), Some(chart)) = (&args.chart, self.table.chart(&self.work.ask, CHART)) {
            ends_in(path, "svg", "--chart")?;
            put(path, gable_export::write_svg(&chart))?;
        }
        if let Some(path) = &args.table {
            ends_in(path, "csv", "--table")?;
            put(path, self.table.csv(&self.work.ask).map_err(|e| Failure::Usage(e.to_string()))?)?;
        }
        Ok(written)
    }

    /// The days in words, or only the page of today.
    pub(super) fn chapters(&self, today: bool) -> Vec<Chapter> {
        let mut lines = self.table.verdict();
        if self.assumed {
            lines.push(format!("Hours taken as: {}. Give yours with --hours.", Person::usual()));
        }
        let now = self.work.ask.now;
        if today {
            let title = format!("Today, {}", when(now));
            return std::iter::once(Chapter { title, lines }).chain(self.table.today(now).chapters()).collect();
        }
        let mut chapters = vec![Chapter { title: "Days".to_owned(), lines }];
        chapters.extend(self.table.days());
        chapters.push(self.work.ask.assumption_words());
        chapters
    }
}

/// Files are told by their endings; what they say must be in them.
fn ends_in(path: &Path, ending: &str, option: &str) -> Result<(), Failure> {
    if path.extension().is_some_and(|own| own.eq_ignore_ascii_case(ending)) {
        return Ok(());
    }
    let words = format!("{option} {}: give a name that ends in .{ending}; nothing else is written", path.display());
    Err(Failure::Usage(words))
}

/// The moment that counts as now, seconds left out.
pub(super) fn now(args: &BakeArgs) -> Result<DateTime, Failure> {
    let now = match &args.now {
        Some(text) => moment("now", text)?,
        None => jiff::Zoned::now().datetime(),
    };
    Ok(now.with().second(0).subsec_nanosecond(0).build().unwrap_or(now))
}
