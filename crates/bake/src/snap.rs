//! The snap test: strips of biscuit laid over two edges and loaded in the middle until they break. What they carried takes the
//! place of values from memory.

use crate::{Mass, Unlikely};
use gable_measure::Length;
use gable_words::tr;

/// Strips of one dough, baked as the house will be, and broken.
#[derive(Clone, Debug, PartialEq)]
pub struct SnapTest {
    /// Which dough of the house.
    pub dough: String,
    /// Distance of the two edges that the strips lay on.
    pub span: Length,
    /// The strips.
    pub strips: Vec<Strip>,
}

/// One strip that was broken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Its width, along the edges that it lay on.
    pub width: Length,
    /// Its thickness.
    pub thickness: Length,
    /// What hung from its middle when it broke, bag or bucket included.
    pub broke_at: Mass,
    /// A smaller load, and how far the middle went down under it; nothing if that was not measured.
    pub sag: Option<(Mass, Length)>,
}

/// What several strips said: the least to be expected, the mean, and the most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// The lowest of the strips, or mean - 1.64 s if that is lower.
    pub low: f64,
    /// Their mean.
    pub mean: f64,
    /// The highest of the strips, or mean + 1.64 s if that is higher.
    pub high: f64,
}

/// What a snap test says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Snapped {
    /// Bending strength, MPa.
    pub strength: Spread,
    /// Stiffness (Young's modulus), MPa; nothing if the sag of no more than one strip was measured.
    pub stiffness: Option<Spread>,
}

/// Standard gravity, m/s² (3rd General Conference on Weights and Measures, 1901).
const GRAVITY: f64 = 9.806_65;
/// Shorter spans tell more of crushing than of bending; common practice, no source.
const LEAST_SPAN_IN_THICKNESSES: f64 = 5.0;
/// Strips that differ more, as a share of their mean, are hardly of one dough.
const MOST_SCATTER: f64 = 0.5;
/// Values of a normal distribution lie above mean - 1.64 s in 95 of 100 cases.
const NINETEEN_OF_TWENTY: f64 = 1.64;

impl Strip {
    /// Bending strength over a span L of a load F at the break, MPa: 3 F L / (2 b d²), a simple beam loaded in the middle. The
    /// strip's own weight is left out: some grams to kilograms.
    pub fn strength(&self, span: Length) -> f64 {
        let d = self.thickness.mm();
        3.0 * newtons(self.broke_at) * span.mm() / (2.0 * self.width.mm() * d * d)
    }

    /// Stiffness over a span L of a load F and the sag δ, MPa: F L³ / (4 b d³ δ).
    pub fn stiffness(&self, span: Length) -> Option<f64> {
        let (load, sag) = self.sag?;
        Some(newtons(load) * span.mm().powi(3) / (4.0 * self.width.mm() * self.thickness.mm().powi(3) * sag.mm()))
    }
}

fn unlikely(what: String, remedy: &'static str) -> Unlikely {
    Unlikely::of(tr!("snap test"), what, remedy)
}

fn newtons(mass: Mass) -> f64 {
    mass.g() / 1000.0 * GRAVITY
}

impl SnapTest {
    /// Strips that a test needs: fewer say little of the weakest that a house will meet.
    pub const STRIPS: usize = 5;
    /// Length of the strips that the page in the pack asks for.
    pub const LENGTH: Length = Length::mm_of(120.0);
    /// Width of the strips.
    pub const WIDTH: Length = Length::mm_of(40.0);
    /// Distance of the edges that they lie on.
    pub const SPAN: Length = Length::mm_of(100.0);

    /// Works out strength and stiffness with their spread.
    ///
    /// # Errors
    /// When there are fewer strips than [`SnapTest::STRIPS`], or a measure is none or so far off that it was hardly measured right.
    pub fn judge(&self) -> Result<Snapped, Unlikely> {
        if self.strips.len() < Self::STRIPS {
            let what = tr!("{n} strip says too little" | "{n} strips say too little" % self.strips.len());
            return Err(unlikely(what, tr!("break five or more of one dough")));
        }
        for (number, strip) in (1..).zip(&self.strips) {
            self.check(number, strip)?;
        }
        let strength = Spread::of("strength", &self.each(|s| Some(s.strength(self.span))))?;
        let sags = self.each(|s| s.stiffness(self.span));
        let stiffness = if sags.len() > 1 { Some(Spread::of("stiffness", &sags)?) } else { None };
        Ok(Snapped { strength, stiffness })
    }

    fn each(&self, value: impl Fn(&Strip) -> Option<f64>) -> Vec<f64> {
        self.strips.iter().filter_map(value).collect()
    }

    fn check(&self, number: usize, strip: &Strip) -> Result<(), Unlikely> {
        let wrong = |what: &str, remedy| Err(unlikely(tr!("strip {number}: {what}"), remedy));
        let [width, thick, span] = [strip.width, strip.thickness, self.span].map(Length::mm);
        // Comparisons that NaN fails too.
        if !(width > 0.0 && thick > 0.0 && width < 500.0 && thick < 100.0 && span > 0.0 && span < 1000.0) {
            return wrong(tr!("width, thickness or span is missing or no size of a strip"), tr!("measure it again"));
        }
        if span < LEAST_SPAN_IN_THICKNESSES * thick {
            return wrong(
                tr!("the edges are too near for so thick a strip"),
                tr!("lay strips over five thicknesses or more"),
            );
        }
        if !(strip.broke_at > Mass::ZERO && strip.broke_at < Mass::grams(100_000.0)) {
            return wrong(
                tr!("the load is missing or too great for biscuit"),
                tr!("weigh what hung from it, in grams"),
            );
        }
        match strip.sag {
            Some((load, sag)) if !(sag.mm() > 0.0 && sag.mm() < span / 4.0 && load > Mass::ZERO) => {
                wrong(tr!("the sag is no sag of a strip"), tr!("measure how far the middle went down, or leave it out"))
            }
            Some((load, _)) if load > strip.broke_at => {
                wrong(tr!("it sagged under more than it broke at"), tr!("give the sag under a smaller load"))
            }
            _ => Ok(()),
        }
    }
}

impl Spread {
    /// Of two values or more.
    fn of(what: &str, values: &[f64]) -> Result<Self, Unlikely> {
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let scatter = (values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (count - 1.0)).sqrt();
        if !scatter.is_finite() || scatter > MOST_SCATTER * mean {
            let what = tr!("the {what} of the strips differs by more than half");
            return Err(unlikely(what, tr!("measure again, or break more strips of one dough")));
        }
        let least = values.iter().copied().fold(mean - NINETEEN_OF_TWENTY * scatter, f64::min);
        let most = values.iter().copied().fold(mean + NINETEEN_OF_TWENTY * scatter, f64::max);
        Ok(Self { low: least, mean, high: most })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strips(loads: [f64; 5], sag: Option<f64>) -> SnapTest {
        let mm = Length::mm_of;
        let strip = |load: f64| Strip {
            width: mm(60.0),
            thickness: mm(6.0),
            broke_at: Mass::grams(load * 1000.0 / GRAVITY),
            sag: sag.map(|s| (Mass::grams(1000.0 / GRAVITY), mm(s))),
        };
        SnapTest { dough: "walls".to_owned(), span: mm(40.0), strips: loads.map(strip).to_vec() }
    }

    /// A strip of 60 × 6 mm over 40 mm that breaks at 10 to 40 N: 0.28 to 1.1 MPa (beam theory, worked by hand:
    /// 3 · 10 · 40 / (2 · 60 · 36) = 0.2778).
    #[test]
    fn strength_and_stiffness_are_those_of_a_beam() {
        let found = strips([10.0; 5], Some(0.01)).judge().unwrap();
        assert!((found.strength.mean - 0.27778).abs() < 1e-4 && found.strength.low == found.strength.high);
        assert!((strips([40.0; 5], None).judge().unwrap().strength.mean - 1.1111).abs() < 1e-4);
        // By hand: 1 · 40³ / (4 · 60 · 6³ · 0.01) = 123.46.
        assert!((found.stiffness.unwrap().mean - 123.457).abs() < 1e-3);
        assert_eq!(strips([10.0; 5], None).judge().unwrap().stiffness, None);
    }

    /// Loads 10, 12, 14, 16, 18: mean 14, s = √10 = 3.1623 (by hand), so mean - 1.64 s = 8.814 is lower than the lowest.
    #[test]
    fn the_spread_is_told_with_the_mean() {
        let found = strips([10.0, 12.0, 14.0, 16.0, 18.0], None).judge().unwrap().strength;
        let by_newton = 3.0 * 40.0 / (2.0 * 60.0 * 36.0);
        for (found, newtons) in [(found.low, 8.8139), (found.mean, 14.0), (found.high, 19.1861)] {
            assert!((found / by_newton - newtons).abs() < 1e-3, "{found} {newtons}");
        }
    }

    /// The middle of a strip over 40 mm may go down by a little less than a quarter of that.
    #[test]
    fn a_sag_is_believed_up_to_a_quarter_of_the_span() {
        let judged = |sag: f64| strips([10.0; 5], Some(sag)).judge();
        assert!(judged(9.9).is_ok() && judged(10.0).is_err());
    }

    /// Four strips that break at 1 N and one at x N scatter by √5 (x - 1) / (x + 4) of their mean (by hand), which is a half at
    /// x = 2.44.
    #[test]
    fn strips_may_scatter_by_half_of_their_mean() {
        let judged = |last: f64| strips([1.0, 1.0, 1.0, 1.0, last], None).judge();
        assert!(judged(2.43).is_ok() && judged(2.45).is_err());
    }

    /// A span of five thicknesses of 6 mm is 30 mm; one sag tells no spread, two do.
    #[test]
    fn what_is_just_enough_is_taken() {
        let over = |mm: f64| SnapTest { span: Length::mm_of(mm), ..strips([10.0; 5], None) }.judge();
        assert!(over(30.0).is_ok() && over(29.9).is_err());
        let sagged = |count: usize| {
            let mut test = strips([10.0; 5], Some(0.1));
            test.strips[count..].iter_mut().for_each(|strip| strip.sag = None);
            test.judge().unwrap().stiffness.is_some()
        };
        assert_eq!([0, 1, 2, 5].map(sagged), [false, false, true, true]);
    }

    #[test]
    fn what_was_hardly_measured_right_is_refused() {
        let wrong = |change: fn(&mut SnapTest)| {
            let mut test = strips([10.0, 12.0, 14.0, 16.0, 18.0], Some(0.1));
            change(&mut test);
            test.judge().unwrap_err().to_string()
        };
        assert!(wrong(|t| t.strips.truncate(4)).contains("4 strips say too little; break five or more"));
        assert!(wrong(|t| t.strips[1].width = Length::mm_of(f64::NAN)).contains("strip 2: width"));
        assert!(wrong(|t| t.strips[2].width = Length::mm_of(500.0)).contains("strip 3: width"));
        assert!(wrong(|t| t.span = Length::mm_of(20.0)).contains("five thicknesses"));
        let weighed = |t: &mut SnapTest| t.strips.iter_mut().for_each(|s| s.broke_at = Mass::grams(100_000.0));
        assert!(wrong(weighed).contains("strip 1: the load is missing or too great"));
        assert!(wrong(|t| t.strips[4].broke_at = Mass::ZERO).contains("strip 5: the load is missing"));
        assert!(wrong(|t| t.strips[0].broke_at = Mass::grams(20_000.0)).contains("differs by more than half"));
        assert!(wrong(|t| t.strips[0].sag = Some((Mass::grams(9000.0), Length::mm_of(1.0)))).contains("smaller load"));
        assert!(wrong(|t| t.strips[0].sag = Some((Mass::grams(90.0), Length::mm_of(11.0)))).contains("is no sag"));
    }
}
