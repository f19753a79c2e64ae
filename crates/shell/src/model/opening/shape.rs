use gable_measure::Length;
use gable_plane::{Contour, P2, SvgPath, regular_polygon};

/// Outline of an opening.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Shape {
    /// A rectangle.
    #[default]
    Rectangle,
    /// A half circle over a rectangle.
    RoundHeaded,
    /// A flat arc over a rectangle.
    Segmental {
        /// How far the arc rises above its ends.
        rise: Length,
    },
    /// A pointed arch over a rectangle.
    Pointed {
        /// Radius of its arcs over the width: 1 for an equilateral arch, less for a drop arch, more for a lancet.
        radius: f64,
    },
    /// A circle; as high as it is wide.
    Circle,
    /// An ellipse.
    Ellipse,
    /// A half circle over a level foot; half as high as it is wide.
    Fanlight,
    /// A regular polygon with a level foot; its height follows from its width.
    Regular {
        /// Number of corners.
        corners: u8,
    },
    /// A polygon with free corners.
    Free {
        /// Corners as shares of width and height from the lower left, counter-clockwise seen from outside; they reach from
        /// 0 to 1 both ways.
        corners: Vec<[f64; 2]>,
    },
    /// One closed outline drawn elsewhere, stretched to width and height.
    Path {
        /// Path data of SVG; y runs down there.
        data: String,
        /// Whether it is seen in a mirror.
        mirrored: bool,
    },
    /// The whole face as a frame of posts and rails with fields between; width, height and place count for nothing.
    WholeFace {
        /// Fields beside each other.
        across: u8,
        /// Fields over each other.
        up: u8,
        /// Width of the frame round the fields and of the posts and rails between them.
        bar: Length,
    },
}

impl Shape {
    /// Whether it is the whole face.
    pub fn is_whole_face(&self) -> bool {
        matches!(self, Self::WholeFace { .. })
    }

    /// The height over all where the width decides it.
    pub fn height_of(&self, width: Length) -> Option<Length> {
        match self {
            Self::Circle => Some(width),
            Self::Fanlight => Some(width / 2.0),
            Self::Regular { corners } => {
                let (_, high) = gable_plane::bounds(&regular_polygon(*corners, width.mm()))?;
                Some(Length::mm_of(high.y))
            }
            _ => None,
        }
    }

    /// Height of the head over its springing line, for heads that need it.
    pub fn head(&self, width: Length) -> Option<Length> {
        match self {
            Self::RoundHeaded => Some(width / 2.0),
            Self::Segmental { rise } => Some(*rise),
            Self::Pointed { radius } => Some(width * (radius - 0.25).max(0.0).sqrt()),
            _ => None,
        }
    }

    /// Whether it stands on a level foot as wide as its sides, so that it can be a door.
    pub fn has_foot(&self) -> bool {
        matches!(self, Self::Rectangle | Self::RoundHeaded | Self::Segmental { .. } | Self::Pointed { .. })
    }

    /// Its exact outline in a box, seen from outside, counter-clockwise; an ellipse as arcs within
    /// [`gable_plane::ELLIPSE_TOLERANCE`], other curves within [`gable_plane::CURVE_TOLERANCE`]. `None` where the box is too
    /// low for its head, or empty, for a path that cannot be read, and for a whole face.
    pub fn contour(&self, low: P2, high: P2) -> Option<Contour> {
        let size = high - low;
        if !(size.x > 0.0 && size.y > 0.0 && size.x.is_finite() && size.y.is_finite()) {
            return None;
        }
        match self {
            Self::Rectangle => Some(Contour::rectangle(low, high)),
            Self::RoundHeaded => Contour::round_headed(low, high),
            Self::Segmental { rise } => Contour::segmental(low, high, rise.mm()),
            Self::Pointed { radius } => Contour::pointed(low, high, *radius),
            Self::Circle => Some(Contour::circle(nalgebra::center(&low, &high), size.x / 2.0)),
            Self::Ellipse => Some(Contour::ellipse(low, high)),
            Self::Fanlight => Some(Contour::half_circle(low, size.x)),
            Self::Regular { corners } => {
                let ring: Vec<P2> = regular_polygon(*corners, size.x).iter().map(|p| low + p.coords).collect();
                Some(Contour::polygon(&ring))
            }
            Self::Free { corners } => {
                let at = |[x, y]: &[f64; 2]| P2::new(low.x + size.x * x, low.y + size.y * y);
                Some(Contour::polygon(&corners.iter().map(at).collect::<Vec<P2>>()))
            }
            Self::Path { data, mirrored } => {
                let drawn = SvgPath::read(data).ok()?.contours(low, high).into_iter().next()?;
                let flip = |p: P2| P2::new(low.x + high.x - p.x, p.y);
                Some(if *mirrored { drawn.mapped(true, flip).reversed() } else { drawn })
            }
            Self::WholeFace { .. } => None,
        }
    }

    /// The same shape seen in a mirror.
    pub fn mirrored(&self) -> Self {
        match self {
            Self::Free { corners } => {
                let corners = corners.iter().rev().map(|[x, y]| [gable_measure::tidy(1.0 - x), *y]).collect();
                Self::Free { corners }
            }
            Self::Path { data, mirrored } => Self::Path { data: data.clone(), mirrored: !mirrored },
            other => other.clone(),
        }
    }
}
