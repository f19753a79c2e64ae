//! Biscuit in damp air.

use super::Stuff;
use crate::Range;

/// Biscuit that has come to rest with the air of a room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Softened {
    /// Share of strength and stiffness that is left.
    pub left: Range,
    /// Bending strength, MPa.
    pub strength: Range,
    /// Young's modulus, MPa.
    pub stiffness: Range,
}

impl Softened {
    /// At a humidity from 0 to 1: Y = Y_dry / (1 + exp((a - a_c) / k)). The form is Fermi's curve, published for crispness of low-moisture
    /// biscuits (Carter et al., J. Food Measurement, 2015, after Peleg, 1994); a_c and k are assumed.
    pub(super) fn of(stuff: &Stuff, humidity: f64) -> Self {
        let left = |at: f64, over: f64| 1.0 / (1.0 + ((humidity - at) / over.max(1e-6)).exp());
        let (at, over) = (stuff.soft_at.range, stuff.soft_over.range);
        // Below a_c a wider curve is the lower one, above it the higher: all corners are tried.
        let corners = [at.low, at.high].map(|at| [left(at, over.low), left(at, over.high)]);
        let least = corners.iter().flatten().copied().fold(f64::INFINITY, f64::min);
        let most = corners.iter().flatten().copied().fold(0.0, f64::max);
        let left = Range::new(least, left(at.usual, over.usual), most);
        Self { left, strength: stuff.strength.range * left, stiffness: stuff.stiffness.range * left }
    }
}
