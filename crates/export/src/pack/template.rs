//! What is printed for one group of pieces, in its own coordinates: seen from outside the house, up is up,
//! the lower left corner of the box round it at the origin.

use super::stand::{Stand, StandMark, merged};
use super::view::View;
use gable_dress::{Covered, Dressed, OpeningLine};
use gable_measure::Angle;
use gable_plane::{Contour, P2, V2, bounds};
use gable_shell::{EdgeKind, Group, JointEnd, Member, Mode, Piece, Solved};

/// One template.
#[derive(Clone)]
pub(super) struct Template {
    /// Number of the group, from 1.
    pub(super) number: usize,
    /// Names of the pieces it serves, shared beginnings said once.
    pub(super) name: String,
    /// Such as 'cut 2', or that it is baked.
    pub(super) count: String,
    /// Whether its pieces are baked already.
    pub(super) baked: bool,
    /// Such as 'outside face up'.
    pub(super) face: &'static str,
    /// Dough and both thicknesses.
    pub(super) dough: String,
    /// Name of the dough.
    pub(super) dough_name: String,
    /// Corners on the reference face, counter-clockwise.
    pub(super) outline: Vec<P2>,
    /// Corners on the other face, as many.
    pub(super) back: Vec<P2>,
    /// `edges[k]` runs from `outline[k]` to the next corner.
    pub(super) edges: Vec<EdgeMark>,
    /// Where others stand on its face.
    pub(super) stands: Vec<StandMark>,
    /// Doors and windows.
    pub(super) openings: Vec<(Contour, Mode)>,
    /// Width and height of the box round both outlines.
    pub(super) size: V2,
    /// Courses, joints and boards of the finish of the first piece.
    pub(super) guides: Vec<[P2; 2]>,
    /// Lines to press in.
    pub(super) pressed: Vec<[P2; 2]>,
    /// Lines that something else shows along under it: the opening under a pane.
    pub(super) under: Vec<Vec<P2>>,
    /// Where the dough is cut that is trimmed to the outline once it is baked.
    pub(super) blank: Option<Vec<P2>>,
    /// The same of openings.
    pub(super) blank_openings: Vec<Contour>,
    /// Whether it is cut from dough that will be baked.
    pub(super) spreads: bool,
    /// How many pieces are cut with it; 0 where that is said by another template.
    pub(super) copies: usize,
    /// Which of them it is printed for, from 1; 0 where it is printed for all.
    pub(super) copy: usize,
    /// What else there is to know, if anything.
    pub(super) note: String,
    /// The first piece, as an index into [`Solved::pieces`], and where the corner of the box lies in its view.
    pub(super) first: (usize, P2),
}

/// What is written along an edge.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct EdgeMark {
    /// Joint letters, one for each piece in the order of `name`; a single one where they agree; empty at a free edge.
    pub(super) letters: Vec<String>,
    /// Bevel from square, where it is not cut straight.
    pub(super) bevel: Option<Angle>,
    /// Whether it stands on the base board.
    pub(super) board: bool,
    /// Whether it is trimmed once it is baked.
    pub(super) trim: bool,
}

/// A piece of the group as it is cut with the template.
struct Cut<'a> {
    piece: &'a Piece,
    /// Letters of its edges, in the order of those of the template.
    letters: Vec<String>,
    /// In the coordinates of the first piece.
    stands: Vec<Stand>,
}

impl<'a> Cut<'a> {
    fn new(solved: &Solved, first: &View<'_>, view: &View<'a>, start: usize) -> Self {
        Self { piece: view.piece, letters: view.letters_from(solved, start), stands: first.stands_of(view, start) }
    }
}

/// Bevels below this are not worth a mark: 0.05 mm on a piece of 6 mm is half a degree.
const LEAST_BEVEL: Angle = Angle::degrees(0.3);

impl Template {
    /// 'template 4'; its name where it has no number.
    pub(super) fn called(&self) -> String {
        if self.number == 0 { self.name.to_lowercase() } else { format!("template {}", self.short_title()) }
    }

    /// Number and name.
    pub(super) fn title(&self) -> String {
        if self.number == 0 { self.name.clone() } else { format!("{}  {}", self.short_title(), self.name) }
    }

    /// The number alone, '4b' for the second of several pieces, or the name where it has none.
    pub(super) fn short_title(&self) -> String {
        match (self.number, self.copy) {
            (0, _) => self.name.clone(),
            (number, copy) if copy > 0 && self.copies > 1 => format!("{number}{}", super::letters(copy - 1, b'a')),
            (number, _) => number.to_string(),
        }
    }

    /// Whether any edge is bevelled.
    pub(super) fn is_bevelled(&self) -> bool {
        self.edges.iter().any(|e| e.bevel.is_some())
    }

    /// The template of a group; `None` for a group without pieces.
    pub(super) fn of_group(solved: &Solved, group: &Group) -> Option<Self> {
        let views: Vec<(View<'_>, usize)> = group.members.iter().filter_map(|m| View::of_member(solved, m)).collect();
        let (first, _) = views.first()?;
        let cuts: Vec<Cut<'_>> = views.iter().map(|(view, start)| Cut::new(solved, first, view, *start)).collect();
        let count = count(group.same().count(), group.turned_over().count());
        let index = group.members.first()?.piece;
        let template = Self::assemble(solved, group.number, first.clone(), &cuts, count);
        let upright = views.iter().filter(|(view, start)| first.is_upright_with(view, *start));
        let upright: Vec<&str> = upright.map(|(view, _)| view.piece.name.as_str()).collect();
        let note = if upright.len() == views.len() {
            String::new()
        } else {
            format!("arrow: for {} alone, letters say how the others stand", shared_name(upright.into_iter()))
        };
        Some(Self { first: (index, template.first.1), copies: group.members.len(), note, ..template })
    }

    /// A straight-cut outline and nothing else yet.
    pub(super) fn plain(number: usize, outline: Vec<P2>, size: V2) -> Self {
        Self {
            baked: false,
            number,
            name: String::new(),
            count: String::new(),
            face: "",
            dough: String::new(),
            dough_name: String::new(),
            back: outline.clone(),
            outline,
            edges: Vec::new(),
            stands: Vec::new(),
            openings: Vec::new(),
            size,
            guides: Vec::new(),
            pressed: Vec::new(),
            under: Vec::new(),
            blank: None,
            blank_openings: Vec::new(),
            spreads: false,
            copies: 1,
            copy: 0,
            note: String::new(),
            first: (0, P2::origin()),
        }
    }

    /// The same with the lines inside it: bars to pipe, lines to press and, if wanted, the guides of what covers its
    /// pieces. Where congruent pieces differ in that, further templates follow that show the lines of the others; they
    /// have no number yet.
    pub(super) fn with_lines(self, solved: &Solved, dressed: &Dressed, group: &Group, guides: bool) -> Vec<Self> {
        let low = self.first.1;
        let mut kinds: Vec<(Lines, Vec<usize>)> = Vec::new();
        for (piece, lines) in Lines::of_group(solved, dressed, group, guides) {
            match kinds.iter_mut().find(|(own, _)| own.alike(&lines)) {
                Some((_, pieces)) => pieces.push(piece),
                None => kinds.push((lines, vec![piece])),
            }
        }
        let several = kinds.len() > 1;
        let number = self.number;
        let make = |(k, (lines, pieces)): (usize, (Lines, Vec<usize>))| {
            let names = shared_name(pieces.iter().filter_map(|p| solved.pieces.get(*p)).map(|p| p.name.as_str()));
            let at = |lines: Vec<[P2; 2]>| lines.into_iter().map(|line| line.map(|p| p - low.coords)).collect();
            let guides = lines.guides.into_iter().chain(lines.by_eye).collect();
            let lined = Self { guides: at(guides), pressed: at(lines.pressed), ..self.clone() };
            match k {
                0 if several => {
                    let note = format!("lines inside: for {names} alone");
                    let note = [lined.note.clone(), note].into_iter().filter(|n| !n.is_empty()).collect::<Vec<_>>();
                    Self { note: note.join("; "), ..lined }
                }
                0 => lined,
                _ => Self {
                    number: 0,
                    name: format!("{names}: lines inside"),
                    count: format!("cut with template {number}"),
                    edges: vec![EdgeMark::default(); lined.outline.len()],
                    stands: Vec::new(),
                    copies: 0,
                    ..lined
                },
            }
        };
        kinds.into_iter().enumerate().map(make).collect()
    }

    fn assemble(solved: &Solved, number: usize, view: View<'_>, members: &[Cut<'_>], count: String) -> Self {
        let (low, high) = bounds(view.outline.iter().chain(&view.back)).unwrap_or((P2::origin(), P2::origin()));
        let at = |p: &P2| p - low.coords;
        let stands: Vec<Vec<Stand>> = members.iter().map(|m| m.stands.clone()).collect();
        let stand = |m: StandMark| StandMark { ends: m.ends.map(|p| at(&p)), letters: listed(m.letters) };
        let letters: Vec<&[String]> = members.iter().map(|m| m.letters.as_slice()).collect();
        let piece = view.piece;
        let unit = solved.unit;
        Self {
            number,
            name: shared_name(members.iter().map(|m| m.piece.name.as_str())),
            count: if piece.baked { format!("baked ({count})") } else { count },
            baked: piece.baked,
            face: if piece.role.is_level() { "upper face up" } else { "outside face up" },
            dough: format!(
                "dough '{}': rolled {}, baked {}",
                piece.dough.0,
                unit.print(piece.rolled),
                unit.print(piece.thickness)
            ),
            dough_name: piece.dough.0.clone(),
            outline: view.outline.iter().map(at).collect(),
            back: view.back.iter().map(at).collect(),
            edges: view.edge_marks(solved, &letters),
            stands: merged(&stands).into_iter().map(stand).collect(),
            openings: view.openings.iter().map(|(c, mode)| (c.mapped(false, |p| at(&p)), *mode)).collect(),
            size: high - low,
            guides: Vec::new(),
            pressed: Vec::new(),
            under: Vec::new(),
            spreads: !piece.baked,
            note: String::new(),
            first: (0, low),
            ..Self::plain(number, Vec::new(), high - low)
        }
    }
}

/// The lines inside a template, in the view of its first piece.
struct Lines {
    guides: Vec<[P2; 2]>,
    pressed: Vec<[P2; 2]>,
    /// Tongues of snow: they are piped by eye, so one lie of them serves all.
    by_eye: Vec<[P2; 2]>,
}

impl Lines {
    /// Those of every piece of a group.
    fn of_group(solved: &Solved, dressed: &Dressed, group: &Group, guides: bool) -> Vec<(usize, Self)> {
        let Some((first, _)) = group.members.first().and_then(|m| View::of_member(solved, m)) else {
            return Vec::new();
        };
        let of_member = |m: &Member| {
            let (view, start) = View::of_member(solved, m)?;
            let own = dressed.opening_lines.iter().filter(|l| l.piece == m.piece);
            let (pressed, bars): (Vec<&OpeningLine>, Vec<&OpeningLine>) = own.partition(|l| l.pressed);
            let covers = dressed.finishes.iter().filter(|c| guides && c.piece == m.piece);
            let (snow, laid): (Vec<&Covered>, Vec<&Covered>) = covers.partition(|c| c.name == "snow");
            let all =
                |covers: Vec<&Covered>| covers.into_iter().flat_map(|c| c.guides.iter().copied()).collect::<Vec<_>>();
            let bars = bars.into_iter().map(|l| l.ends).chain(all(laid));
            let pressed: Vec<[P2; 2]> = pressed.into_iter().map(|l| l.ends).collect();
            let lie = (&view, start, m.turned_over);
            let guides = first.lines_of(lie, &bars.collect::<Vec<_>>())?;
            let by_eye = first.lines_of(lie, &all(snow))?;
            Some((m.piece, Self { guides, pressed: first.lines_of(lie, &pressed)?, by_eye }))
        };
        group.members.iter().filter_map(of_member).collect()
    }

    /// Whether both are the same lines, whatever their order.
    fn alike(&self, other: &Self) -> bool {
        /// Lines nearer than this are one, mm.
        const ALIKE: f64 = 0.2;
        let near = |p: &P2, q: &P2| (p - q).norm() < ALIKE;
        let same = |a: &[P2; 2], b: &[P2; 2]| {
            (near(&a[0], &b[0]) && near(&a[1], &b[1])) || (near(&a[0], &b[1]) && near(&a[1], &b[0]))
        };
        let all = |a: &[[P2; 2]], b: &[[P2; 2]]| a.len() == b.len() && a.iter().all(|l| b.iter().any(|m| same(l, m)));
        all(&self.guides, &other.guides) && all(&self.pressed, &other.pressed)
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
    let split: Vec<(&str, &str)> = names.map(|name| name.split_once(": ").unwrap_or(("", name))).collect();
    let part = |list: &[(&str, &str)]| {
        let rests: Vec<&str> = list.iter().map(|(_, rest)| *rest).collect();
        let rests = super::runs::of_names(&rests).join(" / ");
        list.first().filter(|(part, _)| !part.is_empty()).map_or(rests.clone(), |(part, _)| format!("{part}: {rests}"))
    };
    split.chunk_by(|a, b| a.0 == b.0).map(part).collect::<Vec<_>>().join(" / ")
}

/// The letters of all pieces as they are printed: one where they agree, none where there are none, a dash for a piece
/// that has none while others have.
fn listed(mut list: Vec<String>) -> Vec<String> {
    if list.iter().all(String::is_empty) {
        return Vec::new();
    }
    if list.iter().all(|l| Some(l) == list.first()) {
        list.truncate(1);
    }
    list.into_iter().map(|l| if l.is_empty() { "–".to_owned() } else { l }).collect()
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

    fn edge_marks(&self, solved: &Solved, letters: &[&[String]]) -> Vec<EdgeMark> {
        let mark = |k: usize| {
            let list = letters.iter().filter_map(|l| l.get(k).cloned()).collect();
            EdgeMark { letters: listed(list), bevel: self.bevel(k), board: self.is_foot(solved, k), trim: false }
        };
        (0..self.outline.len()).map(mark).collect()
    }

    /// Whether an edge stands on the base board.
    fn is_foot(&self, solved: &Solved, edge: usize) -> bool {
        let Some(EdgeKind::Joint(j)) = self.edges.get(edge) else { return false };
        solved.joints.get(*j).is_some_and(|j| j.ends.contains(&JointEnd::Board))
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
        let sides = ["Tower: side 2 wall", "Tower: side 3 wall", "Tower: side 4 wall"];
        assert_eq!(shared_name(sides.into_iter()), "Tower: walls of sides 2 to 4");
    }

    #[test]
    fn counts_say_how_many_are_turned_over() {
        assert_eq!(count(2, 0), "cut 2");
        assert_eq!(count(1, 1), "cut 1, and 1 with the pattern turned over");
    }
}
