//! Findings about openings that need no pane to be seen: what cannot be cut, and what stays dark.

use super::flat::{self, overlaid};
use super::solids::Solids;
use super::{Job, Notes};
use gable_measure::Severity;
use gable_plane::{Segment, bounds};
use gable_shell::{Glazier, Mode, Shape};
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
            let what =
                format!("{} has an edge of {finest}, shorter than the narrowest blade of {blade}", job.shown.name);
            notes.add(Severity::Caution, "finer-than-tools", &job.place, what, "make it larger, or get a finer blade");
        }
        if let Shape::WholeFace { bar, .. } = job.opening.shape {
            let least = glazier.bridge.unwrap_or(job.piece.thickness);
            if bar < least {
                let (bar, least) = (notes.print(bar.mm()), notes.print(least.mm()));
                let what = format!("the posts and rails of {} are {bar} wide, less than {least}", job.shown.name);
                notes.add(Severity::Caution, "thin-bars", &job.place, what, "make them wider, or the fields fewer");
            }
        }
    }
}

/// Glazed openings with another piece close behind them.
pub(super) fn dark(jobs: &[Job<'_>], solids: &Solids, notes: &mut Notes<'_>) {
    for job in jobs.iter().filter(|j| j.shown.mode == Mode::Glazed) {
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
            let what = format!("no light reaches {}: another piece stands close behind it", job.shown.name);
            notes.add(Severity::Caution, "glazing-without-light", &job.place, what, "move it, or only press it in");
        }
    }
}
