//! How a house is baked, seen in the window, and worked through: whatever is said there is in the notebook at once.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::accesskit::{Role, Toggled};
use egui_kittest::kittest::{NodeT, Queryable};
use gable_bake::timetable::Rate;
use gable_bake::{Allergen, Figure, Makes, Notebook, Presence, notebook};
use gable_editor::{Editor, Start};
use gable_shell::demo;
use jiff::civil::date;
use kitchen::{Kitchen, press, shown};
use std::path::{Path, PathBuf};

/// A window at eight in the morning of the seventh of December, a Monday, with its notebook in a folder.
fn window(folder: &Path) -> Kitchen {
    let house = demo::house("boat-hut").unwrap();
    let editor = Editor::without_window(Start::House(Box::new(house))).unwrap();
    let editor = editor.at_home(folder.join("kitchen.json")).at_moment(date(2026, 12, 7).at(8, 0, 0, 0));
    shown(editor, egui::vec2(1440.0, 2400.0))
}

fn file(folder: &Path) -> PathBuf {
    folder.join("notebook.json")
}

fn kept(folder: &Path) -> Notebook {
    notebook::read(&std::fs::read_to_string(file(folder)).unwrap()).unwrap()
}

fn settle(kitchen: &mut Kitchen) {
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(120);
    kitchen.run_steps(4);
    while kitchen.query_by_label_contains("Working").is_some() {
        assert!(std::time::Instant::now() < deadline, "no plan after two minutes");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run_steps(2);
    }
}

fn ask(kitchen: &mut Kitchen, part: &str) {
    if kitchen.query_by_label("The bake").is_none() {
        press(kitchen, "House");
        kitchen.get_by_label_contains("The bake…").click();
        kitchen.run();
    }
    press(kitchen, part);
    settle(kitchen);
}

/// Types into a field, in place of what is there.
fn fill(kitchen: &mut Kitchen, name: &str, text: &str) {
    let field = |kitchen: &Kitchen| kitchen.get_by_role_and_label(Role::TextInput, name).focus();
    field(kitchen);
    kitchen.run();
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    kitchen.run();
    if text.is_empty() {
        kitchen.key_press(egui::Key::Delete);
    } else {
        kitchen.get_by_role_and_label(Role::TextInput, name).type_text(text);
    }
    kitchen.run();
    kitchen.key_press(egui::Key::Enter);
    kitchen.run();
}

/// Ticks the first box of such a name that is or is not ticked; whether there was one.
fn tick(kitchen: &mut Kitchen, words: &str, from: Toggled) -> bool {
    let is_it = |node: &egui_kittest::Node<'_>| {
        let node = node.accesskit_node();
        node.role() == Role::CheckBox && node.toggled() == Some(from)
    };
    let found = kitchen.query_all_by_label_contains(words).find(is_it).map(|task| task.click()).is_some();
    kitchen.run();
    found
}

fn says(kitchen: &Kitchen, words: &str) -> bool {
    kitchen.query_all_by_label_contains(words).next().is_some()
}

#[test]
fn the_bake_is_seen_part_by_part() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    for (part, words) in [
        ("How much", "to make: 909 g with 20 % for trimming"),
        ("Recipes", "500 g (4 cups) Wheat flour, plain, 100 %"),
        ("Trays", "Picture of tray 1: "),
        ("Shopping", "Piping bags"),
        ("Cautions", "Contains wheat (gluten), eggs."),
        ("Figures", "Mass of rolled dough"),
        ("Who and when", "Nobody is named yet"),
        ("Days", "by when the house must stand"),
        ("Test biscuits", "Fill in what came out of the oven."),
    ] {
        ask(&mut kitchen, part);
        assert!(says(&kitchen, words), "{part}: {words}");
    }
    assert!(!file(folder.path()).exists(), "looking writes nothing");
    press(&mut kitchen, "Close the bake");
    assert!(kitchen.query_by_label("The bake").is_none());
}

#[test]
fn figures_and_times_are_set_and_taken_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Figures");
    fill(&mut kitchen, "Dough for trimming and scraps", "30");
    fill(&mut kitchen, "Weighing and mixing a batch of dough", "45");
    let own = kept(folder.path());
    assert_eq!((own.figures.get(Figure::DoughTrim), own.rates.get(Rate::MixDough)), (0.3, 45.0));
    // What makes no sense is said to be so, and what was kept stays.
    fill(&mut kitchen, "Dough for trimming and scraps", "700");
    assert!(says(&kitchen, "is out of range; give 0 to 100 %"));
    assert_eq!(kept(folder.path()).figures.get(Figure::DoughTrim), 0.3);
    fill(&mut kitchen, "Dough for trimming and scraps", "a lot");
    assert!(says(&kitchen, "Give a number."));
    ask(&mut kitchen, "How much");
    assert!(says(&kitchen, "with 30 % for trimming"));
    ask(&mut kitchen, "Figures");
    press(&mut kitchen, "As assumed: dough for trimming and scraps");
    kitchen.get_by_label("As assumed: weighing and mixing a batch of dough").scroll_to_me();
    kitchen.run();
    kitchen.run_steps(4);
    press(&mut kitchen, "As assumed: weighing and mixing a batch of dough");
    assert_eq!(kept(folder.path()), Notebook::default());
    assert!(kitchen.query_by_label_contains("As assumed").is_none());
}

#[test]
fn a_recipe_is_copied_and_changed() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Recipes");
    press(&mut kitchen, "Make it mine: Construction dough");
    settle(&mut kitchen);
    let mine = kept(folder.path()).recipe_for(Makes::Dough).unwrap();
    assert_eq!(mine.name, "My construction dough");
    press(&mut kitchen, "My construction dough (yours)");
    settle(&mut kitchen);
    fill(&mut kitchen, "Amount of Wheat flour, plain in My construction dough", "700 miles");
    assert!(says(&kitchen, "is no measure"));
    fill(&mut kitchen, "Amount of Wheat flour, plain in My construction dough", "700 g");
    settle(&mut kitchen);
    let mine = kept(folder.path()).recipe_for(Makes::Dough).unwrap();
    let flour = mine.lines.iter().find(|line| line.ingredient == "flour").unwrap();
    assert_eq!(flour.amount.number, 700.0);
    press(&mut kitchen, "Strike out this recipe");
    settle(&mut kitchen);
    assert_eq!(kept(folder.path()).recipe_for(Makes::Dough).unwrap().name, "Construction dough");
}

#[test]
fn what_is_at_home_and_what_things_cost_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Shopping");
    assert!(tick(&mut kitchen, "Wheat flour, plain", Toggled::False));
    fill(&mut kitchen, "Currency", "EUR");
    fill(&mut kitchen, "Price of Piping bags", "0.25");
    let own = kept(folder.path()).cupboard;
    assert!(own.at_home.contains("flour"));
    assert_eq!((own.prices.get("bags"), own.currency.as_str()), (Some(&0.25), "EUR"));
    assert!(says(&kitchen, "To buy: ") && says(&kitchen, "EUR"));
    fill(&mut kitchen, "Price of Piping bags", "");
    assert!(tick(&mut kitchen, "Wheat flour, plain", Toggled::True));
    let own = kept(folder.path()).cupboard;
    assert!(own.at_home.is_empty() && own.prices.is_empty());
}

#[test]
fn two_test_biscuits_are_written_down() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Test biscuits");
    fill(&mut kitchen, "Thickness as baked", "7.5");
    fill(&mut kitchen, "Length of the strip as baked", "153");
    assert!(kitchen.query_by_label("Keep these biscuits").is_none(), "the hole is missing");
    fill(&mut kitchen, "Width of the hole as baked", "38.9");
    // 153 + 38.9 of 150 + 40 is 1 % more, and the edges do the rest (by hand).
    assert!(says(&kitchen, "It grows by 1 %, and at each edge by"));
    press(&mut kitchen, "Keep these biscuits");
    let own = kept(folder.path());
    assert!((own.spread().unwrap().0 - 0.01).abs() < 1e-9);
    press(&mut kitchen, "Strike out biscuits 1");
    assert_eq!(kept(folder.path()).biscuits, []);
}

/// By when, who, where: then the days are planned, ticked off, and go into a calendar.
#[test]
fn the_days_are_planned_and_worked_through() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Who and when");
    fill(&mut kitchen, "Must stand by", "Christmas");
    assert!(says(&kitchen, "Give a day and a time"));
    fill(&mut kitchen, "Must stand by", "2026-12-20 15:00");
    press(&mut kitchen, "Somebody else helps");
    fill(&mut kitchen, "Name of helper 1", "Ida");
    fill(&mut kitchen, "Hours of helper 1", "mon-fri 6pm");
    assert!(says(&kitchen, "from when to when is missing") || says(&kitchen, "From when to when is missing"));
    fill(&mut kitchen, "Hours of helper 1", "daily 18:00-22:00, 2026-12-08 off");
    fill(&mut kitchen, "Trays that an oven takes at once, kitchen 1", "2");
    let own = kept(folder.path());
    assert_eq!(own.people[0].to_string(), "Ida: mon-sun 18:00-22:00, 2026-12-08 off");
    assert_eq!(own.kitchens[0].shelves, 2);
    let house = demo::house("boat-hut").unwrap();
    assert_eq!(own.build(&house).unwrap().ready_by, Some(date(2026, 12, 20).at(15, 0, 0, 0)));

    ask(&mut kitchen, "Days");
    assert!(says(&kitchen, "It stands on ") && says(&kitchen, "Chart of all days"));
    assert!(tick(&mut kitchen, "Mix the dough for walls", Toggled::False));
    settle(&mut kitchen);
    let ticks = kept(folder.path()).build(&house).unwrap().log.ticks.clone();
    assert_eq!((ticks.len(), ticks[0].id.as_str(), ticks[0].minutes), (1, "mix-dough/walls", None));
    fill(&mut kitchen, "Minutes taken: Mix the dough for walls, 1 batch", "27");
    fill(&mut kitchen, "When done: Mix the dough for walls, 1 batch", "2026-12-07 07:10");
    settle(&mut kitchen);
    let ticks = kept(folder.path()).build(&house).unwrap().log.ticks.clone();
    assert_eq!((ticks[0].minutes, ticks[0].done), (Some(27.0), Some(date(2026, 12, 7).at(7, 10, 0, 0))));

    press(&mut kitchen, "Save as a calendar…");
    let calendar = folder.path().join("days.ics");
    fill(&mut kitchen, "File", calendar.to_str().unwrap());
    kitchen.run();
    assert!(std::fs::read_to_string(&calendar).unwrap().starts_with("BEGIN:VCALENDAR"));

    ask(&mut kitchen, "Shopping");
    press(&mut kitchen, "Save as a table…");
    let table = folder.path().join("list");
    fill(&mut kitchen, "File", table.to_str().unwrap());
    kitchen.run();
    let list = std::fs::read_to_string(table.with_extension("csv")).unwrap();
    assert!(list.starts_with("shelf,what,amount") && list.contains("Wheat flour"), "{list}");

    ask(&mut kitchen, "Today");
    assert!(says(&kitchen, "Waits by itself") && says(&kitchen, "The dough for walls rests"));
    assert!(says(&kitchen, "Piece that broke"));
    // Nothing of it is lost with the window.
    let mut again = window(folder.path());
    ask(&mut again, "Days");
    assert!(says(&again, "Done: 1"));
}

#[test]
fn a_broken_piece_is_baked_again() {
    let folder = tempfile::tempdir().unwrap();
    let house = demo::house("boat-hut").unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Who and when");
    fill(&mut kitchen, "Must stand by", "2026-12-20 15:00");
    ask(&mut kitchen, "Days");
    while tick(&mut kitchen, "Bake ovenful", Toggled::False) {
        settle(&mut kitchen);
    }
    ask(&mut kitchen, "Today");
    kitchen.get_by_label_contains("Piece that broke: ").click();
    kitchen.run();
    kitchen.get_by_label("Hut: left wall").click();
    kitchen.run();
    settle(&mut kitchen);
    assert!(says(&kitchen, "Bake it again: from") && says(&kitchen, "Mend it with icing"));
    press(&mut kitchen, "Bake it again");
    settle(&mut kitchen);
    let broken = kept(folder.path()).build(&house).unwrap().broken.clone();
    assert_eq!((broken.len(), broken[0].piece.as_str()), (1, "hut/wall-left"));
    assert!(says(&kitchen, "Hut: left wall broke on"));
    ask(&mut kitchen, "Days");
    assert!(says(&kitchen, "(again)"));
    ask(&mut kitchen, "Today");
    press(&mut kitchen, "Take back: Hut: left wall broke");
    assert_eq!(kept(folder.path()).build(&house).unwrap().broken, []);
}

/// What something else has written meanwhile is never written over, nor what cannot be read.
#[test]
fn a_notebook_changed_elsewhere_is_read_again() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Figures");
    fill(&mut kitchen, "Dough for trimming and scraps", "30");
    let other = kept(folder.path());
    let mut elsewhere = other.clone();
    elsewhere.cupboard.at_home.insert("salt".to_owned());
    std::fs::write(file(folder.path()), notebook::write(&elsewhere)).unwrap();
    press(&mut kitchen, "As assumed: dough for trimming and scraps");
    assert!(says(&kitchen, "changed by something else"));
    assert_eq!(kept(folder.path()), elsewhere);
    press(&mut kitchen, "As assumed: dough for trimming and scraps");
    let own = kept(folder.path());
    assert!(own.cupboard.at_home.contains("salt") && own.figures.own().next().is_none());

    std::fs::write(file(folder.path()), "{ half a").unwrap();
    press(&mut kitchen, "Close the bake");
    ask(&mut kitchen, "Figures");
    assert!(says(&kitchen, "your notebook could not be read"));
    fill(&mut kitchen, "Dough for trimming and scraps", "30");
    assert_eq!(std::fs::read_to_string(file(folder.path())).unwrap(), "{ half a");
}

/// A sugar of one's own: what a cup weighs, what it holds, what it costs; from then on recipes can use it.
#[test]
fn a_new_ingredient_is_written_down_and_used() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Recipes");
    press(&mut kitchen, "Make it mine: Construction dough");
    settle(&mut kitchen);
    press(&mut kitchen, "Ingredients of your own: 0");
    press(&mut kitchen, "A new ingredient");
    fill(&mut kitchen, "Name of ingredient 1", "Almond meal");
    fill(&mut kitchen, "Weight of a cup of ingredient 1", "none");
    assert!(says(&kitchen, "Give a number."));
    // 96 g a cup: USDA FoodData Central, almond flour (from memory).
    fill(&mut kitchen, "Weight of a cup of ingredient 1", "96");
    fill(&mut kitchen, "Price of ingredient 1", "14.5");
    assert!(says(&kitchen, "100 ml weigh 41 g"), "96 g of 236.588 ml (NIST SP 811)");
    press(&mut kitchen, "Ingredient 1: nuts");
    press(&mut kitchen, "Ingredient 1: milk");
    press(&mut kitchen, "Ingredient 1: contains milk");
    settle(&mut kitchen);
    let own = kept(folder.path());
    let meal = &own.ingredients[0];
    assert_eq!((meal.name.as_str(), meal.cup.unwrap().g()), ("Almond meal", 96.0));
    assert_eq!(meal.allergens, [(Allergen::Nuts, Presence::Contains), (Allergen::Milk, Presence::May)]);
    assert_eq!(own.cupboard.prices.get(&meal.id), Some(&14.5));
    press(&mut kitchen, "My construction dough (yours)");
    kitchen.get_by_label("Add an ingredient to My construction dough").click();
    kitchen.run();
    kitchen.get_by_label("Almond meal").scroll_to_me();
    kitchen.run();
    kitchen.run_steps(8);
    kitchen.get_by_label("Almond meal").click();
    kitchen.run();
    fill(&mut kitchen, "Amount of Almond meal in My construction dough", "2 cups");
    settle(&mut kitchen);
    assert!(says(&kitchen, "Almond meal is used in My construction dough."));
    ask(&mut kitchen, "Cautions");
    assert!(says(&kitchen, "nuts") && says(&kitchen, "May contain"));
}

/// A house that gets another name goes on with its bake when it is asked to, and what was ticked off stays ticked off.
#[test]
fn a_renamed_house_goes_on_with_its_bake() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Who and when");
    fill(&mut kitchen, "Must stand by", "2026-12-20 15:00");
    ask(&mut kitchen, "Days");
    assert!(tick(&mut kitchen, "Mix the dough for walls", Toggled::False));
    settle(&mut kitchen);
    press(&mut kitchen, "Close the bake");
    kitchen.get_by_role_and_label(Role::Button, "Boat hut").click();
    kitchen.run();
    fill(&mut kitchen, "Name", "Boat shed");
    ask(&mut kitchen, "How much");
    assert!(says(&kitchen, "When this house was called Boat hut, its bake was planned, and 1 task is done."));
    press(&mut kitchen, "Go on with that bake");
    settle(&mut kitchen);
    let own = kept(folder.path());
    assert_eq!(own.builds.iter().map(|build| build.house.as_str()).collect::<Vec<_>>(), ["Boat shed"]);
    assert_eq!(own.builds[0].log.ticks.len(), 1);
    assert!(!says(&kitchen, "When this house was called"));
    ask(&mut kitchen, "Days");
    assert!(says(&kitchen, "Done: 1"));
}

/// Two houses and six copies, handed over as kits: counted, on trays with letters, in one timetable.
#[test]
fn a_workshop_is_planned_in_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Who and when");
    fill(&mut kitchen, "Must stand by", "2026-12-30 15:00");
    fill(&mut kitchen, "How many houses", "4");
    kitchen.get_by_label("Bake a house that is built in with it").click();
    kitchen.run();
    kitchen.get_by_label("Net store").click();
    kitchen.run();
    fill(&mut kitchen, "How many of house 2", "2");
    kitchen.get_by_label_contains("Handed over as: finished").click();
    kitchen.run();
    kitchen.get_by_label_contains("kits: baked pieces").click();
    kitchen.run();
    let build = kept(folder.path()).builds[0].clone();
    assert_eq!((build.copies, build.others[0].copies, build.until), (4, 2, gable_bake::HandOver::Kits));
    ask(&mut kitchen, "How much");
    assert!(says(&kitchen, "4 × Boat hut, 2 × Net store") && says(&kitchen, "Kits of Net store: 2, in each"));
    ask(&mut kitchen, "Trays");
    assert!(says(&kitchen, "A: Boat hut, B: Net store"));
    ask(&mut kitchen, "Days");
    assert!(says(&kitchen, "It stands on ") && says(&kitchen, "Pack 6 kits"));
    ask(&mut kitchen, "Who and when");
    press(&mut kitchen, "Do not bake Net store with it");
    assert!(kept(folder.path()).builds[0].others.is_empty());
}

/// The pages that are looked at before the pack is saved have the timetable that the saved pack has.
#[test]
fn the_timetable_is_seen_before_the_pack_is_saved() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = window(folder.path());
    ask(&mut kitchen, "Who and when");
    fill(&mut kitchen, "Must stand by", "2026-12-20 15:00");
    press(&mut kitchen, "Close the bake");
    press(&mut kitchen, "Make the pack…");
    press(&mut kitchen, "Look at the pages");
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(120);
    kitchen.run_steps(2);
    while kitchen.query_by_label("Making the pages…").is_some() {
        assert!(std::time::Instant::now() < deadline, "no pages after two minutes");
        std::thread::sleep(std::time::Duration::from_millis(50));
        kitchen.run_steps(2);
    }
    kitchen.run_steps(3);
    let mut titles = Vec::new();
    while let Some(next) = kitchen.query_by_label("Next page").filter(|next| !next.accesskit_node().is_disabled()) {
        next.click();
        kitchen.run_steps(3);
        titles.push(says(&kitchen, ": Timetable"));
    }
    assert!(titles.contains(&true), "{} pages and no timetable", titles.len() + 1);
}
