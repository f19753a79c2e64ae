use super::{Dough, House, Part, PartId};
use crate::{PieceId, Role};
use gable_measure::Length;
use gable_plane::P2;

/// What came out of the oven of a part: pieces that are baked already, and how they measure.
///
/// They stay what they are; whatever is not baked yet is worked out to fit them. What was not measured is as it was
/// planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Baked {
    /// The part.
    pub part: PartId,
    /// Which of its pieces.
    pub batch: Batch,
    /// Thickness that came out.
    pub thickness: Option<Length>,
    /// Width of the walls as they stand, outside. Of a plan with equal sides it is the size over all.
    pub width: Option<Length>,
    /// Depth of the walls as they stand, outside; of a part that faces straight away from a wall, how far it stands out.
    pub depth: Option<Length>,
    /// Height of the highest wall that ends under a slope, as it stands; without one, of the walls under the lid.
    pub height: Option<Length>,
    /// The pieces as they were cut. Empty: all of the batch, as the house has them.
    pub cut: Vec<CutPiece>,
}

/// Pieces of a part that are baked together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Batch {
    /// Its walls and posts.
    Walls,
    /// Its slopes.
    Roof,
    /// Its lid; the parapet on it is no part of that.
    Lid,
}

/// The shape that a piece was cut in: rings in the coordinates of the piece, mm, counter-clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct CutPiece {
    /// The piece.
    pub piece: PieceId,
    /// Its reference face.
    pub outline: Vec<P2>,
    /// Its other face, where that differs: corner by corner as on the reference face.
    pub back: Option<Vec<P2>>,
    /// Its openings, arcs flattened.
    pub openings: Vec<Vec<P2>>,
}

impl Baked {
    /// A batch of which nothing was measured.
    pub fn new(part: PartId, batch: Batch) -> Self {
        Self { part, batch, thickness: None, width: None, depth: None, height: None, cut: Vec::new() }
    }
}

impl Batch {
    /// Every batch, in the order in which they are baked: the roof last.
    pub const ALL: [Self; 3] = [Self::Walls, Self::Lid, Self::Roof];

    /// The batch of a piece; floors and parapets are in none.
    pub const fn of(role: &Role) -> Option<Self> {
        match role {
            Role::Wall(_) | Role::Post(..) => Some(Self::Walls),
            Role::Slope(..) => Some(Self::Roof),
            Role::Lid => Some(Self::Lid),
            Role::Floor | Role::Layer(_) | Role::Parapet(_) => None,
        }
    }

    /// 'walls', as in 'the walls of Main body'.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Walls => "walls",
            Self::Roof => "roof",
            Self::Lid => "lid",
        }
    }
}

impl House {
    /// What came out of the oven of a part's batch; none if it is not baked yet.
    pub fn baked_batch(&self, part: &PartId, batch: Batch) -> Option<&Baked> {
        self.baked.iter().find(|b| &b.part == part && b.batch == batch)
    }

    /// Whether a piece is baked already.
    pub fn is_baked(&self, part: &PartId, role: &Role, piece: &PieceId) -> bool {
        let baked = Batch::of(role).and_then(|batch| self.baked_batch(part, batch));
        baked.is_some_and(|b| b.cut.is_empty() || b.cut.iter().any(|c| &c.piece == piece))
    }

    /// The dough that a batch of a part is cut from.
    pub fn planned_dough(&self, part: &Part, batch: Batch) -> Option<&Dough> {
        self.dough(if batch == Batch::Walls { &part.wall_dough } else { &part.roof_dough })
    }

    /// The dough that a batch of a part is cut from, with the rise that gives it the thickness that was measured.
    pub fn dough_of(&self, part: &Part, batch: Batch) -> Option<Dough> {
        let dough = self.planned_dough(part, batch)?;
        let measured = self.baked_batch(&part.id, batch).and_then(|b| b.thickness);
        Some(Dough { rise: measured.map_or(dough.rise, |m| m / dough.rolled), ..dough.clone() })
    }
}
