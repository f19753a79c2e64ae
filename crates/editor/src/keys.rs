//! Every key that does something, as a list in the window and as a card to print.

use crate::actions::Group;
use egui::Context;
use gable_drawing::{Anchor, Drawing, Text};
use gable_export::{DocInfo, Page, Paper, PdfError, write_pdf};
use gable_plane::P2;
use gable_words::{mark, say, tr};

/// A key and what it does.
pub(crate) type KeyLine = (String, String);

/// What keys do on things that have the keyboard; these are no commands of a menu.
const HELD: [(&str, &str); 14] = [
    (mark!("Tab, Shift+Tab"), mark!("Go to the next thing, or back to the last one")),
    (mark!("Space, Enter"), mark!("Press what has the keyboard")),
    (mark!("Esc"), mark!("Leave a field as it was, or close a question")),
    (
        mark!("Arrow keys on the drawing table"),
        mark!("Move a handle, an opening or a part by one step: 1 mm, 1/16 in or 1/32 in"),
    ),
    (mark!("Shift + arrow keys there"), mark!("Move it by ten steps")),
    (mark!("Ctrl or Shift + click there or in the list"), mark!("Select it beside what is selected, or no longer")),
    (mark!("Alt while something is dragged"), mark!("It goes anywhere, and holds on to no lines of others")),
    (mark!("Drag on the empty table"), mark!("Select what lies wholly within the frame")),
    (mark!("Drag with the right or middle button"), mark!("Move the drawing")),
    (mark!("Arrow keys on the table itself"), mark!("Move the drawing; plus and minus step nearer and back")),
    (mark!("Arrow keys on the house in space"), mark!("Walk round it; with Shift the picture moves")),
    (mark!("+ and − on the house in space"), mark!("Step nearer, or back")),
    (mark!("Page up, page down there"), mark!("Move the cut, or go to another stage, while they are shown")),
    (mark!("Arrow keys on the edge between both"), mark!("Give more room to one of them")),
];

/// All keys in groups.
pub(crate) fn groups(ctx: &Context) -> Vec<(&'static str, Vec<KeyLine>)> {
    let commands = Group::ALL.map(|group| {
        let lines = group.actions().filter_map(|action| {
            let keys = action.key_names(ctx);
            let label = action.label().trim_end_matches('…').to_owned();
            (!keys.is_empty())
                .then(|| (keys.into_iter().reduce(|keys, more| tr!("{keys} or {more}")).unwrap_or_default(), label))
        });
        (group.name(), lines.collect())
    });
    let held = HELD.map(|(keys, words)| (say(keys).to_owned(), say(words).to_owned())).to_vec();
    commands
        .into_iter()
        .chain([(tr!("Without a menu"), held)])
        .filter(|(_, lines): &(_, Vec<_>)| !lines.is_empty())
        .collect()
}

/// The card to print, on one page of this paper.
///
/// # Errors
/// When a character has no glyph.
pub(crate) fn card(ctx: &Context, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let paper = if paper.is_endless() { Paper::A4 } else { paper };
    let drawing = drawn(&groups(ctx), paper);
    let page = Page { drawing, label: "keys".to_owned(), bookmark: None };
    write_pdf(&[page], &DocInfo { title: tr!("Keys of Gablewright").to_owned(), ..DocInfo::default() })
}

/// Heights of capitals, mm (ISO 3098 series).
const TITLE: f64 = 5.0;
const HEADING: f64 = 3.5;
const LINE: f64 = 2.5;

/// Lines that are lower where there is less room, so that all of them are on one page.
fn drawn(groups: &[(&str, Vec<KeyLine>)], paper: Paper) -> Drawing {
    let (width, height) = paper.size();
    let mut sheet = Drawing::new(width.mm(), height.mm());
    let (left, top) = (15.0, sheet.height - 15.0 - TITLE);
    let rows: usize = groups.iter().map(|(_, lines)| lines.len() + 2).sum();
    let step = ((top - 15.0) / (rows as f64 + 1.0)).min(LINE * 2.2);
    // Both columns as wide as their longest line, at capitals 1 mm high.
    let lines = || groups.iter().flat_map(|(_, lines)| lines);
    let widest = |line: fn(&KeyLine) -> &str, bold: bool| {
        lines().map(|l| gable_export::text_width(line(l), 1.0, bold)).fold(0.0, f64::max)
    };
    let (keys, words) = (widest(|l| &l.0, true), widest(|l| &l.1, false));
    let size = LINE.min(step / 1.7).min((sheet.width - 2.0 * left - 5.0) / (keys + words));
    let keys_wide = keys * size;
    let mut text = |at: P2, height: f64, words: &str, bold: bool| {
        sheet.push(Text { bold, ..Text::note(at, height, Anchor::Start, words) });
    };
    text(P2::new(left, top), TITLE, tr!("Keys of Gablewright"), true);
    let mut y = top - step;
    for (name, lines) in groups {
        y -= 1.5 * step;
        text(P2::new(left, y), HEADING.min(step / 1.3), name, true);
        for (keys, words) in lines {
            y -= step;
            text(P2::new(left, y), size, keys, true);
            text(P2::new(left + keys_wide + 5.0, y), size, words, false);
        }
    }
    sheet
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::actions::Action;

    #[test]
    fn every_command_is_in_one_group_and_no_two_have_the_same_keys() {
        let mut seen: Vec<Action> = Group::ALL.iter().flat_map(|g| g.actions()).collect();
        assert_eq!(seen.len(), Action::ALL.len());
        let keys: Vec<_> = seen.iter().flat_map(|a| a.shortcuts()).collect();
        for (k, one) in keys.iter().enumerate() {
            assert!(!keys[k + 1..].contains(one), "{one:?} does two things");
        }
        seen.retain(|a| a.label().is_empty() || a.tip().is_empty());
        assert!(seen.is_empty());
    }

    #[test]
    fn the_card_holds_every_key_on_one_page_of_every_paper() {
        let ctx = Context::default();
        let groups = groups(&ctx);
        let lines: usize = groups.iter().map(|(_, lines)| lines.len()).sum();
        assert!(lines > 30);
        for paper in Paper::ALL {
            let sheet = drawn(&groups, paper);
            assert_eq!(sheet.items.len(), 1 + groups.len() + 2 * lines);
            for item in &sheet.items {
                let gable_drawing::Item::Text(text) = item else { panic!("only words") };
                let end = text.at.x + gable_export::text_width(&text.text, text.height, text.bold);
                assert!(text.at.y > 12.0 && end < sheet.width - 10.0, "{} on {paper}", text.text);
            }
            assert!(card(&ctx, paper).unwrap().starts_with(b"%PDF-"));
        }
    }
}
