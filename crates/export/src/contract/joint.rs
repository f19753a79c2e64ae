use gable_shell::{Joint, JointEnd, Solved, WedgeSide};
use serde::Serialize;

/// The name of the base board among the ids of pieces.
const BOARD: &str = "board";

/// One joint of the contract.
#[derive(Serialize)]
pub(super) struct JointData<'a> {
    pieces: [&'a str; 2],
    kind: &'static str,
    letter: &'a str,
    line: [[f64; 3]; 2],
    dihedral: f64,
    bevel: f64,
    wedge: WedgeData,
    gap: f64,
}

#[derive(Serialize)]
struct WedgeData {
    side: &'static str,
    width: f64,
    area: f64,
    volume: f64,
}

impl<'a> JointData<'a> {
    pub(super) fn new(solved: &'a Solved, joint: &'a Joint) -> Self {
        let wedge = &joint.wedge;
        Self {
            pieces: [piece_id(solved, &joint.ends[0]), piece_id(solved, &joint.ends[1])],
            kind: joint.kind.word(),
            letter: &joint.letter,
            line: joint.line.map(|p| [p.x, p.y, p.z]),
            dihedral: joint.dihedral.deg(),
            bevel: joint.bevel.deg(),
            wedge: WedgeData {
                side: side(wedge.side),
                width: wedge.width.mm(),
                area: wedge.area,
                volume: wedge.volume,
            },
            gap: joint.gap.mm(),
        }
    }
}

/// The id of one side of a joint.
pub(super) fn piece_id<'a>(solved: &'a Solved, end: &JointEnd) -> &'a str {
    match end {
        JointEnd::Board => BOARD,
        JointEnd::Piece(k) => solved.pieces.get(*k).map_or(BOARD, |p| p.id.0.as_str()),
    }
}

pub(super) fn side(side: WedgeSide) -> &'static str {
    match side {
        WedgeSide::Closed => "closed",
        WedgeSide::Inside => "inside",
        WedgeSide::Outside => "outside",
        WedgeSide::Both => "both",
    }
}
