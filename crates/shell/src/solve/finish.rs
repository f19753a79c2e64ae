//! Puts the pieces and joints of a part into the house: ids, letters, what each edge belongs to.

use super::draft::{Draft, JointDraft};
use super::meet::Contact;
use super::part::PartSolution;
use super::plan::level;
use crate::{
    EdgeKind, House, Joint, JointEnd, JointId, JointKind, Mode, OpeningId, Part, Piece, PieceId, PieceOpening, Role,
    Solved, SolvedPart, Tier, Wedge, WedgeSide,
};
use gable_measure::{Angle, Length};
use gable_plane::{Contour, P3, Rigid, Solid, V2, V3};
use gable_words::tr;
use std::collections::BTreeMap;

/// Where the drafts of a part went: per draft the index of its piece, none when nothing is left of it.
pub(super) type Pieces = Vec<Option<usize>>;

/// Adds a part's pieces and joints to the house.
pub(super) fn add(house: &House, solved: &mut Solved, part: &Part, solution: PartSolution) -> Pieces {
    let place = solution.stand.house_from_part;
    let mut next = solved.pieces.len();
    let number = |draft: &Draft| {
        let here = (!draft.is_gone()).then_some(next);
        next += usize::from(here.is_some());
        here
    };
    let pieces: Pieces = solution.drafts.iter().map(number).collect();
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
    let left = solution.drafts.into_iter().filter(|d| !d.is_gone());
    solved.pieces.extend(left.map(|draft| piece(house, part, &place, draft)));
    for draft in solution.joints {
        let edges: Vec<_> = draft.edges.iter().filter_map(|&(d, edge)| Some((pieces[d]?, edge))).collect();
        if let Some(joint) = joint(solved, &pieces, &normals, &place, draft) {
            push(solved, joint, &edges);
        }
    }
    pieces
}

/// Adds the joints between parts; `pieces` has the pieces of every part.
pub(super) fn add_contacts(solved: &mut Solved, pieces: &[Pieces], contacts: Vec<Contact>) {
    for contact in contacts {
        let index = |(part, draft): (usize, usize)| pieces.get(part)?.get(draft).copied().flatten();
        let (Some(first), Some(second)) = (index(contact.first), index(contact.second)) else { continue };
        let ends = [JointEnd::Piece(first), JointEnd::Piece(second)];
        let joint = Joint {
            id: joint_id(solved, &ends, contact.kind),
            letter: String::new(),
            kind: contact.kind,
            ends,
            line: contact.line,
            dihedral: Angle::radians(contact.dihedral),
            bevel: Angle::radians(contact.bevel),
            wedge: wedge(contact.wedge, &contact.icing, &contact.line),
            gap: solved.gap,
            icing: contact.icing,
        };
        let edges: Vec<_> = contact.edge.map(|edge| (second, edge)).into_iter().collect();
        push(solved, joint, &edges);
    }
}

fn push(solved: &mut Solved, joint: Joint, edges: &[(usize, usize)]) {
    for &(piece, edge) in edges {
        if let Some(kind) = solved.pieces.get_mut(piece).and_then(|p| p.edges.get_mut(edge)) {
            *kind = EdgeKind::Joint(solved.joints.len());
        }
    }
    solved.joints.push(joint);
}

fn wedge((side, width): (WedgeSide, f64), icing: &[Solid], line: &[P3; 2]) -> Wedge {
    let volume: f64 = icing.iter().map(Solid::volume).sum();
    let length = (line[1] - line[0]).norm();
    Wedge { side, width: Length::mm_of(width), area: if length > 0.0 { volume / length } else { 0.0 }, volume }
}

fn piece(house: &House, part: &Part, place: &Rigid, draft: Draft) -> Piece {
    let (id, name) = match draft.fragment {
        None => (local_id(&draft.role), draft.name),
        Some(number) => (format!("{}-{number}", local_id(&draft.role)), format!("{} ({number})", draft.name)),
    };
    let holes = draft.holes.into_iter().map(|hole| {
        let by = hole.part.map(|p| &house.parts[p]);
        PieceOpening {
            id: OpeningId(by.map_or_else(|| "hole".to_owned(), |p| p.id.0.clone())),
            copy: 0,
            name: by.map_or_else(|| tr!("Hole").to_owned(), |p| p.name.clone()),
            contour: Contour::polygon(&hole.ring),
            mode: Mode::Cut,
        }
    });
    let openings = draft.openings.into_iter().chain(holes).collect();
    let full_id = PieceId(format!("{}/{id}", part.id.0));
    Piece {
        id: full_id.clone(),
        name,
        part: part.id.clone(),
        baked: house.is_baked(&part.id, &draft.role, &full_id),
        role: draft.role,
        group: 0,
        dough: draft.dough.id.clone(),
        rolled: draft.dough.rolled,
        thickness: Length::mm_of(draft.plate.thickness),
        edges: vec![EdgeKind::Free; draft.front.len()],
        outline: draft.front,
        outline_back: draft.back,
        openings,
        notches: draft.notches,
        house_from_piece: place * draft.plate.frame.rigid(),
        up: V2::y(),
    }
}

fn local_id(role: &Role) -> String {
    match role {
        Role::Floor => "floor".to_owned(),
        Role::Layer(number) => format!("floor-plate-{number}"),
        Role::Post(side, number, None) => format!("post-{}-{number}", side.0),
        Role::Post(side, number, Some(strip)) => format!("post-{}-{number}{}", side.0, char::from(b'a' + strip % 26)),
        Role::Wall(side) => format!("wall-{}", side.0),
        Role::Slope(side, Tier::Single) => format!("roof-{}", side.0),
        Role::Slope(side, Tier::Lower) => format!("roof-{}-lower", side.0),
        Role::Slope(side, Tier::Upper) => format!("roof-{}-upper", side.0),
        Role::Lid => "lid".to_owned(),
        Role::Parapet(side) => format!("parapet-{}", side.0),
    }
}

/// `None` when one of its pieces is gone.
fn joint(solved: &Solved, pieces: &Pieces, normals: &[V3], place: &Rigid, draft: JointDraft) -> Option<Joint> {
    let first = match draft.first {
        None => JointEnd::Board,
        Some(d) => JointEnd::Piece(pieces[d]?),
    };
    let ends = [first, JointEnd::Piece(pieces[draft.second]?)];
    // The base board counts as a floor: its outside looks down.
    let normal = |d: Option<usize>| d.map_or(-V3::z(), |d| normals[d]);
    let dihedral = std::f64::consts::PI - normal(draft.first).angle(&normals[draft.second]);
    let from_square = |turn: f64| match (draft.kind, draft.halved) {
        (JointKind::Layer, _) => 0.0,
        (_, true) => turn / 2.0,
        (_, false) => (std::f64::consts::FRAC_PI_2 - turn).abs(),
    };
    Some(Joint {
        id: joint_id(solved, &ends, draft.kind),
        letter: String::new(),
        kind: draft.kind,
        line: draft.line.map(|p| place * p),
        dihedral: Angle::radians(dihedral),
        bevel: Angle::radians(from_square(std::f64::consts::PI - dihedral)),
        wedge: wedge(draft.wedge, &draft.icing, &draft.line),
        gap: Length::mm_of(draft.gap),
        icing: draft.icing.iter().map(|s| s.moved(place)).collect(),
        ends,
    })
}

fn joint_id(solved: &Solved, ends: &[JointEnd; 2], kind: JointKind) -> JointId {
    let name = |end: &JointEnd| match end {
        JointEnd::Piece(p) => solved.pieces.get(*p).map_or_else(String::new, |p| p.id.0.clone()),
        JointEnd::Board => "board".to_owned(),
    };
    let kind = format!("{kind:?}").to_lowercase();
    JointId(format!("{kind} {} {}", name(&ends[0]), name(&ends[1])))
}

/// Numbers joints of one kind between the same two pieces.
fn number(joints: &mut [Joint]) {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for joint in joints {
        let count = seen.entry(joint.id.0.clone()).or_default();
        *count += 1;
        if *count > 1 {
            joint.id.0 = format!("{} {count}", joint.id.0);
        }
    }
}

/// Puts the joints into the order of their letters and letters them.
pub(super) fn letter(solved: &mut Solved) {
    number(&mut solved.joints);
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
    let mut joints: Vec<Option<Joint>> = std::mem::take(&mut solved.joints).into_iter().map(Some).collect();
    solved.joints = order.iter().filter_map(|&old| joints[old].take()).collect();
    for (index, joint) in solved.joints.iter_mut().enumerate() {
        joint.letter = letters(index);
    }
}

/// A … Z, AA, AB …
fn letters(index: usize) -> String {
    let letter = |k: usize| char::from(b'A' + u8::try_from(k % 26).unwrap_or(0));
    if index < 26 { letter(index).to_string() } else { format!("{}{}", letters(index / 26 - 1), letter(index)) }
}

/// Moves a whole house to where it stands on the board.
pub(super) fn put(solved: &mut Solved, on_board: &Rigid) {
    if *on_board == Rigid::identity() {
        return;
    }
    for part in &mut solved.parts {
        part.house_from_part = on_board * part.house_from_part;
        part.plan.iter_mut().for_each(|p| *p = (on_board * level(*p, 0.0)).xy());
    }
    for piece in &mut solved.pieces {
        piece.house_from_piece = on_board * piece.house_from_piece;
    }
    for joint in &mut solved.joints {
        joint.line.iter_mut().for_each(|p| *p = on_board * *p);
        joint.icing.iter_mut().for_each(|solid| *solid = solid.moved(on_board));
    }
}
