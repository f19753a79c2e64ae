//! What came out of the oven, in the house file.

mod broken;

use broken::{HUT, assert_messages_of};
use gable_measure::{InchStep, Length, Unit};
use gable_shell::{Batch, PartId, demo, file};

/// The hut with something baked.
fn hut(entry: &str) -> String {
    HUT.replacen("\"doughs\"", &format!("\"baked\": [{entry}], \"doughs\""), 1)
}

#[test]
fn what_is_baked_goes_round() {
    let schema = serde_json::from_str(&file::schema()).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    for name in demo::names() {
        for unit in [Unit::Millimetre, Unit::Inch(InchStep::Sixteenth)] {
            let mut house = demo::house(name).unwrap();
            house.unit = unit;
            let ids: Vec<PartId> = house.parts.iter().map(|p| p.id.clone()).collect();
            ids.iter().for_each(|id| Batch::ALL.iter().for_each(|&batch| house.came_out(id, batch)));
            house.baked[0].thickness = Some(Length::mm_of(8.25));
            house.baked[0].height = Some(Length::mm_of(101.6));
            let text = file::write(&house);
            assert!(validator.is_valid(&serde_json::from_str(&text).unwrap()), "{name}");
            let read = file::parse(&text).unwrap_or_else(|e| panic!("{name}: {e}"));
            assert_eq!(read.baked, house.baked, "{name}");
            assert_eq!(file::write(&read), text, "{name}");
        }
    }
}

#[test]
fn what_is_wrong_is_told_with_its_place() {
    let sound = hut(
        "{ \"part\": \"main\", \"batch\": \"walls\", \"thickness\": 8, \"depth\": 122, \"cut\": { \"main/wall-front\": { \"outline\": \"0,0 160,0 160,90\" } } }",
    );
    assert_eq!(broken::message(&sound), "sound");
    let cases = [
        ("\"thickness\": 8", "\"thickness\": -8", "baked[0].thickness: -8 mm is less than 0.5 mm"),
        ("\"thickness\": 8", "\"thickness\": 800", "baked[0].thickness: 800 mm is more than 90 mm"),
        ("\"depth\": 122", "\"depth\": 99999", "baked[0].depth: 99999 mm is more than 3000 mm; is the unit right?"),
        (
            "\"batch\": \"walls\"",
            "\"batch\": \"wals\"",
            "baked[0].batch: \"wals\" is not known; it may be walls, roof, lid; did you mean \"walls\"?",
        ),
        (
            "\"batch\": \"walls\"",
            "\"batch\": \"roof\"",
            "baked[0].depth: of a roof only the thickness counts; take it away, or say what the walls measure",
        ),
        (
            "160,0 160,90",
            "160,0 NaN,90",
            "baked[0].cut.main/wall-front.outline: corner 3 of the outline, \"NaN,90\", cannot be read; write corners in mm, such as \"0,0 160,0 160,90 0,90\"",
        ),
        (
            "160,0 160,90",
            "160,90 160,0",
            "baked[0].cut.main/wall-front.outline: the corners run clockwise, or have nothing between them; list them counter-clockwise",
        ),
    ];
    assert_messages_of(&sound, &cases);
    let lost = sound.replacen("\"part\": \"main\"", "\"part\": \"mian\"", 1);
    assert!(
        broken::message(&lost).starts_with("baked[0].part: the house has no part \"mian\""),
        "{}",
        broken::message(&lost)
    );
}
