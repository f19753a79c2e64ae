use crate::args::ResizeArgs;
use crate::failure::Failure;
use crate::house;
use gable_export::{Size, Wanted, percent, save, smallest_sound};
use gable_shell::{House, Resizing, resized};
use std::io::Write;

/// Resizes a house, compares it with what it was, and writes it if that is asked for.
pub(crate) fn run(args: &ResizeArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let house = house::load(&args.house)?;
    let rules = Resizing { keeps_openings: args.keep_openings, keeps_ornaments: !args.scale_ornaments };
    let factors = factors(args, &house, rules)?;
    let mut sizes = vec![Size::of(&house, 1.0)];
    sizes.extend(factors.iter().map(|&f| Size::of(&resized(&house, f, rules), f)));
    for size in &sizes {
        writeln!(out, "{}", size.line(house.unit))?;
    }
    if let Some(least) = smallest_sound(&house, rules) {
        writeln!(out, "smallest size without findings that the house does not have now: {}", percent(least))?;
    }
    let Some(path) = &args.to else { return Ok(()) };
    let [factor] = factors.as_slice() else {
        return Err(Failure::Usage("--to: one house is written, so give one size".into()));
    };
    let opened = house;
    let mut house = resized(&opened, *factor, rules);
    house.keep_credit(&opened, &opened, &args.drawn_by);
    save(path, gable_shell::file::write(&house).as_bytes()).map_err(|e| Failure::Usage(e.to_string()))?;
    writeln!(out, "{}", path.display())?;
    Ok(())
}

/// What `--fit` may name.
const FITS: &str = "give tray=430x350, paper=a4, board=400x300 or dough=1kg";

fn factors(args: &ResizeArgs, house: &House, rules: Resizing) -> Result<Vec<f64>, Failure> {
    let unit = house.unit;
    let wanted: Vec<(String, Wanted)> = if let Some(text) = &args.to_length {
        let name = format!("--to-length {text}");
        let wanted = Wanted::length(text, unit).map_err(|e| Failure::Usage(format!("{name}: {e}")))?;
        vec![(name, wanted)]
    } else if let Some(text) = &args.fit {
        let name = format!("--fit {text}");
        let wrong = |why: &dyn std::fmt::Display| Failure::Usage(format!("{name}: {why}"));
        let (what, size) = text.split_once('=').ok_or_else(|| wrong(&FITS))?;
        let wanted = match what {
            "tray" => Wanted::tray(size, unit),
            "paper" => Wanted::paper(size, unit),
            "board" => Wanted::board(size, unit),
            "dough" => Wanted::dough(size),
            _ => return Err(wrong(&FITS)),
        };
        let wanted = wanted.map_err(|e| wrong(&e))?;
        vec![(name, wanted)]
    } else {
        let by = |text: &String| Ok((format!("--by {text}"), Wanted::Share(share("by", text)?)));
        args.by.iter().map(by).collect::<Result<_, Failure>>()?
    };
    if wanted.is_empty() {
        return Err(Failure::Usage("give a size: --by 75%, --to-length 400mm, or --fit tray=430x350".into()));
    }
    let factor = |(name, wanted): &(String, Wanted)| {
        wanted.factor(house, rules).map_err(|e| Failure::Usage(format!("{name}: {e}")))
    };
    wanted.iter().map(factor).collect()
}

/// Reads 75%, 0.75 or 3/4 of an option.
pub(crate) fn share(option: &str, text: &str) -> Result<f64, Failure> {
    match Wanted::share(text) {
        Ok(Wanted::Share(share)) => Ok(share),
        Ok(_) => Ok(1.0),
        Err(error) => Err(Failure::Usage(format!("--{option} {text}: {error}"))),
    }
}
