//! Templates for dough that spreads.

use super::template::Template;
use crate::{Spread, Way};
use gable_plane::{Contour, P2, bounds, moved_out};

/// What is left to trim at an edge once it is baked, mm: enough for a blade to take hold. A habit, no source.
const TO_TRIM: f64 = 3.0;
/// The line to cut lies at least this far from the finished one, mm, so that both can be told apart.
const APART: f64 = 1.0;
/// Openings that would become narrower than this are cut out only once they are baked, mm.
const NARROWEST: f64 = 6.0;
/// Chords of arcs that cannot be moved as arcs, mm.
const CHORD: f64 = 0.005;

impl Template {
    /// The template for dough that spreads; what is no raw dough stays as it is.
    pub(super) fn spread(self, spread: &Spread) -> Self {
        if !self.spreads {
            return self;
        }
        match spread.way {
            Way::CutOnce => {
                self.clone().cut_once(spread).unwrap_or_else(|| Self { note: noted(&self.note, KEPT), ..self })
            }
            Way::TrimWarm => self.with_blank(spread),
        }
    }

    /// Smaller by what the dough grows: edges move in and rims of openings back by the growth at each edge, then all of it
    /// shrinks by the growth in proportion. The other order would take too much off. `None` where a part of the piece is
    /// too narrow for that.
    fn cut_once(mut self, spread: &Spread) -> Option<Self> {
        let edge = spread.edge().mm();
        let moved = |ring: &[P2], kept: &[usize]| moved_out(ring, |_| -edge, |k| kept.contains(&k));
        let mut kept: Vec<usize> = (0..self.outline.len()).collect();
        let (outline, back) = loop {
            let (outline, back) = moved(&self.outline, &kept).zip(moved(&self.back, &kept))?;
            if outline.edges == back.edges {
                break (outline, back);
            }
            let before = kept.len();
            kept.retain(|k| outline.edges.contains(k) && back.edges.contains(k));
            if kept.len() == before {
                return None;
            }
        };
        let shrink = 1.0 / (1.0 + spread.share());
        let middle = P2::from(self.size / 2.0);
        let map = |p: P2| middle + (p - middle) * shrink;
        self.edges = outline.edges.iter().filter_map(|k| self.edges.get(*k).cloned()).collect();
        self.outline = outline.corners.into_iter().map(map).collect();
        self.back = back.corners.into_iter().map(map).collect();
        for (contour, mode) in &mut self.openings {
            let wider = if mode.goes_through() { widened(contour, edge) } else { contour.clone() };
            *contour = wider.mapped(false, map);
        }
        let inner = self.guides.iter_mut().chain(&mut self.pressed).flatten();
        let inner =
            inner.chain(self.under.iter_mut().flatten()).chain(self.stands.iter_mut().flat_map(|s| &mut s.ends));
        inner.for_each(|p| *p = map(*p));
        self.at_origin();
        Some(self)
    }

    /// With a line beyond each edge that meets something, along which the dough is cut, and one within each opening: what
    /// is baked then reaches [`TO_TRIM`] beyond, whatever of that the dough grows by itself.
    fn with_blank(mut self, spread: &Spread) -> Self {
        let middle = P2::from(self.size / 2.0);
        let count = self.outline.len();
        for mark in &mut self.edges {
            mark.trim = !mark.letters.is_empty() || mark.board;
        }
        let by = |k: usize| {
            if !self.edges.get(k).is_some_and(|m| m.trim) {
                return 0.0;
            }
            let (a, b) = (self.outline[k], self.outline[(k + 1) % count]);
            let away = (b - a).try_normalize(0.0).map_or(0.0, |along| along.perp(&(middle - a)).abs());
            (TO_TRIM - spread.edge().mm() - spread.share() * away).max(APART)
        };
        if self.edges.iter().any(|m| m.trim) {
            // Of a bevelled piece, the outer of both faces is what is cut.
            let rim = gable_plane::united(&[self.outline.clone(), self.back.clone()]);
            let rim = rim.first().filter(|_| self.is_bevelled());
            let moved =
                rim.map_or_else(|| moved_out(&self.outline, by, |_| true), |rim| moved_out(rim, |_| TO_TRIM, |_| true));
            self.blank = moved.map(|moved| moved.corners);
        }
        for contour in self.openings.iter().filter(|(_, mode)| mode.goes_through()).map(|(c, _)| c) {
            let (low, high) = contour.bounds();
            let half = (high - low).min() / 2.0;
            let by = (TO_TRIM - spread.edge().mm() + spread.share() * half).max(APART);
            if half - by >= NARROWEST / 2.0 {
                self.blank_openings.extend(contour.moved_out(-by));
            }
        }
        self.at_origin();
        self
    }

    /// Moves everything so that the box round what is drawn starts at the origin.
    fn at_origin(&mut self) {
        let all = self.outline.iter().chain(&self.back).chain(self.blank.iter().flatten());
        let Some((low, high)) = bounds(all) else { return };
        let shift = |p: P2| p - low.coords;
        let lines = self.guides.iter_mut().chain(&mut self.pressed).flatten();
        let rings = self.outline.iter_mut().chain(&mut self.back).chain(self.blank.iter_mut().flatten());
        let others = self.under.iter_mut().flatten().chain(self.stands.iter_mut().flat_map(|s| &mut s.ends));
        lines.chain(rings).chain(others).for_each(|p| *p = shift(*p));
        let openings = self.openings.iter_mut().map(|(c, _)| c).chain(&mut self.blank_openings);
        openings.for_each(|contour| *contour = contour.mapped(false, shift));
        self.first.1 += low.coords;
        self.size = high - low;
    }
}

/// What is said on a piece that cannot be cut smaller.
const KEPT: &str = "parts of it are too narrow to be cut smaller: this is the finished outline, trim it warm";

fn noted(note: &str, more: &str) -> String {
    if note.is_empty() { more.to_owned() } else { format!("{note}; {more}") }
}

/// An opening with its rim moved back; where a segment comes to nothing, by chords.
fn widened(contour: &Contour, by: f64) -> Contour {
    let ring = || {
        let mut ring = contour.flatten(CHORD);
        if gable_plane::ring_area(&ring) < 0.0 {
            ring.reverse();
        }
        moved_out(&ring, |_| by, |_| true).map(|moved| Contour::polygon(&moved.corners))
    };
    contour.moved_out(by).or_else(ring).unwrap_or_else(|| contour.clone())
}

#[cfg(test)]
mod tests {
    use super::super::{all_templates, sample::gable_box};
    use super::*;
    use crate::PackOptions;
    use gable_measure::Length;
    use gable_plane::{V2, ring_area};
    use gable_shell::{Mode, demo, solve};

    fn spread(share: f64, edge: f64, way: Way) -> Spread {
        Spread::new(share, Length::mm_of(edge), way).unwrap()
    }

    fn plate(width: f64, height: f64) -> Template {
        let outline = Contour::rectangle(P2::origin(), P2::new(width, height)).flatten(1.0);
        Template {
            spreads: true,
            edges: vec![Default::default(); 4],
            ..Template::plain(1, outline, V2::new(width, height))
        }
    }

    /// Closed forms: of a plate of 204 x 102 mm in dough that grows by 2 % and 0.5 mm at each edge, (204 - 1) / 1.02 by
    /// (102 - 1) / 1.02 is cut, and round a window of radius 20 a circle of radius 20.5 / 1.02.
    #[test]
    fn a_plate_with_a_round_window_is_cut_smaller_and_its_window_larger() {
        let half = |x: f64| gable_plane::Segment::Arc {
            to: P2::new(x, 50.0),
            centre: P2::new(102.0, 50.0),
            sweep: std::f64::consts::PI,
        };
        let window = Contour::new(P2::new(122.0, 50.0), vec![half(82.0), half(122.0)]);
        let template = Template { openings: vec![(window, Mode::Cut)], ..plate(204.0, 102.0) };
        let cut = template.spread(&spread(0.02, 0.5, Way::CutOnce));
        assert!((cut.size - V2::new(203.0, 101.0) / 1.02).norm() < 1e-9, "{}", cut.size);
        let radius = 20.5 / 1.02;
        let area = cut.openings[0].0.area();
        assert!((area - std::f64::consts::PI * radius * radius).abs() < 1e-9, "{area}");
        assert!(cut.openings[0].0.segments().iter().all(|s| matches!(s, gable_plane::Segment::Arc { .. })));
    }

    /// What is cut, grown as dough grows, is the finished biscuit of every piece of the demos, corner by corner, where no
    /// edge was too short to be cut.
    #[test]
    fn what_is_cut_grows_into_what_is_wanted() {
        let (share, edge) = (0.02, 0.8);
        let (mut same, mut all) = (0, 0);
        for name in demo::names() {
            let house = demo::house(name).unwrap();
            let solved = solve(&house);
            let templates = all_templates(&solved, &gable_dress::dress(&house, &solved), &PackOptions::default());
            for template in templates.into_iter().filter(|t| t.spreads) {
                all += 1;
                let cut = template.clone().spread(&spread(share, edge, Way::CutOnce));
                if cut.note.ends_with(KEPT) {
                    continue;
                }
                assert!(ring_area(&cut.outline) < ring_area(&template.outline), "{name}: {}", template.name);
                if cut.outline.len() != template.outline.len() {
                    continue;
                }
                same += 1;
                let larger: Vec<P2> = cut.outline.iter().map(|p| p * (1.0 + share)).collect();
                let grown = moved_out(&larger, |_| edge, |_| true).unwrap().corners;
                let lie = template.outline[0] - grown[0];
                for (p, q) in grown.iter().zip(&template.outline) {
                    assert!((p + lie - q).norm() < 0.01, "{name}: {}: {p} {q}", template.name);
                }
                for ((cut, _), (wanted, mode)) in cut.openings.iter().zip(&template.openings) {
                    if !mode.goes_through() {
                        continue;
                    }
                    let grown = cut.mapped(false, |p| p * (1.0 + share)).moved_out(-edge).unwrap();
                    let off = grown.bounds().1 - grown.bounds().0 - (wanted.bounds().1 - wanted.bounds().0);
                    assert!(off.norm() < 0.01 && (grown.area() - wanted.area()).abs() < 0.01 * wanted.length());
                    let lie = P2::from(grown.bounds().0 + lie);
                    assert!((lie - wanted.bounds().0).norm() < 0.02, "{name}: {}", template.name);
                }
            }
        }
        println!("{same} of {all} templates keep all their edges");
        assert!(same * 10 > all * 8, "{same} of {all}");
    }

    /// Edges that meet something have a line beyond them, 3 mm less what the dough grows by itself; free edges have none.
    #[test]
    fn only_edges_that_meet_something_are_cut_larger() {
        let (_, solved) = gable_box(1.0);
        let wall = Template::of_group(&solved, &solved.groups[1]).unwrap();
        let size = wall.size;
        let still = wall.clone().spread(&spread(0.0, 0.0, Way::TrimWarm));
        assert!((still.size - size - V2::new(6.0, 6.0)).norm() < 1e-9 && still.edges.iter().all(|m| m.trim));
        // 1 % of half the width of 220 and of half the height of 100 mm, and 0.5 mm.
        let grown = wall.spread(&spread(0.01, 0.5, Way::TrimWarm));
        let beyond = V2::new(3.0 - 0.5 - 1.1, 3.0 - 0.5 - 0.5) * 2.0;
        assert!((grown.size - size - beyond).norm() < 1e-9, "{}", grown.size - size);
        assert!(grown.blank_openings.len() == 1 && grown.blank.is_some());
        let free = plate(40.0, 30.0).spread(&spread(0.01, 0.5, Way::TrimWarm));
        assert!(free.blank.is_none() && free.size == V2::new(40.0, 30.0));
    }

    /// A strip of 3 mm in dough that grows by 2 mm at each edge.
    #[test]
    fn what_is_too_narrow_keeps_its_outline_and_says_so() {
        let cut = plate(40.0, 3.0).spread(&spread(0.0, 2.0, Way::CutOnce));
        assert_eq!((cut.size, cut.note.as_str()), (V2::new(40.0, 3.0), KEPT));
    }
}
