use super::pair;
use crate::{Part, Top};
use gable_measure::{Angle, Length, Pitch, Unit};

/// The main sizes of a part's walls and roof, as they are or as they could sensibly be.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sizes {
    /// Height of the walls under the eaves.
    pub(super) height: Length,
    /// Slope of the roof; of a knee there is none.
    pub(super) pitch: Option<Pitch>,
    /// Lower slope, knee above the wall, upper slope.
    pub(super) knee: Option<(Pitch, Length, Pitch)>,
    /// How far the roof reaches past the walls.
    pub(super) overhang: Length,
    /// Narrowest width of the plan, mm.
    pub(super) span: f64,
    /// Unit in which sizes that are worked out are made round.
    unit: Unit,
}

impl Sizes {
    /// Without walls so far: this share of the span.
    const USUAL_HEIGHT: f64 = 0.6;
    /// Without an overhang so far, mm.
    const USUAL_OVERHANG: f64 = 10.0;

    pub(super) fn of(part: &Part, unit: Unit) -> Self {
        let count = part.outline.count();
        let span = (0..count).map(|k| pair::depth_from(&part.outline, k)).fold(f64::INFINITY, f64::min);
        let tops = || part.sides.iter().map(|s| s.top);
        let eave = |top| match top {
            Top::Eave { height, .. } | Top::Knee { height, .. } => Some(height),
            Top::HalfHip { .. } | Top::Gable { .. } => None,
        };
        let height = tops().filter_map(eave).fold(None, |a: Option<Length>, b| Some(a.map_or(b, |a| a.max(b))));
        let overhang = tops().map(|top| overhang(&top)).fold(Length::ZERO, Length::max);
        let lid = part.lid.map(|lid| lid.height);
        let flat = part.lid.is_some() && overhang == Length::ZERO;
        Self {
            height: height.or(lid).unwrap_or(rounded(span * Self::USUAL_HEIGHT, unit)),
            pitch: tops().find_map(slope),
            knee: tops().find_map(knee),
            overhang: if flat { rounded(Self::USUAL_OVERHANG, unit) } else { overhang },
            span,
            unit,
        }
    }

    /// The present slope if it is between two bounds, else a usual one. A ridge height stays what it is.
    pub(super) fn pitch_within(&self, least: f64, most: f64, usual: f64) -> Pitch {
        let usual = Pitch::Angle(Angle::degrees(usual));
        match self.pitch {
            Some(pitch) => match pitch.angle() {
                Some(angle) if !(least..=most).contains(&angle.deg()) => usual,
                None if self.ridge_is_low(pitch) => usual,
                _ => pitch,
            },
            None => usual,
        }
    }

    /// The present slope if its angle is known and between two bounds, else a usual one; for forms that must know it.
    pub(super) fn known_pitch_within(&self, least: f64, most: f64, usual: f64) -> (Pitch, Angle) {
        let known = self.pitch.and_then(|pitch| Some((pitch, pitch.angle()?)));
        let usual = Angle::degrees(usual);
        known.filter(|(_, a)| (least..=most).contains(&a.deg())).unwrap_or((Pitch::Angle(usual), usual))
    }

    /// A size that was worked out, mm, as a person might have typed it.
    pub(super) fn rounded(&self, mm: f64) -> Length {
        rounded(mm, self.unit)
    }

    /// The wall height and so many mm more or less, without the noise of adding.
    pub(super) fn above_wall(&self, mm: f64) -> Length {
        self.unit.length(self.unit.tidy_number(self.height + self.rounded(mm)))
    }

    fn ridge_is_low(&self, pitch: Pitch) -> bool {
        matches!(pitch, Pitch::RidgeHeight(ridge) if ridge <= self.height)
    }
}

/// To halves of a millimetre or eighths of an inch.
fn rounded(mm: f64, unit: Unit) -> Length {
    match unit {
        Unit::Millimetre => Length::mm_of((mm * 2.0).round() / 2.0),
        Unit::Inch(_) => Length::inches((mm / 25.4 * 8.0).round() / 8.0),
    }
}

fn overhang(top: &Top) -> Length {
    match *top {
        Top::Eave { overhang, .. }
        | Top::HalfHip { overhang, .. }
        | Top::Knee { overhang, .. }
        | Top::Gable { overhang } => overhang,
    }
}

fn slope(top: Top) -> Option<Pitch> {
    match top {
        Top::Eave { pitch, .. } => Some(pitch),
        _ => None,
    }
}

fn knee(top: Top) -> Option<(Pitch, Length, Pitch)> {
    match top {
        Top::Knee { height, lower, knee, upper, .. } => Some((lower, knee - height, upper)),
        _ => None,
    }
}
