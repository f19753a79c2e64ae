//! Houses can be put up, piece by piece, by straight moves: judged by an independent solid library, which moves each piece
//! along its way past those that stand.
//!
//! `GABLE_HOUSES` sets how many houses are tried.

use gable_measure::Length;
use gable_plane::V3;
use gable_raise::{Held, Step, Stuck, Why, check, order};
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
    /// Houses with a gap for icing, and without.
    count: [usize; 2],
    /// What is wrong with orders that were found.
    faults: Vec<String>,
    /// Houses without an order, with a gap and without.
    stuck: [Vec<String>; 2],
    /// Of those, the ones of which the program says nothing.
    untold: Vec<String>,
    /// Houses without a gap that have no order with one of 0.8 mm either.
    still: Vec<String>,
}

fn tried(count: u64) -> Tried {
    let count: u64 = std::env::var("GABLE_HOUSES").ok().and_then(|n| n.parse().ok()).unwrap_or(count);
    let mut tried = Tried::default();
    for (kind, make) in [("any", random_many as fn(u64) -> House), ("plain", plain_many), ("porches", porches_many)] {
        for seed in 0..count {
            tried.house(&format!("{kind} {seed}"), make(seed));
        }
    }
    tried
}

impl Tried {
    fn house(&mut self, name: &str, mut house: House) {
        let solved = solve(&house);
        if solved.blocking().next().is_some() {
            return;
        }
        let tight = usize::from(house.gap.mm() == 0.0);
        self.count[tight] += 1;
        match order(&solved) {
            Ok(steps) => self.faults.extend(faults(&house, &solved, &steps).iter().map(|f| format!("{name}: {f}"))),
            Err(stuck) => {
                self.stuck[tight].push(format!("{name}: {stuck}"));
                if !tells(&solved, &stuck) {
                    self.untold.push(name.to_owned());
                }
                house.gap = Length::mm_of(0.8);
                if tight == 1 && order(&solve(&house)).is_err() {
                    self.still.push(name.to_owned());
                }
            }
        }
    }

    fn report(&self) -> String {
        let [gap, tight] = &self.stuck;
        let [with, without] = self.count;
        format!(
            "no order: {} of {with} houses with a gap, {} of {without} without, of which {} have none with a gap either\n\
             {gap:#?}\n{tight:#?}\n{:?}",
            gap.len(),
            tight.len(),
            self.still.len(),
            self.still
        )
    }
}

/// Whether the program names each piece that holds, or is loose, with something to do about it.
fn tells(solved: &Solved, stuck: &Stuck) -> bool {
    let told = check(solved);
    let causes = stuck.left.iter().filter(|held| matches!(held.why, Why::InTheWay(_) | Why::Floats));
    let mut causes = causes.peekable();
    if causes.peek().is_none() {
        return !told.is_empty();
    }
    let says = |held: &Held| {
        let id = &solved.pieces[held.piece].id.0;
        told.iter().any(|f| &f.place == id && f.what.contains(&held.name) && !f.remedy.is_empty())
    };
    causes.all(says)
}

/// The promise is that 99 of 100 have an order. It holds for houses with a gap for icing. Without one, pieces that reach round
/// others have no play: of those one in twenty has none, and the program says which pieces hook into each other.
#[test]
fn ninety_nine_of_a_hundred_have_an_order_or_it_is_told_why_not() {
    let tried = tried(120);
    eprintln!("{}", tried.report());
    assert!(tried.faults.is_empty(), "{:#?}", tried.faults);
    assert!(tried.untold.is_empty(), "{:?}", tried.untold);
    // Of 1,191 houses: 5 of 600 with a gap, 25 of 591 without.
    assert!(tried.stuck[0].len() <= tried.count[0].div_ceil(100), "{}", tried.report());
    assert!(tried.stuck[1].len() * 16 <= tried.count[1], "{}", tried.report());
}
