use super::*;
use gable_drawing::{Anchor, Drawing, Fill, LineRole, Shade, Stroke, Text};
use gable_plane::{Contour, P2};
use lopdf::Object;

pub(crate) fn sample() -> Vec<Page> {
    let mut drawing = Drawing::new(210.0, 297.0);
    let door = Contour::round_headed(P2::new(50.0, 50.0), P2::new(90.0, 120.0)).unwrap();
    drawing.push(Fill { layer: Layer::Sheet, shade: Shade::Tint, rings: vec![door.flatten(0.02)] });
    drawing.push(Stroke::contour(Layer::Cut, LineRole::Edge, &door));
    drawing.line(Layer::Sheet, LineRole::Thin, P2::new(20.0, 20.0), P2::new(120.0, 20.0));
    drawing.push(Text::note(P2::new(60.0, 60.0), 3.5, Anchor::Middle, "Pâtissière 8½\" at 33.7°"));
    let page = Page { drawing, label: "cover".into(), bookmark: Some("Cover – Übersicht".into()) };
    vec![page.clone(), Page { label: "1".into(), bookmark: None, ..page }]
}

pub(crate) fn info() -> DocInfo {
    DocInfo { title: "Bob & Ann's <House>".into(), author: "Søren".into(), ..DocInfo::default() }
}

#[test]
fn the_same_pages_give_the_same_bytes_again_and_again() {
    let first = write(&sample(), &info()).unwrap();
    assert_eq!(first, write(&sample(), &info()).unwrap());
    assert!(first.starts_with(b"%PDF-1.7"));
}

#[test]
fn the_catalogue_asks_for_no_scaling_and_names_the_pages() {
    let bytes = write(&sample(), &info()).unwrap();
    let read = lopdf::Document::load_mem(&bytes).unwrap();
    let catalog = read.catalog().unwrap();
    let wishes = catalog.get(b"ViewerPreferences").and_then(Object::as_dict).unwrap();
    assert_eq!(wishes.get(b"PrintScaling").and_then(Object::as_name).unwrap(), b"None");
    assert_eq!(catalog.get(b"PageMode").and_then(Object::as_name).unwrap(), b"UseOutlines");
    assert!(catalog.get(b"PageLabels").is_ok() && catalog.get(b"Metadata").is_ok());
    assert_eq!(read.get_pages().len(), 2);
}

#[test]
fn a_character_without_a_glyph_stops_the_export_and_is_named() {
    let mut pages = sample();
    pages[1].drawing.push(Text::note(P2::new(10.0, 10.0), 2.5, Anchor::Start, "Villa 餅"));
    let error = write(&pages, &info()).unwrap_err().to_string();
    assert_eq!(error, "page 2: '餅' (U+9905) in 'Villa 餅' is in none of the fonts; write it another way");
}

#[test]
fn sizes_that_are_no_numbers_and_empty_documents_are_refused() {
    let mut pages = sample();
    pages[0].drawing.line(Layer::Cut, LineRole::Edge, P2::origin(), P2::new(f64::NAN, 1.0));
    assert!(matches!(write(&pages, &info()), Err(PdfError::NotFinite { page: 1 })));
    assert!(matches!(write(&[], &info()), Err(PdfError::NoPages)));
}
