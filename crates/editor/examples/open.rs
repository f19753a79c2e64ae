//! Opens the editor: with the house file that is named, with a built-in house, or with the page to choose from.

use gable_editor::{Start, run};

fn main() -> Result<(), String> {
    let start = match std::env::args().nth(1) {
        None => Start::Choose,
        Some(path) => Start::File(path.into()),
    };
    run(start)
}
