//! From the text to steps with y up. The text is taken apart by svgtypes, which leaves arcs as they are written.

use super::{Drawn, PathError, Step};
use crate::P2;
use kurbo::{Arc, CubicBez, Point, QuadBez, SvgArc, Vec2};
use svgtypes::{PathParser, PathSegment};

/// Where the pen is while a path is followed.
#[derive(Default)]
struct Pen {
    outlines: Vec<Drawn>,
    at: P2,
    start: P2,
    /// The last control point of a cubic or quadratic curve, for smooth ones that follow.
    cubic: Option<P2>,
    quad: Option<P2>,
    drawing: bool,
}

pub(super) fn outlines(data: &str) -> Result<Vec<Drawn>, PathError> {
    if let Some(at) = data.chars().position(|c| !c.is_ascii()) {
        return Err(PathError::Unreadable(at + 1));
    }
    let mut pen = Pen::default();
    for segment in PathParser::from(data) {
        let segment = segment.map_err(|error| PathError::Unreadable(place(&error).unwrap_or(data.len())))?;
        pen.follow(segment);
        if pen.outlines.len() > super::MOST_STEPS {
            return Err(PathError::TooLong);
        }
    }
    for drawn in &mut pen.outlines {
        let end = drawn.steps.last().map_or(drawn.start, Step::to);
        let size = drawn.steps.iter().map(|s| (s.to() - drawn.start).amax()).fold(0.0, f64::max);
        drawn.closed |= (end - drawn.start).amax() <= size * 1e-6;
    }
    pen.outlines.retain(|o| !o.steps.is_empty());
    Ok(pen.outlines)
}

/// The character where an error is.
fn place(error: &svgtypes::Error) -> Option<usize> {
    use svgtypes::Error;
    match error {
        Error::UnexpectedData(at)
        | Error::InvalidChar(_, at)
        | Error::InvalidString(_, at)
        | Error::InvalidNumber(at) => Some(*at),
        Error::UnexpectedEndOfStream | Error::InvalidValue | Error::InvalidIdent => None,
    }
}

impl Pen {
    fn follow(&mut self, segment: PathSegment) {
        let base = if segment.is_abs() { P2::origin() } else { self.at };
        let point = |x: f64, y: f64| P2::new(base.x + x, base.y - y);
        let (cubic, quad) = (self.cubic.take(), self.quad.take());
        match segment {
            PathSegment::MoveTo { x, y, .. } => {
                self.at = point(x, y);
                self.start = self.at;
                self.drawing = false;
            }
            PathSegment::LineTo { x, y, .. } => self.step(Step::Line(point(x, y))),
            PathSegment::HorizontalLineTo { x, .. } => self.step(Step::Line(P2::new(base.x + x, self.at.y))),
            PathSegment::VerticalLineTo { y, .. } => self.step(Step::Line(P2::new(self.at.x, base.y - y))),
            PathSegment::CurveTo { x1, y1, x2, y2, x, y, .. } => {
                self.cubic(point(x1, y1), point(x2, y2), point(x, y));
            }
            PathSegment::SmoothCurveTo { x2, y2, x, y, .. } => {
                let first = self.mirrored(cubic);
                self.cubic(first, point(x2, y2), point(x, y));
            }
            PathSegment::Quadratic { x1, y1, x, y, .. } => self.quad(point(x1, y1), point(x, y)),
            PathSegment::SmoothQuadratic { x, y, .. } => {
                let first = self.mirrored(quad);
                self.quad(first, point(x, y));
            }
            PathSegment::EllipticalArc { rx, ry, x_axis_rotation, large_arc, sweep, x, y, .. } => {
                let to = point(x, y);
                // With y up the ellipse leans the other way, and what was clockwise runs counter-clockwise.
                let written = SvgArc {
                    from: of(self.at),
                    to: of(to),
                    radii: Vec2::new(rx, ry),
                    x_rotation: -x_axis_rotation.to_radians(),
                    large_arc,
                    sweep: !sweep,
                };
                self.step(Arc::from_svg_arc(&written).map_or(Step::Line(to), |arc| Step::Arc(arc, to)));
            }
            PathSegment::ClosePath { .. } => {
                if let Some(drawn) = self.outlines.last_mut().filter(|_| self.drawing) {
                    drawn.closed = true;
                }
                self.at = self.start;
                self.drawing = false;
            }
        }
    }

    fn step(&mut self, step: Step) {
        if !self.drawing {
            self.outlines.push(Drawn { start: self.at, steps: Vec::new(), closed: false });
            (self.start, self.drawing) = (self.at, true);
        }
        self.at = step.to();
        if let Some(drawn) = self.outlines.last_mut() {
            drawn.steps.push(step);
        }
    }

    fn cubic(&mut self, first: P2, second: P2, to: P2) {
        let curve = CubicBez::new(of(self.at), of(first), of(second), of(to));
        self.step(Step::Cubic(curve));
        self.cubic = Some(second);
    }

    fn quad(&mut self, first: P2, to: P2) {
        let curve = QuadBez::new(of(self.at), of(first), of(to));
        self.step(Step::Quad(curve));
        self.quad = Some(first);
    }

    /// The control point that goes on smoothly after the last one; the pen itself where there was none.
    fn mirrored(&self, control: Option<P2>) -> P2 {
        control.map_or(self.at, |c| self.at + (self.at - c))
    }
}

fn of(p: P2) -> Point {
    Point::new(p.x, p.y)
}
