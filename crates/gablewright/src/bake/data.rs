//! The plan for other programs: masses in g, lengths in mm, areas in mm², times in minutes.

use super::days::Days;
use gable_bake::timetable::{Entry, Timetable};
use gable_bake::{BakePlan, HousePlan, OnTray, Quantity};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct PlanData {
    /// What one of each house takes, the house that the bake belongs to first.
    houses: Vec<HouseData>,
    hand_over: &'static str,
    /// Of all copies of all houses.
    copies: usize,
    biscuit: f64,
    loss: f64,
    batches: Vec<BatchData>,
    ovenfuls: Vec<OvenfulData>,
    rolled: Vec<RolledData>,
    shopping: Vec<BuyData>,
    contains: Vec<&'static str>,
    may_contain: Vec<&'static str>,
    cautions: Vec<CautionData>,
    assumed: Vec<AssumedData>,
    problems: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    days: Option<DaysData>,
}

#[derive(Serialize)]
struct HouseData {
    title: String,
    /// The letter before the numbers of its templates, where there are several houses.
    #[serde(skip_serializing_if = "Option::is_none")]
    letter: Option<char>,
    copies: usize,
    dough: Vec<DoughData>,
    dough_net: f64,
    dough_to_make: f64,
    biscuit: f64,
    icing: Vec<IcingData>,
    glazing: Vec<GlazingData>,
    pastes: Vec<PasteData>,
    kit: Vec<String>,
    slip: String,
}

/// Moments as in ISO 8601, without a time zone.
#[derive(Serialize)]
struct DaysData {
    stand_by: String,
    stands: Option<String>,
    /// Why it is not in time.
    short: Vec<String>,
    /// What was tried and makes it possible.
    helps: Vec<String>,
    tasks: Vec<TaskData>,
}

#[derive(Serialize)]
struct TaskData {
    id: String,
    kind: &'static str,
    name: String,
    spans: Vec<[String; 2]>,
    who: Vec<String>,
    slack: Option<i64>,
    critical: bool,
}

#[derive(Serialize)]
struct DoughData {
    name: String,
    rolled: f64,
    pieces: usize,
    area: f64,
    net: f64,
}

#[derive(Serialize)]
struct IcingData {
    consistency: &'static str,
    colour: &'static str,
    net: f64,
    to_make: f64,
    bags: usize,
}

#[derive(Serialize)]
struct GlazingData {
    panes: usize,
    leaves: Option<usize>,
    mass: Option<f64>,
}

#[derive(Serialize)]
struct PasteData {
    stuff: &'static str,
    colour: &'static str,
    net: f64,
    to_make: f64,
}

#[derive(Serialize)]
struct BatchData {
    recipe: String,
    makes: &'static str,
    batches: f64,
    needed: f64,
    made: f64,
    water: f64,
    ingredients: Vec<IngredientData>,
}

#[derive(Serialize)]
struct IngredientData {
    id: String,
    name: String,
    mass: f64,
    percent: f64,
}

#[derive(Serialize)]
struct OvenfulData {
    tray: String,
    width: f64,
    depth: f64,
    size: &'static str,
    rolled: f64,
    minutes: [f64; 3],
    mass: f64,
    trim_minutes: f64,
    pieces: Vec<PieceData>,
}

#[derive(Serialize)]
struct RolledData {
    dough: String,
    rolled: f64,
    width: f64,
    depth: f64,
    mass: f64,
    scraps: f64,
    pieces: Vec<PieceData>,
}

#[derive(Serialize)]
struct PieceData {
    id: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    letter: Option<char>,
    template: Option<usize>,
    outline: Vec<[f64; 2]>,
}

#[derive(Serialize)]
struct BuyData {
    id: String,
    shelf: &'static str,
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    mass: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    count: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<[f64; 2]>,
    at_home: bool,
    cost: Option<f64>,
}

#[derive(Serialize)]
struct CautionData {
    title: &'static str,
    words: &'static str,
    source: &'static str,
}

#[derive(Serialize)]
struct AssumedData {
    figure: &'static str,
    value: f64,
    range: [f64; 2],
    basis: &'static str,
    source: &'static str,
}

fn piece(on: &OnTray) -> PieceData {
    PieceData {
        id: on.id.clone(),
        letter: on.mark,
        template: on.template,
        outline: on.outline.iter().map(|p| [p.x, p.y]).collect(),
    }
}

impl PlanData {
    pub(super) fn new(plan: &BakePlan, days: Option<&Days>) -> Self {
        use gable_bake::Presence::{Contains, May};
        let of = |presence| plan.allergens.iter().filter(|(_, p)| **p == presence).map(|(a, _)| a.words()).collect();
        Self {
            houses: plan.houses.iter().map(house).collect(),
            hand_over: plan.until.word(),
            copies: plan.copies(),
            biscuit: plan.baked().g(),
            loss: plan.loss,
            batches: plan.batches.iter().map(batch).collect(),
            ovenfuls: plan.ovenfuls.trays.iter().filter_map(|t| ovenful(plan, t)).collect(),
            rolled: plan.ovenfuls.rolled.iter().map(rolled).collect(),
            shopping: plan.shopping.lines.iter().map(buy).collect(),
            contains: of(Contains),
            may_contain: of(May),
            cautions: plan
                .cautions
                .iter()
                .map(|c| CautionData { title: c.title(), words: c.words(), source: c.source() })
                .collect(),
            assumed: plan.assumed.iter().map(|(figure, value)| assumed(&figure.known(), *value)).collect(),
            problems: plan.problems.clone(),
            days: days.map(|d| days_data(&d.table)),
        }
    }
}

fn house(own: &HousePlan) -> HouseData {
    let needs = &own.needs;
    HouseData {
        title: own.title.clone(),
        letter: own.mark,
        copies: own.copies,
        dough: needs.dough.sorts.iter().map(dough).collect(),
        dough_net: needs.dough.net.g(),
        dough_to_make: needs.dough.to_make.g(),
        biscuit: own.baked.g(),
        icing: needs.icing.iter().map(icing).collect(),
        glazing: needs.glazing.iter().map(glazing).collect(),
        pastes: needs.pastes.iter().map(paste).collect(),
        kit: own.kit.contents(gable_measure::Unit::Millimetre),
        slip: own.kit.slip(),
    }
}

fn days_data(table: &Timetable) -> DaysData {
    let task = |e: &Entry| TaskData {
        id: e.id.clone(),
        kind: e.kind.word(),
        name: e.name.clone(),
        spans: e.spans.iter().map(|span| [span.0.to_string(), span.1.to_string()]).collect(),
        who: e.who.clone(),
        slack: e.slack,
        critical: e.critical,
    };
    let trouble = table.trouble.as_ref();
    DaysData {
        stand_by: table.stand_by.to_string(),
        stands: table.stands.map(|at| at.to_string()),
        short: trouble.map_or_else(Vec::new, |t| t.short.clone()),
        helps: trouble.map_or_else(Vec::new, |t| t.helps.iter().map(|h| h.words.clone()).collect()),
        tasks: table.entries.iter().map(task).collect(),
    }
}

fn dough(d: &gable_bake::DoughNeed) -> DoughData {
    DoughData { name: d.name.clone(), rolled: d.rolled.mm(), pieces: d.pieces, area: d.area, net: d.net.g() }
}

fn icing(i: &gable_bake::IcingNeed) -> IcingData {
    IcingData {
        consistency: i.consistency.word(),
        colour: i.tint.word(),
        net: i.net.g(),
        to_make: i.to_make.g(),
        bags: i.bags,
    }
}

fn glazing(g: &gable_bake::GlazingNeed) -> GlazingData {
    GlazingData { panes: g.panes, leaves: g.leaves, mass: g.mass.map(gable_bake::Mass::g) }
}

fn paste(p: &gable_bake::PasteNeed) -> PasteData {
    PasteData { stuff: p.stuff.words(), colour: p.tint.word(), net: p.net.g(), to_make: p.to_make.g() }
}

fn batch(b: &gable_bake::Batch) -> BatchData {
    let line = |l: &gable_bake::WeighedLine| IngredientData {
        id: l.ingredient.clone(),
        name: l.name.clone(),
        mass: l.mass.g(),
        percent: l.percent,
    };
    BatchData {
        recipe: b.recipe.name.clone(),
        makes: b.recipe.makes.word(),
        batches: b.batches,
        needed: b.needed.g(),
        made: b.weighed.mass.g(),
        water: b.weighed.water,
        ingredients: b.weighed.lines.iter().map(line).collect(),
    }
}

fn ovenful(plan: &BakePlan, t: &gable_bake::Ovenful) -> Option<OvenfulData> {
    let class = plan.ovenfuls.classes.get(t.class)?;
    Some(OvenfulData {
        tray: t.tray.name.clone(),
        width: t.tray.width.mm(),
        depth: t.tray.depth.mm(),
        size: class.size.word(),
        rolled: class.thickest.mm(),
        minutes: [class.minutes.least, class.minutes.usual, class.minutes.most],
        mass: t.mass.g(),
        trim_minutes: t.trim_minutes,
        pieces: t.pieces.iter().map(piece).collect(),
    })
}

fn rolled(r: &gable_bake::RolledSheet) -> RolledData {
    RolledData {
        dough: r.dough.clone(),
        rolled: r.rolled.mm(),
        width: r.width.mm(),
        depth: r.depth.mm(),
        mass: r.mass.g(),
        scraps: r.scraps,
        pieces: r.pieces.iter().map(piece).collect(),
    }
}

fn buy(b: &gable_bake::ToBuy) -> BuyData {
    let (mass, count, size) = match b.amount {
        Quantity::Mass(mass) => (Some(mass.g()), None, None),
        Quantity::Count(count) => (None, Some(count), None),
        Quantity::Size(width, depth) => (None, None, Some([width.mm(), depth.mm()])),
    };
    BuyData {
        id: b.id.clone(),
        shelf: b.shelf.words(),
        name: b.name.clone(),
        mass,
        count,
        size,
        at_home: b.at_home,
        cost: b.cost,
    }
}

fn assumed(known: &gable_bake::Known, value: f64) -> AssumedData {
    AssumedData {
        figure: known.word,
        value,
        range: [known.range.0, known.range.1],
        basis: known.basis.words(),
        source: known.source,
    }
}
