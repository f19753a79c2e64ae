//! What is taken off a piece: shadows of convex solids on its plane.

use super::lump::Lump;
use crate::solve::draft::Draft;
use crate::solve::plate::Frame;
use gable_plane::{ConvexPolygon, HalfSpace, P2, Rest, Solid, V2, convex_hull};

/// A shadow thinner than this is none, mm.
const THIN: f64 = 0.01;
/// Room round a piece within which obstacles are looked at, mm.
const ROOM: f64 = 5.0;
/// How closely the arcs of openings that are cut are followed, mm.
const ARC_TOLERANCE: f64 = 0.005;

/// What an edge of a cut piece comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Mark {
    /// Its own edge of this number.
    Own(usize),
    /// The tool of this number.
    Tool(usize),
    /// Where something thinner than a blade was.
    Clean,
}

/// Whose shadow a tool is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Owner {
    /// A piece: part and draft.
    Piece(usize, usize),
    /// The inside of a part.
    Envelope(usize),
    /// The body of a guest that rises through an overhang.
    Guest(usize),
    /// Nobody: what lies beyond the ridge that a part stays on its own side of, or under an eave that it meets.
    Beyond,
    /// An opening of the piece itself that another tool runs into.
    Opening,
    /// The piece itself: bevels given up, hooks and scraps taken off.
    Itself,
}

/// A convex area to be taken off a piece.
pub(super) struct Tool {
    pub(super) owner: Owner,
    /// Counter-clockwise, in the piece.
    pub(super) ring: Vec<P2>,
    /// The planes through its edges, square to the piece, in the house; none for an opening.
    pub(super) halves: Vec<HalfSpace>,
}

/// Makes the tools for one piece.
pub(super) struct Maker<'a> {
    frame: Frame,
    piece: &'a Draft,
    gap: f64,
    /// The slab of the piece, a little larger than it.
    slab: Lump,
    corners: (P2, P2),
}

impl<'a> Maker<'a> {
    pub(super) fn new(frame: Frame, piece: &'a Draft, gap: f64) -> Self {
        let origin = (P2::origin(), P2::origin());
        let (low, high) = gable_plane::bounds(piece.front.iter().chain(&piece.back)).unwrap_or(origin);
        let room = V2::repeat(ROOM);
        let (low, high) = (low - room, high + room);
        let thickness = piece.plate.thickness;
        let ring = [low, P2::new(high.x, low.y), high, P2::new(low.x, high.y)];
        let at = |depth: f64| ring.map(|p| frame.point(p, depth));
        Self { frame, piece, gap, slab: Lump::new(Solid::prism(&at(0.0), &at(thickness))), corners: (low, high) }
    }

    /// The shadow of an obstacle: everything of it, and within a gap of it, that lies between the faces of the piece.
    pub(super) fn shadow(&self, obstacle: &Lump, owner: Owner) -> Option<Tool> {
        if !self.slab.near(obstacle, self.gap) {
            return None;
        }
        let within = self.slab.solid.clip_all(&*obstacle.rounded(self.gap))?;
        self.tool(self.outline(&within)?, owner)
    }

    /// Where the overhangs beyond the sides of the own part yield to a guest.
    pub(super) fn yielding(&self, rising: &Lump, guest: usize, sides: &[HalfSpace]) -> Vec<Tool> {
        if !self.slab.near(rising, self.gap) {
            return Vec::new();
        }
        let within = self.slab.solid.clip_all(&*rising.rounded(self.gap));
        let Some(ring) = within.and_then(|within| self.outline(&within)) else { return Vec::new() };
        let beyond = |side: &HalfSpace| {
            // Where the raised underside is a gap from the edge of the wall below, so that the two still meet.
            let reach = self.gap * self.frame.z.dot(&side.normal).max(0.0);
            let line = self.frame.line(&side.moved(reach).flipped(), 0.0, ()).ok()?;
            let ring = ConvexPolygon { labels: vec![(); ring.len()], corners: ring.clone() }.clip(&line)?;
            self.tool(ring.corners, Owner::Guest(guest))
        };
        sides.iter().filter_map(beyond).collect()
    }

    /// What lies beyond a plane, all of it.
    pub(super) fn beyond(&self, kept: &HalfSpace) -> Option<Tool> {
        let within = self.slab.solid.clip(&kept.flipped())?;
        self.tool(self.outline(&within)?, Owner::Beyond)
    }

    /// All that lies within some half-spaces.
    pub(super) fn within(&self, halves: &[HalfSpace]) -> Option<Tool> {
        let within = self.slab.solid.clip_all(halves)?;
        self.tool(self.outline(&within)?, Owner::Beyond)
    }

    /// Openings that tools run into become part of the outline, or go.
    pub(super) fn openings(&self, tools: &[Tool]) -> Vec<Tool> {
        let cut = self.piece.openings.iter().filter(|o| o.mode.goes_through());
        let rings = cut.map(|o| o.contour.flatten(ARC_TOLERANCE));
        let hit = |ring: &Vec<P2>| tools.iter().any(|tool| overlap(ring, &tool.ring));
        rings.filter(hit).map(|ring| Tool { owner: Owner::Opening, ring, halves: Vec::new() }).collect()
    }

    fn outline(&self, within: &Solid) -> Option<Vec<P2>> {
        let flat: Vec<P2> = within.corners().iter().map(|&p| self.frame.flat(p)).collect();
        let hull = convex_hull(&flat);
        (hull.len() >= 3 && width(&hull) > THIN).then_some(hull)
    }

    fn tool(&self, ring: Vec<P2>, owner: Owner) -> Option<Tool> {
        // What only lies in the room round the piece does not touch it.
        let (low, high) = self.corners;
        let (ring_low, ring_high) = gable_plane::bounds(&ring)?;
        let beside = |k: usize| ring_high[k] <= low[k] + ROOM || ring_low[k] >= high[k] - ROOM;
        if beside(0) || beside(1) {
            return None;
        }
        let halves = upright(&self.frame, &ring);
        Some(Tool { owner, ring, halves })
    }
}

/// The planes through the edges of a convex ring, square to the piece.
pub(super) fn upright(frame: &Frame, ring: &[P2]) -> Vec<HalfSpace> {
    let half = |k: usize| {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        let out = V2::new(b.y - a.y, a.x - b.x);
        HalfSpace::through(frame.point(a, 0.0), frame.x * out.x + frame.y * out.y)
    };
    (0..ring.len()).map(half).collect()
}

/// Least width of a convex ring, mm.
fn width(ring: &[P2]) -> f64 {
    let across = (0..ring.len()).map(|k| {
        let along = (ring[(k + 1) % ring.len()] - ring[k]).normalize();
        ring.iter().map(|p| along.perp(&(p - ring[k]))).fold(0.0, f64::max)
    });
    across.fold(f64::INFINITY, f64::min)
}

/// Whether a ring and a convex one share any area.
pub(super) fn overlap(ring: &[P2], convex: &[P2]) -> bool {
    let boxes = gable_plane::bounds(ring).zip(gable_plane::bounds(convex));
    let apart = boxes.is_none_or(|((al, ah), (bl, bh))| al.x >= bh.x || bl.x >= ah.x || al.y >= bh.y || bl.y >= ah.y);
    if apart {
        return false;
    }
    let plain = |ring: &[P2]| Rest { labels: vec![(); ring.len()], corners: ring.to_vec() };
    !plain(ring).common(&plain(convex)).is_empty()
}
