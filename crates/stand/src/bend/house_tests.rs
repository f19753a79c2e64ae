//! Pieces of whole houses.

use super::*;
use crate::{Class, Range, Site};
use gable_bake::{About, Notebook};
use gable_dress::dress;
use gable_plane::V3;
use gable_shell::{House, Role, demo, solve};
use std::sync::Arc;

const DEMOS: [&str; 2] = ["boat-hut", "pilot-house"];

fn with<T>(house: &House, look: impl FnOnce(&Site<'_>) -> T) -> T {
    let solved = solve(house);
    let dressed = dress(house, &solved);
    let about = About { house, solved: &solved, dressed: &dressed, guide: None, board: None };
    look(&Site::new(about, &Notebook::default()))
}

fn each(mut look: impl FnMut(&Site<'_>, &Bends)) {
    for name in DEMOS {
        with(&demo::house(name).unwrap(), |site| {
            for one in bends(site, &Ask::default(), &mut Kept::default()) {
                look(site, &one);
            }
        });
    }
}

#[test]
fn every_slope_and_lid_is_bent_and_nothing_else() {
    for name in DEMOS {
        with(&demo::house(name).unwrap(), |site| {
            let all = bends(site, &Ask::default(), &mut Kept::default());
            let found: Vec<usize> = all.iter().map(|b| b.standing.piece).collect();
            let wanted = |k: &usize| matches!(site.pieces()[*k].role, Role::Slope(..) | Role::Lid);
            assert_eq!(found, (0..site.pieces().len()).filter(wanted).collect::<Vec<_>>(), "{name}");
            assert!(all.iter().all(|b| b.bent.is_ok()), "{name}");
        });
    }
}

/// Statics: what holds a piece pushes back with what lies on it.
#[test]
fn what_holds_a_piece_carries_all_that_lies_on_it() {
    each(|site, one| {
        let (bent, load) = (one.bent.as_ref().unwrap(), &one.standing.load);
        let all = load.pressure * one.standing.plate.shape.area() + load.forces.iter().map(|f| f.1).sum::<f64>();
        let back: f64 = bent.reactions.iter().sum();
        assert!((all + back).abs() < 0.005 * all.abs(), "{}: {all} {back}", site.pieces()[one.standing.piece].name);
    });
}

/// Chimney and dormers of the pilot house stand on roofs alone: the roofs carry what they weigh, and some of the roofs of wings besides,
/// but not all of these.
#[test]
fn what_stands_on_roofs_weighs_on_them() {
    with(&demo::house("pilot-house").unwrap(), |site| {
        let on_roofs = |part: &str| part == "chimney" || part.starts_with("dormer");
        let guests = (0..site.pieces().len()).filter(|k| on_roofs(&site.pieces()[*k].part.0));
        let weight: f64 = guests.map(|k| site.weights[k].done().newton()).sum();
        let leaning = (0..site.pieces().len()).filter(|k| {
            let piece = &site.pieces()[*k];
            !on_roofs(&piece.part.0) && piece.part.0 != "main" && matches!(piece.role, Role::Slope(..))
        });
        let leaning: f64 = leaning.map(|k| site.weights[k].done().newton()).sum();
        let mut carried = 0.0;
        for one in bends(site, &Ask::default(), &mut Kept::default()) {
            let down = (site.pieces()[one.standing.piece].house_from_piece.inverse() * -V3::z()).z;
            carried += one.standing.load.forces.iter().map(|f| f.1 / down).sum::<f64>();
        }
        assert!(weight > 0.1 && carried > 0.98 * weight, "{carried} of {weight} N");
        assert!(carried < weight + leaning / 2.0, "{carried} of {weight} and {leaning} N");
    });
}

#[test]
fn thicker_is_never_worse_and_more_on_it_never_better() {
    each(|site, one| {
        let bent = one.bent.as_ref().unwrap();
        let name = &site.pieces()[one.standing.piece].name;
        for more in [0.5, 1.0, 3.0] {
            let mut plate = one.standing.plate.clone();
            let before = plate.thickness.mm();
            plate.thickness = gable_measure::Length::mm_of(before + more);
            let heavier = 1.0 + one.standing.own * more / before;
            let thicker = bend(&plate, &one.standing.held, &one.standing.load).unwrap();
            assert!(thicker.worst().0 * heavier < bent.worst().0, "{name} {more}");
        }
        let more = standing(site, one.standing.piece, 2.0).unwrap();
        let more = bend(&more.plate, &more.held, &more.load).unwrap();
        assert!(more.worst().0 >= bent.worst().0 * (1.0 - 1e-9), "{name}");
    });
}

/// A wall under the middle pushes up there, and biscuit over it is pulled at its upper face: still never by more than before.
///
/// A prop in one place can be worse for a piece that is held all round, and is offered only where it was tried and helps.
#[test]
fn a_wall_under_the_middle_is_never_worse() {
    each(|site, one| {
        let bent = one.bent.as_ref().unwrap();
        let piece = &site.pieces()[one.standing.piece];
        let mut held = one.standing.held.clone();
        held.push(told::across(piece.up, one.deepest));
        let propped = bend(&one.standing.plate, &held, &one.standing.load).unwrap();
        let [worst, deepest] = [propped.worst().0 / bent.worst().0, propped.deepest(1.0).0 / bent.deepest(1.0).0];
        assert!(worst <= 1.02 && deepest <= 1.02, "{} {worst} {deepest}", piece.name);
    });
}

/// The mesh has hardly a say. Triangles half as large or larger by half change the worst stress by 2 %, where a corner that points
/// inwards is held on both its sides by up to a third: plate theory has stress grow without end there. No class changes by that.
#[test]
fn the_size_of_triangles_changes_no_class() {
    each(|site, one| {
        let Standing { plate, held, load, .. } = &one.standing;
        let name = &site.pieces()[one.standing.piece].name;
        let usual = one.bent.as_ref().unwrap().worst().0;
        let within = if name == "Main body: front roof" { 0.35 } else { 0.05 };
        for factor in [0.5, 0.75, 1.5] {
            let other = bend_by(plate, held, load, usual_size(plate) * factor).unwrap().worst().0 / usual;
            assert!((other - 1.0).abs() < within, "{name} {factor}: {other}");
            assert_eq!(Class::of(one.share), Class::of(one.share * other), "{name}");
        }
    });
}

#[test]
fn damper_is_never_better_and_the_range_is_carried() {
    with(&demo::house("pilot-house").unwrap(), |site| {
        let mut kept = Kept::default();
        let mut before: Option<Vec<Bends>> = None;
        for humidity in [0.2, 0.35, 0.45, 0.6, 0.8] {
            let all = bends(site, &Ask { humidity, ..Ask::default() }, &mut kept);
            for (k, one) in all.iter().enumerate() {
                let Range { low, usual, high } = one.share;
                assert!(0.0 < low && low < usual && usual < high);
                assert!(before.as_ref().is_none_or(|b| b[k].share.usual <= usual && b[k].share.high <= high));
            }
            before = Some(all);
        }
    });
}

#[test]
fn a_plate_is_kept_until_it_changes() {
    let house = demo::house("boat-hut").unwrap();
    let mut kept = Kept::default();
    let bent = |house: &House, covering: f64, kept: &mut Kept| {
        with(house, |site| {
            let all = bends(site, &Ask { covering, ..Ask::default() }, kept);
            all.into_iter().map(|b| b.bent.unwrap()).collect::<Vec<Arc<Bent>>>()
        })
    };
    let first = bent(&house, 1.0, &mut kept);
    let again = bent(&house, 1.0, &mut kept);
    assert!(first.iter().zip(&again).all(|(a, b)| Arc::ptr_eq(a, b)) && kept.len() == first.len());
    let mut thicker = house.clone();
    thicker.doughs.iter_mut().for_each(|d| d.rise *= 1.2);
    let other = bent(&thicker, 1.0, &mut kept);
    assert!(
        first.iter().zip(&other).all(|(a, b)| !Arc::ptr_eq(a, b)) && kept.len() == other.len(),
        "old ones are dropped"
    );
    assert_eq!(bent(&house, 1.0, &mut Kept::default()), first, "the same house bends the same");
}

/// A thin roof in damp air: what helps was tried, is told with what it leaves, and is better by a class.
#[test]
fn what_would_help_was_tried() {
    let mut house = demo::house("boat-hut").unwrap();
    house.doughs.iter_mut().for_each(|d| d.rolled = gable_measure::Length::mm_of(1.6));
    with(&house, |site| {
        let ask = Ask { humidity: 0.55, covering: 3.0 };
        for one in bends(site, &ask, &mut Kept::default()) {
            let class = Class::of(one.share);
            let helps = remedies(site, &ask, &one);
            assert!(class > Class::Sound && !helps.is_empty(), "{:?}", one.share);
            for remedy in &helps {
                assert!(Class::of(remedy.share) < class, "{}", remedy.words);
            }
        }
        for told in answers(site, &ask, &mut Kept::default()) {
            let line = told.line().to_lowercase();
            assert!(["safe", "guarantee", "will hold"].iter().all(|w| !line.contains(w)), "{line}");
        }
    });
}

/// Every map is told without colour: its legend goes from the lightest to the darkest, the worst place has its number, and all of it is on
/// the sheet, at any scale.
#[test]
fn a_map_is_told_without_colour() {
    use gable_drawing::{Item, Shade};
    each(|site, one| {
        for scale in [1.0, 0.3] {
            let sheet = map(&site.pieces()[one.standing.piece], one, scale);
            let inside = |p: &P2| (0.0..=sheet.width).contains(&p.x) && (0.0..=sheet.height).contains(&p.y);
            let (mut lights, mut texts) = (Vec::new(), Vec::new());
            for item in &sheet.items {
                let points: Vec<P2> = match item {
                    Item::Fill(fill) => {
                        lights.extend(if let Shade::Biscuit { light } = fill.shade { Some(light) } else { None });
                        fill.rings.iter().flatten().copied().collect()
                    }
                    Item::Stroke(stroke) => std::iter::once(stroke.start)
                        .chain(stroke.segments.iter().map(gable_plane::Segment::to))
                        .collect(),
                    Item::Text(text) => {
                        texts.push(text.text.clone());
                        vec![text.at]
                    }
                };
                assert!(points.iter().all(inside), "{item:?}");
            }
            // Bands on the piece and squares of the legend, each from light to dark.
            let bands = lights.len() / 2;
            assert!(bands >= 3 && lights[..bands] == lights[bands..], "{lights:?}");
            assert!(
                lights[..bands].is_sorted_by(|a, b| a > b) && lights[0] == 1.0 && lights[bands - 1] == 0.0,
                "{lights:?}"
            );
            assert!(texts.iter().any(|t| t.contains("× most, ")), "{texts:?}");
            assert!(texts.iter().any(|t| t.starts_with("above")) && texts.iter().any(|t| t.starts_with("below")));
        }
    });
}
