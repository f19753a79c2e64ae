use crate::*;
use gable_measure::{Angle, InchStep, Length, Pitch, Unit};
use gable_words::tr;

impl House {
    /// The house that a new design starts from: four walls, a gable to the front and a door, in round sizes of the unit.
    pub fn simple(unit: Unit) -> Self {
        let sizes = match unit {
            Unit::Millimetre => [120.0, 160.0, 90.0, 10.0, 30.0, 55.0].map(Length::mm_of),
            Unit::Inch(InchStep::Sixteenth | InchStep::ThirtySecond) => {
                [4.75, 6.25, 3.5, 0.375, 1.25, 2.25].map(Length::inches)
            }
        };
        let gap = match unit {
            Unit::Millimetre => Self::USUAL_GAP,
            Unit::Inch(_) => Length::inches(1.0 / 32.0),
        };
        let [width, depth, height, overhang, door_width, door_height] = sizes;
        let eave = Top::Eave { height, pitch: Pitch::Angle(Angle::degrees(40.0)), overhang };
        let mut part = Part::plain("main", tr!("Main body"), Outline::Rectangle { width, depth }, eave);
        RoofForm::Gable.apply_in(&mut part, unit);
        part.openings.push(door(door_width, door_height));
        let (owner, doughs) = (Owner::default(), Dough::usual());
        Self {
            owner,
            unit,
            gap,
            doughs,
            parts: vec![part],
            decided: vec![],
            order: vec![],
            relations: vec![],
            baked: vec![],
            dressing: Default::default(),
        }
    }
}

impl Part {
    /// A part of the usual doughs, with every side alike.
    pub fn plain(id: &str, name: &str, outline: Outline, top: Top) -> Self {
        let walls = DoughId("walls".to_owned());
        let side = |name: String| Side { id: SideId(name), wall: true, posts: None, top };
        Self {
            id: PartId(id.to_owned()),
            name: name.to_owned(),
            sides: outline.side_names().into_iter().map(side).collect(),
            outline,
            place: Place::default(),
            wall_dough: walls.clone(),
            roof_dough: DoughId("roofs".to_owned()),
            floor: Floor { kind: FloorKind::None, dough: walls, steps: None },
            corners: Corners::Lap,
            ridges: Ridges::Open,
            raised: Length::ZERO,
            stays_whole: false,
            locked: false,
            behind: Behind::Whole,
            level_eaves: false,
            lid: None,
            openings: Vec::new(),
        }
    }
}

fn door(width: Length, height: Length) -> Opening {
    Opening {
        id: OpeningId("door".to_owned()),
        name: tr!("Door").to_owned(),
        side: SideId("front".to_owned()),
        shape: Shape::Rectangle,
        width,
        height,
        sill: Length::ZERO,
        placing: Placing::Centred { offset: Length::ZERO },
        mode: Mode::Cut,
        ..Opening::default()
    }
}
