//! Nets: the bodies of the parts, without their overhangs and without thickness, unfolded to be folded of paper.

use gable_measure::Angle;
use gable_plane::{HalfSpace, P2, P3, Rest, Solid, V2, V3};
use gable_shell::{JointEnd, Role, Solved, SolvedPart};
use nalgebra::Isometry2;

/// Corners nearer than this are one, mm.
const SAME: f64 = 1e-5;
/// Planes of which the normals differ by less (sine) and which are nearer than this (mm) are one.
const FLUSH: (f64, f64) = (1e-5, 0.01);
/// Faces of a net may share so little, mm².
const FILM: f64 = 1e-3;

/// A connected net.
#[derive(Clone, Debug, PartialEq)]
pub struct Net {
    /// The part, as an index into [`Solved::parts`].
    pub part: usize,
    /// Its faces; each but the first hangs on an earlier one.
    pub faces: Vec<NetFace>,
}

/// A face of a net.
#[derive(Clone, Debug, PartialEq)]
pub struct NetFace {
    /// The pieces whose outside it stands for, as indices into [`Solved::pieces`].
    pub pieces: Vec<usize>,
    /// Corners in the house, counter-clockwise seen from outside; what other parts take off is still there.
    pub corners: Vec<P3>,
    /// The same corners in the net, seen from outside, mm.
    pub flat: Vec<P2>,
    /// What is left of it when other parts have taken theirs: rims and holes.
    pub shapes: Vec<Vec<P2>>,
    /// How it hangs on the face it is folded from.
    pub fold: Option<Fold>,
}

/// A fold of a net: always away from the printed side, as parts are convex.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fold {
    /// The other face, as an index into [`Net::faces`].
    pub face: usize,
    /// Where it runs in the net.
    pub line: [P2; 2],
    /// Angle between both faces, measured inside.
    pub dihedral: Angle,
}

/// Two edges of nets of one part that are glued together.
#[derive(Clone, Debug, PartialEq)]
pub struct Seam {
    /// Net, face and edge (the corner at which it starts) of both.
    pub ends: [(usize, usize, usize); 2],
}

/// The nets of all parts, and what is glued.
pub fn nets(solved: &Solved) -> (Vec<Net>, Vec<Seam>) {
    let bodies: Vec<Option<Solid>> = solved.parts.iter().map(|p| body(solved, p)).collect();
    let (mut nets, mut seams) = (Vec::new(), Vec::new());
    for (k, part) in solved.parts.iter().enumerate() {
        let Some(own) = &bodies[k] else { continue };
        let faces = faces(solved, part, own);
        let tools: Vec<&Solid> =
            (0..bodies.len()).filter(|&o| cuts(solved, o, k)).filter_map(|o| bodies[o].as_ref()).collect();
        let first = nets.len();
        let (made, glued) = unfolded(k, &faces, &tools);
        nets.extend(made);
        let moved = |(net, face, edge): (usize, usize, usize)| (net + first, face, edge);
        seams.extend(glued.into_iter().map(|s| Seam { ends: s.ends.map(moved) }));
    }
    (nets, seams)
}

/// Whether one part stays whole where another is cut to fit it.
fn cuts(solved: &Solved, whole: usize, cut: usize) -> bool {
    let part = |end: &JointEnd| match end {
        JointEnd::Piece(k) => solved.pieces.get(*k).map(|p| &p.part),
        JointEnd::Board => None,
    };
    let (whole, cut) = (Some(&solved.parts[whole].id), Some(&solved.parts[cut].id));
    whole != cut && solved.joints.iter().any(|j| part(&j.ends[0]) == whole && part(&j.ends[1]) == cut)
}

/// The half-spaces of a part in the house: sides of the plan, undersides of the roof.
fn body(solved: &Solved, part: &SolvedPart) -> Option<Solid> {
    let own = || solved.pieces.iter().filter(|p| p.part == part.id);
    if !own().any(|p| matches!(p.role, Role::Wall(_) | Role::Slope(..))) {
        return None;
    }
    let heights = own().flat_map(|p| p.outline.iter().map(|c| (p.house_from_piece * P3::new(c.x, c.y, 0.0)).z));
    let (foot, top) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), z| (l.min(z), h.max(z)));
    let count = part.plan.len();
    let side = |k: usize| {
        let (a, b) = (part.plan[k], part.plan[(k + 1) % count]);
        let way = b - a;
        HalfSpace::through(P3::new(a.x, a.y, 0.0), V3::new(way.y, -way.x, 0.0).normalize())
    };
    let roof = own().filter(|p| matches!(p.role, Role::Slope(..) | Role::Lid));
    let roof = roof.map(|p| HalfSpace::through(p.house_from_piece * P3::origin(), p.house_from_piece * V3::z()));
    let halves: Vec<HalfSpace> = (0..count).map(side).chain(roof).collect();
    let (low, high) = gable_plane::bounds(&part.plan)?;
    let room = V2::new(1.0, 1.0);
    let (low, high) = (low - room, high + room);
    let block = Solid::block(P3::new(low.x, low.y, foot), P3::new(high.x, high.y, top + 1.0));
    block.clip_all(&halves)
}

/// The faces of a body that stand for pieces: walls first.
fn faces(solved: &Solved, part: &SolvedPart, body: &Solid) -> Vec<(Vec<usize>, Vec<P3>, V3)> {
    let of_face = |face: gable_plane::Face| {
        let is_its = |k: &usize| {
            let piece = &solved.pieces[*k];
            let kind = matches!(piece.role, Role::Wall(_) | Role::Slope(..) | Role::Lid);
            let out = piece.outward();
            let at = piece.house_from_piece * P3::origin();
            let near = |c: &P3| out.dot(&(c - at)).abs() < FLUSH.1;
            kind && piece.part == part.id && out.cross(&face.normal).norm() < FLUSH.0 && face.corners.iter().all(near)
        };
        let pieces: Vec<usize> = (0..solved.pieces.len()).filter(is_its).collect();
        (!pieces.is_empty()).then_some((pieces, face.corners, face.normal))
    };
    let mut found: Vec<_> = body.faces().filter_map(of_face).collect();
    let rank = |pieces: &[usize]| (u8::from(!matches!(solved.pieces[pieces[0]].role, Role::Wall(_))), pieces[0]);
    found.sort_by_key(|(pieces, ..)| rank(pieces));
    found
}

/// The frame of a face: the house from its own flat coordinates.
struct Frame {
    origin: P3,
    x: V3,
    y: V3,
}

impl Frame {
    fn of(corners: &[P3], normal: V3) -> Self {
        let x = (corners[1] - corners[0]).normalize();
        Self { origin: corners[0], x, y: normal.cross(&x) }
    }

    fn flat(&self, p: &P3) -> P2 {
        let d = p - self.origin;
        P2::new(self.x.dot(&d), self.y.dot(&d))
    }
}

/// The turn and shift that take one segment to another of the same length.
fn onto([a, b]: [P2; 2], [c, d]: [P2; 2]) -> Isometry2<f64> {
    let (from, to) = (b - a, d - c);
    let turn = nalgebra::UnitComplex::rotation_between(&from, &to);
    let rotated = turn * a;
    Isometry2::from_parts((c - rotated).into(), turn)
}

fn shared(a: &[P3], b: &[P3]) -> Option<(usize, usize)> {
    let near = |p: &P3, q: &P3| (p - q).norm() < SAME;
    (0..a.len()).find_map(|i| {
        let (p, q) = (&a[i], &a[(i + 1) % a.len()]);
        let j = (0..b.len()).find(|&j| near(&b[j], q) && near(&b[(j + 1) % b.len()], p))?;
        Some((i, j))
    })
}

type Faced = (Vec<usize>, Vec<P3>, V3);

/// The faces of one part laid out, walls side by side and each slope on the wall below it, without overlap.
fn unfolded(part: usize, faces: &[Faced], tools: &[&Solid]) -> (Vec<Net>, Vec<Seam>) {
    let frames: Vec<Frame> = faces.iter().map(|(_, corners, normal)| Frame::of(corners, *normal)).collect();
    let own: Vec<Vec<P2>> =
        std::iter::zip(faces, &frames).map(|((_, c, _), f)| c.iter().map(|p| f.flat(p)).collect()).collect();
    // Pairs with a common edge: how natural the fold is, then the longest first.
    let upright = |k: usize| faces[k].2.z.abs() < FLUSH.0;
    let mut pairs: Vec<(u8, f64, usize, usize, usize, usize)> = Vec::new();
    for a in 0..faces.len() {
        for b in a + 1..faces.len() {
            if let Some((i, j)) = shared(&faces[a].1, &faces[b].1) {
                let corners = &faces[a].1;
                let length = (corners[(i + 1) % corners.len()] - corners[i]).norm();
                let rank = match (upright(a), upright(b)) {
                    (true, true) => 0,
                    (true, false) | (false, true) => 1,
                    (false, false) => 2,
                };
                pairs.push((rank, length, a, i, b, j));
            }
        }
    }
    pairs.sort_by(|p, q| p.0.cmp(&q.0).then(q.1.total_cmp(&p.1)).then((p.2, p.4).cmp(&(q.2, q.4))));
    // Per face where it lies: net and place in it.
    let mut placed: Vec<Option<(usize, usize)>> = vec![None; faces.len()];
    let mut nets: Vec<Net> = Vec::new();
    let mut folded = vec![false; pairs.len()];
    while let Some(first) = placed.iter().position(Option::is_none) {
        placed[first] = Some((nets.len(), 0));
        nets.push(Net { part, faces: vec![laid(&faces[first], own[first].clone(), &frames[first], None, tools)] });
        let net = nets.len() - 1;
        // Anew from the most natural pair after each success.
        'growing: loop {
            for (n, &(_, _, a, i, b, j)) in pairs.iter().enumerate() {
                let (from, edge, to, own_edge) = match (placed[a], placed[b]) {
                    (Some((k, at)), None) if k == net => ((a, at), i, b, j),
                    (None, Some((k, at))) if k == net => ((b, at), j, a, i),
                    _ => continue,
                };
                let parent = &nets[net].faces[from.1];
                let count = parent.flat.len();
                let line = [parent.flat[edge], parent.flat[(edge + 1) % count]];
                let ring = &own[to];
                let ends = [ring[(own_edge + 1) % ring.len()], ring[own_edge]];
                let motion = onto(ends, line);
                let flat: Vec<P2> = ring.iter().map(|p| motion * p).collect();
                if nets[net].faces.iter().any(|other| overlaps(&other.flat, &flat)) {
                    continue;
                }
                let dihedral = Angle::radians(std::f64::consts::PI - faces[from.0].2.angle(&faces[to].2));
                let fold = Fold { face: from.1, line, dihedral };
                let moved = laid(&faces[to], flat, &frames[to], Some((fold, motion)), tools);
                nets[net].faces.push(moved);
                placed[to] = Some((net, nets[net].faces.len() - 1));
                folded[n] = true;
                continue 'growing;
            }
            break;
        }
    }
    let seam = |(n, &(_, _, a, i, b, j)): (usize, &(u8, f64, usize, usize, usize, usize))| {
        let ((net_a, at_a), (net_b, at_b)) = (placed[a]?, placed[b]?);
        (!folded[n]).then_some(Seam { ends: [(net_a, at_a, i), (net_b, at_b, j)] })
    };
    let seams = pairs.iter().enumerate().filter_map(seam).collect();
    (nets, seams)
}

fn laid(
    (pieces, corners, normal): &Faced,
    flat: Vec<P2>,
    frame: &Frame,
    hung: Option<(Fold, Isometry2<f64>)>,
    tools: &[&Solid],
) -> NetFace {
    let motion = hung.map_or_else(Isometry2::identity, |h| h.1);
    let plane = HalfSpace::through(corners[0], *normal);
    let section = |solid: &&Solid| {
        let cut = solid.clip(&plane)?;
        let face = cut.faces().find(|f| {
            f.normal.dot(normal) > 1.0 - FLUSH.0 && f.corners.iter().all(|c| plane.excess(c).abs() < FLUSH.1)
        })?;
        let ring: Vec<P2> = face.corners.iter().map(|p| motion * frame.flat(p)).collect();
        Some(Rest { labels: vec![(); ring.len()], corners: ring })
    };
    let rims: Vec<Rest<()>> = tools.iter().filter_map(section).collect();
    let whole = Rest { labels: vec![(); flat.len()], corners: flat.clone() };
    let shapes = if rims.is_empty() {
        vec![flat.clone()]
    } else {
        let left = whole.without(&rims).into_iter().filter(|r| r.area() > 1.0);
        left.flat_map(|r| std::iter::once(r.rim.corners).chain(r.holes.into_iter().map(|h| h.corners))).collect()
    };
    NetFace { pieces: pieces.clone(), corners: corners.clone(), flat, shapes, fold: hung.map(|h| h.0) }
}

fn overlaps(a: &[P2], b: &[P2]) -> bool {
    let rest = |ring: &[P2]| Rest { labels: vec![(); ring.len()], corners: ring.to_vec() };
    rest(a).common(&rest(b)).iter().map(gable_plane::Region::area).sum::<f64>() > FILM
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_shell::{demo, solve};
    use nalgebra::{Translation3, Unit, UnitQuaternion};

    /// Folded along its lines by the angles that are said, every net gives back the faces of the house (1e-6 mm).
    #[test]
    fn folding_a_net_back_gives_the_house() {
        for name in demo::names() {
            let solved = solve(&demo::house(name).unwrap());
            let (nets, _) = nets(&solved);
            assert!(nets.len() + 2 >= solved.parts.len(), "{name}");
            for net in &nets {
                // The first face to its place in the house, then each on the one it hangs on.
                let mut poses: Vec<nalgebra::Isometry3<f64>> = Vec::new();
                for face in &net.faces {
                    let pose = match &face.fold {
                        None => place(&face.flat, &face.corners),
                        Some(fold) => {
                            let [a, b] = fold.line.map(|p| P3::new(p.x, p.y, 0.0));
                            let axis = Unit::new_normalize(b - a);
                            // The parent lies on the left of the line; the child turns down, away from the printed side.
                            let by = UnitQuaternion::from_axis_angle(&axis, std::f64::consts::PI - fold.dihedral.rad());
                            let turn = Translation3::from(a.coords) * by * Translation3::from(-a.coords);
                            poses[fold.face] * turn
                        }
                    };
                    for (flat, corner) in std::iter::zip(&face.flat, &face.corners) {
                        let folded = pose * P3::new(flat.x, flat.y, 0.0);
                        assert!((folded - corner).norm() < 1e-6, "{name}: {folded} is not {corner}");
                    }
                    poses.push(pose);
                }
            }
        }
    }

    fn place(flat: &[P2], corners: &[P3]) -> nalgebra::Isometry3<f64> {
        let frame = |o: P3, p: P3, q: P3| {
            let x = (p - o).normalize();
            let z = x.cross(&(q - o)).normalize();
            let basis = nalgebra::Rotation3::from_basis_unchecked(&[x, z.cross(&x), z]);
            nalgebra::Isometry3::from_parts(o.coords.into(), UnitQuaternion::from_rotation_matrix(&basis))
        };
        let up = |p: P2| P3::new(p.x, p.y, 0.0);
        let last = flat.len() - 1;
        frame(corners[0], corners[1], corners[last]) * frame(up(flat[0]), up(flat[1]), up(flat[last])).inverse()
    }

    #[test]
    fn no_net_overlaps_itself_and_every_common_edge_is_folded_or_glued_once() {
        for name in demo::names() {
            let solved = solve(&demo::house(name).unwrap());
            let (nets, seams) = nets(&solved);
            for net in &nets {
                for (k, face) in net.faces.iter().enumerate() {
                    assert!(net.faces[..k].iter().all(|other| !overlaps(&other.flat, &face.flat)), "{name}");
                }
            }
            for seam in &seams {
                let [a, b] = seam.ends.map(|(net, face, edge)| {
                    let corners = &nets[net].faces[face].corners;
                    [corners[edge], corners[(edge + 1) % corners.len()]]
                });
                assert!((a[0] - b[1]).norm() < 1e-4 && (a[1] - b[0]).norm() < 1e-4, "{name}");
            }
        }
    }
}
