//! The timetable as a table for spreadsheets.

use super::{Ask, Timetable};
use jiff::civil::DateTime;

/// Names of the columns.
const HEAD: [&str; 9] = ["begins", "ends", "task", "kind", "who", "kitchen", "minutes", "may begin later by", "id"];

impl Timetable {
    /// One row for each time that a task is worked on, in order; minutes are those of the row. Moments are written as in
    /// ISO 8601, to the minute.
    ///
    /// # Errors
    /// When the table cannot be written, which does not happen in memory.
    pub fn csv(&self, ask: &Ask) -> Result<String, ::csv::Error> {
        let mut writer = ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(Vec::new());
        writer.write_record(HEAD)?;
        let mut rows = Vec::new();
        for entry in &self.entries {
            for &(from, to) in &entry.spans {
                let minutes = super::moment::minute(to) - super::moment::minute(from);
                let slack = entry.slack.map_or_else(String::new, |slack| slack.to_string());
                rows.push((
                    from,
                    to,
                    [
                        moment(from),
                        moment(to),
                        entry.name.clone(),
                        entry.kind.word().to_owned(),
                        entry.who.join(" and "),
                        ask.kitchens.get(entry.kitchen).map_or_else(String::new, |own| own.name.clone()),
                        minutes.to_string(),
                        slack,
                        entry.id.clone(),
                    ],
                ));
            }
        }
        rows.sort_by_key(|row| (row.0, row.1));
        for (.., row) in rows {
            writer.write_record(&row)?;
        }
        let bytes = writer.into_inner().map_err(|error| ::csv::Error::from(error.into_error()))?;
        Ok(String::from_utf8_lossy(&bytes).into_owned())
    }
}

fn moment(at: DateTime) -> String {
    at.strftime("%Y-%m-%d %H:%M").to_string()
}
