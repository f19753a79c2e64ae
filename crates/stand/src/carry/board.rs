//! How far the base board sags, held at two edges.

use crate::Range;
use crate::stuff::GRAVITY;
use gable_bake::Basis;
use gable_words::mark;

/// Points along a board at which it is worked out.
const POINTS: usize = 400;
/// Plaster on a ceiling cracks when it is bent by more than this share of its span (building codes allow 1/360 for ceilings of plaster:
/// IBC table 1604.3, from memory); cured icing is taken to be as brittle.
pub(crate) const CRACKS: f64 = 1.0 / 360.0;

/// A kind of board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoardKind {
    /// Its name for people.
    pub name: &'static str,
    /// Stable word.
    pub word: &'static str,
    /// How thick it is, mm.
    pub thickness: f64,
    /// Young's modulus in bending, N/mm².
    pub modulus: Range,
    /// Mass, g/cm³.
    pub density: f64,
    /// How well that is founded.
    pub basis: Basis,
}

/// Boards as they are bought, the flimsiest first. Stiffness and mass from memory: of MDF near what EN 622-5 asks for, of plywood near what is
/// sold as birch or poplar, of card a guess.
pub const BOARDS: [BoardKind; 6] = [
    board(mark!("cake card, 12 mm"), "card-12", 12.0, (80.0, 250.0, 600.0), 0.35),
    board(mark!("MDF, 6 mm"), "mdf-6", 6.0, (2000.0, 2700.0, 3500.0), 0.75),
    board(mark!("MDF, 9 mm"), "mdf-9", 9.0, (2000.0, 2500.0, 3500.0), 0.75),
    board(mark!("plywood, 9 mm"), "plywood-9", 9.0, (3000.0, 5000.0, 8000.0), 0.6),
    board(mark!("MDF, 12 mm"), "mdf-12", 12.0, (2000.0, 2500.0, 3500.0), 0.75),
    board(mark!("MDF, 18 mm"), "mdf-18", 18.0, (1800.0, 2200.0, 3200.0), 0.72),
];

const fn board(
    name: &'static str,
    word: &'static str,
    thickness: f64,
    (low, usual, high): (f64, f64, f64),
    density: f64,
) -> BoardKind {
    BoardKind { name, word, thickness, modulus: Range { low, usual, high }, density, basis: Basis::Memory }
}

/// What lies on a board: a mass spread between two places along it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spread {
    pub(crate) grams: f64,
    pub(crate) from: f64,
    pub(crate) to: f64,
}

/// How far a board sags.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sag {
    /// At its lowest, mm.
    pub most: Range,
    /// What of that bends the stretch under the house: how far it lies off the straight line between its ends, mm.
    pub under_house: Range,
}

/// A board held along two opposite edges, a span apart, its own mass in g, with the house on it.
///
/// A beam on two supports: bending moments from the loads, curvature `M / E I`, integrated twice.
pub(crate) fn sag(span: f64, width: f64, kind: &BoardKind, house: Spread) -> Sag {
    let step = span / POINTS as f64;
    let own = kind.density / 1000.0 * kind.thickness * width;
    let newton = |k: usize| {
        let (from, to) = (k as f64 * step, (k + 1) as f64 * step);
        let shared = (to.min(house.to) - from.max(house.from)).max(0.0);
        (own * step + house.grams * shared / (house.to - house.from).max(1e-9)) * GRAVITY / 1000.0
    };
    let loads: Vec<f64> = (0..POINTS).map(newton).collect();
    let moments = moments(&loads, step);
    let stiff = width * kind.thickness.powi(3) / 12.0;
    let shape = deflection(&moments, step);
    let most = shape.iter().copied().fold(0.0, f64::max);
    let bent = off_chord(&shape, house.from / step, house.to / step);
    // The softest board sags most.
    let of = |value: f64| Range::exactly(value / stiff) / kind.modulus;
    Sag { most: of(most), under_house: of(bent) }
}

/// Bending moments at the ends of the slices, on two supports.
fn moments(loads: &[f64], step: f64) -> Vec<f64> {
    let span = step * loads.len() as f64;
    let middle = |k: usize| (k as f64 + 0.5) * step;
    let far: f64 = loads.iter().enumerate().map(|(k, load)| load * middle(k)).sum::<f64>() / span;
    let near = loads.iter().sum::<f64>() - far;
    let mut found = vec![0.0];
    let (mut passed, mut turned) = (0.0, 0.0);
    for (k, load) in loads.iter().enumerate() {
        passed += load;
        turned += load * middle(k);
        let at = (k + 1) as f64 * step;
        found.push(near * at - (passed * at - turned));
    }
    found
}

/// Deflection times `E I` at the same places: the moment-area method.
fn deflection(moments: &[f64], step: f64) -> Vec<f64> {
    let (mut slope, mut down) = (vec![0.0], vec![0.0]);
    for pair in moments.windows(2) {
        let (bend, last) = ((pair[0] + pair[1]) / 2.0 * step, slope[slope.len() - 1]);
        // Within a slice the slope changes along a straight line of moments.
        down.push(down[down.len() - 1] + last * step + (2.0 * pair[0] + pair[1]) / 6.0 * step * step);
        slope.push(last + bend);
    }
    let end = down[down.len() - 1];
    let count = (down.len() - 1) as f64;
    down.iter().enumerate().map(|(k, y)| end * k as f64 / count - y).collect()
}

/// How far a stretch of a curve lies off the line between its ends; places count in steps.
fn off_chord(shape: &[f64], from: f64, to: f64) -> f64 {
    let at = |x: f64| {
        let x = x.clamp(0.0, (shape.len() - 1) as f64);
        let k = (x.floor() as usize).min(shape.len() - 2);
        shape[k] + (shape[k + 1] - shape[k]) * (x - k as f64)
    };
    if to - from < 1e-9 {
        return 0.0;
    }
    let (a, b) = (at(from), at(to));
    let off = |n: usize| {
        let share = n as f64 / 100.0;
        (at(from + (to - from) * share) - (a + (b - a) * share)).abs()
    };
    (0..=100).map(off).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLANK: BoardKind = board("plank", "plank", 10.0, (2000.0, 2500.0, 4000.0), 0.0);

    fn assert_close(a: f64, b: f64) {
        assert!((a - b).abs() <= 1e-3 * b, "{a} is not {b}");
    }

    /// `5 w L⁴ / 384 E I` under an even load (beam tables).
    #[test]
    fn a_board_sags_as_a_beam_under_an_even_load() {
        let sag = sag(400.0, 300.0, &PLANK, Spread { grams: 3000.0, from: 0.0, to: 400.0 });
        let stiff = 300.0 * 1000.0 / 12.0;
        let w = 3.0 * GRAVITY / 400.0;
        assert_close(sag.most.usual, 5.0 * w * 400f64.powi(4) / (384.0 * 2500.0 * stiff));
        assert_close(sag.most.high, 5.0 * w * 400f64.powi(4) / (384.0 * 2000.0 * stiff));
        assert_close(sag.under_house.usual, sag.most.usual);
    }

    /// `P L³ / 48 E I` under a load in the middle (beam tables): the house stands on a narrow foot.
    #[test]
    fn a_board_sags_as_a_beam_under_a_load_in_the_middle() {
        let sag = sag(400.0, 300.0, &PLANK, Spread { grams: 2000.0, from: 199.0, to: 201.0 });
        let stiff = 300.0 * 1000.0 / 12.0;
        assert_close(sag.most.usual, 2.0 * GRAVITY * 400f64.powi(3) / (48.0 * 2500.0 * stiff));
        assert!(sag.under_house.usual < sag.most.usual / 100.0);
    }

    /// Its own mass counts as a load, and twice the thickness with the same mass sags an eighth.
    #[test]
    fn a_thicker_board_sags_less() {
        let empty = Spread { grams: 0.0, from: 0.0, to: 400.0 };
        let heavy = BoardKind { density: 0.75, ..PLANK };
        let thick = BoardKind { density: 0.375, thickness: 20.0, ..PLANK };
        assert_close(sag(400.0, 300.0, &heavy, empty).most.usual, 8.0 * sag(400.0, 300.0, &thick, empty).most.usual);
        let w = 0.75e-3 * 10.0 * 300.0 * GRAVITY / 1000.0;
        assert_close(
            sag(400.0, 300.0, &heavy, empty).most.usual,
            5.0 * w * 400f64.powi(4) / (384.0 * 2500.0 * 25000.0),
        );
    }

    #[test]
    fn boards_have_words_of_their_own() {
        let words: std::collections::BTreeSet<_> = BOARDS.iter().map(|b| b.word).collect();
        assert_eq!(words.len(), BOARDS.len());
    }
}
