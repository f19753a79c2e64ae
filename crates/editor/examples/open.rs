//! Opens the editor: with the built-in house or the house file that is named, or with the page to choose from.

use gable_editor::{Start, run};
use gable_shell::demo;

fn main() -> Result<(), String> {
    let start = match std::env::args().nth(1) {
        None => Start::Choose,
        Some(name) => match demo::house(&name) {
            Some(house) => Start::House(Box::new(house)),
            None => Start::File(name.into()),
        },
    };
    run(start)
}
