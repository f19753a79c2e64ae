//! Walls that came out thicker or thinner than planned: the rest closes on them, by the judge that knows only the pieces.

#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise, helpers included")]

use gable_measure::Length;
use gable_shell::{Batch, House, PartId, as_it_stands, demo, solve};
use gable_tests::{Case, Fault, Whole, plain_house, plain_many};

/// A house whose walls are all baked, each so much thicker than planned.
fn baked(mut house: House, by: f64) -> House {
    let ids: Vec<PartId> = house.parts.iter().map(|p| p.id.clone()).collect();
    for id in ids {
        house.came_out(&id, Batch::Walls);
        let planned = house.as_planned(&id, Batch::Walls).and_then(|b| b.thickness);
        if let Some(entry) = house.baked.last_mut() {
            entry.thickness = planned.map(|p| p + Length::mm_of(by));
        }
    }
    house
}

fn faults(house: &House) -> Vec<Fault> {
    let (solved, stands) = (solve(house), as_it_stands(house));
    if house.parts.len() == 1 {
        Case::new(&stands, &solved).unwrap().faults()
    } else {
        Whole::new(&stands, &solved).unwrap().faults()
    }
}

/// How some houses close on their walls.
#[derive(Debug, Default)]
struct Closing {
    /// Houses in which nothing baked would have to change.
    fitting: usize,
    /// Houses of which the program says which baked piece does not fit: the high wall of a lean-to, for one, whose
    /// slanted top is cut for its thickness.
    told: usize,
    /// What each of those says first.
    said: Vec<String>,
    /// Houses that cannot be built as they came out for some other reason, and what it is.
    blocked: Vec<String>,
    /// What the judge has against each of the fitting ones first.
    faults: Vec<String>,
}

/// Only houses that can be built, and close as planned.
fn closing(houses: impl Iterator<Item = House>) -> Closing {
    let mut all = Closing::default();
    for (k, house) in houses.enumerate() {
        if solve(&house).blocking().next().is_some() || !faults(&house).is_empty() {
            continue;
        }
        for by in [-1.0, 1.0] {
            let house = baked(house.clone(), by);
            let solved = solve(&house);
            let of = |what: &str| format!("house {k}, {by} mm: {what}");
            if let Some(told) = solved.findings.iter().find(|f| f.kind == "baked-would-change") {
                all.told += 1;
                all.said.push(of(&told.what));
            } else if let Some(blocked) = solved.blocking().next() {
                all.blocked.push(of(&blocked.what));
            } else {
                all.fitting += 1;
                all.faults.extend(faults(&house).first().map(|f| of(&format!("{f:?}"))));
            }
        }
    }
    all
}

#[test]
fn demos_close_on_walls_as_they_came_out() {
    let all = closing(demo::names().filter_map(demo::house).filter(|h| h.parts.len() == 1));
    assert!(all.fitting == 6 && all.faults.is_empty(), "{all:#?}");
}

#[test]
fn made_up_houses_close_on_walls_as_they_came_out() {
    let all = closing((0..40).map(plain_house));
    println!("{all:#?}");
    assert!(all.fitting >= 40 && all.faults.is_empty() && all.blocked.is_empty(), "{all:#?}");
}

#[test]
fn made_up_houses_of_several_parts_close_on_walls_as_they_came_out() {
    let all = closing((0..30).map(plain_many));
    println!("{all:#?}");
    assert!(all.fitting >= 12 && all.faults.is_empty() && all.blocked.is_empty(), "{all:#?}");
}
