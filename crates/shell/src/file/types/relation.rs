//! Sizes that follow others.

use super::LengthEntry;
use schemars::JsonSchema;
use serde::Serialize;

/// A size of a part that follows another size.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Relation")]
pub(in crate::file) struct RelationEntry {
    /// Id of the part whose size follows.
    pub(in crate::file) part: String,
    /// Which of its sizes; heights follow as they are in the finished house, above the base board.
    pub(in crate::file) measure: MeasureEntry,
    /// The side whose wall height it is; that of all sides if not given (eave).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) side: Option<String>,
    /// What changes so that a ridge can follow; walls if not given (ridge).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) gives: Option<GivesEntry>,
    /// What it follows.
    pub(in crate::file) follows: MeasuredEntry,
    /// How much more it is than what it follows, negative for less; 0 if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) offset: LengthEntry,
}

/// A size of a part.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Measured")]
pub(in crate::file) struct MeasuredEntry {
    /// Id of the part.
    pub(in crate::file) part: String,
    /// Which of its sizes.
    pub(in crate::file) measure: MeasureEntry,
    /// The side whose wall height it is; that of all sides if not given (eave).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) side: Option<String>,
}

/// Which size of a part.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Measure")]
pub(in crate::file) enum MeasureEntry {
    /// The plan from left to right.
    Width,
    /// The plan from front to back.
    Depth,
    /// Height of the walls that end under a slope.
    Eave,
    /// Highest point of the underside of the roof.
    Ridge,
    /// Underside of the lid.
    Lid,
}

/// What changes so that a ridge can follow.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Gives")]
pub(in crate::file) enum GivesEntry {
    /// The walls; the roof keeps its shape.
    Walls,
    /// The pitches; the walls keep their height.
    Pitch,
}
