use crate::*;
use gable_measure::{Angle, Length, Pitch, Unit};
use gable_words::tr;

/// Small houses that a design can start from, plainest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Starter {
    /// Four walls and two slopes.
    Hut,
    /// With windows, a porch and a chimney.
    Cottage,
    /// A nave with pointed windows and a tower before it.
    Chapel,
    /// Eight walls under a spire.
    Tower,
    /// Wide, under a roof that is steep below and flat above.
    Barn,
    /// Narrow and three storeys high.
    TownHouse,
}

impl Starter {
    /// Every one, in the order in which they are offered.
    pub const ALL: [Self; 6] = [Self::Hut, Self::Cottage, Self::Chapel, Self::Tower, Self::Barn, Self::TownHouse];

    /// Name for people.
    pub fn name(self) -> &'static str {
        match self {
            Self::Hut => tr!("Plain house"),
            Self::Cottage => tr!("Cottage"),
            Self::Chapel => tr!("Chapel"),
            Self::Tower => tr!("Tower"),
            Self::Barn => tr!("Barn"),
            Self::TownHouse => tr!("Town house"),
        }
    }

    /// The house itself, in round sizes of the unit.
    pub fn house(self, unit: Unit) -> House {
        let ruler = Ruler { unit };
        match self {
            Self::Hut => House::simple(unit),
            Self::Cottage => cottage(ruler),
            Self::Chapel => chapel(ruler),
            Self::Tower => tower(ruler),
            Self::Barn => barn(ruler),
            Self::TownHouse => town_house(ruler),
        }
    }
}

/// Round sizes in the unit of the house.
#[derive(Clone, Copy)]
struct Ruler {
    unit: Unit,
}

impl Ruler {
    /// A length that is round in both units: so many mm, or so many inches.
    fn size(self, mm: f64, inches: f64) -> Length {
        match self.unit {
            Unit::Millimetre => Length::mm_of(mm),
            Unit::Inch(_) => Length::inches(inches),
        }
    }

    fn rectangle(self, (w, win): (f64, f64), (d, din): (f64, f64)) -> Outline {
        Outline::Rectangle { width: self.size(w, win), depth: self.size(d, din) }
    }

    fn eave(self, height: (f64, f64), pitch: f64, overhang: (f64, f64)) -> Top {
        let (height, overhang) = (self.size(height.0, height.1), self.size(overhang.0, overhang.1));
        Top::Eave { height, pitch: Pitch::Angle(Angle::degrees(pitch)), overhang }
    }

    /// One part under a roof of this form, on the board.
    fn part(self, (id, name): (&str, &str), outline: Outline, eave: Top, form: RoofForm) -> Part {
        let mut part = Part::plain(id, name, outline, eave);
        form.apply_in(&mut part, self.unit);
        part
    }

    fn house(self, part: Part) -> House {
        House { parts: vec![part], ..House::simple(self.unit) }
    }

    /// An opening in the middle of a side: its name, size and sill.
    fn opening(self, (id, name, side): (&str, &str, &str), w: (f64, f64), h: (f64, f64), sill: (f64, f64)) -> Opening {
        let mut opening = Opening {
            id: OpeningId(id.to_owned()),
            name: name.to_owned(),
            side: SideId(side.to_owned()),
            width: self.size(w.0, w.1),
            height: self.size(h.0, h.1),
            sill: self.size(sill.0, sill.1),
            placing: Placing::Centred { offset: Length::ZERO },
            ..Opening::default()
        };
        opening.settle();
        opening
    }
}

fn shaped(opening: Opening, shape: Shape) -> Opening {
    let mut opening = Opening { shape, ..opening };
    opening.settle();
    opening
}

/// A row with equal spaces, and perhaps more of them over each other.
fn row(opening: Opening, across: u8, up: u8, gap_up: Length) -> Opening {
    Opening { repeat: Some(Repeat { across, up, gap: None, gap_up }), ..opening }
}

/// Adds a part where it suits best; a house that has no room for it goes without.
fn with(mut house: House, kind: GuestKind, side: Option<&str>) -> House {
    let Some(host) = house.parts.first().map(|p| p.id.clone()) else { return house };
    let side = side.map(|s| SideId(s.to_owned()));
    if let Ok(part) = house.guest(kind, &host, side.as_ref()) {
        house.parts.push(part);
    }
    house
}

fn cottage(r: Ruler) -> House {
    let plan = r.rectangle((170.0, 6.75), (120.0, 4.75));
    let mut part = r.part(("main", tr!("Cottage")), plan, r.eave((75.0, 3.0), 45.0, (12.0, 0.5)), RoofForm::Gable);
    let gap = r.size(10.0, 0.375);
    part.openings = vec![
        r.opening(("door", tr!("Door"), "front"), (30.0, 1.25), (52.0, 2.0), (0.0, 0.0)),
        row(r.opening(("back", tr!("Back windows"), "back"), (24.0, 1.0), (28.0, 1.125), (26.0, 1.0)), 3, 1, gap),
        r.opening(("left", tr!("Left window"), "left"), (24.0, 1.0), (28.0, 1.125), (26.0, 1.0)),
        r.opening(("right", tr!("Right window"), "right"), (24.0, 1.0), (28.0, 1.125), (26.0, 1.0)),
    ];
    for (id, name, from_left) in
        [("front-left", tr!("Left of the door"), true), ("front-right", tr!("Right of the door"), false)]
    {
        let distance = r.size(22.0, 0.875);
        let placing = if from_left { Placing::FromLeft { distance } } else { Placing::FromRight { distance } };
        let window = r.opening((id, name, "front"), (24.0, 1.0), (28.0, 1.125), (26.0, 1.0));
        part.openings.push(Opening { placing, ..window });
    }
    with(r.house(part), GuestKind::Chimney, None)
}

fn chapel(r: Ruler) -> House {
    let plan = r.rectangle((100.0, 4.0), (170.0, 6.75));
    let mut nave = r.part(("main", tr!("Nave")), plan, r.eave((90.0, 3.5), 52.0, (10.0, 0.375)), RoofForm::Gable);
    let arch = Shape::Pointed { radius: 1.0 };
    for (id, name, side) in [("left", tr!("Left windows"), "left"), ("right", tr!("Right windows"), "right")] {
        let window = r.opening((id, name, side), (18.0, 0.75), (46.0, 1.75), (24.0, 1.0));
        nave.openings.push(row(shaped(window, arch.clone()), 3, 1, r.size(10.0, 0.375)));
    }
    let rose = r.opening(("rose", tr!("Rose window"), "back"), (30.0, 1.25), (30.0, 1.25), (80.0, 3.25));
    nave.openings.push(shaped(rose, Shape::Circle));
    let plan = r.rectangle((60.0, 2.5), (60.0, 2.5));
    let mut tower = r.part(("tower", tr!("Tower")), plan, r.eave((185.0, 7.25), 68.0, (6.0, 0.25)), RoofForm::Spire);
    tower.place = Place::Against {
        host: nave.id.clone(),
        side: SideId("front".to_owned()),
        along: Placing::Centred { offset: Length::ZERO },
        out: r.size(60.0, 2.5),
        turn: Angle::ZERO,
    };
    let door = r.opening(("door", tr!("Door"), "front"), (26.0, 1.0), (52.0, 2.0), (0.0, 0.0));
    tower.openings.push(shaped(door, arch.clone()));
    for side in ["front", "left", "right"] {
        let bell = r.opening(
            (&format!("bell-{side}"), tr!("Bell opening"), side),
            (16.0, 0.625),
            (34.0, 1.375),
            (120.0, 4.75),
        );
        tower.openings.push(shaped(bell, arch.clone()));
    }
    let mut house = r.house(nave);
    house.parts.push(tower);
    house
}

fn tower(r: Ruler) -> House {
    let plan = Outline::Polygon { sides: 8, side: r.size(46.0, 1.75) };
    let mut part = r.part(("main", tr!("Tower")), plan, r.eave((150.0, 6.0), 62.0, (10.0, 0.375)), RoofForm::Spire);
    let arch = |opening| shaped(opening, Shape::RoundHeaded);
    part.openings.push(arch(r.opening(("door", tr!("Door"), "1"), (26.0, 1.0), (50.0, 2.0), (0.0, 0.0))));
    part.openings.push(arch(r.opening(("high", tr!("High window"), "1"), (18.0, 0.75), (32.0, 1.25), (96.0, 3.75))));
    for side in ["3", "5", "7"] {
        let window =
            r.opening((&format!("window-{side}"), tr!("Windows"), side), (18.0, 0.75), (32.0, 1.25), (36.0, 1.5));
        part.openings.push(row(arch(window), 1, 2, r.size(28.0, 1.0)));
    }
    r.house(part)
}

fn barn(r: Ruler) -> House {
    let plan = r.rectangle((150.0, 6.0), (180.0, 7.0));
    let mut part = r.part(("main", tr!("Barn")), plan, r.eave((80.0, 3.25), 60.0, (10.0, 0.375)), RoofForm::Gambrel);
    let gate = r.opening(("gate", tr!("Gate"), "front"), (60.0, 2.5), (66.0, 2.5), (0.0, 0.0));
    part.openings.push(shaped(gate, Shape::Segmental { rise: r.size(8.0, 0.375) }));
    part.openings.push(r.opening(("loft", tr!("Hay loft"), "front"), (26.0, 1.0), (30.0, 1.25), (88.0, 3.5)));
    for (id, side) in [("left", "left"), ("right", "right")] {
        let window = r.opening((id, tr!("Windows"), side), (22.0, 0.875), (20.0, 0.75), (40.0, 1.5));
        part.openings.push(row(window, 4, 1, r.size(10.0, 0.375)));
    }
    r.house(part)
}

fn town_house(r: Ruler) -> House {
    let plan = r.rectangle((110.0, 4.25), (120.0, 4.75));
    let mut part = r.part(("main", tr!("Town house")), plan, r.eave((190.0, 7.5), 55.0, (8.0, 0.375)), RoofForm::Gable);
    let gap = r.size(24.0, 1.0);
    part.openings = vec![
        r.opening(("door", tr!("Door"), "front"), (28.0, 1.125), (50.0, 2.0), (0.0, 0.0)),
        row(r.opening(("front", tr!("Front windows"), "front"), (20.0, 0.75), (32.0, 1.25), (68.0, 2.75)), 3, 2, gap),
        row(r.opening(("back", tr!("Back windows"), "back"), (20.0, 0.75), (32.0, 1.25), (12.0, 0.5)), 3, 3, gap),
        shaped(
            r.opening(("gable", tr!("Gable window"), "front"), (22.0, 0.875), (22.0, 0.875), (196.0, 7.75)),
            Shape::Circle,
        ),
    ];
    r.house(part)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_measure::InchStep;

    #[test]
    fn every_starter_can_be_built_in_both_units() {
        for starter in Starter::ALL {
            for unit in [Unit::Millimetre, Unit::Inch(InchStep::Sixteenth)] {
                let house = starter.house(unit);
                let name = starter.name();
                assert_eq!(file::check(&house), vec![], "{name}");
                let solved = solve(&house);
                // Nobody begins with something to mend, not even with a note.
                assert_eq!(solved.findings, vec![], "{name}");
                assert_eq!(file::parse(&file::write(&house)), Ok(house));
            }
        }
    }

    #[test]
    fn their_parts_are_what_their_names_say() {
        let parts = |s: Starter| s.house(Unit::Millimetre).parts.iter().map(|p| p.name.clone()).collect::<Vec<_>>();
        assert_eq!(parts(Starter::Chapel), ["Nave", "Tower"]);
        assert_eq!(parts(Starter::Cottage), ["Cottage", "Chimney"]);
    }
}
