//! Findings about a part: before its pieces are cut, and about the pieces as cut.

use super::findings::Findings;
use super::joints::Places;
use super::part::{Job, PartSolution};
use super::plan::turn;
use super::plate::{Cause, Plate};
use super::ring::Ring;
use super::roof::Roof;
use crate::{Ridges, Role, Top};
use gable_plane::{ClipLine, ConvexPolygon, P2, V2, ring_area};
use gable_words::tr;

/// The V of an open ridge is called wide from so many thicknesses on, measured along a piece.
const WIDE_V: f64 = 2.0;
/// Pieces that share more than this clash, mm³: the promise of no overlap.
const CLASH: f64 = 1e-3;
/// Typed sizes are met within this, mm.
const TYPED: f64 = 0.01;

/// Whether the walls have room: opposite walls farther apart than two thicknesses, every side longer than its corners take.
pub(super) fn plan(job: &Job<'_>, findings: &mut Findings) {
    let thickness = job.wall_thickness();
    let plan: Vec<P2> = job.sides.iter().map(|s| s.start).collect();
    let whole = ConvexPolygon { corners: plan, labels: (0..job.sides.len()).collect::<Vec<usize>>() };
    let walled = |k: usize| job.part.sides[k].wall;
    let inner = job.sides.iter().enumerate().filter(|(k, _)| walled(*k)).try_fold(whole, |inside, (k, side)| {
        let offset = -side.inward.dot(&side.start.coords) - thickness;
        inside.clip(&ClipLine { normal: -side.inward, offset, label: k })
    });
    let Some(inner) = inner else {
        let what = tr!("the walls of {} are so near each other that nothing is left between them", job.part.name);
        findings.block(
            "walls-too-close",
            "outline",
            what,
            tr!("make the part larger or the dough of its walls thinner"),
        );
        return;
    };
    for k in (0..job.sides.len()).filter(|&k| walled(k) && !inner.labels.contains(&k)) {
        let length = findings.print(job.sides[k].length());
        let what = tr!("side {} is only {length} long, too short for walls this thick", job.side_words(k));
        let place = format!("sides.{}", job.side_name(k));
        findings.block("side-too-short", &place, what, tr!("make this side longer or the dough of the walls thinner"));
    }
}

/// Findings about the pieces as cut.
pub(super) fn result(
    job: &Job<'_>,
    roof: &Roof,
    ring: &Ring,
    solution: &PartSolution,
    places: &Places,
    findings: &mut Findings,
) {
    corners(job, ring, findings);
    heights(job, roof, solution, places, findings);
    if job.part.ridges != Ridges::Bevelled {
        wide_vs(solution, findings);
    }
    bevels(solution, findings);
    thin(solution, findings);
    clashes(solution, findings);
}

/// Lines that should lap but are left open.
pub(super) fn laps(job: &Job<'_>, roof: &Roof, given_up: &[(usize, usize)], findings: &mut Findings) {
    for &(s, r) in given_up {
        let name = |slope: usize| roof.slopes[slope].side.map_or(tr!("lid"), |k| job.side_words(k));
        let what = tr!("{} and {} would lap too far for roofs this thick and are left open", name(s), name(r));
        findings.note("lap-given-up", "ridges", what, tr!("fill the V with icing, or use thinner dough"));
    }
}

fn corners(job: &Job<'_>, ring: &Ring, findings: &mut Findings) {
    let count = job.sides.len();
    for &k in &ring.too_sharp {
        let degrees = turn(&job.sides[(k + count - 1) % count], &job.sides[k]).to_degrees();
        let what = tr!("the wall turns by {degrees:.0}° here, too far for a square-cut mitre; the walls lap instead");
        let place = format!("sides.{}", job.side_name(k));
        findings.note("mitre-too-sharp", &place, what, tr!("bevel the corners, or leave this one lapped"));
    }
    for &(k, lost) in &ring.lost {
        let what = tr!("a corner cuts {lost:.0} mm² off the wall on side {}", job.side_words(k));
        findings.caution(
            "wall-loses-a-bit",
            &format!("sides.{}", job.side_name(k)),
            what,
            tr!("let the corners be mitred"),
        );
    }
    for (k, side) in job.sides.iter().enumerate() {
        let Some(plate) = &ring.plates[k] else { continue };
        let inner = std::f64::consts::PI - turn(side, &job.sides[(k + 1) % count]);
        let (low, _) = plate.extent(V2::x());
        let through = !plate.causes.contains(&Cause::Corner((k + 1) % count));
        if low > TYPED && through && inner < std::f64::consts::FRAC_PI_2 - 1e-6 {
            let what = tr!("this sharp corner is cut straight, so its wall ends {} short of it", findings.print(low));
            let place = format!("sides.{}", job.side_name(k));
            findings.caution("corner-short", &place, what, tr!("choose mitred corners, or fill it with icing"));
        }
    }
}

/// Typed heights of walls that the other slopes do not let them reach.
fn heights(job: &Job<'_>, roof: &Roof, solution: &PartSolution, places: &Places, findings: &mut Findings) {
    for (k, side) in job.part.sides.iter().enumerate() {
        let (height, field) = match side.top {
            Top::Eave { height, .. } | Top::Knee { height, .. } => (height.mm(), "height"),
            Top::HalfHip { start, .. } => (start.mm(), "start"),
            Top::Gable { .. } => continue,
        };
        let Some(draft) = places.walls[k].map(|d| &solution.drafts[d]) else { continue };
        let own = |c: &Cause| matches!(c, Cause::Slope(s) if roof.slopes[*s].side == Some(k));
        let top = draft.plate.extent(V2::y()).1;
        if !draft.causes.iter().any(own) || (top - height).abs() > TYPED {
            let what = tr!(
                "the wall is asked to be {} high, but the other slopes leave it {}",
                findings.print(height),
                findings.print(top)
            );
            let place = format!("sides.{}.{field}", side.id.0);
            findings.caution("height-not-reached", &place, what, tr!("raise the other walls, or lower this one"));
        }
    }
    let stands = |s: &crate::Side| s.wall || s.posts.is_some();
    if !job.part.sides.iter().any(stands) {
        let what = tr!("no wall stands under the roof of {}", job.part.name);
        findings.caution("roof-on-nothing", "sides", what, tr!("let at least one side have a wall or posts"));
    }
}

/// Open Vs: a straight-cut piece would need t / tan(half the angle) more to meet its neighbour's top.
fn wide_vs(solution: &PartSolution, findings: &mut Findings) {
    for joint in solution.joints.iter().filter(|j| j.halved && j.kind != crate::JointKind::Corner) {
        let Some(first) = joint.first else { continue };
        let (a, b) = (&solution.drafts[first], &solution.drafts[joint.second]);
        let half = (std::f64::consts::PI - a.outward().angle(&b.outward())) / 2.0;
        if 1.0 / half.tan() > WIDE_V {
            let what = tr!(
                "{} and {} meet at {:.0}°, which leaves a V {} wide",
                a.name,
                b.name,
                2.0 * half.to_degrees(),
                findings.print(joint.wedge.1)
            );
            findings.caution("wide-v", "ridges", what, tr!("bevel the ridges, or make the roof flatter"));
        }
    }
}

fn bevels(solution: &PartSolution, findings: &mut Findings) {
    for draft in solution.drafts.iter().filter(|d| d.plate.bevel_given_up) {
        let what =
            tr!("{} cannot be bevelled all round: an edge would vanish on one face, so it is cut straight", draft.name);
        findings.note("bevel-given-up", "", what, tr!("fill the V with icing, or change the shape a little"));
    }
}

/// Pieces narrower than they are thick break in the hand.
fn thin(solution: &PartSolution, findings: &mut Findings) {
    for draft in &solution.drafts {
        let width = least_width(&draft.plate);
        if width < draft.plate.thickness {
            let what = tr!("{} is only {} wide, less than it is thick", draft.name, findings.print(width));
            findings.caution("thin-piece", "", what, tr!("make this side longer, or merge it with its neighbour"));
        }
    }
}

/// Least width of a plate between parallel lines, one of them along an edge (as for any convex polygon).
fn least_width(plate: &Plate) -> f64 {
    let widths = (0..plate.count()).map(|k| {
        let [a, b] = plate.edge(k);
        let along = (b - a).normalize();
        plate.front.iter().map(|p| along.perp(&(p - a))).fold(0.0, f64::max)
    });
    widths.fold(f64::INFINITY, f64::min)
}

fn is_convex(plate: &Plate) -> bool {
    let count = plate.count();
    (0..count).all(|k| {
        let [a, b] = plate.edge(k);
        let [_, c] = plate.edge((k + 1) % count);
        (b - a).perp(&(c - b)) >= -1e-6
    }) && ring_area(&plate.front) > 0.0
}

/// A last look at the result: no two plates may share room. Plates with a notch were cut clear by a polygon
/// difference and are not convex, so they are not looked at here.
fn clashes(solution: &PartSolution, findings: &mut Findings) {
    let solids: Vec<_> = solution.drafts.iter().filter(|d| is_convex(&d.plate)).map(|d| (d, d.plate.solid())).collect();
    for (i, (a, solid)) in solids.iter().enumerate() {
        for (b, other) in &solids[i + 1..] {
            let shared = solid.shared_with(other);
            if shared > CLASH {
                let place = if matches!(a.role, Role::Wall(_)) { "sides" } else { "" };
                let what = tr!("{} and {} would share {shared:.2} mm³ of room", a.name, b.name);
                findings.block("pieces-clash", place, what, tr!("make the part larger or its dough thinner"));
            }
        }
    }
}
