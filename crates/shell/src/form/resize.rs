//! A house made larger or smaller. Dough stays as it is rolled, icing as it is piped, and what is bought or cut by a cutter
//! keeps its size; everything is worked out anew from the new sizes.

use crate::{
    Floor, House, Lid, Opening, Outline, Parapet, Part, Place, Placing, Posts, Repeat, Shape, Spot, Steps, StepsHigh,
    Top,
};
use gable_measure::{Length, Pitch};

/// What does not simply grow with the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Resizing {
    /// Doors and windows keep their size, their middles move with the wall.
    pub keeps_openings: bool,
    /// Boards, caps and boxes keep the size that does not follow from what they belong to.
    pub keeps_ornaments: bool,
}

/// Windows grow with the house; boards and caps stay as wide as they are.
impl Default for Resizing {
    fn default() -> Self {
        Self { keeps_openings: false, keeps_ornaments: true }
    }
}

/// Least and most that a house can be made smaller or larger by at once.
pub const FACTORS: std::ops::RangeInclusive<f64> = 0.05..=20.0;

/// The house with all its sizes multiplied. What was baked for it is dropped: it is another house.
///
/// Kept are dough, gap, glue and clearances, finishes with their units, thicknesses of ornaments and extras, and angles.
pub fn resized(house: &House, factor: f64, rules: Resizing) -> House {
    let mut house = house.clone();
    house.baked.clear();
    let by = Factor(factor);
    house.parts.iter_mut().for_each(|p| by.part(p, rules));
    house.relations.iter_mut().for_each(|r| by.length(&mut r.offset));
    for extra in &mut house.dressing.extras {
        by.spot(&mut extra.spot);
        by.length(&mut extra.height);
        by.length(&mut extra.width);
    }
    if !rules.keeps_ornaments {
        house.dressing.ornaments.iter_mut().for_each(|o| by.length(&mut o.size));
    }
    crate::settle(&house).0
}

struct Factor(f64);

impl Factor {
    fn length(&self, length: &mut Length) {
        *length = *length * self.0;
    }

    fn pitch(&self, pitch: &mut Pitch) {
        if let Pitch::RidgeHeight(height) = pitch {
            self.length(height);
        }
    }

    fn spot(&self, spot: &mut Spot) {
        self.length(&mut spot.x);
        self.length(&mut spot.y);
    }

    fn part(&self, part: &mut Part, rules: Resizing) {
        self.outline(&mut part.outline);
        self.place(&mut part.place);
        self.length(&mut part.raised);
        self.floor(&mut part.floor);
        for side in &mut part.sides {
            if let Some(Posts { width, .. }) = &mut side.posts {
                self.length(width);
            }
            self.top(&mut side.top);
        }
        if let Some(Lid { height, overhang, parapet }) = &mut part.lid {
            self.length(height);
            self.length(overhang);
            if let Some(Parapet { height }) = parapet {
                self.length(height);
            }
        }
        part.openings.iter_mut().for_each(|o| self.opening(o, rules));
    }

    fn outline(&self, outline: &mut Outline) {
        match outline {
            Outline::Rectangle { width, depth } => {
                self.length(width);
                self.length(depth);
            }
            Outline::Polygon { side, .. } => self.length(side),
            Outline::HalfPolygon { width, .. } => self.length(width),
            Outline::Free { corners } => corners.iter_mut().for_each(|(x, y)| {
                self.length(x);
                self.length(y);
            }),
        }
    }

    fn place(&self, place: &mut Place) {
        match place {
            Place::Ground(spot) | Place::OnTop { spot, .. } => self.spot(spot),
            Place::Against { along, out, .. } => {
                self.placing(along);
                self.length(out);
            }
            Place::OnSlope { along, up, .. } => {
                self.placing(along);
                self.length(up);
            }
            Place::Astride { along, .. } => self.length(along),
        }
    }

    fn placing(&self, placing: &mut Placing) {
        match placing {
            Placing::Centred { offset } => self.length(offset),
            Placing::FromLeft { distance } | Placing::FromRight { distance } => self.length(distance),
        }
    }

    fn floor(&self, floor: &mut Floor) {
        if let Some(Steps { high, tread, .. }) = &mut floor.steps {
            self.length(tread);
            if let StepsHigh::Height(height) = high {
                self.length(height);
            }
        }
    }

    fn top(&self, top: &mut Top) {
        match top {
            Top::Eave { height, pitch, overhang } | Top::HalfHip { start: height, pitch, overhang } => {
                self.length(height);
                self.pitch(pitch);
                self.length(overhang);
            }
            Top::Knee { height, lower, knee, upper, overhang } => {
                self.length(height);
                self.pitch(lower);
                self.length(knee);
                self.pitch(upper);
                self.length(overhang);
            }
            Top::Gable { overhang } => self.length(overhang),
        }
    }

    /// An opening that keeps its size keeps the place of its middle in the wall, and stays on the line it stands on if
    /// that is the foot of the wall.
    fn opening(&self, opening: &mut Opening, rules: Resizing) {
        if !rules.keeps_openings {
            self.placing(&mut opening.placing);
            self.length(&mut opening.width);
            self.length(&mut opening.height);
            self.length(&mut opening.sill);
            self.shape(opening);
            if let Some(Repeat { gap, gap_up, .. }) = &mut opening.repeat {
                gap.iter_mut().for_each(|g| self.length(g));
                self.length(gap_up);
            }
        } else {
            let half = opening.width / 2.0;
            match &mut opening.placing {
                Placing::Centred { offset } => self.length(offset),
                Placing::FromLeft { distance } | Placing::FromRight { distance } => {
                    *distance = (*distance + half) * self.0 - half;
                }
            }
            if opening.sill > Length::ZERO {
                let half = opening.height / 2.0;
                opening.sill = ((opening.sill + half) * self.0 - half).max(Length::ZERO);
            }
        }
        opening.settle();
    }

    /// The bars of a glazed face stay as strong as they are.
    fn shape(&self, opening: &mut Opening) {
        if let Shape::Segmental { rise } = &mut opening.shape {
            self.length(rise);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, solve};

    /// Every demo at half and at twice its size and back is the house it was, dough and dressing included.
    #[test]
    fn there_and_back_is_the_same_house() {
        for name in demo::names() {
            let house = demo::house(name).unwrap();
            for rules in [Resizing::default(), Resizing { keeps_openings: true, keeps_ornaments: false }] {
                // Made smaller, windows that keep their size may end at the foot of the wall.
                for factor in [2.0, 0.5].into_iter().take(if rules.keeps_openings { 1 } else { 2 }) {
                    let there = resized(&house, factor, rules);
                    assert_ne!(there.parts, house.parts);
                    assert_eq!((&there.doughs, there.gap), (&house.doughs, house.gap));
                    assert_eq!(there.dressing.finishes, house.dressing.finishes);
                    let back = resized(&there, 1.0 / factor, rules);
                    let planned = House { baked: Vec::new(), ..house.clone() };
                    assert!(crate::file::write(&back) == crate::file::write(&planned), "{name} {factor}");
                }
            }
        }
    }

    /// Walls measure the new sizes, and thicknesses stay.
    #[test]
    fn pieces_are_worked_out_anew_in_the_same_dough() {
        let house = demo::house("boat-hut").unwrap();
        let small = solve(&resized(&house, 0.75, Resizing::default()));
        let full = solve(&house);
        assert_eq!(small.pieces.len(), full.pieces.len());
        for (a, b) in std::iter::zip(&small.pieces, &full.pieces) {
            assert_eq!(a.thickness, b.thickness);
        }
        let (a, b) = (small.parts[0].plan.clone(), full.parts[0].plan.clone());
        assert!(((a[1] - a[0]).norm() - 0.75 * (b[1] - b[0]).norm()).abs() < 1e-9);
    }
}
