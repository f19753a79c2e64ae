//! Puts the pieces and joints of a part into the house: ids, letters, what each edge belongs to.

use super::draft::{Draft, JointDraft};
use super::part::PartSolution;
use super::plan::level;
use crate::{EdgeKind, Joint, JointEnd, JointId, Part, Piece, PieceId, Role, Solved, SolvedPart, Tier, Wedge};
use gable_measure::{Angle, Length};
use gable_plane::{Rigid, Solid, V2, V3};

/// Adds a part's pieces and joints to the house.
pub(super) fn add(solved: &mut Solved, part: &Part, solution: PartSolution) {
    let place = solution.stand.house_from_part;
    let first_piece = solved.pieces.len();
    let plan = solution.plan.iter().map(|&p| (place * level(p, 0.0)).xy()).collect();
    let ridge_height = Length::mm_of(solution.ridge_height);
    solved.parts.push(SolvedPart {
        id: part.id.clone(),
        name: part.name.clone(),
        house_from_part: place,
        plan,
        ridge_height,
    });
    let normals: Vec<V3> = solution.drafts.iter().map(Draft::outward).collect();
    solved.pieces.extend(solution.drafts.into_iter().map(|draft| piece(part, &place, draft)));
    for draft in solution.joints {
        let index = solved.joints.len();
        for &(piece, edge) in &draft.edges {
            if let Some(kind) = solved.pieces.get_mut(first_piece + piece).and_then(|p| p.edges.get_mut(edge)) {
                *kind = EdgeKind::Joint(index);
            }
        }
        let joint = joint(solved, first_piece, &normals, &place, draft);
        solved.joints.push(joint);
    }
}

fn piece(part: &Part, place: &Rigid, draft: Draft) -> Piece {
    Piece {
        id: PieceId(format!("{}/{}", part.id.0, local_id(&draft.role))),
        name: draft.name,
        part: part.id.clone(),
        role: draft.role,
        group: 0,
        dough: draft.dough.id.clone(),
        rolled: draft.dough.rolled,
        thickness: Length::mm_of(draft.plate.thickness),
        edges: vec![EdgeKind::Free; draft.front.len()],
        outline: draft.front,
        outline_back: draft.back,
        openings: draft.openings,
        notches: draft.notches,
        house_from_piece: place * draft.plate.frame.rigid(),
        up: V2::y(),
    }
}

fn local_id(role: &Role) -> String {
    match role {
        Role::Floor => "floor".to_owned(),
        Role::Wall(side) => format!("wall-{}", side.0),
        Role::Slope(side, Tier::Single) => format!("roof-{}", side.0),
        Role::Slope(side, Tier::Lower) => format!("roof-{}-lower", side.0),
        Role::Slope(side, Tier::Upper) => format!("roof-{}-upper", side.0),
        Role::Lid => "lid".to_owned(),
        Role::Parapet(side) => format!("parapet-{}", side.0),
    }
}

fn joint(solved: &Solved, first_piece: usize, normals: &[V3], place: &Rigid, draft: JointDraft) -> Joint {
    let ends = [
        draft.first.map_or(JointEnd::Board, |d| JointEnd::Piece(first_piece + d)),
        JointEnd::Piece(first_piece + draft.second),
    ];
    // The base board counts as a floor: its outside looks down.
    let normal = |d: Option<usize>| d.map_or(-V3::z(), |d| normals[d]);
    let dihedral = std::f64::consts::PI - normal(draft.first).angle(&normals[draft.second]);
    let from_square = |turn: f64| if draft.halved { turn / 2.0 } else { (std::f64::consts::FRAC_PI_2 - turn).abs() };
    let length = (draft.line[1] - draft.line[0]).norm();
    let volume: f64 = draft.icing.iter().map(Solid::volume).sum();
    Joint {
        id: joint_id(solved, &ends, &draft),
        letter: String::new(),
        kind: draft.kind,
        line: draft.line.map(|p| place * p),
        dihedral: Angle::radians(dihedral),
        bevel: Angle::radians(from_square(std::f64::consts::PI - dihedral)),
        wedge: Wedge {
            side: draft.wedge.0,
            width: Length::mm_of(draft.wedge.1),
            area: if length > 0.0 { volume / length } else { 0.0 },
            volume,
        },
        gap: Length::mm_of(draft.gap),
        icing: draft.icing.iter().map(|s| s.moved(place)).collect(),
        ends,
    }
}

fn joint_id(solved: &Solved, ends: &[JointEnd; 2], draft: &JointDraft) -> JointId {
    let name = |end: &JointEnd| match end {
        JointEnd::Piece(p) => solved.pieces.get(*p).map_or_else(String::new, |p| p.id.0.clone()),
        JointEnd::Board => "board".to_owned(),
    };
    let kind = format!("{:?}", draft.kind).to_lowercase();
    let plain = format!("{kind} {} {}", name(&ends[0]), name(&ends[1]));
    let same = solved.joints.iter().filter(|j| j.id.0 == plain || j.id.0.starts_with(&format!("{plain} "))).count();
    JointId(if same == 0 { plain } else { format!("{plain} {}", same + 1) })
}

/// Puts the joints into the order of their letters and letters them.
pub(super) fn letter(solved: &mut Solved) {
    let mut order: Vec<usize> = (0..solved.joints.len()).collect();
    order.sort_by(|&a, &b| {
        let key = |j: usize| (solved.joints[j].kind, &solved.joints[j].ends, &solved.joints[j].id);
        key(a).cmp(&key(b))
    });
    let mut new_index = vec![0; order.len()];
    order.iter().enumerate().for_each(|(new, &old)| new_index[old] = new);
    for edge in solved.pieces.iter_mut().flat_map(|p| p.edges.iter_mut()) {
        if let EdgeKind::Joint(index) = edge {
            *index = new_index[*index];
        }
    }
    solved.joints = order.iter().map(|&old| solved.joints[old].clone()).collect();
    for (index, joint) in solved.joints.iter_mut().enumerate() {
        joint.letter = letters(index);
    }
}

/// A … Z, AA, AB …
fn letters(index: usize) -> String {
    let letter = |k: usize| char::from(b'A' + u8::try_from(k % 26).unwrap_or(0));
    if index < 26 { letter(index).to_string() } else { format!("{}{}", letters(index / 26 - 1), letter(index)) }
}
