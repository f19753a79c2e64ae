use crate::args::FilesArgs;
use crate::failure::Failure;
use crate::house;
use crate::pack::stem;
use crate::resize::share;
use gable_export::{FileChoice, FileKind, FilesError, house_files, save_files};
use std::io::Write;

/// Writes a house as files of the kinds that are asked for, of all kinds if none is, and names every one.
pub(crate) fn run(args: &FilesArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let choice = FileChoice { kinds: kinds(args), scale: share("scale", &args.scale)? };
    let scaled = [FileKind::Stl, FileKind::Gltf].iter().any(|kind| choice.kinds.contains(kind));
    if choice.scale != 1.0 && !scaled {
        let words =
            "drawings and tables are always true; solids and the standing house have a scale, so add --stl or --gltf";
        return Err(Failure::Usage(format!("--scale {}: {words}", args.scale)));
    }
    let house = house::load(&args.house)?;
    let solved = gable_shell::solve(&house);
    house::refuse_blocked(&args.house, &solved)?;
    let failed = |error: FilesError| match error {
        FilesError::Blocking(_) | FilesError::NoPieces => Failure::Blocked(format!("{}: {error}", args.house)),
        other => Failure::Usage(other.to_string()),
    };
    let made = house_files(&solved, &house, &stem(&args.house), &choice).map_err(failed)?;
    for path in save_files(&args.to, &made.files).map_err(failed)? {
        writeln!(out, "{}", path.display())?;
    }
    for note in &made.notes {
        // If this cannot be said, the files are there all the same.
        let _ = writeln!(std::io::stderr(), "gablewright: {note}");
    }
    Ok(())
}

fn kinds(args: &FilesArgs) -> Vec<FileKind> {
    let asked = |kind: &FileKind| match kind {
        FileKind::Svg => args.svg,
        FileKind::Dxf => args.dxf,
        FileKind::Stl => args.stl,
        FileKind::Gltf => args.gltf,
        FileKind::Csv => args.csv,
    };
    let chosen: Vec<FileKind> = FileKind::ALL.into_iter().filter(asked).collect();
    if chosen.is_empty() { FileKind::ALL.to_vec() } else { chosen }
}
