//! PDF 1.7 at true scale. printpdf writes pages and fonts; `mend` puts right what it cannot say or says wrongly.

mod content;
mod enclosure;
mod mend;
mod xmp;

pub use enclosure::EnclosureError;
pub(crate) use enclosure::take as take_enclosure;

use crate::{DocInfo, Page, fonts};
use gable_drawing::Layer;
use gable_words::tr;
use printpdf::{
    FontId, Layer as PdfLayer, LayerIntent, LayerInternalId, LayerSubtype, PageAnnotId, PageAnnotation, PdfDocument,
    PdfFont, PdfPage, PdfSaveOptions, Pt, Rect,
};
use thiserror::Error;

/// Why a document could not be written.
#[derive(Debug, Error)]
pub enum PdfError {
    /// A character has no glyph in the type of the program.
    #[error("{}", tr!("page {page}: '{character}' (U+{code:04X}) in '{text}' is in none of the fonts; write it another way", code = u32::from(*.character)))]
    MissingGlyph {
        /// Number of the page, from 1.
        page: usize,
        /// The character.
        character: char,
        /// The text it stands in.
        text: String,
    },
    /// A size or position is not a number.
    #[error("{}", tr!("page {page}: a size or position is not a finite number; please report this house"))]
    NotFinite {
        /// Number of the page, from 1.
        page: usize,
    },
    /// There is nothing to print.
    #[error("{}", tr!("there is no page to write"))]
    NoPages,
    /// The type of the program cannot be read.
    #[error("{}", tr!("the fonts inside the program are damaged; install it again"))]
    Fonts,
    /// The library that writes the file failed.
    #[error("{}", tr!("the PDF could not be put together: {0}", .0))]
    Library(#[from] lopdf::Error),
    /// The bytes could not be gathered.
    #[error("{}", tr!("the PDF could not be put together: {0}", .0))]
    Io(#[from] std::io::Error),
}

/// Points (1/72 in) of so many mm. f32 keeps 297 mm to 0.00003 mm.
fn pt(mm: f64) -> Pt {
    Pt((mm * 72.0 / 25.4) as f32)
}

/// The layers in the order a viewer lists them: plain name, and which of ours it shows.
const LAYERS: [(Layer, &str); 5] = [
    (Layer::Cut, "Cut lines"),
    (Layer::Guide, "Pressed and piped lines"),
    (Layer::Notes, "Names and letters"),
    (Layer::Sheet, "Bars, marks and stamp"),
    (Layer::Picture, "Pictures"),
];

fn layer_id(layer: Layer) -> LayerInternalId {
    let place = LAYERS.iter().position(|(l, _)| *l == layer).unwrap_or(0);
    LayerInternalId(format!("L{place:02}"))
}

fn font_id(bold: bool) -> FontId {
    FontId(if bold { "FBold" } else { "FRegular" }.into())
}

/// Writes pages as a PDF at true scale. The same pages give the same bytes.
///
/// Fails, naming the character and its text, if anything has no glyph.
pub fn write(pages: &[Page], info: &DocInfo) -> Result<Vec<u8>, PdfError> {
    check(pages)?;
    let mut document = PdfDocument::new(&info.title);
    add_resources(&mut document)?;
    for (k, page) in pages.iter().enumerate() {
        let (w, h) = (page.drawing.width, page.drawing.height);
        let sheet = || Rect::from_wh(pt(w), pt(h));
        let ops = content::operations(&page.drawing);
        document.pages.push(PdfPage { media_box: sheet(), trim_box: sheet(), crop_box: sheet(), ops });
        if let Some(name) = &page.bookmark {
            let entry = PageAnnotation { name: name.clone(), page: k + 1 };
            document.bookmarks.map.insert(PageAnnotId(format!("B{k:05}")), entry);
        }
    }
    describe(&mut document, info);
    let mut raw = document.to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new());
    mend::mend(&mut raw, pages, info)?;
    let mut bytes = Vec::new();
    raw.save_to(&mut bytes)?;
    Ok(bytes)
}

fn check(pages: &[Page]) -> Result<(), PdfError> {
    if pages.is_empty() {
        return Err(PdfError::NoPages);
    }
    for (k, page) in pages.iter().enumerate() {
        if let Some((text, character)) = fonts::unprintable(&page.drawing.items).next() {
            return Err(PdfError::MissingGlyph { page: k + 1, character, text: text.text.clone() });
        }
        if !content::is_finite(&page.drawing) {
            return Err(PdfError::NotFinite { page: k + 1 });
        }
    }
    Ok(())
}

fn add_resources(document: &mut PdfDocument) -> Result<(), PdfError> {
    for bold in [false, true] {
        let font = fonts::face(bold).ok_or(PdfError::Fonts)?;
        document.resources.fonts.map.insert(font_id(bold), PdfFont::new(font.clone()));
    }
    for (layer, name) in LAYERS {
        let shown = PdfLayer {
            name: name.into(),
            creator: "gablewright".into(),
            intent: LayerIntent::View,
            usage: LayerSubtype::Artwork,
        };
        document.resources.layers.map.insert(layer_id(layer), shown);
    }
    Ok(())
}

fn describe(document: &mut PdfDocument, info: &DocInfo) {
    let about = &mut document.metadata.info;
    about.document_title.clone_from(&info.title);
    about.author.clone_from(&info.author);
    about.subject.clone_from(&info.subject);
    about.keywords.clone_from(&info.keywords);
    about.creator = "Gablewright".into();
    about.producer = format!("Gablewright {}", env!("CARGO_PKG_VERSION"));
}

#[cfg(test)]
pub(crate) mod tests;
