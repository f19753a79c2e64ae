//! Makes the pictures of the window for the handbook; `docs/make-pictures` runs it. Not a check.
#![cfg(target_os = "linux")]
#![allow(
    missing_docs,
    unreachable_pub,
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "it says by stopping that it failed"
)]

mod hand;
mod screen;

use gable_shell::{House, demo};
use hand::Baker;
use std::path::PathBuf;

fn folder() -> PathBuf {
    let usual = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/handbook/pictures");
    std::env::var_os("GABLE_PICTURES").map_or_else(|| PathBuf::from(usual), PathBuf::from)
}

fn show(baker: &Baker, name: &str) {
    // Out of the way, so that no hint hangs over the picture.
    baker.point(egui::pos2(640.0, 20.0));
    baker.picture(&folder().join(name));
}

fn pilots() -> House {
    demo::house("pilot-house").unwrap()
}

fn with(house: &House) -> Baker {
    Baker::new(Some(house), true)
}

/// The opening page and the first house.
fn first() {
    let mut baker = Baker::new(None, true);
    baker.click("Later");
    show(&baker, "start.png");
    baker.click("Cottage");
    show(&baker, "cottage.png");
    baker.fill("Width", "180");
    baker.drag("Fold up", egui::vec2(20.0, 0.0));
    show(&baker, "folding.png");
    baker.click("Standing");
    baker.click("Right of the door");
    baker.fill("Distance", "9");
    baker.wait_a_while();
    show(&baker, "noticed.png");
}

fn drawn() {
    let mut baker = with(&pilots());
    show(&baker, "pilot-house.png");
    baker.click("Right, gable");
    show(&baker, "face.png");
    baker.click("Main body");
    baker.key("ctrl+shift+p");
    baker.wait_a_while();
    for _ in 0..10 {
        baker.click("Next stage");
    }
    show(&baker, "stage.png");
    let mut baker = with(&pilots());
    baker.drag("Fold up", egui::vec2(30.0, 0.0));
    show(&baker, "pilot-folding.png");
}

fn asked() {
    let mut baker = with(&pilots());
    baker.click("House");
    baker.click("Will it stand?…");
    baker.wait_a_while();
    show(&baker, "stand.png");
    let mut baker = with(&pilots());
    baker.key("ctrl+b");
    baker.wait_a_while();
    baker.click("Trays");
    show(&baker, "trays.png");
    baker.click("Who and when");
    let day = jiff::Zoned::now().date().saturating_add(jiff::Span::new().days(28));
    baker.fill("Must stand by", &format!("{day} 15:00"));
    baker.wait_a_while();
    baker.click("Days");
    show(&baker, "days.png");
    let mut baker = with(&pilots());
    baker.click("Edit");
    baker.click("Larger or smaller…");
    baker.choose("How large", "The largest for my tray");
    baker.wait_a_while();
    show(&baker, "resize.png");
}

#[test]
#[ignore = "writes pictures"]
fn pictures() {
    std::fs::create_dir_all(folder()).unwrap();
    first();
    drawn();
    asked();
}
