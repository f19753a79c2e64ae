//! Openings once more: on another wall, mirrored, and at the height of another one.

use crate::{House, Opening, OpeningId, Part, PartId, SideId, Surface};
use gable_measure::Length;
use gable_words::tr;
use std::fmt;

/// The line of an opening that another one is brought to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningLine {
    /// Its lower edge.
    Sill,
    /// Its upper edge.
    Head,
}

/// Why an opening is not copied or moved. Written for the person who wanted it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotMoved {
    /// The house has no such opening.
    NoSuchOpening,
    /// It is in the middle, so that its mirror image would be in its own place.
    InTheMiddle,
    /// One of the two is in a slope, where heights are measured along the roof.
    InASlope,
    /// It would have to go below the foot of its part.
    BelowTheFoot,
    /// The part of one of them cannot be placed.
    NoPlace,
}

impl std::error::Error for NotMoved {}

impl fmt::Display for NotMoved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoSuchOpening => tr!("choose an opening of the house first"),
            Self::InTheMiddle => tr!("it is in the middle, and there its mirror image would be"),
            Self::InASlope => tr!("only openings in walls have a height above the ground"),
            Self::BelowTheFoot => tr!("it would have to go below the foot of its part"),
            Self::NoPlace => tr!("its part cannot be placed as it is; mend that first"),
        })
    }
}

impl House {
    /// Puts a copy of an opening into another face of its part, at the same place along it; gives the name of the copy.
    ///
    /// # Errors
    /// When there is no such opening or side. Whether it fits there is left to the checks.
    pub fn copy_opening(&mut self, part: &PartId, id: &OpeningId, side: &SideId) -> Result<OpeningId, NotMoved> {
        let part = self.opening_part(part)?;
        let original = find(part, id)?.clone();
        if !part.sides.iter().any(|s| &s.id == side) {
            return Err(NotMoved::NoSuchOpening);
        }
        Ok(add(part, Opening { side: side.clone(), ..original }))
    }

    /// Adds the mirror image of an opening at the other end of its face; gives the name of the image.
    ///
    /// # Errors
    /// When there is no such opening, or its image would be where it is itself.
    pub fn mirror_opening(&mut self, part: &PartId, id: &OpeningId) -> Result<OpeningId, NotMoved> {
        let part = self.opening_part(part)?;
        let mut image = find(part, id)?.clone();
        let side = part.sides.iter().position(|s| s.id == image.side).ok_or(NotMoved::NoSuchOpening)?;
        let corners = part.outline.corners();
        let length = (corners[(side + 1) % corners.len()] - corners[side]).norm();
        let places = image.layout(length).boxes;
        let (first, last) = (places.first().ok_or(NotMoved::InTheMiddle)?, places.last().ok_or(NotMoved::InTheMiddle)?);
        if first.0.x < length - first.0.x && last.1.x > length - last.1.x {
            return Err(NotMoved::InTheMiddle);
        }
        image.placing = image.placing.mirrored();
        image.shape = image.shape.mirrored();
        if let Some(door) = &mut image.door {
            door.hinge = door.hinge.other();
        }
        Ok(add(part, image))
    }

    /// Brings the sill or the head of an opening to the height of another's, whatever parts they are in.
    ///
    /// # Errors
    /// When there are no such openings, one is not in a wall, or its sill would be below its part.
    pub fn align_opening(
        &mut self,
        (part, id): (&PartId, &OpeningId),
        (other_part, other): (&PartId, &OpeningId),
        line: OpeningLine,
    ) -> Result<(), NotMoved> {
        let solved = crate::solve(self);
        let foot = |part: &PartId| {
            let found = solved.parts.iter().find(|p| &p.id == part).ok_or(NotMoved::NoPlace)?;
            Ok(Length::mm_of(found.house_from_part.translation.z))
        };
        let lift = foot(other_part)? - foot(part)?;
        let guide = find(self.part(other_part).ok_or(NotMoved::NoSuchOpening)?, other)?.clone();
        let unit = self.unit;
        let part = self.opening_part(part)?;
        let found = part.openings.iter_mut().find(|o| &o.id == id).ok_or(NotMoved::NoSuchOpening)?;
        if [&guide, &*found].iter().any(|o| o.face != Surface::Wall || o.shape.is_whole_face()) {
            return Err(NotMoved::InASlope);
        }
        let sill = match line {
            OpeningLine::Sill => guide.sill + lift,
            OpeningLine::Head => guide.sill + lift + guide.height - found.height,
        };
        if sill < Length::ZERO {
            return Err(NotMoved::BelowTheFoot);
        }
        found.sill = unit.length(unit.tidy_number(sill));
        Ok(())
    }

    fn opening_part(&mut self, part: &PartId) -> Result<&mut Part, NotMoved> {
        self.parts.iter_mut().find(|p| &p.id == part).ok_or(NotMoved::NoSuchOpening)
    }
}

fn find<'a>(part: &'a Part, id: &OpeningId) -> Result<&'a Opening, NotMoved> {
    part.openings.iter().find(|o| &o.id == id).ok_or(NotMoved::NoSuchOpening)
}

/// Adds an opening under the next free number of its name.
fn add(part: &mut Part, opening: Opening) -> OpeningId {
    let (stem, name) = (without_number(&opening.id.0, '-'), without_number(&opening.name, ' '));
    let id = |k: usize| OpeningId(format!("{stem}-{k}"));
    let number = (2..).find(|&k| part.openings.iter().all(|o| o.id != id(k))).unwrap_or(2);
    part.openings.push(Opening { id: id(number), name: format!("{name} {number}"), ..opening });
    id(number)
}

/// A name without the number at its end.
fn without_number(name: &str, joint: char) -> &str {
    match name.rsplit_once(joint) {
        Some((stem, number)) if !stem.is_empty() && number.chars().all(|c| c.is_ascii_digit()) => stem,
        _ => name,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Placing;
    use gable_measure::Unit;

    fn mm(mm: f64) -> Length {
        Length::mm_of(mm)
    }

    fn with_window() -> (House, PartId, OpeningId) {
        let mut house = House::simple(Unit::Millimetre);
        let window = Opening {
            id: OpeningId("window".into()),
            name: "Window".into(),
            side: SideId("front".into()),
            width: mm(20.0),
            height: mm(24.0),
            sill: mm(30.0),
            placing: Placing::Centred { offset: mm(40.0) },
            ..Opening::default()
        };
        house.parts[0].openings.push(window);
        let part = house.parts[0].id.clone();
        (house, part, OpeningId("window".into()))
    }

    #[test]
    fn copies_and_mirror_images_have_names_of_their_own() {
        let (mut house, part, window) = with_window();
        let copy = house.copy_opening(&part, &window, &SideId("back".into())).unwrap();
        let image = house.mirror_opening(&part, &window).unwrap();
        assert_eq!((copy.0.as_str(), image.0.as_str()), ("window-2", "window-3"));
        let found = |id: &OpeningId| house.parts[0].openings.iter().find(|o| &o.id == id).unwrap();
        assert_eq!((found(&copy).side.0.as_str(), found(&copy).name.as_str()), ("back", "Window 2"));
        assert_eq!(found(&image).placing, Placing::Centred { offset: mm(-40.0) });
        assert_eq!(house.mirror_opening(&part, &OpeningId("door".into())), Err(NotMoved::InTheMiddle));
    }

    #[test]
    fn sills_and_heads_come_to_one_line() {
        let (mut house, part, window) = with_window();
        let other = house.copy_opening(&part, &window, &SideId("back".into())).unwrap();
        let k = house.parts[0].openings.len() - 1;
        (house.parts[0].openings[k].sill, house.parts[0].openings[k].height) = (mm(12.0), mm(40.0));
        house.align_opening((&part, &window), (&part, &other), OpeningLine::Head).unwrap();
        assert_eq!(house.parts[0].openings[k - 1].sill, mm(28.0));
        house.align_opening((&part, &window), (&part, &other), OpeningLine::Sill).unwrap();
        assert_eq!(house.parts[0].openings[k - 1].sill, mm(12.0));
        house.parts[0].openings[k].sill = Length::ZERO;
        house.parts[0].openings[k].height = mm(10.0);
        let below = house.align_opening((&part, &window), (&part, &other), OpeningLine::Head);
        assert_eq!(below, Err(NotMoved::BelowTheFoot));
    }
}
