//! One outline out of a file of SVG.

use gable_words::tr;
use resvg::tiny_skia::PathSegment;
use resvg::usvg::{Group, Node, Options, Tree, roxmltree};
use thiserror::Error;

/// Elements that draw something.
const DRAWN: [&str; 10] = ["path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "use", "text", "image"];

/// Why a file of SVG gives no outline.
#[derive(Debug, Error)]
pub enum OutlineError {
    /// It cannot be read.
    #[error("{}", tr!("this is no file of SVG: {0}", .0))]
    Unreadable(String),
    /// It does not draw exactly one shape.
    #[error("{}", tr!("it draws {0} shapes, and an opening has one outline; keep one shape in the file", .0))]
    Shapes(usize),
}

/// The path data of the only shape that a file of SVG draws. A plain path is taken as it is written, so that its arcs stay
/// arcs; other shapes, and what is turned or moved, are taken as they lie on the sheet.
///
/// # Errors
/// When the text is no SVG, or draws no shape or several.
pub fn outline_of_svg(text: &str) -> Result<String, OutlineError> {
    let unreadable = |error: &dyn std::fmt::Display| OutlineError::Unreadable(error.to_string());
    let options = roxmltree::ParsingOptions { allow_dtd: true, ..roxmltree::ParsingOptions::default() };
    let document = roxmltree::Document::parse_with_options(text, options).map_err(|e| unreadable(&e))?;
    let elements = || document.descendants().filter(roxmltree::Node::is_element);
    let drawn: Vec<_> = elements().filter(|n| DRAWN.contains(&n.tag_name().name())).collect();
    let moved = elements().any(|n| n.has_attribute("transform") || n.tag_name().name() == "style");
    if let [one] = drawn.as_slice()
        && one.tag_name().name() == "path"
        && !moved
        && let Some(data) = one.attribute("d")
    {
        return Ok(data.trim().to_owned());
    }
    let tree = Tree::from_xmltree(&document, &Options::default()).map_err(|e| unreadable(&e))?;
    let mut found = Vec::new();
    shapes(tree.root(), &mut found);
    match <[String; 1]>::try_from(found) {
        Ok([data]) => Ok(data),
        Err(several) => Err(OutlineError::Shapes(several.len())),
    }
}

fn shapes(group: &Group, found: &mut Vec<String>) {
    for node in group.children() {
        match node {
            Node::Group(group) => shapes(group, found),
            Node::Path(path) => {
                let data = path.data().clone().transform(path.abs_transform());
                found.extend(data.map(|data| written(data.segments())));
            }
            Node::Image(_) | Node::Text(_) => found.push(String::new()),
        }
    }
}

fn written(segments: impl Iterator<Item = PathSegment>) -> String {
    let said = |segment| match segment {
        PathSegment::MoveTo(p) => format!("M{} {}", p.x, p.y),
        PathSegment::LineTo(p) => format!("L{} {}", p.x, p.y),
        PathSegment::QuadTo(a, p) => format!("Q{} {} {} {}", a.x, a.y, p.x, p.y),
        PathSegment::CubicTo(a, b, p) => format!("C{} {} {} {} {} {}", a.x, a.y, b.x, b.y, p.x, p.y),
        PathSegment::Close => "Z".to_owned(),
    };
    segments.map(said).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::{P2, SvgPath};

    fn svg(inside: &str) -> String {
        format!("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 20 20\">{inside}</svg>")
    }

    #[test]
    fn a_plain_path_is_taken_as_it_is_written() {
        let data = "M0 8 V5 A4 4 0 0 1 8 5 V8 Z";
        assert_eq!(outline_of_svg(&svg(&format!("<path d=\" {data} \" fill=\"none\"/>"))).unwrap(), data);
    }

    #[test]
    fn other_shapes_are_taken_as_they_lie() {
        let turned = svg("<g transform=\"rotate(90)\"><rect x=\"1\" y=\"2\" width=\"8\" height=\"4\"/></g>");
        let path = SvgPath::read(&outline_of_svg(&turned).unwrap()).unwrap();
        assert!(path.single().is_ok() && (path.proportion() - 0.5).abs() < 1e-6);
        // Closed form: a circle 40 mm wide.
        let circle = SvgPath::read(&outline_of_svg(&svg("<circle cx=\"9\" cy=\"9\" r=\"5\"/>")).unwrap()).unwrap();
        let area = circle.contours(P2::origin(), P2::new(40.0, 40.0))[0].area();
        assert!((area - std::f64::consts::PI * 400.0).abs() < 1.0, "{area}");
    }

    #[test]
    fn several_shapes_and_none_are_refused() {
        let said = |text: &str| outline_of_svg(text).unwrap_err().to_string();
        let hint = "and an opening has one outline; keep one shape in the file";
        assert_eq!(said(&svg("")), format!("it draws 0 shapes, {hint}"));
        let two = svg("<rect width=\"2\" height=\"2\"/><rect x=\"4\" width=\"2\" height=\"2\"/>");
        assert_eq!(said(&two), format!("it draws 2 shapes, {hint}"));
        assert!(said("M0 0 L1 1").starts_with("this is no file of SVG: "));
    }
}
