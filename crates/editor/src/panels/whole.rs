//! Settings that all sides of a part share, read and set at once.

use gable_measure::{Length, Pitch};
use gable_shell::{Part, Top};

/// A number that some tops have.
type InTop<T> = fn(&mut Top) -> Option<&mut T>;

/// Height of the walls that end under a slope.
pub(super) fn height(top: &mut Top) -> Option<&mut Length> {
    match top {
        Top::Eave { height, .. } | Top::Knee { height, .. } => Some(height),
        Top::HalfHip { .. } | Top::Gable { .. } => None,
    }
}

/// Pitch of plain slopes.
pub(super) fn pitch(top: &mut Top) -> Option<&mut Pitch> {
    match top {
        Top::Eave { pitch, .. } => Some(pitch),
        Top::HalfHip { .. } | Top::Knee { .. } | Top::Gable { .. } => None,
    }
}

/// Pitch of half-hips.
pub(super) fn hip_pitch(top: &mut Top) -> Option<&mut Pitch> {
    match top {
        Top::HalfHip { pitch, .. } => Some(pitch),
        Top::Eave { .. } | Top::Knee { .. } | Top::Gable { .. } => None,
    }
}

/// Where half-hips start.
pub(super) fn start(top: &mut Top) -> Option<&mut Length> {
    match top {
        Top::HalfHip { start, .. } => Some(start),
        Top::Eave { .. } | Top::Knee { .. } | Top::Gable { .. } => None,
    }
}

/// The steep pitch below a knee.
pub(super) fn lower(top: &mut Top) -> Option<&mut Pitch> {
    match top {
        Top::Knee { lower, .. } => Some(lower),
        Top::Eave { .. } | Top::HalfHip { .. } | Top::Gable { .. } => None,
    }
}

/// The flat pitch above a knee.
pub(super) fn upper(top: &mut Top) -> Option<&mut Pitch> {
    match top {
        Top::Knee { upper, .. } => Some(upper),
        Top::Eave { .. } | Top::HalfHip { .. } | Top::Gable { .. } => None,
    }
}

/// Height of the knee.
pub(super) fn knee(top: &mut Top) -> Option<&mut Length> {
    match top {
        Top::Knee { knee, .. } => Some(knee),
        Top::Eave { .. } | Top::HalfHip { .. } | Top::Gable { .. } => None,
    }
}

/// How far the roof reaches past the wall.
pub(super) fn overhang(top: &mut Top) -> Option<&mut Length> {
    match top {
        Top::Eave { overhang, .. }
        | Top::HalfHip { overhang, .. }
        | Top::Knee { overhang, .. }
        | Top::Gable { overhang } => Some(overhang),
    }
}

/// What the sides of a part say: nothing has it, all say the same, or they differ.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Common<T> {
    /// No side has it.
    Absent,
    /// The value of every side that has it.
    Same(T),
    /// The sides differ.
    Differs,
}

/// What the sides of a part say of one thing.
pub(super) fn common<T: PartialEq + Copy>(part: &Part, pick: InTop<T>) -> Common<T> {
    let mut values = part.sides.iter().filter_map(|side| pick(&mut side.top.clone()).copied());
    let Some(first) = values.next() else { return Common::Absent };
    if values.all(|v| v == first) { Common::Same(first) } else { Common::Differs }
}

/// Sets one thing on every side that has it.
pub(super) fn set<T>(part: &mut Part, pick: InTop<T>, value: T)
where
    T: Copy,
{
    for place in part.sides.iter_mut().filter_map(|side| pick(&mut side.top)) {
        *place = value;
    }
}
