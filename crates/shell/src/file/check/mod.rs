//! Whether a house makes sense as it was given. What only the solver can know is not judged here.

mod baked;
mod decided;
mod dressing;
mod floor;
mod opening;
mod outline;
mod part;
mod place;
mod raised;
mod relation;
mod side;
mod sizes;

use super::fault::Fault;
use super::limits;
use super::read::{meant, meant_or_known, shown};
use crate::{House, Part, PartId};
use gable_measure::Length;
use gable_words::tr;
use sizes::Sizes;
use std::collections::BTreeMap;

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
    /// It means nothing while there are parts whose names cannot be read.
    rests_on_names: bool,
}

impl Noted {
    /// False when another fault, at the same place or at what this one rests on, explains it.
    pub(super) fn stands_beside(&self, others: &[Fault]) -> bool {
        if self.rests_on_names && others.iter().any(|o| hides_a_name(&o.path)) {
            return false;
        }
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

/// Whether a fault at a path leaves it open what a part is called.
fn hides_a_name(path: &str) -> bool {
    let Some(rest) = path.strip_prefix("parts") else { return false };
    let own = rest.strip_prefix('[').and_then(|rest| rest.split_once(']')).map(|(_, own)| own);
    rest.is_empty() || matches!(own, Some("" | ".id"))
}

/// Parts by their names; of parts with the same name the first one.
struct Names<'a> {
    house: &'a House,
    indices: BTreeMap<&'a PartId, usize>,
}

impl<'a> Names<'a> {
    fn new(house: &'a House) -> Self {
        // Later entries replace earlier ones.
        Self { house, indices: house.parts.iter().enumerate().rev().map(|(k, part)| (&part.id, k)).collect() }
    }

    fn index(&self, id: &PartId) -> Option<usize> {
        self.indices.get(id).copied()
    }

    /// The index of a part, or a note that there is none of that name.
    fn find(&self, id: &PartId, path: &str, sizes: &mut Sizes) -> Option<usize> {
        /// More names than these say nothing to anybody.
        const FEW: usize = 12;
        /// Nobody reads on after so many faults, and looking for the nearest of many names takes time.
        const MANY_FAULTS: usize = 100;
        let found = self.index(id);
        if found.is_none() {
            let known: Vec<&str> = self.house.parts.iter().map(|p| p.id.0.as_str()).collect();
            let hint = match known.len() {
                0 => String::new(),
                _ if sizes.noted.len() > MANY_FAULTS => String::new(),
                1..=FEW => meant_or_known(&id.0, &known, tr!("its parts are")),
                _ => meant(&id.0, &known),
            };
            sizes.note_name(path, tr!("the house has no part \"{}\"", shown(&id.0)), &hint);
        }
        found
    }
}

/// What is wrong with one part for itself, its place not counted; paths begin with `part`.
pub(crate) fn faults_of(house: &House, part: &Part) -> Vec<Fault> {
    let mut sizes = Sizes::new(house.unit);
    part::check(house, part, "part", &mut sizes);
    sizes.noted.into_iter().map(|noted| noted.fault).collect()
}

pub(super) fn noted(house: &House) -> Vec<Noted> {
    let mut sizes = Sizes::new(house.unit);
    owner(house, &mut sizes);
    sizes.check("gap", house.gap, Length::ZERO, limits::WIDEST_GAP);
    doughs(house, &mut sizes);
    opening::glazier(&house.dressing.glazier, "glazing", &mut sizes);
    if house.parts.is_empty() {
        sizes.note("parts", tr!("a house needs at least one part").to_owned(), "");
    }
    sizes.list("parts", house.parts.len(), limits::MOST_PARTS);
    let names = Names::new(house);
    for (k, part) in house.parts.iter().enumerate() {
        let path = format!("parts[{k}]");
        sizes.id(&format!("{path}.id"), &part.id.0);
        if let Some(first) = house.parts[..k].iter().position(|other| other.id == part.id) {
            twice(&mut sizes, &path, &part.id.0, &format!("parts[{first}]"));
        }
        part::check(house, part, &path, &mut sizes);
        place::check(&names, k, &path, &mut sizes);
    }
    place::circles(&names, &mut sizes);
    decided::check(&names, &mut sizes);
    relation::check(&names, &mut sizes);
    raised::check(house, &mut sizes);
    baked::check(&names, &mut sizes);
    dressing::check(&names, &mut sizes);
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
    let what = tr!("{first} is called \"{id}\" already");
    sizes.note_resting(&format!("{path}.id"), what, tr!("give it another id"), &rests_on);
}

fn owner(house: &House, sizes: &mut Sizes) {
    let owner = &house.owner;
    let lines = [
        ("title", &owner.title),
        ("edition", &owner.edition),
        ("credit", &owner.credit),
        ("after", &owner.after),
        ("licence", &owner.licence),
    ];
    for (path, line) in lines {
        sizes.line(path, line);
    }
    sizes.text("notes", &owner.notes, limits::LONGEST_NOTES, &['\n', '\r', '\t']);
}

fn doughs(house: &House, sizes: &mut Sizes) {
    if house.doughs.is_empty() {
        sizes.note("doughs", tr!("a house needs at least one dough").to_owned(), "");
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
