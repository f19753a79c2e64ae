//! Findings about openings that need no pane to be seen: what cannot be cut, and what stays dark.

use super::flat::{self, overlaid};
use super::solids::Solids;
use super::{Job, Notes};
use crate::Rooms;
use gable_measure::Severity;
use gable_plane::{Segment, bounds};
use gable_shell::{Glazier, House, Mode, Part, Shape, Solved};
use gable_words::tr;
use i_overlay::core::overlay_rule::OverlayRule;

/// How far behind an opening something takes its light, mm.
const BEHIND: f64 = 12.0;
/// From this share on an opening that is covered counts as dark.
const DARK: f64 = 0.7;

/// Shapes finer than the tools of the person, and bars narrower than wanted.
pub(super) fn cutting(jobs: &[Job<'_>], glazier: &Glazier, notes: &mut Notes<'_>) {
    for job in jobs {
        let blade = glazier.blade.mm();
        let finest = job.shown.contour.pairs().map(|(from, segment)| match segment {
            Segment::Line { to } => (to - from).norm(),
            Segment::Arc { centre, .. } => 2.0 * (from - centre).norm(),
        });
        let finest = finest.fold(f64::INFINITY, f64::min);
        if finest < blade {
            let (finest, blade) = (notes.print(finest), notes.print(blade));
            let what = tr!("{} has an edge of {finest}, shorter than the narrowest blade of {blade}", job.shown.name);
            notes.add(
                Severity::Caution,
                "finer-than-tools",
                &job.place,
                what,
                tr!("make it larger, or get a finer blade"),
            );
        }
        if let Shape::WholeFace { bar, .. } = job.opening.shape {
            let least = glazier.bridge.unwrap_or(job.piece.thickness);
            if bar < least {
                let (bar, least) = (notes.print(bar.mm()), notes.print(least.mm()));
                let what = tr!("the posts and rails of {} are {bar} wide, less than {least}", job.shown.name);
                notes.add(
                    Severity::Caution,
                    "thin-bars",
                    &job.place,
                    what,
                    tr!("make them wider, or the fields fewer"),
                );
            }
        }
    }
}

/// Glazed openings with another piece close behind them, or into an inside that nothing else opens.
pub(super) fn dark(jobs: &[Job<'_>], house: &House, solved: &Solved, solids: &Solids, notes: &mut Notes<'_>) {
    let rooms = Rooms::of(house, solved);
    for job in jobs.iter().filter(|j| j.shown.mode == Mode::Glazed) {
        if !has_light(&rooms, house, job, jobs) {
            let part = house.part(&job.piece.part).map_or(tr!("its part"), |p| p.name.as_str());
            let what = tr!("no light reaches {}: nothing else opens into {part}", job.shown.name);
            let remedy = tr!("cut a passage behind that part, give it another opening, or only press this one in");
            notes.add(Severity::Caution, "glazing-without-light", &job.place, what, remedy);
        }
        let (inner, out) = job.inner_face();
        let layer = if out < 0.0 { (inner + 0.2, inner + BEHIND) } else { (inner - BEHIND, inner - 0.2) };
        let Some(reach) = bounds(&job.ring) else { continue };
        let shadows = solids.in_layer(job.index, &job.piece.house_from_piece, layer, reach);
        if shadows.is_empty() {
            continue;
        }
        let rest = overlaid(std::slice::from_ref(&job.ring), &shadows, OverlayRule::Difference);
        let open: f64 = rest.iter().map(|a| flat::area(a)).sum();
        if open < (1.0 - DARK) * gable_plane::ring_area(&job.ring) {
            let what = tr!("no light reaches {}: another piece stands close behind it", job.shown.name);
            notes.add(
                Severity::Caution,
                "glazing-without-light",
                &job.place,
                what,
                tr!("move it, or only press it in"),
            );
        }
    }
}

/// Whether anything but this opening lets light into the room behind it: another opening, a side without a wall, or the base
/// board, where a hole can be made for a lamp.
fn has_light(rooms: &Rooms, house: &House, job: &Job<'_>, jobs: &[Job<'_>]) -> bool {
    let Some(room) = rooms.of_part(house, &job.piece.part) else { return true };
    let is_other = |o: &&Job<'_>| (o.index, &o.shown.id, o.shown.copy) != (job.index, &job.shown.id, job.shown.copy);
    let opens = |o: &Job<'_>| o.shown.mode.goes_through() && rooms.of_part(house, &o.piece.part) == Some(room);
    rooms.opens_to_board(house, room)
        || rooms.parts(house, room).any(is_open)
        || jobs.iter().filter(is_other).any(opens)
}

/// Whether a side that nothing stands against has no wall.
fn is_open(part: &Part) -> bool {
    part.place.host().is_none() && part.sides.iter().any(|s| !s.wall)
}
