//! Writers: PDF pages at true scale, the pattern pack, the house as SVG, DXF, STL, glTF, JSON and CSV, and safe saving; and outlines out of files of SVG.
//!
//! Everything is read from `Solved` and from `Drawing`; no geometry is worked out a second time here.

mod complete;
mod contract;
mod files;
mod fonts;
mod kept;
mod outline;
mod pack;
mod page;
mod paper;
mod pdf;
mod png;
mod printer;
mod sizing;
mod spread;
mod store;
mod svg;
mod xml;

pub use complete::{Complete, Together, others};
pub use contract::{joints_csv, openings_csv, ornaments_csv, pieces_csv, pieces_json};
pub use files::{FileChoice, FileKind, FilesError, HouseFile, HouseFiles, house_files, save_files};
pub use fonts::{BOLD, CAP_HEIGHT, FAMILY, REGULAR, missing_glyph, text_width};
pub use kept::{keep, notebook_file, read_notebook, usual_kitchen_file};
pub use outline::{OutlineError, outline_of_svg};
pub use pack::{
    Baker, MockUpSize, PackError, PackOptions, Section, Sections, TemplateDrawing, board_size, calibration_bars,
    house_for, pack, pack_for, pack_pdf, pack_pdf_for, stage_words, template_drawings,
};
pub use page::{DocInfo, Enclosure, Page};
pub use paper::{Margins, Paper, PaperError};
pub use pdf::{EnclosureError, PdfError, write as write_pdf};
pub use png::{Pixels, PngError, pack as pack_png, pixels, pixels_of_svg, write as write_png};
pub use printer::{Printer, Purpose, TooFarOff};
pub use sizing::{Size, SizeError, Wanted, flat, percent, smallest_sound};
pub use spread::{Spread, SpreadError, Way};
pub use store::{StoreError, file_name, plain_reason, read_house_text, read_text, save};
pub use svg::write as write_svg;
