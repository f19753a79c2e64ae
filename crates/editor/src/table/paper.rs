use egui::{Pos2, Rect, Vec2, pos2, vec2};
use gable_plane::{P2, V2};

/// How millimetres of a drawing (y up) lie in a rectangle of the window (y down).
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Paper {
    /// The rectangle.
    pub(crate) rect: Rect,
    /// Points of the window for a millimetre.
    pub(crate) scale: f32,
    /// Place of the drawing in the middle of the rectangle.
    pub(crate) middle: P2,
}

impl Paper {
    /// A paper on which a box of the drawing fills the rectangle, with margins in points.
    pub(crate) fn fitted(rect: Rect, (low, high): (P2, P2), margin: Vec2) -> Self {
        let size = high - low;
        let room = (rect.size() - 2.0 * margin).max(vec2(20.0, 20.0));
        let scale = (room.x / (size.x.max(1.0) as f32)).min(room.y / (size.y.max(1.0) as f32));
        Self { rect, scale, middle: P2::from((low.coords + high.coords) / 2.0) }
    }

    /// Where a place of the drawing is in the window.
    pub(crate) fn at(&self, p: P2) -> Pos2 {
        let off = p - self.middle;
        let centre = self.rect.center();
        pos2(centre.x + off.x as f32 * self.scale, centre.y - off.y as f32 * self.scale)
    }

    /// The place of the drawing that is somewhere in the window.
    pub(crate) fn place(&self, at: Pos2) -> P2 {
        self.middle + self.span(at - self.rect.center())
    }

    /// What a drag in the window is in the drawing, mm.
    pub(crate) fn span(&self, drag: Vec2) -> V2 {
        V2::new(f64::from(drag.x / self.scale), f64::from(-drag.y / self.scale))
    }

    /// The direction of the window that a direction of the drawing is, of length one.
    pub(crate) fn way(&self, direction: V2) -> Vec2 {
        vec2(direction.x as f32, -direction.y as f32).normalized()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_measure_what_lies_between_places() {
        let rect = Rect::from_min_size(pos2(10.0, 20.0), vec2(300.0, 200.0));
        let paper = Paper::fitted(rect, (P2::new(-5.0, 0.0), P2::new(95.0, 70.0)), Vec2::splat(20.0));
        let (p, q) = (P2::new(12.5, 33.0), P2::new(40.0, -2.0));
        assert!((paper.span(paper.at(p) - paper.at(q)) - (p - q)).norm() < 1e-3);
        assert!((paper.place(paper.at(p)) - p).norm() < 1e-3);
        assert!(paper.at(P2::new(0.0, 70.0)).y < paper.at(P2::new(0.0, 0.0)).y);
    }
}
