//! What one person bakes with: what is kept for them, and what the command line says instead.

use crate::args::BakerArgs;
use crate::check::tray;
use crate::failure::Failure;
use crate::house::load;
use gable_bake::notebook::{self, Notebook};
use gable_export::{Baker, keep, notebook_file, read_notebook, read_text, usual_kitchen_file};
use gable_measure::Unit;
use gable_shell::House;
use gable_shell::kitchen::{self, Kitchen};
use std::path::PathBuf;

/// Trays and notebook; bare numbers are in the house's unit.
pub(crate) fn read(args: &BakerArgs, unit: Unit) -> Result<Baker, Failure> {
    let trays = args.trays.iter().map(|t| tray(t, unit)).collect::<Result<Vec<_>, _>>()?;
    let usual = usual_kitchen_file().filter(|_| !args.no_notebook);
    let kitchen = match usual.filter(|file| trays.is_empty() && file.exists()) {
        None => Kitchen { trays, ..Kitchen::default() },
        Some(file) => {
            let text = read_text(&file).map_err(|e| Failure::Usage(e.to_string()))?;
            kitchen::read(&text).map_err(|e| Failure::Usage(format!("{}: {e}", file.display())))?
        }
    };
    let notebook = match &args.notebook {
        // One that is named must be there.
        Some(path) if !path.exists() => {
            read_text(path).map_err(|e| Failure::Usage(e.to_string()))?;
            Notebook::default()
        }
        _ => file(args).map_or(Ok(Notebook::default()), |file| read_notebook(&file)).map_err(Failure::Usage)?,
    };
    Ok(Baker { kitchen, notebook, ..Baker::default() })
}

/// The other houses that are baked with a house.
pub(crate) fn others(notebook: &Notebook, house: &House) -> Result<Vec<(House, usize)>, Failure> {
    let found = |name: &str| {
        let said =
            |why: &str| format!("a house that is baked with it, {why}; 'bake --alone --keep' leaves all others out");
        load(name).map_err(|failure| match failure {
            Failure::Usage(why) => Failure::Usage(said(&why)),
            other => other,
        })
    };
    gable_export::others(notebook.build(house), found)
}

/// Writes the notebook back to where it came from.
pub(crate) fn write(args: &BakerArgs, notebook: &Notebook) -> Result<(), Failure> {
    let Some(file) = file(args) else {
        return Err(Failure::Usage(
            "there is no notebook to write in; leave out --no-notebook, or give --notebook FILE".into(),
        ));
    };
    keep(&file, &notebook::write(notebook)).map_err(Failure::Usage)
}

/// The notebook that counts; none if none shall.
fn file(args: &BakerArgs) -> Option<PathBuf> {
    let usual = || usual_kitchen_file().filter(|_| !args.no_notebook).map(|kitchen| notebook_file(&kitchen));
    args.notebook.clone().or_else(usual)
}
