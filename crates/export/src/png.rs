use crate::{BOLD, FAMILY, REGULAR, svg};
use gable_drawing::Drawing;
use gable_words::tr;
use resvg::{tiny_skia, usvg};
use thiserror::Error;

/// Most pixels a picture may have: what 400 MB of memory hold.
const MOST_PIXELS: f64 = 1e8;

/// Why a picture could not be made.
#[derive(Debug, Error)]
pub enum PngError {
    /// It would have no pixels, or too many.
    #[error("{}", tr!("a picture {wide} pixels wide and {high} high cannot be made: choose a width from 1 to {most} pixels"))]
    Size {
        /// Pixels from left to right.
        wide: u32,
        /// Pixels from top to bottom.
        high: u32,
        /// Widest picture of these proportions.
        most: u32,
    },
    /// The renderer refused the drawing.
    #[error("{}", tr!("the picture could not be drawn: {0}", .0))]
    Drawing(#[from] usvg::Error),
    /// The picture could not be packed.
    #[error("{}", tr!("the picture could not be packed as PNG: {0}", .0))]
    Packing(String),
}

/// A drawing as PNG on a white ground, `pixels_wide` wide and as high as its proportions ask.
///
/// Text is set in our own face whatever the machine has.
pub fn write(drawing: &Drawing, pixels_wide: u32) -> Result<Vec<u8>, PngError> {
    rendered(drawing, pixels_wide)?.encode_png().map_err(|error| PngError::Packing(error.to_string()))
}

/// A picture in pixels.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixels {
    /// From left to right.
    pub width: u32,
    /// From top to bottom.
    pub height: u32,
    /// Four bytes each, row by row from the top; red, green, blue, and how opaque.
    pub rgba: Vec<u8>,
}

/// A drawing in pixels on a white ground, as [`write`] packs it.
pub fn pixels(drawing: &Drawing, pixels_wide: u32) -> Result<Pixels, PngError> {
    let map = rendered(drawing, pixels_wide)?;
    Ok(Pixels { width: map.width(), height: map.height(), rgba: map.take() })
}

/// A text of SVG in pixels, with no ground behind it; `pixels_wide` wide and as high as its proportions ask.
pub fn pixels_of_svg(text: &str, pixels_wide: u32) -> Result<Pixels, PngError> {
    let map = laid_on(tiny_skia::Color::TRANSPARENT, text, pixels_wide)?;
    let (width, height) = (map.width(), map.height());
    Ok(Pixels { width, height, rgba: map.take_demultiplied() })
}

/// Pixels as PNG. What is seen through is laid on nothing: every pixel counts as opaque.
///
/// # Errors
/// When there are not as many pixels as width and height say, or none.
pub fn pack(pixels: Pixels) -> Result<Vec<u8>, PngError> {
    let Pixels { width, height, mut rgba } = pixels;
    rgba.chunks_exact_mut(4).for_each(|pixel| pixel[3] = u8::MAX);
    let size = tiny_skia::IntSize::from_wh(width, height);
    let map = size.and_then(|size| tiny_skia::Pixmap::from_vec(rgba, size));
    let refused = || PngError::Packing(format!("it does not have {width} × {height} pixels"));
    map.ok_or_else(refused)?.encode_png().map_err(|error| PngError::Packing(error.to_string()))
}

fn rendered(drawing: &Drawing, pixels_wide: u32) -> Result<tiny_skia::Pixmap, PngError> {
    laid_on(tiny_skia::Color::WHITE, &svg::write(drawing), pixels_wide)
}

fn laid_on(ground: tiny_skia::Color, text: &str, pixels_wide: u32) -> Result<tiny_skia::Pixmap, PngError> {
    let mut options = usvg::Options { font_family: FAMILY.to_owned(), ..usvg::Options::default() };
    for face in [REGULAR, BOLD] {
        options.fontdb_mut().load_font_data(face.to_vec());
    }
    let tree = usvg::Tree::from_str(text, &options)?;
    let scale = f64::from(pixels_wide) / f64::from(tree.size().width());
    let high = (f64::from(tree.size().height()) * scale).round() as u32;
    let refused = || {
        let ratio = f64::from(tree.size().height()) / f64::from(tree.size().width());
        PngError::Size { wide: pixels_wide, high, most: (MOST_PIXELS / ratio).sqrt() as u32 }
    };
    if f64::from(pixels_wide) * f64::from(high) > MOST_PIXELS {
        return Err(refused());
    }
    let mut pixels = tiny_skia::Pixmap::new(pixels_wide, high).ok_or_else(refused)?;
    pixels.fill(ground);
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale as f32, scale as f32), &mut pixels.as_mut());
    Ok(pixels)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_drawing::{Anchor, Layer, LineRole, Text};
    use gable_plane::P2;

    #[test]
    fn a_bar_is_where_and_as_long_as_it_was_drawn() {
        let mut drawing = Drawing::new(100.0, 50.0);
        drawing.line(Layer::Sheet, LineRole::Edge, P2::new(20.0, 10.0), P2::new(80.0, 10.0));
        let pixels = tiny_skia::Pixmap::decode_png(&write(&drawing, 1000).unwrap()).unwrap();
        assert_eq!((pixels.width(), pixels.height()), (1000, 500));
        let dark = |x: u32| pixels.pixel(x, 400).is_some_and(|p| p.red() < 128);
        assert!(!dark(195) && dark(202) && dark(798) && !dark(805));
    }

    #[test]
    fn pixels_are_packed_as_they_are_and_only_as_many_as_there_should_be() {
        let rgba: Vec<u8> = (0..24).collect();
        let packed = pack(Pixels { width: 3, height: 2, rgba: rgba.clone() }).unwrap();
        let read = tiny_skia::Pixmap::decode_png(&packed).unwrap();
        assert_eq!((read.width(), read.height()), (3, 2));
        for (own, given) in read.data().chunks_exact(4).zip(rgba.chunks_exact(4)) {
            assert_eq!(own, [given[0], given[1], given[2], 255]);
        }
        assert!(pack(Pixels { width: 3, height: 3, rgba }).is_err());
        assert!(pack(Pixels { width: 0, height: 0, rgba: Vec::new() }).is_err());
    }

    #[test]
    fn text_needs_no_font_of_the_machine() {
        let mut drawing = Drawing::new(100.0, 50.0);
        drawing.push(Text::note(P2::new(50.0, 20.0), 10.0, Anchor::Middle, "Gable"));
        let pixels = tiny_skia::Pixmap::decode_png(&write(&drawing, 400).unwrap()).unwrap();
        let dark = pixels.pixels().iter().filter(|p| p.red() < 128).count();
        assert!(dark > 400, "{dark}");
    }

    #[test]
    fn what_is_not_drawn_is_not_opaque_and_colours_are_not_darkened_for_it() {
        let text = r##"<svg xmlns="http://www.w3.org/2000/svg" width="4" height="2">
            <rect width="2" height="2" fill="#ff8000" fill-opacity="0.5"/></svg>"##;
        let Pixels { width, height, rgba } = pixels_of_svg(text, 4).unwrap();
        assert_eq!((width, height, rgba.len()), (4, 2, 32));
        assert!(rgba[0] > 250 && rgba[1].abs_diff(128) <= 2 && rgba[2] == 0 && rgba[3].abs_diff(128) <= 1, "{rgba:?}");
        assert_eq!(rgba[12..16], [0; 4]);
    }

    #[test]
    fn sizes_out_of_range_are_refused_with_the_widest_possible() {
        let drawing = Drawing::new(100.0, 100.0);
        assert!(write(&drawing, 0).is_err());
        let error = write(&drawing, 100_000).unwrap_err().to_string();
        assert_eq!(
            error,
            "a picture 100000 pixels wide and 100000 high cannot be made: choose a width from 1 to 10000 pixels"
        );
    }
}
