//! Lines of text that must fit a width.

use crate::fonts::text_width;

/// Smallest height of capitals that is printed, mm (ISO 3098 series).
pub(super) const SMALLEST: f64 = 1.8;
/// Height of capitals of plain text, mm.
pub(super) const PLAIN: f64 = 2.5;
/// Height of capitals of what must be found quickly, mm.
pub(super) const LARGE: f64 = 3.5;
/// Height of capitals of headings, mm.
pub(super) const HEADING: f64 = 5.0;
/// From one base line to the next, in heights of capitals.
pub(super) const LEADING: f64 = 1.7;

/// Text broken at spaces into lines no wider than `width` mm. A word that is wider by itself is broken anywhere.
pub(super) fn wrapped(text: &str, height: f64, bold: bool, width: f64) -> Vec<String> {
    let fits = |line: &str| text_width(line, height, bold) <= width;
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if fits(&longer) {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            line.push(c);
            if !fits(&line) && line.chars().count() > 1 {
                line.pop();
                lines.push(std::mem::replace(&mut line, c.to_string()));
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// The text and the height at which it fits `width` mm: made smaller first, then cut off with an ellipsis.
/// What is cut off stands in full on the cover.
pub(super) fn fitted(text: &str, height: f64, bold: bool, width: f64) -> (String, f64) {
    let mut height = height;
    while text_width(text, height, bold) > width && height > SMALLEST {
        height = (height - 0.1).max(SMALLEST);
    }
    let mut kept = text.to_owned();
    while text_width(&kept, height, bold) > width && !kept.is_empty() {
        kept.truncate(kept.trim_end_matches('…').trim_end().len());
        kept.pop();
        kept.push('…');
        if kept == "…" {
            break;
        }
    }
    (kept, height)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_wider_than_asked_and_no_word_is_lost() {
        let text = "Boat hut: front wall / back wall / Donaudampfschifffahrtsgesellschaftskapitän";
        let lines = wrapped(text, 2.5, false, 40.0);
        assert!(lines.iter().all(|l| text_width(l, 2.5, false) <= 40.0));
        assert_eq!(lines.concat().replace(' ', ""), text.replace(' ', ""));
    }

    #[test]
    fn text_gets_smaller_before_it_is_cut() {
        let (same, height) = fitted("short", 2.5, false, 40.0);
        assert_eq!((same.as_str(), height), ("short", 2.5));
        let (small, height) = fitted("twenty-four characters!!", 2.5, false, 32.0);
        assert!(small.len() == 24 && (SMALLEST..2.5).contains(&height));
        let (cut, height) = fitted(&"long ".repeat(40), 2.5, false, 40.0);
        assert!(cut.ends_with('…') && (height - SMALLEST).abs() < 1e-9 && text_width(&cut, height, false) <= 40.0);
        assert_eq!(fitted("wide", 2.5, false, 0.1).0, "…");
    }
}
