use crate::args::{MarginArgs, PackArgs};
use crate::failure::Failure;
use crate::house;
use gable_export::{Margins, PackError, PackOptions, Paper, pack_pdf, plain_reason, save};
use gable_measure::Unit;
use gable_shell::House;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Writes the pack of a house into a folder and says where.
pub(crate) fn run(args: &PackArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let house = house::load(&args.house)?;
    let options = PackOptions {
        paper: args.paper.into(),
        margins: margins(&args.margins, house.unit)?,
        without_guides: args.no_guides,
        without_baked: args.no_baked,
    };
    let path = write(&args.house, &house, &options, &args.to)?;
    writeln!(out, "{}", path.display())?;
    Ok(())
}

/// The margins of every side: its own, else that of all sides, else the usual one.
fn margins(args: &MarginArgs, unit: Unit) -> Result<Margins, Failure> {
    let read = |name: &str, text: &Option<String>| match text {
        None => Ok(None),
        Some(text) => gable_measure::read_length(text, unit)
            .map(Some)
            .map_err(|e| Failure::Usage(format!("--{name} {text}: {e}"))),
    };
    let all = read("margin", &args.margin)?.map_or_else(Margins::default, Margins::all);
    Ok(Margins {
        left: read("margin-left", &args.margin_left)?.unwrap_or(all.left),
        right: read("margin-right", &args.margin_right)?.unwrap_or(all.right),
        top: read("margin-top", &args.margin_top)?.unwrap_or(all.top),
        bottom: read("margin-bottom", &args.margin_bottom)?.unwrap_or(all.bottom),
    })
}

/// Writes the pack of a house and gives the name of its file.
pub(crate) fn write(name: &str, house: &House, options: &PackOptions, folder: &Path) -> Result<PathBuf, Failure> {
    let mut house = house.clone();
    if house.owner.title.trim().is_empty() {
        house.owner.title = stem(name);
    }
    let solved = gable_shell::solve(&house);
    house::refuse_blocked(name, &solved)?;
    let bytes = pack_pdf(&solved, &house, options).map_err(|error| match error {
        PackError::Blocking(_) | PackError::NoPieces => Failure::Blocked(format!("{name}: {error}")),
        other => Failure::Usage(format!("{name}: {other}")),
    })?;
    std::fs::create_dir_all(folder).map_err(|e| {
        Failure::Usage(format!("{}: the folder cannot be made: {}", folder.display(), plain_reason(&e)))
    })?;
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
    fn a_side_may_have_a_margin_of_its_own() {
        let args = MarginArgs {
            margin: Some("10".into()),
            margin_left: None,
            margin_right: None,
            margin_top: Some("1/2 in".into()),
            margin_bottom: None,
        };
        // 1/2 in = 12.7 mm.
        let read = margins(&args, Unit::Millimetre).unwrap();
        assert_eq!(
            [read.left, read.right, read.top, read.bottom].map(|l| (l.mm() * 10.0).round()),
            [100.0, 100.0, 127.0, 100.0]
        );
    }

    #[test]
    fn packs_are_named_after_their_house() {
        assert_eq!(stem("dir/my-hut.house.json"), "my-hut");
        assert_eq!(stem("boat-hut"), "boat-hut");
        assert_eq!(stem(".house.json"), "house");
    }
}
