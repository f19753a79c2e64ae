//! What holds new pieces until their joints have set.

use super::site::{Site, half_way};
use super::{Prop, PropKind};
use crate::Step;
use gable_measure::{Angle, Length};
use gable_plane::{P2, P3, V2, V3, convex_hull};
use gable_shell::JointKind;

/// A prop beside a wall reaches up to this share of its height.
const BESIDE: f64 = 2.0 / 3.0;
/// Where along its piece a prop beside it is tried, from the middle, as shares of the width.
const ASIDE: [f64; 9] = [0.013, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3, 0.4, -0.4];
/// Fresh icing holds a piece of this volume by itself, mm³: about a gram of biscuit (common practice, no source).
const LIGHT: f64 = 1500.0;
/// Slopes steeper than this slide on fresh icing unless something stands before their foot.
const SLIDES: Angle = Angle::degrees(5.0);
/// Standard gravity, m/s² (3rd General Conference on Weights and Measures, 1901).
const GRAVITY: f64 = 9.806_65;
/// What a cubic millimetre of dough weighs, g: 1.25 g/cm³ as it is rolled, so that nothing it loses in the oven is counted on (derived from
/// published masses of its ingredients: USDA ARS SR).
const DOUGH: f64 = 1.25e-3;
/// The least that fresh stiff icing holds before it flows, N/mm²: 200 Pa (from memory, low confidence; no published value was found).
/// The notebook's range of that figure begins here.
pub const FLOWS: f64 = 200e-6;
/// A prop needs so much room under a piece, mm.
const LEAST_ROOM: f64 = 8.0;
/// How far inside an edge a prop stands under a piece, and outside one before it, mm; no round number, so that it does not
/// come to stand exactly on the face of a wall.
const IN: f64 = 2.73;
/// What is nearer than this needs no prop, mm.
const LIES: f64 = 0.5;
/// The weight may be so far outside of what bears it, mm: what rounding and the width of a bead of icing leave.
const SLACK: f64 = 0.5;

/// The props of the pieces of a stage.
pub(super) fn props(site: &Site<'_>, when: &[usize], stage: usize, steps: &[Step]) -> Vec<Prop> {
    let mut props = Vec::new();
    for (k, step) in steps.iter().enumerate() {
        let piece = step.piece;
        if site.volume(piece) < LIGHT {
            continue;
        }
        let before = |other: usize| when[other] < stage || steps[..k].iter().any(|s| s.piece == other);
        if site.is_upright(piece) {
            props.extend(beside(site, piece, &before));
        } else if !site.links.is_on_board(piece) {
            let is_set = |other: usize| when[other] < stage;
            props.extend(under(site, piece, &is_set, &before));
        }
    }
    props
}

/// A prop for an upright piece that no other one across it steadies.
fn beside(site: &Site<'_>, piece: usize, before: &dyn Fn(usize) -> bool) -> Option<Prop> {
    let out = site.outward(piece);
    let steadied = site.joints[piece].iter().filter_map(|(_, other)| *other).any(|other| {
        let across = site.outward(other).cross(&out).norm() > 0.2;
        before(other) && across && site.is_upright(other)
    });
    if steadied {
        return None;
    }
    let foot = site.piece(piece).corners().map(|p| p.z).fold(f64::INFINITY, f64::min);
    let inside = V3::new(out.x, out.y, 0.0) * (site.piece(piece).thickness.mm() / 2.0);
    // On the inside, where it does not mark the good face; beside the middle where a door or a window is.
    let along = V3::new(-out.y, out.x, 0.0) * site.piece(piece).size().0.mm();
    let at = ASIDE.into_iter().find_map(|share| {
        let middle = site.middle(piece) + along * share;
        let top = site.top_below(piece, &P3::new(middle.x, middle.y, 1e6))?;
        let at = P3::new(middle.x, middle.y, foot + (top - foot) * BESIDE);
        site.is_biscuit(piece, &at).then_some(at - inside)
    })?;
    let spot = at - V3::new(out.x, out.y, 0.0) * IN;
    let on = below(site, &spot, before, piece);
    let height = Length::mm_of(at.z - on.map_or(0.0, |(_, z)| z).min(at.z));
    Some(Prop { piece, kind: PropKind::Beside, on: on.map(|(k, _)| k), at, stands: spot.xy(), height })
}

/// Props for a piece that lies on others: before its foot if fresh icing may not hold it, else under that, and under it where its weight is
/// not borne.
fn under(site: &Site<'_>, piece: usize, is_set: &dyn Fn(usize) -> bool, before: &dyn Fn(usize) -> bool) -> Vec<Prop> {
    let mut props = Vec::new();
    let out = site.outward(piece);
    let pitch = Angle::of_slope(V2::new(out.x, out.y).norm(), out.z.abs());
    let down = V2::new(out.x, out.y);
    if !site.is_level(piece) && pitch > SLIDES {
        let stop = if slides(site, piece, down.norm(), before) { Foot::Stop } else { Foot::Prop };
        props.extend(at_foot(site, piece, &down.normalize(), before, stop));
    }
    // A plate that lies on another needs nothing.
    let lies = |(j, other): &(usize, Option<usize>)| {
        site.solved.joints[*j].kind == JointKind::Layer && other.is_none_or(is_set)
    };
    if site.is_level(piece) && site.joints[piece].iter().any(lies) {
        return props;
    }
    let mut bearings = bearings(site, piece, is_set);
    bearings.extend(props.iter().filter(|p| p.kind == PropKind::Under).map(|p| p.at.xy()));
    let weight = site.middle(piece).xy();
    // Best where nothing but whole biscuit or the board is below, not a window or a passage.
    let (whole, holed): (Vec<P3>, Vec<P3>) =
        spots(site, piece).into_iter().partition(|p| site.is_whole_below(p, before));
    let mut spots = if whole.is_empty() { holed } else { whole };
    while !bears(&bearings, &weight) {
        // The spot that brings the weight farthest inside.
        let gain = |spot: &P3| {
            let mut with = bearings.clone();
            with.push(spot.xy());
            inside_by(&with, &weight)
        };
        let best = (0..spots.len()).max_by(|&a, &b| gain(&spots[a]).total_cmp(&gain(&spots[b])));
        let Some(best) = best else { break };
        let at = spots.swap_remove(best);
        let on = below(site, &at, before, piece);
        let height = at.z - on.map_or(0.0, |(_, z)| z);
        bearings.push(at.xy());
        if height >= LIES {
            let (on, height) = (on.map(|(k, _)| k), Length::mm_of(height));
            props.push(Prop { piece, kind: PropKind::Under, on, at, stands: at.xy(), height });
        }
    }
    props
}

/// Whether a slope may be too heavy for its fresh icing, at the least that icing holds: it then slides off what only stands under it.
/// `sine` is that of its pitch.
fn slides(site: &Site<'_>, piece: usize, sine: f64, before: &dyn Fn(usize) -> bool) -> bool {
    let own = site.piece(piece);
    let weight = site.volume(piece) * (own.rolled / own.thickness) * DOUGH / 1000.0 * GRAVITY;
    let seat = |(j, other): &(usize, Option<usize>)| {
        let [a, b] = site.solved.joints[*j].line;
        let thinner = other.map_or(own.thickness, |o| own.thickness.min(site.piece(o).thickness));
        (b - a).norm() * thinner.mm()
    };
    let seats: f64 = site.joints[piece].iter().filter(|(_, other)| other.is_none_or(before)).map(seat).sum();
    weight * sine > seats * FLOWS
}

/// What a slope gets at its foot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Foot {
    /// Something before its edge, if it can stand there; else as the other.
    Stop,
    /// Something under its edge where there is room, else before it.
    Prop,
}

/// A prop at the middle of the lowest edge.
fn at_foot(site: &Site<'_>, piece: usize, down: &V2, before: &dyn Fn(usize) -> bool, foot: Foot) -> Option<Prop> {
    let aside = V3::new(down.x, down.y, 0.0);
    let mut edges = edges(site, piece);
    edges.sort_by(|a, b| a.z.total_cmp(&b.z));
    let stood = |low: P3| (low, on_underside(site, piece, low - aside * IN));
    let (low, inner) = edges.into_iter().map(stood).find(|(_, inner)| site.is_biscuit(piece, inner))?;
    let on = below(site, &inner, before, piece);
    let height = inner.z - on.map_or(0.0, |(_, z)| z);
    let outer = low + aside * IN;
    let ground = below(site, &outer, before, piece);
    let up = low.z - ground.map_or(0.0, |(_, z)| z);
    let firm = ground.is_none_or(|(k, _)| site.is_level(k));
    let has_room = height >= LEAST_ROOM;
    if has_room && !(foot == Foot::Stop && firm && up >= LIES) {
        let (on, height) = (on.map(|(k, _)| k), Length::mm_of(height));
        return Some(Prop { piece, kind: PropKind::Under, on, at: inner, stands: inner.xy(), height });
    }
    // It lies on what is below.
    if up < LIES {
        return None;
    }
    let (on, height) = (ground.map(|(k, _)| k), Length::mm_of(up));
    Some(Prop { piece, kind: PropKind::Before, on, at: low, stands: outer.xy(), height })
}

/// The middles of the edges of the underside, in the house.
fn edges(site: &Site<'_>, piece: usize) -> Vec<P3> {
    let p = site.piece(piece);
    let ring: Vec<P3> = p.outline.iter().map(|c| p.house_from_piece * P3::new(c.x, c.y, 0.0)).collect();
    (0..ring.len()).map(|k| half_way(&ring[k], &ring[(k + 1) % ring.len()])).collect()
}

/// The point of a piece's underside right above or below another.
fn on_underside(site: &Site<'_>, piece: usize, p: P3) -> P3 {
    let pose = site.piece(piece).house_from_piece;
    let (origin, normal) = (pose * P3::origin(), pose * V3::z());
    P3::new(p.x, p.y, p.z - normal.dot(&(p - origin)) / normal.z)
}

/// Where a prop can stand under a piece: a little inside the corners and the middles of the edges of its underside.
fn spots(site: &Site<'_>, piece: usize) -> Vec<P3> {
    let p = site.piece(piece);
    let middle = site.middle(piece);
    let corners = p.outline.iter().map(|c| p.house_from_piece * P3::new(c.x, c.y, 0.0));
    let inner = |q: P3| {
        let inward = P3::new(middle.x, middle.y, q.z) - q;
        on_underside(site, piece, q + inward.try_normalize(1e-9).unwrap_or_default() * IN)
    };
    corners.chain(edges(site, piece)).map(inner).filter(|p| site.is_biscuit(piece, p)).collect()
}

/// Where a piece is borne by what has set: the ends of its joints with it, seen from above.
fn bearings(site: &Site<'_>, piece: usize, is_set: &dyn Fn(usize) -> bool) -> Vec<P2> {
    let set = site.joints[piece].iter().filter(|(_, other)| other.is_none_or(is_set));
    set.flat_map(|(j, _)| site.solved.joints[*j].line).map(|p| p.xy()).collect()
}

/// Whether a weight lies over what bears it.
fn bears(bearings: &[P2], weight: &P2) -> bool {
    inside_by(bearings, weight) >= -SLACK
}

/// How far a point lies inside the hull of others, mm; below zero outside.
fn inside_by(points: &[P2], p: &P2) -> f64 {
    let hull = convex_hull(points);
    if hull.len() < 3 {
        let nearest = |ring: &[P2]| match ring {
            [] => f64::INFINITY,
            [a] => (p - a).norm(),
            [a, .., b] => {
                let way = b - a;
                let share = ((p - a).dot(&way) / way.norm_squared()).clamp(0.0, 1.0);
                (p - (a + way * share)).norm()
            }
        };
        return -nearest(&hull);
    }
    let depth = |k: usize| {
        let (a, b) = (hull[k], hull[(k + 1) % hull.len()]);
        (b - a).normalize().perp(&(p - a))
    };
    (0..hull.len()).map(depth).fold(f64::INFINITY, f64::min)
}

/// The topmost thing below a point among what stands, set icing included: which piece, and how high it is there.
fn below(site: &Site<'_>, at: &P3, before: &dyn Fn(usize) -> bool, own: usize) -> Option<(usize, f64)> {
    let standing = (0..site.solids.len()).filter(|&k| k != own && before(k));
    let biscuit = standing.filter_map(|k| Some((k, site.top_below(k, at)?)));
    biscuit.chain(site.icing_below(at, before)).max_by(|a, b| a.1.total_cmp(&b.1))
}
