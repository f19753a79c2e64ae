//! What is written down is read back, and nonsense is refused.

use super::*;
use crate::timetable::{Broken, Mending, Person, Rate, TaskKind, Tick, Workplace};
use crate::{
    Allergen, Basis, Family, Figure, Ingredient, Makes, Mass, OvenNote, PieceSize, Presence, Recipe, Scaling, SnapTest,
    Strip, TestBiscuits,
};
use gable_measure::Length;
use gable_shell::DoughId;
use jiff::civil::date;

fn full() -> Notebook {
    let mm = Length::mm_of;
    let mut notebook = Notebook { scaling: Scaling::Exact, ..Notebook::default() };
    notebook.figures.set(Figure::DoughTrim, 0.3).unwrap();
    notebook.ingredients.push(Ingredient {
        id: "treacle".to_owned(),
        name: "Black treacle".to_owned(),
        family: Family::Syrup,
        cup: Some(Mass::grams(331.5)),
        tablespoon: None,
        teaspoon: None,
        each: None,
        water: Some(0.22),
        allergens: vec![(Allergen::Milk, Presence::Contains), (Allergen::Sulphites, Presence::May)],
        note: None,
        basis: Basis::Own,
        source: "your notebook".to_owned(),
    });
    let dough = Recipe::usual().remove(0);
    notebook.recipes.push(Recipe {
        id: "harbour".to_owned(),
        name: "Harbour dough".to_owned(),
        basis: Basis::Own,
        source: "your notebook".to_owned(),
        ..dough
    });
    notebook.chosen.insert(Makes::Dough, "harbour".to_owned());
    notebook.cupboard.at_home.insert("salt".to_owned());
    notebook.cupboard.prices.insert("flour".to_owned(), 0.89);
    "EUR".clone_into(&mut notebook.cupboard.currency);
    notebook.oven_log.push(OvenNote { rolled: mm(6.0), size: PieceSize::Small, minutes: 9.5 });
    notebook.biscuits.push(TestBiscuits {
        dough: "walls".to_owned(),
        rolled: mm(6.0),
        baked: mm(7.5),
        strip_cut: mm(200.0),
        strip_baked: mm(204.0),
        hole_cut: mm(40.0),
        hole_baked: mm(39.0),
        before: Some(Mass::grams(150.0)),
        after: Some(Mass::grams(131.0)),
        minutes: None,
    });
    let strip = |grams| Strip { width: mm(40.0), thickness: mm(7.0), broke_at: Mass::grams(grams), sag: None };
    let mut strips = [900.0, 1000.0, 1100.0, 1200.0, 1300.0].map(strip).to_vec();
    strips[2].sag = Some((Mass::grams(500.0), mm(0.5)));
    notebook.snaps.push(SnapTest { dough: "walls".to_owned(), span: SnapTest::SPAN, strips });
    days(&mut notebook);
    notebook
}

/// All that the days are planned by.
fn days(notebook: &mut Notebook) {
    notebook.rates.set(Rate::Cure, 900.0).unwrap();
    notebook.kitchens = vec![
        Workplace { shelves: 2, ..Workplace::usual("At home") },
        Workplace { freezer: 0, ..Workplace::usual("The parish hall") },
    ];
    notebook.between = Some(45);
    notebook.damp = true;
    notebook.people = ["Ida: mon-fri 18:00-21:00, 2026-12-05 off", "Ole: sat 9:00-17:00 in The parish hall"]
        .map(|text| Person::read(text).unwrap())
        .to_vec();
    let at = |hour| date(2026, 12, 3).at(hour, 30, 0, 0);
    let mut build = Build { ready_by: Some(date(2026, 12, 20).at(15, 0, 0, 0)), copies: 3, ..Build::new("Boat hut") };
    let tick = |id: &str, done, minutes| Tick {
        id: id.to_owned(),
        kind: TaskKind::Cut,
        usual: 21.5,
        done,
        minutes,
        kitchen: Some(1),
    };
    build.log.ticks = vec![tick("cut/a", Some(at(18)), Some(25.0)), tick("cut/b", None, Some(5.0))];
    build.broken = vec![Broken { piece: "main/wall-left".to_owned(), at: at(20), way: Mending::BakeAgain }];
    notebook.builds = vec![Build { carried: true, reserve: 60, ..Build::new("Boat hut, 150 %") }, build];
}

/// A house that is called otherwise goes on with its bake, and takes nobody else's.
#[test]
fn a_renamed_house_keeps_its_bake() {
    let house = |title: &str| {
        let mut house = gable_shell::demo::house("boat-hut").unwrap();
        title.clone_into(&mut house.owner.title);
        house
    };
    let mut notebook = Notebook::default();
    notebook.build_mut(&house("Boat hut")).ready_by = Some(date(2026, 12, 20).at(15, 0, 0, 0));
    notebook.build_mut(&house("Net store")).copies = 4;
    let before = notebook.clone();
    assert_eq!(notebook.bakes_before(&house("Boat shed")), ["Boat hut", "Net store"]);
    assert!(notebook.bakes_before(&house("Net store")).is_empty(), "it has a bake of its own");
    assert!(!notebook.carry_over("Boat hut", &house("Net store")) && !notebook.carry_over("Barn", &house("Boat shed")));
    assert_eq!(notebook, before);
    // A bake of which nothing is said is no hindrance.
    notebook.build_mut(&house("Boat shed"));
    assert!(notebook.carry_over("Boat hut", &house("Boat shed")));
    assert_eq!(notebook.builds.len(), 2);
    assert_eq!(notebook.build(&house("Boat hut")), None);
    let kept = notebook.build(&house("Boat shed")).unwrap();
    assert_eq!(kept.ready_by, before.builds[0].ready_by);
}

#[test]
fn a_notebook_is_read_back() {
    for notebook in [Notebook::default(), full()] {
        assert_eq!(read(&write(&notebook)), Ok(notebook));
    }
    let notebook = full();
    assert_eq!(notebook.recipe_for(Makes::Dough).unwrap().name, "Harbour dough");
    assert!(notebook.recipe_for(Makes::Fondant).is_none(), "it is bought");
    assert!((notebook.loss().unwrap() - (1.0 - 131.0 / 150.0)).abs() < 1e-12);
    // By hand: 204 + 39 of 200 + 40 is 1.25 % more, and the edges do the rest.
    let (share, edge) = notebook.spread().unwrap();
    assert!((share - 0.0125).abs() < 1e-12 && (edge.mm() - 0.75).abs() < 1e-9);
    let snapped = |name: &str| notebook.snapped(&DoughId(name.to_owned())).map(|s| s.strength.mean);
    // By hand: 3 · 1.1 · 9.80665 · 100 / (2 · 40 · 49) = 0.82556; another dough is taken to carry as much.
    assert!((snapped("walls").unwrap() - 0.825_56).abs() < 1e-4 && snapped("walls") == snapped("roofs"));
    let house = gable_shell::demo::house("boat-hut").unwrap();
    let here = notebook.baked_here(&house);
    let rise = |house: &gable_shell::House, name: &str| house.doughs.iter().find(|d| d.id.0 == name).unwrap().rise;
    assert_eq!((rise(&here, "walls"), rise(&here, "roofs")), (1.25, rise(&house, "roofs")));
}

#[test]
fn what_makes_no_sense_is_refused_with_its_place() {
    let whole = write(&full());
    for (old, new, said) in [
        ("gablewright-notebook", "diary", "format: \"diary\" is something else"),
        ("\"version\": 2", "\"version\": 9,\n\"soup\": 1", "version: this is version 9"),
        ("\"dough-trim\": 0.3", "\"dough-trim\": 30.0", "figures.dough-trim: dough for trimming"),
        ("dough-trim", "dough-trimmings", "figures.dough-trimmings: there is no such figure"),
        ("500 g", "500 miles", "recipes[0].lines[0].amount: \"miles\" is no measure"),
        ("\"family\": \"syrup\"", "\"family\": \"goo\"", "ingredients[0].family: give one of flour"),
        ("\"makes\": \"dough\"", "\"makes\": \"soup\"", "recipes[0].makes: \"soup\" is nothing"),
        ("\"size\": \"small\"", "\"size\": \"tiny\"", "oven[0].size: give large or small"),
        ("\"strip_baked\": 204.0", "\"strip_baked\": 8.0", "biscuits[0]: test biscuits: dough does not grow"),
        ("\"flour\": 0.89", "\"flour\": -1.0", "prices.flour: -1 must be above 0"),
        ("\"milk\"", "\"moonlight\"", "ingredients[0].contains: \"moonlight\" is no allergen"),
        ("\"version\": 2,", "\"version\": 2;", "line 3: this is no notebook"),
        ("\"cure\": 900.0", "\"cure\": -5.0", "rates.cure: icing cures right through: -5 min"),
        ("\"cure\"", "\"ham\"", "rates.ham: there is no such figure"),
        ("\"shelves\": 2", "\"shelves\": 0", "kitchens[0].shelves: give 1 to 1000"),
        ("mon-fri 18:00-21:00", "mon-fri 6pm", "people[0].hours[0]: from when to when is missing"),
        ("in The parish hall", "in a barn", "people[1].hours[0]: there is no kitchen called 'a barn'"),
        ("2026-12-20T15:00", "2026-12-20", "bakes[1].ready_by: \"2026-12-20\" is no moment"),
        ("\"kind\": \"cut\"", "\"kind\": \"sing\"", "bakes[1].done[0].kind: \"sing\" is no kind of task"),
        ("bake-again", "forget", "bakes[1].broken[0].way: give bake-again or mend"),
        ("\"copies\": 3", "\"copies\": 0", "bakes[1].copies: give 1 to 200"),
    ] {
        let text = whole.replacen(old, new, 1);
        assert_ne!(text, whole, "{old}");
        let error = read(&text).unwrap_err().to_string();
        assert!(error.starts_with(said), "{error}");
    }
}

/// As the first version was written: its own example in docs/notebook.md.
#[test]
fn what_an_older_program_wrote_is_read() {
    let text = r#"{ "format": "gablewright-notebook", "version": 1, "figures": { "bead": 6 }, "at_home": ["salt"] }"#;
    let old = read(text).unwrap();
    assert_eq!(old.figures.get(Figure::Bead), 6.0);
    assert_eq!((old.builds.len(), old.workplaces().len()), (0, 1));
    assert_eq!(read(&write(&old)), Ok(old));
}

/// The example of the manual says what the manual says.
#[test]
fn the_example_of_the_manual_is_read() {
    let manual = include_str!("../../../../docs/notebook.md");
    let text = manual.split("```json").nth(1).and_then(|rest| rest.split("```").next()).unwrap();
    let notebook = read(text).unwrap();
    assert_eq!(notebook.people.len(), 2);
    assert_eq!(notebook.builds[0].log.ticks.len(), 1);
}
