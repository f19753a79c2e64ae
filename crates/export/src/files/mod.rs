//! A house as files for other programs and machines: drawings of its templates one by one, solids, a scene, tables.

mod dxf;
mod gltf;
mod layer;
mod stl;
mod svg;

use crate::{StoreError, file_name, plain_reason, save, template_drawings};
use crate::{joints_csv, openings_csv, ornaments_csv, pieces_csv};
use gable_drawing::Drawing;
use gable_dress::Dressed;
use gable_measure::Severity;
use gable_mesh::{PieceSolid, door_solid, ornament_solid, pane_solid, solid_of};
use gable_shell::{House, Solved};
use gable_words::tr;
use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Longest name of a file that is made of names of pieces, in characters.
const LONGEST_NAME: usize = 60;
/// Nobody makes a mock-up larger than this many times the house.
const LARGEST_SCALE: f64 = 10.0;

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FileKind {
    /// Every template as SVG.
    Svg,
    /// Every template as DXF of release 12.
    Dxf,
    /// Everything that is cut, as one solid each.
    Stl,
    /// The standing house as a scene.
    Gltf,
    /// Pieces, joints, openings and ornaments as tables.
    Csv,
}

impl FileKind {
    /// Every kind.
    pub const ALL: [Self; 5] = [Self::Svg, Self::Dxf, Self::Stl, Self::Gltf, Self::Csv];

    /// What it is, for people.
    pub fn title(self) -> &'static str {
        match self {
            Self::Svg => "Templates as SVG, for drawing programs",
            Self::Dxf => "Templates as DXF (release 12), for machines that cut",
            Self::Stl => "Every piece as a solid in STL, for machines that print in plastic",
            Self::Gltf => "The standing house in glTF, to turn and look at",
            Self::Csv => "Pieces, joints, openings and ornaments as tables in CSV",
        }
    }
}

/// Which files.
#[derive(Clone, Debug, PartialEq)]
pub struct FileChoice {
    /// Kinds of files.
    pub kinds: Vec<FileKind>,
    /// Size of solids and of the scene as a share of the house, for a mock-up; drawings and tables are always true.
    pub scale: f64,
}

impl Default for FileChoice {
    /// All kinds, in full size.
    fn default() -> Self {
        Self { kinds: FileKind::ALL.to_vec(), scale: 1.0 }
    }
}

/// Files before they are saved.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HouseFiles {
    /// The files, in a fixed order.
    pub files: Vec<HouseFile>,
    /// What is not in them although it is in the house.
    pub notes: Vec<String>,
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
    #[error("{}", tr!(
        "one finding must be put right before files can be written; 'check' lists it"
            | "{n} findings must be put right before files can be written; 'check' lists them" % .0
    ))]
    Blocking(usize),
    /// There is nothing to write.
    #[error("{}", tr!("the house has no pieces; give it a part with walls or a roof"))]
    NoPieces,
    /// No kind is chosen.
    #[error("{}", tr!("no kind of file is chosen; choose at least one"))]
    Nothing,
    /// A scale is no share of a size.
    #[error("{}", tr!("a scale must be more than 0 and no more than 10, such as 50%"))]
    Scale,
    /// A table could not be written.
    #[error("{}", tr!("a table cannot be written: {0}", .0))]
    Table(#[from] csv::Error),
    /// The scene could not be written.
    #[error("{}", tr!("the scene cannot be written: {0}", .0))]
    Scene(#[from] serde_json::Error),
    /// A folder could not be made.
    #[error("{}", tr!("{}: the folder cannot be made: {}", .path.display(), plain_reason(.error)))]
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
/// The same house gives the same bytes.
///
/// # Errors
/// When nothing is chosen, the scale is none, or the house cannot be built or has no pieces.
pub fn house_files(solved: &Solved, house: &House, name: &str, choice: &FileChoice) -> Result<HouseFiles, FilesError> {
    let blocking = solved.findings.iter().filter(|f| f.severity == Severity::Blocking).count();
    if blocking > 0 {
        return Err(FilesError::Blocking(blocking));
    }
    if solved.pieces.is_empty() {
        return Err(FilesError::NoPieces);
    }
    if choice.kinds.is_empty() {
        return Err(FilesError::Nothing);
    }
    if !(choice.scale > 0.0 && choice.scale <= LARGEST_SCALE) {
        return Err(FilesError::Scale);
    }
    let dressed = gable_dress::dress(house, solved);
    let mut making = Making {
        about: (solved, &dressed, house),
        scale: choice.scale,
        names: Names { start: file_name(name), used: BTreeSet::new() },
        made: HouseFiles::default(),
    };
    for kind in FileKind::ALL.into_iter().filter(|kind| choice.kinds.contains(kind)) {
        match kind {
            FileKind::Svg => making.templates("svg", svg::layered),
            FileKind::Dxf => making.templates("dxf", dxf::dxf),
            FileKind::Stl => making.solids(),
            FileKind::Gltf => making.scene()?,
            FileKind::Csv => making.tables()?,
        }
    }
    Ok(making.made)
}

/// Files in the making.
struct Making<'a> {
    about: (&'a Solved, &'a Dressed, &'a House),
    scale: f64,
    names: Names,
    made: HouseFiles,
}

impl Making<'_> {
    fn file(&mut self, path: PathBuf, bytes: Vec<u8>) {
        self.made.files.push(HouseFile { path, bytes });
    }

    fn templates(&mut self, ending: &str, write: impl Fn(&Drawing, &str) -> String) {
        let (solved, dressed, _) = self.about;
        for template in template_drawings(solved, dressed) {
            let title = format!("{}: {}, {}", template.number, template.name, template.count);
            let path = self.names.of(ending, &format!("{:02} {}", template.number, template.name));
            self.file(path, write(&template.drawing, &title).into_bytes());
        }
    }

    fn solids(&mut self) {
        let (solved, dressed, _) = self.about;
        let pieces = solved.pieces.iter().map(|p| (p.id.0.as_str(), p.name.as_str(), solid_of(p)));
        let panes = dressed.panes.iter().map(|p| (p.id.as_str(), p.name.as_str(), pane_solid(p)));
        let doors = dressed.doors.iter().map(|d| (d.id.as_str(), d.name.as_str(), door_solid(d)));
        let stuck = dressed.ornaments.iter().chain(&dressed.extras);
        let stuck = stuck.map(|o| (o.id.as_str(), o.name.as_str(), ornament_solid(o)));
        let all: Vec<(&str, &str, PieceSolid)> = pieces.chain(panes).chain(doors).chain(stuck).collect();
        for (id, name, solid) in all {
            if !solid.left_out.is_empty() {
                let openings: Vec<&str> = solid.left_out.iter().map(|o| o.0.as_str()).collect();
                let openings = openings.join(", ");
                self.made
                    .notes
                    .push(format!("{name}: not cut in the solid, as it meets another opening or an edge: {openings}"));
            }
            let path = self.names.of("stl", id);
            self.file(path, stl::stl(&solid, name, self.scale));
        }
    }

    fn scene(&mut self) -> Result<(), FilesError> {
        let (solved, dressed, house) = self.about;
        let bytes = gltf::glb(solved, dressed, house, self.scale)?;
        self.file(PathBuf::from(format!("{}.glb", self.names.start)), bytes);
        Ok(())
    }

    fn tables(&mut self) -> Result<(), FilesError> {
        let (solved, dressed, _) = self.about;
        let tables = [
            ("pieces", pieces_csv(solved)?),
            ("joints", joints_csv(solved)?),
            ("openings", openings_csv(solved, dressed)?),
            ("ornaments", ornaments_csv(solved, dressed)?),
        ];
        for (what, text) in tables {
            let path = self.names.of("csv", what);
            self.file(path, text.into_bytes());
        }
        Ok(())
    }
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
        let all = FileChoice::default();
        let made = || house_files(&solved, &house, "Hut", &all).unwrap();
        let files = made();
        // Three templates twice, six solids, one scene, four tables.
        assert!(files == made() && files.files.len() == 17 && files.notes.is_empty(), "{:?}", files.notes);
        let wrong = |choice: &FileChoice| house_files(&solved, &house, "Hut", choice).unwrap_err().to_string();
        assert!(wrong(&FileChoice { kinds: vec![], scale: 1.0 }).contains("no kind of file is chosen"));
        for scale in [0.0, -1.0, f64::NAN, 11.0] {
            assert!(wrong(&FileChoice { scale, ..all.clone() }).contains("such as 50%"));
        }
        solved.pieces.clear();
        assert!(matches!(house_files(&solved, &house, "Hut", &all), Err(FilesError::NoPieces)));
    }
}
