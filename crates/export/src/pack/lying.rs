//! A template as it lies on paper: upright, or turned left by right angles.

use super::clip::Window;
use super::ground::{Ground, rectangle};
use super::label::{Block, Places, visible};
use super::stand::{StandMark, on_rim};
use super::template::{EdgeMark, Template};
use super::words::{HEADING, PLAIN, SMALLEST};
use crate::fonts::text_width;
use gable_drawing::{Anchor, Fill, Item, Layer, LineRole, Shade, Stroke, Text};
use gable_plane::{Contour, P2, V2, bounds, convex_hull, ring_area};
use gable_shell::Mode;
use nalgebra::Isometry2;

/// How far from a small piece letters may stand that find no place on it, mm.
const MARGIN: f64 = 30.0;
/// Space between a small piece and its name when the name finds no place inside, mm.
const ASIDE: f64 = 2.0;
/// Widths that are tried for a name beside a small piece, mm.
const NAME_WIDTHS: [f64; 3] = [60.0, 45.0, 34.0];
/// Openings are flattened this fine where only words must keep off them, mm.
const ROUGH: f64 = 0.2;
/// Part of an edge shorter than this gets no letter on a tile if the edge goes on elsewhere, mm.
const SHORT_PART: f64 = 9.0;

/// A template in the coordinates of its place: the box round it starts at the origin.
pub(super) struct Lying<'a> {
    /// What it is.
    pub(super) template: &'a Template,
    /// Width and height of the box.
    pub(super) size: V2,
    /// Corners on the reference face.
    pub(super) outline: Vec<P2>,
    back: Vec<P2>,
    blank: Option<Vec<P2>>,
    blank_openings: Vec<Contour>,
    openings: Vec<(Contour, Mode)>,
    stands: Vec<StandMark>,
    guides: Vec<[P2; 2]>,
    pressed: Vec<[P2; 2]>,
    under: Vec<Vec<P2>>,
    up: V2,
}

/// Drawn things and the place they need; its box starts at the origin.
#[derive(Clone)]
pub(super) struct Art {
    /// What is drawn.
    pub(super) items: Vec<Item>,
    /// Width and height of the box.
    pub(super) size: V2,
    /// The outlines of both faces, and of the dough before it is trimmed.
    pub(super) faces: Vec<Vec<P2>>,
    /// What stands beside the outlines: areas with words, and pointers with two ends.
    pub(super) beside: Vec<Vec<P2>>,
}

impl Art {
    fn shift(&mut self, by: V2) {
        self.items.iter_mut().for_each(|item| shift(item, by));
        self.faces.iter_mut().chain(&mut self.beside).flatten().for_each(|p| *p += by);
    }
}

impl<'a> Lying<'a> {
    /// The template turned left by a number of right angles.
    pub(super) fn new(template: &'a Template, turns: u8) -> Self {
        let (wide, tall) = (template.size.x, template.size.y);
        let map = |p: &P2| match turns % 4 {
            0 => *p,
            1 => P2::new(tall - p.y, p.x),
            2 => P2::new(wide - p.x, tall - p.y),
            _ => P2::new(p.y, wide - p.x),
        };
        let ring = |r: &[P2]| r.iter().map(map).collect();
        Self {
            template,
            size: if turns % 2 == 1 { template.size.yx() } else { template.size },
            outline: ring(&template.outline),
            back: ring(&template.back),
            blank: template.blank.as_deref().map(ring),
            blank_openings: template.blank_openings.iter().map(|c| c.mapped(false, |p| map(&p))).collect(),
            openings: template.openings.iter().map(|(c, m)| (c.mapped(false, |p| map(&p)), *m)).collect(),
            stands: (template.stands.iter())
                .map(|s| StandMark { ends: s.ends.map(|p| map(&p)), letters: s.letters.clone() })
                .collect(),
            pressed: template.pressed.iter().map(|line| line.map(|p| map(&p))).collect(),
            under: template.under.iter().map(|line| ring(line)).collect(),
            guides: template.guides.iter().map(|line| line.map(|p| map(&p))).collect(),
            up: [V2::y(), -V2::x(), -V2::y(), V2::x()][usize::from(turns % 4)],
        }
    }

    fn whole_window(&self) -> Window {
        Window { low: P2::origin(), high: P2::from(self.size) }
    }

    /// All of it on one page, with its name inside or, where that finds no place, beneath it.
    pub(super) fn whole(&self) -> Art {
        let window = self.whole_window();
        let mut places = Places { lines: self.met(), inside: self.ground(&window, &[]), outside: Some(self.margin()) };
        let mut items = self.lines(&window);
        items.extend(self.letters(&mut places, &window));
        let full = Block::placed(self.template, self.up, &places.inside);
        let is_full = full.is_some();
        let block = full.or_else(|| Block::short_placed(self.template, self.up, &places.inside));
        items.extend(block.map(|(block, low)| block.draw(low)).into_iter().flatten());
        let all = places.outside.iter().flat_map(Ground::kept_free).flatten();
        let (low, high) = bounds(all).unwrap_or((P2::origin(), P2::from(self.size)));
        // The faces are kept free first of all.
        let faces = self.faces();
        let beside = places.outside.iter().flat_map(|g| g.kept_free().skip(faces.len())).cloned().collect();
        let mut art = Art { items: cleared(items), size: high - low, faces, beside };
        art.shift(-low.coords);
        if is_full { art } else { self.with_name_beside(&art) }
    }

    /// The paper round the piece, which letters of small pieces can take.
    fn margin(&self) -> Ground {
        let reach = V2::new(MARGIN, MARGIN);
        let window = Window { low: P2::from(-reach), high: P2::from(self.size + reach) };
        let mut margin = Ground::new(rectangle(window.low, window.size()).to_vec(), window);
        self.faces().into_iter().for_each(|face| margin.block(face));
        margin
    }

    /// Edges and lines at which others meet it.
    fn met(&self) -> Vec<[P2; 2]> {
        let count = self.outline.len();
        let edges = (0..count).map(|k| [self.outline[k], self.outline[(k + 1) % count]]);
        edges.chain(self.stands.iter().map(|s| s.ends)).collect()
    }

    fn faces(&self) -> Vec<Vec<P2>> {
        [&self.outline, &self.back].into_iter().chain(&self.blank).cloned().collect()
    }

    /// With the name beneath it or on its right, whichever takes less paper.
    fn with_name_beside(&self, art: &Art) -> Art {
        let tries = NAME_WIDTHS.into_iter().flat_map(|width| {
            let block = Block::new(self.template, self.up, [PLAIN, PLAIN, SMALLEST], width);
            [false, true].map(|right| named(art, &block, right))
        });
        let taken = |art: &Art| {
            ring_area(&convex_hull(&art.faces.iter().chain(&art.beside).flatten().copied().collect::<Vec<_>>()))
        };
        tries.min_by(|a, b| taken(a).total_cmp(&taken(b))).unwrap_or_else(|| art.clone())
    }

    /// Whether any of the piece lies in a window.
    pub(super) fn shows_in(&self, window: &Window) -> bool {
        let middle = window.low + window.size() / 2.0;
        !self.lines(window).is_empty() || super::ground::inside(&middle, &self.outline)
    }

    /// What a window shows of it: lines cut off at the window, letters and name where they fit. Words keep off the
    /// areas in `taken`.
    pub(super) fn part(&self, window: &Window, taken: &[Vec<P2>]) -> Vec<Item> {
        let mut items = self.lines(window);
        let mut places = Places { lines: self.met(), inside: self.ground(window, taken), outside: None };
        items.extend(self.letters(&mut places, window));
        let block = Block::placed(self.template, self.up, &places.inside)
            .or_else(|| Block::short_placed(self.template, self.up, &places.inside));
        if let Some((block, low)) = block {
            items.extend(block.draw(low));
        } else {
            // Too little of the piece for its name; the stamp of the page says which it is.
            let number = Block::short(self.template, self.up, HEADING);
            items.extend(
                ground_free_of_piece(&number, window, &self.outline).map(|low| number.draw(low)).into_iter().flatten(),
            );
        }
        cleared(items)
    }

    fn lines(&self, window: &Window) -> Vec<Item> {
        let mut strokes = vec![Stroke::contour(Layer::Cut, LineRole::Edge, &Contour::polygon(&self.outline))];
        strokes.extend(self.other_face());
        let blank = self.blank.iter().map(|ring| Contour::polygon(ring)).chain(self.blank_openings.iter().cloned());
        strokes.extend(blank.map(|contour| Stroke::contour(Layer::Guide, LineRole::Blank, &contour)));
        for (contour, mode) in &self.openings {
            strokes.push(match mode {
                Mode::Cut | Mode::Glazed => Stroke::contour(Layer::Cut, LineRole::Edge, contour),
                Mode::Pressed => Stroke::contour(Layer::Guide, LineRole::Pressed, contour),
            });
        }
        let stand = |s: &StandMark| Stroke::polyline(Layer::Guide, LineRole::Centre, &s.ends);
        let on_cut = |s: &&StandMark| on_rim(&s.ends, &self.outline) || self.hole_at(&s.ends).is_some();
        strokes.extend(self.stands.iter().filter(|s| !on_cut(s)).map(stand));
        strokes.extend(self.pressed.iter().map(|line| Stroke::polyline(Layer::Guide, LineRole::Pressed, line)));
        strokes.extend(self.under.iter().map(|line| Stroke::polyline(Layer::Guide, LineRole::Hidden, line)));
        let guides = self.guides.iter().map(|line| Stroke::polyline(Layer::Guide, LineRole::Fine, line));
        let strokes: Vec<Stroke> = guides.chain(strokes).collect();
        strokes.iter().flat_map(|s| window.clip(s)).map(Item::from).collect()
    }

    /// Edges of the other face, where it is not the same.
    fn other_face(&self) -> Vec<Stroke> {
        self.back_edges().map(|(a, b)| Stroke::polyline(Layer::Cut, LineRole::Hidden, &[a, b])).collect()
    }

    fn back_edges(&self) -> impl Iterator<Item = (P2, P2)> + '_ {
        let count = self.back.len();
        let apart = move |k: usize| (self.back[k] - self.outline[k]).norm() > 0.01;
        (0..count)
            .map(move |k| (k, (k + 1) % count))
            .filter(move |&(k, n)| apart(k) || apart(n))
            .map(|(k, n)| (self.back[k], self.back[n]))
    }

    /// The opening, flattened, along whose rim a line runs.
    fn hole_at(&self, ends: &[P2; 2]) -> Option<Vec<P2>> {
        let cut = self.openings.iter().filter(|(_, mode)| mode.goes_through());
        cut.map(|(contour, _)| contour.flatten(ROUGH)).find(|ring| on_rim(ends, ring))
    }

    fn ground(&self, window: &Window, taken: &[Vec<P2>]) -> Ground {
        let mut ground = Ground::new(self.outline.clone(), window.shrunk(0.5));
        self.openings.iter().for_each(|(contour, _)| ground.block(contour.flatten(ROUGH)));
        self.back_edges().for_each(|(a, b)| ground.block(vec![a, b]));
        self.stands.iter().for_each(|s| ground.block(s.ends.to_vec()));
        self.pressed.iter().for_each(|line| ground.block(line.to_vec()));
        self.under.iter().for_each(|line| ground.block(line.clone()));
        taken.iter().for_each(|ring| ground.block(ring.clone()));
        ground
    }

    fn letters(&self, places: &mut Places, window: &Window) -> Vec<Item> {
        let count = self.outline.len();
        let mut items = Vec::new();
        for (k, mark) in self.template.edges.iter().enumerate() {
            if mark.letters.is_empty() && mark.bevel.is_none() {
                continue;
            }
            let (a, b) = (self.outline[k], self.outline[(k + 1) % count]);
            let Some((start, end)) = visible(window, a, b) else { continue };
            let whole = (end - start).norm() + 1e-6 >= (b - a).norm();
            if whole || (end - start).norm() >= SHORT_PART {
                items.extend(places.edge_texts(start, end, mark));
            }
        }
        for stand in &self.stands {
            let Some((start, end)) = visible(window, stand.ends[0], stand.ends[1]) else { continue };
            match self.hole_at(&stand.ends) {
                // The letters stand on the dough: on the left of the rim run clockwise.
                Some(hole) => {
                    let left =
                        start + V2::new(start.y - end.y, end.x - start.x).normalize() * 1.0 + (end - start) / 2.0;
                    let into_hole = super::ground::inside(&left, &hole);
                    let (a, b) = if into_hole { (end, start) } else { (start, end) };
                    let mark = EdgeMark { letters: stand.letters.clone(), ..EdgeMark::default() };
                    items.extend(places.edge_texts(a, b, &mark));
                }
                None => items.extend(places.stand_texts(start, end, &stand.letters)),
            }
        }
        items
    }
}

/// A drawing with a block beneath it or on its right.
fn named(art: &Art, block: &Block, right: bool) -> Art {
    let mut art = art.clone();
    let low = if right {
        P2::new(art.size.x + ASIDE, ((art.size.y - block.size.y) / 2.0).max(0.0))
    } else {
        art.shift(V2::new(0.0, block.size.y + ASIDE));
        art.size.y += block.size.y + ASIDE;
        P2::origin()
    };
    art.items.extend(block.draw(low));
    art.beside.push(rectangle(low, block.size).to_vec());
    art.size = art.size.sup(&(low.coords + block.size));
    art
}

/// A place for a block beside the piece within a window.
fn ground_free_of_piece(block: &Block, window: &Window, outline: &[P2]) -> Option<P2> {
    let mut around = Ground::new(rectangle(window.low, window.size()).to_vec(), *window);
    around.block(outline.to_vec());
    let margin = V2::new(1.0, 1.0);
    around.place(block.size + margin * 2.0).map(|low| low + margin)
}

/// Moves an item.
pub(super) fn shift(item: &mut Item, by: V2) {
    place(item, &Isometry2::new(by, 0.0));
}

/// Turns an item about the origin and moves it.
pub(super) fn place(item: &mut Item, by: &Isometry2<f64>) {
    use gable_plane::Segment;
    match item {
        Item::Text(text) => {
            text.at = by * text.at;
            text.turn += by.rotation.angle();
        }
        Item::Fill(fill) => fill.rings.iter_mut().flatten().for_each(|p| *p = by * *p),
        Item::Stroke(stroke) => {
            stroke.start = by * stroke.start;
            for segment in &mut stroke.segments {
                match segment {
                    Segment::Line { to } => *to = by * *to,
                    Segment::Arc { to, centre, .. } => {
                        *to = by * *to;
                        *centre = by * *centre;
                    }
                }
            }
        }
    }
}

/// Guides first, then a clear patch under each text, then everything else.
fn cleared(items: Vec<Item>) -> Vec<Item> {
    let is_guide = |item: &Item| matches!(item, Item::Stroke(s) if s.role == LineRole::Fine);
    let (mut guides, rest): (Vec<Item>, Vec<Item>) = items.into_iter().partition(is_guide);
    if guides.is_empty() {
        return rest;
    }
    let patches = rest.iter().filter_map(|item| if let Item::Text(text) = item { Some(patch(text)) } else { None });
    let patches: Vec<Item> = patches.map(Item::from).collect();
    guides.extend(patches);
    guides.extend(rest);
    guides
}

/// White paper under a line of text.
fn patch(text: &Text) -> Fill {
    let width = text_width(&text.text, text.height, text.bold);
    let from = match text.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => -width / 2.0,
        Anchor::End => -width,
    };
    let (sin, cos) = text.turn.sin_cos();
    let (rim, drop) = (0.25 * text.height, 0.45 * text.height);
    let corners = [
        (from - rim, -drop),
        (from + width + rim, -drop),
        (from + width + rim, text.height + rim),
        (from - rim, text.height + rim),
    ];
    let ring = corners.map(|(x, y)| text.at + V2::new(x * cos - y * sin, x * sin + y * cos)).to_vec();
    Fill { layer: Layer::Guide, shade: Shade::Paper, rings: vec![ring] }
}
