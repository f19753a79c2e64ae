//! Templates of ornaments: like shapes share one.

use super::template::{EdgeMark, Template};
use gable_dress::{Dressed, OrnamentPiece};
use gable_measure::Unit;
use gable_plane::{Contour, P2, bounds};
use gable_shell::{Mode, Stuff};
use std::collections::BTreeSet;

/// Corners this near each other are alike, mm: what a template is cut to.
const ALIKE: f64 = 0.05;

/// One template for each shape, numbered from `first`.
pub(super) fn templates(dressed: &Dressed, unit: Unit, first: usize) -> Vec<Template> {
    let mut shapes: Vec<Vec<&OrnamentPiece>> = Vec::new();
    for piece in dressed.ornaments.iter().chain(&dressed.extras) {
        match shapes.iter_mut().find(|s| s.first().is_some_and(|other| alike(piece, other))) {
            Some(shape) => shape.push(piece),
            None => shapes.push(vec![piece]),
        }
    }
    shapes.iter().enumerate().filter_map(|(k, shape)| template(shape, unit, first + k)).collect()
}

fn corner(piece: &OrnamentPiece) -> P2 {
    bounds(&piece.outline).map_or_else(P2::origin, |(low, _)| low)
}

/// Whether two pieces can be cut with one template, without turning it over.
fn alike(a: &OrnamentPiece, b: &OrnamentPiece) -> bool {
    let shift = corner(b) - corner(a);
    let near = |p: &[P2], q: &[P2]| {
        p.len() == q.len()
            && (0..q.len()).any(|start| (0..p.len()).all(|k| (p[k] + shift - q[(k + start) % q.len()]).norm() < ALIKE))
    };
    kind(a) == kind(b)
        && (a.stuff, a.thickness, a.tint) == (b.stuff, b.thickness, b.tint)
        && a.pressed.len() == b.pressed.len()
        && near(&a.outline, &b.outline)
        && a.holes.len() == b.holes.len()
        && a.holes.iter().zip(&b.holes).all(|(p, q)| near(p, q))
}

/// 'shutters' of 'Tower: Window: shutters, left'.
fn kind(piece: &OrnamentPiece) -> &str {
    last(piece).split(',').next().unwrap_or_default()
}

/// 'shutters, left' of 'Tower: Window: shutters, left'.
fn last(piece: &OrnamentPiece) -> &str {
    piece.name.rsplit(": ").next().unwrap_or(&piece.name)
}

fn template(shape: &[&OrnamentPiece], unit: Unit, number: usize) -> Option<Template> {
    let piece = shape.first()?;
    let (low, high) = bounds(&piece.outline)?;
    let at = |p: &P2| p - low.coords;
    let parts: BTreeSet<&str> = shape.iter().filter_map(|p| p.name.split(": ").next()).collect();
    let parts: Vec<&str> = parts.into_iter().collect();
    let outline: Vec<P2> = piece.outline.iter().map(at).collect();
    let hole = |h: &Vec<P2>| (Contour::polygon(&h.iter().map(at).collect::<Vec<_>>()), Mode::Cut);
    let mut template = Template::plain(number, outline, high - low);
    // What all of them are: 'tree 1, slot above', or 'shutters' where some are left and some right.
    let same = shape.iter().all(|p| last(p) == last(piece));
    template.name = format!("{}: {}", parts.join(" / "), if same { last(piece) } else { kind(piece) });
    template.count = format!("cut {}", shape.len());
    template.copies = shape.len();
    template.spreads = piece.stuff == Stuff::Dough;
    template.face = "good face up";
    template.dough = format!("{}, {}, {} thick", piece.tint.word(), piece.stuff.words(), unit.print(piece.thickness));
    template.dough_name = piece.stuff.words().to_owned();
    template.edges = vec![EdgeMark::default(); piece.outline.len()];
    template.openings = piece.holes.iter().map(hole).collect();
    template.pressed = piece.pressed.iter().map(|line| [at(&line[0]), at(&line[1])]).collect();
    Some(template)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::ring_area;
    use gable_shell::{demo, solve};

    /// Whatever shares a template, all pieces are cut and none twice: by number and by area.
    #[test]
    fn every_ornament_is_cut_once() {
        let house = demo::house("pilot-house").unwrap();
        let dressed = gable_dress::dress(&house, &solve(&house));
        let pieces = || dressed.ornaments.iter().chain(&dressed.extras);
        let templates = templates(&dressed, Unit::Millimetre, 100);
        let count = |t: &Template| t.count.trim_start_matches("cut ").parse::<usize>().unwrap();
        assert_eq!(templates.iter().map(count).sum::<usize>(), pieces().count());
        assert!(templates.len() < pieces().count() && templates[0].number == 100);
        // The halves of a tree are two templates, each with a name of its own.
        let names: std::collections::BTreeSet<&str> = templates.iter().map(|t| t.name.as_str()).collect();
        let trees = templates.iter().filter(|t| t.name.contains("tree 1"));
        assert_eq!(trees.count(), names.iter().filter(|n| n.contains("tree 1")).count());
        let cut: f64 = templates.iter().map(|t| count(t) as f64 * ring_area(&t.outline)).sum();
        let made: f64 = pieces().map(|p| ring_area(&p.outline)).sum();
        assert!((cut - made).abs() < 1e-3 * made, "{cut} {made}");
    }
}
