//! Putting baked pieces into the room that is left for them, with icing in what they leave of it.

use super::apart::{self, SAME};
use super::ease::{self, Eases};
use super::room;
use super::shape::Shape;
use crate::{EdgeKind, House, Joint, PartId, Piece, PieceId, PieceOpening, Solved};
use gable_plane::{HalfSpace, P2, P3, Rest, Solid, V2, V3, bounds};
use std::collections::BTreeMap;

/// As much icing as bridges a joint that is wider than planned, mm (common practice, no source).
pub(super) const BRIDGED: f64 = 3.0;
/// Share of a gap that a baked piece may take up.
const TIGHTER: f64 = 0.5;
/// Backs that reach beyond their fronts by less than this do not, mm.
const LEANS: f64 = 1e-4;
/// Smaller bodies of icing are dropped, mm³.
const CRUMB: f64 = 1e-3;
/// A joint is no shorter than this, mm.
const SHORTEST: f64 = 1.0;
/// Rings nearer than this are one: the piece is cut straight, mm.
const STRAIGHT: f64 = 1e-9;

/// A baked piece that does not fit, and by how much.
pub(super) struct Clash {
    pub(super) piece: PieceId,
    pub(super) part: PartId,
    /// Farthest distance between what it is and what it would have to be, mm; none if there is no such piece any more.
    pub(super) by: Option<f64>,
    /// It only leaves more open than icing bridges.
    pub(super) open: bool,
}

/// What became of the baked pieces of a house.
#[derive(Default)]
pub(super) struct Settled {
    pub(super) clashes: Vec<Clash>,
    /// Pieces with more icing round them than planned, and how wide it is, mm.
    pub(super) filled: Vec<(PieceId, f64)>,
}

/// Gives every baked piece the shape that it has, fills with icing what it leaves of its room, and says which do not fit.
pub(super) fn settle(
    house: &House,
    stands: &House,
    eases: &Eases,
    shapes: &BTreeMap<PieceId, Shape>,
    solved: &mut Solved,
) -> Settled {
    let mut found = Settled::default();
    let raised = ease::raised(stands, eases, &solved.pieces, shapes);
    let Solved { pieces, joints, .. } = solved;
    for piece in pieces.iter_mut().filter(|p| p.baked) {
        let Some(shape) = shapes.get(&piece.id) else { continue };
        let laid = room::laid(shape, piece, raised.get(&piece.part).copied().unwrap_or(0.0));
        let apart = apart::in_place(&laid.rings(), &apart::rings(piece));
        if apart <= SAME {
            continue;
        }
        let too_far = misfit(house, piece, &laid);
        let straight = is_straight(&piece.outline, &piece.outline_back) && is_straight(&laid.outline, &laid.back);
        // What sticks out no farther than that only makes the gap tighter.
        let room_left = if straight { SAME.max(house.gap.mm() * TIGHTER) } else { SAME };
        let icing = icing_round(piece, &laid).filter(|_| too_far <= room_left);
        let wide = apart::ring_apart(&laid.outline, &piece.outline);
        match icing.filter(|_| wide <= BRIDGED) {
            Some(icing) => {
                let icing = icing.into_iter().map(|(edge, body)| (edge, body.moved(&piece.house_from_piece)));
                icing.for_each(|(edge, body)| give(piece, joints, edge, body));
                let room = piece.outline.clone();
                put_in(piece, laid);
                if too_far > SAME {
                    squeeze(piece, &room, joints);
                }
                shorten(piece, joints);
                found.filled.push((piece.id.clone(), wide));
            }
            None => {
                put_in(piece, laid);
                let by = Some(if too_far > room_left { too_far } else { wide.max(SAME) });
                found.clashes.push(Clash {
                    piece: piece.id.clone(),
                    part: piece.part.clone(),
                    by,
                    open: too_far <= room_left,
                });
            }
        }
    }
    for baked in &house.baked {
        let gone = baked.cut.iter().filter(|c| !solved.pieces.iter().any(|p| p.id == c.piece));
        found.clashes.extend(gone.map(|c| Clash {
            piece: c.piece.clone(),
            part: baked.part.clone(),
            by: None,
            open: false,
        }));
    }
    found
}

/// How far a piece does not fit its room, mm: where it sticks out, or where its openings are not where they would have
/// to be. A passage may stay as it is.
fn misfit(house: &House, piece: &Piece, laid: &Shape) -> f64 {
    let out = ease::sticks_out(piece, laid);
    let (own, wanted) = (laid.rings().openings, apart::rings(piece).openings);
    if laid.is_older() {
        return out.max(apart::openings_apart(&own, &wanted));
    }
    let holes = piece.openings.iter().zip(wanted).filter(|(o, _)| is_for_others(house, o)).map(|(_, ring)| ring);
    let narrow = holes.map(|hole| {
        let within = own.iter().map(|ring| room::strays(&hole, ring).iter().map(|s| s.by).fold(0.0, f64::max));
        within.fold(f64::INFINITY, f64::min).min(width(&hole))
    });
    narrow.fold(out, f64::max)
}

fn width(ring: &[P2]) -> f64 {
    bounds(ring).map_or(0.0, |(low, high)| (high - low).norm())
}

/// Whether another part goes through a hole, biscuit and all.
fn is_for_others(house: &House, opening: &PieceOpening) -> bool {
    let id = &opening.id.0;
    id == "hole" || house.parts.iter().any(|p| &p.id.0 == id)
}

/// Convex bodies of icing round a piece in its room, each with the edge of the room that it lies along; none where that
/// cannot be said.
fn icing_round(piece: &Piece, laid: &Shape) -> Option<Vec<(usize, Solid)>> {
    let depth = piece.thickness.mm();
    let room = Faces { front: &piece.outline, back: &piece.outline_back, depth };
    let own = Faces { front: &laid.outline, back: &laid.back, depth };
    let bodies = if room.is_straight() && own.is_straight() {
        room::left_over(room.front, own.front).iter().map(|ring| room.column(ring)).collect()
    } else if is_convex(room.front) && is_convex(own.front) {
        room.solid().without(&own.solid().half_spaces())
    } else {
        bevelled_round(&room, &own)?
    };
    let along = |body: Solid| {
        let corners = body.corners();
        let middle = corners.iter().fold(P2::origin(), |s, p| s + p.xy().coords / corners.len() as f64);
        let edge = room::nearest(&middle, &piece.outline).0;
        (edge, body)
    };
    let bodies = bodies.into_iter().filter(|b| b.volume() > CRUMB).map(along);
    let free = |edge: usize| piece.edges.get(edge) == Some(&EdgeKind::Free);
    Some(bodies.filter(|(edge, _)| !free(*edge) || piece.notches.is_empty()).collect())
}

/// What a piece leaves of its room where both have notches and edges with bevels that lean inwards.
fn bevelled_round(room: &Faces<'_>, own: &Faces<'_>) -> Option<Vec<Solid>> {
    let leans_in = |f: &Faces<'_>| room::strays(f.back, f.front).iter().all(|s| s.by < LEANS);
    if !leans_in(room) || !leans_in(own) {
        return None;
    }
    let within = |body: Solid| body.clip_all(&room.bevels().map(|(_, half)| half).collect::<Vec<_>>());
    let beside = room::left_over(room.front, own.front);
    let mut bodies: Vec<Solid> = beside.iter().filter_map(|ring| within(room.column(ring))).collect();
    for ring in room::left_over(own.front, own.back) {
        let middle = P2::from(ring.iter().map(|p| p.coords).sum::<V2>() / ring.len() as f64);
        let edge = own.bevels().min_by(|a, b| own.off(a.0, &middle).total_cmp(&own.off(b.0, &middle)));
        let under = edge.and_then(|(_, half)| own.column(&ring).clip(&half.flipped()));
        bodies.extend(under.and_then(within));
    }
    Some(bodies)
}

/// The two faces of a plate, and how far they are apart.
struct Faces<'a> {
    front: &'a [P2],
    back: &'a [P2],
    depth: f64,
}

impl Faces<'_> {
    fn is_straight(&self) -> bool {
        is_straight(self.front, self.back)
    }

    fn at(ring: &[P2], z: f64) -> Vec<P3> {
        ring.iter().map(|p| P3::new(p.x, p.y, z)).collect()
    }

    /// The plate; right only while it is convex.
    fn solid(&self) -> Solid {
        Solid::prism(&Self::at(self.front, 0.0), &Self::at(self.back, self.depth))
    }

    /// Everything under a convex ring, through the plate.
    fn column(&self, ring: &[P2]) -> Solid {
        Solid::prism(&Self::at(ring, 0.0), &Self::at(ring, self.depth))
    }

    /// The half-spaces along edges with a bevel, each with its edge.
    fn bevels(&self) -> impl Iterator<Item = (usize, HalfSpace)> + '_ {
        let count = self.front.len();
        let moved = move |k: usize| (self.back[k % count] - self.front[k % count]).norm() > STRAIGHT;
        (0..count).filter(move |&k| moved(k) && moved(k + 1)).map(move |k| {
            let (a, b, c) = (self.front[k], self.front[(k + 1) % count], self.back[k]);
            let (along, up) = (b - a, V3::new(c.x - a.x, c.y - a.y, self.depth));
            (k, HalfSpace::through(P3::new(a.x, a.y, 0.0), V3::new(along.x, along.y, 0.0).cross(&up)))
        })
    }

    /// How far a point is off edge k.
    fn off(&self, k: usize, p: &P2) -> f64 {
        let ends = [self.front[k], self.front[(k + 1) % self.front.len()]];
        room::nearest(p, &ends).1
    }
}

/// Takes what of a piece sticks out of its room, into the gap there, out of all icing; only for straight pieces.
fn squeeze(piece: &Piece, room: &[P2], joints: &mut [Joint]) {
    let faces = Faces { front: &piece.outline, back: &piece.outline_back, depth: piece.thickness.mm() };
    let strips = room::left_over(&piece.outline, room);
    let bodies = strips.iter().map(|ring| faces.column(ring).moved(&piece.house_from_piece));
    for body in bodies.filter(|b| b.volume() > CRUMB) {
        let halves = body.half_spaces();
        for joint in joints.iter_mut().filter(|j| j.icing.iter().any(|i| i.shared_with(&body) > 0.0)) {
            let old = std::mem::take(&mut joint.icing);
            joint.icing = old.into_iter().flat_map(|i| i.without(&halves)).filter(|i| i.volume() > CRUMB).collect();
            weigh(joint);
        }
    }
}

/// Sums up the icing of a joint.
fn weigh(joint: &mut Joint) {
    joint.wedge.volume = joint.icing.iter().map(Solid::volume).sum();
    let length = (joint.line[1] - joint.line[0]).norm();
    joint.wedge.area = if length > 0.0 { joint.wedge.volume / length } else { 0.0 };
}

fn is_straight(front: &[P2], back: &[P2]) -> bool {
    front.len() == back.len() && front.iter().zip(back).all(|(a, b)| (a - b).norm() < STRAIGHT)
}

fn is_convex(ring: &[P2]) -> bool {
    let at = |k: usize| ring[k % ring.len()];
    (0..ring.len()).all(|k| (at(k + 1) - at(k)).perp(&(at(k + 2) - at(k + 1))) >= 0.0)
}

/// Gives icing to the joint of an edge, or of the nearest edge that has one.
fn give(piece: &Piece, joints: &mut [Joint], edge: usize, body: Solid) {
    let count = piece.edges.len();
    let near = (0..=count / 2).flat_map(|k| [(edge + k) % count, (edge + count - k) % count]);
    let joint = near.filter_map(|k| if let EdgeKind::Joint(j) = piece.edges[k] { Some(j) } else { None }).next();
    let Some(joint) = joint.and_then(|j| joints.get_mut(j)) else { return };
    joint.icing.push(body);
    weigh(joint);
}

/// Lets the lines of its joints end where a piece does.
fn shorten(piece: &Piece, joints: &mut [Joint]) {
    let front = piece.outline.iter().map(|p| P3::new(p.x, p.y, 0.0));
    let back = piece.outline_back.iter().map(|p| P3::new(p.x, p.y, piece.thickness.mm()));
    let corners: Vec<P3> = front.chain(back).map(|p| piece.house_from_piece * p).collect();
    let mut own: Vec<usize> =
        piece.edges.iter().filter_map(|e| if let EdgeKind::Joint(j) = e { Some(*j) } else { None }).collect();
    own.sort_unstable();
    own.dedup();
    for k in own {
        let Some(joint) = joints.get_mut(k) else { continue };
        let [from, to] = joint.line;
        let length = (to - from).norm();
        let along = (to - from) / length;
        let reach = corners.iter().map(|p| (p - from).dot(&along));
        let (low, high) = reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)));
        let (start, end) = (low.max(0.0), high.min(length));
        if end - start > SHORTEST {
            joint.line = [from + along * start, from + along * end];
            weigh(joint);
        }
    }
}

/// Gives a piece its shape. What sticks out less than a knife is thick is taken off; every edge belongs to the joint of
/// the edge of the room that it lies along.
fn put_in(piece: &mut Piece, laid: Shape) {
    let (room, kinds) = (piece.outline.clone(), piece.edges.clone());
    let straight = is_straight(&laid.outline, &laid.back) && is_straight(&room, &piece.outline_back);
    let out = ease::sticks_out(piece, &laid);
    laid.put(piece);
    if straight && out <= SAME {
        let ring = |ring: &[P2]| Rest { labels: vec![(); ring.len()], corners: ring.to_vec() };
        if !room::strays(&piece.outline, &room).is_empty()
            && let Some(common) = ring(&piece.outline).common(&ring(&room)).into_iter().next()
        {
            piece.outline = common.rim.corners;
            piece.outline_back = piece.outline.clone();
        }
    }
    let count = piece.outline.len();
    let kind = |k: usize| {
        let ends = [piece.outline[k], piece.outline[(k + 1) % count]];
        kinds.get(room::alongside(&ends, &room)).cloned().unwrap_or(EdgeKind::Free)
    };
    piece.edges = (0..count).map(kind).collect();
}
