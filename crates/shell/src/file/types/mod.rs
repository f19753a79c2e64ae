//! The file as serde sees it. Only for writing and for the schema; the reader reports more than serde could.

mod baked;
mod dressing;
mod extra;
mod floor;
mod opening;
mod place;
mod raised;
mod relation;

pub(super) use baked::*;
pub(super) use dressing::*;
pub(super) use extra::*;
pub(super) use floor::*;
pub(super) use opening::*;
pub(super) use place::*;
pub(super) use raised::*;
pub(super) use relation::*;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::collections::BTreeMap;

/// A number, written without a decimal point when it is whole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Number(pub(super) f64);

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        // Exact: whole numbers of this size fit both types.
        const EXACT: f64 = 9e15;
        if self.0.fract() == 0.0 && self.0.abs() < EXACT {
            serializer.serialize_i64(self.0 as i64)
        } else {
            serializer.serialize_f64(self.0)
        }
    }
}

impl JsonSchema for Number {
    fn schema_name() -> Cow<'static, str> {
        "Number".into()
    }

    fn inline_schema() -> bool {
        true
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "number" })
    }
}

/// A number in the house's unit, or text with a unit such as "8 1/2 in".
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(untagged)]
#[schemars(rename = "Length")]
pub(super) enum LengthEntry {
    Number(Number),
    Text(String),
}

/// Degrees, or text such as "8 in 12" or "ridge 216 mm".
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(untagged)]
#[schemars(rename = "Pitch")]
pub(super) enum PitchEntry {
    Number(Number),
    Text(String),
}

/// A number of degrees, or text such as "22 1/2°".
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(untagged)]
#[schemars(rename = "Angle")]
pub(super) enum AngleEntry {
    Number(Number),
    #[expect(dead_code, reason = "may be read, is never written")]
    Text(String),
}

/// A gingerbread house.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, title = "Gablewright house")]
pub(super) struct HouseEntry {
    /// Says that this is a house file.
    #[schemars(extend("const" = super::FORMAT))]
    pub(super) format: String,
    /// Version of the file format.
    #[schemars(range(min = super::OLDEST, max = super::VERSION))]
    pub(super) version: u32,
    /// Name of the house.
    #[serde(default)]
    pub(super) title: String,
    /// Which edition of the design this is.
    #[serde(default)]
    pub(super) edition: String,
    /// Who drew it.
    #[serde(default)]
    pub(super) credit: String,
    /// Whose design it is drawn after.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub(super) after: String,
    /// Terms under which it is shared.
    #[serde(default)]
    pub(super) licence: String,
    /// Anything else worth telling a builder.
    #[serde(default)]
    pub(super) notes: String,
    /// Unit of bare numbers; inches are printed to 1/16 or 1/32.
    #[serde(default)]
    pub(super) unit: UnitEntry,
    /// Gap left for icing wherever two pieces meet; 0.8 mm if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(super) gap: LengthEntry,
    /// The doughs it is made of; one for walls and one for roofs if not given.
    #[schemars(with = "Option<Vec<DoughEntry>>")]
    pub(super) doughs: Vec<DoughEntry>,
    /// The parts, in the order they were added.
    #[schemars(length(min = 1))]
    pub(super) parts: Vec<PartEntry>,
    /// Pairs of parts for which it is settled which one stays whole; they come before every other rule.
    #[serde(default)]
    pub(super) decided: Vec<DecidedEntry>,
    /// Sizes that follow others, whatever changes.
    #[serde(default)]
    pub(super) relations: Vec<RelationEntry>,
    /// What is to be put up before what; the program's own order where nothing is said.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    pub(super) order: Vec<BeforeEntry>,
    /// What came out of the oven already.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    pub(super) baked: Vec<BakedEntry>,
    /// Finishes, ornaments and extras.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) dressing: Option<DressingEntry>,
    /// What the person glazes and cuts with.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) glazing: Option<GlazierEntry>,
}

#[derive(Debug, Default, Serialize, JsonSchema)]
#[schemars(rename = "Unit")]
pub(super) enum UnitEntry {
    #[default]
    #[serde(rename = "mm")]
    Millimetre,
    #[serde(rename = "in")]
    Inch,
    #[serde(rename = "in/32")]
    InchThirtySecond,
}

/// A dough class.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Dough")]
pub(super) struct DoughEntry {
    /// Name by which parts choose it: lower-case words joined by hyphens.
    pub(super) id: String,
    /// Thickness it is rolled to.
    pub(super) rolled: LengthEntry,
    /// Baked thickness over rolled thickness; 1.25 if not given.
    #[schemars(with = "Option<Number>")]
    pub(super) rise: Number,
}

/// One convex body with walls and a roof.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Part")]
pub(super) struct PartEntry {
    /// Lower-case words joined by hyphens.
    pub(super) id: String,
    /// Name for people; the id if not given.
    #[schemars(with = "Option<String>")]
    pub(super) name: String,
    /// Outside plan.
    pub(super) outline: OutlineEntry,
    /// Where it stands; in the middle if not given.
    #[schemars(with = "Option<PlaceEntry>")]
    pub(super) place: PlaceEntry,
    /// Height of its foot above the base board, or above the foot of the part that it stands against; 0 if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(super) raised: LengthEntry,
    /// It stays whole where it meets parts that do not say so: they are cut to fit.
    #[serde(default)]
    pub(super) stays_whole: bool,
    /// An editor leaves it as it is until it is unlocked.
    #[serde(default)]
    pub(super) locked: bool,
    /// What the parts that it meets do behind it; they stay whole if not given.
    #[schemars(with = "Option<BehindEntry>")]
    pub(super) behind: BehindEntry,
    /// Dough of the walls.
    #[schemars(with = "Option<String>")]
    pub(super) wall_dough: String,
    /// Dough of roof and lid.
    #[schemars(with = "Option<String>")]
    pub(super) roof_dough: String,
    /// Floor slab; none if not given.
    #[schemars(with = "Option<FloorEntry>")]
    pub(super) floor: FloorEntry,
    /// How wall corners meet.
    #[serde(default)]
    pub(super) corners: CornersEntry,
    /// How roof pieces meet.
    #[serde(default)]
    pub(super) ridges: RidgesEntry,
    /// Overhangs follow the pitch, so that all eaves end at the height of the first one.
    #[serde(default)]
    pub(super) level_eaves: bool,
    /// Settings by side; `all` gives what a side does not say itself.
    pub(super) sides: SidesEntry,
    /// A flat plate on top.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) lid: Option<LidEntry>,
    /// Doors and windows.
    #[serde(default)]
    pub(super) openings: Vec<OpeningEntry>,
}

/// Outside plan of a part.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "kebab-case")]
#[schemars(deny_unknown_fields, rename = "Outline")]
pub(super) enum OutlineEntry {
    /// Sides front, right, back, left.
    Rectangle {
        /// From left to right.
        width: LengthEntry,
        /// From front to back.
        depth: LengthEntry,
    },
    /// A regular polygon; side 1 is the front.
    Polygon {
        /// How many sides.
        #[schemars(range(min = 3, max = 24))]
        sides: u8,
        /// Length of one side.
        side: LengthEntry,
    },
    /// Half of a regular polygon: side back is straight, sides 1 and on bulge to the front.
    HalfPolygon {
        /// How many sides the bulge has.
        #[schemars(range(min = 2, max = 12))]
        sides: u8,
        /// Length of the straight back.
        width: LengthEntry,
    },
    /// Any convex outline; side 1 runs from the first corner to the second.
    Free {
        /// Corners as x and y, counter-clockwise seen from above.
        #[schemars(length(min = 3, max = 24))]
        corners: Vec<[LengthEntry; 2]>,
    },
}

#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Corners")]
pub(super) enum CornersEntry {
    #[default]
    Lap,
    LapAround,
    Mitre,
    SquareMitre,
}

#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Ridges")]
pub(super) enum RidgesEntry {
    #[default]
    Open,
    Bevelled,
    Lapped,
}

/// Sides in the order of the outline.
#[derive(Debug)]
pub(super) struct SidesEntry(pub(super) Vec<(String, SideEntry)>);

impl Serialize for SidesEntry {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for (name, side) in &self.0 {
            map.serialize_entry(name, side)?;
        }
        map.end()
    }
}

impl JsonSchema for SidesEntry {
    fn schema_name() -> Cow<'static, str> {
        "Sides".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        BTreeMap::<String, SideEntry>::json_schema(generator)
    }
}

/// One side of a part. A size belongs to the tops that are named with it.
#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(default)]
#[schemars(deny_unknown_fields, rename = "Side")]
pub(super) struct SideEntry {
    /// Whether a wall stands there; true if not given.
    #[schemars(with = "Option<bool>")]
    pub(super) wall: bool,
    /// What stands there instead of a wall to carry the roof.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) posts: Option<PostsEntry>,
    /// What closes the side at the top.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) top: Option<TopEntry>,
    /// Height of the wall (eave, knee).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) height: Option<LengthEntry>,
    /// Height at which the slope starts (half-hip).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) start: Option<LengthEntry>,
    /// Slope of the roof (eave, half-hip).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) pitch: Option<PitchEntry>,
    /// Steep slope below (knee).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) lower: Option<PitchEntry>,
    /// Height of the line where the slope changes (knee).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) knee: Option<LengthEntry>,
    /// Flat slope above (knee).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) upper: Option<PitchEntry>,
    /// How far the roof reaches past the wall; nothing if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) overhang: Option<LengthEntry>,
}

#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "Top")]
pub(super) enum TopEntry {
    Eave,
    HalfHip,
    Knee,
    Gable,
}

/// One flat plate on top.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Lid")]
pub(super) struct LidEntry {
    /// Height of its underside.
    pub(super) height: LengthEntry,
    /// How far it reaches past the walls under it; nothing if not given.
    #[schemars(with = "Option<LengthEntry>")]
    pub(super) overhang: LengthEntry,
    /// A ring of strips standing on it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) parapet: Option<ParapetEntry>,
}

/// A ring of strips on the rim of a lid.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Parapet")]
pub(super) struct ParapetEntry {
    /// Height of the strips.
    pub(super) height: LengthEntry,
}
