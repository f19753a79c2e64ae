use super::Noted;
use crate::file::fault::Fault;
use crate::file::limits;
use crate::file::read::too_many;
use gable_measure::{Angle, Length, Pitch, Unit, tidy};
use gable_words::tr;

/// Notes faults of single values, in the words of the house's unit.
pub(super) struct Sizes {
    unit: Unit,
    pub(super) noted: Vec<Noted>,
}

impl Sizes {
    pub(super) fn new(unit: Unit) -> Self {
        Self { unit, noted: Vec::new() }
    }

    pub(super) fn note(&mut self, path: &str, what: String, hint: &str) {
        self.note_resting(path, what, hint, &[]);
    }

    /// A fault that means nothing if one of the other places is faulty too.
    pub(super) fn note_resting(&mut self, path: &str, what: String, hint: &str, rests_on: &[String]) {
        let fault = Fault::new(path, what, hint);
        self.noted.push(Noted { fault, rests_on: rests_on.to_vec(), rests_on_names: false });
    }

    /// A fault that means nothing while there are parts whose names cannot be read.
    pub(super) fn note_name(&mut self, path: &str, what: String, hint: &str) {
        self.noted.push(Noted { fault: Fault::new(path, what, hint), rests_on: vec![], rests_on_names: true });
    }

    /// A length between two bounds, both allowed.
    pub(super) fn check(&mut self, path: &str, length: Length, least: Length, most: Length) {
        let shown = self.shown(length);
        let (what, hint) = if !length.is_finite() {
            (tr!("this is not a number").to_owned(), "")
        } else if length < least && least == Length::ZERO {
            (tr!("{shown} is below zero"), "")
        } else if length < least {
            (tr!("{shown} is less than {}", self.bound(least)), "")
        } else if length > most {
            let hint = if most >= limits::LARGEST_PART { tr!("is the unit right?") } else { "" };
            (tr!("{shown} is more than {}", self.bound(most)), hint)
        } else {
            return;
        };
        self.note_resting(path, what, hint, &["unit".to_owned()]);
    }

    /// A whole number between two bounds, both allowed.
    pub(super) fn count(&mut self, path: &str, count: u8, least: u8, most: u8) {
        if count < least {
            self.note(path, tr!("{count} is less than {least}"), "");
        } else if count > most {
            // Numbers too large for the model come as its largest.
            self.note(path, tr!("it is more than {most}"), "");
        }
    }

    /// A list that a file can hold.
    pub(super) fn list(&mut self, path: &str, length: usize, most: usize) {
        if length > most {
            self.note(path, too_many(length, most), "");
        }
    }

    pub(super) fn rise(&mut self, path: &str, rise: f64) {
        let what = if !rise.is_finite() {
            tr!("this is not a number").to_owned()
        } else if rise < limits::LEAST_RISE {
            tr!("{} is less than {}", tidy(rise), limits::LEAST_RISE)
        } else if rise > limits::MOST_RISE {
            tr!("{} is more than {}", tidy(rise), limits::MOST_RISE)
        } else {
            return;
        };
        self.note(path, what, tr!("it is the baked thickness over the rolled one; bake a test biscuit and measure"));
    }

    /// A slope; how steep a ridge height makes it is only known when the roof is worked out.
    pub(super) fn pitch(&mut self, path: &str, pitch: Pitch) {
        let (angle, shown) = match pitch {
            Pitch::Angle(angle) => (angle, tidy(angle.deg()).to_string()),
            Pitch::RiseInRun { rise, run } => {
                let angle = if rise > 0.0 && run > 0.0 { Angle::of_slope(rise, run) } else { Angle::degrees(f64::NAN) };
                (angle, tr!("{} ({:.1} degrees)", pitch.print(self.unit), angle.deg()))
            }
            Pitch::RidgeHeight(height) => {
                return self.check(path, height, limits::SMALLEST_PART, limits::LARGEST_PART);
            }
        };
        let (flattest, steepest) = (limits::FLATTEST_PITCH.deg(), limits::STEEPEST_PITCH.deg());
        let degrees = tidy(angle.deg());
        if !degrees.is_finite() {
            self.note(path, tr!("this is not a slope").to_owned(), tr!("give degrees, or a rise and a run above zero"));
        } else if degrees > steepest {
            self.note(path, tr!("{shown} is steeper than {steepest} degrees"), "");
        } else if degrees < flattest {
            self.note(path, tr!("{shown} is flatter than {flattest} degrees"), tr!("a flat roof is a lid"));
        }
    }

    pub(super) fn turn(&mut self, path: &str, angle: Angle) {
        let most = gable_measure::LARGEST_ANGLE.deg();
        let inside = angle.deg().abs() <= most;
        if !inside {
            self.note(path, tr!("{} is more than a full turn", tidy(angle.deg())), "");
        }
    }

    /// Lower-case words joined by hyphens: safe in file names, and the same on every keyboard.
    pub(super) fn id(&mut self, path: &str, id: &str) {
        let word = |w: &str| !w.is_empty() && w.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit());
        let hint = tr!("use lower-case letters a to z and figures, joined by hyphens, such as north-wing");
        if id.is_empty() {
            self.note(path, tr!("it is empty").to_owned(), hint);
        } else if id.len() > limits::LONGEST_ID {
            self.note(path, tr!("it is longer than {} characters", limits::LONGEST_ID), "");
        } else if !id.split('-').all(word) {
            self.note(path, tr!("\"{}\" is not an id", crate::file::read::shown(id)), hint);
        }
    }

    /// One line of text.
    pub(super) fn line(&mut self, path: &str, text: &str) {
        self.text(path, text, limits::LONGEST_LINE, &[]);
    }

    pub(super) fn text(&mut self, path: &str, text: &str, most: usize, allowed: &[char]) {
        if text.chars().count() > most {
            self.note(path, tr!("it is longer than {most} characters"), "");
        } else if text.chars().any(|c| c.is_control() && !allowed.contains(&c)) {
            self.note(path, tr!("it has a line break or another control character").to_owned(), tr!("take it away"));
        }
    }

    /// A length as it would be written.
    pub(super) fn shown(&self, length: Length) -> String {
        crate::file::figure::Figure::of(length, self.unit).words(self.unit)
    }

    /// A bound: in millimetres, and about what that is in the house's unit.
    fn bound(&self, bound: Length) -> String {
        let mm = Unit::Millimetre.print(bound);
        match self.unit {
            Unit::Millimetre => mm,
            unit @ Unit::Inch(_) => tr!("{mm} (about {})", unit.print(bound)),
        }
    }
}
