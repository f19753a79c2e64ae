//! A template as SVG: one group for each layer.

use super::layer::FileLayer;
use crate::svg::{opening_tag, write_item};
use crate::xml::escaped;
use gable_drawing::Drawing;

/// A drawing as SVG at true scale: one unit is one millimetre. Every layer is one group with its name as id and a title
/// for people; layers that hold nothing are left out.
pub(super) fn layered(drawing: &Drawing, title: &str) -> String {
    let mut out = opening_tag(drawing);
    out.push_str(&format!("<title>{}</title>\n", escaped(title)));
    for layer in FileLayer::ALL {
        let own: Vec<_> = drawing.items.iter().filter(|item| FileLayer::of(item) == layer).collect();
        if own.is_empty() {
            continue;
        }
        out.push_str(&format!("<g id=\"{}\">\n<title>{}</title>\n", layer.name(), escaped(layer.title())));
        for item in own {
            write_item(&mut out, drawing, item, Some(layer.hex()));
        }
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_drawing::{Anchor, Layer, LineRole, Stroke, Text};
    use gable_plane::{Contour, P2};

    #[test]
    fn every_layer_is_one_group_with_a_title() {
        let mut drawing = Drawing::new(50.0, 40.0);
        let square = Contour::rectangle(P2::new(1.0, 1.0), P2::new(31.0, 31.0));
        drawing.push(Stroke::contour(Layer::Cut, LineRole::Edge, &square));
        drawing.push(Text::note(P2::new(5.0, 5.0), 2.5, Anchor::Start, "A & B"));
        drawing.line(Layer::Guide, LineRole::Fine, P2::origin(), P2::new(9.0, 9.0));
        drawing.push(Stroke::contour(Layer::Cut, LineRole::Edge, &square));
        let svg = layered(&drawing, "1 <front>");
        assert_eq!(svg.matches("<g id=").count(), 3);
        let order: Vec<usize> = ["GUIDE", "CUT", "TEXT"].iter().map(|id| svg.find(id).unwrap()).collect();
        assert!(order.is_sorted() && svg.contains("<title>1 &lt;front&gt;</title>"), "{svg}");
        assert!(svg.contains("width=\"50mm\" height=\"40mm\" viewBox=\"0 0 50 40\""), "{svg}");
        assert!(resvg::usvg::Tree::from_str(&svg, &resvg::usvg::Options::default()).is_ok());
    }
}
