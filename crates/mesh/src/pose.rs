use crate::Fold;
use crate::hinge::Plate;
use gable_plane::{P3, Rigid, V3};
use gable_shell::{Role, Solved};

/// How the pieces of a house are laid out in space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pose {
    /// As the finished house.
    Standing,
    /// On the way from flat on the table, outside down (0), to standing (1).
    Fold(f64),
    /// Drawn apart: at 1 by a third of the size of the house, at 0 not at all.
    Exploded(f64),
}

/// How far pieces move at `Exploded(1)`, as a share of the diagonal of the box round the house.
const APART: f64 = 1.0 / 3.0;

/// How far the topmost plate of a floor rises, as a share of what a roof moves.
const FLOORS: f64 = 0.4;
/// How much less each strip of a post moves than the one outside of it.
const STRIPS: f64 = 0.06;

/// Where every piece is in a pose, `house_from_piece`, in the order of [`Solved::pieces`].
///
/// For many positions of one house keep a [`Fold`] and ask that.
pub fn pose(solved: &Solved, pose: Pose) -> Vec<Rigid> {
    match pose {
        Pose::Standing => solved.pieces.iter().map(|p| p.house_from_piece).collect(),
        Pose::Fold(s) => Fold::of(solved).at(s),
        Pose::Exploded(k) => exploded(solved, if k.is_finite() { k } else { 0.0 }),
    }
}

/// Pieces moved along their outward normals.
///
/// Two pieces that a face of one keeps apart stay apart: along that face's normal n the one moves by d, the other by
/// d n·m, which is never more. A parapet is carried up by its lid. Floors stay, and everything else goes up instead; of
/// several plates the upper ones rise a little. The inner strips of a post move out less than the outer.
fn exploded(solved: &Solved, k: f64) -> Vec<Rigid> {
    let plates: Vec<Plate> = solved.pieces.iter().map(Plate::of).collect();
    let (low, high) = plates
        .iter()
        .flat_map(|p| &p.corners)
        .fold((P3::from([f64::INFINITY; 3]), P3::from([f64::NEG_INFINITY; 3])), |(low, high), p| {
            (P3::from(low.coords.inf(&p.coords)), P3::from(high.coords.sup(&p.coords)))
        });
    let distance = if plates.is_empty() { 0.0 } else { (high - low).norm() * APART * k };
    let floor = solved.pieces.iter().any(|p| p.role == Role::Floor);
    let raised = if floor { V3::z() } else { V3::zeros() };
    let direction = |piece: usize| match solved.pieces[piece].role {
        Role::Floor | Role::Layer(_) => V3::z() * (FLOORS * layer(solved, piece)),
        Role::Post(_, _, strip) => {
            plates[piece].outside.normal * (1.0 - STRIPS * f64::from(strip.unwrap_or(0))) + raised
        }
        Role::Parapet(_) => plates[piece].outside.normal + V3::z() * 1.5 + raised,
        _ => plates[piece].outside.normal + raised,
    };
    let moved = |i: usize| Rigid::from_parts((direction(i) * distance).into(), Default::default());
    (0..plates.len()).map(|i| moved(i) * solved.pieces[i].house_from_piece).collect()
}

/// How far up a plate is among those of its floor: 0 the lowest, 1 the topmost.
fn layer(solved: &Solved, piece: usize) -> f64 {
    let part = &solved.pieces[piece].part;
    let under = solved.pieces.iter().filter(|p| &p.part == part && matches!(p.role, Role::Layer(_))).count();
    match solved.pieces[piece].role {
        Role::Layer(number) => (number.saturating_sub(1)) as f64 / under.max(1) as f64,
        _ => {
            if under == 0 {
                0.0
            } else {
                1.0
            }
        }
    }
}
