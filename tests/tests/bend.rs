//! Pieces as plates: against scikit-fem (PyPI), an independent finite-element library, and on the pieces of many made-up houses.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a check says by stopping that it failed")]

mod python_env;

use gable_bake::{About, Notebook};
use gable_dress::{Dressed, dress};
use gable_measure::Length;
use gable_plane::{P2, V2, bounds};
use gable_shell::{House, Piece, demo, solve};
use gable_stand::Site;
use gable_stand::bend::{
    Ask, BendError, Bends, Bent, Held, Kept, Load, Plate, Shape, Standing, bend, bend_by, bends, standing,
};
use gable_tests::{porches_many, random_house, random_many};
use python_env::{python, said, scripts};
use std::io::Write;
use std::process::{Command, Stdio};

const NARROWING: f64 = 0.25;

/// A piece held along its foot and its top, as it is lifted by two edges: along the lowest and the highest edge of its outline.
fn lifted(piece: &Piece) -> (Plate, Vec<Held>) {
    let shape = Shape::of_piece(piece);
    let ring = &shape.rings[0];
    let (low, high) = bounds(ring).unwrap();
    let edges = (0..ring.len()).map(|k| (ring[k], ring[(k + 1) % ring.len()]));
    let level = |y: f64| move |e: &(P2, P2)| (e.0.y - y).abs() < 1e-6 && (e.1.y - y).abs() < 1e-6;
    let along = |y: f64| edges.clone().filter(level(y)).map(|(a, b)| Held::along(a, b)).collect::<Vec<_>>();
    let held = [along(low.y), along(high.y)].concat();
    (Plate { shape, thickness: piece.thickness, narrowing: NARROWING }, held)
}

/// Where the two are compared: spread over the piece, away from edges, where moments grow without end at corners.
fn places(bent: &Bent, plate: &Plate) -> Vec<usize> {
    let edges = |p: P2| {
        let rings = plate.shape.rings.iter();
        rings
            .flat_map(|r| (0..r.len()).map(move |k| (r[k], r[(k + 1) % r.len()])))
            .map(|(a, b)| {
                let way = b - a;
                (p - (a + way * ((p - a).dot(&way) / way.norm_squared()).clamp(0.0, 1.0))).norm()
            })
            .fold(f64::INFINITY, f64::min)
    };
    let far: Vec<usize> = (0..bent.mesh.points.len()).filter(|&k| edges(bent.mesh.points[k]) > 7.0).collect();
    far.iter().copied().step_by(far.len().div_ceil(12)).collect()
}

/// Three walls with windows and a door, at one load: deflections within 1 % of the largest, moments within 2 %.
#[test]
fn pieces_with_openings_bend_as_in_another_library() {
    let mut cases = Vec::new();
    for (name, id) in
        [("pilot-house", "main/wall-front"), ("pilot-house", "main/wall-back"), ("boat-hut", "hut/wall-right")]
    {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let piece = solved.pieces.iter().find(|p| p.id.0.ends_with(id)).unwrap_or_else(|| {
            panic!("no {id} among {:?}", solved.pieces.iter().map(|p| (&p.id.0, p.openings.len())).collect::<Vec<_>>())
        });
        assert!(!piece.openings.is_empty(), "{id} has openings");
        let (plate, held) = lifted(piece);
        let bent = bend_by(&plate, &held, &Load { pressure: 1.0, ..Load::default() }, 4.0).unwrap();
        cases.push((format!("{name} {id}"), plate, held, bent));
    }
    let flat = |p: &P2| [p.x, p.y];
    let told: Vec<_> = cases
        .iter()
        .map(|(_, plate, held, bent)| {
            let at = places(bent, plate);
            serde_json::json!({
                "points": bent.mesh.points.iter().map(flat).collect::<Vec<_>>(),
                "triangles": bent.mesh.triangles,
                "held": held.iter().map(|h| [flat(&h.from), flat(&h.to)]).collect::<Vec<_>>(),
                "narrowing": NARROWING,
                "radius": 2.0,
                "places": at.iter().map(|&k| flat(&bent.mesh.points[k])).collect::<Vec<_>>(),
            })
        })
        .collect();
    let script = scripts().join("plates.py");
    let mut child = Command::new(python())
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(serde_json::to_string(&told).unwrap().as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "{}", said(&output));
    let theirs: Vec<Vec<[f64; 4]>> = serde_json::from_slice(&output.stdout).unwrap();
    for ((name, plate, _, bent), theirs) in cases.iter().zip(theirs) {
        let stiffness = 12.0 * (1.0 - NARROWING * NARROWING) / plate.thickness.mm().powi(3);
        let ours: Vec<f64> = bent.deflections(stiffness).collect();
        let at = places(bent, plate);
        let most = theirs.iter().fold([0.0_f64; 2], |[w, m], t| [w.max(t[0].abs()), m.max(t[1].abs()).max(t[2].abs())]);
        let mut worst = [0.0_f64; 2];
        for (&k, t) in at.iter().zip(&theirs) {
            worst[0] = worst[0].max((ours[k] - t[0]).abs() / most[0]);
            let m = bent.moments()[k];
            let differences = [m.x - t[1], m.y - t[2], m.z - t[3]].map(|d| d.abs() / most[1]);
            worst[1] = differences.into_iter().fold(worst[1], f64::max);
        }
        println!("{name}: {} places, {} points, w {:.4} M {:.4}", at.len(), ours.len(), worst[0], worst[1]);
        assert!(at.len() >= 8 && worst[0] < 0.01 && worst[1] < 0.02, "{name}: {worst:?}");
    }
}

/// A piece lifted by its foot and its top is worked out quickly, as a beam of slices. Against the plate held along the same edges: the plate is
/// asked for more beside openings, where stress gathers, and for less where the beam is short and wide.
#[test]
fn a_lifted_piece_bends_as_a_plate_about() {
    let mut ratios = Vec::new();
    for name in demo::names() {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let dressed = Dressed::default();
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
        let notebook = Notebook::default();
        let site = Site::new(about, &notebook);
        for (k, piece) in solved.pieces.iter().enumerate() {
            let (plate, held) = lifted(piece);
            let weight = site.weights[k].biscuit.newton() / gable_bake::piece_area(piece);
            let load = Load { pressure: weight, ..Load::default() };
            let Ok(bent) = bend(&plate, &held, &load) else { continue };
            let lifts = gable_stand::lift::lifts(&site, k);
            let beam = lifts.iter().find(|l| l.way == gable_stand::lift::Way::ByFootAndTop).unwrap();
            ratios.push((bent.worst().0 / beam.stress, format!("{name} {}", piece.id.0)));
        }
    }
    ratios.sort_by(|a, b| a.0.total_cmp(&b.0));
    let middle = ratios[ratios.len() / 2].0;
    println!("{} pieces, {:?} to {:?}, middle {middle:.2}", ratios.len(), ratios[0], ratios[ratios.len() - 1]);
    assert!(ratios.len() > 30);
    assert!((0.9..1.3).contains(&middle), "{middle}");
    assert!(ratios.iter().all(|(r, _)| (0.6..2.5).contains(r)), "{ratios:?}");
}

/// How many houses are judged: a usual number, or as many as `GABLE_PLATES` pieces ask for.
fn wanted() -> usize {
    std::env::var("GABLE_PLATES").ok().and_then(|n| n.parse().ok()).unwrap_or(300)
}

/// A made-up house: of one part, of several, with porches.
fn made_up(seed: u64) -> House {
    match seed % 3 {
        0 => random_house(seed),
        1 => random_many(seed),
        _ => porches_many(seed),
    }
}

/// On made-up houses thicker is never worse, more on a piece never better, and a wall under the middle hardly ever worse: it draws moments over
/// itself, and of 2,015 pieces two were asked for 5 and 19 % more than without it. It is tried before it is offered, so it is not offered
/// there. Numbers may move by 5 % with the mesh, which is set out anew for the wall.
#[test]
fn what_should_help_helps_on_made_up_houses() {
    let (mut seen, mut faults, mut walls) = (0, Vec::new(), 0);
    for seed in 1000.. {
        if seen >= wanted() / 5 {
            break;
        }
        let house = made_up(seed);
        let solved = solve(&house);
        let dressed = dress(&house, &solved);
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
        let notebook = Notebook::default();
        let site = Site::new(about, &notebook);
        for one in bends(&site, &Ask::default(), &mut Kept::default()) {
            let Bends { standing: Standing { piece, plate, held, load, own, .. }, bent: Ok(bent), .. } = &one else {
                continue;
            };
            seen += 1;
            let before = bent.worst().0;
            let mut thicker = plate.clone();
            thicker.thickness = plate.thickness + Length::mm_of(1.0);
            let heavier = 1.0 + own / plate.thickness.mm();
            let thicker = bend_by(&thicker, held, load, bent.mesh.size).unwrap().worst().0 * heavier;
            let level = V2::new(solved.pieces[*piece].up.y, -solved.pieces[*piece].up.x) * 2000.0;
            let wall = Held::along(one.deepest - level, one.deepest + level);
            let walled = bend(plate, &[held.clone(), vec![wall]].concat(), load).unwrap().worst().0;
            let twice = standing(&site, *piece, 2.0).unwrap();
            let twice = bend(&twice.plate, &twice.held, &twice.load).unwrap().worst().0;
            for (what, worse) in [("thicker", thicker / before), ("wall", walled / before), ("twice", before / twice)] {
                if what == "wall" && (1.05..1.3).contains(&worse) {
                    walls += 1;
                } else if worse > 1.05 {
                    faults.push(format!("{seed} {}: {what} {worse:.3}", solved.pieces[*piece].id.0));
                }
            }
        }
    }
    println!("{seen} pieces, {walls} worse over a wall, {} faults: {faults:?}", faults.len());
    assert!(faults.is_empty() && walls * 200 <= seen, "{walls} of {seen}, {faults:?}");
}

/// Pieces of made-up houses: all bend where they stand and lifted by three corners; a mesh never fails, and nothing panics.
#[test]
fn pieces_of_made_up_houses_all_bend() {
    let (wanted, mut seen, mut standing, mut unheld) = (wanted(), 0, 0, 0);
    let mut faults = Vec::new();
    for seed in 0.. {
        if seen >= wanted {
            break;
        }
        let house = made_up(seed);
        let solved = solve(&house);
        let dressed = Dressed::default();
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
        let notebook = Notebook::default();
        let site = Site::new(about, &notebook);
        for Bends { standing: one, bent, share, .. } in bends(&site, &Ask::default(), &mut Kept::default()) {
            standing += 1;
            let name = &solved.pieces[one.piece].id.0;
            match bent {
                Ok(_) if share.low > 0.0 && share.high.is_finite() => {}
                Err(BendError::NotHeld) => unheld += 1,
                other => faults.push(format!("{seed} {name}: {:?}", other.map(|_| share))),
            }
        }
        for piece in &solved.pieces {
            seen += 1;
            let shape = Shape::of_piece(piece);
            let (low, high) = bounds(&shape.rings[0]).unwrap();
            let middle = low + (high - low) / 2.0;
            let corner = |towards: P2| {
                let far = |p: &&P2| (*p - towards).norm();
                *shape.rings[0].iter().min_by(|a, b| far(a).total_cmp(&far(b))).unwrap()
            };
            let held = [low, P2::new(high.x, low.y), P2::new(middle.x, high.y)].map(|p| Held::at(corner(p)));
            let plate = Plate { shape, thickness: piece.thickness, narrowing: NARROWING };
            match bend(&plate, &held, &Load { pressure: 1e-5, ..Load::default() }) {
                Ok(bent) if bent.worst().0.is_finite() && bent.worst().0 > 0.0 => {}
                // A triangle or a strip may have but two corners that are nearest.
                Err(BendError::NotHeld) => unheld += 1,
                other => faults.push(format!("{seed} {}: {:?}", piece.id.0, other.map(|b| b.worst()))),
            }
        }
    }
    println!("{seen} pieces lifted, {standing} where they stand, {unheld} not held, {} faults", faults.len());
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(unheld * 20 < seen, "{unheld} of {seen} are not held");
}

#[test]
#[ignore = "writes pictures to look at"]
fn look() {
    for name in ["pilot-house", "boat-hut"] {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let dressed = dress(&house, &solved);
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
        let notebook = Notebook::default();
        let site = Site::new(about, &notebook);
        for one in bends(&site, &Ask::default(), &mut Kept::default()).iter().take(3) {
            let piece = &solved.pieces[one.standing.piece];
            let sheet = gable_stand::bend::map(piece, one, 0.6);
            let file = std::env::temp_dir().join(format!("map-{}.png", piece.id.0.replace('/', "-")));
            std::fs::write(&file, gable_export::write_png(&sheet, 900).unwrap()).unwrap();
            println!("{}", file.display());
        }
    }
}
