//! The houses in `demo/`, whether they are built in or not.

use gable_shell::{file, solve};
use std::path::Path;

/// Name and text of every file, in the order of their names.
fn texts() -> std::io::Result<Vec<(String, String)>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo");
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.extension().is_some_and(|e| e == "json") {
            let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            found.push((name, std::fs::read_to_string(&path)?));
        }
    }
    found.sort();
    Ok(found)
}

#[test]
fn every_file_reads_and_goes_round() {
    let schema = serde_json::from_str(&file::schema()).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let texts = texts().unwrap();
    assert!(texts.len() >= 5, "{}", texts.len());
    for (name, text) in texts {
        assert!(validator.is_valid(&serde_json::from_str(&text).unwrap()), "{name}");
        let read = file::parse(&text).unwrap_or_else(|errors| panic!("{name}:\n{errors}"));
        assert_eq!(file::parse(&file::write(&read)), Ok(read), "{name}");
    }
}

#[test]
fn nothing_blocks_a_house_of_several_parts() {
    // How many pieces a person would count: each side with a wall, each slope, each lid, each strip of a post, each plate.
    let texts = texts().unwrap();
    for (name, pieces) in [("pilot-house.house", 54), ("askew-house.house", 26)] {
        let (_, text) = texts.iter().find(|(file, _)| file == name).unwrap();
        let solved = solve(&file::parse(text).unwrap());
        assert_eq!(solved.blocking().collect::<Vec<_>>(), Vec::<&gable_measure::Finding>::new(), "{name}");
        let parts: std::collections::BTreeSet<&str> =
            solved.pieces.iter().filter_map(|p| p.id.0.split('/').next()).collect();
        assert_eq!(parts.len(), solved.parts.len(), "{name}");
        assert!(solved.pieces.len() >= pieces, "{name}: {} pieces", solved.pieces.len());
    }
}

/// A person who opens a demo should see what the program makes of a sound design, not faults to mend.
#[test]
fn the_solver_has_nothing_to_say_about_the_demos() {
    for name in gable_shell::demo::names() {
        assert_eq!(solve(&gable_shell::demo::house(name).unwrap()).findings, [], "{name}");
    }
}
