use crate::args::PackArgs;
use crate::failure::Failure;
use crate::house;
use gable_export::{Margins, PackError, PackOptions, Paper, pack_pdf, save};
use gable_shell::House;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Writes the pack of a house into a folder and says where.
pub(crate) fn run(args: &PackArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let house = house::load(&args.house)?;
    let mut options = PackOptions { paper: args.paper.into(), ..PackOptions::default() };
    if let Some(margin) = &args.margin {
        let length = gable_measure::read_length(margin, house.unit)
            .map_err(|e| Failure::Usage(format!("--margin {margin}: {e}")))?;
        options.margins = Margins::all(length);
    }
    let path = write(&args.house, &house, &options, &args.to)?;
    writeln!(out, "{}", path.display())?;
    Ok(())
}

/// Writes the pack of a house and gives the name of its file.
pub(crate) fn write(name: &str, house: &House, options: &PackOptions, folder: &Path) -> Result<PathBuf, Failure> {
    let solved = gable_shell::solve(house);
    house::refuse_blocked(name, &solved)?;
    let bytes = pack_pdf(&solved, house, options).map_err(|error| match error {
        PackError::Blocking(_) | PackError::NoPieces => Failure::Blocked(format!("{name}: {error}")),
        other => Failure::Usage(format!("{name}: {other}")),
    })?;
    std::fs::create_dir_all(folder)
        .map_err(|e| Failure::Usage(format!("{}: the folder cannot be made: {e}", folder.display())))?;
    let path = folder.join(format!("{}-{}.pdf", stem(name), suffix(options.paper)));
    save(&path, &bytes).map_err(|e| Failure::Usage(e.to_string()))?;
    Ok(path)
}

/// 'my-hut' of 'dir/my-hut.house.json'.
fn stem(name: &str) -> String {
    let file = Path::new(name).file_name().map_or_else(|| name.into(), |f| f.to_string_lossy());
    let short = file.strip_suffix(".json").unwrap_or(&file);
    let short = short.strip_suffix(".house").unwrap_or(short);
    if short.is_empty() { "house".into() } else { short.into() }
}

fn suffix(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "a4",
        Paper::Letter => "letter",
        Paper::A4AndLetter => "a4-and-letter",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn packs_are_named_after_their_house() {
        assert_eq!(stem("dir/my-hut.house.json"), "my-hut");
        assert_eq!(stem("boat-hut"), "boat-hut");
        assert_eq!(stem(".house.json"), "house");
    }
}
