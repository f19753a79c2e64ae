//! What printpdf 0.12.8 cannot say or says wrongly, put right in the finished object tree:
//! print scaling, page labels, language, layer names, boxes, version, information and metadata, and stable identifiers.

use super::{PdfError, enclosure, xmp};
use crate::{DocInfo, Page};
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, StringFormat, dictionary};
use rayon::prelude::*;

pub(super) fn mend(document: &mut Document, pages: &[Page], info: &DocInfo) -> Result<(), PdfError> {
    document.version = "1.7".into();
    mend_layers(document)?;
    mend_pages(document, pages)?;
    mend_information(document);
    let packet = xmp::packet(info).into_bytes();
    let metadata = dictionary! { "Type" => name("Metadata"), "Subtype" => name("XML") };
    let metadata = document.add_object(Stream::new(metadata, packet).with_compression(false));
    let catalog = document.catalog_mut()?;
    catalog.set("Metadata", metadata);
    catalog.set("Lang", Object::string_literal("en-GB"));
    catalog.set("PageLayout", name("SinglePage"));
    catalog.set("PageMode", name(if pages.iter().any(|p| p.bookmark.is_some()) { "UseOutlines" } else { "UseNone" }));
    catalog.set("PageLabels", page_labels(pages));
    catalog.set(
        "ViewerPreferences",
        dictionary! {
            "PrintScaling" => name("None"),
            "PickTrayByPDFSize" => true,
            "Duplex" => name("Simplex"),
            "DisplayDocTitle" => true,
        },
    );
    if let Some(file) = &info.enclosure {
        enclosure::add(document, file)?;
    }
    document.prune_objects();
    document.renumber_objects();
    compress(document);
    let id = identifier(document, info);
    document.trailer.set("ID", vec![id.clone(), id]);
    Ok(())
}

/// Streams are packed side by side; most of the time that a large pack takes to write is this.
fn compress(document: &mut Document) {
    document.objects.values_mut().collect::<Vec<_>>().into_par_iter().for_each(|object| {
        if let Object::Stream(stream) = object
            && stream.allows_compression
        {
            // What cannot be packed stays as it is, which is just as good a PDF.
            let _ = stream.compress();
        }
    });
}

pub(super) fn name(text: &str) -> Object {
    Object::Name(text.as_bytes().to_vec())
}

/// A text string as UTF-16 with its mark, which every version of PDF reads.
pub(super) fn text(value: &str) -> Object {
    let units = std::iter::once(0xFEFF).chain(value.encode_utf16());
    Object::String(units.flat_map(u16::to_be_bytes).collect(), StringFormat::Hexadecimal)
}

/// Layer names as text strings, and the usage entry, which points to an object of the wrong type, dropped.
fn mend_layers(document: &mut Document) -> Result<(), PdfError> {
    let layers: Vec<ObjectId> = {
        let properties = document.catalog()?.get(b"OCProperties").and_then(Object::as_dict)?;
        let groups = properties.get(b"OCGs").and_then(Object::as_array)?;
        groups.iter().filter_map(|o| o.as_reference().ok()).collect()
    };
    for id in layers {
        let layer = document.get_object_mut(id).and_then(Object::as_dict_mut)?;
        let plain = layer.get(b"Name").and_then(Object::as_str).map(|s| String::from_utf8_lossy(s).into_owned())?;
        layer.set("Name", text(&plain));
        layer.set("Intent", name("View"));
        layer.remove(b"Usage");
    }
    let properties = document.catalog_mut()?.get_mut(b"OCProperties").and_then(Object::as_dict_mut)?;
    if let Ok(config) = properties.get_mut(b"D").and_then(Object::as_dict_mut) {
        config.set("Name", text("Layers"));
    }
    Ok(())
}

/// Every box of a page is the whole page.
fn mend_pages(document: &mut Document, pages: &[Page]) -> Result<(), PdfError> {
    let ids: Vec<ObjectId> = document.get_pages().into_values().collect();
    for (id, page) in ids.into_iter().zip(pages) {
        let corner = [page.drawing.width, page.drawing.height].map(|mm| Object::Real(super::pt(mm).0));
        let sheet: Vec<Object> = [Object::Integer(0), Object::Integer(0)].into_iter().chain(corner).collect();
        let entry = document.get_object_mut(id).and_then(Object::as_dict_mut)?;
        for key in ["MediaBox", "CropBox", "BleedBox", "TrimBox", "ArtBox"] {
            entry.set(key, sheet.clone());
        }
        if entry.get(b"Annots").and_then(Object::as_array).is_ok_and(Vec::is_empty) {
            entry.remove(b"Annots");
        }
    }
    Ok(())
}

/// Drops what is false: the claim to be PDF/X, dates that nobody gave, an empty identifier.
fn mend_information(document: &mut Document) {
    let Ok(id) = document.trailer.get(b"Info").and_then(Object::as_reference) else { return };
    let Ok(entry) = document.get_object_mut(id).and_then(Object::as_dict_mut) else { return };
    for key in ["GTS_PDFXVersion", "CreationDate", "ModDate", "Identifier", "Trapped"] {
        entry.remove(key.as_bytes());
    }
}

fn page_labels(pages: &[Page]) -> Dictionary {
    let mut numbers = Vec::new();
    for (k, page) in pages.iter().enumerate() {
        numbers.push(Object::Integer(k as i64));
        numbers.push(dictionary! { "P" => text(&page.label) }.into());
    }
    dictionary! { "Nums" => numbers }
}

/// 16 bytes that depend on what the document holds and on nothing else (FNV-1a, once with each basis).
fn identifier(document: &Document, info: &DocInfo) -> Object {
    let mut halves = [0xcbf2_9ce4_8422_2325_u64, 0x6c62_272e_07bb_0142];
    let mut eat = |bytes: &[u8]| {
        for byte in bytes {
            for half in &mut halves {
                *half = (*half ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
            }
        }
    };
    eat(info.title.as_bytes());
    for (number, object) in &document.objects {
        eat(&number.0.to_be_bytes());
        if let Object::Stream(stream) = object {
            eat(&stream.content);
        }
    }
    let bytes = halves.iter().flat_map(|h| h.to_be_bytes()).collect();
    Object::String(bytes, StringFormat::Hexadecimal)
}
