//! Where the editor meets the other crates: reading and printing what people type, files, built-in houses, the pack.

use crate::person::Settings;
use gable_drawing::Drawing;
use gable_export::{
    Baker, FileChoice, FilesError, PackOptions, Purpose, file_name, house_files, house_for, pack_pdf_for, plain_reason,
    read_house_text, read_text, save, save_files,
};
use gable_measure::{Angle, Length, Pitch, Unit};
use gable_mesh::{Pose, View, picture_of, pose};
use gable_plane::SvgPath;
use gable_shell::file::Fault;
use gable_shell::{House, Lid, Opening, Outline, Part, RoofForm, Shape, Solved, Starter, Top, demo, file};
use gable_words::{Tongue, tr};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::OnceLock;

/// Reads a length, sums included.
pub(crate) fn read_length(text: &str, unit: Unit) -> Result<Length, String> {
    gable_measure::read_length(text, unit).map_err(|e| sentence(&e.to_string()))
}

/// Reads a pitch.
pub(crate) fn read_pitch(text: &str, unit: Unit) -> Result<Pitch, String> {
    gable_measure::read_pitch(text, unit).map_err(|e| sentence(&e.to_string()))
}

/// Reads a house file; sizes that follow others are set to what they follow.
pub(crate) fn read_house(path: &Path) -> Result<House, String> {
    let text = read_house_text(path).map_err(|e| e.to_string())?;
    let house = file::parse(&text).map_err(|e| format!("{}: {e}", path.display()))?;
    Ok(gable_shell::settle(&house).0)
}

/// A house by its file, or by the name of one that is built in.
pub(crate) fn find_house(name: &str) -> Result<House, String> {
    let path = Path::new(name);
    match demo::house(name).filter(|_| !path.is_file()) {
        Some(house) => Ok(house),
        None => read_house(path),
    }
}

/// The same baker with the other houses that are baked with a house.
pub(crate) fn with_others(house: &House, baker: &Baker) -> Result<Baker, String> {
    let others = gable_export::others(baker.notebook.build(house), find_house)?;
    Ok(Baker { others, ..baker.clone() })
}

/// Writes a house file.
pub(crate) fn write_house(path: &Path, house: &House) -> Result<(), String> {
    if let Some(folder) = path.parent().filter(|f| !f.as_os_str().is_empty() && !f.is_dir()) {
        return Err(tr!("There is no folder {}. Make it, or choose another.", folder.display()));
    }
    save(path, file::write(house).as_bytes()).map_err(|e| sentence(&e.to_string()))
}

/// The outline of the only shape in a text of SVG.
pub(crate) fn outline_of(svg: &str) -> Result<String, String> {
    gable_export::outline_of_svg(svg).map_err(|e| sentence(&e.to_string()))
}

/// Puts the outline out of a file of SVG into an opening of that shape, as high as it was drawn.
pub(crate) fn take_outline(opening: &mut Opening, path: &Path) -> Result<(), String> {
    let text = read_text(path).map_err(|e| e.to_string())?;
    let data = outline_of(&text).map_err(|e| format!("{}: {e}", path.display()))?;
    let drawn = SvgPath::read(&data).and_then(|drawn| drawn.single().map(|()| drawn));
    let drawn =
        drawn.map_err(|e| format!("{}: {} {}", path.display(), sentence(&e.to_string()), sentence(e.remedy())))?;
    opening.shape = Shape::Path { data, mirrored: false };
    opening.height = opening.width / drawn.proportion();
    Ok(())
}

/// What is wrong and what to do about it, as a sentence or two.
pub(crate) fn words_of(fault: &Fault) -> String {
    let what = sentence(&fault.what);
    if fault.hint.is_empty() { what } else { format!("{what} {}", sentence(&fault.hint)) }
}

/// A message as a sentence: with a capital and a full stop.
pub(crate) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let capital = letters.next().map_or_else(String::new, |c| c.to_uppercase().collect());
    let stop = if text.ends_with(['.', '!', '?']) { "" } else { "." };
    format!("{capital}{}{stop}", letters.as_str())
}

/// With a capital.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters.next().map_or_else(String::new, |c| c.to_uppercase().collect());
    first + letters.as_str()
}

/// Houses to start from in groups: small ones and one of every roof form in the person's own unit and dough, then the
/// built-in ones, which are somebody's and stay as they are.
pub(crate) fn small_houses(settings: &Settings) -> [(&'static str, Vec<(String, House)>); 3] {
    let unit = settings.unit;
    let small = Starter::ALL.map(|s| (s.name().to_owned(), settings.own(s.house(unit))));
    let named = demo::names().filter_map(|name| {
        let house = demo::house(name)?;
        let title = if house.owner.title.is_empty() { name.to_owned() } else { house.owner.title.clone() };
        Some((title, house))
    });
    [
        (tr!("Small houses to start from; everything about them can be changed"), small.to_vec()),
        (
            tr!("One of every roof form"),
            roofs().map(|(name, house)| (name, settings.own(in_unit(house, unit)))).collect(),
        ),
        (tr!("Houses of the harbour pilots of Gannet Sound"), named.collect()),
    ]
}

/// The same sizes, told in another unit.
fn in_unit(house: House, unit: Unit) -> House {
    House { unit, ..house }
}

/// A house of each roof form, over the plan that suits it.
fn roofs() -> impl Iterator<Item = (String, House)> {
    let kinds = [
        (tr!("Hipped house"), RoofForm::Hip),
        (tr!("Half-hipped house"), RoofForm::HalfHip),
        (tr!("Saltbox"), RoofForm::Saltbox),
        (tr!("Lean-to shed"), RoofForm::LeanTo),
        (tr!("Mansard house"), RoofForm::Mansard),
        (tr!("Square pavilion"), RoofForm::Pavilion),
        (tr!("Six-sided tower"), RoofForm::Spire),
        (tr!("Flat roof, parapet"), RoofForm::Flat),
    ];
    kinds.into_iter().map(|(name, form)| (name.to_owned(), under(form)))
}

/// A small house under a roof form.
fn under(form: RoofForm) -> House {
    let mm = Length::mm_of;
    let outline = match form {
        RoofForm::Pavilion => Some(Outline::Rectangle { width: mm(120.0), depth: mm(120.0) }),
        RoofForm::Spire => Some(Outline::Polygon { sides: 6, side: mm(60.0) }),
        _ => None,
    };
    let mut house = House::simple(Unit::Millimetre);
    for part in &mut house.parts {
        if let Some(outline) = &outline {
            part.set_outline(outline.clone());
        }
        form.apply(part);
    }
    house
}

/// How a small house under a roof form looks; drawn once.
pub(crate) fn picture_of_form(form: RoofForm) -> Option<&'static Drawing> {
    static PICTURES: OnceLock<BTreeMap<RoofForm, Drawing>> = OnceLock::new();
    let draw = |form: RoofForm| {
        let mut house = under(form);
        house.parts.iter_mut().for_each(|part| part.openings.clear());
        (form, picture(&gable_shell::solve(&house)))
    };
    PICTURES.get_or_init(|| RoofForm::ALL.into_iter().map(draw).collect()).get(&form)
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

/// Why a pack or files were not written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoPack {
    /// It cannot be written there; another folder may do.
    Folder(String),
    /// It cannot be made of this house.
    House(String),
}

/// A house as it goes into its pack, called as it is saved if it has no title, and who bakes it: the same for looking at the pages
/// and for saving them.
pub(crate) fn for_pack(
    house: &House,
    name: &str,
    (options, baker): (&PackOptions, &Baker),
) -> Result<(House, Baker), String> {
    let mut baker = if options.purpose == Purpose::Share { baker.clone() } else { with_others(house, baker)? };
    let mut house = house.clone();
    if house.owner.title.trim().is_empty() && !name.is_empty() {
        let before = gable_bake::notebook::title(&house).to_owned();
        name.clone_into(&mut house.owner.title);
        baker.notebook.carry_over(&before, &house);
    }
    Ok((house_for(&house, options).into_owned(), baker))
}

/// Writes the printed set of a house into a folder, which is made if it is missing, and says what was written. `name` is
/// what the file is called, and the house where it has no title.
pub(crate) fn make_pack(
    house: &House,
    name: &str,
    (options, baker): (&PackOptions, &Baker),
    folder: &Path,
) -> Result<String, NoPack> {
    let (house, baker) = for_pack(house, name, (options, baker)).map_err(NoPack::House)?;
    let pages = || pack_pdf_for(&gable_shell::solve(&house), &house, options, &baker);
    let pdf = Tongue::ENGLISH.while_speaking(pages).map_err(|e| NoPack::House(sentence(&e.to_string())))?;
    std::fs::create_dir_all(folder)
        .map_err(|e| NoPack::Folder(tr!("The folder {} cannot be made: {}.", folder.display(), plain_reason(&e))))?;
    let path = folder.join(format!("{}-{}.pdf", file_name(name), file_name(&options.paper.to_string())));
    save(&path, &pdf).map_err(|e| NoPack::Folder(sentence(&e.to_string())))?;
    Ok(tr!("The pack is ready: {}. Print it at actual size.", path.display()))
}

/// Writes a house as files of every kind into a folder of its own under `folder`, and says where. `name` begins the names
/// of the files.
pub(crate) fn write_files(house: &House, name: &str, folder: &Path) -> Result<String, NoPack> {
    let files = || house_files(&gable_shell::solve(house), house, name, &FileChoice::default());
    let made = Tongue::ENGLISH.while_speaking(files);
    let made = made.map_err(|e| NoPack::House(sentence(&e.to_string())))?;
    let into = folder.join(format!("{}-files", file_name(name)));
    let saved = save_files(&into, &made.files).map_err(|error| match error {
        FilesError::Folder { .. } | FilesError::Store(_) => NoPack::Folder(sentence(&error.to_string())),
        other => NoPack::House(sentence(&other.to_string())),
    })?;
    let left: String = made.notes.iter().map(|note| format!(" {}", sentence(note))).collect();
    Ok(tr!(
        "One file is written: {into}.{left}" | "{n} files are written: {into}.{left}" % saved.len(),
        into = into.display()
    ))
}
