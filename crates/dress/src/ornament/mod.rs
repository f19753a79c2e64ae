//! Ornaments: what is made apart and stuck on, following the size of openings and parts.

mod corner;
mod piece;
mod roof;
#[cfg(test)]
mod tests;
mod window;

pub use piece::OrnamentPiece;

use crate::finish::{Face, Standing};
use gable_shell::{House, JointEnd, Opening, Ornament, OrnamentKind, Part, Piece, PieceOpening, Role, Solved};
use piece::Bench;
pub(crate) use piece::{placed, rectangle};
use window::Hole;

/// The pieces of all ornaments, in the order of the list.
pub(crate) fn ornaments(house: &House, solved: &Solved) -> Vec<OrnamentPiece> {
    let mut all = Vec::new();
    for (index, ornament) in house.dressing.ornaments.iter().enumerate() {
        let Some(part) = house.part(&ornament.part) else { continue };
        if ornament.kind.is_at_openings() {
            at_openings(house, solved, part, (index, ornament), &mut all);
        } else {
            at_part(house, solved, part, (index, ornament), &mut all);
        }
    }
    all
}

type Numbered<'a> = (usize, &'a Ornament);

fn bench<'a>(index: usize, ornament: &'a Ornament, host: usize, (id, name): (String, String)) -> Bench<'a> {
    Bench { ornament, index, id, name, host }
}

fn at_openings(
    house: &House,
    solved: &Solved,
    part: &Part,
    (index, ornament): Numbered<'_>,
    all: &mut Vec<OrnamentPiece>,
) {
    for (host, piece) in solved.pieces.iter().enumerate().filter(|(_, p)| p.part == part.id) {
        let openings = piece.openings.iter().chain(&piece.notches);
        let chosen: Vec<&PieceOpening> = openings.filter(|o| is_chosen(ornament, part, o)).collect();
        if chosen.is_empty() {
            continue;
        }
        let Some(face) = Face::of(house, solved, piece) else { continue };
        for opening in chosen {
            let Some(hole) = Hole::new(&face, piece, opening) else { continue };
            // Doors take no sills and shutters, windows no leaves, unless somebody wants them by name.
            let either = matches!(ornament.kind, OrnamentKind::Surround | OrnamentKind::Lintel);
            let suits = hole.is_door() == (ornament.kind == OrnamentKind::Door);
            if ornament.opening.is_none() && !either && !suits {
                continue;
            }
            let names = (format!("{}/{}", part.id.0, opening.id.0), format!("{}: {}", part.name, opening.name));
            all.extend(hole.pieces(&bench(index, ornament, host, names), sill_under(house, part, opening)));
        }
    }
}

fn is_chosen(ornament: &Ornament, part: &Part, opening: &PieceOpening) -> bool {
    let own: Option<&Opening> = part.openings.iter().find(|o| o.id == opening.id);
    ornament.opening.as_ref().is_none_or(|id| *id == opening.id)
        && ornament.side.as_ref().is_none_or(|side| own.is_some_and(|o| o.side == *side))
}

/// Height of the sill under an opening, 0 without one.
fn sill_under(house: &House, part: &Part, opening: &PieceOpening) -> f64 {
    let under = |o: &&Ornament| {
        let below = matches!(o.kind, OrnamentKind::Sill | OrnamentKind::Surround);
        below && o.part == part.id && is_chosen(o, part, opening)
    };
    house.dressing.ornaments.iter().filter(under).map(|o| o.size.mm()).fold(0.0, f64::max)
}

fn at_part(house: &House, solved: &Solved, part: &Part, (index, ornament): Numbered<'_>, all: &mut Vec<OrnamentPiece>) {
    let on_side = |piece: &Piece| ornament.side.as_ref().is_none_or(|own| piece.role.side() == Some(own));
    let own = solved.pieces.iter().enumerate().filter(|(_, p)| p.part == part.id && on_side(p));
    if matches!(ornament.kind, OrnamentKind::RidgeCap | OrnamentKind::HipCap) {
        let names = (part.id.0.clone(), part.name.clone());
        let bench = bench(index, ornament, 0, names);
        let of_part = |end: &JointEnd| matches!(end, JointEnd::Piece(k) if solved.pieces.get(*k).is_some_and(|p| p.part == part.id));
        let joints = solved.joints.iter().filter(|j| roof::takes_cap(j, ornament.kind) && j.ends.iter().all(of_part));
        let standing = Standing::new(solved);
        all.extend(joints.flat_map(|j| roof::caps(&bench, solved, &standing, j)));
        return;
    }
    for (host, piece) in own {
        let bench = bench(index, ornament, host, (piece.id.0.clone(), piece.name.clone()));
        match (ornament.kind, &piece.role) {
            (OrnamentKind::Bargeboard | OrnamentKind::Fascia, Role::Slope(..)) => {
                all.extend(roof::boards(&bench, solved, piece))
            }
            (OrnamentKind::ChimneyCap, Role::Lid) => all.extend(corner::chimney_cap(&bench, piece)),
            (OrnamentKind::Quoins, Role::Wall(_)) => {
                let face = Face::of(house, solved, piece);
                all.extend(face.iter().flat_map(|face| corner::quoins(&bench, face, piece)));
            }
            _ => {}
        }
    }
}
