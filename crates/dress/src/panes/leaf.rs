//! Panes: sheets behind their openings, clipped to the room there is, or sugar in them.

use super::flat::{self, Area, grown, overlaid};
use super::solids::Solids;
use super::{Job, Notes, Pane, bars, glass, lifted, split};
use gable_measure::{Length, Severity};
use gable_plane::{ClipLine, Contour, ConvexPolygon, P2, V2, bounds};
use gable_shell::{Glass, House, Mode};
use gable_words::tr;
use i_overlay::core::overlay_rule::OverlayRule;

/// Less than this share of the margin is too little to glue a leaf by.
const LITTLE: f64 = 0.4;
/// Less of an opening than this is not missed by a pane, mm².
const MISSED: f64 = 0.05;

/// All panes, by piece and opening.
pub(super) fn panes(jobs: &[Job<'_>], house: &House, solids: &Solids, notes: &mut Notes<'_>) -> Vec<Pane> {
    let margin = house.dressing.glazier.margin.mm();
    let glazed: Vec<&Job<'_>> = jobs.iter().filter(|j| j.shown.mode == Mode::Glazed).collect();
    let mut found = Vec::new();
    for job in &glazed {
        if job.opening.glazing.glass != Glass::Leaf {
            found.push(sugar(job));
            continue;
        }
        let sheets = sheet(job, &glazed, margin, house.gap.mm(), solids);
        let Some(sheet) = sheets.into_iter().find(|s| covers(s, job)) else {
            let what = tr!("there is no room behind {} for a leaf that covers it", job.shown.name);
            notes.add(
                Severity::Caution,
                "pane-cut-off",
                &job.place,
                what,
                tr!("move it, or fill it with sugar instead"),
            );
            continue;
        };
        glued(job, &sheet, margin, notes);
        found.extend(cut_to_leaves(job, &sheet, house, notes));
    }
    found
}

/// Sugar in the opening, level with the inner face, on which the piece lay.
fn sugar(job: &Job<'_>) -> Pane {
    let thickness = sugar_thickness(job, job.opening.glazing.glass);
    let (inner, out) = job.inner_face();
    let z = if out < 0.0 { inner - thickness } else { inner };
    let thickness = Length::mm_of(thickness);
    Pane { thickness, house_from_pane: job.piece.house_from_piece * lifted(z), ..pane(job, job.shown.contour.clone()) }
}

/// How thick sugar lies in an opening: never thicker than the biscuit, mm.
pub(super) fn sugar_thickness(job: &Job<'_>, glass: Glass) -> f64 {
    glass::facts(glass).thickness.min(job.piece.thickness).mm()
}

/// A leaf flat on the inner face, with an outline in the piece.
fn pane(job: &Job<'_>, outline: Contour) -> Pane {
    let thickness = glass::facts(Glass::Leaf).thickness;
    let (inner, out) = job.inner_face();
    let z = if out < 0.0 { inner } else { inner - thickness.mm() };
    Pane {
        id: job.id(),
        name: format!("{}: {}", job.piece.name, job.shown.name),
        piece: job.index,
        opening: job.shown.id.clone(),
        copy: job.shown.copy,
        glass: job.opening.glazing.glass,
        outline,
        thickness,
        house_from_pane: job.piece.house_from_piece * lifted(z),
    }
}

/// The opening let out by the margin, less what is in the way: the edge of its piece, neighbours, other pieces.
fn sheet(job: &Job<'_>, glazed: &[&Job<'_>], margin: f64, gap: f64, solids: &Solids) -> Vec<Area> {
    let Some(whole) = grown(&job.ring, margin).into_iter().next() else { return Vec::new() };
    let (inner, out) = job.inner_face();
    let face = if out < 0.0 { &job.piece.outline_back } else { &job.piece.outline };
    // A door through the foot is out of the outline, but its pane goes over it.
    let face = if job.at_foot {
        overlaid(std::slice::from_ref(face), std::slice::from_ref(&job.ring), OverlayRule::Union)
    } else {
        vec![vec![face.clone()]]
    };
    let mut left = overlaid(&whole, &face.concat(), OverlayRule::Intersect);
    for other in glazed.iter().filter(|o| o.index == job.index && !std::ptr::eq(**o, job)) {
        if other.opening.glazing.glass == Glass::Leaf {
            left = left.into_iter().flat_map(|area| halved(area, job, other, margin)).collect();
        }
    }
    let thickness = glass::facts(Glass::Leaf).thickness.mm();
    let layer = if out < 0.0 { (inner, inner + thickness) } else { (inner - thickness, inner) };
    let Some(reach) = left.first().and_then(|area| bounds(area.iter().flatten())) else { return left };
    let rings = solids.in_layer(job.index, &job.piece.house_from_piece, layer, reach);
    let tools: Vec<Vec<P2>> = rings.iter().flat_map(|ring| grown(ring, gap)).flatten().collect();
    if tools.is_empty() {
        return left;
    }
    left.into_iter().flat_map(|area| overlaid(&area, &tools, OverlayRule::Difference)).collect()
}

/// What a leaf keeps beside another so near that both would lie on the same place: up to half way between the openings.
fn halved(area: Area, job: &Job<'_>, other: &Job<'_>, margin: f64) -> Vec<Area> {
    let (Some((low, high)), Some((other_low, other_high))) = (bounds(&job.ring), bounds(&other.ring)) else {
        return vec![area];
    };
    let apart = [
        (V2::x(), other_low.x - high.x, (other_low.x + high.x) / 2.0),
        (-V2::x(), low.x - other_high.x, -(low.x + other_high.x) / 2.0),
        (V2::y(), other_low.y - high.y, (other_low.y + high.y) / 2.0),
        (-V2::y(), low.y - other_high.y, -(low.y + other_high.y) / 2.0),
    ];
    let Some((normal, distance, offset)) = apart.into_iter().max_by(|a, b| a.1.total_cmp(&b.1)) else {
        return vec![area];
    };
    if distance < 0.0 || distance >= 2.0 * margin {
        return vec![area];
    }
    let half = ConvexPolygon::square(1e4, ()).clip(&ClipLine { normal, offset, label: () });
    half.map_or_else(Vec::new, |half| overlaid(&area, &[half.corners], OverlayRule::Intersect))
}

fn covers(sheet: &Area, job: &Job<'_>) -> bool {
    let missed = overlaid(std::slice::from_ref(&job.ring), sheet, OverlayRule::Difference);
    missed.iter().map(|a| flat::area(a)).sum::<f64>() < MISSED
}

/// Whether there is something to glue a leaf by all round.
fn glued(job: &Job<'_>, sheet: &Area, margin: f64, notes: &mut Notes<'_>) {
    if job.at_foot {
        return;
    }
    let rim = &sheet[0];
    let far = |p: &P2, k: usize| {
        let (a, b) = (rim[k], rim[(k + 1) % rim.len()]);
        let along: V2 = b - a;
        let share = ((p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        (p - (a + along * share)).norm()
    };
    let least = job.ring.iter().flat_map(|p| (0..rim.len()).map(move |k| far(p, k))).fold(f64::INFINITY, f64::min);
    if least < LITTLE * margin {
        let least = notes.print(least);
        let what = tr!("a leaf behind {} reaches only {least} past it on one side", job.shown.name);
        notes.add(
            Severity::Caution,
            "little-to-glue",
            &job.place,
            what,
            tr!("move it away from its neighbour or the edge"),
        );
    }
}

/// The sheet in parts that a leaf covers.
fn cut_to_leaves(job: &Job<'_>, sheet: &Area, house: &House, notes: &mut Notes<'_>) -> Vec<Pane> {
    let glazier = &house.dressing.glazier;
    let lines = bars::lines(job.opening, &job.ring, job.shown.contour.bounds());
    let at = |upright: bool| -> Vec<f64> {
        let level = |[a, b]: &&[P2; 2]| if upright { (a.x - b.x).abs() < 1e-6 } else { (a.y - b.y).abs() < 1e-6 };
        lines.iter().filter(level).map(|l| if upright { l[0].x } else { l[0].y }).collect()
    };
    let leaf = (glazier.leaf_length.mm(), glazier.leaf_width.mm());
    let split = split::split(sheet, leaf, &at(true), &at(false));
    if split.bare {
        let what = tr!(
            "{} is wider than a leaf of {} by {}, and no glazing bar hides the seam",
            job.shown.name,
            notes.print(leaf.0),
            notes.print(leaf.1)
        );
        notes.add(Severity::Caution, "leaf-too-small", &job.place, what, tr!("add glazing bars, or make it smaller"));
    }
    let several = split.parts.len() > 1;
    let make = |(k, area): (usize, &Area)| {
        let made = pane(job, Contour::polygon(area.first()?));
        let letter = char::from(b'a' + u8::try_from(k % 26).unwrap_or(0));
        Some(if several {
            Pane { id: format!("{}-{letter}", made.id), name: format!("{} {letter}", made.name), ..made }
        } else {
            made
        })
    };
    split.parts.iter().enumerate().filter_map(make).collect()
}
