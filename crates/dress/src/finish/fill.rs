//! Where the courses of two corners meet, cut bricks close the gap (common practice, no source: a 'broken bond' is kept in
//! the middle of the wall), so that joints keep as far apart from those above and below as they can.

/// Most bricks that may be taken away again at each end to make room.
const BACK: usize = 2;
/// Shortest brick that is laid, in modules: a quarter closer.
const SHORTEST: f64 = 0.25;
/// Rounding, in modules.
const EVEN: f64 = 1e-9;
/// The lap of the bonds, in modules; more is not asked for.
const LAP: f64 = 0.25;

/// Places of a course from both ends; those from the right run from the end towards the middle.
pub(crate) struct Ends {
    pub(crate) from_left: Vec<f64>,
    pub(crate) from_right: Vec<f64>,
}

impl Ends {
    /// Ways to close the middle: all places of the course, and how many bricks are cut.
    fn ways(&self) -> Vec<(Vec<f64>, usize)> {
        let mut ways = Vec::new();
        for taken in 0..=BACK {
            for given in 0..=BACK {
                let (Some(left), Some(right)) = (kept(&self.from_left, taken), kept(&self.from_right, given)) else {
                    continue;
                };
                let (from, to) = (left[left.len() - 1], right[right.len() - 1]);
                for cuts in closers(to - from) {
                    let middle = cuts.iter().map(|share| from + share);
                    let places = left.iter().copied().chain(middle).chain(right.iter().rev().copied());
                    ways.push((places.collect(), cuts.len()));
                }
            }
        }
        ways
    }
}

/// The first places, without the last few; never without the corner itself.
fn kept(places: &[f64], taken: usize) -> Option<&[f64]> {
    let count = places.len().checked_sub(taken)?;
    (count > 0).then(|| &places[..count])
}

/// Places of the joints within a gap that is closed with up to three bricks; empty lists close it with one.
fn closers(gap: f64) -> Vec<Vec<f64>> {
    let fits = |length: f64| (SHORTEST - EVEN..=1.0 + EVEN).contains(&length);
    let mut found = Vec::new();
    if fits(gap) {
        found.push(Vec::new());
    }
    for first in [1.0, 0.75, 0.5, gap / 2.0] {
        if fits(first) && fits(gap - first) {
            found.push(vec![first]);
        }
        for second in [1.0, 0.75, 0.5, (gap - first) / 2.0] {
            if fits(first) && fits(second) && fits(gap - first - second) {
                found.push(vec![first, first + second]);
            }
        }
    }
    found
}

/// Both kinds of courses, closed so that their joints lap as well as they can, with as few cuts as that allows.
pub(crate) fn fill(even: &Ends, odd: &Ends) -> [Vec<f64>; 2] {
    let mut best: Option<(f64, usize, [Vec<f64>; 2])> = None;
    let odd_ways = odd.ways();
    for (a, a_cuts) in even.ways() {
        for (b, b_cuts) in &odd_ways {
            let lap = lap(&a, b).min(LAP);
            let cuts = a_cuts + b_cuts;
            let better = best
                .as_ref()
                .is_none_or(|(most, fewest, _)| lap > most + EVEN || (lap > most - EVEN && cuts < *fewest));
            if better {
                best = Some((lap, cuts, [a.clone(), b.clone()]));
            }
        }
    }
    best.map_or_else(|| [one_brick(even), one_brick(odd)], |(_, _, places)| places)
}

/// A wall that no bond fits into: one brick from end to end.
fn one_brick(ends: &Ends) -> Vec<f64> {
    vec![0.0, ends.from_right.first().copied().unwrap_or(0.0)]
}

/// The least distance between joints of two courses; corners of the wall do not count.
pub(crate) fn lap(a: &[f64], b: &[f64]) -> f64 {
    let inner = |places: &[f64]| places.get(1..places.len().saturating_sub(1)).unwrap_or_default().to_vec();
    let (a, b) = (inner(a), inner(b));
    let mut least = f64::INFINITY;
    let mut k = 0;
    for x in a {
        while k + 1 < b.len() && b[k + 1] <= x {
            k += 1;
        }
        for y in b.iter().skip(k).take(2) {
            least = least.min((x - y).abs());
        }
    }
    least
}
