//! Where walls come to stand that are baked already: their lengths are what they are, and so is their thickness.

use crate::solve::findings::Findings;
use crate::solve::part::{self, PartSolution};
use crate::solve::place::Stand;
use crate::solve::plan::PlanSide;
use crate::{House, Outline, Part, Role};
use gable_measure::Length;
use gable_plane::{P2, Rigid, V2};
use nalgebra::{DMatrix, DVector};

/// Moves of sides nearer than this are the same, mm: well above rounding.
const SAME: f64 = 1e-9;

/// A part for itself, where nothing meets it.
pub(super) fn alone(house: &House, part: &Part) -> PartSolution {
    let stand = Stand { house_from_part: Rigid::identity(), foot: 0.0, on_board: true };
    part::solve(house, part, stand, &mut Findings::new(house, 0))
}

/// How walls come to stand that are not as thick as planned.
pub(super) struct Standing {
    /// How far each side of the plan comes to stand farther out, mm.
    pub(super) moves: Vec<f64>,
    /// How much farther from the left and the right corner of the plan each wall begins and ends, mm.
    pub(super) ends: Vec<[f64; 2]>,
}

/// How walls stand that were cut for the thickness of `planned` and have the thickness of `house`. Sides without a wall
/// stay where they are.
///
/// At a corner where one wall stops against another, the one that runs through is pushed out by what it is thicker.
/// A side's length grows by `o / sin a - own · cot a` at a corner that turns by `a`, where its neighbour stands farther
/// out by `o` and it by `own`: plain trigonometry of two lines that cross. The moves are those that give every wall the
/// length it has; of several the smallest.
pub(super) fn standing(planned: &House, house: &House, part: &Part) -> Option<Standing> {
    let (before, after) = (alone(planned, part), alone(house, part));
    let ends = margins(part, &before)?.into_iter().zip(margins(part, &after)?);
    let ends: Vec<[f64; 2]> = ends.map(|(was, is)| [is[0] - was[0], is[1] - was[1]]).collect();
    let sides = &before.sides;
    let count = sides.len();
    let stands: Vec<usize> = (0..count).filter(|&k| part.sides[k].wall).collect();
    if stands.is_empty() {
        return Some(Standing { moves: vec![0.0; count], ends });
    }
    let mut matrix = DMatrix::zeros(stands.len(), count);
    for (row, &k) in stands.iter().enumerate() {
        let (start, end) = ((k + count - 1) % count, (k + 1) % count);
        for (a, b, neighbour) in [(start, k, start), (k, end, end)] {
            let (sin, cos) = turn(&sides[a], &sides[b]);
            matrix[(row, neighbour)] += 1.0 / sin;
            matrix[(row, k)] -= cos / sin;
        }
    }
    for open in (0..count).filter(|k| !part.sides[*k].wall) {
        matrix.column_mut(open).fill(0.0);
    }
    let missing = DVector::from_iterator(stands.len(), stands.iter().map(|&k| ends[k].iter().sum()));
    let moves = matrix.svd(true, true).solve(&missing, SAME).ok()?;
    Some(Standing { moves: moves.iter().copied().collect(), ends })
}

fn turn(before: &PlanSide, after: &PlanSide) -> (f64, f64) {
    (before.along.perp(&after.along), before.along.dot(&after.along))
}

/// How far from the left and the right corner of the plan each wall begins and ends, mm; none for a part that cannot be
/// built.
fn margins(part: &Part, solution: &PartSolution) -> Option<Vec<[f64; 2]>> {
    let margins = |k: usize| {
        let role = Role::Wall(part.sides[k].id.clone());
        let Some(wall) = solution.drafts.iter().find(|d| d.role == role) else { return [0.0, 0.0] };
        // x of a wall's frame runs from the right corner to the left one.
        let (low, high) = wall.plate.extent(V2::x());
        [solution.sides[k].length() - high, low]
    };
    (!solution.drafts.is_empty()).then(|| (0..part.sides.len()).map(margins).collect())
}

/// The corners of a plan with each side so much farther out.
pub(super) fn pushed_out(sides: &[PlanSide], moves: &[f64]) -> Vec<P2> {
    let count = sides.len();
    let corner = |k: usize| {
        let before = (k + count - 1) % count;
        let (a, b) = (&sides[before], &sides[k]);
        let (sin, _) = turn(a, b);
        // On the line of b, so far along that it meets the line of a.
        let at = b.start - b.inward * moves[k];
        let beyond = a.depth(at) + moves[before];
        at + b.along * (-beyond / sin)
    };
    (0..count).map(corner).collect()
}

/// The outline with other corners: of the same kind where it can be.
pub(super) fn outline(old: &Outline, corners: &[P2]) -> Outline {
    let sized = match old {
        Outline::Rectangle { .. } => {
            let size = (corners[2] - corners[0]).abs();
            Outline::Rectangle { width: Length::mm_of(size.x), depth: Length::mm_of(size.y) }
        }
        Outline::Polygon { sides, .. } => {
            Outline::Polygon { sides: *sides, side: Length::mm_of((corners[1] - corners[0]).norm()) }
        }
        Outline::HalfPolygon { sides, .. } => {
            let width = (corners[corners.len() - 1] - corners[0]).norm();
            Outline::HalfPolygon { sides: *sides, width: Length::mm_of(width) }
        }
        Outline::Free { .. } => free(corners),
    };
    let is_it = sized.corners().iter().zip(corners).all(|(p, q)| (p - q).norm() < SAME);
    if is_it { sized } else { free(corners) }
}

fn free(corners: &[P2]) -> Outline {
    Outline::Free { corners: corners.iter().map(|p| (Length::mm_of(p.x), Length::mm_of(p.y))).collect() }
}
