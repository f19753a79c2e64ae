//! What came out of the oven.

use super::LengthEntry;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// Pieces of a part that are baked already. They stay what they are; whatever is not baked yet is worked out to fit them.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Baked")]
pub(in crate::file) struct BakedEntry {
    /// Id of the part.
    pub(in crate::file) part: String,
    /// Which of its pieces.
    pub(in crate::file) batch: BatchEntry,
    /// Thickness that came out; as planned if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) thickness: Option<LengthEntry>,
    /// Width of the walls as they stand, outside; as planned if not given (walls).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) width: Option<LengthEntry>,
    /// Depth of the walls as they stand, outside, or how far they stand out from the wall behind; as planned if not
    /// given (walls of a rectangle or of free corners).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) depth: Option<LengthEntry>,
    /// Height of the highest wall that ends under a slope or, without one, under the lid; as planned if not given (walls).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) height: Option<LengthEntry>,
    /// The pieces as they were cut, by id; all of the batch, as they are planned, if not given.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    #[schemars(default)]
    pub(in crate::file) cut: BTreeMap<String, CutEntry>,
}

/// Which pieces of a part.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Batch")]
pub(in crate::file) enum BatchEntry {
    /// Its walls and posts.
    Walls,
    /// Its slopes.
    Roof,
    /// Its lid.
    Lid,
}

/// The shape that a piece was cut in. A ring is text: its corners counter-clockwise, `x,y` in mm whatever the unit of the
/// house, with spaces between corners.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Cut")]
pub(in crate::file) struct CutEntry {
    /// The face by which the piece is described: the outside of a wall, the underside of a roof.
    pub(in crate::file) outline: String,
    /// The other face, where its edges are bevelled.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) back: Option<String>,
    /// Its openings.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    pub(in crate::file) openings: Vec<String>,
}
