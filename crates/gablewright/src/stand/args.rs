use clap::Args as Group;
use std::path::PathBuf;

/// Arguments of `stand`.
#[derive(Group, Debug)]
#[command(after_help = "Examples:\n  gablewright stand boat-hut\n  \
                  gablewright stand my-hut.house.json --humidity 60% --days 14 --board mdf-6\n  \
                  gablewright stand my-hut.house.json --notebook notebook.json --json > stand.json\n\
                  Boards: card-12, mdf-6, mdf-9, plywood-9, mdf-12, mdf-18; the numbers are mm.\n\
                  Figures that nobody has measured are listed with their ranges; a snap test in your notebook replaces them.")]
pub(crate) struct StandArgs {
    /// House file, pack or built-in name
    pub(crate) house: String,
    /// Humidity of the room where it is on show
    #[arg(long, value_name = "SHARE", default_value = "50%", allow_hyphen_values = true)]
    pub(crate) humidity: String,
    /// For how many days
    #[arg(long, value_name = "NUMBER", default_value_t = 7.0, allow_hyphen_values = true)]
    pub(crate) days: f64,
    /// What its base board is [default: mdf-9]
    #[arg(long, value_name = "BOARD")]
    pub(crate) board: Option<String>,
    /// Another notebook than the one that is kept for you: figures, recipes, snap tests
    #[arg(long, value_name = "FILE", conflicts_with = "no_notebook")]
    pub(crate) notebook: Option<PathBuf>,
    /// As if nothing had been written down yet
    #[arg(long)]
    pub(crate) no_notebook: bool,
    /// As JSON: masses in g, lengths in mm, forces in N
    #[arg(long)]
    pub(crate) json: bool,
}
