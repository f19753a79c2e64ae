use super::{AngleEntry, ExtraKindEntry, LengthEntry, StuffEntry, TintEntry};
use schemars::JsonSchema;
use serde::Serialize;

/// Something that stands free on the base board.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Extra")]
pub(in crate::file) struct ExtraEntry {
    /// What it is.
    pub(in crate::file) kind: ExtraKindEntry,
    /// To the right of the middle of the base board.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) x: LengthEntry,
    /// To the back.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) y: LengthEntry,
    /// Turn, counter-clockwise seen from above.
    #[schemars(with = "Option<AngleEntry>")]
    pub(in crate::file) turn: AngleEntry,
    /// Height over all.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) height: LengthEntry,
    /// Width or length over all; an outline of one's own follows its height.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) width: LengthEntry,
    /// Path data of SVG (outline).
    #[serde(skip_serializing_if = "String::is_empty")]
    #[schemars(with = "Option<String>")]
    pub(in crate::file) path: String,
    /// What it is made of.
    #[schemars(with = "Option<StuffEntry>")]
    pub(in crate::file) made_of: StuffEntry,
    /// How thick it is when it is finished.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) thickness: LengthEntry,
    /// Its colour.
    #[schemars(with = "Option<TintEntry>")]
    pub(in crate::file) tint: TintEntry,
}
