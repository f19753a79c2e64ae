//! A blind build: what is printed in a pack (outlines, letters, arrows, the base-board plan, the tables) is enough for a
//! program that knows nothing else to put the house together again (pdfplumber and numpy, from PyPI).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a check says by stopping that it failed")]

mod python_env;

use gable_drawing::{Item, Layer, LineRole, Text};
use gable_export::{DocInfo, PackOptions, Page, pack, write_pdf};
use gable_plane::{P2, P3, Segment, V3};
use gable_shell::{Piece, Solved, demo, solve};
use python_env::{python, said, scripts};
use std::collections::BTreeMap;
use std::process::Command;

/// Promised: every corner of every piece within this, mm.
const NEAR: f64 = 0.1;
/// Openings are flattened this fine where they are compared, mm.
const FINE: f64 = 0.01;

/// Where the rings of both faces of every piece came to stand, by the name of the piece.
type Built = BTreeMap<String, [Vec<Vec<[f64; 3]>>; 2]>;

/// The pages of a house, without the house file that rides in a pack.
fn pages(solved: &Solved, name: &str) -> Vec<Page> {
    pack(solved, &demo::house(name).unwrap(), &PackOptions::default()).unwrap()
}

/// What the program makes of printed pages, and what it says.
fn built(pages: &[Page]) -> (Built, String) {
    let folder = tempfile::tempdir().unwrap();
    let info = DocInfo {
        title: "Pages".into(),
        author: String::new(),
        subject: String::new(),
        keywords: Vec::new(),
        rights: String::new(),
        enclosure: None,
    };
    std::fs::write(folder.path().join("pack.pdf"), write_pdf(pages, &info).unwrap()).unwrap();
    let mut command = Command::new(python());
    command.arg(scripts().join("blind_build.py")).args(["pack.pdf", "built.json"]);
    let done = command.current_dir(folder.path()).env("PYTHONDONTWRITEBYTECODE", "1").output().unwrap();
    let built = std::fs::read(folder.path().join("built.json")).unwrap_or_else(|_| b"{}".to_vec());
    (serde_json::from_slice(&built).unwrap(), said(&done))
}

/// Every piece that is missing, or is not where it belongs, and by how much.
fn faults(solved: &Solved, built: &Built) -> Vec<String> {
    // The plan does not say where on it the house has its origin, so that is what most pieces agree on.
    let apart = |piece: &Piece| {
        let there = built.get(&piece.name)?;
        let outlines: Vec<P3> = there.iter().flat_map(|face| &face[0]).map(|p| P3::from(*p)).collect();
        let middle = |points: &[P3]| points.iter().map(|p| p.coords).sum::<V3>() / points.len() as f64;
        Some(middle(&piece.corners().collect::<Vec<_>>()) - middle(&outlines))
    };
    let shifts: Vec<V3> = solved.pieces.iter().filter_map(apart).collect();
    let shift = V3::from_fn(|k, _| {
        let mut all: Vec<f64> = shifts.iter().map(|s| s[k]).collect();
        all.sort_by(f64::total_cmp);
        all.get(all.len() / 2).copied().unwrap_or_default()
    });
    let fault = |piece: &Piece| match built.get(&piece.name) {
        None => Some(format!("{}: does not stand", piece.name)),
        Some(there) => {
            let off = off(piece, there, shift);
            (off > NEAR).then(|| format!("{}: {off:.3} mm off", piece.name))
        }
    };
    solved.pieces.iter().filter_map(fault).collect()
}

/// How far the farthest corner of a piece is from where it was built, or the other way round, mm; openings too.
fn off(piece: &Piece, there: &[Vec<Vec<[f64; 3]>>; 2], shift: V3) -> f64 {
    // The outer face first: of roofs, floors and lids the upper one.
    let (near, far) = ((&piece.outline, 0.0), (&piece.outline_back, piece.thickness.mm()));
    let faces = if piece.role.is_upright() { [near, far] } else { [far, near] };
    let mut worst: f64 = 0.0;
    for ((outline, z), built) in faces.into_iter().zip(there) {
        let place = |p: &P2| piece.house_from_piece * P3::new(p.x, p.y, z);
        let through = piece.openings.iter().filter(|o| o.mode.goes_through());
        let mut rings = vec![outline.clone()];
        rings.extend(through.map(|o| o.contour.flatten(FINE)));
        let rings: Vec<Vec<P3>> = rings.iter().map(|ring| ring.iter().map(place).collect()).collect();
        let built: Vec<Vec<P3>> =
            built.iter().map(|ring| ring.iter().map(|p| P3::from(*p) + shift).collect()).collect();
        if rings.len() != built.len() {
            return f64::INFINITY;
        }
        for (one, other) in [(&rings, &built), (&built, &rings)] {
            for (k, ring) in one.iter().enumerate() {
                let like = |q: &Vec<P3>| ring.iter().map(|p| from_ring(p, q, k > 0)).fold(0.0, f64::max);
                // The outline is the first of both, openings are in any order.
                let those = if k == 0 { &other[..1] } else { &other[1..] };
                worst = worst.max(those.iter().map(like).fold(f64::INFINITY, f64::min));
            }
        }
    }
    worst
}

/// Distance from the nearest corner of a ring, or from the nearest edge.
fn from_ring(p: &P3, ring: &[P3], edges: bool) -> f64 {
    let distance = |k: usize| {
        let (a, v) = (ring[k], ring[(k + 1) % ring.len()] - ring[k]);
        let share = if edges && v.norm() > 0.0 { ((p - a).dot(&v) / v.norm_squared()).clamp(0.0, 1.0) } else { 0.0 };
        (p - a - v * share).norm()
    };
    (0..ring.len()).map(distance).fold(f64::INFINITY, f64::min)
}

fn is_built_blind(name: &str) {
    let solved = solve(&demo::house(name).unwrap());
    let (built, words) = built(&pages(&solved, name));
    assert_eq!(faults(&solved, &built), Vec::<String>::new(), "{name}: {words}");
    assert!(words.contains(" 0 joints do not close"), "{name}: {words}");
}

#[test]
fn the_largest_house_is_built_from_its_pack_alone() {
    is_built_blind("pilot-house");
}

#[test]
fn the_other_houses_are_built_from_their_packs_alone() {
    for name in demo::names().filter(|name| *name != "pilot-house") {
        is_built_blind(name);
    }
}

/// The first template of a pack: the page it is on, and the index of its outline.
fn first_template(pages: &[Page]) -> (usize, usize) {
    let is_cut = |item: &Item| matches!(item, Item::Stroke(s) if s.layer == Layer::Cut && s.role == LineRole::Edge);
    let page = pages.iter().position(|p| p.label != "cover" && p.drawing.items.iter().any(is_cut)).unwrap();
    (page, pages[page].drawing.items.iter().position(is_cut).unwrap())
}

#[test]
fn a_pack_with_one_template_too_small_is_found_out() {
    let solved = solve(&demo::house("boat-hut").unwrap());
    let mut pages = pages(&solved, "boat-hut");
    let (page, item) = first_template(&pages);
    let Item::Stroke(stroke) = &mut pages[page].drawing.items[item] else { panic!("no outline") };
    let from = stroke.start;
    for segment in &mut stroke.segments {
        let Segment::Line { to } = segment else { panic!("an arc in an outline") };
        *to = from + (*to - from) * 0.99;
    }
    let (built, words) = built(&pages);
    assert!(!faults(&solved, &built).is_empty(), "{words}");
}

#[test]
fn a_pack_with_two_letters_exchanged_is_found_out() {
    let solved = solve(&demo::house("boat-hut").unwrap());
    let mut pages = pages(&solved, "boat-hut");
    // Of the front wall: a corner and a rake.
    let (page, _) = first_template(&pages);
    let mut letters: Vec<&mut Text> = Vec::new();
    for item in &mut pages[page].drawing.items {
        if let Item::Text(text) = item {
            letters.extend(["B", "H"].contains(&text.text.as_str()).then_some(text));
        }
    }
    let [one, other] = letters.as_mut_slice() else { panic!("{} letters", letters.len()) };
    std::mem::swap(&mut one.text, &mut other.text);
    let (built, words) = built(&pages);
    let found = !faults(&solved, &built).is_empty() || !words.contains(" 0 joints do not close");
    assert!(found, "{words}");
}
