//! A piece cut into slices along a direction: what is left of it at each place, and how a beam of such slices bends.

use crate::weights::through;
use gable_plane::{P2, V2};
use gable_shell::Piece;

/// Slices of a piece: the closed form of a beam is met within 0.1 % for rectangles.
const SLICES: usize = 200;

/// A piece as a beam along a direction.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Slices {
    /// Which way, a unit direction in the piece.
    pub(crate) along: V2,
    /// Where the first slice begins, along it, mm.
    pub(crate) low: f64,
    /// Length of one slice, mm.
    pub(crate) step: f64,
    /// Per slice the stretches of biscuit across it at its middle, mm.
    pub(crate) across: Vec<Vec<(f64, f64)>>,
}

impl Slices {
    /// Cuts a piece; nothing if it has no length that way.
    pub(crate) fn of(piece: &Piece, along: V2) -> Option<Self> {
        let rings: Vec<Vec<P2>> = std::iter::once(piece.outline.clone()).chain(through(piece)).collect();
        Self::of_rings(&rings, along)
    }

    pub(crate) fn of_rings(rings: &[Vec<P2>], along: V2) -> Option<Self> {
        let reach = rings.first()?.iter().map(|p| p.coords.dot(&along));
        let (low, high) = reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), s| (l.min(s), h.max(s)));
        let step = (high - low) / SLICES as f64;
        if !(step.is_finite() && step > 1e-6) {
            return None;
        }
        let middle = |k: usize| low + (k as f64 + 0.5) * step;
        let across = (0..SLICES).map(|k| stretches(rings, &along, middle(k))).collect();
        Some(Self { along, low, step, across })
    }

    /// How long it is, mm.
    pub(crate) fn length(&self) -> f64 {
        self.step * self.across.len() as f64
    }

    /// Biscuit across each slice, mm.
    pub(crate) fn widths(&self) -> impl Iterator<Item = f64> + '_ {
        self.across.iter().map(|all| all.iter().map(|(a, b)| b - a).sum())
    }

    /// The middle of the biscuit of a slice, in the piece.
    pub(crate) fn place(&self, slice: usize) -> P2 {
        let s = self.low + (slice as f64 + 0.5) * self.step;
        let side = V2::new(-self.along.y, self.along.x);
        let all = &self.across[slice];
        let widest = all.iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
        P2::from(self.along * s + side * widest.map_or(0.0, |(a, b)| (a + b) / 2.0))
    }

    /// Bending moment in the middle of each slice, N mm, under a weight of so many N for each mm² of biscuit, resting on its two
    /// ends.
    pub(crate) fn on_ends(&self, weight: f64) -> Vec<f64> {
        let loads: Vec<f64> = self.widths().map(|w| w * self.step * weight).collect();
        let at = |k: usize| (k as f64 + 0.5) * self.step;
        let far: f64 = loads.iter().enumerate().map(|(k, load)| load * at(k)).sum::<f64>() / self.length();
        let near = loads.iter().sum::<f64>() - far;
        let mut moments = Vec::with_capacity(loads.len());
        // What has been passed, and its moment about the start.
        let (mut passed, mut turned) = (0.0, 0.0);
        for (k, load) in loads.iter().enumerate() {
            // Of its own slice half lies before the middle, a quarter of a step away.
            let own = load / 2.0 * self.step / 4.0;
            moments.push(near * at(k) - (passed * at(k) - turned) - own);
            passed += load;
            turned += load * at(k);
        }
        moments
    }

    /// The same, resting on its two ends and on a hand under its middle: each half as if it were cut there, and over the hand what the worse
    /// half is asked, as in a beam of two even spans (q l² / 8 in both).
    pub(crate) fn on_three(&self, weight: f64) -> Vec<f64> {
        let middle = self.across.len() / 2;
        let half = |across: &[Vec<(f64, f64)>]| Self { across: across.to_vec(), ..self.clone() }.on_ends(weight);
        let mut moments = half(&self.across[..middle]);
        moments.extend(half(&self.across[middle..]));
        let worst = moments.iter().copied().fold(0.0, f64::max);
        for k in [middle.saturating_sub(1), middle] {
            if let Some(own) = moments.get_mut(k) {
                *own = worst;
            }
        }
        moments
    }

    /// The same, resting on a blade of a width under its middle: both ends hang over.
    pub(crate) fn on_blade(&self, weight: f64, blade: f64) -> Vec<f64> {
        let loads: Vec<f64> = self.widths().map(|w| w * self.step * weight).collect();
        let (half, edge) = (self.length() / 2.0, ((self.length() - blade) / 2.0).max(0.0));
        let at = |k: usize| (k as f64 + 0.5) * self.step;
        let hangs = |k: usize, others: &mut dyn Iterator<Item = usize>| -> f64 {
            let own = loads[k] / 2.0 * self.step / 4.0;
            own + others.map(|o| loads[o] * (at(o) - at(k)).abs()).sum::<f64>()
        };
        let moment = |k: usize| {
            let from_end = half - (at(k) - half).abs();
            if from_end > edge + self.step / 2.0 {
                0.0
            } else if at(k) < half {
                hangs(k, &mut (0..k))
            } else {
                hangs(k, &mut (k + 1..loads.len()))
            }
        };
        (0..loads.len()).map(moment).collect()
    }
}

/// The stretches of biscuit on a line square to a direction: between crossings of the rims, by pairs.
fn stretches(rings: &[Vec<P2>], along: &V2, at: f64) -> Vec<(f64, f64)> {
    let side = V2::new(-along.y, along.x);
    let mut crossed: Vec<f64> = Vec::new();
    for ring in rings {
        for (k, a) in ring.iter().enumerate() {
            let b = &ring[(k + 1) % ring.len()];
            let (from, to) = (a.coords.dot(along) - at, b.coords.dot(along) - at);
            if (from > 0.0) != (to > 0.0) {
                let p = a + (b - a) * (from / (from - to));
                crossed.push(p.coords.dot(&side));
            }
        }
    }
    crossed.sort_by(f64::total_cmp);
    crossed.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect()
}
