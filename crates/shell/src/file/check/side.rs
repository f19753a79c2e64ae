use super::floor;
use super::sizes::Sizes;
use crate::file::limits;
use crate::{Side, Top};
use gable_measure::{Length, Pitch};
use gable_words::tr;

pub(super) fn check(side: &Side, path: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{path}.{key}");
    floor::posts(side, &at("posts"), sizes);
    // A roof may start on the table where no wall is.
    let lowest = if side.wall { limits::SMALLEST_PART } else { Length::ZERO };
    let overhang = match side.top {
        Top::Eave { height, pitch, overhang } => {
            sizes.check(&at("height"), height, lowest, limits::LARGEST_PART);
            sizes.pitch(&at("pitch"), pitch);
            overhang
        }
        Top::HalfHip { start, pitch, overhang } => {
            sizes.check(&at("start"), start, lowest, limits::LARGEST_PART);
            sizes.pitch(&at("pitch"), pitch);
            overhang
        }
        Top::Knee { height, lower, knee, upper, overhang } => {
            sizes.check(&at("height"), height, lowest, limits::LARGEST_PART);
            sizes.check(&at("knee"), knee, limits::SMALLEST_PART, limits::LARGEST_PART);
            sizes.pitch(&at("lower"), lower);
            sizes.pitch(&at("upper"), upper);
            knee_above(height, knee, path, sizes);
            flatter_above(lower, upper, path, sizes);
            overhang
        }
        Top::Gable { overhang } => overhang,
    };
    sizes.check(&at("overhang"), overhang, Length::ZERO, limits::WIDEST_OVERHANG);
}

fn knee_above(height: Length, knee: Length, path: &str, sizes: &mut Sizes) {
    if knee <= height {
        let what = tr!("the knee at {} is not above the wall of {}", sizes.shown(knee), sizes.shown(height));
        sizes.note_resting(&format!("{path}.knee"), what, "", &[format!("{path}.height")]);
    }
}

/// Otherwise the roof would bend inwards, and no part is anything but convex.
fn flatter_above(lower: Pitch, upper: Pitch, path: &str, sizes: &mut Sizes) {
    let (Some(below), Some(above)) = (lower.angle(), upper.angle()) else { return };
    if above >= below {
        let what = tr!(
            "the upper slope of {:.1} degrees is not flatter than the lower one of {:.1}",
            above.deg(),
            below.deg()
        );
        sizes.note_resting(&format!("{path}.upper"), what, "", &[format!("{path}.lower")]);
    }
}
