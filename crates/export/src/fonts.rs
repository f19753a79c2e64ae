use gable_drawing::{Item, Text};
use printpdf::ParsedFont;
use std::sync::OnceLock;

/// The regular face, a TrueType file.
pub const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/GablewrightSans-Regular.ttf");
/// The bold face, a TrueType file.
pub const BOLD: &[u8] = include_bytes!("../../../assets/fonts/GablewrightSans-Bold.ttf");
/// The family name of both faces.
pub const FAMILY: &str = "Gablewright Sans";

/// Height of a capital letter over the size of the type: 1493 of 2048 units, read from the 'H' of both files.
pub const CAP_HEIGHT: f64 = 1493.0 / 2048.0;

fn parsed(bold: bool) -> Option<&'static ParsedFont> {
    static FACES: OnceLock<[Option<ParsedFont>; 2]> = OnceLock::new();
    let load = |bytes| ParsedFont::from_bytes(bytes, 0, &mut Vec::new());
    FACES.get_or_init(|| [load(REGULAR), load(BOLD)])[usize::from(bold)].as_ref()
}

/// The face of a text, for embedding. `None` only if the file in the program is damaged.
pub(crate) fn face(bold: bool) -> Option<&'static ParsedFont> {
    parsed(bold)
}

/// Width of a line of text set with capitals `height` mm high, mm. Characters without a glyph count as nothing.
pub fn text_width(text: &str, height: f64, bold: bool) -> f64 {
    let Some(font) = parsed(bold) else { return 0.0 };
    let advance = |c: char| {
        let glyph = font.lookup_glyph_index(u32::from(c))?;
        font.get_glyph_width(glyph).map(f64::from)
    };
    let units: f64 = text.chars().filter_map(advance).sum();
    units / f64::from(font.units_per_em) * height / CAP_HEIGHT
}

/// The first character of a text for which the face has no glyph.
pub fn missing_glyph(text: &str, bold: bool) -> Option<char> {
    let font = parsed(bold)?;
    text.chars().find(|&c| font.lookup_glyph_index(u32::from(c)).is_none_or(|glyph| glyph == 0))
}

/// The texts among some items that hold a character without a glyph, with that character.
pub(crate) fn unprintable(items: &[Item]) -> impl Iterator<Item = (&Text, char)> {
    items.iter().filter_map(|item| match item {
        Item::Text(text) => missing_glyph(&text.text, text.bold).map(|c| (text, c)),
        Item::Stroke(_) | Item::Fill(_) => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Advance widths read from the files with fontTools 4.68 (hmtx): 'H' 1386, '½' 1786, bold 'H' 1542 of 2048.
    #[test]
    fn widths_are_those_of_the_files() {
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-6, "{a} is not {b}");
        close(text_width("H", 2.5, false), 1386.0 / 1493.0 * 2.5);
        close(text_width("H½", 2.5, false), (1386.0 + 1786.0) / 1493.0 * 2.5);
        close(text_width("H", 2.5, true), 1542.0 / 1493.0 * 2.5);
    }

    #[test]
    fn every_sign_that_a_template_needs_has_a_glyph() {
        for bold in [false, true] {
            assert_eq!(missing_glyph("Éé Łł ½ ¼ ¾ ⅛ ⅝ ′ ″ \" ' ° × – — ‘ ’ “ ” ↑ → ↓ ← ⌀ ✂ … · Ω Ж", bold), None);
            assert_eq!(missing_glyph("a餅b", bold), Some('餅'));
        }
    }
}
