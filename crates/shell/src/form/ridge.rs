use crate::solve::Surface;
use crate::{House, PartId};
use gable_plane::{P2, V2};

/// The highest line of a part's roof, in the plan of the part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ridge {
    /// Its middle, from which what stands astride is measured.
    pub middle: P2,
    /// Unit direction, towards the right; of a ridge that runs from front to back towards the back.
    pub direction: V2,
    /// Its length, mm; nought for a point.
    pub length: f64,
}

impl House {
    /// The highest ridge of a part; `None` if there is no such part or it cannot be built.
    pub fn ridge(&self, part: &PartId) -> Option<Ridge> {
        let top = Surface::of(self, self.part(part)?)?.top()?;
        Some(Ridge { middle: top.middle, direction: top.direction, length: top.length })
    }
}
