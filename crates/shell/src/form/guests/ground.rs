//! What stands on the board against a wall.
//!
//! Proportions are of our own, taken from houses that look right; what must be so is said beside it.

use super::place::{against, eave, gabled, offsets, open_back, part};
use super::site::{Site, degrees};
use super::{GuestKind, NoGuest};
use crate::{Corners, Outline, Part, Placing, Top};
use gable_measure::{Length, Pitch};
use std::f64::consts::PI;

/// Least width of a part, in thicknesses of its walls: opposite walls nearer than two cannot be built, and there must be
/// room between them for a finger with icing.
pub(super) const LEAST_WIDTH: f64 = 6.0;

/// Least height of a wall, in its thicknesses.
const LEAST_WALL: f64 = 3.0;

/// Wings: into a slope with the eaves at one height, else wholly under the wall's top.
pub(super) fn wings(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    let mut found = Vec::new();
    for side in site.walls(GuestKind::Wing)? {
        for share in [0.5, 0.65, 0.8, 0.4, 0.3] {
            let width = site.round(site.surface.length(side) * share);
            if width.mm() < LEAST_WIDTH * site.wall {
                continue;
            }
            if site.slopes_up(side) {
                found.extend(wings_into_slope(site, side, width));
            }
            found.extend(low_wings(site, side, width));
        }
    }
    Ok(found)
}

/// The wing reaches in until the host's roof is over its ridge.
fn wings_into_slope(site: &Site<'_>, side: usize, width: Length) -> Vec<Part> {
    let eaves = site.eaves(side);
    let height = height_of_eaves(site, side, eaves);
    let half = width.mm() / 2.0;
    let (room, ridge) = site.ridge(side);
    let fitting = |&(_, rise): &(Pitch, f64)| eaves + half * rise <= ridge;
    let Some((pitch, rise)) = site.pitches(side).into_iter().find(fitting) else { return vec![] };
    let top = height.mm() + half * rise + site.roof * (1.0 + rise * rise).sqrt();
    let covers = |d: &f64| site.surface.upper(site.surface.inside(side, 0.5, *d)) > top + site.roof / 2.0;
    let reach = (0..).map(f64::from).take_while(|d| *d < room).find(covers).unwrap_or(room);
    let out = site.round(width.mm() * 0.6);
    let depth = out + site.round_up(reach).min(site.round_down(room));
    let overhang = site.round(site.overhang);
    let at = |offset| {
        let place = against(site, side, Placing::Centred { offset }, out);
        let outline = Outline::Rectangle { width, depth };
        gabled(site, GuestKind::Wing, outline, eave(height, pitch, overhang), overhang, place)
    };
    offsets(site, side, width.mm()).into_iter().map(at).collect()
}

/// The height of the host's eaves as it was typed, so that both are level.
fn height_of_eaves(site: &Site<'_>, side: usize, eaves: f64) -> Length {
    match site.host.sides[side].top {
        Top::Eave { height, .. } | Top::Knee { height, .. } => height,
        _ => site.round_down(eaves),
    }
}

/// The wing ends at the wall, which must be higher than its ridge.
fn low_wings(site: &Site<'_>, side: usize, width: Length) -> Vec<Part> {
    let (half, overhang) = (width.mm() / 2.0, site.round(site.overhang));
    let out = site.round(width.mm() * 0.7);
    let at = |offset: Length| {
        let share = 0.5 + offset.mm() / site.surface.length(side);
        let fits = |&(pitch, rise): &(Pitch, f64)| {
            let height = low_wall(site, side, share, half, rise)?;
            Some(eave(height, pitch, overhang))
        };
        let slope = site.pitches(side).iter().find_map(fits)?;
        let place = against(site, side, Placing::Centred { offset }, out);
        let outline = Outline::Rectangle { width, depth: out };
        Some(gabled(site, GuestKind::Wing, outline, slope, overhang, place))
    };
    offsets(site, side, width.mm()).into_iter().filter_map(at).collect()
}

/// The wall under a gable so wide that finds room under the roof there.
pub(super) fn low_wall(site: &Site<'_>, side: usize, share: f64, half: f64, rise: f64) -> Option<Length> {
    let plate = (site.roof * 1.5) * (1.0 + rise * rise).sqrt();
    let under_ridge = site.ceiling(side, share, 1.0) - plate - half * rise;
    let under_ends = site.ceiling(side, share, half + site.overhang) - plate;
    let height = site.round_down(under_ridge.min(under_ends).min(site.eaves(side) * 0.85));
    (height.mm() >= LEAST_WALL * site.wall).then_some(height)
}

/// One slope up to the wall, under whatever is over it.
pub(super) fn lean_tos(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    let mut found = Vec::new();
    for side in site.walls(GuestKind::LeanTo)? {
        for share in [0.6, 0.4] {
            let width = site.round(site.surface.length(side) * share);
            if width.mm() < LEAST_WIDTH * site.wall {
                continue;
            }
            let at = |offset: Length| lean_to(site, side, width, offset);
            found.extend(offsets(site, side, width.mm()).into_iter().filter_map(at));
        }
    }
    Ok(found)
}

fn lean_to(site: &Site<'_>, side: usize, width: Length, offset: Length) -> Option<Part> {
    let share = 0.5 + offset.mm() / site.surface.length(side);
    let ceiling = site.ceiling(side, share, width.mm() / 2.0 + site.overhang);
    let overhang = site.round(site.overhang * 0.8);
    for (angle, reach) in [(30.0, 0.5), (25.0, 0.45), (20.0, 0.4), (15.0, 0.35)] {
        let (pitch, rise) = degrees(angle);
        let out = site.round((ceiling * reach).max(LEAST_WIDTH * site.wall));
        let plate = site.roof * 1.5 * (1.0 + rise * rise).sqrt();
        let height = site.round_down((ceiling - plate).min(site.eaves(side) * 0.85) - out.mm() * rise);
        if height.mm() < LEAST_WALL * site.wall || height.mm() < ceiling * 0.3 {
            continue;
        }
        let place = against(site, side, Placing::Centred { offset }, out);
        let outline = Outline::Rectangle { width, depth: out };
        let rake = Top::Gable { overhang };
        let mut part = part(site, GuestKind::LeanTo, outline, rake, place);
        part.sides[0].top = eave(height, pitch, overhang);
        open_back(&mut part);
        return Some(part);
    }
    None
}

/// Eight walls about as wide as half the host, a little out of a corner, and a spire higher than the host's roof.
pub(super) fn towers(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    /// How far it stands out of the corner, as a share of its width.
    const OUT: f64 = 0.58;
    let walls = site.walls(GuestKind::Tower)?;
    let span = (0..site.host.sides.len()).map(|k| site.surface.depth(k)).fold(f64::INFINITY, f64::min);
    let high = site.surface.top().map_or(0.0, |t| t.height);
    let mut found = Vec::new();
    for side in walls {
        for share in [0.55, 0.4] {
            let edge = site.round(span * share * (PI / 8.0).tan());
            // A corner of an octagon needs room for both walls.
            if edge.mm() < 2.5 * site.wall {
                continue;
            }
            let across = edge.mm() / (PI / 8.0).tan();
            let height = site.round_up(high + across * 0.2);
            let overhang = site.round(site.overhang * 0.8);
            let past = site.round(-across * OUT);
            let ends = [Placing::FromRight { distance: past }, Placing::FromLeft { distance: past }];
            for along in ends {
                let place = against(site, side, along, site.round(across * OUT));
                let outline = Outline::Polygon { sides: 8, side: edge };
                let slope = eave(height, degrees(58.0).0, overhang);
                let mut tower = part(site, GuestKind::Tower, outline, slope, place);
                tower.stays_whole = true;
                tower.corners = Corners::LapAround;
                found.push(tower);
            }
        }
    }
    Ok(found)
}

/// Three walls under the eave with a roof against the wall.
pub(super) fn bays(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    let mut found = Vec::new();
    for side in site.walls(GuestKind::Bay)? {
        let length = site.surface.length(side);
        for share in [0.45, 0.35, 0.6] {
            let width = site.round((length * share).min(site.eaves(side)));
            // Each of three sides is half as wide.
            if width.mm() / 2.0 < 2.5 * site.wall {
                continue;
            }
            let at = |offset: Length| bay(site, side, width, offset);
            found.extend(offsets(site, side, width.mm()).into_iter().filter_map(at));
        }
    }
    Ok(found)
}

fn bay(site: &Site<'_>, side: usize, width: Length, offset: Length) -> Option<Part> {
    let share = 0.5 + offset.mm() / site.surface.length(side);
    let apothem = width.mm() / 2.0 * (PI / 6.0).cos();
    let overhang = site.round(site.overhang * 0.5);
    let ceiling = site.ceiling(side, share, width.mm() / 2.0 + overhang.mm());
    for angle in [45.0, 35.0, 25.0, 15.0] {
        let (pitch, rise) = degrees(angle);
        let plate = site.roof * 1.5 * (1.0 + rise * rise).sqrt();
        let height = site.round_down((ceiling - plate).min(site.eaves(side) * 0.9) - apothem * rise);
        if height.mm() < LEAST_WALL * site.wall || height.mm() < ceiling * 0.4 {
            continue;
        }
        let place = against(site, side, Placing::Centred { offset }, site.just_under(apothem));
        let outline = Outline::HalfPolygon { sides: 3, width };
        let mut bay = part(site, GuestKind::Bay, outline, eave(height, pitch, overhang), place);
        open_back(&mut bay);
        return Some(bay);
    }
    None
}
