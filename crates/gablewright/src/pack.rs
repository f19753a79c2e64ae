use crate::args::{MarginArgs, PackArgs, SectionArg, SpreadArgs};
use crate::baker;
use crate::failure::Failure;
use crate::house;
use crate::resize::share;
use gable_bake::Notebook;
use gable_export::{
    Baker, Margins, MockUpSize, PackError, PackOptions, Paper, Printer, Purpose, Sections, Spread, Way, file_name,
    house_for, pack_pdf_for, plain_reason, save,
};
use gable_measure::{Length, Unit};
use gable_shell::{House, Resizing, resized};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Writes the pack of a house into a folder and says where.
pub(crate) fn run(args: &PackArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let house = house::load(&args.house)?;
    let mut baker = Baker { now: Some(jiff::Zoned::now().datetime()), ..baker::read(&args.baker, house.unit)? };
    if !args.to_share {
        baker.others = baker::others(&baker.notebook, &house)?;
    }
    // Nothing of anybody's oven is in a pack to share.
    let house = if args.to_share { house } else { baker.notebook.baked_here(&house) };
    let options = PackOptions {
        sections: sections(args),
        purpose: purpose(args, &baker.notebook, house.unit)?,
        paper: Paper::read(&args.paper, house.unit)
            .map_err(|e| Failure::Usage(format!("--paper {}: {e}", args.paper)))?,
        margins: margins(&args.margins, house.unit)?,
        mock_up: MockUpSize(share("mock-up", &args.mock_up)?),
        without_guides: args.no_guides,
        without_baked: args.no_baked,
        every_piece: args.every_piece,
        fewer_pages: args.fewer_pages,
    };
    if args.sizes.is_empty() {
        let path = write(&args.house, &house, (&options, &baker), &args.to)?;
        writeln!(out, "{}", path.display())?;
    }
    let factors = args.sizes.iter().map(|text| share("sizes", text)).collect::<Result<Vec<f64>, _>>()?;
    for factor in factors {
        // Of each size the file, the stamp and the house inside say which it is.
        let percent = format!("{}%", (factor * 1000.0).round() / 10.0);
        let mut sized = resized(&house, factor, Resizing::default());
        let edition = std::mem::take(&mut sized.owner.edition);
        sized.owner.edition = if edition.is_empty() { percent.clone() } else { format!("{edition}, {percent}") };
        let name = format!("{}-{percent}", stem(&args.house).replace('%', ""));
        let path = write(&name.replace('%', "-percent"), &sized, (&options, &baker), &args.to)?;
        writeln!(out, "{}", path.display())?;
    }
    Ok(())
}

fn sections(args: &PackArgs) -> Sections {
    let list = |given: &[SectionArg]| given.iter().map(|s| s.0).collect::<Vec<_>>();
    if args.only.is_empty() { Sections::without(&list(&args.without)) } else { Sections::only(&list(&args.only)) }
}

/// Whom the pack is for, and what the printer makes of the bars.
fn purpose(args: &PackArgs, notebook: &Notebook, unit: Unit) -> Result<Purpose, Failure> {
    if args.to_share {
        return Ok(Purpose::Share);
    }
    let bar = |name: &str, text: &Option<String>| -> Result<(Length, Length), Failure> {
        let Some(text) = text else { return Ok((Length::mm_of(1.0), Length::mm_of(1.0))) };
        let wrong = |why: String| Failure::Usage(format!("--{name} '{text}': {why}"));
        let (is, should) = text.split_once(" of ").ok_or_else(|| {
            wrong("give what the bar measures and what it should, such as '174.6 of 180' or '6 7/8 in of 7 in'".into())
        })?;
        let length = |text: &str| gable_measure::read_length(text.trim(), unit).map_err(|e| wrong(e.to_string()));
        let pair = (length(is)?, length(should)?);
        if pair.1 <= Length::ZERO {
            return Err(wrong("what the bar should measure is more than 0; it stands beside the bar".into()));
        }
        Printer::by_bars(pair, pair).map_err(|e| wrong(e.to_string()))?;
        Ok(pair)
    };
    let bars = (bar("level-bar", &args.level_bar)?, bar("upright-bar", &args.upright_bar)?);
    let printer = Printer::by_bars(bars.0, bars.1).map_err(|e| Failure::Usage(e.to_string()))?;
    Ok(Purpose::Mine { printer, spread: spread(&args.spread, notebook, unit)? })
}

/// What the dough does in the oven, if anything is said about it here; test biscuits tell how much.
fn spread(args: &SpreadArgs, notebook: &Notebook, unit: Unit) -> Result<Option<Spread>, Failure> {
    let said = args.spread_share.is_some() || args.spread_edge.is_some();
    let measured = notebook.spread().filter(|_| !said);
    let way = match (args.trim_warm, args.cut_once) {
        (true, _) => Way::TrimWarm,
        (_, true) if said || measured.is_some() => Way::CutOnce,
        (_, true) => {
            let words = "--cut-once: say by how much the dough grows, with --spread-share and --spread-edge, or with \
                         test biscuits in a notebook";
            return Err(Failure::Usage(words.into()));
        }
        _ if said => {
            let words = "the dough grows, and then? Give --trim-warm (cut larger, trim once baked) or --cut-once \
                         (cut smaller, so that it grows into its size)";
            return Err(Failure::Usage(words.into()));
        }
        _ => return Ok(None),
    };
    let share = args.spread_share.as_deref().map_or(Ok(measured.map_or(0.0, |m| m.0)), |text| {
        Spread::read_share(text).map_err(|e| Failure::Usage(format!("--spread-share {text}: {e}")))
    })?;
    let edge = args.spread_edge.as_deref().map_or(Ok(measured.map_or(Length::ZERO, |m| m.1)), |text| {
        gable_measure::read_length(text, unit).map_err(|e| Failure::Usage(format!("--spread-edge {text}: {e}")))
    })?;
    Spread::new(share, edge, way).map(Some).map_err(|e| Failure::Usage(e.to_string()))
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
pub(crate) fn write(
    name: &str,
    house: &House,
    (options, baker): (&PackOptions, &Baker),
    folder: &Path,
) -> Result<PathBuf, Failure> {
    let mut house = house.clone();
    if house.owner.title.trim().is_empty() {
        house.owner.title = stem(name);
    }
    let house = house_for(&house, options);
    let solved = gable_shell::solve(&house);
    house::refuse_blocked(name, &solved)?;
    let bytes = pack_pdf_for(&solved, &house, options, baker).map_err(|error| match error {
        PackError::Blocking(_) | PackError::NoPieces => Failure::Blocked(format!("{name}: {error}")),
        other => Failure::Usage(format!("{name}: {other}")),
    })?;
    std::fs::create_dir_all(folder).map_err(|e| {
        Failure::Usage(format!("{}: the folder cannot be made: {}", folder.display(), plain_reason(&e)))
    })?;
    let path = folder.join(format!("{}-{}.pdf", stem(name), file_name(&options.paper.to_string())));
    save(&path, &bytes).map_err(|e| Failure::Usage(e.to_string()))?;
    Ok(path)
}

/// 'my-hut' of 'dir/my-hut.house.json'.
pub(crate) fn stem(name: &str) -> String {
    let file = Path::new(name).file_name().map_or_else(|| name.into(), |f| f.to_string_lossy());
    let short = file.strip_suffix(".json").or_else(|| file.strip_suffix(".pdf")).unwrap_or(&file);
    let short = short.strip_suffix(".house").unwrap_or(short);
    if short.is_empty() { "house".into() } else { short.into() }
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
