//! A baker at the window, whose acts are counted: a click, a drag, a key, or words typed in one go.
//!
//! What is clicked is found by its name among what assistive technology is told, in an editor without a window. A real
//! window on a virtual screen may be worked in step with it: there the mouse goes to the same place of the screen, and the
//! same keys are pressed. Whatever would make the two differ (another size, another order, something in the way) makes
//! a click miss, and other houses come out.

use crate::screen::{HEIGHT, Running, Screen, WIDTH};
use egui::{Key, Modifiers, Pos2, Vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use egui_kittest::{Harness, Node};
use gable_editor::{Editor, Start};
use gable_shell::{House, file};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// How a person has the program: in a dark kitchen or a light one, with text so many percent of its usual size, with nothing
/// that moves by itself.
#[derive(Clone, Copy, Debug)]
pub struct Taste {
    pub dark: bool,
    pub text: u16,
    pub still: bool,
    /// What stands in the notebook.
    pub notebook: Option<&'static str>,
}

impl Taste {
    pub const USUAL: Self = Self { dark: false, text: 100, still: false, notebook: None };

    /// Pixels of the screen for a point of the program.
    fn scale(self) -> f32 {
        f32::from(self.text) / 100.0
    }

    /// Points that the screen is wide and high.
    fn size(self) -> Vec2 {
        egui::vec2(WIDTH as f32, HEIGHT as f32) / self.scale()
    }

    /// The file of settings, which has to be there before the program starts; nothing for the usual ones.
    fn settings(self) -> Option<String> {
        let look = if self.dark { "dark" } else { "light" };
        let kept = self.dark || self.still || self.text != Self::USUAL.text;
        kept.then(|| {
            format!(
                r#"{{"format": "gablewright-settings", "version": 1, "unit": "mm", "paper": "a4", "rolled": 6.0,
                "look": "{look}", "text": {}, "still": {}}}"#,
                self.text, self.still
            )
        })
    }
}

/// A person's folder, with a house in it or none.
pub struct Place(tempfile::TempDir);

impl Place {
    pub fn new(house: Option<&House>, taste: Taste) -> Self {
        let place = Self(tempfile::tempdir().unwrap());
        if let Some(settings) = taste.settings() {
            std::fs::create_dir_all(place.own()).unwrap();
            std::fs::write(place.own().join("settings.json"), settings).unwrap();
        }
        if let Some(notebook) = taste.notebook {
            std::fs::create_dir_all(place.own()).unwrap();
            std::fs::write(place.own().join("notebook.json"), notebook).unwrap();
        }
        if let Some(house) = house {
            std::fs::write(place.house_file(), file::write(house)).unwrap();
        }
        place
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn house_file(&self) -> PathBuf {
        self.path().join("hut.house.json")
    }

    /// The house as it is saved.
    pub fn house(&self) -> House {
        file::parse(&std::fs::read_to_string(self.house_file()).unwrap()).unwrap()
    }

    /// Where the program keeps what is a person's; both folders of the platform are this one.
    fn own(&self) -> PathBuf {
        self.path().join("gablewright")
    }

    /// An editor that works here.
    fn editor(&self, taste: Taste) -> Harness<'static, Editor> {
        let start = if self.house_file().exists() { Start::File(self.house_file()) } else { Start::Choose };
        let editor = Editor::without_window(start).unwrap();
        let editor = editor.at_home(self.own().join("kitchen.json")).keeping_in(&self.own().join("windows"));
        let size = taste.size();
        let mut tree = Harness::builder()
            .with_size(size)
            .with_max_steps(12)
            .build_ui_state(move |ui, e| whole(ui, e, size), editor);
        settle(&mut tree);
        tree
    }
}

/// The editor over the whole window, as it is in a real one; the harness leaves a rim.
fn whole(ui: &mut egui::Ui, editor: &mut Editor, size: Vec2) {
    let all = egui::Rect::from_min_size(Pos2::ZERO, size);
    ui.scope_builder(egui::UiBuilder::new().max_rect(all), |ui| {
        ui.set_clip_rect(all);
        editor.ui(ui);
    });
}

fn settle(tree: &mut Harness<'static, Editor>) {
    tree.run_ok();
    // Sheets that scroll or have just come up take a few frames to find their place.
    tree.run_steps(6);
}

/// A real window.
struct Window {
    screen: Screen,
    program: Running,
    place: Place,
    taste: Taste,
}

impl Window {
    fn open(place: Place, taste: Taste) -> Self {
        let screen = Screen::new();
        let program = Self::start(&screen, &place);
        let window = Self { screen, program, place, taste };
        window.arrive();
        window
    }

    fn start(screen: &Screen, place: &Place) -> Running {
        let file = place.house_file();
        let arguments: Vec<&str> = file.exists().then(|| file.to_str().unwrap()).into_iter().collect();
        screen.run(Path::new(env!("CARGO_BIN_EXE_gablewright")), &arguments, place.path())
    }

    /// Waits for the window to be there and to have nothing more to do.
    fn arrive(&self) {
        let begun = Instant::now();
        let found = || self.screen.told(&["search", "--onlyvisible", "--class", "gablewright"]);
        while found().trim().is_empty() {
            let said = || std::fs::read_to_string(self.place.path().join("said.txt")).unwrap_or_default();
            assert!(begun.elapsed() < crate::screen::PATIENCE, "no window came up: {}", said());
            sleep(Duration::from_millis(100));
        }
        sleep(Duration::from_millis(700));
        self.rest();
        // Nobody manages windows here, so nobody tells it that keys are for it.
        self.tell(&["windowfocus", found().lines().last().unwrap()]);
    }

    /// Waits until the program has had nothing to do for a while: it draws only when something happens, and a caret
    /// blinks seldom.
    fn rest(&self) {
        let begun = Instant::now();
        let mut quiet = 0;
        while quiet < 8 && begun.elapsed() < Duration::from_secs(20) {
            sleep(Duration::from_millis(15));
            quiet = if self.screen.at_work(&self.program) { 0 } else { quiet + 1 };
        }
    }

    fn tell(&self, words: &[&str]) {
        self.screen.told(words);
        self.rest();
    }

    fn go(&self, to: Pos2) {
        let to = to * self.taste.scale();
        self.tell(&["mousemove", &format!("{:.0}", to.x), &format!("{:.0}", to.y)]);
    }
}

/// Somebody who works.
pub struct Baker {
    tree: Harness<'static, Editor>,
    tree_place: Place,
    window: Option<Window>,
    taste: Taste,
    pub acts: usize,
}

impl Baker {
    /// Somebody with this house, or at the opening page; with a real window beside, or without.
    pub fn new(house: Option<&House>, seen: bool) -> Self {
        Self::with_taste(house, seen, Taste::USUAL)
    }

    pub fn with_taste(house: Option<&House>, seen: bool, taste: Taste) -> Self {
        let tree_place = Place::new(house, taste);
        let tree = tree_place.editor(taste);
        let window = seen.then(|| Window::open(Place::new(house, taste), taste));
        Self { tree, tree_place, window, taste, acts: 0 }
    }

    /// The folder of the real window, or else of the other one.
    pub fn place(&self) -> &Place {
        self.window.as_ref().map_or(&self.tree_place, |window| &window.place)
    }

    /// The house as it is now where there is no window.
    pub fn house(&self) -> &House {
        self.tree.state().house().unwrap()
    }

    /// Where something is seen, by its name, or a part of its name.
    fn find(&self, name: &str) -> Option<Pos2> {
        let whole = self.tree.query_all_by_label(name).rfind(in_sight);
        let node = whole.or_else(|| self.tree.query_all_by_label_contains(name).rfind(in_sight))?;
        Some(node.rect().center())
    }

    fn found(&self, name: &str) -> Pos2 {
        self.find(name).unwrap_or_else(|| {
            let all = self.tree.root().children_recursive().filter(in_sight);
            let names: BTreeSet<_> = all.filter_map(|n| n.accesskit_node().label()).collect();
            panic!("nothing in sight is called '{name}', but {names:#?}")
        })
    }

    /// Clicks what may be there or not; whether it was.
    pub fn click_if_there(&mut self, name: &str) -> bool {
        let there = self.find(name);
        there.into_iter().for_each(|at| self.click_at(at));
        there.is_some()
    }

    pub fn click(&mut self, name: &str) {
        self.click_at(self.found(name));
    }

    fn click_at(&mut self, at: Pos2) {
        self.acts += 1;
        self.tree.hover_at(at);
        settle(&mut self.tree);
        self.tree.drag_at(at);
        self.tree.drop_at(at);
        settle(&mut self.tree);
        if let Some(window) = &self.window {
            window.go(at);
            window.tell(&["click", "1"]);
        }
    }

    /// Drags something by so many points of the screen.
    pub fn drag(&mut self, name: &str, by: Vec2) {
        self.acts += 1;
        let from = self.found(name);
        let way = [0.25, 0.5, 0.75, 1.0].map(|share| from + by * share);
        self.tree.hover_at(from);
        settle(&mut self.tree);
        self.tree.drag_at(from);
        self.tree.run_steps(1);
        for at in way {
            self.tree.hover_at(at);
            self.tree.run_steps(2);
        }
        self.tree.drop_at(from + by);
        settle(&mut self.tree);
        if let Some(window) = &self.window {
            window.go(from);
            window.tell(&["mousedown", "1"]);
            way.into_iter().for_each(|at| window.go(at));
            window.tell(&["mouseup", "1"]);
        }
    }

    /// Turns the wheel over something, so many notches down.
    pub fn wheel(&mut self, name: &str, notches: usize) {
        self.acts += 1;
        let at = self.found(name);
        self.tree.hover_at(at);
        self.tree.run_steps(1);
        for _ in 0..notches {
            self.tree.event(egui::Event::MouseWheel {
                unit: egui::MouseWheelUnit::Line,
                // What the wheel of the virtual screen is told to be worth.
                delta: egui::vec2(0.0, -2.0),
                phase: egui::TouchPhase::Move,
                source: egui::MouseWheelSource::Wheel,
                modifiers: Modifiers::NONE,
            });
            self.tree.run_steps(20);
        }
        settle(&mut self.tree);
        if let Some(window) = &self.window {
            window.go(at);
            for _ in 0..notches {
                window.tell(&["click", "5"]);
                sleep(Duration::from_millis(300));
            }
        }
    }

    /// Presses a key such as 'Return', or 'ctrl+a'.
    pub fn key(&mut self, name: &str) {
        self.acts += 1;
        self.press(name);
    }

    fn press(&mut self, name: &str) {
        let (held, last) = name.rsplit_once('+').unwrap_or(("", name));
        let mut modifiers = if held.contains("ctrl") { Modifiers::COMMAND } else { Modifiers::NONE };
        modifiers.ctrl = held.contains("ctrl");
        modifiers.shift = held.contains("shift");
        modifiers.alt = held.contains("alt");
        let key = match last {
            "Return" => Key::Enter,
            "Left" => Key::ArrowLeft,
            "Right" => Key::ArrowRight,
            "Up" => Key::ArrowUp,
            "Down" => Key::ArrowDown,
            "comma" => Key::Comma,
            other => Key::from_name(other).or_else(|| Key::from_name(&other.to_uppercase())).unwrap(),
        };
        self.tree.key_press_modifiers(modifiers, key);
        settle(&mut self.tree);
        if let Some(window) = &self.window {
            window.tell(&["key", name]);
        }
    }

    /// Types words where the caret is.
    pub fn words(&mut self, words: &str) {
        self.acts += 1;
        self.tree.event(egui::Event::Text(words.to_owned()));
        settle(&mut self.tree);
        if let Some(window) = &self.window {
            window.tell(&["type", "--delay", "30", words]);
        }
    }

    /// Types a name of a file in the person's folder, which is another one in the window.
    pub fn path(&mut self, name: &str) {
        self.acts += 1;
        let own = self.tree_place.path().join(name);
        self.tree.event(egui::Event::Text(own.to_str().unwrap().to_owned()));
        settle(&mut self.tree);
        if let Some(window) = &self.window {
            window.tell(&["type", "--delay", "30", window.place.path().join(name).to_str().unwrap()]);
        }
    }

    /// A field takes other words.
    pub fn fill(&mut self, name: &str, words: &str) {
        self.click(name);
        self.key("ctrl+a");
        self.words(words);
        self.key("Return");
    }

    /// Chooses from a folded list.
    pub fn choose(&mut self, list: &str, words: &str) {
        self.click(list);
        self.click(words);
    }

    /// Waits until something has come into the person's folder that ends so; its bytes.
    pub fn wait_for(&mut self, end: &str) -> Vec<u8> {
        let begun = Instant::now();
        loop {
            self.tree.run_ok();
            let found = |place: &Place| ended_so(place.path(), end);
            let here = found(&self.tree_place);
            let there = self.window.as_ref().map_or_else(|| here.clone(), |window| found(&window.place));
            if let (Some(_), Some(file)) = (here, there) {
                sleep(Duration::from_millis(300));
                return std::fs::read(file).unwrap();
            }
            assert!(begun.elapsed() < crate::screen::PATIENCE, "no file that ends with {end}");
            sleep(Duration::from_millis(100));
        }
    }

    /// Lets what is worked out beside the window come in.
    pub fn wait_a_while(&mut self) {
        for _ in 0..20 {
            sleep(Duration::from_millis(200));
            self.tree.run_ok();
        }
        if let Some(window) = &self.window {
            window.rest();
        }
    }

    /// The program is ended as the system ends it, and started again.
    pub fn killed(&mut self) {
        // Work is kept a second after a change.
        sleep(Duration::from_millis(2500));
        self.tree.run_ok();
        let empty =
            Harness::builder().build_ui_state(|_, _: &mut Editor| {}, Editor::without_window(Start::Choose).unwrap());
        // Forgotten, not closed: whatever it would tidy away stays. What it holds is let go of, as the system does.
        std::mem::drop(std::mem::replace(&mut self.tree, empty));
        self.tree = self.tree_place.editor(self.taste);
        if let Some(window) = &mut self.window {
            window.program.0.kill().unwrap();
            window.program.0.wait().unwrap();
            window.program = Window::start(&window.screen, &window.place);
            window.arrive();
        }
    }

    /// Saves, which is not counted, and gives the house: the same from both.
    pub fn saved(&mut self) -> House {
        self.press("ctrl+s");
        let wanted = self.tree_place.house();
        assert_eq!(file::write(&wanted), file::write(self.house()), "saved as it is");
        let Some(window) = &self.window else { return wanted };
        let begun = Instant::now();
        loop {
            let house = window.place.house();
            if house == wanted {
                return house;
            }
            if begun.elapsed() > Duration::from_secs(10) {
                let seen = std::env::temp_dir().join("gablewright-window.png");
                self.picture(&seen);
                assert_eq!(file::write(&wanted), file::write(&house), "in the window, as in {}", seen.display());
            }
            sleep(Duration::from_millis(200));
        }
    }

    /// Moves the mouse of the real window.
    pub fn point(&self, at: Pos2) {
        if let Some(window) = &self.window {
            window.go(at);
            sleep(Duration::from_millis(600));
            window.rest();
        }
    }

    /// Moves the mouse of the real window into its lower right corner, where nothing answers to it.
    pub fn point_to_the_corner(&self) {
        self.point((self.taste.size() - Vec2::splat(3.0)).to_pos2());
    }

    /// A picture of the real window.
    pub fn picture(&self, to: &Path) {
        if let Some(window) = &self.window {
            window.screen.picture(to);
        }
    }
}

/// Whether the middle of something is within the window, of which assistive technology is told in pixels.
fn in_sight(node: &Node<'_>) -> bool {
    let Some(bounds) = node.accesskit_node().bounding_box() else { return false };
    let (x, y) = ((bounds.x0 + bounds.x1) / 2.0, (bounds.y0 + bounds.y1) / 2.0);
    (0.0..WIDTH as f64).contains(&x) && (0.0..HEIGHT as f64).contains(&y)
}

fn ended_so(folder: &Path, end: &str) -> Option<PathBuf> {
    let mut all: Vec<PathBuf> = std::fs::read_dir(folder).ok()?.filter_map(|e| Some(e.ok()?.path())).collect();
    all.sort();
    all.iter()
        .find(|p| p.is_file() && p.to_string_lossy().ends_with(end))
        .cloned()
        .or_else(|| all.iter().filter(|p| p.is_dir()).find_map(|inner| ended_so(inner, end)))
}
