//! Where the editor meets the other crates: reading and printing what people type, files, built-in houses, roof forms.

use crate::dialogs::Paper as PackPaper;
use gable_measure::{Length, Pitch, Unit};
use gable_shell::{House, Lid, Part, RoofForm, Solved, Top};
use std::path::Path;

/// What is wrong with a house, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Fault {
    /// Place in the house.
    pub(crate) place: String,
    /// What is wrong and what to do.
    pub(crate) words: String,
}

/// Reads a length, sums included.
pub(crate) fn read_length(text: &str, unit: Unit) -> Result<Length, String> {
    gable_measure::read_length(text, unit).map_err(|e| e.to_string())
}

/// Reads a pitch.
pub(crate) fn read_pitch(text: &str, unit: Unit) -> Result<Pitch, String> {
    gable_measure::read_pitch(text, unit).map_err(|e| e.to_string())
}

/// A length with its unit.
pub(crate) fn print_length(length: Length, unit: Unit) -> String {
    unit.print(length)
}

/// A pitch the way it was given.
pub(crate) fn print_pitch(pitch: Pitch, unit: Unit) -> String {
    pitch.print(unit)
}

/// Reads a house file.
pub(crate) fn read_house(path: &Path) -> Result<House, String> {
    Err(format!("{}: cannot be read", path.display()))
}

/// Writes a house file.
pub(crate) fn write_house(path: &Path, _house: &House) -> Result<(), String> {
    Err(format!("{}: cannot be written", path.display()))
}

/// What is impossible about a house.
pub(crate) fn check(_house: &House) -> Vec<Fault> {
    Vec::new()
}

/// The built-in houses.
pub(crate) fn demos() -> Vec<(String, House)> {
    vec![("Hut".to_owned(), plain_hut())]
}

/// The roof forms with their names.
pub(crate) fn roof_forms() -> Vec<(RoofForm, &'static str)> {
    vec![(RoofForm::Gable, "Gable")]
}

/// Gives a part a roof form.
pub(crate) fn apply_form(_form: RoofForm, _part: &mut Part) {}

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
pub(crate) fn picture(_solved: &Solved) -> Option<gable_drawing::Drawing> {
    None
}

/// Writes the printed set of a house into a folder and says what was written.
pub(crate) fn make_pack(_house: &House, _paper: PackPaper, folder: &Path) -> Result<String, String> {
    Err(format!("{}: nothing can be written yet", folder.display()))
}

fn plain_hut() -> House {
    use gable_measure::Angle;
    use gable_shell::*;
    let mm = Length::mm_of;
    let dough = DoughId("dough".into());
    let side = |name: &str, top| Side { id: SideId(name.into()), wall: true, top };
    let eave = Top::Eave { height: mm(80.0), pitch: Pitch::Angle(Angle::degrees(42.0)), overhang: mm(12.0) };
    let gable = Top::Gable { overhang: mm(10.0) };
    House {
        owner: Owner { title: "Plain hut".into(), ..Owner::default() },
        unit: Unit::Millimetre,
        gap: mm(0.8),
        doughs: vec![Dough { id: dough.clone(), rolled: mm(5.0), rise: 1.2 }],
        parts: vec![Part {
            id: PartId("main".into()),
            name: "Main body".into(),
            outline: Outline::Rectangle { width: mm(120.0), depth: mm(160.0) },
            place: Place::default(),
            wall_dough: dough.clone(),
            roof_dough: dough.clone(),
            floor: Floor { kind: FloorKind::None, dough },
            corners: Corners::Lap,
            ridges: Ridges::Open,
            level_eaves: false,
            sides: vec![side("front", gable), side("right", eave), side("back", gable), side("left", eave)],
            lid: None,
            openings: vec![],
        }],
    }
}
