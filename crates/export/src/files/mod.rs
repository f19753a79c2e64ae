//! A house as files for other programs and machines: drawings of its templates one by one.

mod dxf;
mod layer;
mod svg;

use crate::{StoreError, file_name, plain_reason, save, template_drawings};
use gable_measure::Severity;
use gable_shell::{House, Solved};
use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Longest name of a file that is made of names of pieces, in characters.
const LONGEST_NAME: usize = 60;

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FileKind {
    /// Every template as SVG.
    Svg,
    /// Every template as DXF of release 12.
    Dxf,
}

impl FileKind {
    /// Every kind.
    pub const ALL: [Self; 2] = [Self::Svg, Self::Dxf];

    /// What it is, for people.
    pub fn title(self) -> &'static str {
        match self {
            Self::Svg => "Templates as SVG, for drawing programs",
            Self::Dxf => "Templates as DXF (release 12), for machines that cut",
        }
    }
}

/// A file before it is saved.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseFile {
    /// Where it goes, from the folder that is chosen.
    pub path: PathBuf,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// Why there are no files.
#[derive(Debug, Error)]
pub enum FilesError {
    /// The checks found what cannot be built.
    #[error("{0} of the findings must be put right before files can be written; 'check' lists them")]
    Blocking(usize),
    /// There is nothing to write.
    #[error("the house has no pieces; give it a part with walls or a roof")]
    NoPieces,
    /// No kind is chosen.
    #[error("no kind of file is chosen; choose at least one")]
    Nothing,
    /// A folder could not be made.
    #[error("{}: the folder cannot be made: {}", .path.display(), plain_reason(.error))]
    Folder {
        /// The folder.
        path: PathBuf,
        /// What the system said.
        error: io::Error,
    },
    /// A file could not be saved.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// A house as files of some kinds, in a fixed order. `name` begins the names of the files.
///
/// Drawings are at true scale. The same house gives the same bytes.
///
/// # Errors
/// When nothing is chosen, or the house cannot be built or has no pieces.
pub fn house_files(
    solved: &Solved,
    house: &House,
    name: &str,
    kinds: &[FileKind],
) -> Result<Vec<HouseFile>, FilesError> {
    let blocking = solved.findings.iter().filter(|f| f.severity == Severity::Blocking).count();
    if blocking > 0 {
        return Err(FilesError::Blocking(blocking));
    }
    if solved.pieces.is_empty() {
        return Err(FilesError::NoPieces);
    }
    if kinds.is_empty() {
        return Err(FilesError::Nothing);
    }
    let dressed = gable_dress::dress(house, solved);
    let mut names = Names { start: file_name(name), used: BTreeSet::new() };
    let mut files = Vec::new();
    for kind in FileKind::ALL.into_iter().filter(|kind| kinds.contains(kind)) {
        match kind {
            FileKind::Svg | FileKind::Dxf => {
                for template in template_drawings(solved, &dressed) {
                    let title = format!("{}: {}, {}", template.number, template.name, template.count);
                    let (ending, text) = match kind {
                        FileKind::Svg => ("svg", svg::layered(&template.drawing, &title)),
                        _ => ("dxf", dxf::dxf(&template.drawing, &title)),
                    };
                    let what = format!("{:02} {}", template.number, template.name);
                    files.push(HouseFile { path: names.of(ending, &what), bytes: text.into_bytes() });
                }
            }
        }
    }
    Ok(files)
}

/// Saves files under a folder, which is made if it is missing, and gives the whole names.
///
/// # Errors
/// When a folder cannot be made or a file not saved; what was saved before stays.
pub fn save_files(folder: &Path, files: &[HouseFile]) -> Result<Vec<PathBuf>, FilesError> {
    let mut saved = Vec::new();
    for file in files {
        let path = folder.join(&file.path);
        if let Some(parent) = path.parent() {
            std::fs::create_dir_all(parent).map_err(|error| FilesError::Folder { path: parent.into(), error })?;
        }
        save(&path, &file.bytes)?;
        saved.push(path);
    }
    Ok(saved)
}

/// Names of files, each once.
struct Names {
    start: String,
    used: BTreeSet<PathBuf>,
}

impl Names {
    /// The name of a file about something, in the folder of its ending: `svg/boat-hut-01-front-wall.svg`.
    fn of(&mut self, ending: &str, what: &str) -> PathBuf {
        let mut short = String::new();
        for word in file_name(what).split('-') {
            if !short.is_empty() && short.chars().count() + word.chars().count() >= LONGEST_NAME {
                break;
            }
            short = if short.is_empty() { word.to_owned() } else { format!("{short}-{word}") };
        }
        let named = |more: &str| Path::new(ending).join(format!("{}-{short}{more}.{ending}", self.start));
        let first = named("");
        let path = (2..).map(|k| named(&format!("-{k}"))).find(|path| !self.used.contains(path));
        let path = if self.used.contains(&first) { path.unwrap_or(first) } else { first };
        self.used.insert(path.clone());
        path
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pack::sample::gable_box;

    #[test]
    fn no_two_files_have_one_name_and_long_ones_end_at_a_word() {
        let mut names = Names { start: "hut".into(), used: BTreeSet::new() };
        let mut said = |what: &str| names.of("svg", what).to_string_lossy().replace('\\', "/");
        assert_eq!(said("01 Hut: front wall"), "svg/hut-01-hut-front-wall.svg");
        assert_eq!(said("01 Hut front wall"), "svg/hut-01-hut-front-wall-2.svg");
        let long = said(&"wall ".repeat(40));
        assert!(long.len() < LONGEST_NAME + 16 && long.ends_with("-wall.svg"), "{long}");
    }

    #[test]
    fn the_same_house_gives_the_same_bytes_and_what_is_not_there_is_said() {
        let (house, mut solved) = gable_box(1.0);
        let made = || house_files(&solved, &house, "Hut", &FileKind::ALL).unwrap();
        let files = made();
        assert!(files == made() && files.len() == 6);
        assert!(matches!(house_files(&solved, &house, "Hut", &[]), Err(FilesError::Nothing)));
        solved.pieces.clear();
        assert!(matches!(house_files(&solved, &house, "Hut", &FileKind::ALL), Err(FilesError::NoPieces)));
    }
}
