//! Two test biscuits: a long strip, and one with a hole. What they say is used from then on.

use crate::Mass;
use gable_measure::Length;
use gable_shell::{DoughId, House};
use gable_words::tr;

/// What was measured of two biscuits of one dough, baked as the house will be.
#[derive(Clone, Debug, PartialEq)]
pub struct TestBiscuits {
    /// Which dough of the house.
    pub dough: String,
    /// How thick it was rolled.
    pub rolled: Length,
    /// How thick the biscuit is.
    pub baked: Length,
    /// Length of the strip as it was cut.
    pub strip_cut: Length,
    /// Length of the strip as it came out.
    pub strip_baked: Length,
    /// Width of the hole as it was cut; the same way as the strip was rolled.
    pub hole_cut: Length,
    /// Width of the hole as it came out.
    pub hole_baked: Length,
    /// Mass of both before they were baked; nothing if they were not weighed.
    pub before: Option<Mass>,
    /// Mass of both afterwards.
    pub after: Option<Mass>,
    /// Minutes in the oven.
    pub minutes: Option<f64>,
}

/// What two test biscuits say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// Baked over rolled thickness.
    pub rise: f64,
    /// Growth in proportion, as a share; below 0 where dough shrinks.
    pub share: f64,
    /// Growth at each edge beyond that.
    pub edge: Length,
    /// Share of its mass that the dough lost.
    pub loss: Option<f64>,
}

/// Why measures of test biscuits or strips cannot be right.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{test}: {what}; {remedy}")]
pub struct Unlikely {
    test: &'static str,
    what: String,
    remedy: &'static str,
}

/// The shortest strip of which a ruler tells the growth.
const SHORTEST_STRIP: Length = Length::mm_of(60.0);
/// Dough that grows or shrinks by more was not measured right.
const MOST_SPREAD: f64 = 0.25;

impl TestBiscuits {
    /// Length of the strip that the page in the pack asks for, and width of the hole.
    pub const STRIP: Length = Length::mm_of(150.0);
    /// Width of the hole.
    pub const HOLE: Length = Length::mm_of(40.0);

    /// Works out rise, spread and loss.
    ///
    /// A strip of length L grows to L (1 + s) + 2 e, a hole of width D in the same dough closes to D (1 + s) - 2 e, because
    /// its edges are edges too. Added up, s = (L' + D') / (L + D) - 1; then e follows from the strip.
    ///
    /// # Errors
    /// When a measure is none, or so far off that it was hardly measured right.
    pub fn judge(&self) -> Result<Found, Unlikely> {
        let positive = |length: Length, what: &str| {
            if length.mm() > 0.0 && length.mm() < 2000.0 {
                return Ok(length.mm());
            }
            Err(unlikely(tr!("{what} is missing or no length that a tray holds"), tr!("measure it again")))
        };
        let rolled = positive(self.rolled, tr!("the thickness of the dough"))?;
        let baked = positive(self.baked, tr!("the thickness of the biscuit"))?;
        let strip =
            [positive(self.strip_cut, tr!("the cut strip"))?, positive(self.strip_baked, tr!("the baked strip"))?];
        let hole = [positive(self.hole_cut, tr!("the cut hole"))?, positive(self.hole_baked, tr!("the baked hole"))?];
        if strip[0] < SHORTEST_STRIP.mm() || strip[0] <= hole[0] {
            return Err(unlikely(
                tr!("the strip is too short to tell its growth").to_owned(),
                tr!("cut one of 60 mm at least, and longer than the hole is wide"),
            ));
        }
        let share = (strip[1] + hole[1]) / (strip[0] + hole[0]) - 1.0;
        let edge = (strip[1] - strip[0] * (1.0 + share)) / 2.0;
        let rise = baked / rolled;
        if share.abs() > MOST_SPREAD || !(0.5..=4.0).contains(&rise) {
            return Err(unlikely(
                tr!("dough does not grow so much").to_owned(),
                tr!("measure cut and baked sizes again, all in one unit"),
            ));
        }
        Ok(Found { rise, share, edge: Length::mm_of(edge), loss: self.loss()? })
    }

    fn loss(&self) -> Result<Option<f64>, Unlikely> {
        let (Some(before), Some(after)) = (self.before, self.after) else { return Ok(None) };
        let loss = 1.0 - after / before;
        if before > Mass::ZERO && (0.0..0.5).contains(&loss) {
            return Ok(Some(loss));
        }
        Err(unlikely(tr!("a biscuit loses up to half its mass, and never gains").to_owned(), tr!("weigh them again")))
    }

    /// Takes the rise that was found into a house; whether there was a dough of that name.
    pub fn set_rise(&self, found: &Found, house: &mut House) -> bool {
        let id = DoughId(self.dough.clone());
        let dough = house.doughs.iter_mut().find(|d| d.id == id);
        dough.map(|d| d.rise = found.rise).is_some()
    }
}

fn unlikely(what: String, remedy: &'static str) -> Unlikely {
    Unlikely::of(tr!("test biscuits"), what, remedy)
}

impl Unlikely {
    pub(crate) fn of(test: &'static str, what: String, remedy: &'static str) -> Self {
        Self { test, what, remedy }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_shell::demo;

    fn biscuits(share: f64, edge: f64) -> TestBiscuits {
        let mm = Length::mm_of;
        TestBiscuits {
            dough: "walls".to_owned(),
            rolled: mm(6.0),
            baked: mm(7.8),
            strip_cut: mm(200.0),
            strip_baked: mm(200.0 * (1.0 + share) + 2.0 * edge),
            hole_cut: mm(40.0),
            hole_baked: mm(40.0 * (1.0 + share) - 2.0 * edge),
            before: Some(Mass::grams(150.0)),
            after: Some(Mass::grams(132.0)),
            minutes: Some(15.0),
        }
    }

    /// Made to grow by known amounts, the biscuits say just those.
    #[test]
    fn biscuits_that_grew_by_known_amounts_say_so() {
        for (share, edge) in [(0.0, 0.0), (0.02, 0.8), (-0.01, 0.5), (0.05, -0.2)] {
            let found = biscuits(share, edge).judge().unwrap();
            assert!((found.share - share).abs() < 1e-12 && (found.edge.mm() - edge).abs() < 1e-9, "{found:?}");
            assert!((found.rise - 1.3).abs() < 1e-12 && (found.loss.unwrap() - 0.12).abs() < 1e-12);
        }
    }

    #[test]
    fn what_was_hardly_measured_right_is_refused() {
        let wrong = |change: fn(&mut TestBiscuits)| {
            let mut test = biscuits(0.02, 0.8);
            change(&mut test);
            test.judge().unwrap_err().to_string()
        };
        assert!(wrong(|t| t.strip_baked = Length::inches(8.0) * 25.4).contains("no length that a tray holds"));
        assert!(wrong(|t| t.strip_baked = Length::mm_of(300.0)).contains("does not grow so much"));
        assert!(wrong(|t| t.strip_cut = Length::mm_of(30.0)).contains("60 mm at least"));
        assert!(wrong(|t| t.hole_cut = Length::mm_of(200.0)).contains("longer than the hole is wide"));
        assert!(wrong(|t| t.baked = Length::mm_of(f64::NAN)).contains("the thickness of the biscuit"));
        assert!(wrong(|t| t.after = Some(Mass::grams(160.0))).contains("weigh them again"));
    }

    #[test]
    fn the_rise_goes_into_the_dough_of_that_name() {
        let mut house = demo::house("boat-hut").unwrap();
        let test = biscuits(0.0, 0.0);
        let found = test.judge().unwrap();
        assert!(test.set_rise(&found, &mut house));
        assert!(house.doughs.iter().any(|d| d.id.0 == "walls" && d.rise == found.rise));
        assert!(!TestBiscuits { dough: "none".to_owned(), ..test }.set_rise(&found, &mut house));
    }
}
