pub(crate) use crate::stand::args::StandArgs;
use clap::builder::PossibleValue;
use clap::{Args as Group, Parser, Subcommand, ValueEnum};
use gable_bake::HandOver;
use gable_export::Section;
use std::path::PathBuf;

const EXAMPLES: &str = "\
Examples:
  gablewright                                     open the window
  gablewright my-hut.house.json                   open a house in it
  gablewright pack boat-hut --paper a4 --to pack  print a built-in house
  gablewright pack my-hut.house.json --paper a4+letter --to pack --margin '1/2 in'
  gablewright check my-hut.house.json             what the checks noticed
  gablewright pieces boat-hut --csv > pieces.csv
  gablewright files boat-hut --to files --dxf     templates for a machine that cuts
  gablewright resize boat-hut --by 75% --to small-hut.house.json
  gablewright bake boat-hut                       what to mix, bake and buy
  gablewright stand boat-hut --humidity 60%       will it stand, will it travel
  gablewright picture lookout --to lookout.svg --pose 0.5 --from 30,25

HOUSE is a *.house.json file, a pack in PDF (the house rides inside it), or the name of a built-in
house: boat-hut, net-store, lookout, pilot-house, askew-house.
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
    Pack(Box<PackArgs>),
    /// List what the checks noticed
    Check(CheckArgs),
    /// List the pieces
    Pieces(PiecesArgs),
    /// Draw the house
    Picture(PictureArgs),
    /// Write the house as files for other programs and machines
    Files(FilesArgs),
    /// Make the house larger or smaller, in the dough that it has
    Resize(ResizeArgs),
    /// Plan the bake: dough, icing, glazing, ovenfuls, shopping
    Bake(Box<BakeArgs>),
    /// Say what will stand and travel, what needs care, what is likely to break
    Stand(StandArgs),
    /// Write a page for `man` of every command
    #[command(hide = true)]
    Manual(ManualArgs),
}

/// Arguments of `manual`.
#[derive(Group, Debug)]
pub(crate) struct ManualArgs {
    /// Folder to write into; it is made if it is missing
    #[arg(long, value_name = "DIR")]
    pub(crate) to: PathBuf,
}

/// Arguments of `pack`.
#[derive(Group, Debug)]
#[command(after_help = "Examples:\n  gablewright pack boat-hut --paper a4 --to pack\n  \
                  gablewright pack boat-hut --to pack --margin 8mm --margin-bottom '1/2 in'\n  \
                  gablewright pack boat-hut --to pack --only calibration\n  \
                  gablewright pack boat-hut --to pack --level-bar '174.6 of 180' --upright-bar '249 of 250'\n  \
                  gablewright pack boat-hut --to pack --spread-share 2% --spread-edge 0.8mm --trim-warm\n  \
                  gablewright pack boat-hut --to pack --to-share --paper a4+letter")]
pub(crate) struct PackArgs {
    /// House file or built-in name
    pub(crate) house: String,
    /// Paper to print on: a4, letter, a4+letter (fits on both), a3, a2, legal, tabloid, a size such as 300x400 or
    /// '18 in x 24 in', or 'roll 610' for paper from a roll
    #[arg(long, default_value = "a4")]
    pub(crate) paper: String,
    /// Only these kinds of pages
    #[arg(long, value_enum, value_delimiter = ',', value_name = "PAGES", conflicts_with = "without")]
    pub(crate) only: Vec<SectionArg>,
    /// All kinds of pages but these
    #[arg(long, value_enum, value_delimiter = ',', value_name = "PAGES")]
    pub(crate) without: Vec<SectionArg>,
    /// A pack to give to others: not corrected for a printer, and nothing of what you have baked
    #[arg(long, conflicts_with_all = ["level_bar", "upright_bar"])]
    pub(crate) to_share: bool,
    /// What the level bar of your uncorrected calibration page measures, and what it should, such as '174.6 of 180mm':
    /// the pack makes up for your printer
    #[arg(long, value_name = "LENGTH of LENGTH")]
    pub(crate) level_bar: Option<String>,
    /// The same of the upright bar
    #[arg(long, value_name = "LENGTH of LENGTH")]
    pub(crate) upright_bar: Option<String>,
    /// Folder to write into; it is made if it is missing
    #[arg(long, value_name = "DIR")]
    pub(crate) to: PathBuf,
    /// Several sizes of the house at once, such as 75%,100%,150%, a PDF for each
    #[arg(long, value_delimiter = ',', value_name = "SHARES")]
    pub(crate) sizes: Vec<String>,
    /// Size of the paper mock-up, as a share of the house, such as 50%
    #[arg(long, value_name = "SHARE", default_value = "50%")]
    pub(crate) mock_up: String,
    /// Leave out the guides of tiles, bricks and boards
    #[arg(long)]
    pub(crate) no_guides: bool,
    /// Leave out the patterns of what is baked already
    #[arg(long)]
    pub(crate) no_baked: bool,
    /// A pattern for every single piece, not one for all that are alike; those that are cut turned over are printed so
    #[arg(long)]
    pub(crate) every_piece: bool,
    /// Look longer for fewer pattern pages, a quarter of a minute or so; words on them may then stand sideways
    #[arg(long)]
    pub(crate) fewer_pages: bool,
    #[command(flatten)]
    pub(crate) baker: BakerArgs,
    #[command(flatten)]
    pub(crate) spread: SpreadArgs,
    #[command(flatten)]
    pub(crate) margins: MarginArgs,
}

/// How dough grows in the oven.
#[derive(Group, Debug)]
pub(crate) struct SpreadArgs {
    /// By which share your dough grows in your oven, such as 2%; less than 0 where it shrinks
    #[arg(long, value_name = "SHARE", allow_hyphen_values = true, conflicts_with = "to_share")]
    pub(crate) spread_share: Option<String>,
    /// By which length it grows at each edge beyond that, such as 0.8mm
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true, conflicts_with = "to_share")]
    pub(crate) spread_edge: Option<String>,
    /// Patterns with a second line, to cut dough larger and trim it to the finished outline while it is warm
    #[arg(long, conflicts_with_all = ["to_share", "cut_once"])]
    pub(crate) trim_warm: bool,
    /// Patterns made smaller, so that the dough grows into the finished outline
    #[arg(long, conflicts_with = "to_share")]
    pub(crate) cut_once: bool,
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
    /// Your narrowest blade or cutter; 2 mm if not given
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub(crate) blade: Option<String>,
    /// The least width of biscuit you want to leave; the thickness of the dough if not given
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub(crate) bridge: Option<String>,
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

/// Arguments of `files`.
#[derive(Group, Debug)]
#[command(after_help = "Examples:\n  gablewright files boat-hut --to files    all kinds\n  \
                  gablewright files my-hut.house.json --to files --svg --dxf\n  \
                  gablewright files my-hut.house.json --to mock-up --stl --scale 50%\n\
                  Plastic, card and wood from a machine must not touch dough unless they are made for food: \
                  lay baking paper between.")]
pub(crate) struct FilesArgs {
    /// House file, pack or built-in name
    pub(crate) house: String,
    /// Folder to write into; it is made if it is missing
    #[arg(long, value_name = "DIR")]
    pub(crate) to: PathBuf,
    /// Templates as SVG, one file each, in millimetres, a group for each layer
    #[arg(long)]
    pub(crate) svg: bool,
    /// Templates as DXF of release 12, one file each, 1 unit to the millimetre, with layers CUT, PRESSED, GUIDE and TEXT
    #[arg(long)]
    pub(crate) dxf: bool,
    /// Everything that is cut as a solid in binary STL, one file each, in millimetres
    #[arg(long)]
    pub(crate) stl: bool,
    /// The standing house in glTF 2.0 (.glb), in metres
    #[arg(long)]
    pub(crate) gltf: bool,
    /// Pieces, joints, openings and ornaments as tables
    #[arg(long)]
    pub(crate) csv: bool,
    /// Size of solids and of the standing house, for a mock-up, such as 50%; drawings and tables stay true
    #[arg(long, value_name = "SHARE", default_value = "100%")]
    pub(crate) scale: String,
}

/// Arguments of `resize`.
#[derive(Group, Debug)]
#[command(after_help = "Examples:\n  gablewright resize boat-hut --by 75% --to small.house.json\n  \
                  gablewright resize boat-hut --to-length '12 in' --to hut.house.json\n  \
                  gablewright resize boat-hut --fit tray=430x350 --to hut.house.json\n  \
                  gablewright resize boat-hut --fit dough=1kg\n  \
                  gablewright resize boat-hut --by 50% --by 75% --by 150%    only compares")]
pub(crate) struct ResizeArgs {
    /// House file, pack or built-in name
    pub(crate) house: String,
    /// So much of its size, such as 75% or 1.5; given several times, the sizes are compared
    #[arg(long, value_name = "SHARE", conflicts_with_all = ["to_length", "fit"])]
    pub(crate) by: Vec<String>,
    /// Until the longer side of the whole, roof included, is so long
    #[arg(long, value_name = "LENGTH", conflicts_with = "fit", allow_hyphen_values = true)]
    pub(crate) to_length: Option<String>,
    /// The largest of which every piece fits: tray=WIDTHxDEPTH, paper=a4 (each on one sheet), board=WIDTHxDEPTH for
    /// the whole house with a rim, or dough=1kg for the raw dough that there is
    #[arg(long, value_name = "WHAT=SIZE")]
    pub(crate) fit: Option<String>,
    /// Doors and windows keep their size
    #[arg(long)]
    pub(crate) keep_openings: bool,
    /// Boards, caps and boxes grow too
    #[arg(long)]
    pub(crate) scale_ornaments: bool,
    /// Who resizes it: the house says so, after a design by whoever drew it
    #[arg(long, value_name = "NAME", default_value = "")]
    pub(crate) drawn_by: String,
    /// House file to write
    #[arg(long, value_name = "FILE")]
    pub(crate) to: Option<PathBuf>,
}

/// Arguments of `bake`.
#[derive(Group, Debug)]
#[command(after_help = "Examples:\n  gablewright bake boat-hut\n  \
                  gablewright bake my-hut.house.json --tray 430x350 --notebook notebook.json\n  \
                  gablewright bake boat-hut --copies 12 --shopping    the list for a workshop of twelve\n  \
                  gablewright bake boat-hut --ready-by 2026-12-20T15:00 --hours 'Ida: mon-fri 18:00-21:00, sat 9:00-17:00' \
                  --keep\n  \
                  gablewright bake boat-hut --today\n  \
                  gablewright bake boat-hut --done 'mix the dough for walls=35'\n\
                  Every figure that nobody has measured is listed as an assumption; a notebook changes them.")]
pub(crate) struct BakeArgs {
    /// House file, pack or built-in name; several are baked together, and what is kept is kept with the first
    #[arg(required = true, value_name = "HOUSE")]
    pub(crate) houses: Vec<String>,
    #[command(flatten)]
    pub(crate) baker: BakerArgs,
    /// How many are made: one number for every house, or one for each in the order of the houses, such as 4,6
    #[arg(long, value_delimiter = ',', value_name = "NUMBERS")]
    pub(crate) copies: Vec<usize>,
    /// Only this house, whatever the notebook says is baked with it
    #[arg(long)]
    pub(crate) alone: bool,
    /// The house had this title when its bake was kept: the bake goes on under the title that it has now
    #[arg(long, value_name = "TITLE")]
    pub(crate) formerly: Option<String>,
    /// How far houses are taken before somebody else goes on with them
    #[arg(long, value_enum, value_name = "HOW FAR")]
    pub(crate) hand_over: Option<HandOverArg>,
    /// Only the shopping list
    #[arg(long, conflicts_with = "json")]
    pub(crate) shopping: bool,
    /// The shopping list as a table (CSV), with what is at home
    #[arg(long, requires = "shopping")]
    pub(crate) csv: bool,
    /// When the house must stand, such as 2026-12-20T15:00: the days are planned backwards from it
    #[arg(long, value_name = "DATETIME")]
    pub(crate) ready_by: Option<String>,
    /// Plan from this moment on, not from now
    #[arg(long, value_name = "DATETIME")]
    pub(crate) now: Option<String>,
    /// Who helps and when, such as 'Ida: mon-fri 18:00-21:00, sat 9:00-17:00, 2026-12-05 off'. May be given again
    #[arg(long, value_name = "NAME: HOURS")]
    pub(crate) hours: Vec<String>,
    /// How many ovens there are
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u32).range(1..=20))]
    pub(crate) ovens: Option<u32>,
    /// How many trays an oven takes at once
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u32).range(1..=10))]
    pub(crate) shelves: Option<u32>,
    /// How many trays there are
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u32).range(1..=100))]
    pub(crate) tray_count: Option<u32>,
    /// The air is damp, above 60 %: everything dries for longer
    #[arg(long)]
    pub(crate) damp: bool,
    #[command(flatten)]
    pub(crate) work: WorkArgs,
    /// Write the days as a calendar (iCalendar, *.ics)
    #[arg(long, value_name = "FILE")]
    pub(crate) calendar: Option<PathBuf>,
    /// Write the days as a drawn chart (*.svg)
    #[arg(long, value_name = "FILE")]
    pub(crate) chart: Option<PathBuf>,
    /// Write the days as a table (*.csv)
    #[arg(long, value_name = "FILE")]
    pub(crate) table: Option<PathBuf>,
    /// As JSON: masses in g, lengths in mm, times in minutes
    #[arg(long)]
    pub(crate) json: bool,
}

/// Working through the days: everything here is kept in the notebook, with what else is said beside it.
#[derive(Group, Debug, Default)]
pub(crate) struct WorkArgs {
    /// Keep in the notebook what is said here: --ready-by, --hours, which houses, --copies, --hand-over, --ovens, --shelves,
    /// --tray-count, --damp
    #[arg(long)]
    pub(crate) keep: bool,
    /// Only what to do now, what comes next, and what waits
    #[arg(long, conflicts_with_all = ["json", "shopping"])]
    pub(crate) today: bool,
    /// A task is done, and how many minutes it took, such as 'roll and cut ovenful 1=35'; the rest is planned anew
    #[arg(long, value_name = "TASK[=MINUTES]")]
    pub(crate) done: Vec<String>,
    /// A task is begun, and how many minutes have been worked on it
    #[arg(long, value_name = "TASK=MINUTES")]
    pub(crate) begun: Vec<String>,
    /// A task is not done after all
    #[arg(long, value_name = "TASK")]
    pub(crate) not_done: Vec<String>,
    /// A piece broke: what can be done about it, and whether the house still stands in time
    #[arg(long, value_name = "PIECE")]
    pub(crate) broke: Option<String>,
    /// A piece broke and is baked again
    #[arg(long, value_name = "PIECE")]
    pub(crate) bake_again: Option<String>,
    /// A piece broke and is mended
    #[arg(long, value_name = "PIECE")]
    pub(crate) mend: Option<String>,
}

/// What one person bakes with.
#[derive(Group, Debug, Default)]
pub(crate) struct BakerArgs {
    /// A tray you have, by its flat inside. May be given again
    #[arg(long = "tray", value_name = "LENGTHxLENGTH", allow_hyphen_values = true)]
    pub(crate) trays: Vec<String>,
    /// Another notebook than the one that is kept for you: figures, recipes, hours, what is done
    #[arg(long, value_name = "FILE", conflicts_with = "no_notebook")]
    pub(crate) notebook: Option<PathBuf>,
    /// As if nothing had been written down yet: no notebook, and no trays of your kitchen
    #[arg(long)]
    pub(crate) no_notebook: bool,
}

/// How far houses are taken, by its word on the command line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct HandOverArg(pub(crate) HandOver);

impl ValueEnum for HandOverArg {
    fn value_variants<'a>() -> &'a [Self] {
        const ALL: [HandOverArg; HandOver::ALL.len()] = {
            let mut all = [HandOverArg(HandOver::Kits); HandOver::ALL.len()];
            let mut k = 0;
            while k < all.len() {
                all[k] = HandOverArg(HandOver::ALL[k]);
                k += 1;
            }
            all
        };
        &ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        Some(PossibleValue::new(self.0.word()).help(self.0.words()))
    }
}

/// A kind of page by its name on the command line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SectionArg(pub(crate) Section);

impl ValueEnum for SectionArg {
    fn value_variants<'a>() -> &'a [Self] {
        const ALL: [SectionArg; Section::ALL.len()] = {
            let mut all = [SectionArg(Section::Cover); Section::ALL.len()];
            let mut k = 0;
            while k < all.len() {
                all[k] = SectionArg(Section::ALL[k]);
                k += 1;
            }
            all
        };
        &ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        Some(PossibleValue::new(self.0.word()).help(self.0.title()))
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
