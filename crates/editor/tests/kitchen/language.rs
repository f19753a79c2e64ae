//! A language that nobody speaks: every text of the template in guillemets, with accents, a third longer.

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

/// A folder of a person who speaks it.
pub fn at_home(home: &Path) {
    let template = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/words/gablewright.pot");
    std::fs::create_dir_all(home.join("words")).unwrap();
    std::fs::write(home.join("words/qq.po"), catalogue(&std::fs::read_to_string(template).unwrap())).unwrap();
    let settings = r#"{"format":"gablewright-settings","version":1,"language":"qq","unit":"mm","paper":"A4","rolled":6.35,"look":"light","text":100,"still":true}"#;
    std::fs::write(home.join("settings.json"), settings).unwrap();
}

/// What of a name is not from the catalogue: whatever stands outside guillemets, without numbers, units and signs.
pub fn left_over(name: &str) -> String {
    let mut depth = 0;
    let outside: String = name
        .chars()
        .filter(|c| {
            depth += i32::from(*c == '«');
            let out = depth == 0;
            depth -= i32::from(*c == '»');
            out
        })
        .collect();
    let words = outside.split(|c: char| !c.is_alphabetic()).filter(|w| w.chars().count() > 1);
    let words = words.filter(|w| !["mm", "in", "kg", "lb", "oz", "Ctrl", "Shift", "Alt"].contains(w));
    words.collect::<Vec<_>>().join(" ")
}
