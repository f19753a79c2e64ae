//! A piece of a house as a plate: what is left of it, where its joints hold it, what lies on it.

use super::{Held, Load, Plate, Shape};
use crate::Site;
use crate::stuff::{GRAVITY, Stuff};
use crate::weights::through;
use gable_plane::{P2, P3, V3};
use gable_shell::{EdgeKind, Joint, JointEnd, JointKind, Piece, Role};

/// A piece as it stands in the finished house.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The piece, as an index into [`gable_shell::Solved::pieces`].
    pub piece: usize,
    /// The plate.
    pub plate: Plate,
    /// Where it is held.
    pub held: Vec<Held>,
    /// The joint that each of `held` is, as an index into [`gable_shell::Solved::joints`].
    pub joints: Vec<usize>,
    /// Everything that weighs on it, at the usual mass of biscuit.
    pub load: Load,
    /// Share of the load that is its own biscuit.
    pub own: f64,
}

/// Planes that meet at less than this do not hold each other, as a sine: 15° (an assumption).
const SHALLOW: f64 = 0.26;
/// Pieces steeper than this do not bend under what they weigh, as the share of weight square to them: a slope of 87°.
const UPRIGHT: f64 = 0.05;
/// Single forces along the line of what stands on a piece.
const FORCES: usize = 8;

/// A piece as a plate; nothing of what stands upright, lies on the board or on other plates, or is held nowhere.
///
/// Edges that a joint holds cannot move square to the piece, and may slope: joints of icing are not trusted to be stiff. What stands on
/// a piece, such as a chimney, a dormer, a parapet, does not hold it: it weighs on it, along the lines where it stands. `covering` times
/// as much as planned is put on the piece.
pub fn standing(site: &Site<'_>, piece: usize, covering: f64) -> Option<Standing> {
    let own = site.pieces().get(piece)?;
    let down = own.house_from_piece.inverse() * -V3::z();
    let level = matches!(own.role, Role::Floor | Role::Layer(_));
    if own.role.is_upright() || level || down.z.abs() < UPRIGHT {
        return None;
    }
    let shape = Shape::of_piece(own);
    let area = shape.area();
    let (mut held, mut joints, mut forces) = (Vec::new(), Vec::new(), Vec::new());
    for (j, joint, other) in site.joints(piece) {
        if is_carried(joint, piece) {
            let grams = other.map_or(0.0, |other| weight_on(site, joint, other));
            forces.extend(along(own, joint, grams / 1000.0 * GRAVITY * down.z));
        } else if other.is_none_or(|other| holds(own, &site.pieces()[other])) {
            let lines = lines(own, j, joint);
            joints.extend(lines.iter().map(|_| j));
            held.extend(lines);
        }
    }
    let weight = site.weights.get(piece)?;
    let biscuit = weight.biscuit.newton();
    let all = biscuit + (weight.done().newton() - biscuit) * covering;
    let guests: f64 = forces.iter().map(|(_, force): &(P2, f64)| force.abs()).sum();
    let whole = all * down.z.abs() + guests;
    if held.is_empty() || area <= 0.0 || whole <= 0.0 {
        return None;
    }
    let stuff = Stuff::of(site.notebook, &own.dough);
    let plate = Plate { shape, thickness: own.thickness, narrowing: stuff.narrowing.range.usual };
    let load = Load { pressure: all * down.z / area, forces };
    Some(Standing { piece, plate, held, joints, load, own: biscuit * down.z.abs() / whole })
}

/// Whether a joint is where something stands on the piece, or against it, that is cut to fit it: also the slope of a wing, which lies on
/// the slope that stays whole.
fn is_carried(joint: &Joint, piece: usize) -> bool {
    matches!(joint.kind, JointKind::Base | JointKind::Abutment | JointKind::Layer | JointKind::Valley)
        && joint.ends[0] == JointEnd::Piece(piece)
}

fn holds(own: &Piece, other: &Piece) -> bool {
    let [a, b] = [own, other].map(|p| p.house_from_piece * V3::z());
    a.cross(&b).norm() > SHALLOW
}

/// Grams that a piece brings along one of the joints that it stands with, shared by its joints by their lengths: of a part that stands
/// on other parts alone the whole part, else the piece where it is a strip on a lid or a slope that lies on another; of what stands on
/// the board besides nothing.
fn weight_on(site: &Site<'_>, joint: &Joint, other: usize) -> f64 {
    let pieces = site.pieces();
    let guest = &pieces[other];
    let length = |joint: &Joint| (joint.line[1] - joint.line[0]).norm();
    let grams = |k: usize| site.weights.get(k).map_or(0.0, |w| w.done().mass().g());
    let stands_on = |j: &Joint, part: &dyn Fn(&Piece) -> bool| {
        let JointEnd::Piece(host) = j.ends[0] else { return false };
        matches!(j.ends[1], JointEnd::Piece(k) if part(&pieces[k]) && !part(&pieces[host])) && is_carried(j, host)
    };
    if matches!(guest.role, Role::Parapet(_)) {
        let all: f64 =
            site.joints(other).filter(|(_, j, _)| j.kind == JointKind::Base).map(|(_, j, _)| length(j)).sum();
        return grams(other) * length(joint) / all.max(f64::MIN_POSITIVE);
    }
    let same = |p: &Piece| p.part == guest.part;
    let on_board = |p: &Piece| p.corners().any(|c| c.z < 1.0);
    if pieces.iter().any(|p| same(p) && on_board(p)) {
        let lies = joint.kind == JointKind::Valley;
        let holding = site.joints(other).filter(|(_, j, _)| !is_carried(j, other));
        let all: f64 = holding.map(|(_, j, _)| length(j)).sum();
        return if lies && all > 0.0 { grams(other) * length(joint) / all } else { 0.0 };
    }
    let all: f64 = site.about.solved.joints.iter().filter(|j| stands_on(j, &same)).map(length).sum();
    let whole: f64 = (0..pieces.len()).filter(|k| same(&pieces[*k])).map(grams).sum();
    if all > 0.0 { whole * length(joint) / all } else { 0.0 }
}

/// A force spread along a joint.
fn along(piece: &Piece, joint: &Joint, force: f64) -> Vec<(P2, f64)> {
    let [from, to] = flat(piece, joint.line);
    let share = |k: usize| (k as f64 + 0.5) / FORCES as f64;
    let each = force / FORCES as f64;
    (0..FORCES).filter(|_| each != 0.0).map(|k| (from + (to - from) * share(k), each)).collect()
}

/// The edges that belong to a joint, half way through the piece; of a wall under a slope, whose edge may hang over, the line where it is met.
fn lines(piece: &Piece, number: usize, joint: &Joint) -> Vec<Held> {
    let ring = middle(piece);
    let under = matches!(joint.kind, JointKind::Eave | JointKind::Rake);
    let owned = piece.edges.iter().enumerate().filter(|(_, e)| !under && **e == EdgeKind::Joint(number));
    let edges: Vec<Held> =
        owned.filter_map(|(k, _)| Some(Held::along(*ring.get(k)?, ring[(k + 1) % ring.len()]))).collect();
    if !edges.is_empty() {
        return edges;
    }
    let [from, to] = flat(piece, joint.line);
    vec![Held::along(from, to)]
}

fn flat(piece: &Piece, line: [P3; 2]) -> [P2; 2] {
    line.map(|p| (piece.house_from_piece.inverse() * p).xy())
}

/// The outline half way through a piece: its faces are joined corner by corner.
fn middle(piece: &Piece) -> Vec<P2> {
    piece.outline.iter().zip(&piece.outline_back).map(|(a, b)| nalgebra::center(a, b)).collect()
}

/// Corners are left out where the outline moves by no more than this, mm: arcs come in chords far finer than a triangle.
const PLAIN: f64 = 0.15;

impl Shape {
    /// What is left of a piece: its outline half way through, without what is cut out. What is only pressed counts as whole.
    pub fn of_piece(piece: &Piece) -> Self {
        let openings = through(piece).map(|ring| ring.into_iter().rev().collect());
        let all = std::iter::once(middle(piece)).chain(openings).map(|ring: Vec<P2>| plain(&ring));
        // An opening that is a mere slit has no corners left.
        let rings = all.enumerate().filter(|(k, ring)| *k == 0 || ring.len() > 2).map(|(_, ring)| ring).collect();
        Self { rings }
    }
}

/// A ring without corners that tell nothing (Ramer, 1972; Douglas and Peucker, 1973), between two far ones.
fn plain(ring: &[P2]) -> Vec<P2> {
    let Some(&start) = ring.first() else { return Vec::new() };
    let distance = |k: &usize| (ring[*k] - start).norm_squared();
    let far = (0..ring.len()).max_by(|a, b| distance(a).total_cmp(&distance(b))).unwrap_or(0);
    let mut closed = ring.to_vec();
    closed.push(start);
    let mut kept = vec![start];
    run(&closed[..=far], &mut kept);
    run(&closed[far..], &mut kept);
    kept.pop();
    kept
}

/// The corners of a run after its first one.
fn run(corners: &[P2], kept: &mut Vec<P2>) {
    let [from, between @ .., to] = corners else { return };
    let distance = |p: &P2| super::mesh::distance_to(*p, *from, *to);
    let far = (0..between.len()).max_by(|a, b| distance(&between[*a]).total_cmp(&distance(&between[*b])));
    match far {
        Some(k) if distance(&between[k]) > PLAIN => {
            run(&corners[..=k + 1], kept);
            run(&corners[k + 1..], kept);
        }
        _ => kept.push(*to),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_finely_chorded_arc_keeps_its_shape_in_fewer_corners() {
        let corner = |k: i32| {
            let angle = f64::from(k) / 400.0 * std::f64::consts::TAU;
            P2::new(30.0 * angle.cos(), 30.0 * angle.sin())
        };
        let ring: Vec<P2> = (0..400).map(corner).collect();
        let plain = plain(&ring);
        assert!(plain.len() < 60, "{}", plain.len());
        let lost = 1.0 - gable_plane::ring_area(&plain) / gable_plane::ring_area(&ring);
        assert!((0.0..0.01).contains(&lost), "{lost}");
    }
}
