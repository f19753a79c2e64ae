//! The answers for other programs: masses in g, lengths in mm, forces in N, stresses in N/mm², shares and humidity from 0 to 1.

use gable_measure::Length;
use gable_stand::carry::{Sag, Section};
use gable_stand::fresh::{Bow, Carried};
use gable_stand::light::LitRoom;
use gable_stand::{ABOUT_CAKE, Range, Report, Site, Told, Tried};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct StandData<'a> {
    humidity: f64,
    days: f64,
    worst: &'static str,
    answers: Vec<AnswerData<'a>>,
    joints: Vec<JointData<'a>>,
    tried: Vec<TriedData<'a>>,
    spares: Vec<SpareData<'a>>,
    advice: &'a [String],
    keep_below: Option<f64>,
    carry: CarryData,
    sections: Vec<SectionData<'a>>,
    rooms: Vec<RoomData<'a>>,
    note: &'static str,
}

/// Least, usual and most; nothing where it could not be worked out.
#[derive(Serialize)]
struct RangeData {
    low: Option<f64>,
    usual: Option<f64>,
    high: Option<f64>,
}

#[derive(Serialize)]
struct AnswerData<'a> {
    matter: &'static str,
    class: &'static str,
    piece: Option<&'a str>,
    joint: Option<&'a str>,
    name: &'a str,
    at: Option<[f64; 3]>,
    number: RangeData,
    unit: &'static str,
    /// Of what can be carried; 1 is the limit.
    share: RangeData,
    reason: &'a str,
    remedy: &'a str,
}

#[derive(Serialize)]
struct JointData<'a> {
    joint: &'a str,
    letter: &'a str,
    load: Option<f64>,
    hangs: Option<f64>,
    area: Option<f64>,
    stress: Option<f64>,
    /// How far its middle may stand off.
    bow: Option<RangeData>,
}

/// A change of the house that was tried and helps.
#[derive(Serialize)]
struct TriedData<'a> {
    piece: &'a str,
    matter: &'static str,
    change: String,
    before: RangeData,
    after: RangeData,
    class: &'static str,
}

#[derive(Serialize)]
struct SpareData<'a> {
    template: usize,
    pieces: Vec<&'a str>,
    because: &'a str,
}

#[derive(Serialize)]
struct CarryData {
    house: f64,
    board: f64,
    board_kind: &'static str,
    board_size: Option<[f64; 2]>,
    middle: Option<[f64; 3]>,
    off_middle: [f64; 2],
    height: f64,
    box_size: [f64; 3],
    sag_by_sides: Option<RangeData>,
    sag_by_front_and_back: Option<RangeData>,
}

#[derive(Serialize)]
struct SectionData<'a> {
    parts: Vec<&'a str>,
    mass: f64,
    way: Option<[f64; 3]>,
    seams: Vec<&'a str>,
}

#[derive(Serialize)]
struct RoomData<'a> {
    parts: Vec<&'a str>,
    windows: usize,
    has_cable: bool,
    from_below: bool,
    by_hand: bool,
}

impl From<Range> for RangeData {
    fn from(range: Range) -> Self {
        // What JSON has no number for is beyond every limit.
        let finite = |v: f64| if v.is_nan() { None } else { Some(v.min(f64::MAX)) };
        Self { low: finite(range.low), usual: finite(range.usual), high: finite(range.high) }
    }
}

impl<'a> StandData<'a> {
    pub(super) fn new(report: &'a Report, site: &'a Site<'a>) -> Self {
        let solved = site.about.solved;
        let joint = |(k, joint): (usize, &'a gable_shell::Joint)| {
            let carried: Option<&Carried> = report.carried.iter().find(|c| c.joint == k);
            let bow: Option<&Bow> = report.bows.iter().find(|b| b.joint == k);
            JointData {
                joint: &joint.id.0,
                letter: &joint.letter,
                load: carried.map(|c| c.load),
                hangs: carried.map(|c| c.hangs),
                area: carried.map(|c| c.area),
                stress: carried.map(Carried::stress),
                bow: bow.map(|b| b.forgives.into()),
            }
        };
        let spare = |s: &'a gable_stand::lift::Spare| SpareData {
            template: s.template,
            pieces: s.pieces.iter().map(|&k| solved.pieces[k].id.0.as_str()).collect(),
            because: &s.because,
        };
        Self {
            humidity: report.ask.air.humidity,
            days: report.ask.air.days,
            worst: report.worst().words(),
            answers: report.told.iter().map(|t| answer(t, site)).collect(),
            joints: solved.joints.iter().enumerate().map(joint).collect(),
            tried: report.tried.iter().map(|t| tried(t, site)).collect(),
            spares: report.spares.iter().map(spare).collect(),
            advice: &report.advice,
            keep_below: report.keep_below,
            carry: carry(report),
            sections: report.sections.iter().map(|s| section(s, site)).collect(),
            rooms: report.rooms.iter().map(room).collect(),
            note: ABOUT_CAKE,
        }
    }
}

fn answer<'a>(told: &'a Told, site: &Site<'a>) -> AnswerData<'a> {
    let place = &told.answer.place;
    AnswerData {
        matter: told.matter.word(),
        class: told.class().words(),
        piece: place.piece.map(|k| site.about.solved.pieces[k].id.0.as_str()),
        joint: place.joint.map(|k| site.about.solved.joints[k].id.0.as_str()),
        name: &place.name,
        at: place.at.map(|p| [p.x, p.y, p.z]),
        number: told.answer.number.into(),
        unit: told.unit,
        share: told.answer.share.into(),
        reason: &told.answer.reason,
        remedy: &told.remedy,
    }
}

fn tried<'a>(tried: &'a Tried, site: &Site<'a>) -> TriedData<'a> {
    TriedData {
        piece: &tried.piece.0,
        matter: tried.matter.word(),
        change: tried.change.words(site.about.house),
        before: tried.before.into(),
        after: tried.after.into(),
        class: tried.class.words(),
    }
}

fn carry(report: &Report) -> CarryData {
    let carry = &report.carry;
    let sag = |s: &Option<Sag>| s.as_ref().map(|s| s.most.into());
    CarryData {
        house: carry.house.g(),
        board: carry.board.g(),
        board_kind: carry.kind.word,
        board_size: carry.board_size.map(|(w, d)| [w.mm(), d.mm()]),
        middle: carry.middle.map(|p| [p.x, p.y, p.z]),
        off_middle: [carry.off.0.mm(), carry.off.1.mm()],
        height: carry.height.mm(),
        box_size: carry.box_size.map(Length::mm),
        sag_by_sides: sag(&carry.by_sides),
        sag_by_front_and_back: sag(&carry.by_front_and_back),
    }
}

fn section<'a>(section: &'a Section, site: &Site<'a>) -> SectionData<'a> {
    SectionData {
        parts: section.parts.iter().map(|p| p.0.as_str()).collect(),
        mass: section.mass.g(),
        way: section.way.map(|w| [w.x, w.y, w.z]),
        seams: section.seams.iter().map(|&j| site.about.solved.joints[j].id.0.as_str()).collect(),
    }
}

fn room(room: &LitRoom) -> RoomData<'_> {
    RoomData {
        parts: room.parts.iter().map(|p| p.0.as_str()).collect(),
        windows: room.windows.len(),
        has_cable: room.has_cable,
        from_below: room.from_below,
        by_hand: room.by_hand,
    }
}
