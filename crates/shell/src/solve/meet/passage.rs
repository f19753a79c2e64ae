//! Passages: holes in a host's wall or roof behind a guest, with a rim left to glue the guest to.

use super::lump::Lump;
use super::{Body, PieceBody, frame_in_house, moved};
use crate::solve::draft::Draft;
use crate::solve::findings::Findings;
use crate::solve::part::PartSolution;
use crate::solve::plate::{Bound, Cause, Cut, Frame, cut_plate};
use crate::{Batch, Behind, House, Mode, OpeningId, PieceOpening, Posts, Role};
use gable_plane::{
    ClipLine, Contour, ConvexPolygon, HalfSpace, P2, Rest, Solid, V2, V3, convex_hull, ring_area, ring_contains,
};
use gable_words::tr;

/// A passage smaller than this lets no light through, mm².
const SMALLEST: f64 = 100.0;
/// What stands on a piece is this near to it, gap for icing apart, mm.
const TOUCH: f64 = 0.1;

/// Cuts all passages that are asked for.
pub(super) fn cut(house: &House, solutions: &mut [Option<PartSolution>], bodies: &[Body], findings: &mut [Findings]) {
    for (guest, part) in house.parts.iter().enumerate() {
        let Behind::Passage { rim } = part.behind else { continue };
        let host = part.place.host().and_then(|id| house.parts.iter().position(|p| &p.id == id));
        let Some(host) = host else { continue };
        let inside = solutions[guest].as_ref().and_then(|s| inside(house, guest, s, rim.mm()));
        let (Some(inside), Some(whole)) = (inside, &mut solutions[host]) else { continue };
        let frames: Vec<Frame> = whole.drafts.iter().map(|d| frame_in_house(whole, d)).collect();
        let is_floor: Vec<bool> = whole.drafts.iter().map(|d| d.role == Role::Floor).collect();
        let mut found = false;
        for (d, (draft, frame)) in whole.drafts.iter_mut().zip(frames).enumerate() {
            let Some(hole) = hole(draft, frame, &inside, rim.mm()) else { continue };
            let others = bodies[host].guests.iter().filter(|&&g| g != guest).flat_map(|&g| &bodies[g].pieces);
            // Where own pieces end against the face, as under a lap.
            let own = bodies[host].pieces.iter().enumerate().filter(|(k, _)| *k != d && !is_floor[*k]);
            let others = others.chain(own.map(|(_, piece)| piece));
            let Some(taken) = standing_on(draft, frame, others, whole.gap + TOUCH) else { continue };
            let clear = taken.iter().try_fold(hole, |ring, area| clear_of(ring, area, rim.mm()));
            let Some(hole) = clear.filter(|ring| ring_area(ring) > SMALLEST) else { continue };
            found |= pierce(draft, hole, &part.id.0, &part.name, &mut findings[guest]);
        }
        if !found {
            let what = tr!("there is no room for a passage to {}", part.name);
            findings[guest].caution("no-passage", "behind", what, tr!("make the part larger, or the rim narrower"));
        }
    }
}

/// The room inside a part, a rim less on all sides but the open ones, and over its floor.
fn inside(house: &House, index: usize, solution: &PartSolution, rim: f64) -> Option<Vec<HalfSpace>> {
    let part = &house.parts[index];
    let wall = house.dough_of(part, Batch::Walls)?.baked().mm();
    let strips = |posts: &Posts| f64::from(posts.strips) * (wall + house.gap.mm());
    let roof = solution.roof.as_ref()?;
    let walls = part.sides.iter().zip(&solution.sides).map(|(side, plan)| {
        let in_by = if side.wall { wall + rim } else { side.posts.as_ref().map_or(0.0, |p| strips(p) + rim) };
        plan.half_space(-in_by)
    });
    let tops = roof.slopes.iter().map(|s| s.plane.moved(-rim));
    let floor =
        solution.drafts.iter().find(|d| d.role == Role::Floor).map(|d| d.plate.frame.origin.z + d.plate.thickness);
    let foot = HalfSpace { normal: -V3::z(), offset: -(floor.unwrap_or(solution.stand.foot) + rim) };
    let place = solution.stand.house_from_part;
    Some(walls.chain(tops).chain([foot]).map(|h| moved(&h, &place)).collect())
}

/// Where some pieces stand on another, no more than `reach` mm from it: convex areas.
fn standing_on<'a>(
    draft: &Draft,
    frame: Frame,
    pieces: impl Iterator<Item = &'a PieceBody>,
    reach: f64,
) -> Option<Vec<Vec<P2>>> {
    let (low, high) = gable_plane::bounds(&draft.front)?;
    let ring = [low, P2::new(high.x, low.y), high, P2::new(low.x, high.y)];
    let at = |depth: f64| ring.map(|p| frame.point(p, depth));
    let slab = Lump::new(Solid::prism(&at(-reach), &at(draft.plate.thickness + reach)));
    let lumps = pieces.flat_map(|piece| &piece.lumps).filter(|l| slab.near(l, 0.0));
    let within = lumps.filter_map(|lump| slab.solid.clip_all(&lump.halves));
    let hull = |solid: Solid| convex_hull(&solid.corners().iter().map(|&p| frame.flat(p)).collect::<Vec<_>>());
    Some(within.map(hull).filter(|hull| hull.len() >= 3).collect())
}

/// A convex ring less what is nearer than `rim` mm to a convex area, by one straight cut.
fn clear_of(ring: Vec<P2>, area: &[P2], rim: f64) -> Option<Vec<P2>> {
    let ring = ConvexPolygon { labels: vec![(); ring.len()], corners: ring };
    let past = |k: usize| {
        let (a, b) = (area[k], area[(k + 1) % area.len()]);
        let into = V2::new(a.y - b.y, b.x - a.x).normalize();
        ring.clip(&ClipLine { normal: into, offset: into.dot(&a.coords) - rim, label: () })
    };
    let cut = (0..area.len()).filter_map(past).map(|p| p.corners);
    cut.max_by(|a, b| ring_area(a).total_cmp(&ring_area(b)))
}

/// Where a piece lies in the room with both of its faces, kept a rim away from its own edges.
fn hole(draft: &Draft, frame: Frame, inside: &[HalfSpace], rim: f64) -> Option<Vec<P2>> {
    if draft.is_gone() || !matches!(draft.role, Role::Wall(_) | Role::Slope(..) | Role::Lid) {
        return None;
    }
    let plate = &draft.plate;
    let edges = (0..plate.count()).map(|k| {
        let [a, b] = plate.edge(k);
        let out = V3::from(frame.x * (b.y - a.y) + frame.y * (a.x - b.x));
        HalfSpace::through(frame.point(a, 0.0), out).moved(-rim)
    });
    let bounds = inside.iter().copied().chain(edges);
    let bounds: Vec<Bound> = bounds.map(|half| Bound { half, cut: Cut::Tighter, cause: Cause::Open }).collect();
    let found = cut_plate(frame, plate.thickness, &bounds).ok()?;
    (ring_area(&found.front) > SMALLEST).then_some(found.front)
}

/// Puts the hole into the piece; windows that it swallows go.
fn pierce(draft: &mut Draft, hole: Vec<P2>, id: &str, guest: &str, findings: &mut Findings) -> bool {
    let plain = |ring: &[P2]| Rest { labels: vec![(); ring.len()], corners: ring.to_vec() };
    let ring = plain(&hole);
    let outside = !ring.without(&[plain(&draft.front)]).is_empty();
    let pierced = draft.holes.iter().any(|h| !ring.common(&plain(&h.ring)).is_empty());
    if outside || pierced {
        let what = tr!("a passage to {guest} would run into an edge of {}", draft.name);
        findings.caution("passage-cut-off", "behind", what, tr!("make the rim wider, or leave the passage out"));
        return false;
    }
    let swallowed = |o: &PieceOpening| o.contour.flatten(0.1).iter().all(|p| ring_contains(&hole, *p));
    draft.openings.retain(|o| !swallowed(o));
    if let Some(hit) = draft.openings.iter().find(|o| !ring.common(&plain(&o.contour.flatten(0.1))).is_empty()) {
        let what = tr!("{} runs into the passage to {guest}", hit.name);
        findings.caution("passage-meets-opening", "behind", what, tr!("move one of them"));
        return false;
    }
    draft.openings.push(PieceOpening {
        id: OpeningId(format!("passage-{id}")),
        copy: 0,
        name: tr!("Passage to {guest}"),
        contour: Contour::polygon(&hole),
        mode: Mode::Cut,
    });
    true
}
