use super::camera::{Camera, View};
use super::facet::{Facet, Kind, is_convex, role_along, runs};
use super::sort::Sprite;
use super::thing::Thing;
use crate::region::edges;
use gable_drawing::{Drawing, Fill, Layer, LineRole, Shade, Stroke};
use gable_plane::{P2, P3, V2, bounds, ring_area};

/// How far the fill of a fragment reaches over the cut between it and its neighbour, mm on paper, so that no hairline shows.
const SEAM: f64 = 0.12;

/// Paints things on a sheet, nearest last.
pub(crate) struct Painter {
    camera: Camera,
    scale: f64,
    /// Where the origin of the house is on the sheet.
    origin: V2,
    sheet: Drawing,
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
        Self { camera, scale, origin, sheet: Drawing::new(width, height) }
    }

    pub(crate) fn finished(self) -> Drawing {
        self.sheet
    }

    /// Paints a thing, or the fragment of it that the sprite is.
    pub(crate) fn paint(&mut self, thing: &Thing, sprite: &Sprite) {
        if sprite.whole {
            let aperture = |ring: usize| {
                let face = thing.facets.iter().find(|f| matches!(f.kind, Kind::Reference | Kind::Back))?;
                Some(self.counter_clockwise(face.rings.get(ring)?))
            };
            let apertures: Vec<Option<Vec<P2>>> = thing
                .facets
                .iter()
                .map(|f| if let Kind::Opening(ring) = f.kind { aperture(ring) } else { None })
                .collect();
            for (facet, aperture) in std::iter::zip(&thing.facets, apertures) {
                match (facet.kind, aperture) {
                    // Edge-on, nobody looks into an opening.
                    (Kind::Opening(_), None) => {}
                    (Kind::Opening(_), Some(through)) => self.reveal(facet, &through),
                    _ => self.facet(facet),
                }
            }
        } else {
            self.fragment(thing, sprite);
        }
        for ring in &thing.pressed {
            self.pressed(ring, sprite);
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

    fn fill(&mut self, shade: Shade, rings: Vec<Vec<P2>>) {
        self.sheet.push(Fill { layer: Layer::Picture, shade, rings });
    }

    fn line(&mut self, role: LineRole, points: &[P2], closed: bool) {
        let stroke = Stroke { closed, ..Stroke::polyline(Layer::Picture, role, points) };
        self.sheet.push(stroke);
    }

    fn facet(&mut self, facet: &Facet) {
        self.fill(facet.shade, facet.rings.iter().map(|r| self.ring(r)).collect());
        for (ring, roles) in std::iter::zip(&facet.rings, &facet.roles) {
            for (role, points, closed) in runs(ring, roles) {
                self.line(role, &self.ring(&points), closed);
            }
        }
    }

    /// The wall of an opening, as much of it as is seen through the opening.
    fn reveal(&mut self, facet: &Facet, through: &[P2]) {
        if !is_convex(through) {
            return self.facet(facet);
        }
        let Some(ring) = facet.rings.first() else { return };
        let seen = clipped(&self.counter_clockwise(ring), through);
        if seen.len() >= 3 {
            self.fill(facet.shade, vec![seen]);
        }
        for (role, points, _) in facet.roles.first().map(|roles| runs(ring, roles)).unwrap_or_default() {
            for pair in self.ring(&points).windows(2) {
                if let Some(part) = clipped_line([pair[0], pair[1]], through) {
                    self.line(role, &part, false);
                }
            }
        }
    }

    /// The faces of a fragment that are faces of its thing. Cuts are neither filled nor drawn, because the neighbour
    /// that they lie against hides them.
    fn fragment(&mut self, thing: &Thing, sprite: &Sprite) {
        let camera = self.camera;
        for face in sprite.solids.iter().flat_map(|s| s.faces()).filter(|f| camera.sees(&f.normal)) {
            let same = |f: &&Facet| {
                let flush = |p: &P3| f.rings[0].first().is_some_and(|q| (p - q).dot(&f.normal).abs() < 1e-4);
                f.normal.dot(&face.normal) > 1.0 - 1e-6
                    && face.corners.iter().all(flush)
                    && (matches!(f.kind, Kind::Reference | Kind::Back) || covers(f, &face.corners))
            };
            let Some(facet) = thing.coarse.iter().find(same) else { continue };
            let ring = self.counter_clockwise(&face.corners);
            self.fill(facet.shade, vec![ring]);
            for k in 0..face.corners.len() {
                let (a, b) = (face.corners[k], face.corners[(k + 1) % face.corners.len()]);
                let ends = [self.place(&a), self.place(&b)];
                match role_along(facet, &a, &b) {
                    Some(role) => self.line(role, &ends, false),
                    None => self.fill(facet.shade, vec![seam(ends)]),
                }
            }
        }
    }

    fn pressed(&mut self, ring: &[P3], sprite: &Sprite) {
        let camera = self.camera;
        let flat = self.ring(ring);
        if sprite.whole {
            return self.line(LineRole::Pressed, &flat, true);
        }
        for face in sprite.solids.iter().flat_map(|s| s.faces()).filter(|f| camera.sees(&f.normal)) {
            let on = |p: &P3| face.corners.first().is_some_and(|q| (p - q).dot(&face.normal).abs() < 1e-6);
            if ring.iter().all(on) {
                let window = self.counter_clockwise(&face.corners);
                for side in edges(&flat).filter_map(|e| clipped_line(e, &window)) {
                    self.line(LineRole::Pressed, &side, false);
                }
            }
        }
    }
}

/// Whether a side face reaches over the middle of some corners in its plane.
fn covers(facet: &Facet, corners: &[P3]) -> bool {
    let sum = corners.iter().fold(gable_plane::V3::zeros(), |s, p| s + p.coords);
    let middle = P3::from(sum / corners.len() as f64);
    let ring = &facet.rings[0];
    (0..ring.len()).all(|k| {
        let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
        (b - a).cross(&(middle - a)).dot(&facet.normal) >= -1e-6
    })
}

/// A strip along a cut, reaching over it on both sides.
fn seam([a, b]: [P2; 2]) -> Vec<P2> {
    let along = (b - a).try_normalize(0.0).unwrap_or_else(V2::zeros);
    let over = V2::new(along.y, -along.x) * SEAM;
    vec![a + over, b + over, b - over, a - over]
}

/// A convex ring cut to a convex window, both counter-clockwise.
fn clipped(ring: &[P2], window: &[P2]) -> Vec<P2> {
    edges(window).fold(ring.to_vec(), |ring, [a, b]| {
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
fn clipped_line([p, q]: [P2; 2], window: &[P2]) -> Option<[P2; 2]> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for [a, b] in edges(window) {
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
