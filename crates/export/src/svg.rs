use crate::xml::escaped;
use crate::{CAP_HEIGHT, FAMILY};
use gable_drawing::{Anchor, Drawing, Fill, Item, Layer, LineRole, Shade, Stroke, Text};
use gable_mesh::{Srgb, Theme, Token, lit_biscuit};
use gable_plane::{P2, Segment};
use std::fmt::Write;

/// Decimals kept of a millimetre: a tenth of the rounding that true scale allows, read back (0.01 mm).
const DECIMALS: usize = 4;

/// A drawing as SVG at true scale: the sheet is as wide and high as the drawing and one unit is one millimetre.
///
/// Items stay in the order they are painted; neighbours on the same layer share a group of that layer's class. Circular
/// arcs stay arcs. Text is text, in our own face where that is at hand and otherwise in whatever plain face is.
pub fn write(drawing: &Drawing) -> String {
    let mut out = opening_tag(drawing);
    let mut open: Option<Layer> = None;
    for item in &drawing.items {
        let layer = layer_of(item);
        if open != Some(layer) {
            if open.is_some() {
                out.push_str("</g>\n");
            }
            out.push_str(&format!("<g class=\"{}\">\n", class(layer)));
            open = Some(layer);
        }
        write_item(&mut out, drawing, item, None);
    }
    if open.is_some() {
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    out
}

/// The tag that a picture begins with: as wide and high as the drawing, one unit to the millimetre.
pub(crate) fn opening_tag(drawing: &Drawing) -> String {
    let (width, height) = (number(drawing.width), number(drawing.height));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\" \
         fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\" font-family=\"{}\">\n",
        escaped(&format!("'{FAMILY}', sans-serif"))
    )
}

/// Appends an item; in its own colours, or all of it in one.
pub(crate) fn write_item(out: &mut String, drawing: &Drawing, item: &Item, colour: Option<&str>) {
    // Writing to a string does not fail.
    let _ = match item {
        Item::Stroke(stroke) => write_stroke(out, drawing, stroke, colour),
        Item::Fill(fill) => write_fill(out, drawing, fill, colour),
        Item::Text(text) => write_text(out, drawing, text, colour),
    };
}

fn layer_of(item: &Item) -> Layer {
    match item {
        Item::Stroke(s) => s.layer,
        Item::Fill(f) => f.layer,
        Item::Text(t) => t.layer,
    }
}

fn class(layer: Layer) -> &'static str {
    match layer {
        Layer::Cut => "cut",
        Layer::Guide => "guide",
        Layer::Notes => "notes",
        Layer::Sheet => "sheet",
        Layer::Picture => "picture",
    }
}

/// Pictures have the colours of the house; everything that is measured is black.
fn line_colour(layer: Layer, role: LineRole) -> Srgb {
    let token = match (layer, role) {
        (Layer::Picture, LineRole::Pressed | LineRole::Fine) => Token::Pressed,
        (Layer::Picture, _) => Token::Line,
        _ => return Srgb { r: 0, g: 0, b: 0 },
    };
    token.srgb(Theme::Light)
}

fn fill_colour(shade: Shade) -> Srgb {
    match shade {
        Shade::Paper => Srgb { r: 255, g: 255, b: 255 },
        Shade::Biscuit { light } => lit_biscuit(Token::BiscuitWall, light, Theme::Light),
        Shade::Coloured { rgb, light } | Shade::Glass { rgb, light } => {
            let [r, g, b] = Shade::lit(rgb, light);
            Srgb { r, g, b }
        }
        Shade::Tint => Token::Tint.srgb(Theme::Light),
        Shade::Ink => Srgb { r: 0, g: 0, b: 0 },
    }
}

fn write_stroke(out: &mut String, drawing: &Drawing, stroke: &Stroke, colour: Option<&str>) -> std::fmt::Result {
    let colour = colour.map_or_else(|| line_colour(stroke.layer, stroke.role).hex(), str::to_owned);
    let width = number(stroke.role.width());
    write!(out, "<path stroke=\"{colour}\" stroke-width=\"{width}\"")?;
    let dashes = stroke.role.dashes();
    if !dashes.is_empty() {
        let list: Vec<String> = dashes.iter().map(|d| number(*d)).collect();
        // Round ends would lengthen each dash by a line width.
        write!(out, " stroke-linecap=\"butt\" stroke-dasharray=\"{}\"", list.join(" "))?;
    }
    write!(out, " d=\"M{}", point(drawing, stroke.start))?;
    let mut from = stroke.start;
    for segment in &stroke.segments {
        match *segment {
            Segment::Line { to } => write!(out, "L{}", point(drawing, to))?,
            Segment::Arc { centre, sweep, .. } => {
                write_arc(out, drawing, from, segment, (from - centre).norm(), sweep)?;
            }
        }
        from = segment.to();
    }
    writeln!(out, "{}\"/>", if stroke.closed { "Z" } else { "" })
}

/// An arc, in thirds when it is near a half circle or longer: an SVG arc is given by its ends, which then say too little.
fn write_arc(
    out: &mut String,
    drawing: &Drawing,
    from: P2,
    arc: &Segment,
    radius: f64,
    sweep: f64,
) -> std::fmt::Result {
    let radius = number(radius);
    // Counter-clockwise with y up is sweep flag 0 with y down.
    let flag = if sweep > 0.0 { 0 } else { 1 };
    let steps = if sweep.abs() > 3.0 { 3 } else { 1 };
    for step in 1..=steps {
        let end = arc.point_at(from, f64::from(step) / f64::from(steps));
        write!(out, "A{radius} {radius} 0 0 {flag} {}", point(drawing, end))?;
    }
    Ok(())
}

fn write_fill(out: &mut String, drawing: &Drawing, fill: &Fill, colour: Option<&str>) -> std::fmt::Result {
    let rings: Vec<String> = fill
        .rings
        .iter()
        .filter(|ring| ring.len() >= 3)
        .map(|ring| ring.iter().map(|p| point(drawing, *p)).collect::<Vec<_>>().join("L"))
        .map(|corners| format!("M{corners}Z"))
        .collect();
    let clear = if fill.shade.is_clear() {
        format!(" fill-opacity=\"{}\"", number(Shade::GLASS_COVERS))
    } else {
        String::new()
    };
    let colour = colour.map_or_else(|| fill_colour(fill.shade).hex(), str::to_owned);
    writeln!(out, "<path fill=\"{colour}\"{clear} fill-rule=\"evenodd\" d=\"{}\"/>", rings.concat())
}

fn write_text(out: &mut String, drawing: &Drawing, text: &Text, colour: Option<&str>) -> std::fmt::Result {
    let anchor = match text.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let own = if text.layer == Layer::Picture { Token::Line.srgb(Theme::Light).hex() } else { "#000000".to_owned() };
    let colour = colour.map_or(own, str::to_owned);
    let size = number(text.height / CAP_HEIGHT);
    let weight = if text.bold { " font-weight=\"bold\"" } else { "" };
    let place = point(drawing, text.at);
    let turn = number(-text.turn.to_degrees());
    writeln!(
        out,
        "<text fill=\"{colour}\" font-size=\"{size}\"{weight} text-anchor=\"{anchor}\" \
         transform=\"translate({place}) rotate({turn})\">{}</text>",
        escaped(&text.text)
    )
}

/// A point with y down from the upper edge of the sheet.
fn point(drawing: &Drawing, p: P2) -> String {
    format!("{} {}", number(p.x), number(drawing.height - p.y))
}

/// A number without needless zeros; what is no number becomes 0, because SVG has no word for it.
fn number(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    gable_measure::decimal(value, DECIMALS)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::Contour;
    use resvg::usvg;

    fn read(svg: &str) -> usvg::Tree {
        let mut options = usvg::Options::default();
        options.fontdb_mut().load_font_data(crate::REGULAR.to_vec());
        usvg::Tree::from_str(svg, &options).unwrap()
    }

    fn first_text(group: &usvg::Group) -> Option<&usvg::Text> {
        group.children().iter().find_map(|node| match node {
            usvg::Node::Text(text) => Some(&**text),
            usvg::Node::Group(inner) => first_text(inner),
            _ => None,
        })
    }

    /// CSS: 1 px = 1/96 in, 25.4 mm = 1 in; usvg reads sizes in px, paths keep user units.
    #[test]
    fn a_line_of_100_mm_has_100_units_on_a_sheet_of_210_by_297_mm() {
        let mut drawing = Drawing::new(210.0, 297.0);
        drawing.line(Layer::Sheet, LineRole::Thin, P2::new(10.0, 20.0), P2::new(110.0, 20.0));
        let tree = read(&write(&drawing));
        let mm = |px: f32| f64::from(px) * 25.4 / 96.0;
        assert!((mm(tree.size().width()) - 210.0).abs() < 1e-4);
        assert!((mm(tree.size().height()) - 297.0).abs() < 1e-4);
        let bounds = tree.root().abs_bounding_box();
        assert!((mm(bounds.width()) - 100.0).abs() < 1e-4);
        // 20 mm above the lower edge is 277 mm below the upper one.
        assert!((mm(bounds.y()) - 277.0).abs() < 1e-4);
    }

    /// A half circle over a rectangle is 40 wide and 70 high however its arc is cut up; a whole circle is as high as wide.
    #[test]
    fn arcs_bulge_the_right_way() {
        let mm = |px: f32| f64::from(px) * 25.4 / 96.0;
        let size = |contour: &Contour| {
            let mut drawing = Drawing::new(100.0, 100.0);
            drawing.push(Stroke::contour(Layer::Cut, LineRole::Edge, contour));
            let bounds = read(&write(&drawing)).root().abs_bounding_box();
            (mm(bounds.width()), mm(bounds.height()))
        };
        let door = Contour::round_headed(P2::new(10.0, 10.0), P2::new(50.0, 80.0)).unwrap();
        let turned = door.mapped(false, |p| P2::new(100.0 - p.x, 100.0 - p.y));
        let circle =
            Segment::Arc { to: P2::new(90.0, 50.0), centre: P2::new(50.0, 50.0), sweep: std::f64::consts::TAU };
        for (contour, width, height) in
            [(door, 40.0, 70.0), (turned, 40.0, 70.0), (Contour::new(P2::new(90.0, 50.0), vec![circle]), 80.0, 80.0)]
        {
            let found = size(&contour);
            assert!((found.0 - width).abs() < 0.01 && (found.1 - height).abs() < 0.01, "{found:?}");
        }
    }

    #[test]
    fn text_keeps_its_letters_and_its_height() {
        let mut drawing = Drawing::new(100.0, 100.0);
        drawing.push(Text::note(P2::new(50.0, 50.0), 5.0, Anchor::Middle, "H<&\"\u{1}½ é"));
        let svg = write(&drawing);
        assert!(svg.contains(">H&lt;&amp;&quot;½ é</text>"), "{svg}");
        drawing.items.clear();
        drawing.push(Text::note(P2::new(50.0, 50.0), 5.0, Anchor::Middle, "H"));
        let tree = read(&write(&drawing));
        let text = first_text(tree.root()).unwrap();
        // The box of a text is that of its line; the letter itself is measured on its outline.
        let height = f64::from(text.flattened().abs_bounding_box().height()) * 25.4 / 96.0;
        assert!((height - 5.0).abs() < 0.05, "{height}");
    }

    /// SVG 2, 13.3: fill-opacity is that of the fill alone.
    #[test]
    fn glazing_lets_through_what_lies_behind() {
        let mut drawing = Drawing::new(10.0, 10.0);
        let ring = vec![P2::new(0.0, 0.0), P2::new(10.0, 0.0), P2::new(10.0, 10.0), P2::new(0.0, 10.0)];
        for shade in [Shade::Ink, Shade::Glass { rgb: [255; 3], light: 1.0 }] {
            drawing.push(Fill { layer: Layer::Picture, shade, rings: vec![ring.clone()] });
        }
        let mut pixels = resvg::tiny_skia::Pixmap::new(4, 4).unwrap();
        let tree = read(&write(&drawing));
        resvg::render(&tree, resvg::tiny_skia::Transform::identity(), &mut pixels.as_mut());
        let grey = f64::from(pixels.pixel(1, 1).unwrap().red()) / 255.0;
        assert!((grey - Shade::GLASS_COVERS).abs() < 0.02, "{grey}");
    }

    #[test]
    fn numbers_that_are_none_and_empty_rings_leave_a_readable_file() {
        let mut drawing = Drawing::new(100.0, 50.0);
        drawing.line(Layer::Cut, LineRole::Hidden, P2::new(f64::NAN, 0.0), P2::new(1e300, f64::INFINITY));
        drawing.push(Fill { layer: Layer::Picture, shade: Shade::Tint, rings: vec![vec![], vec![P2::origin()]] });
        read(&write(&drawing));
        assert_eq!(number(-0.00001), "0");
        assert_eq!(number(120.50), "120.5");
    }
}
