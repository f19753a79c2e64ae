//! What stands before a door: a porch, or steps.
//!
//! Proportions are of our own, taken from houses that look right; what must be so is said beside it.

use super::ground::{LEAST_WIDTH, low_wall};
use super::place::{against, eave, gabled, offsets, open_back, part};
use super::site::Site;
use super::{GuestKind, NoGuest};
use crate::{FloorKind, Mode, Opening, OpeningId, Outline, Part, Placing, Posts, Shape, SideId, Steps, StepsHigh, Top};
use gable_measure::{Length, Pitch};
use gable_words::tr;

/// Posts stand no farther apart than this share of their height, so that there are more before a wide wall.
const WIDEST_SPACE: f64 = 1.2;

/// A small gable on posts before a door, if there is one, with a floor and a step; without a floor where that is in the way, else
/// with walls and an arch to walk through, or none where there is no room for an arch.
pub(super) fn porches(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    let mut found = Vec::new();
    for side in site.walls(GuestKind::Porch)? {
        let length = site.surface.length(side);
        let width = site.round((length * 0.25).clamp(LEAST_WIDTH * site.wall, length.max(LEAST_WIDTH * site.wall)));
        let (offsets, width) = before_doors(site, side, width, 4.0);
        if width.mm() <= length {
            found.extend(offsets.into_iter().flat_map(|offset| porch(site, side, width, offset)));
        }
    }
    Ok(found)
}

/// Where something before a wall may stand, and how wide: before each door and wider than it by so many walls, or anywhere.
fn before_doors(site: &Site<'_>, side: usize, width: Length, wider: f64) -> (Vec<Length>, Length) {
    let at_doors = doors(site, side);
    match at_doors.first() {
        Some(&(_, door)) => {
            let wide = site.round_up(width.mm().max(door + wider * site.wall));
            (at_doors.iter().map(|d| site.round(d.0)).collect(), wide)
        }
        None => (offsets(site, side, width.mm()), width),
    }
}

/// Doors of a wall: how far right of its middle they are, and how wide.
fn doors(site: &Site<'_>, side: usize) -> Vec<(f64, f64)> {
    let length = site.surface.length(side);
    // A door may stand as high as a porch floor.
    let on_ground = |o: &&Opening| o.side == site.host.sides[side].id && o.sill.mm() < LEAST_WIDTH * site.wall / 2.0;
    let door = |o: &Opening| {
        let width = o.width.mm();
        let offset = match o.placing {
            Placing::Centred { offset } => offset.mm(),
            Placing::FromLeft { distance } => distance.mm() + width / 2.0 - length / 2.0,
            Placing::FromRight { distance } => length / 2.0 - distance.mm() - width / 2.0,
        };
        (offset, width)
    };
    site.host.openings.iter().filter(on_ground).map(door).collect()
}

fn porch(site: &Site<'_>, side: usize, width: Length, offset: Length) -> Vec<Part> {
    let share = 0.5 + offset.mm() / site.surface.length(side);
    let out = site.round(width.mm() * 0.7);
    let overhang = site.round(site.overhang * 0.5);
    let fits = |&(pitch, rise): &(Pitch, f64)| {
        let height = low_wall(site, side, share, width.mm() / 2.0, rise)?;
        // No higher than wide, by and large.
        let high = site.round(width.mm() * 1.25);
        Some((pitch, if height > high { high } else { height }))
    };
    let Some((pitch, height)) = site.pitches(side).iter().find_map(fits) else { return vec![] };
    let place = against(site, side, Placing::Centred { offset }, out);
    let outline = Outline::Rectangle { width, depth: out };
    let closed = gabled(site, GuestKind::Porch, outline, eave(height, pitch, overhang), overhang, place);
    let (mut arched, mut open) = (closed.clone(), closed.clone());
    let on_posts = posted(site, closed, width, height);
    let floored = Part { floor: floor(site, &on_posts, 1), ..on_posts.clone() };
    let wide = site.round_down((width.mm() - 2.0 * site.wall) * 0.6);
    arched.openings.push(arch(&arched, wide, site.round_down(height.mm() * 0.9).max(wide * 0.75)));
    open.sides[0].wall = false;
    vec![floored, on_posts, arched, open]
}

/// The same with posts in front instead of walls.
fn posted(site: &Site<'_>, mut part: Part, width: Length, height: Length) -> Part {
    let usual = Posts::usual(Length::mm_of(site.wall));
    let post = site.round(usual.width.mm());
    let room = width.mm() - post.mm();
    let spaces = (room / (height.mm() * WIDEST_SPACE)).ceil().clamp(1.0, 20.0);
    for side in &mut part.sides {
        side.wall = false;
    }
    part.sides[0].posts = Some(Posts { count: spaces as u8 + 1, width: post, ..usual });
    part
}

/// A floor of so many steps that go down to the front.
fn floor(site: &Site<'_>, part: &Part, count: u8) -> crate::Floor {
    let tread = site.round(site.wall * 2.0);
    let steps = Steps { high: StepsHigh::Count(count), plates: 1, tread, sides: vec![SideId("front".to_owned())] };
    crate::Floor { kind: FloorKind::Under, steps: Some(steps), ..part.floor.clone() }
}

fn arch(part: &Part, width: Length, height: Length) -> Opening {
    Opening {
        id: OpeningId("arch".to_owned()),
        name: tr!("Arch").to_owned(),
        side: part.sides[0].id.clone(),
        shape: Shape::RoundHeaded,
        width,
        height,
        sill: Length::ZERO,
        placing: Placing::Centred { offset: Length::ZERO },
        mode: Mode::Cut,
        ..Opening::default()
    }
}

/// Steps before a door, if there is one, down to the front and to both sides: two, or one where there is a door as low as that.
pub(super) fn steps(site: &Site<'_>) -> Result<Vec<Part>, NoGuest> {
    let mut found = Vec::new();
    for side in site.walls(GuestKind::Steps)? {
        let length = site.surface.length(side);
        let (offsets, width) = before_doors(site, side, site.round((length * 0.25).max(4.0 * site.wall)), 2.0);
        if width.mm() > length {
            continue;
        }
        for offset in offsets {
            let out = site.round(site.wall * 3.0);
            let place = against(site, side, Placing::Centred { offset }, out);
            let outline = Outline::Rectangle { width, depth: out };
            let mut plain = part(site, GuestKind::Steps, outline, Top::Gable { overhang: Length::ZERO }, place);
            open_back(&mut plain);
            plain.sides.iter_mut().for_each(|s| s.wall = false);
            found.extend([2, 1].map(|count| {
                let mut floor = floor(site, &plain, count);
                let sides = ["front", "right", "left"].map(|s| SideId(s.to_owned()));
                floor.steps.iter_mut().for_each(|steps| steps.sides = sides.to_vec());
                Part { floor, ..plain.clone() }
            }));
        }
    }
    Ok(found)
}
