use crate::{House, Solved};

/// Works out every piece of a house.
pub fn solve(house: &House) -> Solved {
    Solved {
        unit: house.unit,
        gap: house.gap,
        parts: vec![],
        pieces: vec![],
        joints: vec![],
        groups: vec![],
        findings: vec![],
    }
}
