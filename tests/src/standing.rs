//! Whether parts stand where their places say, worked out from finished plans and pieces alone.

use gable_plane::{P2, P3, V2, V3};
use gable_shell::{House, Part, Piece, Place, Placing, Role, SideId, Solved, SolvedPart};
use std::collections::BTreeSet;

/// Lengths that differ by less, mm, are the same.
const SAME: f64 = 1e-6;
/// A roof is taken to fall this steeply past its plan.
const STEEP: f64 = 1e3;

/// What is wrong about the places of guests by their hosts, in words; empty when every relation holds.
pub fn broken_places(house: &House, solved: &Solved) -> Vec<String> {
    let mut broken = Vec::new();
    for part in &house.parts {
        for (what, found, typed) in relations(house, solved, part) {
            if (found - typed).abs() > SAME {
                broken.push(format!("{}: {what} is {found}, typed {typed}", part.id.0));
            }
        }
    }
    broken
}

/// What a place says, as found and as typed, mm.
type Relation = (&'static str, f64, f64);

fn relations(house: &House, solved: &Solved, part: &Part) -> Vec<Relation> {
    let Some(host) = part.place.host().and_then(|id| house.part(id)) else { return Vec::new() };
    let find = |part: &Part| solved.parts.iter().find(|p| p.id == part.id);
    let (Some(guest), Some(stand)) = (find(part), find(host)) else {
        return vec![("number of parts that have a place", 0.0, 2.0)];
    };
    let at = guest.house_from_part.translation.vector;
    let origin = P2::new(at.x, at.y);
    let upper = |p: P2| height(solved, host, p);
    match &part.place {
        Place::Ground(_) => Vec::new(),
        Place::Against { side, along, out, .. } => {
            let mut found = beside(host, stand, guest, side, along);
            found.push(("reach out of the wall", -nearest(host, stand, guest, side).0, out.mm()));
            found.push(("foot", at.z, stand.house_from_part.translation.z + part.raised.mm()));
            found
        }
        Place::OnSlope { side, along, up, .. } => {
            let mut found = beside(host, stand, guest, side, along);
            let (up_slope, points) = nearest(host, stand, guest, side);
            found.push(("distance up the slope", up_slope, up.mm()));
            found.push(("foot", at.z, points.into_iter().map(upper).fold(f64::INFINITY, f64::min)));
            found
        }
        Place::Astride { along, .. } => {
            let step = |k: u32| V2::new(f64::from(k).cos(), f64::from(k).sin());
            let rise = (0..20).map(|k| upper(origin + step(k)) - at.z).fold(0.0, f64::max);
            let mut found = vec![("foot", at.z, upper(origin)), ("roof above the ridge", rise, 0.0)];
            found.extend(along_ridge(solved, host, stand, origin).map(|s| ("distance along the ridge", s, along.mm())));
            found
        }
        Place::OnTop { spot, .. } => {
            let wanted = stand.house_from_part * P3::new(spot.x.mm(), spot.y.mm(), 0.0);
            let top = lid(solved, host).unwrap_or_else(|| highest(solved, host));
            vec![("x", at.x, wanted.x), ("y", at.y, wanted.y), ("foot", at.z, top)]
        }
    }
}

/// From the middle of the ridge of a roof of two slopes, which runs all over the plan, to a point: to the host's right, or
/// to its back.
fn along_ridge(solved: &Solved, host: &Part, stand: &SolvedPart, point: P2) -> Option<f64> {
    let slopes: Vec<&Piece> = solved.pieces.iter().filter(|p| p.part == host.id && roof(p)).collect();
    let sides: BTreeSet<&Role> = slopes.iter().map(|p| &p.role).collect();
    let normals: Vec<V3> = sides
        .iter()
        .filter_map(|role| slopes.iter().find(|p| p.role == **role))
        .map(|p| p.house_from_piece * V3::z())
        .collect();
    let [one, other] = normals[..] else { return None };
    let ridge = one.cross(&other).normalize();
    let own = stand.house_from_part.inverse() * ridge;
    let right = own.x > SAME || (own.x > -SAME && own.y > 0.0);
    let direction = if right { ridge.xy() } else { -ridge.xy() };
    let extent = stand.plan.iter().map(|p| p.coords.dot(&direction));
    let (low, high) = extent.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), s| (l.min(s), h.max(s)));
    Some(point.coords.dot(&direction) - (low + high) / 2.0)
}

/// How a guest's plan lies along a side of its host, as [`Placing`] says it.
fn beside(host: &Part, stand: &SolvedPart, guest: &SolvedPart, side: &SideId, along: &Placing) -> Vec<Relation> {
    let Some([start, end]) = line(host, stand, side) else { return vec![("side", 0.0, 1.0)] };
    let direction = (end - start).normalize();
    let length = (end - start).norm();
    let extent = guest.plan.iter().map(|p| (p - start).dot(&direction));
    let (low, high) = extent.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), s| (l.min(s), h.max(s)));
    vec![match along {
        Placing::Centred { offset } => ("offset from the middle", (low + high - length) / 2.0, offset.mm()),
        Placing::FromLeft { distance } => ("distance from the left", low, distance.mm()),
        Placing::FromRight { distance } => ("distance from the right", length - high, distance.mm()),
    }]
}

/// The least depth of a guest's plan behind a side of its host, and where that is.
fn nearest(host: &Part, stand: &SolvedPart, guest: &SolvedPart, side: &SideId) -> (f64, Vec<P2>) {
    let Some([start, end]) = line(host, stand, side) else { return (f64::NAN, Vec::new()) };
    let along = (end - start).normalize();
    let depth = |p: &P2| along.perp(&(p - start));
    let least = guest.plan.iter().map(depth).fold(f64::INFINITY, f64::min);
    (least, guest.plan.iter().filter(|p| depth(p) < least + SAME).copied().collect())
}

fn line(host: &Part, stand: &SolvedPart, side: &SideId) -> Option<[P2; 2]> {
    let k = host.sides.iter().position(|s| &s.id == side)?;
    Some([stand.plan[k], stand.plan[(k + 1) % stand.plan.len()]])
}

/// Height of the upper faces of a part's roof over a point, beyond the pieces' rims too.
fn height(solved: &Solved, part: &Part, over: P2) -> f64 {
    let pieces = solved.pieces.iter().filter(|p| p.part == part.id && roof(p));
    let heights = pieces.map(|p| {
        let face = p.house_from_piece * P3::new(0.0, 0.0, p.thickness.mm());
        let normal = p.house_from_piece * V3::z();
        face.z - (normal.x * (over.x - face.x) + normal.y * (over.y - face.y)) / normal.z
    });
    heights.fold(f64::INFINITY, f64::min)
}

fn roof(piece: &Piece) -> bool {
    matches!(piece.role, Role::Slope(..) | Role::Lid)
}

fn lid(solved: &Solved, part: &Part) -> Option<f64> {
    let lid = solved.pieces.iter().find(|p| p.part == part.id && p.role == Role::Lid)?;
    Some(lid.house_from_piece.translation.z + lid.thickness.mm())
}

/// Height of the highest place of a roof over its plan: heights over a line are concave, and so are their greatest ones.
fn highest(solved: &Solved, part: &Part) -> f64 {
    let plan = solved.parts.iter().find(|p| p.id == part.id).map_or(&[][..], |p| &p.plan);
    let outside = |p: P2| {
        let beyond = |k: usize| {
            let (a, b) = (plan[k], plan[(k + 1) % plan.len()]);
            (p - a).perp(&(b - a)) / (b - a).norm()
        };
        (0..plan.len()).map(beyond).fold(0.0, f64::max)
    };
    let over = |p: P2| height(solved, part, p) - STEEP * outside(p);
    let reach = |pick: fn(&P2) -> f64| {
        plan.iter().map(pick).fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)))
    };
    let (x, y) = (reach(|p| p.x), reach(|p| p.y));
    greatest(x, &|x| greatest(y, &|y| over(P2::new(x, y))))
}

/// The greatest value of a concave function between two places.
fn greatest((mut low, mut high): (f64, f64), of: &dyn Fn(f64) -> f64) -> f64 {
    for _ in 0..80 {
        let (one, other) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if of(one) < of(other) { low = one } else { high = other }
    }
    of((low + high) / 2.0)
}
