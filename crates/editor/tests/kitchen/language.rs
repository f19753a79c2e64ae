//! A language that nobody speaks: every text of the template in guillemets, with accents, a third longer.

use super::Kitchen;
use egui_kittest::kittest::Queryable;
use std::path::Path;

/// Code of the language.
pub const CODE: &str = "qq";

/// A catalogue of it, made from the template.
pub fn catalogue(template: &str) -> String {
    let mut out = String::new();
    let (mut one, mut many) = (String::new(), String::new());
    for line in template.lines() {
        let said = |text: &str| if text == "\"\"" { text.to_owned() } else { pretended(text) };
        let (key, text) = line.split_once(' ').unwrap_or((line, ""));
        let translated = match key {
            "msgid" => {
                text.clone_into(&mut one);
                None
            }
            "msgid_plural" => {
                text.clone_into(&mut many);
                None
            }
            "msgstr" => Some(said(&one)),
            "msgstr[0]" => Some(said(&one)),
            "msgstr[1]" => Some(said(&many)),
            "\"Language:" => {
                out += "\"Language: qq\\n\"\n";
                continue;
            }
            "\"X-Language-Name:" => {
                out += "\"X-Language-Name: «qq»\\n\"\n";
                continue;
            }
            _ => None,
        };
        match translated {
            Some(text) => out += &format!("{key} {text}\n"),
            None => out += &format!("{line}\n"),
        }
    }
    out
}

/// A quoted text in guillemets, with gaps at its placeholders, accented outside these and escapes, and a third longer.
fn pretended(quoted: &str) -> String {
    let text = quoted.trim_matches('"').trim_end_matches('\\');
    let ending = if quoted.ends_with("\\\"\"") { "\\\"" } else { "" };
    let mut said = String::new();
    let (mut inside, mut escaped) = (false, false);
    for c in text.chars() {
        inside = (inside || c == '{') && c != '}';
        let plain = inside || escaped;
        // What is put in stands outside the guillemets: it must bring its own.
        match c {
            '{' => said.push_str("»{"),
            '}' => said.push_str("}«"),
            c => said.push(if plain { c } else { accented(c) }),
        }
        escaped = c == '\\' && !escaped;
    }
    let longer = "é".repeat(text.chars().count() / 3);
    format!("\"«{said}{ending}{longer}»\"")
}

fn accented(c: char) -> char {
    "aáeéiíoóuúAÁEÉIÍOÓUÚ".chars().collect::<Vec<_>>().chunks(2).find(|p| p[0] == c).map_or(c, |p| p[1])
}

/// Fills the folder of a person who speaks it.
pub fn at_home(home: &Path) {
    at_home_with(home, 100);
}

/// The same, with text of this size in per cent.
pub fn at_home_with(home: &Path, text: u32) {
    let template = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/words/gablewright.pot");
    std::fs::create_dir_all(home.join("words")).unwrap();
    std::fs::write(home.join("words/qq.po"), catalogue(&std::fs::read_to_string(template).unwrap())).unwrap();
    let settings = format!(
        r#"{{"format":"gablewright-settings","version":1,"language":"qq","unit":"mm","paper":"A4","rolled":6.35,"look":"light","text":{text},"still":true}}"#
    );
    std::fs::write(home.join("settings.json"), settings).unwrap();
}

/// What of a name is not from the catalogue: whatever stands outside guillemets, without numbers, units and signs.
pub fn left_over(name: &str) -> String {
    let mut depth = 0;
    let mut outside = String::new();
    for c in name.chars() {
        depth += i32::from(c == '«');
        // Two stretches outside are two, whatever was said between them.
        outside.push(if depth == 0 { c } else { ' ' });
        depth -= i32::from(c == '»');
    }
    let words = outside.split(|c: char| !c.is_alphabetic()).filter(|w| w.chars().count() > 1);
    let words = words.filter(|w| !UNITS.contains(w) && !KEYS.contains(w));
    words.collect::<Vec<_>>().join(" ")
}

/// Units are the same in all languages, also those that fields of recipes read.
const UNITS: &[&str] = &[
    "mm", "cm", "cm²", "cm³", "in", "kg", "lb", "oz", "min", "MPa", "kPa", "Pa", "cup", "cups", "tbsp", "tsp", "mon",
    "fri", "sat", "sun",
];

/// Keys by the names that are printed on them.
const KEYS: &[&str] = &["Ctrl", "Shift", "Alt", "Delete", "Tab", "Enter", "Esc", "Space"];

/// Menus, in English.
pub const MENUS: [&str; 6] = ["House", "Edit", "Selected", "In space", "Look", "Help"];

/// An English text as the language says it; longer than the rest, so the beginning is enough to find it by.
pub fn said(english: &str) -> String {
    let accents = ["aá", "eé", "ií", "oó", "uú", "AÁ", "EÉ", "IÍ", "OÓ", "UÚ"];
    let said: String = english
        .chars()
        .map(|c| accents.iter().find(|pair| pair.starts_with(c)).and_then(|pair| pair.chars().nth(1)).unwrap_or(c))
        .collect();
    format!("«{said}")
}

/// Presses what is called so in English; whether it is there.
pub fn click(kitchen: &mut Kitchen, english: &str) -> bool {
    let wanted = said(english);
    let Some(node) = kitchen.query_all_by_label_contains(&wanted).next() else { return false };
    node.click();
    kitchen.run();
    kitchen.run_steps(4);
    true
}

/// Waits for what is worked out beside the window.
pub fn answered(kitchen: &mut Kitchen) {
    let deadline = std::time::Instant::now() + std::time::Duration::from_secs(120);
    while kitchen.query_all_by_label_contains(&said("Working it out")).next().is_some() {
        assert!(std::time::Instant::now() < deadline, "still at it after two minutes");
        std::thread::sleep(std::time::Duration::from_millis(30));
        kitchen.run_steps(2);
    }
}

/// Ways through the menus, in English.
pub const WAYS: &[&[&str]] = &[
    &["Help", "All keys"],
    &["House", "New house"],
    &["House", "Open"],
    &["House", "Save as"],
    &["House", "Write other files"],
    &["House", "Settings"],
    &["House", "Your kitchen"],
    &["House", "The bake"],
    &["House", "The bake", "Recipes"],
    &["House", "The bake", "Shopping"],
    &["House", "The bake", "Who and when"],
    &["House", "The bake", "Days"],
    &["House", "The bake", "Today"],
    &["House", "The bake", "Test biscuits"],
    &["House", "The bake", "Figures"],
    &["House", "The bake", "Cautions"],
    &["House", "Will it stand"],
    &["House", "Will it stand", "Everything"],
    &["House", "Will it stand", "Room and way"],
    &["House", "Will it stand", "Assumptions"],
    &["House", "Will it stand", "Snap test"],
    &["In space", "Stage by stage"],
    &["House", "Make the pack"],
    &["Edit", "Larger or smaller"],
    &["Add a part"],
    &["Arrange"],
    &["Pieces ("],
    &["Putting it up"],
];
