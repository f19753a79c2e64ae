//! A kitchen as text: what the program keeps for a person between houses.

use super::{Kitchen, Tools, Tray};
use gable_measure::Length;
use serde::{Deserialize, Serialize};

const FORMAT: &str = "gablewright-kitchen";
/// The version that is written, and the newest that is read; 2 brought the person's name
/// and tools.
const VERSION: u32 = 2;
/// The oldest version that is read; what it leaves out has its usual value.
const OLDEST: u32 = 1;
/// Characters of the name.
const LONGEST_NAME: usize = crate::file::limits::LONGEST_LINE;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct KitchenData {
    format: String,
    version: u32,
    #[serde(default)]
    name: String,
    /// Sizes in mm.
    trays: Vec<TrayData>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    tools: Option<ToolsData>,
}

/// Sizes in mm.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ToolsData {
    blade: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    bridge: Option<f64>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct TrayData {
    name: String,
    width: f64,
    depth: f64,
}

/// A kitchen as JSON, lengths in mm.
pub fn write(kitchen: &Kitchen) -> String {
    let tray = |t: &Tray| TrayData { name: t.name.clone(), width: t.width.mm(), depth: t.depth.mm() };
    let trays = kitchen.trays.iter().map(tray).collect();
    let tools = kitchen.tools.map(|t| ToolsData { blade: t.blade.mm(), bridge: t.bridge.map(Length::mm) });
    let name = kitchen.name.clone();
    let data = KitchenData { format: FORMAT.to_owned(), version: VERSION, name, trays, tools };
    // Strings and numbers always have a form in JSON.
    serde_json::to_string_pretty(&data).map_or_else(|_| String::new(), |text| text + "\n")
}

/// Reads what [`write`] wrote.
///
/// # Errors
/// When it is no kitchen of this version, or a tray has no size that a tray can have; what is wrong and what to do.
pub fn read(text: &str) -> Result<Kitchen, String> {
    let data: KitchenData = serde_json::from_str(text).map_err(|e| format!("this is no kitchen: {e}"))?;
    if data.format != FORMAT || !(OLDEST..=VERSION).contains(&data.version) {
        return Err(format!("this is a kitchen of version {}; this program knows up to {VERSION}", data.version));
    }
    if data.name.chars().count() > LONGEST_NAME || data.name.chars().any(char::is_control) {
        return Err(format!("the name is no line of up to {LONGEST_NAME} characters"));
    }
    let sound = |mm: f64| (Tray::SMALLEST.mm()..=Tray::LARGEST.mm()).contains(&mm);
    let tray = |t: TrayData| {
        if sound(t.width) && sound(t.depth) {
            return Ok(Tray { name: t.name, width: Length::mm_of(t.width), depth: Length::mm_of(t.depth) });
        }
        Err(format!("{}: no tray is {} × {} mm; give its inside again", t.name, t.width, t.depth))
    };
    let width = |mm: f64| {
        let most = Tools::WIDEST;
        if (0.0..=most.mm()).contains(&mm) {
            return Ok(Length::mm_of(mm));
        }
        Err(format!("no blade and no bridge is {mm} mm wide; give up to {} mm", most.mm()))
    };
    let tools =
        |t: ToolsData| Ok::<_, String>(Tools { blade: width(t.blade)?, bridge: t.bridge.map(width).transpose()? });
    Ok(Kitchen {
        name: data.name,
        tools: data.tools.map(tools).transpose()?,
        trays: data.trays.into_iter().map(tray).collect::<Result<_, _>>()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kitchen_is_read_back() {
        let tools = Some(Tools { blade: Length::mm_of(1.5), bridge: Some(Length::mm_of(9.0)) });
        let kitchen = Kitchen { name: "Ada".into(), trays: Tray::usual().to_vec(), tools };
        assert_eq!(read(&write(&kitchen)), Ok(kitchen.clone()));
        // As version 1 was written.
        let kitchen = Kitchen { tools: None, ..kitchen };
        let old =
            write(&kitchen).replacen("\"version\": 2", "\"version\": 1", 1).replacen("  \"name\": \"Ada\",\n", "", 1);
        assert_eq!(read(&old), Ok(Kitchen { name: String::new(), ..kitchen }));
        assert_eq!(read(&write(&Kitchen::default())), Ok(Kitchen::default()));
    }

    #[test]
    fn what_is_no_kitchen_is_refused_with_a_reason() {
        let tools = Some(Tools { blade: Length::mm_of(1.5), bridge: None });
        let whole = write(&Kitchen { name: "Ada".into(), trays: Tray::usual().to_vec(), tools });
        for (old, new, word) in [
            ("\"version\": 2", "\"version\": 3", "version 3"),
            ("Ada", "A\\nda", "name"),
            ("1.5", "-1.5", "no blade"),
            ("430.0", "-430.0", "Oven tray"),
            ("430.0", "1e30", "Oven tray"),
            ("trays", "pans", "pans"),
            ("{", "", "no kitchen"),
        ] {
            let error = read(&whole.replacen(old, new, 1)).unwrap_err();
            assert!(error.contains(word), "{error}");
        }
    }
}
