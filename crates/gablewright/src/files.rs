use crate::args::FilesArgs;
use crate::failure::Failure;
use crate::house;
use crate::pack::stem;
use gable_export::{FileKind, FilesError, house_files, save_files};
use std::io::Write;

/// Writes a house as files of the kinds that are asked for, of all kinds if none is, and names every one.
pub(crate) fn run(args: &FilesArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let house = house::load(&args.house)?;
    let solved = gable_shell::solve(&house);
    house::refuse_blocked(&args.house, &solved)?;
    let failed = |error: FilesError| match error {
        FilesError::Blocking(_) | FilesError::NoPieces => Failure::Blocked(format!("{}: {error}", args.house)),
        other => Failure::Usage(other.to_string()),
    };
    let files = house_files(&solved, &house, &stem(&args.house), &kinds(args)).map_err(failed)?;
    for path in save_files(&args.to, &files).map_err(failed)? {
        writeln!(out, "{}", path.display())?;
    }
    Ok(())
}

fn kinds(args: &FilesArgs) -> Vec<FileKind> {
    let asked = |kind: &FileKind| match kind {
        FileKind::Svg => args.svg,
        FileKind::Dxf => args.dxf,
    };
    let chosen: Vec<FileKind> = FileKind::ALL.into_iter().filter(asked).collect();
    if chosen.is_empty() { FileKind::ALL.to_vec() } else { chosen }
}
