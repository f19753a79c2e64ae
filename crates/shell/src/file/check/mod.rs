//! Whether a house makes sense as it was given. What only the solver can know is not judged here.

mod opening;
mod outline;
mod part;
mod side;
mod sizes;

use super::fault::Fault;
use super::limits;
use crate::House;
use gable_measure::Length;
use sizes::Sizes;

/// Every fault of a house, with the paths that a file has; empty when the house can be written and read again.
///
/// ```
/// use gable_measure::{Angle, Length, Pitch, Unit};
/// use gable_shell::{House, Top, file};
/// let mut house = House::simple(Unit::Millimetre);
/// let (height, overhang) = (Length::mm_of(90.0), Length::ZERO);
/// house.parts[0].sides[3].top = Top::Eave { height, pitch: Pitch::Angle(Angle::degrees(95.0)), overhang };
/// let faults = file::check(&house);
/// assert!(faults[0].to_string().starts_with("parts[0].sides.left.pitch: 95 is steeper than 80 degrees"));
/// ```
pub fn check(house: &House) -> Vec<Fault> {
    noted(house).into_iter().map(|noted| noted.fault).collect()
}

/// A fault and what else must be sound for it to mean anything.
pub(super) struct Noted {
    pub(super) fault: Fault,
    rests_on: Vec<String>,
}

impl Noted {
    /// False when another fault, at the same place or at what this one rests on, explains it.
    pub(super) fn stands_beside(&self, others: &[Fault]) -> bool {
        let places = || self.rests_on.iter().chain([&self.fault.path]);
        !others.iter().any(|o| places().any(|path| under(path, &o.path) || under(&o.path, path)))
    }

    /// False when what this one rests on is faulty too.
    fn rests_soundly(&self, others: &[Fault]) -> bool {
        !others.iter().any(|o| self.rests_on.iter().any(|path| under(path, &o.path)))
    }
}

/// Whether a place is a path or inside it.
fn under(path: &str, place: &str) -> bool {
    place.strip_prefix(path).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
}

pub(super) fn noted(house: &House) -> Vec<Noted> {
    let mut sizes = Sizes::new(house.unit);
    owner(house, &mut sizes);
    sizes.check("gap", house.gap, Length::ZERO, limits::WIDEST_GAP);
    doughs(house, &mut sizes);
    if house.parts.is_empty() {
        sizes.note("parts", "a house needs at least one part".to_owned(), "");
    }
    sizes.list("parts", house.parts.len(), limits::MOST_PARTS);
    for (k, part) in house.parts.iter().enumerate() {
        let path = format!("parts[{k}]");
        sizes.id(&format!("{path}.id"), &part.id.0);
        if let Some(first) = house.parts[..k].iter().position(|other| other.id == part.id) {
            twice(&mut sizes, &path, &part.id.0, &format!("parts[{first}]"));
        }
        part::check(house, part, &path, &mut sizes);
    }
    let faults: Vec<Fault> = sizes.noted.iter().map(|n| n.fault.clone()).collect();
    sizes.noted.into_iter().filter(|n| n.rests_soundly(&faults)).collect()
}

/// Where the faults are that leave it open which sides a part has.
fn plan_of(part: &str) -> [String; 3] {
    ["kind", "sides", "corners"].map(|key| format!("{part}.outline.{key}"))
}

/// Notes that an id is taken.
fn twice(sizes: &mut Sizes, path: &str, id: &str, first: &str) {
    let rests_on = [format!("{first}.id")];
    let what = format!("{first} is called \"{id}\" already");
    sizes.note_resting(&format!("{path}.id"), what, "give it another id", &rests_on);
}

fn owner(house: &House, sizes: &mut Sizes) {
    let owner = &house.owner;
    let lines =
        [("title", &owner.title), ("edition", &owner.edition), ("credit", &owner.credit), ("licence", &owner.licence)];
    for (path, line) in lines {
        sizes.line(path, line);
    }
    sizes.text("notes", &owner.notes, limits::LONGEST_NOTES, &['\n', '\r', '\t']);
}

fn doughs(house: &House, sizes: &mut Sizes) {
    if house.doughs.is_empty() {
        sizes.note("doughs", "a house needs at least one dough".to_owned(), "");
    }
    sizes.list("doughs", house.doughs.len(), limits::MOST_DOUGHS);
    for (k, dough) in house.doughs.iter().enumerate() {
        let path = format!("doughs[{k}]");
        sizes.id(&format!("{path}.id"), &dough.id.0);
        if let Some(first) = house.doughs[..k].iter().position(|other| other.id == dough.id) {
            twice(sizes, &path, &dough.id.0, &format!("doughs[{first}]"));
        }
        sizes.check(&format!("{path}.rolled"), dough.rolled, limits::THINNEST_DOUGH, limits::THICKEST_DOUGH);
        sizes.rise(&format!("{path}.rise"), dough.rise);
    }
}
