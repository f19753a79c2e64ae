//! Walls that other walls hold along their sides: they buckle between them, as plates under a load from above.
//!
//! A slice of a wall is strips of biscuit between holds and openings, pressed evenly over what biscuit there is. A strip of breadth b buckles
//! at `k π² D / b²` for each mm, `D = E t³ / 12 (1 - ν²)`: k is 4 between two sides that are held and 0.425 with one free, the least for
//! strips of any height (S. Timoshenko and J. Gere, Theory of Elastic Stability, 2nd ed., articles 9.2 and 9.4; from memory). A strip beside
//! which nothing is held, such as between two doors, is a column as long as it stays so, held at both ends by the wall above and below: `π² E t³ / 12 h²`.
//! Sides are taken as free to slope, for icing is not trusted to be stiff. All that the wall weighs is taken as if it lay on every slice.

use crate::Range;
use crate::lift::Slices;
use gable_plane::{P3, V2};
use gable_shell::Piece;
use std::f64::consts::PI;

/// Between two held sides.
const BOTH: f64 = 4.0;
/// With one side free.
const ONE: f64 = 0.425;

/// A strip of a slice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Strip {
    /// Held at both sides; breadth in mm.
    Both(f64),
    /// Held at one side; breadth in mm.
    One(f64),
    /// Held at neither; for how much of the height it stays so, mm.
    Free(f64),
}

impl Strip {
    /// What a strip of a plate carries before it buckles, N for each mm of its breadth and for each N/mm² of stiffness.
    pub(super) fn carries(self, thickness: f64, narrowing: f64) -> f64 {
        let beam = PI * PI * thickness.powi(3) / 12.0;
        let plate = beam / (1.0 - narrowing * narrowing);
        match self {
            Self::Both(breadth) => BOTH * plate / (breadth * breadth),
            Self::One(breadth) => ONE * plate / (breadth * breadth),
            Self::Free(height) => beam / (height * height),
        }
    }
}

/// A wall between what holds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct HeldWall {
    /// The stiffness at which it would buckle, N/mm².
    asked: f64,
}

impl HeldWall {
    /// A piece held along lines of the house, under a load of so many N; nothing for one without height.
    pub(super) fn of(piece: &Piece, lines: &[[P3; 2]], load: f64, narrowing: f64) -> Option<Self> {
        let slices = Slices::of(piece, piece.up)?;
        let thickness = piece.thickness.mm();
        let holds: Vec<Hold> = lines.iter().map(|line| Hold::of(piece, *line)).collect();
        let asked = (0..slices.across.len()).map(|k| {
            let breadth: f64 = slices.across[k].iter().map(|(a, b)| b - a).sum();
            let press = load / breadth;
            let strips = strips(&slices, k, &holds, thickness);
            strips.map(|strip| press / strip.carries(thickness, narrowing)).fold(0.0, f64::max)
        });
        Some(Self { asked: asked.filter(|a| a.is_finite()).fold(0.0, f64::max) })
    }

    /// The share of what makes it buckle.
    pub(super) fn share(self, modulus: Range) -> Range {
        Range::exactly(self.asked) / modulus
    }
}

/// A line along which a wall is held: upright at a neighbour, sloping under a roof.
struct Hold {
    /// Up the wall and across it, mm; the lower end first.
    ends: [[f64; 2]; 2],
}

impl Hold {
    fn of(piece: &Piece, line: [P3; 2]) -> Self {
        let back = piece.house_from_piece.inverse();
        let (up, side) = (piece.up, V2::new(-piece.up.y, piece.up.x));
        let mut ends = line.map(|p| (back * p).xy().coords).map(|p| [p.dot(&up), p.dot(&side)]);
        ends.sort_by(|a, b| a[0].total_cmp(&b[0]));
        Self { ends }
    }

    /// Where it holds across the wall at a height, if it reaches there but for so much.
    fn at(&self, height: f64, near: f64) -> Option<f64> {
        let [[low, from], [high, to]] = self.ends;
        let share = ((height - low) / (high - low).max(near)).clamp(0.0, 1.0);
        (low - near..=high + near).contains(&height).then_some(from + (to - from) * share)
    }
}

/// The strips of a slice, cut where they are held.
fn strips<'a>(slices: &'a Slices, slice: usize, holds: &'a [Hold], thickness: f64) -> impl Iterator<Item = Strip> + 'a {
    let near = 1.5 * thickness;
    let holding = move |slice: usize, (from, to): (f64, f64)| {
        let at = slices.low + (slice as f64 + 0.5) * slices.step;
        let across = (from - near)..=(to + near);
        holds.iter().filter_map(move |h| h.at(at, near)).filter(move |x| across.contains(x))
    };
    // From one slice to the next such a strip goes on where both overlap.
    let goes_on = move |slice: usize, (from, to): (f64, f64)| {
        let over = slices.across[slice].iter().find(|(a, b)| *a < to && *b > from);
        over.is_some_and(|found| holding(slice, *found).next().is_none())
    };
    slices.across[slice].iter().flat_map(move |&(from, to)| {
        let mut at: Vec<f64> = holding(slice, (from, to)).map(|x| x.clamp(from, to)).collect();
        at.sort_by(f64::total_cmp);
        let (Some(first), Some(last)) = (at.first(), at.last()) else {
            let below = (0..slice).rev().take_while(|k| goes_on(*k, (from, to))).count();
            let above = (slice + 1..slices.across.len()).take_while(|k| goes_on(*k, (from, to))).count();
            return vec![Strip::Free((below + above + 1) as f64 * slices.step)];
        };
        let ends = [first - from, to - last].into_iter().filter(|b| *b > near).map(Strip::One);
        let between = at.windows(2).map(|pair| pair[1] - pair[0]).filter(|b| *b > near).map(Strip::Both);
        ends.chain(between).collect()
    })
}
