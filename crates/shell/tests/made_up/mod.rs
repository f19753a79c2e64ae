//! Houses made up from sizes that people type, for whatever a file must hold.

use crate::UNITS;
use gable_measure::{Angle, Length, Pitch};
use gable_shell::{
    Bars, Before, Behind, Corners, Decided, Door, Dough, DoughId, Dressing, FloorKind, Gives, Glass, Glazier, Glazing,
    Hinge, House, Lid, Measure, Measured, Mode, Opening, OpeningId, Outline, Owner, Parapet, Part, PartId, PieceId,
    PieceKind, Place, Placing, Posts, Raised, Relation, Repeat, Ridges, RoofForm, Shape, Spot, Steps, StepsHigh,
    Surface, Tier, Top,
};
use proptest::prelude::*;

/// Sizes that people type: sixteenths and thirty-seconds, tenths of a millimetre, and whatever a drag leaves.
fn size(least: f64, most: f64) -> impl Strategy<Value = Length> {
    prop_oneof![
        (least..most).prop_map(|mm| Length::inches((mm / 25.4 * 32.0).round() / 32.0 + 1.0)),
        (least..most).prop_map(|mm| Length::mm_of((mm * 10.0).round() / 10.0 + 1.0)),
        (least..most).prop_map(Length::mm_of),
    ]
}

fn pitch() -> impl Strategy<Value = Pitch> {
    prop_oneof![
        (5.0..80.0).prop_map(|d| Pitch::Angle(Angle::degrees(d))),
        (4.0..24.0).prop_map(|rise| Pitch::RiseInRun { rise, run: 12.0 }),
        size(100.0, 300.0).prop_map(Pitch::RidgeHeight),
    ]
}

fn outline() -> impl Strategy<Value = Outline> {
    let free = (40.0..60.0, 0.0..1.0).prop_map(|(r, turn): (f64, f64)| {
        let at = |k: u8| (turn + f64::from(k) * std::f64::consts::TAU / 7.0).sin_cos();
        Outline::Free { corners: (0..7).map(at).map(|(s, c)| (Length::mm_of(r * c), Length::mm_of(r * s))).collect() }
    });
    prop_oneof![
        (size(60.0, 400.0), size(60.0, 400.0)).prop_map(|(width, depth)| Outline::Rectangle { width, depth }),
        (3_u8..=24, size(35.0, 60.0)).prop_map(|(sides, side)| Outline::Polygon { sides, side }),
        (2_u8..=12, size(60.0, 400.0)).prop_map(|(sides, width)| Outline::HalfPolygon { sides, width }),
        free,
    ]
}

fn part() -> impl Strategy<Value = Part> {
    let sizes = (size(20.0, 300.0), size(0.0, 30.0), pitch(), size(0.0, 500.0), -360.0..360.0);
    let choices = (0_usize..4, 0_usize..3, 0_usize..3, any::<bool>(), any::<bool>(), 0_usize..RoofForm::ALL.len());
    (outline(), sizes, choices).prop_map(|(outline, (height, overhang, pitch, far, turn), choices)| {
        let (corners, ridges, floor, level_eaves, lid, form) = choices;
        let mut part = Part::plain("main", "Main body", outline, Top::Eave { height, pitch, overhang });
        RoofForm::ALL[form].apply(&mut part);
        part.place = Place::Ground(Spot { x: far, y: -far, turn: Angle::degrees(turn) });
        part.corners = [Corners::Lap, Corners::LapAround, Corners::Mitre, Corners::SquareMitre][corners];
        part.ridges = [Ridges::Open, Ridges::Bevelled, Ridges::Lapped][ridges];
        part.floor.kind = [FloorKind::None, FloorKind::Inside, FloorKind::Under][floor];
        part.level_eaves = level_eaves;
        part.sides[1].wall = !level_eaves;
        part.sides[1].posts = level_eaves.then_some(Posts {
            count: 2 + ridges as u8,
            width: height / 9.0,
            strips: 1 + corners as u8,
            at_ends: lid,
        });
        if floor == 2 {
            let high = if lid { StepsHigh::Count(3) } else { StepsHigh::Height(height) };
            let sides = vec![part.sides[0].id.clone()];
            part.floor.steps = Some(Steps { high, plates: 1 + ridges as u8, tread: height / 3.0, sides });
        }
        if lid {
            part.lid = Some(Lid { height, overhang, parapet: level_eaves.then_some(Parapet { height }) });
        }
        part.openings = openings(&part, height);
        part
    })
}

fn openings(part: &Part, height: Length) -> Vec<Opening> {
    let distance = height / 3.0;
    let placings =
        [Placing::Centred { offset: -distance }, Placing::FromLeft { distance }, Placing::FromRight { distance }];
    let opening = |(k, placing): (usize, &Placing)| Opening {
        id: OpeningId(format!("window-{k}")),
        name: format!("Window {k}"),
        side: part.sides[k].id.clone(),
        shape: if k == 1 { Shape::RoundHeaded } else { Shape::Rectangle },
        face: if k == 2 { Surface::Slope(Tier::Upper) } else { Surface::Wall },
        repeat: (k == 0).then_some(Repeat { across: 3, gap: Some(distance), ..Repeat::default() }),
        width: height / 4.0,
        height: height / 2.0,
        sill: height / 7.0,
        placing: *placing,
        mode: if k == 2 { Mode::Pressed } else { Mode::Cut },
        ..Opening::default()
    };
    placings.iter().enumerate().map(opening).chain(shapes(part, height)).collect()
}

/// One opening of every shape, and of everything that can be in one.
fn shapes(part: &Part, height: Length) -> Vec<Opening> {
    let shapes = [
        Shape::Segmental { rise: height / 11.0 },
        Shape::Pointed { radius: 1.3 },
        Shape::Circle,
        Shape::Ellipse,
        Shape::Fanlight,
        Shape::Regular { corners: 7 },
        Shape::Free { corners: vec![[0.0, 0.0], [1.0, 0.1], [0.3, 1.0]] },
        Shape::WholeFace { across: 3, up: 2, bar: height / 9.0 },
    ];
    let bars = [Bars::None, Bars::Grid { across: 3, up: 2 }, Bars::Diamond { across: 4 }, Bars::Fan { rays: 5 }];
    let door = Door { double: false, hinge: Hinge::Right, ajar: Angle::degrees(35.0), clearance: height / 90.0 };
    let opening = |(k, shape): (usize, Shape)| {
        let mut opening = Opening {
            id: OpeningId(format!("shape-{k}")),
            name: format!("Shape {k}"),
            side: part.sides[0].id.clone(),
            width: height / 4.0,
            height: height / 2.0,
            mode: if k % 2 == 0 { Mode::Glazed } else { Mode::Cut },
            glazing: Glazing { glass: [Glass::Leaf, Glass::Poured, Glass::Crushed][k % 3], bars: bars[k % 4] },
            door: (k % 3 == 1).then_some(door),
            repeat: (k == 3).then_some(Repeat { up: 2, ..Repeat::default() }),
            shape,
            ..Opening::default()
        };
        opening.settle();
        opening
    };
    shapes.into_iter().enumerate().map(opening).collect()
}

/// Where a part stands by another one, and what belongs to it: way, host and side as numbers, sizes, choices.
type Standing = ((usize, usize, usize, usize), (Length, Length, f64), (bool, bool, bool));

fn standing() -> impl Strategy<Value = Standing> {
    let picks = (0_usize..5, any::<usize>(), any::<usize>(), 0_usize..3);
    let sizes = (size(-90.0, 300.0), size(0.0, 70.0), -360.0..360.0);
    (picks, sizes, any::<(bool, bool, bool)>())
}

/// Makes a part of its own out of another main body, standing by one of the parts before it.
fn stand(part: &mut Part, before: &[Part], standing: &Standing) {
    let ((way, host, side, from), (along, rim, turn), (stays_whole, passage, raised)) = *standing;
    let host = &before[host % before.len()];
    let side = host.sides[side % host.sides.len()].id.clone();
    let distance = along;
    let placing =
        [Placing::Centred { offset: along }, Placing::FromLeft { distance }, Placing::FromRight { distance }][from];
    let (host, turn) = (host.id.clone(), Angle::degrees(turn));
    part.id = PartId(format!("part-{}", before.len()));
    part.place = match way {
        0 => Place::Against { host, side, along: placing, out: rim, turn },
        1 => Place::OnSlope { host, side, along: placing, up: rim, turn },
        2 => Place::Astride { host, along, turn },
        3 => Place::OnTop { host, spot: Spot { x: along, y: -rim, turn } },
        _ => part.place.clone(),
    };
    part.stays_whole = stays_whole;
    part.locked = stays_whole != raised;
    part.behind = if passage { Behind::Passage { rim } } else { Behind::Whole };
    part.raised = if raised { rim / 3.0 } else { Length::ZERO };
}

fn parts() -> impl Strategy<Value = Vec<Part>> {
    (part(), prop::collection::vec((part(), standing()), 0..4)).prop_map(|(main, guests)| {
        let mut parts = vec![main];
        for (mut part, standing) in guests {
            stand(&mut part, &parts, &standing);
            parts.push(part);
        }
        parts
    })
}

/// A relation of each kind from each part to the one before it.
fn relations(parts: &[Part], offset: Length) -> Vec<Relation> {
    let pair = |pair: &[Part]| {
        let of = |k: usize, measure| Measured { part: pair[k].id.clone(), measure };
        let side = |k: usize| Measure::Eave(pair[k].sides.first().map(|s| s.id.clone()));
        let follows = |one, other, gives| Relation { follower: of(1, one), leader: of(0, other), offset, gives };
        [
            follows(Measure::Width, Measure::Depth, Gives::Walls),
            follows(Measure::Depth, Measure::Width, Gives::Walls),
            follows(Measure::Eave(None), side(0), Gives::Walls),
            follows(side(1), Measure::Lid, Gives::Walls),
            follows(Measure::Ridge, Measure::Ridge, Gives::Pitch),
            follows(Measure::Lid, Measure::Eave(None), Gives::Walls),
        ]
    };
    parts.windows(2).flat_map(pair).collect()
}

pub(crate) fn house() -> impl Strategy<Value = House> {
    let rolled = (1.5..4.0).prop_map(Length::mm_of);
    (0_usize..3, parts(), rolled, 0.5..3.0, 0.0..1.0_f64).prop_map(|(unit, parts, rolled, rise, gap)| {
        let doughs = ["walls", "roofs"].map(|id| Dough { id: DoughId(id.into()), rolled, rise });
        let owner = Owner { title: "Net store".into(), ..Owner::default() };
        let pairs = parts.windows(2).filter(|pair| pair[1].stays_whole);
        let decided = pairs.map(|pair| Decided { whole: pair[0].id.clone(), cut: pair[1].id.clone() }).collect();
        let raised = parts.windows(2).map(|pair| Before {
            first: Raised::Kind(pair[1].id.clone(), PieceKind::Walls),
            then: Raised::Piece(PieceId(format!("{}/roof-back", pair[0].id.0))),
        });
        let order = raised.collect();
        let relations = relations(&parts, Length::mm_of(gap * 20.0 - 10.0));
        let mm = |more: f64| Length::mm_of(gap + more);
        let glazier = Glazier { leaf_length: mm(180.0), leaf_width: mm(60.0), margin: mm(4.0), ..Glazier::default() };
        House {
            owner,
            unit: UNITS[unit],
            gap: Length::mm_of(gap),
            doughs: doughs.to_vec(),
            parts,
            decided,
            relations,
            order,
            baked: vec![],
            dressing: Dressing { glazier, ..Dressing::default() },
        }
    })
}
