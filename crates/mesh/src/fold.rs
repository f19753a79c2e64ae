use crate::hinge::{Hinge, Plate};
use crate::star::{Carrier, carriers};
use crate::travel::{Bounds, ROOM, Travel, Traveller, ways};
use crate::{Body, chunks_of};
use gable_plane::{HalfSpace, P3, Rigid, V3};
use gable_shell::{Piece, PieceId, Role, Solved};

/// Step in which pieces that would lie on each other are moved apart, mm.
const STEP: f64 = 3.0;
/// Stops on the way from standing to flat at which pieces must be clear of each other.
const STOPS: u32 = 40;
/// Widest swing out of each other's way, mm: about the height of a wall.
const WIDEST: u32 = 120;
/// Lengths of flight that are tried for a piece taken off its carrier, up to the size of the flat star.
const FLIGHTS: u32 = 8;
/// Pieces may share a film of this thickness before they count as lying on each other, mm: a tenth of the printing promise.
const FILM: f64 = 1e-3;

/// The way from the standing house to its pieces flat on the table, outside down.
///
/// Floor, wall and slope of a part form a star of hinges. `pose(s) = parent(s) · parent(1)⁻¹ · slide(1−s) ·
/// turn((1−s)·φ) · house_from_piece`: kept here is `motion(s) = pose(s) · house_from_piece⁻¹`, for which this reads
/// `motion(s) = parent_motion(s) · slide(1−s) · turn((1−s)·φ)`, the identity at s = 1. All hinges move together.
/// In a house of several parts these first come away from each other, standing, and then unfold beside each other.
///
/// Working it out looks for pieces that would lie on each other, so keep it for all positions of one house.
#[derive(Clone, Debug, PartialEq)]
pub struct Fold {
    /// In an order in which carriers come before what hangs on them.
    limbs: Vec<Limb>,
    standing: Vec<Rigid>,
    moved_apart: Vec<PieceId>,
    /// The way of every part; empty when there are not several.
    travels: Vec<Travel>,
}

#[derive(Clone, Debug, PartialEq)]
struct Limb {
    piece: usize,
    part: usize,
    /// Index into the limbs; `None` is the table under the part.
    carrier: Option<usize>,
    hinge: Option<Hinge>,
    /// Movement over the table, whole at s = 0.
    aside: V3,
}

impl Fold {
    /// Works out the star of every part and lays the stars out in rows.
    pub fn of(solved: &Solved) -> Self {
        let plates: Vec<Plate> = solved.pieces.iter().map(Plate::of).collect();
        let standing = solved.pieces.iter().map(|p| p.house_from_piece).collect();
        let mut fold = Self { limbs: Vec::new(), standing, moved_apart: Vec::new(), travels: Vec::new() };
        let mut travellers = Vec::new();
        for part in 0..solved.parts.len() {
            let first = fold.limbs.len();
            fold.add_star(solved, &plates, part);
            let bodies = fold.bodies(&solved.pieces, first);
            fold.spread(solved, first, &bodies);
            fold.clear_the_way(&plates, first, &bodies);
            travellers.push(fold.traveller(&plates, first, bodies));
        }
        if travellers.len() > 1 {
            fold.travels = ways(travellers);
        }
        fold
    }

    /// Pieces that the star alone would have laid on others, and that lie further out instead.
    pub fn moved_apart(&self) -> &[PieceId] {
        &self.moved_apart
    }

    /// Where every piece is, in the order of [`Solved::pieces`]: flat at s = 0, standing at s = 1.
    pub fn at(&self, s: f64) -> Vec<Rigid> {
        let u = 1.0 - if s.is_finite() { s.clamp(0.0, 1.0) } else { 1.0 };
        let mut poses = self.standing.clone();
        let unfolded = if self.travels.is_empty() { u } else { Travel::unfolded(u) };
        for (limb, motion) in std::iter::zip(&self.limbs, self.motions(0, unfolded)) {
            let travelled = self.travels.get(limb.part).map_or_else(V3::zeros, |t| t.at(u));
            poses[limb.piece] = Rigid::from_parts(travelled.into(), Default::default()) * motion * poses[limb.piece];
        }
        poses
    }

    /// Motions of the limbs from `first` on, which must start a star.
    fn motions(&self, first: usize, u: f64) -> Vec<Rigid> {
        let mut motions: Vec<Rigid> = Vec::new();
        for limb in &self.limbs[first..] {
            let carried = limb.carrier.map_or_else(Rigid::identity, |c| motions[c - first]);
            let own = limb.hinge.as_ref().map_or_else(Rigid::identity, |h| h.motion(u));
            motions.push(Rigid::from_parts((limb.aside * u).into(), Default::default()) * carried * own);
        }
        motions
    }

    fn add_star(&mut self, solved: &Solved, plates: &[Plate], part: usize) {
        let id = &solved.parts[part].id;
        let members: Vec<usize> = (0..plates.len()).filter(|&k| &solved.pieces[k].part == id).collect();
        let base = base_of(solved, plates, &members);
        let floor = members.iter().copied().find(|&k| solved.pieces[k].role == Role::Floor);
        let table = HalfSpace { normal: -V3::z(), offset: -base };
        let root = Plate { outside: table, corners: floor.map(|k| plates[k].corners.clone()).unwrap_or_default() };
        let drop = V3::new(0.0, 0.0, -base);
        let mut limb_of = std::collections::BTreeMap::new();
        for (piece, carrier) in carriers(solved, &members) {
            let child = &plates[piece];
            let hinge = match carrier {
                Carrier::IsFloor => None,
                Carrier::Table => Hinge::between(&root, child),
                Carrier::Piece(on) if matches!(solved.pieces[piece].role, Role::Parapet(_)) => {
                    Hinge::standing_on(&plates[on], child, solved.pieces[piece].thickness.mm())
                }
                Carrier::Piece(on) => Hinge::between(&plates[on], child),
                Carrier::Nothing => None,
            };
            let hangs = hinge.is_some() || matches!(carrier, Carrier::IsFloor);
            let loose = || Hinge::loose(child, &-V3::z(), flat_drop(child, base));
            let on = if let (Carrier::Piece(on), true) = (&carrier, hangs) { limb_of.get(on).copied() } else { None };
            // Only what stands on the table itself is let down with it; the rest follows its carrier.
            let aside = if on.is_none() { drop } else { V3::zeros() };
            limb_of.insert(piece, self.limbs.len());
            let hinge = if hangs { hinge } else { Some(loose()) };
            self.limbs.push(Limb { piece, part, carrier: on, hinge, aside });
        }
    }

    fn bodies(&self, pieces: &[Piece], first: usize) -> Vec<Vec<Body>> {
        let standing = |limb: &Limb| {
            let piece = &pieces[limb.piece];
            chunks_of(piece).iter().map(|b| b.moved(&piece.house_from_piece)).collect()
        };
        self.limbs[first..].iter().map(standing).collect()
    }

    /// Moves limbs that lie on others further out until nothing overlaps.
    ///
    /// Of two pieces that overlap, every hinge between them is tried and the one that clears them with the least
    /// movement is moved. What that does not clear within reach goes beside the star as a piece of its own.
    fn spread(&mut self, solved: &Solved, first: usize, bodies: &[Vec<Body>]) {
        let mut tried = std::collections::BTreeSet::new();
        for _ in 0..4 * bodies.len() {
            let Some((a, b)) = self.first_overlap(first, bodies) else { return };
            // A pair that meets again would be slid to and fro for ever.
            let apart = if tried.insert((a, b)) { self.nearest_clear(first, bodies, a, b) } else { None };
            let limb = match apart {
                Some((limb, hinge)) => {
                    self.limbs[limb].hinge = Some(hinge);
                    limb
                }
                None => {
                    let limb = a.max(b);
                    let star = self.reach(first, bodies).1.y;
                    self.limbs[limb].aside.y += star - self.lowest(first, bodies, limb) + ROOM;
                    limb
                }
            };
            let id = &solved.pieces[self.limbs[limb].piece].id;
            if !self.moved_apart.contains(id) {
                self.moved_apart.push(id.clone());
            }
        }
    }

    /// The least y of a limb when all is flat.
    fn lowest(&self, first: usize, bodies: &[Vec<Body>], limb: usize) -> f64 {
        let motion = self.motions(first, 1.0)[limb - first];
        let points = bodies[limb - first].iter().flat_map(|body| body.corners().iter().map(|p| (motion * *p).y));
        points.fold(f64::INFINITY, f64::min)
    }

    fn nearest_clear(&self, first: usize, bodies: &[Vec<Body>], a: usize, b: usize) -> Option<(usize, Hinge)> {
        let mut trial = self.clone();
        let (low, high) = self.reach(first, bodies);
        let steps = ((high - low).norm() / STEP).ceil().min(1000.0) as usize;
        let (from_a, from_b) = (self.path(a), self.path(b));
        let between: Vec<usize> = from_a.iter().chain(&from_b).copied().collect();
        let only_one = |l: &usize| from_a.contains(l) != from_b.contains(l);
        let candidates: Vec<usize> = between.into_iter().filter(only_one).collect();
        for step in 1..=steps {
            for &limb in &candidates {
                let Some(hinge) = &self.limbs[limb].hinge else { continue };
                let moved = hinge.slid(step as f64 * STEP);
                trial.limbs[limb].hinge = Some(moved.clone());
                let motions = trial.motions(first, 1.0);
                if !meet(&bodies[a - first], &motions[a - first], &bodies[b - first], &motions[b - first]) {
                    return Some((limb, moved));
                }
                trial.limbs[limb].hinge = self.limbs[limb].hinge.clone();
            }
        }
        None
    }

    /// Lets pieces swing wide where two would meet on the way, as when one hangs on its neighbour for want of a wall.
    ///
    /// Of the two, the one that clears the way with the least swing takes it, along its own outward direction.
    fn clear_the_way(&mut self, plates: &[Plate], first: usize, bodies: &[Vec<Body>]) {
        for _ in 0..bodies.len() {
            let pairs = (0..bodies.len()).flat_map(|a| (a + 1..bodies.len()).map(move |b| (a, b)));
            let ways = self.ways(first);
            let mut met = pairs.filter(|&pair| meet_on_the_way(bodies, &ways, pair));
            let Some((a, b)) = met.next() else { return };
            let wide = (1..=WIDEST / 2).find_map(|step| {
                [b, a].into_iter().find_map(|limb| {
                    let mut trial = self.clone();
                    let hinge = trial.limbs[first + limb].hinge.as_mut()?;
                    *hinge = hinge.swung_wide(f64::from(2 * step));
                    let clear = !meet_on_the_way(bodies, &trial.ways(first), (a, b));
                    clear.then_some(trial)
                })
            });
            let Some(trial) = wide.or_else(|| self.let_go(plates, first, bodies, (a, b))) else { return };
            *self = trial;
        }
    }

    /// Takes one of two limbs that meet on the way off its carrier: it flies out along its own outward normal, over
    /// everything, and lands beside the star. `None` when it would meet something on that way too.
    fn let_go(&self, plates: &[Plate], first: usize, bodies: &[Vec<Body>], (a, b): (usize, usize)) -> Option<Self> {
        let (low, high) = self.reach(first, bodies);
        let longest = (high - low).norm();
        [b, a].into_iter().filter(|&limb| !self.carries(first + limb)).find_map(|limb| {
            let plate = &plates[self.limbs[first + limb].piece];
            let landing = Hinge::loose(plate, &-V3::z(), flat_drop(plate, 0.0));
            (1..=FLIGHTS).find_map(|flight| {
                let mut trial = self.clone();
                let freed = &mut trial.limbs[first + limb];
                freed.carrier = None;
                let distance = longest * f64::from(flight) / f64::from(FLIGHTS);
                freed.hinge = Some(landing.flown(&plate.outside.normal, distance));
                freed.aside = V3::new(0.0, high.y - low.y + ROOM, 0.0);
                let ways = trial.ways(first);
                let clear = |other: usize| other == limb || !meet_on_the_way(bodies, &ways, (limb, other));
                (0..bodies.len()).all(clear).then_some(trial)
            })
        })
    }

    fn carries(&self, limb: usize) -> bool {
        self.limbs.iter().any(|l| l.carrier == Some(limb))
    }

    /// Motions of the limbs from `first` on at even steps between standing and flat.
    fn ways(&self, first: usize) -> Vec<Vec<Rigid>> {
        (1..STOPS).map(|k| self.motions(first, f64::from(k) / f64::from(STOPS))).collect()
    }

    /// The limb and all that carry it.
    fn path(&self, limb: usize) -> Vec<usize> {
        std::iter::successors(Some(limb), |&l| self.limbs[l].carrier).collect()
    }

    fn first_overlap(&self, first: usize, bodies: &[Vec<Body>]) -> Option<(usize, usize)> {
        let flat = self.motions(first, 1.0);
        let pairs = (0..bodies.len()).flat_map(|a| (a + 1..bodies.len()).map(move |b| (a, b)));
        let mut met = pairs.filter(|&(a, b)| meet(&bodies[a], &flat[a], &bodies[b], &flat[b]));
        met.next().map(|(a, b)| (first + a, first + b))
    }

    /// Box round the flat star.
    fn reach(&self, first: usize, bodies: &[Vec<Body>]) -> (P3, P3) {
        let flat = self.motions(first, 1.0);
        let corners =
            std::iter::zip(bodies, &flat).flat_map(|(b, m)| b.iter().flat_map(move |b| b.moved(m).corners().to_vec()));
        corners.fold((P3::from([f64::INFINITY; 3]), P3::from([f64::NEG_INFINITY; 3])), |(low, high), p| {
            (low.coords.inf(&p.coords).into(), high.coords.sup(&p.coords).into())
        })
    }

    /// What the way of the part is worked out from: its pieces, and all that its star reaches while it unfolds.
    fn traveller(&self, plates: &[Plate], first: usize, bodies: Vec<Vec<Body>>) -> Traveller {
        let stops = (0..=STOPS).map(|k| self.motions(first, f64::from(k) / f64::from(STOPS)));
        let reached = stops.flat_map(|motions| {
            let moved = std::iter::zip(&bodies, motions).flat_map(|(b, m)| b.iter().map(move |body| (body, m)));
            moved.flat_map(|(body, m)| body.corners().iter().map(move |p| m * p)).collect::<Vec<_>>()
        });
        let unfolding = Bounds::of(reached).unwrap_or(Bounds { low: P3::origin(), high: P3::origin() });
        let normals: Vec<V3> = self.limbs[first..].iter().map(|limb| plates[limb.piece].outside.normal).collect();
        let outward = normals.iter().filter_map(|n| V3::new(n.x, n.y, 0.0).try_normalize(1e-6)).collect();
        let slopes = normals.into_iter().filter(|n| n.z > 1e-6).collect();
        Traveller { outward, slopes, standing: bodies.into_iter().flatten().collect(), unfolding }
    }
}

fn meet(a: &[Body], a_motion: &Rigid, b: &[Body], b_motion: &Rigid) -> bool {
    let b: Vec<Body> = b.iter().map(|body| body.moved(b_motion)).collect();
    a.iter().map(|body| body.moved(a_motion)).any(|one| b.iter().any(|other| one.overlaps(other, FILM)))
}

fn meet_on_the_way(bodies: &[Vec<Body>], ways: &[Vec<Rigid>], (a, b): (usize, usize)) -> bool {
    ways.iter().any(|motions| meet(&bodies[a], &motions[a], &bodies[b], &motions[b]))
}

/// Height of the plane that the star of a part is laid on: the underside of its floor, else the foot of its walls.
fn base_of(solved: &Solved, plates: &[Plate], members: &[usize]) -> f64 {
    let lowest = |wanted: fn(&Role) -> bool| {
        let chosen = members.iter().filter(|&&k| wanted(&solved.pieces[k].role));
        chosen.flat_map(|&k| plates[k].corners.iter().map(|p| p.z)).min_by(f64::total_cmp)
    };
    let floor = lowest(|r| *r == Role::Floor);
    floor.or_else(|| lowest(|r| matches!(r, Role::Wall(_)))).or_else(|| lowest(|_| true)).unwrap_or(0.0)
}

/// How far a piece that turns about its own middle must move for its outside to come down on the base plane.
fn flat_drop(child: &Plate, base: f64) -> V3 {
    let below = child.outside.excess(&child.middle());
    V3::new(0.0, 0.0, base - below - child.middle().z)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    #[test]
    fn standing_is_where_the_solver_put_it() {
        let solved = sample::gable();
        for (pose, piece) in std::iter::zip(Fold::of(&solved).at(1.0), &solved.pieces) {
            assert!((pose.to_homogeneous() - piece.house_from_piece.to_homogeneous()).norm() < 1e-9);
        }
    }

    /// By hand: the wall is 80 high, the slope's rim is 15 / cos 40 + 5 tan 40 below the hinge, which is 5 / cos 40 above
    /// the wall; the slope is (50 + 15) / cos 40 long.
    #[test]
    fn a_slope_lies_just_past_the_hinge_on_its_wall() {
        let solved = sample::gable();
        let flat = Fold::of(&solved).at(0.0);
        let slope = &solved.pieces[4];
        let corners: Vec<P3> = slope.outline.iter().map(|p| flat[4] * P3::new(p.x, p.y, sample::ROOF)).collect();
        let cos = 40f64.to_radians().cos();
        let near = 50.0 + 80.0 + 5.0 / cos;
        let far = near + 65.0 / cos;
        let least = corners.iter().map(|p| p.x).fold(f64::INFINITY, f64::min);
        let most = corners.iter().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
        assert!((least - near).abs() < 1e-9 && (most - far).abs() < 1e-9, "{least} {most}");
        assert!(corners.iter().all(|p| p.z.abs() < 1e-9));
    }

    #[test]
    fn nothing_is_moved_for_values_out_of_range() {
        let fold = Fold::of(&sample::gable());
        assert_eq!(fold.at(7.0), fold.at(1.0));
        assert_eq!(fold.at(-7.0), fold.at(0.0));
        assert_eq!(fold.at(f64::NAN), fold.at(1.0));
    }
}
