//! Doors and windows: from their placing to outlines in walls and slopes, and cutting doors through the foot.

mod fit;
mod frame;
mod near;

use super::draft::Draft;
use super::findings::Findings;
use super::part::Job;
use super::plan::PlanSide;
use crate::{Glazier, Opening, PieceOpening, Role, Shape, Surface};
use fit::{Fitting, fit};
use gable_plane::{Contour, P2, SvgPath, V2};
use gable_words::tr;

/// Puts the openings of a part into its walls and slopes.
pub(super) fn place(job: &Job<'_>, glazier: &Glazier, drafts: &mut [Draft], findings: &mut Findings) {
    for (index, opening) in job.part.openings.iter().enumerate() {
        let place = format!("openings[{index}]");
        let side = job.part.sides.iter().position(|s| s.id == opening.side);
        let found = side.and_then(|k| Some((k, draft_of(opening, drafts)?)));
        let Some((k, at)) = found else {
            nowhere(opening, &place, findings);
            continue;
        };
        let outlines = match opening.shape {
            Shape::WholeFace { across, up, bar } => frame::fields(job, k, &drafts[at], (across, up), bar.mm()),
            _ => outlines(opening, &job.sides[k], &drafts[at]),
        };
        if outlines.is_empty() {
            too_low(opening, &place, findings);
        }
        let several = outlines.len() > 1;
        // The bars of a frame are as wide as the person wants them.
        let frame = opening.shape.is_whole_face();
        let least = if frame { 0.0 } else { least_bridge(glazier, &drafts[at]) };
        let place = Fitting { opening, place: &place, least };
        for (copy, contour) in outlines {
            let name = if several { format!("{} ({})", opening.name, copy + 1) } else { opening.name.clone() };
            let found = PieceOpening { id: opening.id.clone(), copy, name, contour, mode: opening.mode };
            fit(&mut drafts[at], found, &place, findings);
        }
        over_wall(job, &place, &drafts[at], findings);
    }
}

/// The least width of biscuit that the person wants to be left anywhere, mm.
fn least_bridge(glazier: &Glazier, draft: &Draft) -> f64 {
    glazier.bridge.map_or(draft.plate.thickness, |b| b.mm())
}

/// The draft that an opening is in.
fn draft_of(opening: &Opening, drafts: &[Draft]) -> Option<usize> {
    let role = match opening.face {
        Surface::Wall => Role::Wall(opening.side.clone()),
        Surface::Slope(tier) => Role::Slope(opening.side.clone(), tier),
    };
    drafts.iter().position(|d| d.role == role)
}

fn nowhere(opening: &Opening, place: &str, findings: &mut Findings) {
    let (name, side) = (&opening.name, &opening.side.0);
    if opening.face == Surface::Wall {
        let what = tr!("{name} is on side {side}, where no wall stands");
        findings.block("opening-without-wall", place, what, tr!("let a wall stand there, or move the opening"));
    } else {
        let what = tr!("{name} is in a slope of side {side}, and there is none");
        findings.block("opening-without-slope", place, what, tr!("let the roof slope up there, or move the opening"));
    }
}

fn too_low(opening: &Opening, place: &str, findings: &mut Findings) {
    if opening.shape.is_whole_face() {
        let what = tr!("no field is left between the bars of {}", opening.name);
        findings.block("no-field", place, what, tr!("make the bars narrower, or the fields fewer"));
        return;
    }
    if let Shape::Path { data, .. } = &opening.shape {
        let why = SvgPath::read(data).map_or_else(|e| e.to_string(), |_| tr!("the path encloses nothing").to_owned());
        let what = tr!("{} has no outline: {why}", opening.name);
        findings.block("path-unreadable", place, what, tr!("give it path data of SVG with one closed outline"));
        return;
    }
    let what = tr!("{} is too low for its head", opening.name);
    findings.block("head-too-low", place, what, tr!("make it higher or narrower, or square-headed"));
}

pub(super) fn foot_of(draft: &Draft) -> f64 {
    draft.plate.extent(V2::y()).0
}

/// Outlines in the piece, with the numbers of their copies. In a wall's piece x runs from the right corner to the left
/// one seen from outside, in a slope's from the left to the right.
///
/// A wall that stands on a floor slab has its foot above the sill line of a door: the door starts at the foot.
fn outlines(opening: &Opening, side: &PlanSide, draft: &Draft) -> Vec<(usize, Contour)> {
    let (length, foot) = (side.length(), foot_of(draft));
    let boxes = opening.layout(length).boxes;
    let outline = |(low, high): (P2, P2)| match opening.face {
        Surface::Wall => {
            let lifts = opening.shape.has_foot() && low.y < foot && foot < high.y;
            let low = if lifts { P2::new(low.x, foot) } else { low };
            let seen = opening.shape.contour(low, high)?;
            Some(seen.mapped(true, |p| P2::new(length - p.x, p.y)).reversed())
        }
        Surface::Slope(tier) => {
            let up = V2::new(0.0, if tier == crate::Tier::Upper { foot } else { 0.0 });
            opening.shape.contour(low + up, high + up)
        }
    };
    boxes.into_iter().enumerate().filter_map(|(copy, b)| Some((copy, outline(b)?))).collect()
}

/// An opening in a slope that shows the top of a wall, or the ground.
fn over_wall(job: &Job<'_>, place: &Fitting<'_>, draft: &Draft, findings: &mut Findings) {
    if place.opening.face == Surface::Wall {
        return;
    }
    let own = draft.openings.iter().filter(|o| o.id == place.opening.id);
    let corners = || own.clone().flat_map(|o| o.contour.flatten(0.1));
    let thickness = job.wall_thickness();
    let walls = job.sides.iter().zip(&job.part.sides).filter(|(_, s)| s.wall);
    let depth = walls.flat_map(|(side, _)| corners().map(|p| side.depth(draft.plate.frame.point(p, 0.0).xy())));
    if depth.fold(f64::INFINITY, f64::min) < thickness {
        let what = tr!("{} lies over a wall or beyond it", place.opening.name);
        findings.caution("opening-over-wall", place.place, what, tr!("move it up the slope, or make it smaller"));
    }
}
