use gable_export::{Paper, read_text};
use gable_measure::{InchStep, Length, Unit};
use gable_shell::{Dough, House};
use gable_words::tr;
use serde::{Deserialize, Serialize};
use std::path::Path;

/// Where they are kept.
pub(super) const FILE: &str = "settings.json";
const FORMAT: &str = "gablewright-settings";
const VERSION: u32 = 1;

/// Sizes of text to choose from, in percent of the usual one.
pub(crate) const TEXT_SIZES: [u16; 9] = [80, 90, 100, 110, 125, 140, 160, 180, 200];
/// Usual unit, as it is written.
const UNITS: [(&str, Unit); 3] = [
    ("mm", Unit::Millimetre),
    ("in/16", Unit::Inch(InchStep::Sixteenth)),
    ("in/32", Unit::Inch(InchStep::ThirtySecond)),
];
/// Thinnest and thickest dough that anybody rolls (common practice, no source).
const ROLLED: [Length; 2] = [Length::mm_of(1.0), Length::mm_of(30.0)];

/// Light or dark.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Look {
    /// As the system is.
    #[default]
    System,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

/// How a person wants the program to be.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Settings {
    /// Code of the language; that of the system when none is asked for.
    pub(crate) language: Option<String>,
    /// What new houses are measured in.
    pub(crate) unit: Unit,
    /// What is printed on.
    pub(crate) paper: Paper,
    /// How thick dough for new houses is rolled.
    pub(crate) rolled: Length,
    /// Light or dark.
    pub(crate) look: Look,
    /// Size of text and of everything round it, percent.
    pub(crate) text: u16,
    /// Whether things appear at once, without moving.
    pub(crate) still: bool,
}

impl Default for Settings {
    fn default() -> Self {
        let rolled = Dough::usual().first().map_or(Length::inches(0.25), |d| d.rolled);
        let (unit, paper) = (Unit::Millimetre, Paper::default());
        Self { language: None, unit, paper, rolled, look: Look::System, text: 100, still: false }
    }
}

impl Settings {
    /// The next size of text, larger or smaller.
    pub(crate) fn text_after(&self, larger: bool) -> u16 {
        let next = if larger {
            TEXT_SIZES.into_iter().find(|s| *s > self.text)
        } else {
            TEXT_SIZES.into_iter().rev().find(|s| *s < self.text)
        };
        next.unwrap_or(self.text)
    }

    /// A new house of this person's dough.
    pub(crate) fn own(&self, mut house: House) -> House {
        house.doughs.iter_mut().for_each(|dough| dough.rolled = self.rolled);
        house
    }

    /// Why dough is not rolled so thick, if it is not.
    pub(crate) fn unlikely(&self) -> Option<String> {
        let [least, most] = ROLLED;
        (self.rolled < least || self.rolled > most)
            .then(|| tr!("Dough is rolled between {} and {} thick.", self.unit.print(least), self.unit.print(most)))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Data {
    format: String,
    version: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    language: Option<String>,
    unit: String,
    paper: String,
    /// mm.
    rolled: f64,
    look: Look,
    /// Percent.
    text: u16,
    still: bool,
}

pub(super) fn write(settings: &Settings) -> String {
    let unit = UNITS.iter().find(|(_, unit)| *unit == settings.unit).map_or("mm", |(name, _)| *name);
    let named = Paper::NAMES.iter().find(|(_, paper)| *paper == settings.paper);
    let (width, height) = settings.paper.size();
    let sized = match settings.paper {
        Paper::Roll { width } => tr!("roll {}mm", width.mm()),
        _ => tr!("{}mm x {}mm", width.mm(), height.mm()),
    };
    let data = Data {
        format: FORMAT.to_owned(),
        version: VERSION,
        language: settings.language.clone(),
        unit: unit.to_owned(),
        paper: named.map_or(sized, |(name, _)| (*name).to_owned()),
        rolled: settings.rolled.mm(),
        look: settings.look,
        text: settings.text,
        still: settings.still,
    };
    // Strings and numbers always have a form in JSON.
    serde_json::to_string_pretty(&data).map_or_else(|_| String::new(), |text| text + "\n")
}

/// What a file holds; the usual settings when there is none.
///
/// # Errors
/// When it is no file of settings; what is wrong and what to do.
pub(super) fn read(file: &Path) -> Result<Settings, String> {
    if !file.exists() {
        return Ok(Settings::default());
    }
    let said = |why: String| tr!("{}: {why}. Set anew what you want.", file.display());
    let text = read_text(file).map_err(|e| e.to_string())?;
    let data: Data = serde_json::from_str(&text).map_err(|e| said(e.to_string()))?;
    if data.format != FORMAT || data.version != VERSION {
        return Err(said(tr!("these are no settings of this program, or of a newer one").to_owned()));
    }
    let unit = UNITS.iter().find(|(name, _)| *name == data.unit);
    let unit = unit.ok_or_else(|| said(tr!("there is no unit {}; it is mm, in/16 or in/32", data.unit)))?.1;
    let paper: Paper = Paper::read(&data.paper, unit).map_err(|e| said(e.to_string()))?;
    let rolled = Length::mm_of(data.rolled);
    let (look, text, still) = (data.look, data.text, data.still);
    let settings = Settings { language: data.language, unit, paper, rolled, look, text, still };
    if settings.unlikely().is_some() || !(80..=200).contains(&data.text) {
        return Err(said(tr!("the thickness of the dough or the size of the text is out of range").to_owned()));
    }
    Ok(settings)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_read_back_as_they_were_written() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join(FILE);
        assert_eq!(read(&file), Ok(Settings::default()));
        let unit = Unit::Inch(InchStep::ThirtySecond);
        let custom = Paper::custom(Length::mm_of(300.0), Length::mm_of(400.0), unit).unwrap();
        let roll = Paper::roll(Length::mm_of(610.0), unit).unwrap();
        for paper in [Paper::Letter, Paper::A4AndLetter, custom, roll] {
            let rolled = Length::inches(0.25);
            let language = Some("nn".to_owned());
            let settings = Settings { language, unit, paper, rolled, look: Look::Dark, text: 125, still: true };
            std::fs::write(&file, write(&settings)).unwrap();
            assert_eq!(read(&file), Ok(settings));
        }
        std::fs::write(&file, write(&Settings::default()).replace("in/16", "ell").replace("\"mm\"", "\"ell\""))
            .unwrap();
        assert!(read(&file).unwrap_err().contains("there is no unit ell; it is mm, in/16 or in/32"));
    }

    #[test]
    fn text_goes_from_80_to_200_percent_in_steps() {
        let mut settings = Settings::default();
        for larger in [true, true, true, true, true, true, true] {
            settings.text = settings.text_after(larger);
        }
        assert_eq!(settings.text, 200);
        (0..20).for_each(|_| settings.text = settings.text_after(false));
        assert_eq!(settings.text, 80);
    }
}
