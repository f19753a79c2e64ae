//! What all new parts have in common.

use super::GuestKind;
use super::site::Site;
use crate::{Floor, House, Outline, Part, PartId, Place, Placing, SideId, Top};
use gable_measure::{Angle, Length, Pitch};

/// A part of the host's doughs and manners, with a name of its own.
pub(super) fn part(site: &Site<'_>, kind: GuestKind, outline: Outline, top: Top, place: Place) -> Part {
    let (id, name) = free_name(site.house, kind.name());
    let mut part = Part::plain(&id, &name, outline, top);
    part.wall_dough = site.host.wall_dough.clone();
    part.roof_dough = site.host.roof_dough.clone();
    part.floor = Floor { dough: site.host.wall_dough.clone(), ..part.floor };
    (part.corners, part.ridges) = (site.host.corners, site.host.ridges);
    part.place = place;
    part
}

/// An id and a name that no part of the house has, after a word such as 'Wing'.
fn free_name(house: &House, word: &str) -> (String, String) {
    let stem = word.to_lowercase();
    let numbered = |k: usize| match k {
        1 => (stem.clone(), word.to_owned()),
        _ => (format!("{stem}-{k}"), format!("{word} {k}")),
    };
    let free = |(id, name): &(String, String)| house.parts.iter().all(|p| &p.id.0 != id && &p.name != name);
    (1..=house.parts.len() + 1).map(numbered).find(free).unwrap_or_else(|| numbered(house.parts.len() + 2))
}

/// A part under a gable to the front: a slope to the right and to the left, and nothing at the back.
pub(super) fn gabled(
    site: &Site<'_>,
    kind: GuestKind,
    outline: Outline,
    slope: Top,
    overhang: Length,
    place: Place,
) -> Part {
    let mut part = part(site, kind, outline, slope, place);
    part.sides[0].top = Top::Gable { overhang };
    open_back(&mut part);
    part
}

/// Takes the wall at the back away.
pub(super) fn open_back(part: &mut Part) {
    if let Some(back) = part.sides.iter_mut().find(|s| s.id.0 == "back") {
        (back.wall, back.top) = (false, Top::Gable { overhang: Length::ZERO });
    }
}

pub(super) fn eave(height: Length, pitch: Pitch, overhang: Length) -> Top {
    Top::Eave { height, pitch, overhang }
}

/// Against a side, in the middle but for an offset.
pub(super) fn against(site: &Site<'_>, side: usize, along: Placing, out: Length) -> Place {
    let (host, side) = names(site, side);
    Place::Against { host, side, along, out, turn: Angle::degrees(0.0) }
}

/// On the slope of a side.
pub(super) fn on_slope(site: &Site<'_>, side: usize, offset: Length, up: Length) -> Place {
    let (host, side) = names(site, side);
    Place::OnSlope { host, side, along: Placing::Centred { offset }, up, turn: Angle::degrees(0.0) }
}

fn names(site: &Site<'_>, side: usize) -> (PartId, SideId) {
    (site.host.id.clone(), site.host.sides[side].id.clone())
}

/// Offsets from the middle of a side at which something so wide stays within it: the middle, then to both sides.
pub(super) fn offsets(site: &Site<'_>, side: usize, width: f64) -> Vec<Length> {
    let spare = (site.surface.length(side) - width) / 2.0;
    let shares = [0.0, 0.3, -0.3, 0.6, -0.6, 0.9, -0.9];
    let mut offsets: Vec<Length> = Vec::new();
    for offset in shares.map(|s| site.round(s * spare.max(0.0))) {
        if !offsets.contains(&offset) {
            offsets.push(offset);
        }
    }
    offsets
}
