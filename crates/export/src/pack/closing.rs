//! Templates of what closes openings: doors, and panes that are cut from leaves.

use super::clip::Window;
use super::template::{EdgeMark, Template};
use super::view::seen_from_outside;
use gable_drawing::{Layer, LineRole, Stroke};
use gable_dress::{DoorPiece, Dressed, Pane};
use gable_measure::Unit;
use gable_plane::{Contour, P2, bounds, ring_area};
use gable_shell::{Glass, Piece, Solved};

/// Corners this near each other are alike, mm: what a template is cut to.
const ALIKE: f64 = 0.05;
/// How far chords may be off arcs, mm.
const CHORD: f64 = 0.02;

/// Something cut, as one sees it from outside the house, the lower left corner of the box round it at the origin.
struct Seen {
    outline: Vec<P2>,
    bars: Vec<[P2; 2]>,
    pressed: Vec<[P2; 2]>,
    under: Vec<Vec<P2>>,
    /// Part and opening.
    names: (String, String),
    /// Cut alike only from the same.
    made_of: String,
}

/// One template for each shape of door, numbered from `first`.
pub(super) fn doors(dressed: &Dressed, solved: &Solved, first: usize) -> Vec<Template> {
    let seen = dressed.doors.iter().filter_map(|door| seen_door(door, solved)).collect();
    let made = |(k, shape): (usize, Vec<Seen>)| {
        let dough = shape.first()?.made_of.clone();
        let template = template(&shape, first + k, "door")?;
        let class = dough.split('\'').nth(1).unwrap_or_default().to_owned();
        Some(Template { dough, dough_name: class, face: "outside face up", spreads: true, ..template })
    };
    shapes(seen).into_iter().enumerate().filter_map(made).collect()
}

/// One template for each shape of pane that is cut from leaves, numbered from `first`.
pub(super) fn panes(dressed: &Dressed, solved: &Solved, first: usize) -> Vec<Template> {
    let leaves = dressed.panes.iter().filter(|p| p.glass == Glass::Leaf);
    let seen = leaves.filter_map(|pane| seen_pane(pane, dressed, solved)).collect();
    let made = |(k, shape): (usize, Vec<Seen>)| {
        let leaf = gable_dress::glass_facts(Glass::Leaf).name;
        let template = template(&shape, first + k, "pane")?;
        Some(Template { dough: leaf.to_owned(), dough_name: leaf.to_owned(), face: "outer side up", ..template })
    };
    shapes(seen).into_iter().enumerate().filter_map(made).collect()
}

fn seen_door(door: &DoorPiece, solved: &Solved) -> Option<Seen> {
    let piece = solved.pieces.get(door.piece)?;
    let opening = piece.openings.iter().chain(&piece.notches).find(|o| o.id == door.opening)?;
    let dough = dough(door, solved.unit);
    let seen = Seen {
        outline: ring(&door.outline, piece),
        bars: Vec::new(),
        pressed: door.pressed.iter().map(|line| line.map(|p| seen_from_outside(piece, p))).collect(),
        under: Vec::new(),
        names: names(piece, &opening.name),
        made_of: dough,
    };
    seen.at_origin()
}

fn dough(door: &DoorPiece, unit: Unit) -> String {
    let (rolled, baked) = (unit.print(door.rolled), unit.print(door.thickness));
    format!("dough '{}': rolled {rolled}, baked {baked}", door.dough.0)
}

fn seen_pane(pane: &Pane, dressed: &Dressed, solved: &Solved) -> Option<Seen> {
    let piece = solved.pieces.get(pane.piece)?;
    let is_own = |id: &gable_shell::OpeningId, copy: usize| *id == pane.opening && copy == pane.copy;
    let opening = piece.openings.iter().chain(&piece.notches).find(|o| is_own(&o.id, o.copy))?;
    let outline = ring(&pane.outline, piece);
    let (low, high) = bounds(&outline)?;
    // Of a pane in several parts, each shows what it covers.
    let window = Window { low, high };
    let within = |points: &[P2]| {
        let line = Stroke::polyline(Layer::Guide, LineRole::Hidden, points);
        let parts = window.clip(&line).into_iter();
        parts.map(|s| std::iter::once(s.start).chain(s.segments.iter().map(gable_plane::Segment::to)).collect())
    };
    let mut edge = ring(&opening.contour, piece);
    edge.extend(edge.first().copied());
    let bars = dressed.opening_lines.iter().filter(|l| !l.pressed && l.piece == pane.piece);
    let bars = bars.filter(|l| is_own(&l.opening, l.copy)).map(|l| l.ends.map(|p| seen_from_outside(piece, p)));
    let bars = bars.flat_map(|ends| within(&ends).collect::<Vec<Vec<P2>>>());
    let seen = Seen {
        bars: bars.filter_map(|line| Some([*line.first()?, *line.last()?])).collect(),
        under: within(&edge).collect(),
        outline,
        pressed: Vec::new(),
        names: names(piece, &opening.name),
        made_of: String::new(),
    };
    seen.at_origin()
}

/// An outline as it is seen, counter-clockwise.
fn ring(contour: &Contour, piece: &Piece) -> Vec<P2> {
    let mut ring: Vec<P2> = contour.flatten(CHORD).into_iter().map(|p| seen_from_outside(piece, p)).collect();
    if ring_area(&ring) < 0.0 {
        ring.reverse();
    }
    ring
}

fn names(piece: &Piece, opening: &str) -> (String, String) {
    (piece.name.split(": ").next().unwrap_or_default().to_owned(), opening.to_owned())
}

impl Seen {
    fn at_origin(mut self) -> Option<Self> {
        let (low, _) = bounds(&self.outline)?;
        let lines = self.bars.iter_mut().chain(&mut self.pressed).flatten();
        let points = self.outline.iter_mut().chain(lines).chain(self.under.iter_mut().flatten());
        points.for_each(|p| *p -= low.coords);
        Some(self)
    }

    /// Whether both can be cut with one template, without turning it over.
    fn alike(&self, other: &Self) -> bool {
        let near = |p: &P2, q: &P2| (p - q).norm() < ALIKE;
        let same = |p: &[P2], q: &[P2]| {
            let turned = |start: usize| (0..p.len()).all(|k| near(&p[k], &q[(k + start) % q.len()]));
            p.len() == q.len() && (0..q.len()).any(turned)
        };
        let either = |a: &[P2; 2], b: &[P2; 2]| {
            (near(&a[0], &b[0]) && near(&a[1], &b[1])) || (near(&a[0], &b[1]) && near(&a[1], &b[0]))
        };
        let lines = |a: &[[P2; 2]], b: &[[P2; 2]]| {
            a.len() == b.len() && a.iter().all(|line| b.iter().any(|other| either(line, other)))
        };
        self.made_of == other.made_of
            && same(&self.outline, &other.outline)
            && lines(&self.bars, &other.bars)
            && lines(&self.pressed, &other.pressed)
    }
}

fn shapes(all: Vec<Seen>) -> Vec<Vec<Seen>> {
    let mut shapes: Vec<Vec<Seen>> = Vec::new();
    for seen in all {
        match shapes.iter_mut().find(|s| s.first().is_some_and(|other| other.alike(&seen))) {
            Some(shape) => shape.push(seen),
            None => shapes.push(vec![seen]),
        }
    }
    shapes
}

fn template(shape: &[Seen], number: usize, what: &str) -> Option<Template> {
    let first = shape.first()?;
    let (low, high) = bounds(&first.outline)?;
    let mut names: Vec<(&str, Vec<&str>)> = Vec::new();
    for (part, opening) in shape.iter().map(|s| (s.names.0.as_str(), s.names.1.as_str())) {
        match names.iter_mut().find(|(own, _)| *own == part) {
            Some((_, openings)) if openings.contains(&opening) => {}
            Some((_, openings)) => openings.push(opening),
            None => names.push((part, vec![opening])),
        }
    }
    let said: Vec<String> = names.iter().map(|(part, list)| format!("{part}: {}", list.join(" / "))).collect();
    let mut template = Template::plain(number, first.outline.clone(), high - low);
    template.name = format!("{}, {what}", said.join(" / "));
    template.count = format!("cut {}", shape.len());
    template.copies = shape.len();
    template.edges = vec![EdgeMark::default(); first.outline.len()];
    template.guides = first.bars.clone();
    template.pressed = first.pressed.clone();
    template.under = first.under.clone();
    Some(template)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_shell::{demo, solve};

    fn count(template: &Template) -> usize {
        template.count.trim_start_matches("cut ").parse().unwrap()
    }

    /// Whatever shares a template, every pane and door is cut once: by number and by area; and every bar is on its pane.
    #[test]
    fn every_pane_and_door_is_cut_once() {
        for name in demo::names() {
            let house = demo::house(name).unwrap();
            let solved = solve(&house);
            let dressed = gable_dress::dress(&house, &solved);
            let cut = |list: &[Template]| {
                let area: f64 = list.iter().map(|t| count(t) as f64 * ring_area(&t.outline)).sum();
                (list.iter().map(count).sum::<usize>(), area)
            };
            let leaves: Vec<&Pane> = dressed.panes.iter().filter(|p| p.glass == Glass::Leaf).collect();
            let panes = panes(&dressed, &solved, 50);
            let made: f64 = leaves.iter().map(|p| p.outline.area()).sum();
            let (number, area) = cut(&panes);
            assert!(number == leaves.len() && (area - made).abs() <= 1e-3 * made, "{name}: {area} {made}");
            let doors_cut = doors(&dressed, &solved, 50);
            let made: f64 = dressed.doors.iter().map(|d| d.outline.area()).sum();
            let (number, area) = cut(&doors_cut);
            assert!(number == dressed.doors.len() && (area - made).abs() <= 1e-3 * made, "{name}: {area} {made}");
            for template in &panes {
                let (low, high) = bounds(&template.outline).unwrap();
                let inside = |p: &P2| (low.x..=high.x).contains(&p.x) && (low.y..=high.y).contains(&p.y);
                assert!(template.guides.iter().flatten().all(inside) && !template.under.is_empty(), "{name}");
            }
        }
    }

    /// The double door of the boat hut has its line down the middle: half its width from both sides.
    #[test]
    fn a_double_door_is_pressed_down_its_middle() {
        let house = demo::house("boat-hut").unwrap();
        let solved = solve(&house);
        let doors = doors(&gable_dress::dress(&house, &solved), &solved, 1);
        let double = doors.iter().find(|d| !d.pressed.is_empty()).unwrap();
        let [a, b] = double.pressed[0];
        assert!((a.x - double.size.x / 2.0).abs() < 0.01 && (b.x - a.x).abs() < 1e-9);
        assert!(double.face == "outside face up" && double.dough.starts_with("dough '"));
    }
}
