//! Doors and windows as they are written.

use super::{AngleEntry, LengthEntry, Number};
use schemars::JsonSchema;
use serde::Serialize;

/// A door, window or pressed panel in a wall or a slope. A size belongs to the shapes that are named with it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Opening")]
pub(in crate::file) struct OpeningEntry {
    /// Lower-case words joined by hyphens.
    pub(in crate::file) id: String,
    /// Name for people; the id if not given.
    #[schemars(with = "Option<String>")]
    pub(in crate::file) name: String,
    /// Side that it is on.
    pub(in crate::file) side: String,
    /// Whether it is in the wall or in a slope of that side; the wall if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) face: Option<SurfaceEntry>,
    /// Outline.
    #[serde(default)]
    pub(in crate::file) shape: ShapeEntry,
    /// How far the arc rises (segmental).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) rise: Option<LengthEntry>,
    /// Radius of the arcs over the width: 1 equilateral, less a drop arch, more a lancet (pointed); 1 if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) radius: Option<Number>,
    /// Number of sides (regular).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) sides: Option<u8>,
    /// Corners as shares of width and height from the lower left, counter-clockwise seen from outside (free).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) corners: Option<Vec<[Number; 2]>>,
    /// Path data of SVG with one closed outline, stretched to width and height; y runs down there (path).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) path: Option<String>,
    /// Whether it is seen in a mirror; false if not given (path).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) mirrored: Option<bool>,
    /// Fields beside each other (whole face).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) across: Option<u8>,
    /// Fields over each other (whole face).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) up: Option<u8>,
    /// Width of frame, posts and rails (whole face).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) bar: Option<LengthEntry>,
    /// Width over all (all but a whole face).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) width: Option<LengthEntry>,
    /// Height over all; left out where the width decides it (circle, fanlight, regular) and for a whole face.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) height: Option<LengthEntry>,
    /// Height of its lower edge above the base, or its way up the slope; 0 if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) sill: Option<LengthEntry>,
    /// What `distance` is measured from, seen from outside; the middle if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) from: Option<FromEntry>,
    /// From the middle of the wall to the right, or from a corner to the nearer edge; 0 if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) distance: Option<LengthEntry>,
    /// Copies in a row or grid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) repeat: Option<RepeatEntry>,
    /// Through the biscuit, closed with glazing, or only into it.
    #[serde(default)]
    pub(in crate::file) mode: ModeEntry,
    /// What a glazed one is closed with; leaf if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) glass: Option<GlassEntry>,
    /// Glazing bars to pipe.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) bars: Option<BarsEntry>,
    /// What hangs in it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) door: Option<DoorEntry>,
}

#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Surface")]
pub(in crate::file) enum SurfaceEntry {
    #[default]
    Wall,
    Slope,
    LowerSlope,
    UpperSlope,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Shape")]
pub(in crate::file) enum ShapeEntry {
    #[default]
    Rectangle,
    RoundHeaded,
    Segmental,
    Pointed,
    Circle,
    Ellipse,
    Fanlight,
    Regular,
    Free,
    Path,
    WholeFace,
}

/// Copies in a row or grid.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Repeat")]
pub(in crate::file) struct RepeatEntry {
    /// Beside each other; 1 if not given.
    #[schemars(with = "Option<u8>")]
    pub(in crate::file) across: u8,
    /// Over each other; 1 if not given.
    #[schemars(with = "Option<u8>")]
    pub(in crate::file) up: u8,
    /// Between two beside each other; if not given, the same between all and at both ends of the wall.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) gap: Option<LengthEntry>,
    /// Between two over each other; 10 mm if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) gap_up: LengthEntry,
}

#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Glass")]
pub(in crate::file) enum GlassEntry {
    Leaf,
    Poured,
    Crushed,
}

/// Glazing bars. A number belongs to the kinds that are named with it.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Bars")]
pub(in crate::file) struct BarsEntry {
    /// How they run.
    pub(in crate::file) kind: BarKindEntry,
    /// Lights (grid) or diamonds beside each other.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) across: Option<u8>,
    /// Lights over each other (grid).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) up: Option<u8>,
    /// Lights round the middle of the foot (fan).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) rays: Option<u8>,
}

#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "BarKind")]
pub(in crate::file) enum BarKindEntry {
    #[expect(dead_code, reason = "may be read, is never written")]
    None,
    Grid,
    Diamond,
    Fan,
}

/// A door in an opening.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Door")]
pub(in crate::file) struct DoorEntry {
    /// Two leaves as one piece with a pressed line between; false if not given.
    #[schemars(with = "Option<bool>")]
    pub(in crate::file) double: bool,
    /// Side of the hinges, seen from outside.
    #[serde(default)]
    pub(in crate::file) hinge: HingeEntry,
    /// How far it stands open, degrees; 0 if not given.
    #[schemars(with = "Option<AngleEntry>")]
    pub(in crate::file) ajar: AngleEntry,
    /// What is taken off it all round; 1 mm if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) clearance: LengthEntry,
}

#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Hinge")]
pub(in crate::file) enum HingeEntry {
    #[default]
    Left,
    Right,
}

#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "From")]
pub(in crate::file) enum FromEntry {
    #[default]
    Middle,
    Left,
    Right,
}

#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Mode")]
pub(in crate::file) enum ModeEntry {
    #[default]
    Cut,
    Glazed,
    Pressed,
}

/// What the person glazes and cuts with; what is left out has its usual value.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Glazier")]
pub(in crate::file) struct GlazierEntry {
    /// Length of a leaf of gelatine as sold.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) leaf_length: LengthEntry,
    /// Width of a leaf.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) leaf_width: LengthEntry,
    /// How far a leaf reaches past its opening.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) margin: LengthEntry,
    /// The narrowest blade or cutter at hand; read from older files, written no more: it is kept in the person's kitchen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) blade: Option<LengthEntry>,
    /// The narrowest bridge of biscuit that is wanted; likewise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) bridge: Option<LengthEntry>,
}
