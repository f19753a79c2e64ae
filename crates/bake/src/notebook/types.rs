//! The notebook as it stands in its file. Lengths in mm, masses in g, times in minutes.

use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// What every version begins with.
#[derive(Deserialize)]
pub(super) struct HeadData {
    pub(super) format: String,
    pub(super) version: u32,
}

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NotebookData {
    pub(super) format: String,
    pub(super) version: u32,
    /// By the word of the figure.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) figures: BTreeMap<String, f64>,
    /// How long things take, by the word of the rate.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) rates: BTreeMap<String, f64>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) ingredients: Vec<IngredientData>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) recipes: Vec<RecipeData>,
    /// Id of a recipe, by what it makes.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) chosen: BTreeMap<String, String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) scaling: Option<String>,
    #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
    pub(super) at_home: BTreeSet<String>,
    /// Of a kilogram, or of one where it is counted.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) prices: BTreeMap<String, f64>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub(super) currency: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) oven: Vec<OvenData>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) biscuits: Vec<BiscuitData>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) snaps: Vec<SnapData>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) kitchens: Vec<KitchenData>,
    /// Minutes from one kitchen to another.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) between: Option<u32>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub(super) damp: bool,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) people: Vec<PersonData>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) bakes: Vec<BuildData>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct KitchenData {
    pub(super) name: String,
    #[serde(default = "one")]
    pub(super) ovens: u32,
    /// Trays that an oven takes at once.
    #[serde(default = "one")]
    pub(super) shelves: u32,
    #[serde(default = "two")]
    pub(super) trays: u32,
    /// Trays in the freezer at once.
    #[serde(default = "one")]
    pub(super) freezer: u32,
    /// Where pieces can lie and dry, dm².
    #[serde(default = "hundred")]
    pub(super) table: u32,
}

fn one() -> u32 {
    1
}

fn two() -> u32 {
    2
}

fn hundred() -> u32 {
    100
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PersonData {
    pub(super) name: String,
    /// As a person writes them: 'mon-fri 18:00-21:00'.
    #[serde(default)]
    pub(super) hours: Vec<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BuildData {
    pub(super) house: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) ready_by: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) reserve: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) copies: Option<usize>,
    /// Other houses that are baked with it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) others: Vec<OtherData>,
    /// As what they are handed over.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) hand_over: Option<String>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub(super) carried: bool,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) done: Vec<TickData>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) broken: Vec<BrokenData>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OtherData {
    /// File or built-in name.
    pub(super) house: String,
    pub(super) copies: usize,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TickData {
    pub(super) task: String,
    pub(super) kind: String,
    /// Minutes by the rates alone.
    pub(super) usual: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) done: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) minutes: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) kitchen: Option<usize>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BrokenData {
    pub(super) piece: String,
    pub(super) at: String,
    pub(super) way: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct IngredientData {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) family: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) cup: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) tablespoon: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) teaspoon: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) each: Option<f64>,
    /// Share of its mass.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) water: Option<f64>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) contains: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) may_contain: Vec<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RecipeData {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) makes: String,
    pub(super) lines: Vec<LineData>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) steps: Vec<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LineData {
    pub(super) ingredient: String,
    /// As a person writes it: '2 1/2 cups'.
    pub(super) amount: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OvenData {
    pub(super) rolled: f64,
    pub(super) size: String,
    pub(super) minutes: f64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BiscuitData {
    pub(super) dough: String,
    pub(super) rolled: f64,
    pub(super) baked: f64,
    pub(super) strip_cut: f64,
    pub(super) strip_baked: f64,
    pub(super) hole_cut: f64,
    pub(super) hole_baked: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) before: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) after: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) minutes: Option<f64>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SnapData {
    pub(super) dough: String,
    pub(super) span: f64,
    pub(super) strips: Vec<StripData>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StripData {
    pub(super) width: f64,
    pub(super) thickness: f64,
    pub(super) broke_at: f64,
    /// A smaller load, and how far the middle went down under it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) load: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) sag: Option<f64>,
}
