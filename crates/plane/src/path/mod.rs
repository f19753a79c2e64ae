//! Outlines from path data of SVG (W3C SVG 2, chapter 9), with y turned to point up.

mod fit;
mod read;
mod simple;
#[cfg(test)]
mod tests;

use crate::{Contour, P2, Segment, V2};
use gable_words::tr;
use kurbo::{Arc, CubicBez, QuadBez};
use std::fmt;

/// Most steps of a path: several times what a drawn shape has.
const MOST_STEPS: usize = 2000;

/// How far the circular arcs and lines that stand for a curve may be from it, mm.
pub const CURVE_TOLERANCE: f64 = 0.005;

/// What path data draws, in its own units.
#[derive(Clone, Debug)]
pub struct SvgPath {
    outlines: Vec<Drawn>,
    low: P2,
    high: P2,
}

/// One outline of a path.
#[derive(Clone, Debug)]
struct Drawn {
    start: P2,
    steps: Vec<Step>,
    /// Whether its last step ends where it begins, or it was said to be closed.
    closed: bool,
}

/// One step of an outline; it begins where the last one ended.
#[derive(Clone, Copy, Debug)]
enum Step {
    Line(P2),
    Quad(QuadBez),
    Cubic(CubicBez),
    Arc(Arc, P2),
}

/// Why path data cannot be used.
#[derive(Clone, Debug, PartialEq)]
pub enum PathError {
    /// It is not path data from this character on, counted from 1.
    Unreadable(usize),
    /// It has too many steps.
    TooLong,
    /// It has no area.
    Empty,
    /// It has so many outlines where one is wanted.
    Several(usize),
    /// It does not come back to where it began.
    Open,
    /// It crosses or touches itself at this point, in the numbers of the data (y runs down).
    Crosses(P2),
}

impl PathError {
    /// What to do about it.
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::Unreadable(_) => tr!("give it path data of SVG, such as M0 0 L10 0 L5 -10 Z"),
            Self::TooLong => tr!("draw it with fewer points"),
            Self::Empty => tr!("give it an outline, such as M0 0 L10 0 L5 -10 Z"),
            Self::Several(_) => tr!("keep the outermost outline only"),
            Self::Open => tr!("end it with Z"),
            Self::Crosses(_) => tr!("draw it so that the outline goes round once"),
        }
    }
}

impl fmt::Display for PathError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable(at) => write!(f, "{}", tr!("the path cannot be read from character {at} on")),
            Self::TooLong => write!(f, "{}", tr!("the path has more than {MOST_STEPS} steps")),
            Self::Empty => f.write_str(tr!("the path encloses nothing")),
            Self::Several(count) => write!(f, "{}", tr!("the path has {count} outlines where one is wanted")),
            Self::Open => f.write_str(tr!("the path does not come back to where it begins")),
            Self::Crosses(p) => {
                write!(f, "{}", tr!("the path crosses or touches itself near x {:.4}, y {:.4}", p.x, p.y))
            }
        }
    }
}

impl std::error::Error for PathError {}

impl SvgPath {
    /// Reads path data; outlines that are left open may be closed by a straight line, as SVG fills them.
    ///
    /// # Errors
    /// When it is not path data, too long, or has no area at all.
    pub fn read(data: &str) -> Result<Self, PathError> {
        let outlines = read::outlines(data)?;
        if outlines.iter().map(|o| o.steps.len()).sum::<usize>() > MOST_STEPS {
            return Err(PathError::TooLong);
        }
        let reach = outlines.iter().flat_map(|o| {
            let from = std::iter::once(o.start).chain(o.steps.iter().map(Step::to));
            from.zip(&o.steps).flat_map(|(from, step)| fit::reach(from, step))
        });
        let points: Vec<P2> = reach.collect();
        let (low, high) = crate::bounds(&points).ok_or(PathError::Empty)?;
        let size = high - low;
        if !(size.min() > size.max() * 1e-6 && size.x.is_finite() && size.y.is_finite()) {
            return Err(PathError::Empty);
        }
        Ok(Self { outlines, low, high })
    }

    /// Width over height.
    pub fn proportion(&self) -> f64 {
        let size = self.high - self.low;
        size.x / size.y
    }

    /// Its outlines stretched so that together they fill a box: counter-clockwise, the largest first. Circular arcs stay
    /// arcs where the stretching leaves them round; other curves become arcs and lines within [`CURVE_TOLERANCE`].
    pub fn contours(&self, low: P2, high: P2) -> Vec<Contour> {
        let mut found = self.as_drawn(low, high);
        found.retain(|c| c.area().abs() > crate::SAME_POINT);
        found.sort_by(|a, b| b.area().abs().total_cmp(&a.area().abs()));
        found.into_iter().map(|c| if c.area() < 0.0 { c.reversed() } else { c }).collect()
    }

    /// Its outlines in a box, run round as they are drawn.
    fn as_drawn(&self, low: P2, high: P2) -> Vec<Contour> {
        let scale = (high - low).component_div(&(self.high - self.low));
        let place = Placed { from: self.low, scale, to: low };
        self.outlines.iter().map(|o| contour(o, &place)).collect()
    }

    /// Whether it is one closed outline that neither crosses nor touches itself.
    ///
    /// # Errors
    /// The first reason why it is not.
    pub fn single(&self) -> Result<(), PathError> {
        if self.outlines.len() != 1 {
            return Err(PathError::Several(self.outlines.len()));
        }
        if self.outlines.iter().any(|o| !o.closed) {
            return Err(PathError::Open);
        }
        simple::check(self)
    }
}

/// From the numbers of a path to a place and size of its own.
struct Placed {
    from: P2,
    scale: V2,
    to: P2,
}

impl Placed {
    fn point(&self, p: P2) -> P2 {
        self.to + (p - self.from).component_mul(&self.scale)
    }
}

impl Step {
    /// Where it ends.
    fn to(&self) -> P2 {
        match self {
            Self::Line(to) | Self::Arc(_, to) => *to,
            Self::Quad(curve) => P2::new(curve.p2.x, curve.p2.y),
            Self::Cubic(curve) => P2::new(curve.p3.x, curve.p3.y),
        }
    }
}

fn contour(drawn: &Drawn, place: &Placed) -> Contour {
    let start = place.point(drawn.start);
    let mut segments: Vec<Segment> = Vec::new();
    for step in &drawn.steps {
        let from = segments.last().map_or(start, Segment::to);
        fit::segments(from, step, place, &mut segments);
    }
    // A last step that comes back within rounding ends exactly at the start.
    if let Some(last) = segments.last_mut().filter(|s| (s.to() - start).norm() < crate::SAME_POINT) {
        match last {
            Segment::Line { to } | Segment::Arc { to, .. } => *to = start,
        }
    }
    Contour::new(start, segments)
}
