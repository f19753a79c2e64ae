//! Posts: strips of dough under the roof of a side without a wall.

use super::draft::{Draft, JointDraft};
use super::findings::Findings;
use super::icing;
use super::joints::Places;
use super::layers::{Layers, face_to_face};
use super::part::{Job, PartSolution};
use super::plan::{PlanSide, flat, level};
use super::plate::{Bound, Cause, Cut, Frame, Plate, cut_plate};
use super::roof::Roof;
use crate::{FloorKind, Posts, Role};
use gable_plane::{HalfSpace, P3, Solid};
use gable_words::tr;

/// A post in a row.
pub(super) struct Post {
    pub(super) side: usize,
    /// Its drafts, from the outside in.
    pub(super) strips: Vec<usize>,
    /// Its two upright sides, which keep it.
    sides: [HalfSpace; 2],
}

/// The posts of a side, if any stand there.
fn row<'a>(job: &'a Job<'_>, side: usize) -> Option<&'a Posts> {
    job.part.sides[side].posts.as_ref().filter(|_| !job.part.sides[side].wall)
}

/// Whether a row has a post at both ends of its side.
fn is_at_ends(posts: &Posts) -> bool {
    posts.at_ends && posts.count > 1
}

/// How thick the posts of a row are, mm.
fn depth(job: &Job<'_>, posts: &Posts) -> f64 {
    let strips = f64::from(posts.strips.max(1));
    strips * job.wall_thickness() + (strips - 1.0) * job.gap
}

/// The stretch of a side, seen from outside from left to right, on which its posts find room: within the planes of the
/// sides next to it, and clear of the walls and posts there.
fn room(job: &Job<'_>, side: usize, posts: &Posts) -> (f64, f64) {
    let count = job.sides.len();
    let (before, after) = ((side + count - 1) % count, (side + 1) % count);
    let own = &job.sides[side];
    // A post on the corner belongs to the row that begins there; only what stands in the way of a row without one counts.
    let taken = |other: usize, own_ends: bool| {
        let wall = if job.part.sides[other].wall { job.wall_thickness() + job.gap } else { 0.0 };
        let there = row(job, other).filter(|p| is_at_ends(p) && !own_ends);
        there.map_or(wall, |p| depth(job, p))
    };
    let deep = [0.0, depth(job, posts)];
    // Depth of the point s along and d into the side under its neighbour's plane: s (i·a) + d (i·n), from the shared corner.
    let least = |other: &PlanSide, along: gable_plane::V2, inset: f64| {
        let (per_along, per_depth) = (other.inward.dot(&along), other.inward.dot(&own.inward));
        deep.map(|d| (inset - d * per_depth) / per_along).into_iter().fold(0.0, f64::max)
    };
    let ends = is_at_ends(posts);
    let low = least(&job.sides[before], own.along, taken(before, ends));
    let high = own.length() - least(&job.sides[after], -own.along, taken(after, ends));
    (low, high)
}

/// Where the posts of a side begin, mm from its left end seen from outside. Equal spaces; `None` when they have no room.
fn starts(job: &Job<'_>, side: usize, posts: &Posts) -> Option<Vec<f64>> {
    let (low, high) = room(job, side, posts);
    let (count, width) = (usize::from(posts.count), posts.width.mm());
    let free = high - low - count as f64 * width;
    let spaces = if is_at_ends(posts) { count - 1 } else { count + 1 };
    let space = free / spaces as f64;
    if free < 0.0 || (spaces > 0 && space < job.gap) {
        return None;
    }
    let first = if is_at_ends(posts) { low } else { low + space };
    let all = (0..count).map(|k| first + k as f64 * (width + space));
    let next = row(job, (side + 1) % job.sides.len());
    let shared = is_at_ends(posts) && next.is_some_and(is_at_ends);
    Some(all.take(if shared { count - 1 } else { count }).collect())
}

/// Cuts the posts of all sides to the roof, as walls are: clear of its underside with both faces of each strip.
pub(super) fn add(job: &Job<'_>, roof: &Roof, out: &mut PartSolution, places: &mut Places, findings: &mut Findings) {
    for side in 0..job.sides.len() {
        let Some(posts) = row(job, side) else { continue };
        let place = format!("sides.{}.posts", job.side_name(side));
        let Some(starts) = starts(job, side, posts) else {
            let (low, high) = room(job, side, posts);
            let what = tr!(
                "{} posts {} wide have no room on the {} side, where {} are free",
                posts.count,
                findings.print(posts.width.mm()),
                job.spoken_side(side),
                findings.print((high - low).max(0.0))
            );
            findings.block("posts-too-close", &place, what, tr!("make them narrower, or have fewer of them"));
            continue;
        };
        for (number, start) in (1..).zip(starts) {
            let Some(post) = post(job, roof, (side, number), (start, start + posts.width.mm()), posts, out) else {
                let what = tr!("the roof leaves no room for post {number} on the {} side", job.spoken_side(side));
                findings.block("post-vanishes", &place, what, tr!("make the roof higher, or leave the posts out"));
                break;
            };
            places.posts.push(post);
        }
    }
}

fn post(
    job: &Job<'_>,
    roof: &Roof,
    (side, number): (usize, u8),
    (from, to): (f64, f64),
    posts: &Posts,
    out: &mut PartSolution,
) -> Option<Post> {
    let own = &job.sides[side];
    let at = |s: f64| level(own.start + own.along * s, 0.0);
    let sides = [HalfSpace::through(at(from), -flat(own.along)), HalfSpace::through(at(to), flat(own.along))];
    let bounds = |half: HalfSpace, cause: Cause| Bound { half, cut: Cut::Tighter, cause };
    let foot = HalfSpace { normal: -gable_plane::V3::z(), offset: -post_ground(job).1 };
    let mut all = vec![bounds(foot, Cause::Base)];
    all.extend(sides.map(|half| bounds(half, Cause::Open)));
    all.extend(roof.slopes.iter().enumerate().map(|(s, slope)| bounds(slope.plane, Cause::Slope(s))));
    let spoken = job.spoken_side(side);
    let mut post = Post { side, strips: Vec::new(), sides };
    let mut drafts = Vec::new();
    for strip in 0..posts.strips.max(1) {
        let frame = own.wall_frame();
        let into = frame.z * (f64::from(strip) * (job.wall_thickness() + job.gap));
        let frame = Frame { origin: frame.origin + into, ..frame };
        let plate = cut_plate(frame, job.wall_thickness(), &all).ok()?;
        let (letter, name) = match posts.strips {
            0 | 1 => (None, tr!("{spoken} post {number}")),
            _ => (Some(strip), tr!("{spoken} post {number}, strip {}", strip + 1)),
        };
        let role = Role::Post(job.part.sides[side].id.clone(), number, letter);
        post.strips.push(out.drafts.len() + drafts.len());
        drafts.push(Draft::new(role, job.name(&name), &job.walls, plate));
    }
    out.drafts.extend(drafts);
    Some(post)
}

/// The joints between the strips of posts, each with the icing between them.
pub(super) fn laminations(job: &Job<'_>, roof: &Roof, drafts: &[Draft], posts: &[Post]) -> Vec<JointDraft> {
    let mut found = Vec::new();
    for post in posts {
        for pair in post.strips.windows(2) {
            let (outer, inner) = (&drafts[pair[0]].plate, &drafts[pair[1]].plate);
            let upright = inner.edges_of(Cause::Open).next();
            let Some(edge) = upright else { continue };
            let between =
                [outer.frame.slab(outer.thickness)[1].flipped(), inner.frame.slab(inner.thickness)[0].flipped()];
            let column = icing::column(&column(job, roof, post)).and_then(|solid| solid.clip_all(&between));
            let line = common(outer, inner.edge_in_part(edge));
            found.push(face_to_face(pair[0], (pair[1], edge), line, job.gap, column.into_iter().collect()));
        }
    }
    found
}

/// The part of an upright line that an outer strip reaches too: under a slope one of two strips is higher.
fn common(outer: &Plate, line: [P3; 2]) -> [P3; 2] {
    let x = |p: P3| outer.frame.flat(p).x;
    let edges = outer.edges_of(Cause::Open).map(|k| outer.edge_in_part(k));
    let top = edges
        .filter(|edge| (x(edge[0]) - x(line[0])).abs() < 1e-6)
        .map(|[a, b]| a.z.max(b.z))
        .fold(f64::INFINITY, f64::min);
    line.map(|p| P3::new(p.x, p.y, p.z.min(top)))
}

/// Height of what posts stand on, and of their feet: on a side without a wall a floor between the walls reaches out under them.
fn post_ground(job: &Job<'_>) -> (f64, f64) {
    match job.part.floor.kind {
        FloorKind::Inside => {
            let top = Layers::of(job).top();
            (top, top + job.gap)
        }
        FloorKind::Under | FloorKind::None => job.ground(),
    }
}

/// Everything between what a post stands on and the raised roof.
fn column(job: &Job<'_>, roof: &Roof, post: &Post) -> Vec<HalfSpace> {
    let ground = HalfSpace { normal: -gable_plane::V3::z(), offset: -post_ground(job).0 };
    let lids = super::joints::raised(roof, job.gap);
    post.sides.iter().chain([&ground]).chain(&lids).copied().collect()
}

/// What icing holds over and under a strip, each body with the cause of the edge that it lies beyond.
pub(super) fn icing_of(job: &Job<'_>, roof: &Roof, post: &Post, strip: &Plate) -> Vec<(Cause, Solid)> {
    let slab = strip.frame.slab(strip.thickness);
    let column = icing::column(&column(job, roof, post)).and_then(|solid| solid.clip_all(&slab));
    icing::beyond(column, strip, |c| matches!(c, Cause::Slope(_) | Cause::Base))
}
