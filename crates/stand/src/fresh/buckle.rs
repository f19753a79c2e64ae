//! How high a wall can stand by itself before it buckles under its own weight.

use crate::Range;
use crate::stuff::GRAVITY;

/// The height at which a free-standing plate buckles under its own weight, mm: `(7.84 E I / (ρ g A))^(1/3)` with
/// `I / A = t² / 12` (A. G. Greenhill, 1881; the formula as told by T. Jones, 'Musings on structural gingerbread', 2013).
///
/// `modulus` in N/mm², `thickness` in mm, `mass` in g for each mm² of wall.
pub fn critical_height(modulus: Range, thickness: f64, mass: f64) -> Range {
    let newton = mass * GRAVITY / 1000.0;
    modulus.map(|e| (BUCKLES * e * thickness.powi(3) / 12.0 / newton).cbrt())
}

/// The square of 1.8663, the first zero of the Bessel function J₋₁⸝₃, times 9/4: `9 j² / 4`.
const BUCKLES: f64 = 7.837;
