//! Posts of a side, and the floor of a part with its steps.

use super::part_sizes::words;
use crate::fields::Form;
use egui::Ui;
use gable_measure::Length;
use gable_shell::file::limits;
use gable_shell::{Dough, FloorKind, House, Part, Posts, Side, Steps, StepsHigh};
use gable_words::tr;

/// What stands on a side: a wall, or posts.
pub(super) fn side(ui: &mut Ui, form: &mut Form<'_>, side: &mut Side, place: &str, thickness: Length) {
    form.tick(ui, (&format!("{place}.wall"), tr!("A wall stands here"), tr!("change of the wall")), &mut side.wall);
    if side.wall {
        side.posts = None;
        return;
    }
    let at = |what: &str| format!("{place}.posts{what}");
    let mut has = side.posts.is_some();
    form.tick(ui, (&at(""), tr!("Posts carry the roof here"), tr!("change of the posts")), &mut has);
    if has != side.posts.is_some() {
        side.posts = has.then(|| Posts::usual(thickness));
    }
    let Some(posts) = &mut side.posts else { return };
    if let Some(new) = form.count(
        ui,
        (&at(".count"), tr!("Posts in a row"), tr!("change of the posts")),
        1..=limits::MOST_POSTS,
        posts.count,
    ) {
        posts.count = new;
    }
    form.length(ui, (&at(".width"), tr!("Width of a post"), tr!("change of the posts")), &mut posts.width);
    let strips = (&*at(".strips"), tr!("Strips in a post"), tr!("change of the posts"));
    if let Some(new) = form.count(ui, strips, 1..=limits::MOST_STRIPS, posts.strips) {
        posts.strips = new;
    }
    form.tick(ui, (&at(".at_ends"), tr!("First and last at the ends"), tr!("change of the posts")), &mut posts.at_ends);
}

/// The floor and its steps.
pub(super) fn floor(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) {
    let gap = house.gap;
    let Some(part) = house.parts.get_mut(k) else { return };
    let at = |what: &str| format!("parts[{k}].floor.{what}");
    let floors = words(&[
        (FloorKind::None, tr!("None, the board is the floor")),
        (FloorKind::Inside, tr!("Between the walls")),
        (FloorKind::Under, tr!("Under the walls")),
    ]);
    form.choice(ui, (&at("kind"), tr!("Floor"), tr!("change of the floor")), &mut part.floor.kind, &floors);
    if part.floor.kind != FloorKind::Under {
        part.floor.steps = None;
        return;
    }
    let mut has = part.floor.steps.is_some();
    form.tick(ui, (&at("steps"), tr!("Built up of several plates"), tr!("change of the steps")), &mut has);
    if has != part.floor.steps.is_some() {
        let front = part.sides.first().map(|s| s.id.clone());
        let high = StepsHigh::Count(2);
        part.floor.steps =
            has.then(|| Steps { high, plates: 1, tread: limits::USUAL_TREAD, sides: front.into_iter().collect() });
    }
    let thickness = house.doughs.iter().find(|d| d.id == part.floor.dough).map(Dough::baked).unwrap_or_default();
    steps(ui, form, part, k, (thickness, gap));
}

fn steps(ui: &mut Ui, form: &mut Form<'_>, part: &mut Part, k: usize, (thickness, gap): (Length, Length)) {
    let at = |what: &str| format!("parts[{k}].floor.steps.{what}");
    let Some(steps) = &mut part.floor.steps else { return };
    let plates = steps.plates(thickness, gap);
    let mut by_height = matches!(steps.high, StepsHigh::Height(_));
    let ways = [(false, tr!("By the number of steps").to_owned()), (true, tr!("By the height").to_owned())];
    form.choice(ui, (&at("high"), tr!("Built up"), tr!("change of the steps")), &mut by_height, &ways);
    match (by_height, steps.high) {
        (true, StepsHigh::Count(_)) => steps.high = StepsHigh::Height(Steps::height_of(plates, thickness, gap)),
        (false, StepsHigh::Height(_)) => {
            let count = plates.div_ceil(usize::from(steps.plates.max(1)));
            steps.high = StepsHigh::Count(u8::try_from(count).unwrap_or(limits::MOST_STEPS).min(limits::MOST_STEPS));
        }
        _ => {}
    }
    match &mut steps.high {
        StepsHigh::Count(count) => {
            let field = (&*at("count"), tr!("Steps"), tr!("change of the steps"));
            if let Some(new) = form.count(ui, field, 1..=limits::MOST_STEPS, *count) {
                *count = new;
            }
        }
        StepsHigh::Height(height) => {
            form.length(ui, (&at("height"), tr!("Height"), tr!("change of the steps")), height)
        }
    }
    let field = (&*at("plates"), tr!("Plates in a step"), tr!("change of the steps"));
    if let Some(new) = form.count(ui, field, 1..=limits::MOST_PLATES_OF_STEP, steps.plates) {
        steps.plates = new;
    }
    let whole = Steps::height_of(steps.plates(thickness, gap), thickness, gap);
    let rise = Steps::height_of(usize::from(steps.plates) + 1, thickness, gap) - thickness;
    let words = tr!(
        "A rise is a whole number of plates with their icing: {} here, {} in all.",
        form.unit.print(rise),
        form.unit.print(whole)
    );
    ui.label(egui::RichText::new(words).small());
    form.length(ui, (&at("tread"), tr!("Tread"), tr!("change of the tread")), &mut steps.tread);
    for side in &part.sides {
        let mut goes_down = steps.sides.contains(&side.id);
        let label = tr!("Steps down on the {} side", super::side_name(&side.id.0).to_lowercase());
        form.tick(ui, (&at(&format!("sides.{}", side.id.0)), &label, tr!("change of the steps")), &mut goes_down);
        if goes_down != steps.sides.contains(&side.id) {
            steps.sides.retain(|id| id != &side.id);
            if goes_down {
                steps.sides.push(side.id.clone());
            }
        }
    }
}
