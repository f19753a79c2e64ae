//! The real window on a virtual screen: it opens, and it draws the house.
//!
//! Needs Xvfb, software GL and ImageMagick's `import`; `tests/run` installs them.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a check says by stopping that it failed")]

use std::collections::BTreeSet;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

const WIDTH: usize = 1280;
const HEIGHT: usize = 800;
/// Software GL on a busy machine takes its time.
const PATIENCE: Duration = Duration::from_secs(120);

/// A process that ends with the test.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn start(command: &mut Command) -> Running {
    let name = format!("{command:?}");
    let child = command.stdout(Stdio::null()).stderr(Stdio::null()).spawn();
    Running(child.unwrap_or_else(|why| panic!("cannot start {name}: {why}; tests/run installs what the tests need")))
}

/// A virtual screen of its own, and its name.
fn screen() -> (Running, String) {
    for number in 140..180 {
        if std::path::Path::new(&format!("/tmp/.X{number}-lock")).exists() {
            continue;
        }
        let name = format!(":{number}");
        let size = format!("{WIDTH}x{HEIGHT}x24");
        let mut server = start(Command::new("Xvfb").args([&name, "-screen", "0", &size, "+extension", "GLX"]));
        sleep(Duration::from_millis(800));
        if matches!(server.0.try_wait(), Ok(None)) {
            return (server, name);
        }
    }
    panic!("no free screen number from 140 to 179");
}

/// The pixels of the screen, row by row, as a plain pixel map (format P6 of the Netpbm family).
fn pixels(screen: &str) -> Vec<[u8; 3]> {
    let shot = Command::new("import").args(["-display", screen, "-window", "root", "-depth", "8", "ppm:-"]).output();
    let shot = shot.expect("'import' of ImageMagick runs; tests/run installs it").stdout;
    let body = shot.len().saturating_sub(WIDTH * HEIGHT * 3);
    shot[body..].chunks_exact(3).map(|p| [p[0], p[1], p[2]]).collect()
}

/// Shades of baked biscuit: red over green over blue, well apart.
fn is_biscuit([red, green, blue]: [u8; 3]) -> bool {
    let (red, green, blue) = (i32::from(red), i32::from(green), i32::from(blue));
    red > 110 && red > green + 15 && green > blue + 20
}

#[test]
fn the_window_draws_the_house() {
    let (_server, screen) = screen();
    let mut program = Command::new(env!("CARGO_BIN_EXE_gablewright"));
    program.arg("boat-hut").env("DISPLAY", &screen).env_remove("WAYLAND_DISPLAY").env("LIBGL_ALWAYS_SOFTWARE", "1");
    // Settings of whoever runs the test stay out of it.
    let home = tempfile::tempdir().unwrap();
    program.env("HOME", home.path()).env("XDG_DATA_HOME", home.path()).env("XDG_CONFIG_HOME", home.path());
    let mut program = start(&mut program);
    let begun = Instant::now();
    loop {
        assert!(matches!(program.0.try_wait(), Ok(None)), "the program ended by itself");
        let biscuit: Vec<[u8; 3]> = pixels(&screen).into_iter().filter(|&p| is_biscuit(p)).collect();
        let shades: BTreeSet<_> = biscuit.iter().copied().collect();
        // A lit house has many shades over a good part of the screen; flat panels and letters have few.
        if biscuit.len() > WIDTH * HEIGHT / 60 && shades.len() >= 6 {
            return;
        }
        let (seen, kinds) = (biscuit.len(), shades.len());
        assert!(begun.elapsed() < PATIENCE, "no house in the window: {seen} biscuit pixels of {kinds} shades");
        sleep(Duration::from_millis(500));
    }
}
