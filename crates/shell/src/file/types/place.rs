//! Where parts stand, and which of two stays whole.

use super::{AngleEntry, FromEntry, LengthEntry};
use schemars::JsonSchema;
use serde::Serialize;

/// Where a part stands: on the base board, or by another part in one of four ways.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(untagged)]
#[schemars(rename = "Place")]
pub(in crate::file) enum PlaceEntry {
    /// On the base board.
    Ground(SpotEntry),
    /// By another part.
    Guest(GuestEntry),
}

/// A place in a plan.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Spot")]
pub(in crate::file) struct SpotEntry {
    /// To the right.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) x: LengthEntry,
    /// To the back.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) y: LengthEntry,
    /// Turn, counter-clockwise seen from above.
    #[schemars(with = "Option<AngleEntry>")]
    pub(in crate::file) turn: AngleEntry,
}

/// A place by another part: when that part changes, this one goes with it.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Guest")]
pub(in crate::file) enum GuestEntry {
    /// On the base board, against a wall of another part.
    Against(AgainstEntry),
    /// On a slope of another part.
    OnSlope(OnSlopeEntry),
    /// Astride the highest ridge of another part.
    Astride(AstrideEntry),
    /// On top of another part: on its lid, or on the highest point of its roof.
    OnTop(OnTopEntry),
}

/// Against a wall of another part.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Against")]
pub(in crate::file) struct AgainstEntry {
    /// Id of the other part.
    pub(in crate::file) part: String,
    /// Its side.
    pub(in crate::file) side: String,
    /// What `distance` is measured from, seen from outside.
    #[serde(default)]
    pub(in crate::file) from: FromEntry,
    /// From the middle of the wall to the right, or from a corner to the nearer edge; 0 if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) distance: LengthEntry,
    /// How far the plan reaches out from the wall; the rest of it reaches into the other part.
    pub(in crate::file) out: LengthEntry,
    /// Turn from facing straight away from the wall, counter-clockwise seen from above.
    #[schemars(with = "Option<AngleEntry>")]
    pub(in crate::file) turn: AngleEntry,
}

/// On a slope of another part.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "OnSlope")]
pub(in crate::file) struct OnSlopeEntry {
    /// Id of the other part.
    pub(in crate::file) part: String,
    /// Its side from which the slope rises.
    pub(in crate::file) side: String,
    /// What `distance` is measured from, seen from outside.
    #[serde(default)]
    pub(in crate::file) from: FromEntry,
    /// From the middle of the side to the right, or from a corner to the nearer edge; 0 if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) distance: LengthEntry,
    /// Level distance from the wall below to the foremost point of the plan.
    pub(in crate::file) up: LengthEntry,
    /// Turn from facing straight down the slope, counter-clockwise seen from above.
    #[schemars(with = "Option<AngleEntry>")]
    pub(in crate::file) turn: AngleEntry,
}

/// Astride the highest ridge of another part.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Astride")]
pub(in crate::file) struct AstrideEntry {
    /// Id of the other part.
    pub(in crate::file) part: String,
    /// From the middle of the ridge to the right of the other part, or to its back; 0 if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) along: LengthEntry,
    /// Turn from the other part's own directions, counter-clockwise seen from above.
    #[schemars(with = "Option<AngleEntry>")]
    pub(in crate::file) turn: AngleEntry,
}

/// On top of another part.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "OnTop")]
pub(in crate::file) struct OnTopEntry {
    /// Id of the other part.
    pub(in crate::file) part: String,
    /// To the right in the plan of the other part.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) x: LengthEntry,
    /// To the back in the plan of the other part.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) y: LengthEntry,
    /// Turn, counter-clockwise seen from above.
    #[schemars(with = "Option<AngleEntry>")]
    pub(in crate::file) turn: AngleEntry,
}

/// What happens to a wall or roof where this part stands against it.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "kebab-case")]
#[schemars(deny_unknown_fields, rename = "Behind")]
pub(in crate::file) enum BehindEntry {
    /// It stays whole.
    Whole,
    /// A passage is cut through it.
    Passage {
        /// Width that is left to glue this part to, measured from the inside of its walls and roof.
        rim: LengthEntry,
    },
}

/// Of two parts that meet, which one stays whole.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Decided")]
pub(in crate::file) struct DecidedEntry {
    /// Id of the part that stays whole.
    pub(in crate::file) whole: String,
    /// Id of the part that is cut to fit.
    pub(in crate::file) cut: String,
}
