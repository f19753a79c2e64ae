//! A house as files of other kinds, read back by libraries that know nothing of this program (from PyPI).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a check says by stopping that it failed")]

mod python_env;

use gable_dress::{Dressed, dress};
use gable_export::{FileKind, house_files, save_files, template_drawings};
use gable_plane::{Contour, ring_area};
use gable_shell::{Corners, Glass, House, Solved, demo, solve};
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
    let folder = tempfile::tempdir().unwrap();
    let files = save_files(folder.path(), &house_files(solved, house, "house", &[kind]).unwrap()).unwrap();
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

/// Mitred corners bevel the walls: the cut line goes round both faces, so it is no smaller than either.
#[test]
fn bevelled_walls_are_cut_as_large_as_their_larger_face() {
    let mut house = demo::house("boat-hut").unwrap();
    house.parts[0].corners = Corners::Mitre;
    let solved = solve(&house);
    let found = read("dxf", &written(&house, &solved, FileKind::Dxf).files);
    let mut bevelled = 0;
    for (group, found) in solved.groups.iter().zip(&found) {
        let piece = &solved.pieces[group.members[0].piece];
        let cut = found["areas"].as_array().unwrap().iter().map(|a| a.as_f64().unwrap()).fold(0.0, f64::max);
        let faces = [ring_area(&piece.outline), ring_area(&piece.outline_back)];
        let larger = faces[0].max(faces[1]);
        assert!((cut - larger).abs() < 1e-3 * larger, "{}: {cut} {faces:?}", piece.name);
        bevelled += usize::from((faces[0] - faces[1]).abs() > 1.0);
    }
    assert!(bevelled > 0);
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
