//! Houses of one part in few words, for tests.

use gable_measure::{Angle, Length, Pitch, Unit};
use gable_shell::{
    Behind, Corners, Dough, DoughId, Floor, FloorKind, House, Outline, Owner, Part, PartId, Place, Ridges, Side,
    SideId, Top,
};

/// So many millimetres.
pub fn mm(length: f64) -> Length {
    Length::mm_of(length)
}

/// A pitch of so many degrees.
pub fn degrees(angle: f64) -> Pitch {
    Pitch::Angle(Angle::degrees(angle))
}

/// A pitch of so many inches rise in twelve.
pub fn in_twelve(rise: f64) -> Pitch {
    Pitch::RiseInRun { rise, run: 12.0 }
}

/// A slope over a wall of `height` mm.
pub fn eave(height: f64, pitch: Pitch, overhang: f64) -> Top {
    Top::Eave { height: mm(height), pitch, overhang: mm(overhang) }
}

/// A wall up to the slopes of the other sides.
pub fn gable(overhang: f64) -> Top {
    Top::Gable { overhang: mm(overhang) }
}

/// A rectangular plan.
pub fn rectangle(width: f64, depth: f64) -> Outline {
    Outline::Rectangle { width: mm(width), depth: mm(depth) }
}

/// A dough that is baked to `baked` mm.
pub fn dough(id: &str, baked: f64, rise: f64) -> Dough {
    Dough { id: DoughId(id.to_owned()), rolled: mm(baked / rise), rise }
}

/// A part called `main` with walls all round, no floor, lapped corners and open ridges; `tops` by side.
pub fn part(outline: Outline, tops: &[Top]) -> Part {
    let sides = outline.side_names().into_iter().zip(tops);
    let sides = sides.map(|(name, &top)| Side { id: SideId(name), wall: true, posts: None, top }).collect();
    Part {
        id: PartId("main".to_owned()),
        name: "Main body".to_owned(),
        outline,
        place: Place::default(),
        wall_dough: DoughId("walls".to_owned()),
        roof_dough: DoughId("roofs".to_owned()),
        floor: Floor { kind: FloorKind::None, dough: DoughId("walls".to_owned()), steps: None },
        corners: Corners::Lap,
        ridges: Ridges::Open,
        raised: Length::ZERO,
        stays_whole: false,
        locked: false,
        behind: Behind::Whole,
        level_eaves: false,
        sides,
        lid: None,
        openings: vec![],
    }
}

/// A house of one part: walls and roofs baked to so many mm, and a gap for icing.
pub fn house(part: Part, wall: f64, roof: f64, gap: f64) -> House {
    House {
        owner: Owner::default(),
        unit: Unit::Millimetre,
        gap: mm(gap),
        doughs: vec![dough("walls", wall, 1.0), dough("roofs", roof, 1.0)],
        parts: vec![part],
        decided: vec![],
        order: Vec::new(),
        relations: vec![],
        baked: vec![],
        dressing: Default::default(),
    }
}
