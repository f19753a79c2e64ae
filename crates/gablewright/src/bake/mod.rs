//! What follows from the pieces: dough, icing, ovenfuls, shopping.

mod data;
mod days;
mod hours;

use crate::args::BakeArgs;
use crate::baker;
use crate::failure::Failure;
use crate::house;
use gable_bake::{About, BakePlan, Chapter, Notebook};
use gable_export::Baker;
use gable_shell::House;
use std::io::Write;

/// Houses of one kind that are baked at once.
const MOST_COPIES: usize = 200;

/// Says what a house takes, what is made and bought for it, and what is baked together.
pub(crate) fn run(args: &BakeArgs, out: &mut dyn Write) -> Result<(), Failure> {
    if !(1..=MOST_COPIES).contains(&args.copies) {
        let what = format!("{} copies cannot be planned; give 1 to {MOST_COPIES}", args.copies);
        return Err(Failure::Usage(what));
    }
    let house = house::load(&args.house)?;
    let Baker { kitchen, notebook } = baker::read(&args.baker, house.unit)?;
    let house = notebook.baked_here(&house);
    let solved = gable_shell::solve(&house);
    house::refuse_blocked(&args.house, &solved)?;
    let dressed = gable_dress::dress(&house, &solved);
    let guide = gable_raise::Guide::of(&solved).ok();
    let about = About {
        house: &house,
        solved: &solved,
        dressed: &dressed,
        guide: guide.as_ref(),
        board: gable_export::board_size(&house, &solved),
    };
    let plan = BakePlan::of(&about, &kitchen, &notebook, args.copies);
    let days = days::Days::plan(args, &about, &plan, &notebook)?;
    let written = days.as_ref().map(|d| d.write(args, &title(&house))).transpose()?.unwrap_or_default();
    if args.json {
        let data = data::PlanData::new(&plan, days.as_ref());
        let text = serde_json::to_string_pretty(&data).map_err(|e| Failure::Usage(e.to_string()))?;
        writeln!(out, "{text}")?;
    } else if args.shopping {
        write!(out, "{}", plan.shopping.text(house.unit))?;
    } else {
        write!(out, "{}", text(&house, &plan, &notebook))?;
        let chapters = days.as_ref().map_or_else(Vec::new, |d| d.chapters(args.hours.is_empty()));
        let said: String = chapters.iter().map(Chapter::text).collect();
        write!(out, "{}{}", if said.is_empty() { "" } else { "\n" }, said)?;
        written.iter().try_for_each(|file| writeln!(out, "{file}"))?;
    }
    Ok(())
}

/// All of it for people, a heading for each matter.
fn text(house: &House, plan: &BakePlan, notebook: &Notebook) -> String {
    let unit = house.unit;
    let title = title(house);
    let copies = if plan.copies > 1 { format!(", {} of them", plan.copies) } else { String::new() };
    let problems: String = plan.problems.iter().map(|p| format!("Cannot be planned: {p}\n")).collect();
    let before = [plan.amounts(notebook, unit), plan.recipe_cards(notebook, unit), plan.trays(unit)].concat();
    let after = [vec![plan.cost_words(notebook)], plan.caution_words(), vec![plan.assumption_words()]].concat();
    let said = |chapters: &[Chapter]| chapters.iter().map(Chapter::text).collect::<String>();
    let shopping = plan.shopping.text(unit);
    format!(
        "{title}{copies}\n\n{problems}{}Shopping\n{shopping}\n{}",
        said(&before),
        said(&after).trim_end().to_owned() + "\n"
    )
}

fn title(house: &House) -> String {
    if house.owner.title.is_empty() { "The house".to_owned() } else { house.owner.title.clone() }
}
