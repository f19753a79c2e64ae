//! What is seen of the house is saved as a picture: just the place of the view, with nothing lying over it.

#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui::{Color32, ColorImage, Key, Modifiers, Rect, ViewportCommand, ViewportId};
use egui_kittest::kittest::Queryable;
use gable_export::{Pixels, pack_png};
use kitchen::{Kitchen, keys, kitchen, plain, press};
use std::path::Path;
use std::sync::Arc;

const CTRL_SHIFT: Modifiers = Modifiers { shift: true, ..Modifiers::COMMAND };

/// A window of which every pixel tells where it is.
fn told(wide: usize, high: usize) -> ColorImage {
    let pixel = |k: usize| {
        let (x, y) = (k % wide, k / wide);
        Color32::from_rgb((x % 256) as u8, (y % 256) as u8, (x / 256 * 16 + y / 256) as u8)
    };
    ColorImage::new([wide, high], (0..wide * high).map(pixel).collect())
}

/// Names the file and goes on until the window is asked for what it shows.
fn ask(kitchen: &mut Kitchen, file: &Path) -> egui::ScreenshotCallback {
    keys(kitchen, CTRL_SHIFT, Key::I);
    kitchen.get_by_label("File").focus();
    kitchen.run();
    keys(kitchen, Modifiers::COMMAND, Key::A);
    kitchen.get_by_label("File").type_text(&file.display().to_string());
    kitchen.run();
    kitchen.get_by_label("Save").click();
    for _ in 0..8 {
        kitchen.step();
        let output = &kitchen.output().viewport_output[&ViewportId::ROOT];
        if let Some(asked) = output.commands.iter().find_map(|command| match command {
            ViewportCommand::Screenshot(asked) => Some(asked.clone()),
            _ => None,
        }) {
            return asked;
        }
    }
    panic!("the window was not asked for what it shows");
}

fn until_told(kitchen: &mut Kitchen, words: &str) {
    for _ in 0..200 {
        kitchen.step();
        if kitchen.query_all_by_label_contains(words).next().is_some() {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    panic!("never said: {words}");
}

#[test]
fn the_picture_is_the_place_of_the_view_and_nothing_else() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("hut");
    let mut kitchen = kitchen(plain());
    // A step nearer, so that the button for the whole house lies over the picture.
    kitchen.get_by_label_contains("The house in space").focus();
    kitchen.run();
    keys(&mut kitchen, Modifiers::NONE, Key::Plus);
    assert!(kitchen.query_by_label("Whole house").is_some());
    let asked = ask(&mut kitchen, &file);
    assert!(kitchen.query_by_label("Whole house").is_none(), "it would be in the picture");
    assert!(kitchen.query_by_label("Save").is_none(), "so would the question");
    let place: Rect = kitchen.get_by_label_contains("The house in space").rect();
    let window = told(1440, 1800);
    asked.complete(Arc::new(window.clone()));
    until_told(&mut kitchen, "The picture is in ");
    assert!(kitchen.query_by_label("Whole house").is_some());
    let [left, top, right, bottom] =
        [place.left(), place.top(), place.right(), place.bottom()].map(|at| at.round() as usize);
    let rows = (top..bottom).flat_map(|row| (left..right).map(move |column| (row, column)));
    let rgba = rows.flat_map(|(row, column)| window.pixels[row * 1440 + column].to_array()).collect();
    let expected = Pixels { width: (right - left) as u32, height: (bottom - top) as u32, rgba };
    let written = std::fs::read(file.with_extension("png")).unwrap();
    assert!(expected.width > 300 && expected.height > 300 && written == pack_png(expected).unwrap());
    assert!(!kitchen.state().is_changed());
}

#[test]
fn a_picture_that_cannot_be_written_or_taken_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let mut kitchen = kitchen(plain());
    let asked = ask(&mut kitchen, &folder.path().join("none").join("hut.png"));
    asked.complete(Arc::new(told(1440, 1800)));
    until_told(&mut kitchen, "hut.png");
    assert!(kitchen.query_by_label_contains("The picture is in").is_none());
    drop(ask(&mut kitchen, &folder.path().join("hut.png")));
    until_told(&mut kitchen, "The picture could not be taken");
    press(&mut kitchen, "In space");
}
