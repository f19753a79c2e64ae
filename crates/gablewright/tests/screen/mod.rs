//! A virtual screen, and what is to be seen on it.
//!
//! Needs Xvfb, software GL, xdotool and ImageMagick's `import`; `tests/run` installs them.

use std::collections::BTreeSet;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// The size of the screen, which is the size that the window asks for.
pub const WIDTH: usize = 1360;
pub const HEIGHT: usize = 860;
/// Software GL on a busy machine takes its time.
pub const PATIENCE: Duration = Duration::from_secs(120);

/// A process that ends with the test.
pub struct Running(pub Child);

impl Drop for Running {
    fn drop(&mut self) {
        // Asked first, so that a server tidies up after itself.
        let _ = Command::new("kill").arg(self.0.id().to_string()).stderr(Stdio::null()).status();
        for _ in 0..50 {
            if !matches!(self.0.try_wait(), Ok(None)) {
                return;
            }
            sleep(Duration::from_millis(20));
        }
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn start(command: &mut Command) -> Running {
    let name = format!("{command:?}");
    let child = command.spawn();
    Running(child.unwrap_or_else(|why| panic!("cannot start {name}: {why}; tests/run installs what the tests need")))
}

/// A virtual screen of its own.
pub struct Screen {
    server: Running,
    name: String,
}

impl Screen {
    pub fn new() -> Self {
        let size = format!("{WIDTH}x{HEIGHT}x24");
        let mut command = Command::new("Xvfb");
        // The server finds a number that is free, and writes it once it is ready. It must not begin anew when whoever looked
        // first goes again: it refuses others meanwhile.
        command.args(["-displayfd", "1", "-noreset", "-screen", "0", &size, "+extension", "GLX"]);
        command.stdout(Stdio::piped()).stderr(Stdio::null());
        let mut server = start(&mut command);
        let mut number = String::new();
        BufReader::new(server.0.stdout.take().unwrap()).read_line(&mut number).unwrap();
        assert!(!number.trim().is_empty(), "the virtual screen did not start");
        Self { server, name: format!(":{}", number.trim()) }
    }

    /// Starts the program on it; `home` is all that it has of a person's folders.
    pub fn run(&self, program: &Path, arguments: &[&str], home: &Path) -> Running {
        let mut program = Command::new(program);
        program.args(arguments).env("DISPLAY", &self.name).env_remove("WAYLAND_DISPLAY");
        program.env("LIBGL_ALWAYS_SOFTWARE", "1");
        // Nobody's settings, and no desktop that could ask for file names.
        program.env("HOME", home).env("XDG_DATA_HOME", home).env("XDG_CONFIG_HOME", home);
        program.env_remove("DBUS_SESSION_BUS_ADDRESS").env("XDG_RUNTIME_DIR", home).stdout(Stdio::null());
        program.stderr(std::fs::File::create(home.join("said.txt")).unwrap());
        start(&mut program)
    }

    /// The pixels of the screen, row by row, as a plain pixel map (format P6 of the Netpbm family).
    pub fn pixels(&self) -> Vec<[u8; 3]> {
        let shot =
            Command::new("import").args(["-display", &self.name, "-window", "root", "-depth", "8", "ppm:-"]).output();
        let shot = shot.expect("'import' of ImageMagick runs; tests/run installs it").stdout;
        let body = shot.len().saturating_sub(WIDTH * HEIGHT * 3);
        shot[body..].chunks_exact(3).map(|p| [p[0], p[1], p[2]]).collect()
    }

    /// What `xdotool` says to these words: it moves the mouse and presses keys as the server itself would.
    pub fn told(&self, words: &[&str]) -> String {
        let said = Command::new("xdotool").args(words).env("DISPLAY", &self.name).output();
        String::from_utf8(said.expect("'xdotool' runs; tests/run installs it").stdout).unwrap()
    }

    /// Whether the server or a program has something to do, waiting for the processor included (field 3 of proc(5) of
    /// every thread).
    pub fn at_work(&self, program: &Running) -> bool {
        let threads =
            |process: &Running| std::fs::read_dir(format!("/proc/{}/task", process.0.id())).into_iter().flatten();
        let mut stats = threads(&self.server).chain(threads(program)).flatten();
        stats.any(|thread| {
            let stat = std::fs::read_to_string(thread.path().join("stat")).unwrap_or_default();
            stat.rsplit_once(") ").is_some_and(|(_, after)| after.starts_with(['R', 'D']))
        })
    }

    /// A picture of the screen as PNG.
    pub fn picture(&self, to: &Path) {
        let done = Command::new("import").args(["-display", &self.name, "-window", "root"]).arg(to).status();
        assert!(done.unwrap().success(), "{}", to.display());
    }

    /// Waits until the program shows a house: a lit one has many shades of biscuit over a good part of the screen; flat
    /// panels and letters have few.
    pub fn wait_for_house(&self, program: &mut Running) {
        let begun = Instant::now();
        loop {
            assert!(matches!(program.0.try_wait(), Ok(None)), "the program ended by itself");
            let biscuit: Vec<[u8; 3]> = self.pixels().into_iter().filter(|&p| is_biscuit(p)).collect();
            let shades: BTreeSet<_> = biscuit.iter().copied().collect();
            if biscuit.len() > WIDTH * HEIGHT / 60 && shades.len() >= 6 {
                return;
            }
            let (seen, kinds) = (biscuit.len(), shades.len());
            assert!(begun.elapsed() < PATIENCE, "no house in the window: {seen} biscuit pixels of {kinds} shades");
            sleep(Duration::from_millis(500));
        }
    }
}

/// Shades of baked biscuit: red over green over blue, well apart.
fn is_biscuit([red, green, blue]: [u8; 3]) -> bool {
    let (red, green, blue) = (i32::from(red), i32::from(green), i32::from(blue));
    red > 110 && red > green + 15 && green > blue + 20
}
