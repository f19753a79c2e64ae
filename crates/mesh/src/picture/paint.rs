use super::camera::{Camera, View};
use super::decal::Decal;
use super::facet::{Facet, Kind, is_convex, role_along, runs};
use super::sort::Sprite;
use super::thing::Thing;
use crate::order::middle;
use crate::region::edges;
use gable_drawing::{Anchor, Drawing, Fill, Layer, LineRole, Shade, Stroke, Text};
use gable_plane::{Face, P2, P3, V2, bounds, ring_area};

/// How far the fill of a fragment reaches over the cut between it and its neighbour, mm on paper, so that no hairline shows.
const SEAM: f64 = 0.12;
/// The same for what is laid over each other on a fragment: the biscuit, what shows between units, the units. Each reaches
/// further than what it covers, or the soft edges of both would lie on each other and the lower one shine through.
const REACH: [f64; 3] = [0.5 * SEAM, 1.25 * SEAM, 2.0 * SEAM];
/// Height of capitals of words in a picture, mm.
const LABEL: f64 = 2.5;

/// Paints things on a sheet, nearest last.
pub(crate) struct Painter {
    camera: Camera,
    scale: f64,
    /// Where the origin of the house is on the sheet.
    origin: V2,
    sheet: Drawing,
    /// Middles and half sizes of the words so far.
    labels: Vec<(P2, V2)>,
}

impl Painter {
    /// A sheet on which the corners fit with their margin.
    pub(crate) fn new(camera: Camera, view: &View, corners: &[P3]) -> Self {
        let flat: Vec<P2> = corners.iter().map(|p| camera.flat(p)).collect();
        let (low, high) = bounds(&flat).unwrap_or((P2::origin(), P2::new(1.0, 1.0)));
        let (width, margin) = (view.width.mm().max(1.0), view.margin.mm().max(0.0));
        let scale = (width - 2.0 * margin).max(width / 10.0) / (high.x - low.x).max(1e-3);
        let origin = V2::new(width / 2.0 - (low.x + high.x) / 2.0 * scale, margin - low.y * scale);
        let height = (high.y - low.y) * scale + 2.0 * margin;
        Self { camera, scale, origin, sheet: Drawing::new(width, height), labels: Vec::new() }
    }

    pub(crate) fn finished(self) -> Drawing {
        self.sheet
    }

    /// Paints a thing, or the fragments of it that the sprites are.
    pub(crate) fn paint(&mut self, thing: &Thing, sprites: &[Sprite]) {
        if sprites.iter().all(|s| s.whole) {
            self.whole(thing);
        } else {
            self.fragments(thing, sprites);
        }
    }

    fn whole(&mut self, thing: &Thing) {
        if thing.soft {
            // Of one colour all over: a face may cover another one, but not its lines.
            thing.facets.iter().for_each(|f| self.surface(f));
            thing.facets.iter().for_each(|f| self.outline(f));
            return;
        }
        let face = thing.facets.iter().find(|f| matches!(f.kind, Kind::Reference | Kind::Back));
        for facet in &thing.facets {
            match (facet.kind, face) {
                // Edge-on, nobody looks into an opening.
                (Kind::Opening(_), None) => {}
                (Kind::Opening(ring), Some(face)) => {
                    let through = face.rings.get(ring).map(|r| self.counter_clockwise(r)).unwrap_or_default();
                    self.reveal(facet, &through);
                }
                _ => self.facet(facet),
            }
        }
        for decal in &thing.decals {
            let rings: Vec<Vec<P2>> = decal.rings.iter().map(|r| self.ring(r)).collect();
            let lines = if decal.lined { rings.clone() } else { Vec::new() };
            self.fill(decal.shade, rings);
            lines.iter().for_each(|ring| self.line(LineRole::Fine, ring, true));
        }
        self.outer_edge(thing);
        // A groove in the biscuit, not a line of a pattern: no dashes.
        for ring in &thing.pressed {
            self.line(LineRole::Thin, &self.ring(ring), true);
        }
    }

    /// The lines of a face once more, where a finish has been laid over half of them.
    fn outer_edge(&mut self, thing: &Thing) {
        let faces = thing.facets.iter().filter(|f| matches!(f.kind, Kind::Reference | Kind::Back));
        if !thing.decals.is_empty() {
            faces.for_each(|face| self.outline(face));
        }
    }

    /// Sides of a fragment, counter-clockwise; those that are cuts lie a little further out.
    fn sides_with_seams(&self, facet: &Facet, face: &Face, reach: f64) -> Vec<[P2; 2]> {
        let corners = &face.corners;
        let turned = ring_area(&self.ring(corners)) < 0.0;
        let side = |k: usize| {
            let (a, b) = (corners[k], corners[(k + 1) % corners.len()]);
            let ends = [self.place(&a), self.place(&b)];
            let [from, to] = if turned { [ends[1], ends[0]] } else { ends };
            let along = (to - from).try_normalize(0.0).unwrap_or_else(V2::zeros);
            let reach = if role_along(facet, &a, &b).is_none() { reach } else { 0.0 };
            [from, to].map(|p| p + V2::new(along.y, -along.x) * reach)
        };
        (0..corners.len()).map(side).collect()
    }

    /// What of the decals of a face lies in a convex fragment of it.
    /// `sides` are those of the fragment, moved out where it was cut, so that no hairline shows between two fragments.
    fn decals_in(&mut self, thing: &Thing, sides: &[[P2; 2]], chosen: impl Fn(&Decal) -> bool) {
        for decal in thing.decals.iter().filter(|d| chosen(d)) {
            let rings: Vec<Vec<P2>> = decal.rings.iter().map(|r| clipped_to(&self.ring(r), sides)).collect();
            if rings.first().is_none_or(|rim| rim.len() < 3) {
                continue;
            }
            self.fill(decal.shade, rings.into_iter().filter(|r| r.len() >= 3).collect());
            if decal.lined {
                let around: Vec<[P2; 2]> =
                    decal.rings.iter().flat_map(|r| edges(&self.ring(r)).collect::<Vec<_>>()).collect();
                for part in around.into_iter().filter_map(|side| line_clipped_to(side, sides)) {
                    self.line(LineRole::Fine, &part, false);
                }
            }
        }
    }

    fn place(&self, p: &P3) -> P2 {
        self.camera.flat(p) * self.scale + self.origin
    }

    fn ring(&self, ring: &[P3]) -> Vec<P2> {
        ring.iter().map(|p| self.place(p)).collect()
    }

    fn counter_clockwise(&self, ring: &[P3]) -> Vec<P2> {
        let mut flat = self.ring(ring);
        if ring_area(&flat) < 0.0 {
            flat.reverse();
        }
        flat
    }

    /// Words on a white patch, moved down where others stand already.
    pub(super) fn label(&mut self, at: &P3, words: &str) {
        let mut at = self.place(at);
        // A capital is at most about as wide as it is high.
        let half = V2::new(LABEL * (0.45 * words.chars().count() as f64 + 0.3), LABEL * 0.75);
        let meets = |at: &P2, other: &(P2, V2)| {
            let (apart, least) = ((at - other.0).abs(), half + other.1);
            apart.x < least.x && apart.y < least.y
        };
        while let Some(other) = self.labels.iter().find(|other| meets(&at, other)) {
            at.y = other.0.y - half.y - other.1.y - 1e-6;
        }
        self.labels.push((at, half));
        let patch =
            [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| at + V2::new(x * half.x, y * half.y));
        self.fill(Shade::Paper, vec![patch.to_vec()]);
        let base = at - V2::new(0.0, LABEL / 2.0);
        let text = Text { layer: Layer::Picture, bold: true, ..Text::note(base, LABEL, Anchor::Middle, words) };
        self.sheet.push(text);
    }

    fn fill(&mut self, shade: Shade, rings: Vec<Vec<P2>>) {
        self.sheet.push(Fill { layer: Layer::Picture, shade, rings });
    }

    fn line(&mut self, role: LineRole, points: &[P2], closed: bool) {
        let stroke = Stroke { closed, ..Stroke::polyline(Layer::Picture, role, points) };
        self.sheet.push(stroke);
    }

    fn facet(&mut self, facet: &Facet) {
        self.surface(facet);
        self.outline(facet);
    }

    fn surface(&mut self, facet: &Facet) {
        self.fill(facet.shade, facet.rings.iter().map(|r| self.ring(r)).collect());
        if !facet.shade.is_clear() {
            for strip in self.seams(facet) {
                self.fill(facet.shade, vec![strip]);
            }
        }
    }

    fn outline(&mut self, facet: &Facet) {
        for (ring, roles) in std::iter::zip(&facet.rings, &facet.roles) {
            for (role, points, closed) in runs(ring, roles) {
                self.line(role, &self.ring(&points), closed);
            }
        }
    }

    /// Strips along the sides that have no line, where the facet goes on in the next one.
    fn seams(&self, facet: &Facet) -> Vec<Vec<P2>> {
        let sides = std::iter::zip(&facet.rings, &facet.roles).flat_map(|(ring, roles)| {
            let count = ring.len();
            std::iter::zip(0..count, roles)
                .filter(|(_, role)| role.is_none())
                .map(move |(k, _)| [ring[k], ring[(k + 1) % count]])
        });
        sides.map(|side| seam(side.map(|p| self.place(&p)), SEAM)).collect()
    }

    /// The wall of an opening, as much of it as is seen through the opening.
    fn reveal(&mut self, facet: &Facet, through: &[P2]) {
        if !is_convex(through) {
            return self.facet(facet);
        }
        let Some(ring) = facet.rings.first() else { return };
        let seen = clipped(&self.counter_clockwise(ring), through);
        let strips = self.seams(facet).into_iter().map(|strip| clipped(&strip, through));
        for part in std::iter::once(seen).chain(strips).filter(|part| part.len() >= 3) {
            self.fill(facet.shade, vec![part]);
        }
        for (role, points, _) in facet.roles.first().map(|roles| runs(ring, roles)).unwrap_or_default() {
            for pair in self.ring(&points).windows(2) {
                if let Some(part) = clipped_line([pair[0], pair[1]], through) {
                    self.line(role, &part, false);
                }
            }
        }
    }

    /// The opening, as it is seen in the face, that a facet is a wall of; `None` for other facets and odd shapes.
    fn window_of(&self, thing: &Thing, facet: &Facet) -> Option<Vec<P2>> {
        let Kind::Opening(ring) = facet.kind else { return None };
        let face = thing.coarse.iter().find(|f| matches!(f.kind, Kind::Reference | Kind::Back))?;
        let window = self.counter_clockwise(face.rings.get(ring)?);
        is_convex(&window).then_some(window)
    }

    /// The faces of fragments that are faces of their thing. Cuts are neither drawn nor seen, because the neighbour that
    /// they lie against hides them. Lines come after all fills, so that no neighbour covers half of them.
    fn fragments(&mut self, thing: &Thing, sprites: &[Sprite]) {
        let camera = self.camera;
        let faces = sprites.iter().flat_map(|s| &s.solids).flat_map(|s| s.faces());
        let mut lines: Vec<(LineRole, [P2; 2])> = Vec::new();
        let mut decked: Vec<([Vec<[P2; 2]>; 2], Face)> = Vec::new();
        let reach = if thing.decals.is_empty() { SEAM } else { REACH[0] };
        for face in faces.filter(|f| camera.sees(&f.normal)) {
            let Some(facet) = thing.coarse.iter().find(|f| belongs(&face, f)) else { continue };
            // Of the wall of an opening only what is seen through the opening.
            let through = self.window_of(thing, facet);
            let seen = |ring: Vec<P2>| through.as_ref().map_or(ring.clone(), |w| clipped(&ring, w));
            let ring = seen(self.counter_clockwise(&face.corners));
            for k in 0..face.corners.len() {
                let (a, b) = (face.corners[k], face.corners[(k + 1) % face.corners.len()]);
                let ends = [self.place(&a), self.place(&b)];
                match role_along(facet, &a, &b) {
                    Some(role) => {
                        let part = through.as_ref().map_or(Some(ends), |w| clipped_line(ends, w));
                        lines.extend(part.map(|ends| (role, ends)));
                    }
                    None if facet.shade.is_clear() => {}
                    None => self.fill(facet.shade, vec![seen(seam(ends, reach))]),
                }
            }
            let on = |p: &P3| face.corners.first().is_some_and(|q| (p - q).dot(&face.normal).abs() < 1e-6);
            for outline in thing.pressed.iter().filter(|outline| outline.iter().all(on)) {
                let outline = self.ring(outline);
                lines.extend(edges(&outline).filter_map(|e| Some((LineRole::Thin, clipped_line(e, &ring)?))));
            }
            self.fill(facet.shade, vec![ring]);
            if !thing.decals.is_empty() {
                let sides = [REACH[1], REACH[2]].map(|reach| self.sides_with_seams(facet, &face, reach));
                decked.push((sides, face));
            }
        }
        // What lies under units comes first in all fragments, so that it covers no unit of a neighbour.
        for lined in [false, true] {
            for (sides, face) in &decked {
                let flush = |p: &P3| face.corners.first().is_some_and(|q| (p - q).dot(&face.normal).abs() < 1e-4);
                self.decals_in(thing, &sides[usize::from(lined)], |d| {
                    d.lined == lined && d.rings.iter().flatten().next().is_some_and(flush)
                });
            }
        }
        for (role, ends) in lines {
            self.line(role, &ends, false);
        }
    }
}

/// Whether a face of a solid is part of a face of its thing.
fn belongs(face: &Face, facet: &Facet) -> bool {
    let flush = |p: &P3| facet.rings[0].first().is_some_and(|q| (p - q).dot(&facet.normal).abs() < 1e-4);
    facet.normal.dot(&face.normal) > 1.0 - 1e-6
        && face.corners.iter().all(flush)
        && (matches!(facet.kind, Kind::Reference | Kind::Back) || covers(facet, &face.corners))
}

/// Whether a side face reaches over the middle of some corners in its plane.
fn covers(facet: &Facet, corners: &[P3]) -> bool {
    let middle = middle(corners);
    let ring = &facet.rings[0];
    (0..ring.len()).all(|k| {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        (b - a).cross(&(middle - a)).dot(&facet.normal) >= -1e-6
    })
}

/// A strip along a cut, reaching so far over it on both sides, counter-clockwise.
fn seam([a, b]: [P2; 2], reach: f64) -> Vec<P2> {
    let along = (b - a).try_normalize(0.0).unwrap_or_else(V2::zeros);
    let right = V2::new(along.y, -along.x) * reach;
    vec![a + right, b + right, b - right, a - right]
}

/// A convex ring cut to a convex window, both counter-clockwise.
fn clipped(ring: &[P2], window: &[P2]) -> Vec<P2> {
    clipped_to(ring, &edges(window).collect::<Vec<_>>())
}

/// A ring cut to what lies left of all sides.
pub(super) fn clipped_to(ring: &[P2], sides: &[[P2; 2]]) -> Vec<P2> {
    sides.iter().fold(ring.to_vec(), |ring, &[a, b]| {
        let inside = |p: &P2| (b - a).perp(&(p - a));
        let mut kept = Vec::new();
        for [p, q] in edges(&ring) {
            let (here, there) = (inside(&p), inside(&q));
            if here >= 0.0 {
                kept.push(p);
            }
            if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
                kept.push(p + (q - p) * (here / (here - there)));
            }
        }
        kept
    })
}

/// A line cut to a convex window; `None` when next to nothing is left.
fn clipped_line(line: [P2; 2], window: &[P2]) -> Option<[P2; 2]> {
    line_clipped_to(line, &edges(window).collect::<Vec<_>>())
}

fn line_clipped_to([p, q]: [P2; 2], sides: &[[P2; 2]]) -> Option<[P2; 2]> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for &[a, b] in sides {
        let (here, there) = ((b - a).perp(&(p - a)), (b - a).perp(&(q - a)));
        if here < 0.0 && there < 0.0 {
            return None;
        }
        let share = here / (here - there);
        if here < 0.0 {
            from = from.max(share);
        } else if there < 0.0 {
            to = to.min(share);
        }
    }
    ((to - from) * (q - p).norm() > 1e-3).then(|| [p + (q - p) * from, p + (q - p) * to])
}
