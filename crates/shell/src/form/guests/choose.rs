//! Of several proposals the first that can be built and is in nobody's way.

use super::site::Site;
use crate::{House, Part, Place, file, solve};
use gable_measure::{Finding, Severity};
use gable_plane::{P2, P3, Rigid};

/// Most proposals that are worked out in full, so that the answer comes at once.
const MOST_TRIED: usize = 24;

/// The first proposal that brings no finding but notes; else the one that brings the fewest cautions. `None` if each
/// brings something that cannot be built.
pub(super) fn first_that_can_be_built(site: &Site<'_>, proposals: Vec<Part>) -> Option<Part> {
    let ground = Ground::of(site)?;
    let mut tried = site.house.clone();
    let mut best: Option<(usize, Part)> = None;
    let free = proposals.into_iter().filter(|part| ground.is_free(site, part));
    for part in free.take(MOST_TRIED) {
        tried.parts.push(part.clone());
        let cautions = ground.cautions(&tried);
        tried.parts.pop();
        let Some(cautions) = cautions else { continue };
        if cautions == 0 {
            return Some(part);
        }
        if best.as_ref().is_none_or(|(least, _)| cautions < *least) {
            best = Some((cautions, part));
        }
    }
    best.map(|(_, part)| part)
}

/// A house before anything is added to it.
pub(in super::super) struct Ground {
    /// Places and plans of all parts but the host.
    plans: Vec<(Place, Vec<P2>)>,
    house_from_host: Rigid,
    findings: Vec<Finding>,
}

impl Ground {
    pub(in super::super) fn of(site: &Site<'_>) -> Option<Self> {
        let solved = solve(site.house);
        let host = solved.parts.iter().find(|p| p.id == site.host.id)?;
        let others = solved.parts.iter().filter(|p| p.id != site.host.id);
        let plans = others.filter_map(|p| Some((site.house.part(&p.id)?.place.clone(), p.plan.clone()))).collect();
        Some(Self { plans, house_from_host: host.house_from_part, findings: solved.findings })
    }

    /// Whether a part would stand clear of the plans of others; two walls apart where both stand on the board or on
    /// one slope. What stands on a point is above them all.
    pub(in super::super) fn is_free(&self, site: &Site<'_>, part: &Part) -> bool {
        if matches!(part.place, Place::OnTop { .. }) && site.host.lid.is_none() {
            return true;
        }
        let Some(host_from_part) = site.surface.stand(part) else { return false };
        let house_from_part = self.house_from_host * host_from_part;
        let lift = |p: P2| (house_from_part * P3::new(p.x, p.y, 0.0)).xy();
        let plan: Vec<P2> = part.outline.corners().into_iter().map(lift).collect();
        let strip = |other: &Place| if are_level(&part.place, other) { site.wall * 2.0 } else { 0.0 };
        self.plans.iter().all(|(place, other)| apart(&plan, other, strip(place)))
    }

    /// How many cautions a house has that were not there before; `None` when it has something new that cannot be built.
    pub(in super::super) fn cautions(&self, house: &House) -> Option<usize> {
        let sound = file::check(house).is_empty();
        let findings = if sound { solve(house).findings } else { return None };
        let new = |severity: Severity| {
            findings.iter().filter(|f| f.severity == severity && !self.findings.contains(f)).count()
        };
        (new(Severity::Blocking) == 0).then(|| new(Severity::Caution))
    }
}

/// Whether two parts stand on the board, on one slope, or on one ridge.
fn are_level(one: &Place, other: &Place) -> bool {
    let on_board = |p: &Place| matches!(p, Place::Ground(_) | Place::Against { .. });
    match (one, other) {
        (Place::OnSlope { host: a, side: k, .. }, Place::OnSlope { host: b, side: l, .. }) => a == b && k == l,
        (Place::Astride { host: a, .. }, Place::Astride { host: b, .. }) => a == b,
        _ => on_board(one) && on_board(other),
    }
}

/// Whether two convex outlines are so far apart that a straight strip so wide fits between them.
fn apart(a: &[P2], b: &[P2], strip: f64) -> bool {
    let beside = |a: &[P2], b: &[P2]| {
        (0..a.len()).any(|k| {
            let (from, to) = (a[k], a[(k + 1) % a.len()]);
            let along = (to - from).normalize();
            b.iter().all(|p| along.perp(&(p - from)) <= -strip)
        })
    };
    beside(a, b) || beside(b, a)
}
