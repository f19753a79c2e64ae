//! What is printed for one group of pieces, in its own coordinates: seen from outside the house, up is up,
//! the lower left corner of the box round it at the origin.

use super::view::View;
use gable_measure::Angle;
use gable_plane::{Contour, P2, V2, bounds};
use gable_shell::{EdgeKind, Group, Mode, Piece, Role, Solved};

/// One template.
pub(super) struct Template {
    /// Number of the group, from 1.
    pub(super) number: usize,
    /// Names of the pieces it serves, shared beginnings said once.
    pub(super) name: String,
    /// Such as 'cut 2'.
    pub(super) count: String,
    /// Such as 'outside face up'.
    pub(super) face: &'static str,
    /// Dough and both thicknesses.
    pub(super) dough: String,
    /// Name of the dough.
    pub(super) dough_name: String,
    /// Ids of the pieces, in the order in which letters are listed.
    pub(super) ids: Vec<String>,
    /// Corners on the reference face, counter-clockwise.
    pub(super) outline: Vec<P2>,
    /// Corners on the other face, as many.
    pub(super) back: Vec<P2>,
    /// `edges[k]` runs from `outline[k]` to the next corner.
    pub(super) edges: Vec<EdgeMark>,
    /// Doors and windows.
    pub(super) openings: Vec<(Contour, Mode)>,
    /// Width and height of the box round both outlines.
    pub(super) size: V2,
}

/// What is written along an edge.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct EdgeMark {
    /// Joint letters, one for each piece in the order of `ids`; a single one where they agree; empty at a free edge.
    pub(super) letters: Vec<String>,
    /// Bevel from square, where it is not cut straight.
    pub(super) bevel: Option<Angle>,
}

/// Bevels below this are not worth a mark: 0.05 mm on a piece of 6 mm is half a degree.
const LEAST_BEVEL: Angle = Angle::degrees(0.3);

impl Template {
    /// Whether any edge is bevelled.
    pub(super) fn is_bevelled(&self) -> bool {
        self.edges.iter().any(|e| e.bevel.is_some())
    }

    /// The template of a group; `None` for a group without pieces.
    pub(super) fn of_group(solved: &Solved, group: &Group) -> Option<Self> {
        let members: Vec<&Piece> =
            group.same.iter().chain(&group.turned_over).filter_map(|&k| solved.pieces.get(k)).collect();
        let first = View::of(members.first()?);
        let (mut same, mut turned) = (Vec::new(), Vec::new());
        for piece in members {
            let view = View::of(piece);
            match first.start_in(&view) {
                Some(start) => same.push((piece, view.letters_from(solved, start))),
                None => {
                    let over = view.turned_over();
                    turned.push((piece, over.letters_from(solved, first.start_in(&over).unwrap_or(0))));
                }
            }
        }
        let count = count(same.len(), turned.len());
        same.extend(turned);
        let letters: Vec<&[String]> = same.iter().map(|(_, letters)| letters.as_slice()).collect();
        let edges = first.edge_marks(&letters);
        let pieces: Vec<&Piece> = same.iter().map(|(piece, _)| *piece).collect();
        Some(Self::assemble(solved, group.number, first, edges, &pieces, count))
    }

    fn assemble(
        solved: &Solved,
        number: usize,
        view: View<'_>,
        edges: Vec<EdgeMark>,
        pieces: &[&Piece],
        count: String,
    ) -> Self {
        let (low, high) = bounds(view.outline.iter().chain(&view.back)).unwrap_or((P2::origin(), P2::origin()));
        let at = |p: &P2| p - low.coords;
        let piece = view.piece;
        let unit = solved.unit;
        Self {
            number,
            name: shared_name(pieces.iter().map(|p| p.name.as_str())),
            count,
            face: match piece.role {
                Role::Floor | Role::Lid => "upper face up",
                Role::Wall(_) | Role::Slope(..) | Role::Parapet(_) => "outside face up",
            },
            dough: format!(
                "dough '{}': rolled {}, baked {}",
                piece.dough.0,
                unit.print(piece.rolled),
                unit.print(piece.thickness)
            ),
            dough_name: piece.dough.0.clone(),
            ids: pieces.iter().map(|p| p.id.0.clone()).collect(),
            outline: view.outline.iter().map(at).collect(),
            back: view.back.iter().map(at).collect(),
            edges,
            openings: view.openings.iter().map(|(c, mode)| (c.mapped(false, |p| at(&p)), *mode)).collect(),
            size: high - low,
        }
    }
}

fn count(same: usize, turned: usize) -> String {
    match (same, turned) {
        (n, 0) => format!("cut {n}"),
        (n, m) => format!("cut {n}, and {m} with the pattern turned over"),
    }
}

/// 'Main body: front wall / back wall' for names that begin alike up to a colon.
fn shared_name<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let mut said = String::new();
    let mut before = "";
    for name in names {
        let part = name.split_once(": ").map_or("", |(part, _)| part);
        let rest = name.strip_prefix(part).and_then(|r| r.strip_prefix(": ")).unwrap_or(name);
        if said.is_empty() {
            said.push_str(name);
        } else {
            said.push_str(" / ");
            said.push_str(if !part.is_empty() && part == before { rest } else { name });
        }
        before = part;
    }
    said
}

impl View<'_> {
    /// Joint letters of the edges, beginning with the edge that starts at corner `start`.
    fn letters_from(&self, solved: &Solved, start: usize) -> Vec<String> {
        let letter = |edge: &EdgeKind| match edge {
            EdgeKind::Joint(j) => solved.joints.get(*j).map(|j| j.letter.clone()).unwrap_or_default(),
            EdgeKind::Free => String::new(),
        };
        let count = self.edges.len();
        (0..count).map(|k| letter(&self.edges[(k + start) % count])).collect()
    }

    fn edge_marks(&self, letters: &[&[String]]) -> Vec<EdgeMark> {
        let count = self.outline.len();
        let mark = |k: usize| {
            let mut list: Vec<String> = letters.iter().filter_map(|l| l.get(k).cloned()).collect();
            if list.iter().all(|l| Some(l) == list.first()) {
                list.truncate(1);
            }
            for letter in &mut list {
                if letter.is_empty() && letters.len() > 1 {
                    letter.push('–');
                }
            }
            if list.iter().all(|l| l.is_empty() || l == "–") {
                list.clear();
            }
            EdgeMark { letters: list, bevel: self.bevel(k) }
        };
        (0..count).map(mark).collect()
    }

    /// How far the cut of an edge leans from square: the distance between the lines of both faces over the thickness.
    fn bevel(&self, edge: usize) -> Option<Angle> {
        let next = (edge + 1) % self.outline.len();
        let along = (self.outline[next] - self.outline[edge]).try_normalize(0.0)?;
        let aside = along.perp(&(self.back[edge] - self.outline[edge]));
        let lean = Angle::of_slope(aside.abs(), self.piece.thickness.mm());
        (lean > LEAST_BEVEL).then_some(lean)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_say_their_common_beginning_once() {
        assert_eq!(shared_name(["Hut: front wall", "Hut: back wall"].into_iter()), "Hut: front wall / back wall");
        assert_eq!(shared_name(["Hut: lid", "Tower: lid", "plain"].into_iter()), "Hut: lid / Tower: lid / plain");
        assert_eq!(shared_name(["floor"].into_iter()), "floor");
    }

    #[test]
    fn counts_say_how_many_are_turned_over() {
        assert_eq!(count(2, 0), "cut 2");
        assert_eq!(count(1, 1), "cut 1, and 1 with the pattern turned over");
    }
}
