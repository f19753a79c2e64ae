//! The layers of the workspace: a lower crate never names a higher one, only the editor knows a window, and the map
//! for developers names every crate.

#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise, helpers included")]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use toml::Table;

/// Lowest first; crates of one layer do not name each other.
const LAYERS: [&[&str]; 12] = [
    &["gable-words-macros"],
    &["gable-words"],
    &["gable-measure", "gable-plane"],
    &["gable-shell", "gable-drawing"],
    &["gable-dress"],
    &["gable-mesh"],
    &["gable-raise", "gable-nest"],
    &["gable-bake"],
    &["gable-stand"],
    &["gable-export"],
    &["gable-editor"],
    &["gablewright"],
];

/// Crates for windows and 3D that only the editor may name, by the start of their names.
const WINDOW: [&str; 4] = ["egui", "eframe", "three-d", "glow"];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_path_buf()
}

/// Manifests in `crates`, by package name.
fn manifests() -> BTreeMap<String, Table> {
    let folders = std::fs::read_dir(root().join("crates")).unwrap();
    let manifest = |folder: PathBuf| {
        let text = std::fs::read_to_string(folder.join("Cargo.toml")).ok()?;
        let table: Table = text.parse().unwrap();
        Some((table["package"]["name"].as_str().unwrap().to_owned(), table))
    };
    folders.filter_map(|entry| manifest(entry.unwrap().path())).collect()
}

/// Names of the packages that a manifest depends on, renamed ones included; `kinds` are table names.
fn dependencies(manifest: &Table, kinds: &[&str]) -> Vec<String> {
    let targets = manifest.get("target").and_then(|t| t.as_table()).into_iter().flat_map(|t| t.values());
    let tables = std::iter::once(manifest).chain(targets.filter_map(|t| t.as_table()));
    let mut names = Vec::new();
    for table in tables {
        for dependency in kinds.iter().filter_map(|kind| table.get(*kind)).filter_map(|d| d.as_table()).flatten() {
            let renamed = dependency.1.get("package").and_then(|p| p.as_str());
            names.push(renamed.unwrap_or(dependency.0).to_owned());
        }
    }
    names
}

const ALL_KINDS: [&str; 3] = ["dependencies", "dev-dependencies", "build-dependencies"];
const SHIPPED: [&str; 2] = ["dependencies", "build-dependencies"];

fn layer(name: &str) -> Option<usize> {
    LAYERS.iter().position(|layer| layer.contains(&name))
}

/// What a set of manifests does wrong.
fn breaches(manifests: &BTreeMap<String, Table>) -> Vec<String> {
    let mut found = Vec::new();
    for (name, manifest) in manifests {
        let Some(own) = layer(name) else {
            found.push(format!("{name} has no layer"));
            continue;
        };
        for other in dependencies(manifest, &ALL_KINDS) {
            if layer(&other).is_some_and(|other| other >= own) {
                found.push(format!("{name} names {other}, which is not lower"));
            }
        }
        // The program's checks work at the window by what assistive technology is told of it.
        let kinds = if name == "gablewright" { &SHIPPED[..] } else { &ALL_KINDS[..] };
        for other in dependencies(manifest, kinds) {
            if name != "gable-editor" && WINDOW.iter().any(|w| other.starts_with(w)) {
                found.push(format!("{name} names {other}; only gable-editor may"));
            }
        }
    }
    found
}

#[test]
fn a_lower_crate_never_names_a_higher_one() {
    let manifests = manifests();
    assert!(manifests.len() >= 8, "only {:?} found", manifests.keys());
    assert_eq!(breaches(&manifests), Vec::<String>::new());
}

#[test]
fn breaches_are_noticed() {
    let table = |text: &str| text.parse::<Table>().unwrap();
    let made_up = BTreeMap::from([
        ("gable-plane".to_owned(), table("[dev-dependencies]\nshell = { package = \"gable-shell\", version = \"1\" }")),
        ("gable-mesh".to_owned(), table("[dependencies]\negui_extras.workspace = true")),
        ("gable-drawing".to_owned(), table("[target.'cfg(unix)'.dependencies]\ngable-shell.workspace = true")),
        ("gable-attic".to_owned(), table("")),
        ("gable-editor".to_owned(), table("[dependencies]\nthree-d.workspace = true\ngable-mesh.workspace = true")),
    ]);
    let expected = [
        "gable-attic has no layer",
        "gable-drawing names gable-shell, which is not lower",
        "gable-mesh names egui_extras; only gable-editor may",
        "gable-plane names gable-shell, which is not lower",
    ];
    assert_eq!(breaches(&made_up), expected);
}

#[test]
fn the_map_for_developers_names_every_crate_and_no_dead_one() {
    let map = std::fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let folders = std::fs::read_dir(root().join("crates")).unwrap();
    let folders: Vec<String> =
        folders.map(|e| format!("crates/{}", e.unwrap().file_name().to_string_lossy())).collect();
    for folder in &folders {
        assert!(map.contains(folder.as_str()), "DEVELOPERS.md does not name {folder}");
    }
    let is_name = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    for (at, _) in map.match_indices("crates/") {
        let rest = &map[at + "crates/".len()..];
        let name: String = rest.chars().take_while(|c| is_name(*c)).collect();
        assert!(name.is_empty() || folders.contains(&format!("crates/{name}")), "DEVELOPERS.md names crates/{name}");
    }
}
