//! Bending a meshed plate: one sparse factor, then moments.
//!
//! The factor is by `faer`: sparse Cholesky with a fill-reducing order, in Rust alone; a plate of a thousand points has a band of hundreds
//! without one.

use super::element::{Element, Unknowns, elasticity};
use super::rib::Stretch;
use super::{BendError, Held, Load, Mesh, Plate, Rib};
use faer::Side;
use faer::linalg::solvers::Solve;
use faer::sparse::{SparseColMat, Triplet};
use gable_plane::{P2, V2};
use nalgebra::{Matrix3, Vector3};

/// What a load does, for unit D: deflections have to be divided by D = E t³ / 12 (1 - ν²), moments do not depend on it.
pub(super) struct Solution {
    /// Deflection of each point along z, times D.
    pub(super) deflection: Vec<f64>,
    /// Moments (xx, yy, xy) at the corners of each triangle.
    pub(super) moments: Vec<[Vector3<f64>; 3]>,
    /// What each held line pushes back with, N; along z.
    pub(super) reactions: Vec<f64>,
    /// The greatest stress in each rib, MPa.
    pub(super) ribs: Vec<f64>,
}

/// One unknown: w or one of the two slopes of a point.
#[derive(Clone, Copy)]
pub(super) struct Row {
    pub(super) point: usize,
    pub(super) unknown: usize,
}

/// How a point is held.
#[derive(Clone, Copy, Default)]
struct Hold {
    held: bool,
    /// Direction of the line that holds it; along it the plate cannot slope.
    along: Option<V2>,
    /// Lines of several directions, or a clamp: it cannot slope at all.
    level: bool,
}

impl Hold {
    fn add(&mut self, line: Option<V2>, clamped: bool) {
        self.held = true;
        match (self.along, line) {
            (Some(a), Some(b)) if a.perp(&b).abs() > 1e-6 => self.level = true,
            (None, Some(b)) => self.along = Some(b),
            _ => {}
        }
        self.level |= clamped;
    }

    /// The two directions that slopes of this point are counted in.
    fn axes(&self) -> [V2; 2] {
        let along = self.along.unwrap_or_else(V2::x);
        [along, V2::new(-along.y, along.x)]
    }

    /// Which of w and the slopes along its axes are nothing.
    fn fixed(&self) -> [bool; 3] {
        [self.held, self.level || self.along.is_some(), self.level]
    }
}

pub(super) fn solve(
    mesh: &Mesh,
    held: &[Held],
    plate: &Plate,
    ribs: &[Rib],
    load: &Load,
) -> Result<Solution, BendError> {
    let lines: Vec<Vec<usize>> = held.iter().map(|h| mesh.on(h).collect()).collect();
    let holds = holds(mesh, held, &lines);
    still(mesh, &holds)?;
    let elasticity = elasticity(plate.narrowing);
    let elements: Vec<Element> = mesh.triangles.iter().map(|t| Element::new(t.map(|k| mesh.points[k]))).collect();
    let number = numbers(&holds);
    let count = number.iter().flatten().flatten().count();
    let forces = forces(mesh, &elements, load);
    let mut entries = Vec::with_capacity(elements.len() * 45);
    for (element, corners) in elements.iter().zip(&mesh.triangles) {
        add(element, corners, &elasticity, &holds, &number, &mut entries);
    }
    let stretches: Vec<Vec<Stretch>> =
        ribs.iter().map(|rib| rib.stretches(mesh, plate.thickness.mm(), plate.narrowing)).collect();
    for stretch in stretches.iter().flatten() {
        stretch.add(|k| holds[k].axes(), &mut |a: Row, b: Row, value| {
            if let (Some(row), Some(col)) = (number[a.point][a.unknown], number[b.point][b.unknown])
                && row >= col
            {
                entries.push(Triplet::new(row, col, value));
            }
        });
    }
    let solved = factored(count, &entries, &number, &forces)?;
    let unknowns: Vec<Vector3<f64>> = (0..mesh.points.len())
        .map(|k| {
            let [w, a, b] = [0, 1, 2].map(|n| number[k][n].map_or(0.0, |row| solved[row]));
            let [along, across] = holds[k].axes();
            let slope = along * a + across * b;
            Vector3::new(w, slope.x, slope.y)
        })
        .collect();
    if unknowns.iter().any(|u| !u.iter().all(|v| v.is_finite())) {
        return Err(BendError::NotHeld);
    }
    let ribs = ribs.iter().zip(&stretches).map(|(rib, own)| rib.stress(own, &unknowns)).collect();
    Ok(Solution { ribs, ..told(mesh, &elements, &elasticity, &unknowns, &forces, &lines) })
}

fn holds(mesh: &Mesh, held: &[Held], lines: &[Vec<usize>]) -> Vec<Hold> {
    let mut holds = vec![Hold::default(); mesh.points.len()];
    for (held, points) in held.iter().zip(lines) {
        let way = held.to - held.from;
        let along = (way.norm() > 1e-9).then(|| way.normalize());
        points.iter().for_each(|&k| holds[k].add(along, held.clamped));
    }
    holds
}

/// Whether a plate cannot move or tilt as a whole, each piece of it: it is held at points that lie on no one line, or clamped.
fn still(mesh: &Mesh, holds: &[Hold]) -> Result<(), BendError> {
    let part = parts(mesh);
    let count = part.iter().max().map_or(0, |m| m + 1);
    for own in 0..count {
        let points: Vec<usize> = (0..part.len()).filter(|&k| part[k] == own && holds[k].held).collect();
        let Some(&first) = points.first() else { return Err(BendError::NotHeld) };
        let clamped = points.iter().any(|&k| holds[k].level);
        let ways: Vec<V2> = points.iter().map(|&k| mesh.points[k] - mesh.points[first]).collect();
        let far = ways.iter().copied().fold(V2::zeros(), |a, b| if b.norm() > a.norm() { b } else { a });
        let wide = ways.iter().map(|w| far.perp(w).abs()).fold(0.0, f64::max);
        if !clamped && wide <= 0.02 * far.norm_squared() {
            return Err(BendError::NotHeld);
        }
    }
    if count == 0 { Err(BendError::Mesh) } else { Ok(()) }
}

/// Which connected part each point belongs to.
fn parts(mesh: &Mesh) -> Vec<usize> {
    fn root(of: &mut [usize], mut k: usize) -> usize {
        while of[k] != k {
            of[k] = of[of[k]];
            k = of[k];
        }
        k
    }
    let mut of: Vec<usize> = (0..mesh.points.len()).collect();
    for [a, b, c] in &mesh.triangles {
        let (a, b, c) = (root(&mut of, *a), root(&mut of, *b), root(&mut of, *c));
        of[b] = a;
        let c = root(&mut of, c);
        of[c] = root(&mut of, a);
    }
    let roots: Vec<usize> = (0..of.len()).map(|k| root(&mut of, k)).collect();
    let mut names: Vec<usize> = roots.clone();
    names.sort_unstable();
    names.dedup();
    roots.iter().map(|r| names.binary_search(r).unwrap_or(0)).collect()
}

/// Rows of w and the two slopes of each point; nothing for what is fixed.
fn numbers(holds: &[Hold]) -> Vec<[Option<usize>; 3]> {
    let mut next = 0;
    let mut row = |fixed: bool| {
        (!fixed).then(|| {
            next += 1;
            next - 1
        })
    };
    holds.iter().map(|hold| hold.fixed().map(&mut row)).collect()
}

/// Forces along z at the points: a third of each triangle's load at its corners, and single forces shared by the corners of the
/// triangle that they act on.
fn forces(mesh: &Mesh, elements: &[Element], load: &Load) -> Vec<f64> {
    let mut forces = vec![0.0; mesh.points.len()];
    for (element, corners) in elements.iter().zip(&mesh.triangles) {
        corners.iter().for_each(|&k| forces[k] += load.pressure * element.area / 3.0);
    }
    for (at, force) in &load.forces {
        for (k, share) in mesh.shares(*at) {
            forces[k] += force * share;
        }
    }
    forces
}

type Entry = Triplet<usize, usize, f64>;

/// Adds the lower half of an element's stiffness, slopes turned into the axes of their points.
fn add(
    element: &Element,
    corners: &[usize; 3],
    elasticity: &Matrix3<f64>,
    holds: &[Hold],
    number: &[[Option<usize>; 3]],
    entries: &mut Vec<Entry>,
) {
    let mut stiffness = element.stiffness(elasticity);
    for (k, &corner) in corners.iter().enumerate() {
        if holds[corner].along.is_none() {
            continue;
        }
        let [along, across] = holds[corner].axes();
        for n in 0..9 {
            let slope = V2::new(stiffness[(n, 3 * k + 1)], stiffness[(n, 3 * k + 2)]);
            stiffness[(n, 3 * k + 1)] = slope.dot(&along);
            stiffness[(n, 3 * k + 2)] = slope.dot(&across);
        }
        for n in 0..9 {
            let slope = V2::new(stiffness[(3 * k + 1, n)], stiffness[(3 * k + 2, n)]);
            stiffness[(3 * k + 1, n)] = slope.dot(&along);
            stiffness[(3 * k + 2, n)] = slope.dot(&across);
        }
    }
    let rows: [Option<usize>; 9] = std::array::from_fn(|n| number[corners[n / 3]][n % 3]);
    for (i, row) in rows.iter().enumerate() {
        for (j, col) in rows.iter().enumerate() {
            if let (Some(row), Some(col)) = (row, col)
                && row >= col
            {
                entries.push(Triplet::new(*row, *col, stiffness[(i, j)]));
            }
        }
    }
}

fn factored(
    count: usize,
    entries: &[Entry],
    number: &[[Option<usize>; 3]],
    forces: &[f64],
) -> Result<Vec<f64>, BendError> {
    let matrix = SparseColMat::<usize, f64>::try_new_from_triplets(count, count, entries);
    let matrix = matrix.map_err(|_| BendError::Mesh)?;
    let factor = matrix.sp_cholesky(Side::Lower).map_err(|_| BendError::NotHeld)?;
    let mut right = faer::Col::<f64>::zeros(count);
    for (rows, force) in number.iter().zip(forces) {
        if let Some(row) = rows[0] {
            right[row] = *force;
        }
    }
    let solved = factor.solve(&right);
    Ok(solved.iter().copied().collect())
}

fn told(
    mesh: &Mesh,
    elements: &[Element],
    elasticity: &Matrix3<f64>,
    unknowns: &[Vector3<f64>],
    forces: &[f64],
    lines: &[Vec<usize>],
) -> Solution {
    let mut moments = Vec::with_capacity(elements.len());
    // What the plate pulls at each point along z, less what is laid on it.
    let mut pulled: Vec<f64> = forces.iter().map(|f| -f).collect();
    for (element, corners) in elements.iter().zip(&mesh.triangles) {
        let own = Unknowns::from_fn(|n, _| unknowns[corners[n / 3]][n % 3]);
        let pull = element.stiffness(elasticity) * own;
        corners.iter().enumerate().for_each(|(k, &corner)| pulled[corner] += pull[3 * k]);
        moments.push(element.moments(elasticity, &own));
    }
    // A point on several lines is shared by them.
    let mut shared = vec![0.0; pulled.len()];
    lines.iter().flatten().for_each(|&k| shared[k] += 1.0);
    let reactions = lines.iter().map(|line| line.iter().map(|&k| pulled[k] / shared[k]).sum()).collect();
    Solution { deflection: unknowns.iter().map(|u| u[0]).collect(), moments, reactions, ribs: Vec::new() }
}

/// Nearest point of a mesh.
pub(super) fn nearest(points: &[P2], p: P2) -> Option<usize> {
    let distance = |k: &usize| (points[*k] - p).norm_squared();
    (0..points.len()).min_by(|a, b| distance(a).total_cmp(&distance(b)))
}
