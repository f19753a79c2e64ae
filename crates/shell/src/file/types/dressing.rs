use super::{ExtraEntry, LengthEntry, Number};
use schemars::JsonSchema;
use serde::Serialize;

/// What is put onto the house.
#[derive(Debug, Default, Serialize, JsonSchema)]
#[serde(default)]
#[schemars(deny_unknown_fields, rename = "Dressing")]
pub(in crate::file) struct DressingEntry {
    /// What covers faces; of two on one face the later one counts, and snow lies over whatever else is there.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(in crate::file) finishes: Vec<FinishEntry>,
    /// What is made apart and stuck on.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(in crate::file) ornaments: Vec<OrnamentEntry>,
    /// What stands free on the base board.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(in crate::file) extras: Vec<ExtraEntry>,
    /// How fast the person works.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) rates: Option<RatesEntry>,
}

impl DressingEntry {
    /// Whether there is nothing to write.
    pub(in crate::file) fn is_empty(&self) -> bool {
        self.finishes.is_empty() && self.ornaments.is_empty() && self.extras.is_empty() && self.rates.is_none()
    }
}

/// What covers some faces. A size belongs to the kinds that are named with it and has its usual value if not given.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Finish")]
pub(in crate::file) struct FinishEntry {
    /// tiles, brick, stone, weatherboard, board-and-batten, half-timber or snow.
    pub(in crate::file) kind: CoveringEntry,
    /// Which faces: walls if not given.
    #[serde(default)]
    pub(in crate::file) on: WhereEntry,
    /// Of one part only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) part: Option<String>,
    /// On one side of it only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) side: Option<String>,
    /// Lower end of tiles.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) shape: Option<TileShapeEntry>,
    /// How bricks lie.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) bond: Option<BondEntry>,
    /// Whether braces stand in the end bays (half-timber).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) braces: Option<bool>,
    /// Width of a tile.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) width: Option<LengthEntry>,
    /// Length of a tile, a stretcher or the longest board.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) length: Option<LengthEntry>,
    /// Height of a brick.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) height: Option<LengthEntry>,
    /// How much of each course shows (tiles, weatherboard).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) exposure: Option<LengthEntry>,
    /// Width of the mortar (brick, stone).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) joint: Option<LengthEntry>,
    /// Width of a usual stone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) size: Option<LengthEntry>,
    /// From joint to joint (board-and-batten).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) board: Option<LengthEntry>,
    /// Width of a batten.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) batten: Option<LengthEntry>,
    /// Width of a timber.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) timber: Option<LengthEntry>,
    /// From post to post at most (half-timber).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) bay: Option<LengthEntry>,
    /// How far snow reaches up the slope.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) depth: Option<LengthEntry>,
    /// Width of a tongue of snow.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) tongue: Option<LengthEntry>,
    /// What its units are made of.
    #[schemars(with = "Option<StuffEntry>")]
    pub(in crate::file) made_of: StuffEntry,
    /// Thickness of a unit.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) thickness: LengthEntry,
    /// Shades and how much of each.
    #[schemars(with = "Option<Vec<ShareEntry>>")]
    pub(in crate::file) shades: Vec<ShareEntry>,
    /// Another number gives another order of shades and another lie of stones; 1 if not given.
    #[schemars(with = "Option<u32>")]
    pub(in crate::file) seed: u32,
}

/// A shade and how much of it, against the shares of the others.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Share")]
pub(in crate::file) struct ShareEntry {
    /// Its colour.
    pub(in crate::file) tint: TintEntry,
    /// How much of it; 1 if not given.
    #[schemars(with = "Option<Number>")]
    pub(in crate::file) share: Number,
}

/// How fast a person works.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Rates")]
pub(in crate::file) struct RatesEntry {
    /// Seconds to set one unit.
    #[schemars(with = "Option<Number>")]
    pub(in crate::file) set: Number,
    /// Seconds more to cut one to fit.
    #[schemars(with = "Option<Number>")]
    pub(in crate::file) cut: Number,
    /// Seconds to pipe 100 mm of line.
    #[schemars(with = "Option<Number>")]
    pub(in crate::file) pipe: Number,
}

/// Something made apart and stuck on.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(deny_unknown_fields, rename = "Ornament")]
pub(in crate::file) struct OrnamentEntry {
    /// What it is.
    pub(in crate::file) kind: OrnamentKindEntry,
    /// The part it belongs to.
    pub(in crate::file) part: String,
    /// At which opening; at all that suit it if not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) opening: Option<String>,
    /// On one side only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(in crate::file) side: Option<String>,
    /// The size that does not follow from what it belongs to.
    #[schemars(with = "Option<LengthEntry>")]
    pub(in crate::file) size: LengthEntry,
    /// Pressed lines of shutters, doors and window boxes.
    #[schemars(with = "Option<StyleEntry>")]
    pub(in crate::file) style: StyleEntry,
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

/// An enum of the file with the same variants as one of the model.
macro_rules! mirrored {
    ($(#[$doc:meta])* $entry:ident $name:literal of $model:path { $($variant:ident),+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, Serialize, JsonSchema)]
        #[serde(rename_all = "kebab-case")]
        #[schemars(rename = $name)]
        pub(in crate::file) enum $entry {
            #[default]
            $($variant),+
        }

        impl From<$model> for $entry {
            fn from(value: $model) -> Self {
                use $model as Model;
                match value {
                    $(Model::$variant { .. } => Self::$variant),+
                }
            }
        }
    };
}

mirrored!(CoveringEntry "Covering" of crate::Covering {
    Tiles, Brick, Stone, Weatherboard, BoardAndBatten, HalfTimber, Snow
});
mirrored!(WhereEntry "Where" of crate::Where { Walls, Slopes, Lids });
mirrored!(TileShapeEntry "TileShape" of crate::TileShape { Square, Rounded, Pointed, Staggered });
mirrored!(BondEntry "Bond" of crate::Bond { Stretcher, English, Flemish });
mirrored!(StuffEntry "Stuff" of crate::Stuff { Dough, Fondant, GumPaste, Icing, Sweets });
mirrored!(StyleEntry "Style" of crate::Style { Plain, Slatted, Boarded, Battened });
mirrored!(TintEntry "Tint" of crate::Tint {
    Icing, Cream, Biscuit, Honey, Caramel, Ginger, Cocoa, Cinnamon, Raspberry, Pistachio, Blueberry, Poppy
});
mirrored!(OrnamentKindEntry "OrnamentKind" of crate::OrnamentKind {
    Shutters, Door, Sill, Lintel, Surround, WindowBox, Bargeboard, Fascia, RidgeCap, HipCap, Quoins, ChimneyCap
});
mirrored!(ExtraKindEntry "ExtraKind" of crate::ExtraKind { Tree, Fence, Sledge, Figure, Outline });
