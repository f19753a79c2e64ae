//! Floors, steps and posts.

use super::LengthEntry;
use schemars::JsonSchema;
use serde::Serialize;

/// Floor slab of a part.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Floor")]
pub(in crate::file) struct FloorEntry {
    /// Whether there is one, and where.
    #[serde(default)]
    pub(in crate::file) kind: FloorKindEntry,
    /// Its dough; that of the walls if not given.
    #[schemars(with = "Option<String>")]
    pub(in crate::file) dough: String,
    /// It is built up of several plates; only of a floor under the walls.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) steps: Option<StepsEntry>,
}

#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "FloorKind")]
pub(in crate::file) enum FloorKindEntry {
    #[default]
    None,
    Inside,
    Under,
}

/// Plates laid on each other. The plan of the part is the topmost; each step under it reaches out by the tread.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Steps")]
pub(in crate::file) struct StepsEntry {
    /// How many steps; either this or the height is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = crate::file::limits::MOST_STEPS))]
    pub(in crate::file) count: Option<u8>,
    /// Height of the topmost plate above the ground; as many plates are laid as come nearest to it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) height: Option<LengthEntry>,
    /// Plates of dough in the rise of one step; 1 if not given.
    #[schemars(with = "Option<u8>", range(min = 1, max = crate::file::limits::MOST_PLATES_OF_STEP))]
    pub(in crate::file) plates: u8,
    /// How far each step reaches out from under the next; 15 mm if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) tread: LengthEntry,
    /// Sides with steps; none if not given.
    #[schemars(with = "Option<Vec<String>>")]
    pub(in crate::file) sides: Vec<String>,
}

/// A row of posts on a side without a wall.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Posts")]
pub(in crate::file) struct PostsEntry {
    /// How many, those at the ends counted.
    #[schemars(range(min = 1, max = crate::file::limits::MOST_POSTS))]
    pub(in crate::file) count: u8,
    /// Size along the side.
    pub(in crate::file) width: LengthEntry,
    /// Strips laid face to face that make one post thick; 1 if not given.
    #[schemars(with = "Option<u8>", range(min = 1, max = crate::file::limits::MOST_STRIPS))]
    pub(in crate::file) strips: u8,
    /// The first and the last stand at the ends of the side; true if not given.
    #[schemars(with = "Option<bool>")]
    pub(in crate::file) at_ends: bool,
}
