//! What follows from the pieces: dough, icing, ovenfuls, shopping.

mod data;
mod days;
mod said;

use crate::args::BakeArgs;
use crate::baker;
use crate::failure::Failure;
use crate::house;
use days::Days;
use gable_bake::notebook::title;
use gable_bake::{BakePlan, Chapter, Notebook};
use gable_export::{Complete, Together};
use gable_shell::House;
use std::io::Write;

/// Says what a house takes, what is made and bought for it, what is baked together, and when what is done.
pub(crate) fn run(args: &BakeArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let [name, ..] = &args.houses[..] else { return Err(Failure::Usage("name a house".into())) };
    let plain = house::load(name)?;
    let now = days::now(args)?;
    let mut baker = baker::read(&args.baker, plain.unit)?;
    baker.notebook = said::with(args, &baker.notebook, &plain, now)?;
    baker.others = baker::others(&baker.notebook, &plain)?;
    let complete = Complete::of(baker.notebook.baked_here(&plain));
    house::refuse_blocked(name, &complete.solved)?;
    let together = Together::of(&baker);
    together.iter().try_for_each(|other| house::refuse_blocked(title(&other.house), &other.solved))?;
    let house = &complete.house;
    let lots = together.lots(complete.about(), &baker);
    let mut plan = BakePlan::of(&lots, &baker.kitchen, &baker.notebook);
    let mut days = Days::plan(&lots, &plan, &baker, now)?;
    let mut chapters = Vec::new();
    if said::works(args) {
        let lines = said::work(args, &mut baker.notebook, &known(days.as_ref())?.work, (house, &lots, &plan.ovenfuls))?;
        chapters.push(Chapter { title: "Written down".to_owned(), lines });
        plan = BakePlan::of(&lots, &baker.kitchen, &baker.notebook);
        days = Days::plan(&lots, &plan, &baker, now)?;
    }
    if let Some(piece) = &args.work.broke {
        chapters.push(said::broke(piece, &known(days.as_ref())?.work, (&lots, &baker), house.unit)?);
    }
    let files = days.as_ref().map(|d| d.write(args, title(house))).transpose()?.unwrap_or_default();
    if said::keeps(args) {
        baker::write(&args.baker, &baker.notebook)?;
    }
    if args.json {
        let data = data::PlanData::new(&plan, days.as_ref());
        let text = serde_json::to_string_pretty(&data).map_err(|e| Failure::Usage(e.to_string()))?;
        writeln!(out, "{text}")?;
        return Ok(());
    }
    if args.shopping {
        let list = &plan.shopping;
        let list = if args.csv {
            list.csv(house.unit).map_err(|e| Failure::Usage(e.to_string()))?
        } else {
            list.text(house.unit)
        };
        write!(out, "{list}")?;
        return Ok(());
    }
    let today = args.work.today || !chapters.is_empty();
    if today {
        known(days.as_ref())?;
    } else {
        writeln!(out, "{}", text(house, &plan, &baker.notebook))?;
    }
    chapters.extend(days.iter().flat_map(|d| d.chapters(today)));
    let said: String = chapters.iter().map(Chapter::text).collect();
    writeln!(out, "{}", said.trim_end())?;
    files.iter().try_for_each(|file| writeln!(out, "{file}"))?;
    Ok(())
}

/// The days, without which there is nothing to work through.
fn known(days: Option<&Days>) -> Result<&Days, Failure> {
    let words =
        "the days are not planned yet: say by when the house must stand, with --ready-by 2026-12-20T15:00 --keep";
    days.ok_or_else(|| Failure::Usage(words.into()))
}

/// All of it for people, a heading for each matter.
fn text(house: &House, plan: &BakePlan, notebook: &Notebook) -> String {
    let unit = house.unit;
    let title = plan.title();
    let letters = plan.letters().map_or_else(String::new, |letters| format!("{letters}\n\n"));
    let problems: String = plan.problems.iter().map(|p| format!("Cannot be planned: {p}\n")).collect();
    let before = [plan.amounts(notebook, unit), plan.recipe_cards(notebook, unit), plan.trays(unit)].concat();
    let after = [vec![plan.cost_words(notebook)], plan.caution_words(), vec![plan.assumption_words()]].concat();
    let said = |chapters: &[Chapter]| chapters.iter().map(Chapter::text).collect::<String>();
    let shopping = plan.shopping.text(unit);
    format!(
        "{title}\n\n{problems}{letters}{}Shopping\n{shopping}\n{}",
        said(&before),
        said(&after).trim_end().to_owned()
    )
}
