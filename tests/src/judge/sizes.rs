//! The data keep their contract, and typed sizes are met.

use super::{Case, Check, Fault};
use crate::body::holes_of;
use crate::hull::Tag;
use gable_plane::{P2, V3};
use gable_shell::{EdgeKind, JointEnd, Piece, Role, Top};

/// How near a typed size must be met, mm.
pub(crate) const NEAR: f64 = 0.01;

impl Case<'_> {
    /// Breaches of what the types promise.
    pub fn contract(&self) -> Vec<Fault> {
        let mut faults: Vec<Fault> =
            self.solved.pieces.iter().enumerate().flat_map(|(k, p)| self.ring_faults(k, p)).collect();
        for (k, joint) in self.solved.joints.iter().enumerate() {
            let known = |end: &JointEnd| !matches!(end, JointEnd::Piece(p) if *p >= self.bodies.len());
            let finite = joint.line.iter().all(|p| p.coords.iter().all(|x| x.is_finite()));
            let volume: f64 = self.icing.iter().filter(|(j, _)| *j == k).map(|(_, b)| b.volume()).sum();
            if !joint.ends.iter().all(known) || !finite {
                faults.push(Self::fault(Check::Contract, format!("{} has no piece or no line", joint.id.0), 1.0));
            }
            if (volume - joint.wedge.volume).abs() > 0.01 + 1e-4 * volume {
                let what =
                    format!("{}: wedge says {:.3} mm³ of icing, its bodies differ by", joint.id.0, joint.wedge.volume);
                faults.push(Self::fault(Check::Contract, what, volume - joint.wedge.volume));
            }
        }
        faults
    }

    fn ring_faults(&self, index: usize, piece: &Piece) -> Vec<Fault> {
        let fault = |what: &str, amount: f64| Self::fault(Check::Contract, format!("{}: {what}", piece.id.0), amount);
        let count = piece.outline.len();
        let mut faults = Vec::new();
        if count < 3 || piece.outline_back.len() != count || piece.edges.len() != count {
            return vec![fault("rings do not match", count as f64)];
        }
        let body = &self.bodies[index];
        if body.points.iter().any(|p| !p.coords.iter().all(|x| x.is_finite())) {
            return vec![fault("corner is no number", 1.0)];
        }
        if gable_plane::ring_area(&piece.outline) <= 0.0 || gable_plane::ring_area(&piece.outline_back) <= 0.0 {
            faults.push(fault("ring does not run counter-clockwise", gable_plane::ring_area(&piece.outline)));
        }
        let holes = self.house.part(&piece.part).map_or(vec![], |part| holes_of(piece, part));
        let holes: f64 = holes.iter().map(|ring| gable_plane::ring_area(ring).abs()).sum();
        let volume = prism_volume(piece) - holes * piece.thickness.mm();
        if piece.notches.is_empty() && (body.volume() - volume).abs() > 1e-6 * volume.abs() {
            faults
                .push(fault("its solid does not have the volume of its rings; differs by mm³", body.volume() - volume));
        }
        if [&piece.outline, &piece.outline_back].into_iter().any(|ring| touches_itself(ring)) {
            faults.push(fault("its outline touches itself in a point", 1.0));
        }
        let strays = piece.edges.iter().filter_map(|e| if let EdgeKind::Joint(j) = e { Some(*j) } else { None });
        let mine = |j: &usize| self.solved.joints.get(*j).is_some_and(|j| j.ends.contains(&JointEnd::Piece(index)));
        faults.extend(strays.filter(|j| !mine(j)).map(|j| fault("edge names a joint that is not its own", j as f64)));
        faults
    }

    /// Typed sizes that the standing walls do not have: their outer faces lie in the typed planes, and walls under an
    /// eave have the typed height. A finding that names the side excuses a height.
    pub fn sizes(&self) -> Vec<Fault> {
        let Some(part) = self.part() else { return vec![] };
        let mut faults = Vec::new();
        for (k, side) in part.sides.iter().enumerate() {
            let plane = self.envelope.theory.planes.iter().find(|p| p.tag == Tag::Wall(k));
            let (Some(wall), Some(plane)) = (self.piece(&Role::Wall(side.id.clone())), plane) else { continue };
            let (_, out) = self.bodies[wall].reach(&plane.normal);
            if (out - plane.offset).abs() > NEAR {
                let what = format!("{} stands off its typed line by mm", self.name(wall));
                faults.push(Self::fault(Check::Size, what, out - plane.offset));
            }
            let (Top::Eave { height, .. } | Top::Knee { height, .. }) = side.top else { continue };
            let (_, top) = self.bodies[wall].reach(&V3::z());
            let least = height.mm() - NEAR - if self.solved.pieces[wall].baked { self.bridged } else { 0.0 };
            if !(least..=height.mm() + NEAR).contains(&top) && !self.excused(&side.id.0, &self.name(wall)) {
                faults.push(Self::fault(
                    Check::Size,
                    format!("{} misses its height by mm", self.name(wall)),
                    top - height.mm(),
                ));
            }
        }
        faults
    }

    fn excused(&self, side: &str, piece: &str) -> bool {
        let path = format!("sides.{side}");
        self.solved.findings.iter().any(|f| f.place.contains(&path) || f.place == piece)
    }
}

/// Volume between two rings joined corner by corner: the prismatoid formula, exact for sections that vary linearly.
fn prism_volume(piece: &Piece) -> f64 {
    let middle: Vec<_> = piece.outline.iter().zip(&piece.outline_back).map(|(a, b)| a + (b - a) / 2.0).collect();
    let area = gable_plane::ring_area;
    piece.thickness.mm() * (area(&piece.outline) + 4.0 * area(&middle) + area(&piece.outline_back)) / 6.0
}

/// Whether two corners of a ring are one point though much of the ring lies between them, whichever way round.
fn touches_itself(ring: &[P2]) -> bool {
    let count = ring.len();
    let step = |k: usize| (ring[(k + 1) % count] - ring[k]).norm();
    let whole: f64 = (0..count).map(step).sum();
    (0..count).any(|a| {
        (a + 1..count).filter(|&b| (ring[a] - ring[b]).norm() < 1e-3).any(|b| {
            let between: f64 = (a..b).map(step).sum();
            between.min(whole - between) > 0.1
        })
    })
}
