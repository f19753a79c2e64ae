//! Where the editor meets the other crates: reading and printing what people type, files, built-in houses, the pack.

use crate::dialogs::PackPaper;
use gable_drawing::Drawing;
use gable_export::{PackOptions, Paper, pack_pdf, read_text, save};
use gable_measure::{Angle, Length, Pitch, Unit};
use gable_mesh::{Pose, View, picture_of, pose};
use gable_shell::file::Fault;
use gable_shell::{House, Lid, Part, Solved, Top, demo, file};
use std::path::Path;

/// Reads a length, sums included.
pub(crate) fn read_length(text: &str, unit: Unit) -> Result<Length, String> {
    gable_measure::read_length(text, unit).map_err(|e| e.to_string())
}

/// Reads a pitch.
pub(crate) fn read_pitch(text: &str, unit: Unit) -> Result<Pitch, String> {
    gable_measure::read_pitch(text, unit).map_err(|e| e.to_string())
}

/// Reads a house file.
pub(crate) fn read_house(path: &Path) -> Result<House, String> {
    let text = read_text(path).map_err(|e| e.to_string())?;
    file::parse(&text).map_err(|e| format!("{}: {e}", path.display()))
}

/// Writes a house file.
pub(crate) fn write_house(path: &Path, house: &House) -> Result<(), String> {
    save(path, file::write(house).as_bytes()).map_err(|e| e.to_string())
}

/// What is wrong and what to do about it, as a sentence or two.
pub(crate) fn words_of(fault: &Fault) -> String {
    let stop = |text: &str| if text.ends_with('.') { text.to_owned() } else { format!("{text}.") };
    let capital = |text: &str| {
        let mut letters = text.chars();
        letters.next().map_or_else(String::new, |c| c.to_uppercase().collect::<String>() + letters.as_str())
    };
    let what = capital(&stop(&fault.what));
    if fault.hint.is_empty() { what } else { format!("{what} {}", capital(&stop(&fault.hint))) }
}

/// The built-in houses with their names, after the plainest one.
pub(crate) fn demos() -> Vec<(String, House)> {
    let plain = ("Plain house".to_owned(), House::simple(Unit::Millimetre));
    let named = demo::names().filter_map(|name| {
        let house = demo::house(name)?;
        let title = if house.owner.title.is_empty() { name.to_owned() } else { house.owner.title.clone() };
        Some((title, house))
    });
    std::iter::once(plain).chain(named).collect()
}

/// A lid that fits a part that had none: at the height of its walls.
pub(crate) fn lid_for(part: &Part) -> Lid {
    let heights = part.sides.iter().filter_map(|s| match s.top {
        Top::Eave { height, .. } => Some(height),
        Top::Knee { knee, .. } => Some(knee),
        Top::HalfHip { start, .. } => Some(start),
        Top::Gable { .. } => None,
    });
    let height = heights.fold(Length::ZERO, Length::max);
    let height = if height > Length::ZERO { height } else { Length::mm_of(100.0) };
    Lid { height, overhang: Length::ZERO, parapet: None }
}

/// A picture of a solved house standing, seen from in front and a little from above.
pub(crate) fn picture(solved: &Solved) -> Drawing {
    let view = View { board: false, ..View::from(Angle::degrees(32.0), Angle::degrees(24.0)) };
    picture_of(solved, &pose(solved, Pose::Standing), true, &view)
}

/// Writes the printed set of a house into a folder and says what was written.
pub(crate) fn make_pack(house: &House, paper: PackPaper, folder: &Path) -> Result<String, String> {
    let paper = match paper {
        PackPaper::A4 => Paper::A4,
        PackPaper::Letter => Paper::Letter,
        PackPaper::Both => Paper::A4AndLetter,
    };
    let options = PackOptions { paper, ..PackOptions::default() };
    let solved = gable_shell::solve(house);
    let pdf = pack_pdf(&solved, house, &options).map_err(|e| e.to_string())?;
    let path = folder.join(format!("{}-{}.pdf", file_name(&house.owner.title), file_name(paper.name())));
    save(&path, &pdf).map_err(|e| e.to_string())?;
    Ok(format!("The pack is ready: {}. Print it at actual size.", path.display()))
}

/// A title as the name of a file: lower case, words joined by hyphens.
pub(crate) fn file_name(title: &str) -> String {
    let words = title.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
    let name = words.map(str::to_lowercase).collect::<Vec<_>>().join("-");
    if name.is_empty() { "house".to_owned() } else { name }
}
