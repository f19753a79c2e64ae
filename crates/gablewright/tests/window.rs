//! The real window on a virtual screen: it opens, and it draws the house.
#![cfg(target_os = "linux")]
#![allow(
    missing_docs,
    unreachable_pub,
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a check says by stopping that it failed"
)]

mod screen;

use screen::Screen;
use std::path::Path;

#[test]
fn the_window_draws_the_house() {
    let (screen, home) = (Screen::new(), tempfile::tempdir().unwrap());
    let mut program = screen.run(Path::new(env!("CARGO_BIN_EXE_gablewright")), &["boat-hut"], home.path());
    screen.wait_for_house(&mut program);
}
