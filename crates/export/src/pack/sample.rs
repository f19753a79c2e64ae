//! A box with a gable roof, made by hand, so that these tests need no solver.

use gable_measure::{Angle, Length, Unit};
use gable_plane::{Contour, P2, P3, Rigid, V2, V3};
use gable_shell::{
    Dough, DoughId, EdgeKind, Group, House, Joint, JointEnd, JointId, JointKind, Member, Mode, OpeningId, Owner, Part,
    PartId, Piece, PieceId, PieceOpening, Role, SideId, Solved, SolvedPart, Tier, Wedge, WedgeSide,
};

const THICK: f64 = 6.0;

/// The house and what is worked out for it, `scale` times 160 × 220 mm.
pub(crate) fn gable_box(scale: f64) -> (House, Solved) {
    let (w, d, h) = (160.0 * scale, 220.0 * scale, 100.0 * scale);
    let ridge = h + w / 2.0 * Angle::degrees(40.0).tan();
    let gable =
        [(-w / 2.0, 0.0), (w / 2.0, 0.0), (w / 2.0, h), (0.0, ridge), (-w / 2.0, h)].map(|(x, y)| P2::new(x, y));
    let side = [(0.0, 0.0), (d, 0.0), (d, h), (0.0, h)].map(|(x, y)| P2::new(x, y));
    let slope = [(0.0, 0.0), (d + 30.0, 0.0), (d + 30.0, w * 0.8), (0.0, w * 0.8)].map(|(x, y)| P2::new(x, y));
    let window = |x: f64| opening(x, 30.0 * scale, 30.0, 45.0, Mode::Cut);
    let pieces = vec![
        wall("front", &gable, [0, 1, 2, 3, 4], vec![window(-50.0), opening(5.0, 0.3 * h, 36.0, 60.0, Mode::Pressed)]),
        wall("back", &gable, [5, 6, 7, 8, 9], vec![window(-50.0), opening(5.0, 0.3 * h, 36.0, 60.0, Mode::Pressed)]),
        wall("right", &side, [10, 1, 11, 5], vec![window(20.0)]),
        wall("left", &side, [12, 5, 13, 1], vec![window(d - 50.0)]),
        roof("right", &slope, [11, 3, 14, 7]),
        roof("left", &slope, [13, 8, 14, 2]),
    ];
    let group = |number, members: &[(usize, bool, usize)]| {
        let members = members.iter().map(|&(piece, turned_over, start)| Member { piece, turned_over, start });
        Group { number, members: members.collect() }
    };
    let same = |piece| (piece, false, 0);
    let solved = Solved {
        unit: Unit::Millimetre,
        gap: Length::mm_of(0.8),
        parts: vec![SolvedPart {
            id: PartId("main".into()),
            name: "Main body".into(),
            plan: Vec::new(),
            house_from_part: gable_plane::Rigid::identity(),
            ridge_height: Length::mm_of(ridge),
        }],
        joints: (0..15).map(|k| joint(k, &pieces)).collect(),
        pieces,
        // Mirrored, the lower left corner of a side wall lies on the lower right one of the other.
        groups: vec![group(1, &[same(0), same(1)]), group(2, &[same(2), (3, true, 1)]), group(3, &[same(4), same(5)])],
        findings: Vec::new(),
        wishes: Vec::new(),
        offers: vec![],
        changes: vec![],
    };
    (house(), solved)
}

fn house() -> House {
    House {
        owner: Owner {
            title: "Boat hut “Pâquerette”".into(),
            edition: "2".into(),
            credit: "The harbour pilots of Gannet Sound".into(),
            after: String::new(),
            licence: "CC BY-SA 4.0".into(),
            notes: "Roof boards: 8½\" long, 33.7° steep.".into(),
        },
        unit: Unit::Millimetre,
        gap: Length::mm_of(0.8),
        doughs: ["walls", "roof"]
            .map(|id| Dough { id: DoughId(id.into()), rolled: Length::mm_of(5.0), rise: 1.2 })
            .to_vec(),
        parts: Vec::<Part>::new(),
        decided: vec![],
        order: vec![],
        relations: vec![],
        baked: vec![],
        dressing: Default::default(),
    }
}

fn opening(x: f64, y: f64, w: f64, h: f64, mode: Mode) -> PieceOpening {
    let contour = Contour::round_headed(P2::new(x, y), P2::new(x + w, y + h)).unwrap();
    PieceOpening { id: OpeningId("w".into()), copy: 0, name: "window".into(), contour, mode }
}

fn wall<const N: usize>(side: &str, outline: &[P2], joints: [usize; N], openings: Vec<PieceOpening>) -> Piece {
    piece(Role::Wall(SideId(side.into())), &format!("wall-{side}"), format!("{side} wall"), outline, joints, openings)
}

fn roof<const N: usize>(side: &str, outline: &[P2], joints: [usize; N]) -> Piece {
    let role = Role::Slope(SideId(side.into()), Tier::Single);
    piece(role, &format!("slope-{side}"), format!("{side} slope"), outline, joints, Vec::new())
}

fn piece<const N: usize>(
    role: Role,
    id: &str,
    name: String,
    outline: &[P2],
    joints: [usize; N],
    openings: Vec<PieceOpening>,
) -> Piece {
    let dough = if matches!(role, Role::Wall(_)) { "walls" } else { "roof" };
    Piece {
        id: PieceId(format!("main/{id}")),
        name: format!("Main body: {name}"),
        part: PartId("main".into()),
        baked: false,
        role,
        group: 0,
        dough: DoughId(dough.into()),
        rolled: Length::mm_of(5.0),
        thickness: Length::mm_of(THICK),
        outline: outline.to_vec(),
        outline_back: outline.to_vec(),
        edges: joints.map(EdgeKind::Joint).to_vec(),
        openings,
        notches: Vec::new(),
        house_from_piece: Rigid::new(V3::new(1.0, 2.0, 3.0), V3::new(0.0, std::f64::consts::FRAC_PI_2, 0.0)),
        up: V2::y(),
    }
}

/// Between the pieces that have an edge in it, or of one piece and the base board.
fn joint(k: usize, pieces: &[Piece]) -> Joint {
    let with = |p: &usize| pieces[*p].edges.contains(&EdgeKind::Joint(k));
    let mut ends = (0..pieces.len()).filter(with).map(JointEnd::Piece);
    let mut end = || ends.next().unwrap_or(JointEnd::Board);
    Joint {
        id: JointId(format!("joint-{k}")),
        letter: super::letters(k, b'A'),
        kind: JointKind::Corner,
        ends: [end(), end()],
        line: [P3::origin(), P3::new(0.0, 0.0, 100.0)],
        dihedral: Angle::RIGHT,
        bevel: Angle::ZERO,
        wedge: Wedge { side: WedgeSide::Closed, width: Length::ZERO, area: 4.8, volume: 480.0 },
        gap: Length::mm_of(0.8),
        icing: Vec::new(),
    }
}
