//! What one person bakes with, as it is given on the command line.

use crate::args::BakerArgs;
use crate::check::tray;
use crate::failure::Failure;
use gable_bake::notebook::{self, Notebook};
use gable_export::Baker;
use gable_measure::Unit;
use gable_shell::kitchen::Kitchen;

/// Trays and notebook; bare numbers are in the house's unit.
pub(crate) fn read(args: &BakerArgs, unit: Unit) -> Result<Baker, Failure> {
    let trays = args.trays.iter().map(|t| tray(t, unit)).collect::<Result<_, _>>()?;
    let notebook = match &args.notebook {
        None => Notebook::default(),
        Some(path) => {
            let text = gable_export::read_text(path).map_err(|e| Failure::Usage(e.to_string()))?;
            notebook::read(&text).map_err(|e| Failure::Usage(format!("{}: {e}", path.display())))?
        }
    };
    Ok(Baker { kitchen: Kitchen { trays, ..Kitchen::default() }, notebook })
}
