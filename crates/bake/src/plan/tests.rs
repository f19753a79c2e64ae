use super::*;
use crate::{About, Quantity, Scaling};
use gable_raise::Guide;
use gable_shell::kitchen::Tray;
use gable_shell::{House, demo, solve};

fn planned(house: &House, notebook: &Notebook, copies: usize) -> BakePlan {
    let solved = solve(house);
    let dressed = gable_dress::dress(house, &solved);
    let guide = Guide::of(&solved).ok();
    let about = About { house, solved: &solved, dressed: &dressed, guide: guide.as_ref(), board: None };
    let kitchen = Kitchen { trays: Tray::usual().to_vec(), ..Kitchen::default() };
    BakePlan::of(&Lots::one(about, copies), &kitchen, notebook)
}

#[test]
fn every_demo_is_planned_without_a_problem() {
    for name in demo::names() {
        let plan = planned(&demo::house(name).unwrap(), &Notebook::default(), 1);
        assert_eq!(plan.problems, [""; 0], "{name}");
        let dough = plan.batch(Makes::Dough).unwrap();
        assert!(dough.weighed.mass >= dough.needed && dough.needed == plan.houses[0].needs.dough.to_make, "{name}");
        // Whole eggs, or they would not be bought.
        let eggs =
            dough.recipe.times(dough.batches).lines.iter().find(|l| l.ingredient == "egg").unwrap().amount.number;
        assert!((eggs - eggs.round()).abs() < 1e-9, "{name}: {eggs}");
        let icing = plan.batch(Makes::Icing).unwrap();
        assert!(icing.weighed.mass >= icing.needed, "{name}");
        println!("{name}: {} batches of dough, {} of icing", dough.batches, icing.batches);
    }
}

/// A house of a main body with a glazed annexe takes two to three household batches (common practice, no source).
#[test]
fn a_house_with_an_annexe_takes_two_to_three_batches() {
    let plan = planned(&demo::house("pilot-house").unwrap(), &Notebook::default(), 1);
    let dough = plan.batch(Makes::Dough).unwrap();
    let exact = dough.needed / dough.recipe.weighed(&Notebook::default().pantry()).unwrap().mass;
    assert!((2.0..=3.0).contains(&exact), "{exact}");
}

/// Water balance: the biscuit holds all the dry matter of the dough, and 5.3 % of water.
#[test]
fn the_biscuit_weighs_what_the_water_balance_leaves() {
    let plan = planned(&demo::house("net-store").unwrap(), &Notebook::default(), 1);
    let dough = plan.batch(Makes::Dough).unwrap();
    let dry = plan.houses[0].needs.dough.net * (1.0 - dough.weighed.water);
    assert!((plan.baked().g() - dry.g() / (1.0 - 0.053)).abs() < 1e-6, "{plan:?}");
    assert!((0.077..=0.142).contains(&plan.loss));
}

#[test]
fn a_workshop_takes_so_many_times_as_much_and_each_gets_a_kit() {
    let house = demo::house("boat-hut").unwrap();
    let notebook = Notebook { scaling: Scaling::Exact, ..Notebook::default() };
    let (one, twelve) = (planned(&house, &notebook, 1), planned(&house, &notebook, 12));
    let dough = |plan: &BakePlan| plan.batch(Makes::Dough).unwrap().weighed.mass.g();
    assert!((dough(&twelve) / dough(&one) - 12.0).abs() < 1e-9);
    assert_eq!(one.houses[0].kit, twelve.houses[0].kit);
    let pieces = |plan: &BakePlan| plan.ovenfuls.trays.iter().map(|t| t.pieces.len()).sum::<usize>();
    assert_eq!(pieces(&twelve), 12 * pieces(&one));
    assert!(twelve.ovenfuls.trays.len() <= 12 * one.ovenfuls.trays.len());
    assert_eq!(one.houses[0].kit.pieces.iter().map(|p| p.2).sum::<usize>(), pieces(&one));
    let flour = |plan: &BakePlan| plan.shopping.lines.iter().find(|l| l.id == "flour").unwrap().amount;
    let (Quantity::Mass(a), Quantity::Mass(b)) = (flour(&one), flour(&twelve)) else { panic!("flour is weighed") };
    assert!((b / a - 12.0).abs() < 1e-9);
    println!("{} trays for twelve, {} for one", twelve.ovenfuls.trays.len(), one.ovenfuls.trays.len());
}

/// Nobody sells half an egg.
#[test]
fn eggs_are_bought_whole() {
    let notebook = Notebook { scaling: Scaling::Exact, ..Notebook::default() };
    let plan = planned(&demo::house("pilot-house").unwrap(), &notebook, 1);
    let line = plan.shopping.lines.iter().find(|line| line.id == "egg").unwrap();
    let dough = plan.batch(Makes::Dough).unwrap();
    let eggs = dough.weighed.lines.iter().find(|line| line.ingredient == "egg").unwrap().mass;
    let Quantity::Count(count) = line.amount else { panic!("eggs are counted") };
    // 50 g a large egg (USDA FoodData Central).
    let exact = eggs.g() / 50.0;
    assert!(count as f64 >= exact && (count as f64) < exact + 1.0, "{count} for {exact}");
    assert!((exact - exact.round()).abs() > 0.05, "a number that tells nothing: {exact}");
}

#[test]
fn the_slip_says_what_is_in_it() {
    let slip = planned(&demo::house("net-store").unwrap(), &Notebook::default(), 1).slips().remove(0);
    assert_eq!(slip, "Contains wheat (gluten), eggs. May contain fish, soybeans, sulphites.");
}

#[test]
fn cautions_come_with_what_they_are_about() {
    let house = demo::house("pilot-house").unwrap();
    let mut notebook = Notebook::default();
    let plain = planned(&house, &notebook, 1).cautions;
    assert!(plain.contains(&Caution::ButtonCells) && plain.contains(&Caution::RawWhite));
    assert!(!plain.contains(&Caution::Honey));
    notebook.chosen.insert(Makes::Dough, "honey".to_owned());
    notebook.chosen.insert(Makes::Icing, "royal-icing-dried".to_owned());
    let honey = planned(&house, &notebook, 1).cautions;
    assert!(honey.contains(&Caution::Honey) && !honey.contains(&Caution::RawWhite));
}

#[test]
fn the_list_is_ticked_off_and_priced() {
    let mut notebook = Notebook::default();
    notebook.cupboard.at_home.insert("salt".to_owned());
    notebook.cupboard.prices.insert("flour".to_owned(), 2.0);
    let shopping = planned(&demo::house("boat-hut").unwrap(), &notebook, 1).shopping;
    let text = shopping.text(gable_measure::Unit::Millimetre);
    assert!(text.contains("Wheat flour") && !text.contains("Salt"), "{text}");
    let Quantity::Mass(flour) = shopping.lines.iter().find(|l| l.id == "flour").unwrap().amount else { panic!() };
    let (cost, unpriced) = shopping.cost();
    assert!((cost - flour.g() / 500.0).abs() < 1e-9);
    assert_eq!(unpriced, shopping.to_buy().count() - 1);
    println!("{text}");
}

/// A recipe that names what nobody knows is a problem that is told; everything else is planned.
#[test]
fn a_faulty_recipe_is_told_and_the_rest_is_planned() {
    let mut notebook = Notebook::default();
    let mut dough = Recipe::usual().remove(0);
    "stardust".clone_into(&mut dough.lines[0].ingredient);
    notebook.recipes.push(dough);
    let plan = planned(&demo::house("boat-hut").unwrap(), &notebook, 1);
    assert!(plan.problems.iter().any(|p| p.contains("stardust")), "{:?}", plan.problems);
    assert!(
        plan.batch(Makes::Dough).is_none() && plan.batch(Makes::Icing).is_some() && !plan.ovenfuls.trays.is_empty()
    );
}

/// A carton says how many whites, so the list does: 33 g each (USDA NDB 01124), and no half ones. Water comes from the tap.
#[test]
fn whites_are_counted_up_and_water_is_not_bought() {
    let notebook = Notebook { scaling: Scaling::Exact, ..Notebook::default() };
    let plan = planned(&demo::house("boat-hut").unwrap(), &notebook, 1);
    let icing = plan.batch(Makes::Icing).unwrap();
    let whites = icing.weighed.lines.iter().find(|line| line.ingredient.contains("white")).unwrap();
    let exact = whites.mass.g() / 33.0;
    assert!((exact - exact.round()).abs() > 0.05, "a number that tells nothing: {exact}");
    let line = plan.shopping.lines.iter().find(|line| line.id == whites.ingredient).unwrap();
    assert_eq!(line.note, format!("{} of them", exact.ceil()));
    assert!(plan.batch(Makes::Dough).unwrap().weighed.lines.iter().any(|line| line.ingredient == "water"));
    assert!(plan.shopping.lines.iter().all(|line| line.id != "water"));
}

#[test]
fn what_is_counted_is_priced_by_the_piece() {
    let mut notebook = Notebook::default();
    notebook.cupboard.prices.insert("bags".to_owned(), 0.25);
    let shopping = planned(&demo::house("pilot-house").unwrap(), &notebook, 1).shopping;
    let line = shopping.lines.iter().find(|line| line.id == "bags").unwrap();
    let Quantity::Count(count) = line.amount else { panic!("bags are counted") };
    assert!(count > 1 && line.cost == Some(count as f64 * 0.25), "{line:?}");
}
