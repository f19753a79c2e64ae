use super::sizes::Sizes;
use super::{RoofForm, pair};
use crate::{Lid, Parapet, Part, Side, SideId, Top};
use gable_measure::{Angle, Length, Pitch, Unit};

impl RoofForm {
    /// Gives a part this roof: sets the tops of its sides and its lid.
    ///
    /// Wall height, pitch and overhang stay where there are some and they suit the form. A part that the form does not
    /// [fit](Self::fits) gets the nearest thing, a slope on every side.
    pub fn apply(self, part: &mut Part) {
        self.apply_in(part, Unit::Millimetre);
    }

    /// The same, with whatever is worked out in round sizes of the house's unit.
    pub fn apply_in(self, part: &mut Part, unit: Unit) {
        name_sides(part);
        let sizes = Sizes::of(part, unit);
        let tops = match self {
            _ if !self.fits(&part.outline) => all_round(part, eave(&sizes, sizes.pitch_within(15.0, 60.0, 40.0))),
            Self::Gable => ridged(part, &sizes, |_| eave(&sizes, sizes.pitch_within(15.0, 65.0, 40.0))),
            Self::Hip | Self::Pavilion => all_round(part, eave(&sizes, sizes.pitch_within(15.0, 60.0, 40.0))),
            Self::Spire => all_round(part, eave(&sizes, sizes.pitch_within(60.0, 80.0, 68.0))),
            Self::HalfHip => half_hip(part, &sizes),
            Self::Saltbox => saltbox(part, &sizes),
            Self::LeanTo => lean_to(part, &sizes),
            Self::Gambrel => ridged(part, &sizes, |span| gambrel(&sizes, span)),
            Self::Mansard => all_round(part, mansard(&sizes)),
            Self::Flat => all_round(part, Top::Gable { overhang: Length::ZERO }),
        };
        part.lid = (self == Self::Flat).then(|| flat(&sizes));
        for (side, top) in part.sides.iter_mut().zip(tops) {
            side.top = top;
        }
    }
}

/// Makes the sides those of the outline; what is known of a side of the same name stays.
fn name_sides(part: &mut Part) {
    let old = std::mem::take(&mut part.sides);
    let plain =
        |name: String| Side { id: SideId(name), wall: true, posts: None, top: Top::Gable { overhang: Length::ZERO } };
    let known = |name: &str| old.iter().find(|s| s.id.0 == name).cloned();
    part.sides = part.outline.side_names().into_iter().map(|n| known(&n).unwrap_or_else(|| plain(n))).collect();
}

fn all_round(part: &Part, top: Top) -> Vec<Top> {
    vec![top; part.sides.len()]
}

fn eave(sizes: &Sizes, pitch: Pitch) -> Top {
    Top::Eave { height: sizes.height, pitch, overhang: sizes.overhang }
}

/// Slopes on two parallel sides, gables between them. The slope may depend on the span, mm.
fn ridged(part: &Part, sizes: &Sizes, slope: impl Fn(f64) -> Top) -> Vec<Top> {
    let gable = Top::Gable { overhang: sizes.overhang };
    let Some((a, b)) = pair::eaves(part) else { return all_round(part, gable) };
    let slope = slope(pair::span(&part.outline, (a, b)));
    (0..part.sides.len()).map(|k| if k == a || k == b { slope } else { gable }).collect()
}

/// The gables are cut off halfway up.
fn half_hip(part: &Part, sizes: &Sizes) -> Vec<Top> {
    let (pitch, angle) = sizes.known_pitch_within(15.0, 65.0, 45.0);
    let mut tops = ridged(part, sizes, |_| eave(sizes, pitch));
    let Some(pair) = pair::eaves(part) else { return tops };
    let rise = pair::span(&part.outline, pair) / 2.0 * angle.tan();
    let start = sizes.above_wall(rise / 2.0);
    for top in tops.iter_mut().filter(|top| matches!(top, Top::Gable { .. })) {
        *top = Top::HalfHip { start, pitch, overhang: sizes.overhang };
    }
    tops
}

/// Both slopes alike; the back wall is lower, so the ridge comes forward.
fn saltbox(part: &Part, sizes: &Sizes) -> Vec<Top> {
    /// How much lower the back is, as a share of the front wall; proportions of our own.
    const LOWER: f64 = 0.4;
    /// But no more than this share of the height that one slope would gain over the whole span.
    const MOST: f64 = 0.35;
    let mut tops = all_round(part, Top::Gable { overhang: sizes.overhang });
    let Some((front, back)) = pair::front_and_back(part) else { return tops };
    let (pitch, angle) = sizes.known_pitch_within(20.0, 60.0, 40.0);
    let span = pair::span(&part.outline, (front, back));
    let drop = (sizes.height.mm() * LOWER).min(span * angle.tan() * MOST);
    tops[front] = eave(sizes, pitch);
    tops[back] = Top::Eave { height: sizes.above_wall(-drop), pitch, overhang: sizes.overhang };
    tops
}

/// One slope, low at the front.
fn lean_to(part: &Part, sizes: &Sizes) -> Vec<Top> {
    let mut tops = all_round(part, Top::Gable { overhang: sizes.overhang });
    tops[pair::front(&part.outline)] = eave(sizes, sizes.pitch_within(10.0, 35.0, 25.0));
    tops
}

/// Ridge as high above the wall as half the span, lower slope 60°, upper slope 30°.
///
/// Colliery Engineer Co., A Treatise on Architecture and Building Construction, 1899, vol. 2, art. 140: height half the
/// span, lower slope 60° or more, upper slope 30° or less. With a and b the runs of the two slopes, a + b = s/2 and
/// a·tan 60° + b·tan 30° = s/2, so a = s/2 · (1 − tan 30°) / (tan 60° − tan 30°), and the knee is a·tan 60° up.
fn gambrel(sizes: &Sizes, span: f64) -> Top {
    let (lower, upper) = (Angle::degrees(60.0), Angle::degrees(30.0));
    let run = span / 2.0 * (1.0 - upper.tan()) / (lower.tan() - upper.tan());
    let knee = sizes.above_wall(run * lower.tan());
    knee_top(sizes, (Pitch::Angle(lower), knee, Pitch::Angle(upper)))
}

/// A steep slope up to half of the half span, and a flat one over it; proportions of our own.
fn mansard(sizes: &Sizes) -> Top {
    let (lower, upper) = (Angle::degrees(70.0), Angle::degrees(25.0));
    let knee = sizes.above_wall(sizes.span / 4.0);
    match sizes.knee {
        Some((lower, rise, upper)) => knee_top(sizes, (lower, sizes.height + rise, upper)),
        None => knee_top(sizes, (Pitch::Angle(lower), knee, Pitch::Angle(upper))),
    }
}

fn knee_top(sizes: &Sizes, (lower, knee, upper): (Pitch, Length, Pitch)) -> Top {
    Top::Knee { height: sizes.height, lower, knee, upper, overhang: sizes.overhang }
}

fn flat(sizes: &Sizes) -> Lid {
    /// Height of the parapet over that of the walls, a proportion of our own; below 8 mm a strip breaks when it is cut.
    const SHARE: f64 = 0.12;
    let height = sizes.rounded((sizes.height.mm() * SHARE).max(8.0));
    Lid { height: sizes.height, overhang: Length::ZERO, parapet: Some(Parapet { height }) }
}
