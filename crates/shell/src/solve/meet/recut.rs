//! Cutting one piece with tools: its outline, its lumps, and what becomes of its edges and openings.

use super::clean::{clean, pinched};
use super::lump::Lump;
use super::tool::{Mark, Owner, Tool, overlap, upright};
use crate::solve::draft::{Draft, Hole};
use crate::solve::findings::Findings;
use crate::solve::plate::{Cause, Frame};
use crate::{House, PieceOpening};
use gable_plane::{P2, P3, Region, Rest, ring_area, ring_contains};
use gable_words::tr;

/// A part of a piece that fell off is dropped when it is smaller than this, mm², and than the share below.
pub(super) const SCRAP: f64 = 20.0;
/// Share of the piece that a scrap may be.
pub(super) const SCRAP_SHARE: f64 = 0.02;
/// Nobody can cut or hold what is smaller than this, mm² (common practice, no source).
const GRAIN: f64 = 4.0;
/// Share by which two volumes may differ and be the same.
const SAME_VOLUME: f64 = 1e-6;
/// Share of the way from the corners of a lump to its middle at which it is looked at.
const INWARD: f64 = 0.02;
/// Rings nearer than this are one: the piece is cut straight, mm.
const STRAIGHT: f64 = 1e-9;
/// Arcs of openings are followed this closely, mm.
const ARC_TOLERANCE: f64 = 0.005;
/// Lumps smaller than this are rounding, mm³.
const CRUMB: f64 = 1e-4;

/// What became of a piece.
pub(super) struct Recut {
    /// Nothing was cut off.
    pub(super) untouched: bool,
    /// What is left, largest first, each with its lumps; nothing when it is gone.
    pub(super) drafts: Vec<(Draft, Vec<Lump>)>,
    pub(super) lost: Vec<(Lump, Owner)>,
    /// Edges that lie on old ones: old edge, index into `drafts`, new edge.
    pub(super) own_edges: Vec<(usize, usize, usize)>,
    pub(super) tool_edges: Vec<ToolEdge>,
    pub(super) hurt: Vec<Hurt>,
}

/// An edge that a tool made.
pub(super) struct ToolEdge {
    pub(super) tool: usize,
    /// Index into the new drafts.
    pub(super) draft: usize,
    /// None on the rim of a hole.
    pub(super) edge: Option<usize>,
    /// Its ends on the reference face and on the other.
    pub(super) front: [P2; 2],
    pub(super) back: [P2; 2],
}

/// An opening that a tool ran into.
pub(super) struct Hurt {
    name: String,
    owner: Owner,
}

impl Hurt {
    /// Says so to the person.
    pub(super) fn tell(&self, house: &House, findings: &mut Findings) {
        let by = match self.owner {
            Owner::Piece(part, _) | Owner::Envelope(part) | Owner::Guest(part) => house.parts[part].name.as_str(),
            Owner::Beyond | Owner::Opening | Owner::Itself => tr!("the ridge"),
        };
        let what = tr!("{} is cut by {by}", self.name);
        findings.caution(
            "opening-cut",
            "openings",
            what,
            tr!("move it, make it smaller, or let the other part be cut"),
        );
    }
}

/// A piece after one face, or both, went through the tools.
pub(super) struct Cut {
    pub(super) front: Region<Mark>,
    pub(super) back: Option<Region<Mark>>,
}

impl Cut {
    fn contains(&self, p: P2) -> bool {
        let back = self.back.as_ref().is_some_and(|b| ring_contains(&b.rim.corners, p));
        back || ring_contains(&self.front.rim.corners, p)
    }

    /// By Simpson's rule, which is exact for a solid between two faces, mm³.
    fn volume(&self, thickness: f64) -> f64 {
        let front = &self.front.rim.corners;
        let Some(back) = self.back.as_ref().map(|b| &b.rim.corners) else { return self.front.area() * thickness };
        let middle: Vec<P2> = front.iter().zip(back).map(|(a, b)| nalgebra::center(a, b)).collect();
        (ring_area(front) + 4.0 * ring_area(&middle) + ring_area(back)) * thickness / 6.0
    }
}

pub(super) fn recut(draft: &Draft, frame: &Frame, lumps: Vec<Lump>, tools: &[Tool]) -> Recut {
    let mut out = Recut {
        untouched: false,
        drafts: Vec::new(),
        lost: Vec::new(),
        own_edges: Vec::new(),
        tool_edges: Vec::new(),
        hurt: hurt(draft, tools),
    };
    let (mut cuts, mut straightened) = cuts(draft, tools, true);
    let bevelled = cuts.iter().any(|c| c.back.is_some());
    let holds = || matches_lumps(&cuts, &lumps, tools, draft.plate.thickness);
    if bevelled && (!holds() || cuts.iter().any(pinched)) {
        (cuts, straightened) = self::cuts(draft, tools, false);
    }
    let whole: f64 = cuts.iter().map(|c| c.front.area()).sum();
    if let [only] = &cuts[..]
        && only.front.holes.is_empty()
        && only.front.rim.labels.iter().all(|l| matches!(l, Mark::Own(_)))
        && !straightened
    {
        out.untouched = true;
        out.drafts.push((draft.clone(), lumps));
        return out;
    }
    let mut lumps = lumps;
    if straightened {
        lumps = straight_lumps(draft, frame, lumps, &mut out.lost);
    }
    lumps = split(lumps, tools, &mut out.lost);
    let cleaned = clean(&mut cuts, whole);
    let off =
        cleaned.iter().map(|ring| Tool { owner: Owner::Itself, ring: ring.clone(), halves: upright(frame, ring) });
    lumps = split(lumps, &off.collect::<Vec<_>>(), &mut out.lost);
    let least = SCRAP.min(SCRAP_SHARE * whole).max(GRAIN);
    cuts.retain(|c| c.front.area() >= least);
    let mut shares: Vec<Vec<Lump>> = cuts.iter().map(|_| Vec::new()).collect();
    for lump in lumps {
        // The middle of a lump may lie in a door, which lumps do not mind.
        let middle = middle(&lump);
        let corners = lump.solid.corners();
        let inside = corners.iter().map(|p| p + (middle - p) * INWARD);
        let mut points = std::iter::once(middle).chain(inside).map(|p| frame.flat(p));
        match points.find_map(|p| cuts.iter().position(|c| c.contains(p))) {
            Some(k) => shares[k].push(lump),
            None => out.lost.push((lump, Owner::Itself)),
        }
    }
    for (k, (cut, lumps)) in cuts.into_iter().zip(shares).enumerate() {
        let piece = part_of(draft, k, cut, tools, &mut out);
        out.drafts.push((piece, lumps));
    }
    out
}

/// Whether bevelled outlines, joined corner by corner, hold as much as the lumps of the piece.
fn matches_lumps(cuts: &[Cut], lumps: &[Lump], tools: &[Tool], thickness: f64) -> bool {
    let left: f64 = split(lumps.to_vec(), tools, &mut Vec::new()).iter().map(|l| l.solid.volume()).sum();
    let held: f64 = cuts.iter().map(|c| c.volume(thickness)).sum();
    (left - held).abs() < SAME_VOLUME * left.max(1.0)
}

/// The outlines that the tools leave, and whether bevels had to be given up.
fn cuts(draft: &Draft, tools: &[Tool], bevels: bool) -> (Vec<Cut>, bool) {
    let own = |ring: &[P2]| Rest { corners: ring.to_vec(), labels: (0..ring.len()).map(Mark::Own).collect() };
    let ring =
        |(k, tool): (usize, &Tool)| Rest { corners: tool.ring.clone(), labels: vec![Mark::Tool(k); tool.ring.len()] };
    let tools: Vec<Rest<Mark>> = tools.iter().enumerate().map(ring).collect();
    let front = own(&draft.front);
    let fronts = front.without(&tools);
    let straight = draft.front.iter().zip(&draft.back).all(|(a, b)| (a - b).norm() < STRAIGHT);
    if straight {
        return (fronts.into_iter().map(|front| Cut { front, back: None }).collect(), false);
    }
    let back = own(&draft.back);
    if bevels && let Some(cuts) = paired(fronts, back.without(&tools)) {
        return (cuts, false);
    }
    let both = front.common(&back).into_iter().flat_map(|r| r.rim.without(&tools));
    (both.map(|front| Cut { front, back: None }).collect(), true)
}

/// Both faces with the same edges; `None` when they do not match.
fn paired(fronts: Vec<Region<Mark>>, backs: Vec<Region<Mark>>) -> Option<Vec<Cut>> {
    if fronts.len() != backs.len() {
        return None;
    }
    let pair = |(front, mut back): (Region<Mark>, Region<Mark>)| {
        let count = front.rim.labels.len();
        let holed = !front.holes.is_empty() || !back.holes.is_empty();
        if back.rim.labels.len() != count || holed {
            return None;
        }
        let alike = |shift: &usize| (0..count).all(|k| front.rim.labels[k] == back.rim.labels[(k + shift) % count]);
        let shift = (0..count).find(alike)?;
        back.rim.corners.rotate_left(shift);
        back.rim.labels.rotate_left(shift);
        Some(Cut { front, back: Some(back) })
    };
    fronts.into_iter().zip(backs).map(pair).collect()
}

/// Takes the tools off the lumps.
fn split(lumps: Vec<Lump>, tools: &[Tool], lost: &mut Vec<(Lump, Owner)>) -> Vec<Lump> {
    let mut left = lumps;
    for tool in tools.iter().filter(|t| !t.halves.is_empty()) {
        let mut next = Vec::new();
        for lump in left {
            match lump.solid.divided(&tool.halves).filter(|(taken, _)| taken.volume() > CRUMB) {
                None => next.push(lump),
                Some((taken, rest)) => {
                    lost.push((Lump::new(taken), tool.owner));
                    next.extend(rest.into_iter().filter(|s| s.volume() > CRUMB).map(Lump::new));
                }
            }
        }
        left = next;
    }
    left
}

/// The lumps of a piece whose bevels were given up, before any tool: what lies within both faces all the way through.
fn straight_lumps(draft: &Draft, frame: &Frame, old: Vec<Lump>, lost: &mut Vec<(Lump, Owner)>) -> Vec<Lump> {
    let plain = |ring: &[P2]| Rest { labels: vec![(); ring.len()], corners: ring.to_vec() };
    let both = plain(&draft.plate.front).common(&plain(&draft.plate.back));
    let Some(ring) = both.first().map(|r| &r.rim.corners) else { return old };
    let halves = upright(frame, ring);
    let mut kept = Vec::new();
    for lump in old {
        let Some(inside) = lump.solid.clip_all(&halves) else { continue };
        kept.push(Lump::new(inside));
        let outside = lump.solid.without(&halves).into_iter().filter(|s| s.volume() > CRUMB);
        lost.extend(outside.map(|s| (Lump::new(s), Owner::Itself)));
    }
    kept
}

fn middle(lump: &Lump) -> P3 {
    let corners = lump.solid.corners();
    let sum = corners.iter().fold(gable_plane::V3::zeros(), |s, p| s + p.coords);
    P3::from(sum / corners.len().max(1) as f64)
}

/// The k-th part of a piece as a draft of its own, its edges entered into `out`.
fn part_of(draft: &Draft, k: usize, cut: Cut, tools: &[Tool], out: &mut Recut) -> Draft {
    let rim = cut.front.rim;
    let back = cut.back.map_or_else(|| rim.corners.clone(), |b| b.rim.corners);
    let count = rim.corners.len();
    let cause = |label: &Mark| match label {
        Mark::Own(k) => draft.causes[*k],
        Mark::Tool(t) if tools[*t].owner == Owner::Opening => Cause::Open,
        Mark::Tool(_) => Cause::Met,
        Mark::Clean => Cause::Open,
    };
    for (e, label) in rim.labels.iter().enumerate() {
        let ends = |ring: &[P2]| [ring[e], ring[(e + 1) % count]];
        match *label {
            Mark::Clean => {}
            Mark::Own(old) => out.own_edges.push((old, k, e)),
            Mark::Tool(tool) => {
                let (front, back) = (ends(&rim.corners), ends(&back));
                out.tool_edges.push(ToolEdge { tool, draft: k, edge: Some(e), front, back });
            }
        }
    }
    for hole in &cut.front.holes {
        for (a, b, label) in hole.edges() {
            if let Mark::Tool(tool) = label {
                out.tool_edges.push(ToolEdge { tool, draft: k, edge: None, front: [a, b], back: [a, b] });
            }
        }
    }
    let mut piece = draft.clone();
    let holes = cut.front.holes.into_iter().map(|h| {
        let mut ring = h.corners;
        ring.reverse();
        let by = h.labels.iter().find_map(|l| if let Mark::Tool(t) = l { Some(tools[*t].owner) } else { None });
        let part = match by {
            Some(Owner::Piece(p, _) | Owner::Envelope(p) | Owner::Guest(p)) => Some(p),
            _ => None,
        };
        Hole { ring, part }
    });
    piece.holes.extend(holes);
    piece.causes = rim.labels.iter().map(cause).collect();
    let inside = |o: &PieceOpening| {
        let ring = o.contour.flatten(ARC_TOLERANCE);
        ring.first().is_some_and(|p| ring_contains(&rim.corners, *p)) && !tools.iter().any(|t| overlap(&ring, &t.ring))
    };
    piece.openings.retain(inside);
    piece.notches.retain(|o| !tools.iter().any(|t| overlap(&o.contour.flatten(ARC_TOLERANCE), &t.ring)));
    piece.front = rim.corners.clone();
    piece.back = back;
    piece.fragment = (k > 0).then_some(k + 1);
    piece
}

/// Openings that tools run into.
fn hurt(draft: &Draft, tools: &[Tool]) -> Vec<Hurt> {
    let real = |t: &&Tool| t.owner != Owner::Opening;
    let openings = draft.openings.iter().chain(&draft.notches);
    let met = openings.filter_map(|o| {
        let ring = o.contour.flatten(ARC_TOLERANCE);
        let tool = tools.iter().filter(real).find(|t| overlap(&ring, &t.ring))?;
        Some(Hurt { name: o.name.clone(), owner: tool.owner })
    });
    met.collect()
}
