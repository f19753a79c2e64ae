//! A file that rides inside a PDF (ISO 32000-1, 7.11.4: embedded file streams; 7.7.4: the tree of their names).

use super::mend::{name, text};
use crate::Enclosure;
use gable_words::tr;
use lopdf::{Dictionary, Document, LoadOptions, Object, Stream, dictionary};
use thiserror::Error;

/// Trees of names deeper than this are not written by anybody.
const DEEPEST: usize = 16;

/// Why no file could be taken out of a PDF.
#[derive(Debug, Error)]
pub enum EnclosureError {
    /// It is no PDF, or a damaged one.
    #[error("{}", tr!("it cannot be read as a PDF ({0}); perhaps it was not loaded down completely", .0))]
    Damaged(String),
    /// Nobody but who knows the password can read it.
    #[error("{}", tr!("it is locked with a password; save it without one first"))]
    Locked,
    /// There is none with such an ending in it.
    #[error("{}", tr!("there is no house inside this PDF; only packs made with Gablewright carry one, as an attachment"))]
    Missing,
    /// It is too long to be what it should be.
    #[error("{}", tr!("what it carries is longer than a house file may be"))]
    TooLong,
    /// It is not text.
    #[error("{}", tr!("what it carries is not text"))]
    NotText,
}

/// Adds a file to the document: named in the catalogue, so that every viewer lists it as an attachment.
pub(super) fn add(document: &mut Document, enclosure: &Enclosure) -> Result<(), lopdf::Error> {
    let bytes = enclosure.text.as_bytes();
    let about = dictionary! {
        "Type" => name("EmbeddedFile"),
        "Subtype" => name("application/json"),
        "Params" => dictionary! { "Size" => bytes.len() as i64 },
    };
    let stream = document.add_object(Stream::new(about, bytes.to_vec()));
    let specification = document.add_object(dictionary! {
        "Type" => name("Filespec"),
        "F" => Object::string_literal(plain(&enclosure.name)),
        "UF" => text(&enclosure.name),
        "Desc" => text(&enclosure.about),
        "AFRelationship" => name("Source"),
        "EF" => dictionary! { "F" => stream, "UF" => stream },
    });
    let files = dictionary! { "Names" => vec![text(&enclosure.name), specification.into()] };
    let catalog = document.catalog_mut()?;
    catalog.set("Names", dictionary! { "EmbeddedFiles" => files });
    catalog.set("AF", vec![specification.into()]);
    Ok(())
}

/// A name that viewers without Unicode can show.
fn plain(name: &str) -> String {
    name.chars().map(|c| if c.is_ascii_graphic() && !matches!(c, '(' | ')' | '\\') { c } else { '_' }).collect()
}

/// The text of the first file in a PDF whose name ends in `ending`, of at most `longest` bytes.
pub(crate) fn take(pdf: &[u8], ending: &str, longest: usize) -> Result<String, EnclosureError> {
    let options = LoadOptions { max_decompressed_size: Some(longest.saturating_mul(8)), ..LoadOptions::default() };
    let document = Document::load_mem_with_options(pdf, options).map_err(|e| EnclosureError::Damaged(e.to_string()))?;
    if document.is_encrypted() {
        return Err(EnclosureError::Locked);
    }
    let names = document.catalog().and_then(|c| c.get(b"Names"));
    let names = names.ok().and_then(|o| dictionary_of(&document, o));
    let root = names.and_then(|d| d.get(b"EmbeddedFiles").ok()).and_then(|o| dictionary_of(&document, o));
    let mut found = Vec::new();
    gather(&document, root.ok_or(EnclosureError::Missing)?, DEEPEST, &mut found);
    let wanted = |specification: &&&Dictionary| file_name(specification).is_some_and(|n| n.ends_with(ending));
    let specification = found.iter().find(wanted).ok_or(EnclosureError::Missing)?;
    let file = specification.get(b"EF").ok().and_then(|o| dictionary_of(&document, o));
    let file = file.and_then(|d| d.get(b"UF").or_else(|_| d.get(b"F")).ok());
    let file = file.and_then(|o| document.dereference(o).ok()).and_then(|(_, o)| o.as_stream().ok());
    let bytes = file.ok_or(EnclosureError::Missing)?.get_plain_content_with_limit(longest).map_err(|e| match e {
        lopdf::Error::Decompress(lopdf::DecompressError::MemoryLimitExceeded { .. }) => EnclosureError::TooLong,
        other => EnclosureError::Damaged(other.to_string()),
    })?;
    String::from_utf8(bytes).map_err(|_| EnclosureError::NotText)
}

fn dictionary_of<'a>(document: &'a Document, object: &'a Object) -> Option<&'a Dictionary> {
    document.dereference(object).ok()?.1.as_dict().ok()
}

/// The file specifications of a tree of names, in its order.
fn gather<'a>(document: &'a Document, node: &'a Dictionary, depth: usize, found: &mut Vec<&'a Dictionary>) {
    let list = |key: &[u8]| node.get(key).ok().and_then(|o| document.dereference(o).ok()?.1.as_array().ok());
    for pair in list(b"Names").map_or(&[][..], Vec::as_slice).chunks_exact(2) {
        found.extend(dictionary_of(document, &pair[1]));
    }
    if depth > 0 {
        for kid in list(b"Kids").map_or(&[][..], Vec::as_slice) {
            if let Some(kid) = dictionary_of(document, kid) {
                gather(document, kid, depth - 1, found);
            }
        }
    }
}

fn file_name(specification: &Dictionary) -> Option<String> {
    let entry = specification.get(b"UF").or_else(|_| specification.get(b"F")).ok()?;
    lopdf::decode_text_string(entry).ok()
}

#[cfg(test)]
mod tests {
    use super::super::tests::{info, sample};
    use super::*;
    use crate::{DocInfo, write_pdf};

    fn with(text: &str) -> Vec<u8> {
        let name = "Łódź (1).house.json".to_owned();
        let enclosure = Some(Enclosure { name, about: "the house".into(), text: text.into() });
        write_pdf(&sample(), &DocInfo { enclosure, ..info() }).unwrap()
    }

    #[test]
    fn what_rides_in_a_pdf_comes_out_as_it_was() {
        let text = "{ \"title\": \"Pêcherie 8½\" }\n".repeat(500);
        assert_eq!(take(&with(&text), ".house.json", text.len()).unwrap(), text);
    }

    #[test]
    fn what_cannot_be_taken_out_says_why() {
        let long = with(&"x".repeat(5000));
        assert!(matches!(take(&long, ".house.json", 4999), Err(EnclosureError::TooLong)));
        assert!(matches!(take(&long, ".csv", 9999), Err(EnclosureError::Missing)));
        let without = write_pdf(&sample(), &info()).unwrap();
        assert!(matches!(take(&without, ".house.json", 9999), Err(EnclosureError::Missing)));
        for damaged in [&b""[..], b"%PDF-1.7", &long[..long.len() / 2]] {
            assert!(matches!(take(damaged, ".house.json", 9999), Err(EnclosureError::Damaged(_))));
        }
    }

    #[test]
    fn damaged_files_never_panic() {
        let whole = with("{}");
        let mut random = fastrand::Rng::with_seed(7);
        for _ in 0..300 {
            let mut bytes = whole.clone();
            for _ in 0..random.usize(1..40) {
                let at = random.usize(..bytes.len());
                bytes[at] = random.u8(..);
            }
            bytes.truncate(random.usize(..=whole.len()));
            let _ = take(&bytes, ".house.json", 9999);
        }
    }
}
