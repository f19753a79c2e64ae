use clap::{Args as Group, Parser, Subcommand, ValueEnum};
use gable_export::Paper;
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  gablewright                                     open the window
  gablewright my-hut.house.json                   open a house in it
  gablewright pack boat-hut --paper a4 --to pack  print a built-in house
  gablewright pack my-hut.house.json --paper a4+letter --to pack --margin '1/2 in'
  gablewright check my-hut.house.json             what the checks noticed
  gablewright pieces boat-hut --csv > pieces.csv
  gablewright picture lookout --to lookout.svg --pose 0.5 --from 30,25

HOUSE is a *.house.json file or the name of a built-in house: boat-hut, net-store, lookout,
pilot-house, askew-house.
Exit status: 0 done, 1 the house cannot be built as it is, 2 bad usage or unreadable house.";

/// Design gingerbread houses that close, and print their templates at true scale.
#[derive(Parser, Debug)]
#[command(name = "gablewright", version, after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
pub(crate) struct Args {
    /// House to open in the window: a file or a built-in name
    pub(crate) house: Option<String>,
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
}

/// What to do without the window.
#[derive(Subcommand, Debug)]
pub(crate) enum Command {
    /// Write the pack: patterns of every piece at true scale, as PDF
    Pack(PackArgs),
    /// List what the checks noticed
    Check(CheckArgs),
    /// List the pieces
    Pieces(PiecesArgs),
    /// Draw the house
    Picture(PictureArgs),
}

/// Arguments of `pack`.
#[derive(Group, Debug)]
#[command(after_help = "Examples:\n  gablewright pack boat-hut --paper a4 --to pack\n  \
                  gablewright pack boat-hut --to pack --margin 8mm --margin-bottom '1/2 in'")]
pub(crate) struct PackArgs {
    /// House file or built-in name
    pub(crate) house: String,
    /// Paper to print on; a4+letter fits on both
    #[arg(long, value_enum, default_value = "a4")]
    pub(crate) paper: PaperArg,
    /// Folder to write into; it is made if it is missing
    #[arg(long, value_name = "DIR")]
    pub(crate) to: PathBuf,
    /// Leave out the guides of tiles, bricks and boards
    #[arg(long)]
    pub(crate) no_guides: bool,
    /// Leave out the patterns of what is baked already
    #[arg(long)]
    pub(crate) no_baked: bool,
    #[command(flatten)]
    pub(crate) margins: MarginArgs,
}

/// What the printer cannot reach.
#[derive(Group, Debug)]
pub(crate) struct MarginArgs {
    /// Margin the printer cannot reach, on every side, such as 5mm or '1/4 in' [default: 6.35 mm, at the bottom 6.7 mm]
    #[arg(long, value_name = "LENGTH")]
    pub(crate) margin: Option<String>,
    /// Margin on the left of the upright page, whatever --margin says
    #[arg(long, value_name = "LENGTH")]
    pub(crate) margin_left: Option<String>,
    /// Margin on the right
    #[arg(long, value_name = "LENGTH")]
    pub(crate) margin_right: Option<String>,
    /// Margin at the top
    #[arg(long, value_name = "LENGTH")]
    pub(crate) margin_top: Option<String>,
    /// Margin at the bottom
    #[arg(long, value_name = "LENGTH")]
    pub(crate) margin_bottom: Option<String>,
}

/// Arguments of `check`.
#[derive(Group, Debug)]
#[command(after_help = "Examples:\n  gablewright check my-hut.house.json --json\n  \
                  gablewright check my-hut.house.json --tray 430x350 --tray '16 1/2 in x 11 1/2 in'")]
pub(crate) struct CheckArgs {
    /// House file or built-in name
    pub(crate) house: String,
    /// A tray you have, by its flat inside; pieces that fit on none are listed too. May be given again
    #[arg(long = "tray", value_name = "LENGTHxLENGTH", allow_hyphen_values = true)]
    pub(crate) trays: Vec<String>,
    /// As JSON
    #[arg(long)]
    pub(crate) json: bool,
}

/// Arguments of `pieces`.
#[derive(Group, Debug)]
#[command(after_help = "Examples:\n  gablewright pieces boat-hut\n  gablewright pieces boat-hut --json > pieces.json")]
pub(crate) struct PiecesArgs {
    /// House file or built-in name
    pub(crate) house: String,
    /// As JSON: outlines, places in the house and joints, in mm
    #[arg(long, conflicts_with = "csv")]
    pub(crate) json: bool,
    /// As a table, one row for each piece
    #[arg(long)]
    pub(crate) csv: bool,
}

/// Arguments of `picture`.
#[derive(Group, Debug)]
#[command(after_help = "Example:\n  gablewright picture boat-hut --to hut.png --pose standing --from 35,25")]
pub(crate) struct PictureArgs {
    /// House file or built-in name
    pub(crate) house: String,
    /// File to write, *.svg or *.png
    #[arg(long, value_name = "FILE")]
    pub(crate) to: PathBuf,
    /// standing, flat, or a number from 0 (flat) to 1 (standing)
    #[arg(long, default_value = "standing")]
    pub(crate) pose: String,
    /// Where it is seen from, in degrees: round from the front to the right, and up from the table
    #[arg(long, value_name = "DEG,DEG", default_value = "32,24", allow_hyphen_values = true)]
    pub(crate) from: String,
}

/// A paper by its name on the command line.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum PaperArg {
    /// 210 × 297 mm
    #[value(name = "a4")]
    A4,
    /// 8 1/2 × 11 in
    #[value(name = "letter")]
    Letter,
    /// The area that both have
    #[value(name = "a4+letter")]
    Both,
}

impl From<PaperArg> for Paper {
    fn from(paper: PaperArg) -> Self {
        match paper {
            PaperArg::A4 => Self::A4,
            PaperArg::Letter => Self::Letter,
            PaperArg::Both => Self::A4AndLetter,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_holds_together() {
        Args::command().debug_assert();
    }

    #[test]
    fn every_built_in_house_stands_in_the_help() {
        for name in gable_shell::demo::names() {
            assert!(EXAMPLES.contains(name), "{name}");
        }
    }
}
