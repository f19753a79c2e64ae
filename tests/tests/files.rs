//! A house as files of other kinds, read back by libraries that know nothing of this program (from PyPI).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a check says by stopping that it failed")]

mod node_env;
mod python_env;

use gable_dress::{Dressed, dress};
use gable_export::{FileChoice, FileKind, house_files, save_files, template_drawings};
use gable_measure::Length;
use gable_plane::{Contour, P3, ring_area};
use gable_shell::{Corners, Glass, House, Piece, Placing, Ridges, Solved, demo, solve};
use node_env::report;
use python_env::{python, said, scripts};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::process::Command;

/// What a reader finds in files.
fn read(kind: &str, files: &[PathBuf]) -> Vec<Value> {
    let mut command = Command::new(python());
    command.arg(scripts().join("read_files.py")).arg(kind).args(files).env("PYTHONDONTWRITEBYTECODE", "1");
    let done = command.output().unwrap();
    assert!(done.status.success(), "{}", said(&done));
    serde_json::from_slice(&done.stdout).unwrap()
}

struct Written {
    _folder: tempfile::TempDir,
    files: Vec<PathBuf>,
}

fn written(house: &House, solved: &Solved, kind: FileKind) -> Written {
    scaled(house, solved, kind, 1.0)
}

fn scaled(house: &House, solved: &Solved, kind: FileKind, scale: f64) -> Written {
    let choice = FileChoice { kinds: vec![kind], scale };
    let folder = tempfile::tempdir().unwrap();
    let files = save_files(folder.path(), &house_files(solved, house, "house", &choice).unwrap().files).unwrap();
    Written { _folder: folder, files }
}

/// Areas of all that one template each cuts, mm², from the solver and the dressing: outline less openings.
fn areas(solved: &Solved, dressed: &Dressed) -> Vec<f64> {
    let mut all: Vec<f64> = Vec::new();
    for piece in &solved.pieces {
        let cut: f64 = piece.openings.iter().filter(|o| o.mode.goes_through()).map(|o| o.contour.area().abs()).sum();
        all.push(ring_area(&piece.outline) - cut);
    }
    all.extend(dressed.panes.iter().filter(|p| p.glass == Glass::Leaf).map(|p| p.outline.area()));
    all.extend(dressed.doors.iter().map(|d| d.outline.area()));
    all.extend(dressed.ornaments.iter().chain(&dressed.extras).map(gable_dress::OrnamentPiece::area));
    all
}

/// What a template cuts: its largest outline less the others.
fn net(found: &Value) -> f64 {
    let rings: Vec<f64> = found["areas"].as_array().unwrap().iter().map(|a| a.as_f64().unwrap()).collect();
    let outline = rings.iter().copied().fold(0.0, f64::max);
    2.0 * outline - rings.iter().sum::<f64>()
}

/// How often a template is cut, by its count: 'cut 2', 'cut 1, and 1 with the pattern turned over'; 0 for templates that
/// only show the lines inside.
fn times(count: &str) -> usize {
    if count.starts_with("cut with") {
        return 0;
    }
    count.split(|c: char| !c.is_ascii_digit()).filter_map(|n| n.parse::<usize>().ok()).sum()
}

fn are_true(name: &str, kind: FileKind, word: &str) {
    let house = demo::house(name).unwrap();
    let solved = solve(&house);
    let dressed = dress(&house, &solved);
    let written = written(&house, &solved, kind);
    let templates = template_drawings(&solved, &dressed);
    assert_eq!(written.files.len(), templates.len());
    let found = read(word, &written.files);
    // Every template serves so many of the things with its area, and nothing is left.
    let mut wanted = areas(&solved, &dressed);
    for (template, found) in templates.iter().zip(&found) {
        let area = net(found);
        for _ in 0..times(&template.count) {
            let near = |a: &f64| (a - area).abs();
            let best = (0..wanted.len()).min_by(|&a, &b| near(&wanted[a]).total_cmp(&near(&wanted[b]))).unwrap();
            // Arcs of 0.005 mm in outlines were flattened for the solver, and come back as arcs.
            let allowed = 0.05 + 5e-4 * area;
            assert!(near(&wanted[best]) < allowed, "{name} {}: {area} {}", template.name, wanted[best]);
            wanted.swap_remove(best);
        }
        let texts: Vec<&str> = found["texts"].as_array().unwrap().iter().filter_map(Value::as_str).collect();
        let number = template.number.to_string();
        assert!(texts.iter().any(|t| t.starts_with(&number)), "{name} {}: {texts:?}", template.name);
        assert!(texts.iter().any(|t| t.starts_with("must measure")), "{texts:?}");
        if let Some(complaints) = found["complaints"].as_array() {
            assert!(complaints.is_empty(), "{name} {}: {complaints:?}", template.name);
        }
    }
    assert!(wanted.is_empty(), "{name}: {} things have no template", wanted.len());
}

#[test]
fn svg_of_every_demo_cuts_what_the_pieces_are() {
    demo::names().for_each(|name| are_true(name, FileKind::Svg, "svg"));
}

/// ezdxf loads release 12 strictly; its audit must have nothing to say and nothing to mend.
#[test]
fn dxf_of_every_demo_cuts_what_the_pieces_are() {
    demo::names().for_each(|name| are_true(name, FileKind::Dxf, "dxf"));
}

/// The boat hut has a round-headed door through the foot of its front wall, which is part of a flattened outline, and the
/// arcs of a file are as many as those of the exact contours.
#[test]
fn arcs_of_doors_and_windows_are_arcs_in_the_files() {
    let house = demo::house("boat-hut").unwrap();
    let solved = solve(&house);
    let round =
        |contour: &Contour| contour.segments().iter().filter(|s| matches!(s, gable_plane::Segment::Arc { .. })).count();
    let of_piece = |piece: &gable_shell::Piece| -> usize {
        let cut = piece.openings.iter().filter(|o| o.mode.goes_through());
        cut.chain(&piece.notches).map(|o| round(&o.contour)).sum()
    };
    for (kind, word) in [(FileKind::Svg, "svg"), (FileKind::Dxf, "dxf")] {
        let found = read(word, &written(&house, &solved, kind).files);
        let mut most = 0;
        for (group, found) in solved.groups.iter().zip(&found) {
            let wanted = of_piece(&solved.pieces[group.members[0].piece]);
            let arcs = found["arcs"].as_u64().unwrap() as usize;
            // Near a half circle or longer an arc of SVG is written in thirds, and ends of flattened arcs are where chords are.
            assert!(wanted <= arcs && arcs <= 3 * wanted + 1, "{word}: {arcs} of {wanted}");
            most = most.max(wanted);
        }
        assert!(most > 0);
    }
}

/// Mitred corners and bevelled ridges: the cut line goes round both faces, which shapely joins; of some pieces the good
/// face is the smaller one.
#[test]
fn bevelled_pieces_are_cut_round_both_faces() {
    let mut house = demo::house("boat-hut").unwrap();
    house.parts[0].corners = Corners::Mitre;
    house.parts[0].ridges = Ridges::Bevelled;
    let solved = solve(&house);
    let firsts: Vec<&Piece> = solved.groups.iter().map(|g| &solved.pieces[g.members[0].piece]).collect();
    let rings = |p: &Piece| [&p.outline, &p.outline_back].map(|r| r.iter().map(|p| [p.x, p.y]).collect::<Vec<_>>());
    let both: Vec<_> = firsts.iter().map(|p| rings(p)).collect();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("rings.json");
    std::fs::write(&file, serde_json::to_string(&both).unwrap()).unwrap();
    let unions = &read("union", &[file])[0];
    let found = read("dxf", &written(&house, &solved, FileKind::Dxf).files);
    let mut inner = 0;
    for (k, piece) in firsts.iter().enumerate() {
        let cut = found[k]["areas"].as_array().unwrap().iter().map(|a| a.as_f64().unwrap()).fold(0.0, f64::max);
        let wanted = unions[k].as_f64().unwrap();
        assert!((cut - wanted).abs() < 1e-4 * wanted, "{}: {cut} {wanted}", piece.name);
        inner += usize::from(wanted > ring_area(&piece.outline) + 1.0);
    }
    assert!(inner > 0);
}

/// Layers are told by name in both kinds, and no kind has others.
#[test]
fn layers_have_the_promised_names() {
    let house = demo::house("pilot-house").unwrap();
    let solved = solve(&house);
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for (kind, word) in [(FileKind::Svg, "svg"), (FileKind::Dxf, "dxf")] {
        for found in read(word, &written(&house, &solved, kind).files) {
            for layer in found["layers"].as_array().unwrap() {
                *seen.entry(layer.as_str().unwrap().to_owned()).or_default() += 1;
            }
        }
    }
    let names: Vec<&str> = seen.keys().map(String::as_str).collect();
    assert_eq!(names, ["CUT", "GUIDE", "PRESSED", "TEXT"]);
}

/// Volume of a piece by Simpson's rule over its thickness, exact because its corners run along straight lines.
fn volume(piece: &Piece) -> f64 {
    let cut: f64 = piece.openings.iter().filter(|o| o.mode.goes_through()).map(|o| o.contour.area().abs()).sum();
    let middle: Vec<_> = piece.outline.iter().zip(&piece.outline_back).map(|(p, q)| between(*p, *q)).collect();
    let mean = (ring_area(&piece.outline) + 4.0 * ring_area(&middle) + ring_area(&piece.outline_back)) / 6.0;
    (mean - cut) * piece.thickness.mm()
}

fn between(p: gable_plane::P2, q: gable_plane::P2) -> gable_plane::P2 {
    p + (q - p) / 2.0
}

/// Solids are closed, turned the right way out (a solid turned inside out has a negative volume), and hold area times
/// thickness; at half the size an eighth of it.
#[test]
fn stl_of_every_demo_holds_area_times_thickness() {
    for name in demo::names() {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let dressed = dress(&house, &solved);
        let mut wanted: Vec<f64> = solved.pieces.iter().map(volume).collect();
        wanted.extend(dressed.panes.iter().map(|p| p.outline.area() * p.thickness.mm()));
        wanted.extend(dressed.doors.iter().map(|d| d.outline.area() * d.thickness.mm()));
        wanted.extend(dressed.ornaments.iter().chain(&dressed.extras).map(|o| o.area() * o.thickness.mm()));
        for scale in if name == "boat-hut" { vec![1.0, 0.5] } else { vec![1.0] } {
            let written = scaled(&house, &solved, FileKind::Stl, scale);
            let found = read("stl", &written.files);
            assert_eq!(found.len(), wanted.len());
            for (k, (found, wanted)) in found.iter().zip(&wanted).enumerate() {
                let file = &written.files[k];
                assert_eq!(found["closed"], true, "{name} {file:?}");
                let volume = found["volume"].as_f64().unwrap() / scale.powi(3);
                // Chords are within 0.02 mm of arcs, and numbers of 32 bits within some nanometres.
                assert!((volume - wanted).abs() < 2e-3 * wanted, "{name} {file:?}: {volume} {wanted}");
                let low = found["low"].as_array().unwrap();
                assert!(low.iter().all(|x| x.as_f64() == Some(0.0)), "{low:?}");
            }
        }
    }
}

/// The validator of those who made the standard has no error, no warning and no hint; every piece stands where the solver
/// has it, in metres, y up and -y of the house towards +z.
#[test]
fn gltf_of_every_demo_is_valid_and_stands_where_the_house_does() {
    for name in demo::names() {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let dressed = dress(&house, &solved);
        let written = written(&house, &solved, FileKind::Gltf);
        let report = &report(&written.files)[0];
        let issues = &report["issues"];
        for kind in ["numErrors", "numWarnings", "numInfos", "numHints"] {
            assert_eq!(issues[kind], 0, "{name}: {issues}");
        }
        let found = &read("glb", &written.files)[0];
        for piece in &solved.pieces {
            let thing = &found[&piece.name];
            let corners = |ring: &[gable_plane::P2], z: f64| -> Vec<P3> {
                ring.iter().map(|p| piece.house_from_piece * P3::new(p.x, p.y, z)).collect()
            };
            let mut all = corners(&piece.outline, 0.0);
            all.extend(corners(&piece.outline_back, piece.thickness.mm()));
            let metres: Vec<[f64; 3]> = all.iter().map(|p| [p.x, p.z, -p.y].map(|x| x / 1000.0)).collect();
            for k in 0..3 {
                let ends = metres.iter().map(|p| p[k]).fold((f64::MAX, f64::MIN), |(l, h), x| (l.min(x), h.max(x)));
                let number = |end: usize| thing["box"][end][k].as_f64().unwrap();
                let near = (number(0) - ends.0).abs() < 1e-6 && (number(1) - ends.1).abs() < 1e-6;
                assert!(near, "{name} {}: {thing} {ends:?}", piece.name);
            }
        }
        for pane in &dressed.panes {
            let cover = found[&pane.name]["colour"][3].as_f64().unwrap() / 255.0;
            assert!((cover - gable_drawing::Shade::GLASS_COVERS).abs() < 0.01, "{name} {}: {cover}", pane.name);
        }
        let stuck = dressed.ornaments.iter().chain(&dressed.extras);
        let has = |what: &str| found.as_object().unwrap().keys().any(|key| key.starts_with(what));
        stuck.for_each(|o| assert!(has(&o.name), "{name}: {}", o.name));
    }
}

/// The validator finds what is wrong: it is not deaf.
#[test]
fn a_spoilt_scene_is_not_valid() {
    let house = demo::house("boat-hut").unwrap();
    let written = written(&house, &solve(&house), FileKind::Gltf);
    let mut bytes = std::fs::read(&written.files[0]).unwrap();
    // The last bytes are an index of a corner.
    let end = bytes.len() - 4;
    bytes[end..].copy_from_slice(&9_999_999_u32.to_le_bytes());
    std::fs::write(&written.files[0], bytes).unwrap();
    assert_ne!(report(&written.files)[0]["issues"]["numErrors"], 0);
}

#[test]
fn tables_have_a_row_for_every_piece_joint_opening_and_ornament() {
    // In inches, so that lengths stand twice.
    let house = demo::house("net-store").unwrap();
    let solved = solve(&house);
    let dressed = dress(&house, &solved);
    let tables = read("csv", &written(&house, &solved, FileKind::Csv).files);
    let rows = |k: usize| tables[k].as_array().unwrap();
    let openings: usize = solved.pieces.iter().map(|p| p.openings.len() + p.notches.len()).sum();
    let counts = [solved.pieces.len(), solved.joints.len(), openings, dressed.ornaments.len() + dressed.extras.len()];
    assert_eq!([0, 1, 2, 3].map(|k| rows(k).len()), counts);
    assert!(counts.iter().all(|n| *n > 0), "{counts:?}");
    let number = |row: &Value, key: &str| row[key].as_str().unwrap().parse::<f64>().unwrap();
    let piece = |id: &Value| rows(0).iter().find(|row| row["id"] == *id);
    for (row, joint) in rows(1).iter().zip(&solved.joints) {
        assert!(row["first"] == "board" || piece(&row["first"]).is_some(), "{row}");
        assert!(row["second"] == "board" || piece(&row["second"]).is_some(), "{row}");
        assert!((number(row, "length_mm") - (joint.line[1] - joint.line[0]).norm()).abs() < 1e-3, "{row}");
        // 25.4 mm = 1 in.
        assert!((number(row, "length_in") * 25.4 - number(row, "length_mm")).abs() < 2e-3, "{row}");
    }
    for row in rows(2) {
        let host = piece(&row["piece"]).unwrap();
        let (left, width) = (number(row, "from_left_mm"), number(row, "width_mm"));
        assert!(left >= 0.0 && left + width <= number(host, "width_mm") + 1e-3, "{row} {host}");
        assert!(number(row, "area_mm2") <= width * number(row, "height_mm") + 1e-3, "{row}");
    }
}

/// Seen from outside: a window 8 mm left of the middle of its wall is nearer to the left, by closed form.
#[test]
fn openings_are_measured_as_they_are_seen_from_outside() {
    let mut house = demo::house("boat-hut").unwrap();
    // The front wall runs through, so its piece ends at the corners of the plan.
    let part = &mut house.parts[0];
    part.openings.retain(|o| o.side.0 == "front" && o.sill > Length::ZERO);
    part.openings.truncate(1);
    part.openings[0].placing = Placing::Centred { offset: Length::mm_of(-8.0) };
    let width = part.openings[0].width.mm();
    let solved = solve(&house);
    let tables = read("csv", &written(&house, &solved, FileKind::Csv).files);
    let left: f64 = tables[2][0]["from_left_mm"].as_str().unwrap().parse().unwrap();
    let wall = solved.pieces.iter().find(|p| tables[2][0]["piece"] == p.id.0.as_str()).unwrap().size().0.mm();
    assert!((left - (wall / 2.0 - 8.0 - width / 2.0)).abs() < 1e-3, "{left}");
}
