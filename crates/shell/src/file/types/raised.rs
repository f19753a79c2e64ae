//! What is put up before what.

use schemars::JsonSchema;
use serde::Serialize;

/// One thing is put up before another, if that can be done. Each is a part (`porch`), the `floors`, `walls`, `roof` or
/// `parapet` of a part (`porch/roof`), or a piece (`porch/wall-front`).
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Before")]
pub(in crate::file) struct BeforeEntry {
    /// What is put up first.
    pub(in crate::file) first: String,
    /// What comes after that, sooner or later.
    pub(in crate::file) then: String,
}
