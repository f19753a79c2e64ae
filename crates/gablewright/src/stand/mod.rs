//! Whether it will stand and travel: fresh icing, pieces in the hand, damp air, the way, light.

pub(crate) mod args;
mod data;

use crate::args::{BakerArgs, StandArgs};
use crate::baker;
use crate::failure::Failure;
use crate::house;
use gable_bake::Chapter;
use gable_export::Complete;
use gable_stand::bend::Kept;
use gable_stand::carry::BOARDS;
use gable_stand::damp::Air;
use gable_stand::{ABOUT_CAKE, Ask, Report, Site};
use std::io::Write;

/// Longest time on show that is reckoned with, days.
const MOST_DAYS: f64 = 366.0;

/// Says what will stand, what needs care and what is likely to break.
pub(crate) fn run(args: &StandArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let ask = ask(args)?;
    let house = house::load(&args.house)?;
    let own = BakerArgs { notebook: args.notebook.clone(), no_notebook: args.no_notebook, ..BakerArgs::default() };
    let notebook = baker::read(&own, house.unit)?.notebook;
    let complete = Complete::of(notebook.baked_here(&house));
    house::refuse_blocked(&args.house, &complete.solved)?;
    let site = Site::new(complete.about(), &notebook);
    let mut report = Report::of(&site, &ask, &mut Kept::default());
    report.try_changes(&site, || true);
    if args.json {
        let data = data::StandData::new(&report, &site);
        let text = serde_json::to_string_pretty(&data).map_err(|e| Failure::Usage(e.to_string()))?;
        return Ok(writeln!(out, "{text}")?);
    }
    let title = if house.owner.title.is_empty() { "The house" } else { &house.owner.title };
    let said: String = report.chapters(&site).iter().map(Chapter::text).collect();
    let unordered = match complete.guide {
        Some(_) => "",
        None => "No order of assembly was found, so nothing is said of fresh icing and joints.\n\n",
    };
    Ok(writeln!(out, "{title}\n\n{unordered}{said}{ABOUT_CAKE}")?)
}

fn ask(args: &StandArgs) -> Result<Ask, Failure> {
    let humidity = crate::resize::share("humidity", &args.humidity)?;
    if !(0.0..=0.95).contains(&humidity) {
        return Err(Failure::Usage(format!("--humidity {}: give 0 to 95 %", args.humidity)));
    }
    if !(0.0..=MOST_DAYS).contains(&args.days) {
        return Err(Failure::Usage(format!("--days {}: give 0 to {MOST_DAYS}", args.days)));
    }
    let unknown = |word: &&String| BOARDS.iter().all(|b| b.word != word.as_str());
    if let Some(word) = args.board.as_ref().filter(unknown) {
        let words: Vec<&str> = BOARDS.iter().map(|b| b.word).collect();
        return Err(Failure::Usage(format!("--board {word} is not known; it may be {}", words.join(", "))));
    }
    Ok(Ask { air: Air { humidity, days: args.days }, board: args.board.clone() })
}
