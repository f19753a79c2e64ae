//! What follows from the pieces: dough, icing, ovenfuls, shopping.

mod data;
mod text;

use crate::args::BakeArgs;
use crate::check;
use crate::failure::Failure;
use crate::house;
use gable_bake::notebook::{self, Notebook};
use gable_bake::{About, BakePlan};
use gable_shell::kitchen::Kitchen;
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
    let notebook = read_notebook(args)?;
    let trays = args.trays.iter().map(|t| check::tray(t, house.unit)).collect::<Result<_, _>>()?;
    let kitchen = Kitchen { trays, ..Kitchen::default() };
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
    if args.json {
        let data = data::PlanData::new(&plan);
        let text = serde_json::to_string_pretty(&data).map_err(|e| Failure::Usage(e.to_string()))?;
        writeln!(out, "{text}")?;
    } else if args.shopping {
        write!(out, "{}", plan.shopping.text(house.unit))?;
    } else {
        write!(out, "{}", text::plan(&house, &plan, &notebook))?;
    }
    Ok(())
}

fn read_notebook(args: &BakeArgs) -> Result<Notebook, Failure> {
    let Some(path) = &args.notebook else { return Ok(Notebook::default()) };
    let text = gable_export::read_text(path).map_err(|e| Failure::Usage(e.to_string()))?;
    notebook::read(&text).map_err(|e| Failure::Usage(format!("{}: {e}", path.display())))
}
