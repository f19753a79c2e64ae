//! What the command line says for the notebook: by when, who, with what; what is done, and what broke.

use crate::args::BakeArgs;
use crate::failure::Failure;
use gable_bake::notebook::Moment;
use gable_bake::timetable::{Broken, Build, Mending, Other, Person, Work, plan::ROUNDS, when};
use gable_bake::{Chapter, Lots, Notebook, Ovenfuls, PieceOf};
use gable_export::Baker;
use gable_measure::Unit;
use gable_shell::House;
use jiff::civil::DateTime;
use std::path::Path;

/// Reads a moment; a day alone would mean its first minute, which nobody thinks of.
pub(super) fn moment(option: &str, text: &str) -> Result<DateTime, Failure> {
    let read = text.parse::<DateTime>().ok().filter(|_| text.contains(':'));
    read.ok_or_else(|| Failure::Usage(format!("--{option} {text}: give a date and a time such as 2026-12-20T15:00")))
}

/// The notebook with what is said beside it.
pub(super) fn with(args: &BakeArgs, notebook: &Notebook, house: &House, now: DateTime) -> Result<Notebook, Failure> {
    let mut own = notebook.clone();
    if let Some(title) = args.formerly.as_ref().filter(|title| !own.carry_over(title, house)) {
        let known = own.bakes_before(house).join("', '");
        let words =
            if known.is_empty() { "nothing can be carried over".to_owned() } else { format!("there are '{known}'") };
        return Err(Failure::Usage(format!(
            "--formerly {title}: there is no such bake, or this house has its own; {words}"
        )));
    }
    if let Some(by) = &args.ready_by {
        let stand_by = moment("ready-by", by)?;
        if stand_by <= now {
            return Err(Failure::Usage(format!("--ready-by {by}: that is past; give a moment after {}", when(now))));
        }
        own.build_mut(house).ready_by = Some(stand_by);
    }
    together(args, own.build_mut(house))?;
    if !args.hours.is_empty() {
        let read = |text: &String| Person::read(text).map_err(|e| Failure::Usage(format!("--hours {text}: {e}")));
        own.people = Person::joined(args.hours.iter().map(read).collect::<Result<Vec<_>, _>>()?);
    }
    if args.ovens.or(args.shelves).or(args.tray_count).is_some() {
        own.kitchens = own.workplaces();
        let home = &mut own.kitchens[0];
        home.ovens = args.ovens.unwrap_or(home.ovens);
        home.shelves = args.shelves.unwrap_or(home.shelves);
        home.trays = args.tray_count.unwrap_or(home.trays);
    }
    own.damp |= args.damp;
    Ok(own)
}

/// Which houses are baked together, how many of each, and how far they are taken.
fn together(args: &BakeArgs, build: &mut Build) -> Result<(), Failure> {
    let others = args.houses.get(1..).unwrap_or(&[]);
    if others.len() >= Lots::MOST {
        return Err(Failure::Usage(format!("so many houses cannot be baked together; give {} at most", Lots::MOST)));
    }
    if !others.is_empty() || args.alone {
        let other = |name: &String| Other { house: lasting(name), copies: 1 };
        build.others = others.iter().map(other).collect();
    }
    let most = Build::MOST_COPIES;
    if let Some(wrong) = args.copies.iter().find(|copies| !(1..=most).contains(*copies)) {
        return Err(Failure::Usage(format!("--copies {wrong}: so many cannot be planned; give 1 to {most}")));
    }
    let houses = 1 + build.others.len();
    match &args.copies[..] {
        [] => {}
        [all] => {
            build.copies = *all;
            build.others.iter_mut().for_each(|other| other.copies = *all);
        }
        [first, rest @ ..] if rest.len() + 1 == houses => {
            build.copies = *first;
            build.others.iter_mut().zip(rest).for_each(|(other, copies)| other.copies = *copies);
        }
        several => {
            let words = format!(
                "--copies gives {} numbers for {houses} {}; give one for each, or one for all",
                several.len(),
                if houses == 1 { "house" } else { "houses" }
            );
            return Err(Failure::Usage(words));
        }
    }
    if let Some(until) = args.hand_over {
        build.until = until.0;
    }
    Ok(())
}

/// The name of a house as it still means the same in another folder.
fn lasting(name: &str) -> String {
    let file = Path::new(name);
    let whole = || std::path::absolute(file).map_or_else(|_| name.to_owned(), |path| path.display().to_string());
    if file.is_file() { whole() } else { name.to_owned() }
}

/// Whether the notebook shall be written.
pub(super) fn keeps(args: &BakeArgs) -> bool {
    args.work.keep || args.formerly.is_some() || works(args)
}

/// Whether something is written of the work itself.
pub(super) fn works(args: &BakeArgs) -> bool {
    let work = &args.work;
    let ticks = [&work.done, &work.begun, &work.not_done];
    ticks.iter().any(|list| !list.is_empty()) || work.bake_again.is_some() || work.mend.is_some()
}

/// Writes down what is done and what broke, and says so.
pub(super) fn work(
    args: &BakeArgs,
    notebook: &mut Notebook,
    work: &Work,
    (house, lots, ovenfuls): (&House, &Lots<'_>, &Ovenfuls),
) -> Result<Vec<String>, Failure> {
    let (given, now) = (&args.work, work.ask.now);
    let mut said = Vec::new();
    for (list, done) in [(&given.done, true), (&given.begun, false)] {
        for text in list {
            let (words, minutes) = with_minutes(text)?;
            if !done && minutes.is_none() {
                return Err(Failure::Usage(format!("--begun {text}: say how many minutes, such as '{text}=20'")));
            }
            let task = work.task(words).map_err(|e| Failure::Usage(format!("{e}; --today lists what is next")))?;
            notebook.tick(house, task, Moment { done: done.then_some(now), minutes, kitchen: None }, ovenfuls);
            let took = minutes.map_or_else(String::new, |m| format!(", {m} min"));
            said.push(format!("{}: {}{took}", if done { "Done" } else { "Begun" }, task.name));
        }
    }
    for text in &given.not_done {
        let task = work.task(text).map_err(|e| Failure::Usage(e.to_string()))?;
        notebook.take_back(house, &task.id, ovenfuls);
        said.push(format!("Not done: {}", task.name));
    }
    for (named, way) in [(&given.bake_again, Mending::BakeAgain), (&given.mend, Mending::Mend)] {
        let Some(named) = named else { continue };
        let piece = piece(lots, named)?;
        let name = lots.piece_name(piece);
        let is_baked = !work.left.tasks.iter().any(|t| t.id.starts_with("bake/") && t.pieces.contains(&piece));
        if !is_baked {
            return Err(Failure::Usage(not_baked(&name)));
        }
        let id = lots.id(piece).unwrap_or_default();
        notebook.build_mut(house).broken.push(Broken { piece: id, at: now, way });
        let how = if way == Mending::Mend { "is mended" } else { "is baked again" };
        said.push(format!("Broke: {name}; it {how}"));
    }
    Ok(said)
}

/// 'roll and cut ovenful 1=35'.
fn with_minutes(text: &str) -> Result<(&str, Option<f64>), Failure> {
    let Some((words, minutes)) = text.rsplit_once('=') else { return Ok((text, None)) };
    let read = minutes.trim().parse::<f64>().ok().filter(|m| (0.0..=10_000.0).contains(m));
    let wrong = || Failure::Usage(format!("{text}: '{minutes}' are no minutes; give a number such as {words}=35"));
    Ok((words, Some(read.ok_or_else(wrong)?)))
}

fn not_baked(name: &str) -> String {
    format!(
        "{name} is not baked yet by what is ticked off, so nothing is lost; cut it anew, or tick off its ovenful first"
    )
}

/// The piece of an id, a name, or a part of a name that no other has.
fn piece(lots: &Lots<'_>, words: &str) -> Result<PieceOf, Failure> {
    let plain = words.trim().to_lowercase();
    let all: Vec<(String, PieceOf)> = lots.pieces();
    let named: Vec<(String, PieceOf)> = all.iter().map(|(_, of)| (lots.piece_name(*of).to_lowercase(), *of)).collect();
    let exact = all.iter().find(|(id, _)| id == words.trim()).or_else(|| named.iter().find(|(name, _)| *name == plain));
    if let Some((_, of)) = exact {
        return Ok(*of);
    }
    let some: Vec<PieceOf> = named.iter().filter(|(name, _)| name.contains(&plain)).map(|(_, of)| *of).collect();
    match some[..] {
        [one] => Ok(one),
        [] => Err(Failure::Usage(format!("no piece is called '{words}'; 'gablewright pieces' lists them"))),
        _ => {
            let mut names: Vec<String> = some.iter().take(6).map(|of| format!("'{}'", lots.piece_name(*of))).collect();
            if some.len() > names.len() {
                names.push("others".to_owned());
            }
            Err(Failure::Usage(format!("'{words}' could be {}; say which", names.join(" or "))))
        }
    }
}

/// What can be done about a broken piece.
pub(super) fn broke(
    words: &str,
    work: &Work,
    (lots, baker): (&Lots<'_>, &Baker),
    unit: Unit,
) -> Result<Chapter, Failure> {
    let piece = piece(lots, words)?;
    let name = lots.piece_name(piece);
    let none = Build::new("");
    let build = baker.notebook.build(lots.first().about.house).unwrap_or(&none);
    let found = work.broke(piece, build, (lots, &baker.notebook, &baker.kitchen), ROUNDS);
    let found = found.map_err(|faults| {
        let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
        Failure::Usage(format!("the days cannot be planned: {}", said.join("; ")))
    })?;
    let Some(found) = found else { return Err(Failure::Usage(not_baked(&name))) };
    let mut lines = found.words(unit);
    lines.push("Say which with --bake-again or --mend; the rest is then planned anew.".to_owned());
    Ok(Chapter { title: format!("Broke: {name}"), lines })
}
