//! Doors and windows, for the file.

use super::types::{
    BarKindEntry, BarsEntry, DoorEntry, GlassEntry, GlazierEntry, HingeEntry, LengthEntry, ModeEntry, Number,
    OpeningEntry, RepeatEntry, ShapeEntry, SurfaceEntry,
};
use super::write::{angle, length, placing};
use crate::{Bars, Door, Glass, Glazier, Hinge, Mode, Opening, Repeat, Shape, Surface, Tier};
use gable_measure::{Length, Unit, tidy};

pub(super) fn opening(opening: &Opening, unit: Unit) -> OpeningEntry {
    let of = |l: Length| Some(length(l, unit));
    let placed = !opening.shape.is_whole_face();
    let (from, distance) = placing(opening.placing, unit);
    let entry = OpeningEntry {
        id: opening.id.0.clone(),
        name: opening.name.clone(),
        side: opening.side.0.clone(),
        face: surface(opening.face),
        shape: ShapeEntry::Rectangle,
        rise: None,
        radius: None,
        sides: None,
        corners: None,
        path: None,
        mirrored: None,
        across: None,
        up: None,
        bar: None,
        width: of(opening.width).filter(|_| placed),
        height: of(opening.height).filter(|_| placed && opening.shape.height_of(opening.width).is_none()),
        sill: of(opening.sill).filter(|_| placed),
        from: Some(from).filter(|_| placed),
        distance: Some(distance).filter(|_| placed),
        repeat: opening.repeat.filter(|_| placed).map(|r| repeat(&r, unit)),
        mode: match opening.mode {
            Mode::Cut => ModeEntry::Cut,
            Mode::Glazed => ModeEntry::Glazed,
            Mode::Pressed => ModeEntry::Pressed,
        },
        glass: glass(opening),
        bars: bars(opening.glazing.bars),
        door: opening.door.map(|d| door(&d, unit)),
    };
    shaped(entry, &opening.shape, unit)
}

/// With the shape and the sizes of its own.
fn shaped(entry: OpeningEntry, shape: &Shape, unit: Unit) -> OpeningEntry {
    let of = |l: Length| Some(length(l, unit));
    let plain = |shape: ShapeEntry, entry: OpeningEntry| OpeningEntry { shape, ..entry };
    match shape {
        Shape::Rectangle => plain(ShapeEntry::Rectangle, entry),
        Shape::RoundHeaded => plain(ShapeEntry::RoundHeaded, entry),
        Shape::Circle => plain(ShapeEntry::Circle, entry),
        Shape::Ellipse => plain(ShapeEntry::Ellipse, entry),
        Shape::Fanlight => plain(ShapeEntry::Fanlight, entry),
        Shape::Segmental { rise } => OpeningEntry { shape: ShapeEntry::Segmental, rise: of(*rise), ..entry },
        Shape::Pointed { radius } => {
            OpeningEntry { shape: ShapeEntry::Pointed, radius: Some(Number(tidy(*radius))), ..entry }
        }
        Shape::Regular { corners } => OpeningEntry { shape: ShapeEntry::Regular, sides: Some(*corners), ..entry },
        Shape::Free { corners } => {
            let corners = corners.iter().map(|c| c.map(|share| Number(tidy(share)))).collect();
            OpeningEntry { shape: ShapeEntry::Free, corners: Some(corners), ..entry }
        }
        Shape::Path { data, mirrored } => OpeningEntry {
            shape: ShapeEntry::Path,
            path: Some(data.clone()),
            mirrored: mirrored.then_some(true),
            ..entry
        },
        Shape::WholeFace { across, up, bar } => {
            OpeningEntry { shape: ShapeEntry::WholeFace, across: Some(*across), up: Some(*up), bar: of(*bar), ..entry }
        }
    }
}

fn surface(face: Surface) -> Option<SurfaceEntry> {
    match face {
        Surface::Wall => None,
        Surface::Slope(Tier::Single) => Some(SurfaceEntry::Slope),
        Surface::Slope(Tier::Lower) => Some(SurfaceEntry::LowerSlope),
        Surface::Slope(Tier::Upper) => Some(SurfaceEntry::UpperSlope),
    }
}

fn repeat(repeat: &Repeat, unit: Unit) -> RepeatEntry {
    let of = |l: Length| -> LengthEntry { length(l, unit) };
    RepeatEntry { across: repeat.across, up: repeat.up, gap: repeat.gap.map(of), gap_up: of(repeat.gap_up) }
}

fn glass(opening: &Opening) -> Option<GlassEntry> {
    match opening.glazing.glass {
        Glass::Leaf => (opening.mode == Mode::Glazed).then_some(GlassEntry::Leaf),
        Glass::Poured => Some(GlassEntry::Poured),
        Glass::Crushed => Some(GlassEntry::Crushed),
    }
}

fn bars(bars: Bars) -> Option<BarsEntry> {
    let (kind, across, up, rays) = match bars {
        Bars::None => return None,
        Bars::Grid { across, up } => (BarKindEntry::Grid, Some(across), Some(up), None),
        Bars::Diamond { across } => (BarKindEntry::Diamond, Some(across), None, None),
        Bars::Fan { rays } => (BarKindEntry::Fan, None, None, Some(rays)),
    };
    Some(BarsEntry { kind, across, up, rays })
}

fn door(door: &Door, unit: Unit) -> DoorEntry {
    let hinge = match door.hinge {
        Hinge::Left => HingeEntry::Left,
        Hinge::Right => HingeEntry::Right,
    };
    DoorEntry { double: door.double, hinge, ajar: angle(door.ajar), clearance: length(door.clearance, unit) }
}

/// Nothing where everything has its usual value.
pub(super) fn glazier(glazier: &Glazier, unit: Unit) -> Option<GlazierEntry> {
    let of = |l: Length| length(l, unit);
    // Tools are the person's, not the house's.
    let Glazier { blade, bridge, .. } = Glazier::default();
    (Glazier { blade, bridge, ..*glazier } != Glazier::default()).then(|| GlazierEntry {
        leaf_length: of(glazier.leaf_length),
        leaf_width: of(glazier.leaf_width),
        margin: of(glazier.margin),
        blade: None,
        bridge: None,
    })
}
