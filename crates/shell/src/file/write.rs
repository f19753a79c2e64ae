//! From the model to the file.

use super::figure::Figure;
use super::types::*;
use super::write_floor;
use super::write_opening::{glazier, opening};
use crate::{
    Before, Behind, Corners, Decided, Dough, Gives, House, Lid, Measure, Measured, Outline, Part, Place, Placing,
    Relation, Ridges, Side, Spot, Top,
};
use gable_measure::{Angle, InchStep, Length, Pitch, Unit, tidy};

/// The text of a house file: pretty JSON with a newline at its end. The same house gives the same bytes.
///
/// Numbers are rounded to 1e-9 of their unit. A number that is not finite is written as `null`, which [`super::parse`]
/// refuses; [`super::check`] finds it before.
pub fn write(house: &House) -> String {
    // Serialising cannot fail: keys are text, and serde_json writes what is not finite as null.
    serde_json::to_string_pretty(&house_entry(house)).unwrap_or_default() + "\n"
}

fn house_entry(house: &House) -> HouseEntry {
    let unit = house.unit;
    HouseEntry {
        format: super::FORMAT.to_owned(),
        version: super::VERSION,
        title: house.owner.title.clone(),
        edition: house.owner.edition.clone(),
        credit: house.owner.credit.clone(),
        after: house.owner.after.clone(),
        licence: house.owner.licence.clone(),
        notes: house.owner.notes.clone(),
        unit: match unit {
            Unit::Millimetre => UnitEntry::Millimetre,
            Unit::Inch(InchStep::Sixteenth) => UnitEntry::Inch,
            Unit::Inch(InchStep::ThirtySecond) => UnitEntry::InchThirtySecond,
        },
        gap: length(house.gap, unit),
        doughs: house.doughs.iter().map(|d| dough(d, unit)).collect(),
        parts: house.parts.iter().map(|p| part(p, unit)).collect(),
        decided: house.decided.iter().map(decision).collect(),
        relations: house.relations.iter().map(|r| relation(r, unit)).collect(),
        order: house.order.iter().map(before).collect(),
        baked: super::write_baked::entries(house),
        dressing: super::write_dressing::entry(&house.dressing, unit),
        glazing: glazier(&house.dressing.glazier, unit),
    }
}

pub(super) fn length(length: Length, unit: Unit) -> LengthEntry {
    match Figure::of(length, unit) {
        Figure::InUnit(number) => LengthEntry::Number(Number(number)),
        figure @ Figure::InMillimetres(_) => LengthEntry::Text(figure.words(unit)),
    }
}

fn pitch(pitch: Pitch, unit: Unit) -> PitchEntry {
    match pitch {
        Pitch::Angle(angle) => PitchEntry::Number(Number(tidy(angle.deg()))),
        Pitch::RiseInRun { rise, run } => PitchEntry::Text(format!("{} in {}", tidy(rise), tidy(run))),
        Pitch::RidgeHeight(height) => PitchEntry::Text(format!("ridge {}", Figure::of(height, unit).words(unit))),
    }
}

fn dough(dough: &Dough, unit: Unit) -> DoughEntry {
    DoughEntry { id: dough.id.0.clone(), rolled: length(dough.rolled, unit), rise: Number(tidy(dough.rise)) }
}

fn part(part: &Part, unit: Unit) -> PartEntry {
    PartEntry {
        id: part.id.0.clone(),
        name: part.name.clone(),
        outline: outline(&part.outline, unit),
        place: place(&part.place, unit),
        raised: length(part.raised, unit),
        stays_whole: part.stays_whole,
        locked: part.locked,
        behind: match part.behind {
            Behind::Whole => BehindEntry::Whole,
            Behind::Passage { rim } => BehindEntry::Passage { rim: length(rim, unit) },
        },
        wall_dough: part.wall_dough.0.clone(),
        roof_dough: part.roof_dough.0.clone(),
        floor: write_floor::floor(&part.floor, unit),
        corners: match part.corners {
            Corners::Lap => CornersEntry::Lap,
            Corners::LapAround => CornersEntry::LapAround,
            Corners::Mitre => CornersEntry::Mitre,
            Corners::SquareMitre => CornersEntry::SquareMitre,
        },
        ridges: match part.ridges {
            Ridges::Open => RidgesEntry::Open,
            Ridges::Bevelled => RidgesEntry::Bevelled,
            Ridges::Lapped => RidgesEntry::Lapped,
        },
        level_eaves: part.level_eaves,
        sides: SidesEntry(part.sides.iter().map(|s| (s.id.0.clone(), side(s, unit))).collect()),
        lid: part.lid.map(|l| lid(&l, unit)),
        openings: part.openings.iter().map(|o| opening(o, unit)).collect(),
    }
}

fn outline(outline: &Outline, unit: Unit) -> OutlineEntry {
    let of = |l: &Length| length(*l, unit);
    match outline {
        Outline::Rectangle { width, depth } => OutlineEntry::Rectangle { width: of(width), depth: of(depth) },
        Outline::Polygon { sides, side } => OutlineEntry::Polygon { sides: *sides, side: of(side) },
        Outline::HalfPolygon { sides, width } => OutlineEntry::HalfPolygon { sides: *sides, width: of(width) },
        Outline::Free { corners } => {
            OutlineEntry::Free { corners: corners.iter().map(|(x, y)| [of(x), of(y)]).collect() }
        }
    }
}

fn decision(decided: &Decided) -> DecidedEntry {
    DecidedEntry { whole: decided.whole.0.clone(), cut: decided.cut.0.clone() }
}

fn before(before: &Before) -> BeforeEntry {
    BeforeEntry { first: before.first.to_string(), then: before.then.to_string() }
}

fn relation(relation: &Relation, unit: Unit) -> RelationEntry {
    let MeasuredEntry { part, measure, side } = measured(&relation.follower);
    let gives = match relation.gives {
        Gives::Walls => GivesEntry::Walls,
        Gives::Pitch => GivesEntry::Pitch,
    };
    let gives = (relation.follower.measure == Measure::Ridge).then_some(gives);
    let (follows, offset) = (measured(&relation.leader), length(relation.offset, unit));
    RelationEntry { part, measure, side, gives, follows, offset }
}

fn measured(measured: &Measured) -> MeasuredEntry {
    let (measure, side) = match &measured.measure {
        Measure::Width => (MeasureEntry::Width, None),
        Measure::Depth => (MeasureEntry::Depth, None),
        Measure::Eave(side) => (MeasureEntry::Eave, side.as_ref()),
        Measure::Ridge => (MeasureEntry::Ridge, None),
        Measure::Lid => (MeasureEntry::Lid, None),
    };
    MeasuredEntry { part: measured.part.0.clone(), measure, side: side.map(|s| s.0.clone()) }
}

fn place(place: &Place, unit: Unit) -> PlaceEntry {
    let of = |l: &Length| length(*l, unit);
    let guest = match place {
        Place::Ground(spot) => return PlaceEntry::Ground(self::spot(spot, unit)),
        Place::Against { host, side, along, out, turn } => {
            let (from, distance) = placing(*along, unit);
            let (part, side) = (host.0.clone(), side.0.clone());
            GuestEntry::Against(AgainstEntry { part, side, from, distance, out: of(out), turn: angle(*turn) })
        }
        Place::OnSlope { host, side, along, up, turn } => {
            let (from, distance) = placing(*along, unit);
            let (part, side) = (host.0.clone(), side.0.clone());
            GuestEntry::OnSlope(OnSlopeEntry { part, side, from, distance, up: of(up), turn: angle(*turn) })
        }
        Place::Astride { host, along, turn } => {
            GuestEntry::Astride(AstrideEntry { part: host.0.clone(), along: of(along), turn: angle(*turn) })
        }
        Place::OnTop { host, spot } => {
            let SpotEntry { x, y, turn } = self::spot(spot, unit);
            GuestEntry::OnTop(OnTopEntry { part: host.0.clone(), x, y, turn })
        }
    };
    PlaceEntry::Guest(guest)
}

fn spot(spot: &Spot, unit: Unit) -> SpotEntry {
    SpotEntry { x: length(spot.x, unit), y: length(spot.y, unit), turn: angle(spot.turn) }
}

pub(super) fn angle(angle: Angle) -> AngleEntry {
    AngleEntry::Number(Number(tidy(angle.deg())))
}

pub(super) fn placing(placing: Placing, unit: Unit) -> (FromEntry, LengthEntry) {
    let (from, distance) = match placing {
        Placing::Centred { offset } => (FromEntry::Middle, offset),
        Placing::FromLeft { distance } => (FromEntry::Left, distance),
        Placing::FromRight { distance } => (FromEntry::Right, distance),
    };
    (from, length(distance, unit))
}

fn side(side: &Side, unit: Unit) -> SideEntry {
    let of = |l: Length| Some(length(l, unit));
    let slope = |p: Pitch| Some(pitch(p, unit));
    let posts = side.posts.map(|posts| write_floor::posts(&posts, unit));
    let entry = SideEntry { wall: side.wall, posts, ..SideEntry::default() };
    match side.top {
        Top::Eave { height, pitch, overhang } => SideEntry {
            top: Some(TopEntry::Eave),
            height: of(height),
            pitch: slope(pitch),
            overhang: of(overhang),
            ..entry
        },
        Top::HalfHip { start, pitch, overhang } => SideEntry {
            top: Some(TopEntry::HalfHip),
            start: of(start),
            pitch: slope(pitch),
            overhang: of(overhang),
            ..entry
        },
        Top::Knee { height, lower, knee, upper, overhang } => SideEntry {
            top: Some(TopEntry::Knee),
            height: of(height),
            lower: slope(lower),
            knee: of(knee),
            upper: slope(upper),
            overhang: of(overhang),
            ..entry
        },
        Top::Gable { overhang } => SideEntry { top: Some(TopEntry::Gable), overhang: of(overhang), ..entry },
    }
}

fn lid(lid: &Lid, unit: Unit) -> LidEntry {
    LidEntry {
        height: length(lid.height, unit),
        overhang: length(lid.overhang, unit),
        parapet: lid.parapet.map(|p| ParapetEntry { height: length(p.height, unit) }),
    }
}
