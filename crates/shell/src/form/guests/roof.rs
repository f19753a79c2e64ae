//! What stands on a roof.

use super::place::{eave, gabled, offsets, on_slope, part};
use super::site::{Site, degrees};
use super::{GuestKind, NoGuest};
use crate::{Lid, Mode, Opening, OpeningId, Outline, Part, Place, Placing, Shape, Spot, Top};
use gable_measure::{Angle, Length, Pitch};
use gable_words::tr;
use std::f64::consts::PI;

/// Least width of a part on a roof, in thicknesses of its walls.
const LEAST_WIDTH: f64 = 4.0;
/// The same astride a ridge: the walls across it span the gap between its slopes (at most two thicknesses, twice the sine
/// of their pitch) with a foot as wide as they are thick on either side, between two walls along it.
const LEAST_ASTRIDE: f64 = 6.0;

/// Little gables that reach in until the host's roof is over their ridge; with a window where there is room for one.
pub(super) fn dormers(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    let mut found = Vec::new();
    for side in site.slopes(GuestKind::Dormer)? {
        let most = (site.surface.length(side) * 0.25).min(site.ridge(side).0 * 0.7);
        for share in [1.0, 0.8, 0.6, 1.3] {
            let width = site.round((most * share).max(LEAST_WIDTH * site.wall));
            let places = offsets(site, side, width.mm());
            found.extend(places.into_iter().filter_map(|offset| dormer(site, side, width, offset)));
        }
    }
    Ok(found.into_iter().flat_map(|plain| [with_window(site, plain.clone()), plain]).collect())
}

fn dormer(site: &Site<'_>, side: usize, width: Length, offset: Length) -> Option<Part> {
    let share = 0.5 + offset.mm() / site.surface.length(side);
    let (room, _) = site.ridge(side);
    let over = |d: f64| site.surface.upper(site.surface.inside(side, share, d));
    let overhang = site.round_down((site.overhang * 0.5).min(width.mm() * 0.12));
    // Where the roof is steep below and flat above, a front over the wall leaves the most room.
    for (wall, up) in [0.7, 0.5, 0.35].into_iter().flat_map(|wall| [(wall, 0.08), (wall, 0.0)]) {
        let (height, up) = (site.round_up((width.mm() * wall).max(1.5 * site.wall)), site.round(room * up));
        for (pitch, rise) in site.pitches(side) {
            let top = height.mm() + width.mm() / 2.0 * rise + site.roof * (1.0 + rise * rise).sqrt();
            let covers = |d: &f64| over(up.mm() + d) >= over(up.mm()) + top + site.roof / 2.0;
            let most = (room - up.mm()) as i32;
            let Some(depth) = (8..most).map(f64::from).find(covers).map(|d| site.round_up(d)) else { continue };
            if up.mm() + depth.mm() <= room {
                let outline = Outline::Rectangle { width, depth };
                let (slope, place) = (eave(height, pitch, overhang), on_slope(site, side, offset, up));
                return Some(gabled(site, GuestKind::Dormer, outline, slope, overhang, place));
            }
        }
    }
    None
}

fn with_window(site: &Site<'_>, mut dormer: Part) -> Part {
    let Outline::Rectangle { width, .. } = dormer.outline else { return dormer };
    let Some(Top::Eave { height, .. }) = dormer.sides.get(1).map(|s| s.top) else { return dormer };
    dormer.openings.push(Opening {
        id: OpeningId("window".to_owned()),
        name: tr!("Window").to_owned(),
        side: dormer.sides[0].id.clone(),
        shape: Shape::Rectangle,
        width: site.round(width.mm() * 0.38),
        height: site.round(height.mm() * 0.6),
        sill: site.round(height.mm() * 0.5),
        placing: Placing::Centred { offset: Length::ZERO },
        mode: Mode::Cut,
        ..Opening::default()
    });
    dormer
}

/// On a flat roof, astride a level ridge, or on a slope.
pub(super) fn chimneys(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    let span = (0..site.host.sides.len()).map(|k| site.surface.depth(k)).fold(f64::INFINITY, f64::min);
    let width = site.round((span * 0.22).max(LEAST_WIDTH * site.wall));
    if width.mm() > span * 0.7 {
        return Ok(vec![]);
    }
    if site.host.lid.is_some() {
        return Ok(chimneys_on_top(site, width));
    }
    let ridge = site.surface.top().map_or(0.0, |top| top.length);
    let mut found = Vec::new();
    if ridge > width.mm() {
        let spare = (ridge - width.mm()) / 2.0;
        let along = [0.5, -0.5, 0.0, 0.9, -0.9].map(|share| site.round(spare * share));
        let turn = Angle::degrees(0.0);
        let place = |along| Place::Astride { host: site.host.id.clone(), along, turn };
        let width = site.round_up(width.mm().max(LEAST_ASTRIDE * site.wall));
        found.extend(along.map(|along| chimney(site, width, site.round(width.mm()), place(along))));
    }
    found.extend(chimneys_on_slopes(site, width));
    if found.is_empty() { site.slopes(GuestKind::Chimney).map(|_| found) } else { Ok(found) }
}

fn chimney(site: &Site<'_>, width: Length, height: Length, place: Place) -> Part {
    let outline = Outline::Rectangle { width, depth: width };
    let mut part = part(site, GuestKind::Chimney, outline, Top::Gable { overhang: Length::ZERO }, place);
    let overhang = site.round((width.mm() * 0.1).min(4.0));
    part.lid = Some(Lid { height, overhang, parapet: None });
    part
}

/// Near the edge of a flat roof, inside of its parapet.
fn chimneys_on_top(site: &Site<'_>, width: Length) -> Vec<Part> {
    let height = site.round(width.mm() * 1.25);
    let reach = site.wall * 2.0 + width.mm() * 0.75;
    let sides = 0..site.host.sides.len();
    let at = |side: usize, share: f64| {
        let at = site.surface.inside(side, share, reach);
        let spot = Spot { x: site.round(at.x), y: site.round(at.y), turn: Angle::degrees(0.0) };
        chimney(site, width, height, Place::OnTop { host: site.host.id.clone(), spot })
    };
    [0.5, 0.7, 0.3].into_iter().flat_map(|share| sides.clone().rev().map(move |side| at(side, share))).collect()
}

/// Half-way up a slope, higher than the roof.
fn chimneys_on_slopes(site: &Site<'_>, width: Length) -> Vec<Part> {
    let mut found = Vec::new();
    let top = site.surface.top().map_or(0.0, |t| t.height);
    for side in site.sides(|k| site.slopes_up(k)) {
        let (room, _) = site.ridge(side);
        if room < width.mm() * 1.3 {
            continue;
        }
        let up = site.round((room - width.mm()) * 0.6);
        let places = offsets(site, side, width.mm() * 2.0);
        found.extend(places.into_iter().map(|offset| {
            let share = 0.5 + offset.mm() / site.surface.length(side);
            let foot = site.surface.upper(site.surface.inside(side, share, up.mm()));
            let height = site.round_up(top - foot + width.mm() * 0.6);
            chimney(site, width, height, on_slope(site, side, offset, up))
        }));
    }
    found
}

/// Eight walls in the middle of a flat roof or over a point.
pub(super) fn lanterns(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    let no_top = || NoGuest::NoTop { host: site.host.name.clone() };
    let top = site.surface.top().ok_or_else(no_top)?;
    let flat = site.host.lid.is_some();
    if !flat && top.length > site.wall {
        return Err(no_top());
    }
    let span = (0..site.host.sides.len()).map(|k| site.surface.depth(k)).fold(f64::INFINITY, f64::min);
    let mut found = Vec::new();
    for share in if flat { [0.5, 0.4, 0.3] } else { [0.35, 0.28, 0.45] } {
        let edge = site.round((span * share * (PI / 8.0).tan()).max(2.5 * site.wall));
        let across = edge.mm() / (PI / 8.0).tan();
        if across > span * 0.75 {
            continue;
        }
        let spot = Spot { x: site.tidy(top.middle.x), y: site.tidy(top.middle.y), turn: Angle::degrees(0.0) };
        let place = Place::OnTop { host: site.host.id.clone(), spot };
        let overhang = site.round_down(site.overhang.min(across * 0.1));
        let (pitch, _): (Pitch, f64) = degrees(45.0);
        let slope = eave(site.round(across * 0.6), pitch, overhang);
        found.push(part(site, GuestKind::Lantern, Outline::Polygon { sides: 8, side: edge }, slope, place));
    }
    Ok(found)
}
