use crate::args::Args;
use crate::failure::Failure;
use clap::CommandFactory;
use gable_shell::demo;
use std::path::Path;

/// Likeness above which one word is taken for another mistyped: 'pak' for 'pack', not 'hut' for 'pack'.
const ALIKE: f64 = 0.8;

/// A complaint about a first word that is no house, and much like a command.
pub(crate) fn command(word: Option<&str>) -> Option<Failure> {
    let word = word?;
    // Commands are plain words: what has a folder or an ending is meant for a file.
    let file = word.contains(['/', '\\', '.']) || Path::new(word).exists();
    if word.starts_with('-') || file || demo::text(word).is_some() {
        return None;
    }
    let commands = Args::command();
    let names = commands.get_subcommands().map(clap::Command::get_name);
    let alike = names.map(|name| (strsim::jaro_winkler(word, name), name));
    let (likeness, name) = alike.max_by(|a, b| a.0.total_cmp(&b.0))?;
    let mistyped = (ALIKE..1.0).contains(&likeness);
    mistyped.then(|| Failure::Usage(format!("there is no command '{word}'; did you mean '{name}'?")))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(word: &str) -> Option<String> {
        match command(Some(word)) {
            Some(Failure::Usage(text)) => Some(text),
            _ => None,
        }
    }

    #[test]
    fn a_mistyped_command_is_guessed_and_a_house_is_not() {
        for (typed, meant) in [("pak", "pack"), ("chekc", "check"), ("peices", "pieces"), ("pictre", "picture")] {
            assert!(said(typed).is_some_and(|text| text.ends_with(&format!("'{meant}'?"))), "{typed}");
        }
        for word in ["boat-hut", "boathut", "pack", "my-hut.house.json", "pack/hut.pdf", "packs\\hut", "--version", ""]
        {
            assert_eq!(said(word), None, "{word}");
        }
    }
}
