use gable_measure::Length;
use gable_plane::P2;
use std::f64::consts::PI;

/// Outside plan of a part, at the outer faces of its walls.
#[derive(Clone, Debug, PartialEq)]
pub enum Outline {
    /// Sides `front`, `right`, `back`, `left`.
    Rectangle {
        /// From left to right.
        width: Length,
        /// From front to back.
        depth: Length,
    },
    /// A regular polygon with sides `1` to `n`; side `1` is the front and looks to -y.
    Polygon {
        /// 3 to 24.
        sides: u8,
        /// Length of one side.
        side: Length,
    },
    /// Half of a regular polygon of `2 * sides` sides: side `back` is straight, sides `1` to `n` bulge to the front.
    HalfPolygon {
        /// Sides of the bulge, 2 to 12.
        sides: u8,
        /// Length of the straight back.
        width: Length,
    },
    /// Any convex outline with sides `1` to `n`, side `k` from corner `k` to the next, counter-clockwise.
    Free {
        /// Corners as x and y.
        corners: Vec<(Length, Length)>,
    },
}

impl Outline {
    /// Number of sides.
    pub fn count(&self) -> usize {
        match self {
            Self::Rectangle { .. } => 4,
            Self::Polygon { sides, .. } => usize::from(*sides),
            Self::HalfPolygon { sides, .. } => usize::from(*sides) + 1,
            Self::Free { corners } => corners.len(),
        }
    }

    /// Names of the sides in order.
    pub fn side_names(&self) -> Vec<String> {
        match self {
            Self::Rectangle { .. } => ["front", "right", "back", "left"].map(String::from).to_vec(),
            Self::HalfPolygon { sides, .. } => {
                (1..=*sides).map(|k| k.to_string()).chain(std::iter::once("back".to_owned())).collect()
            }
            Self::Polygon { .. } | Self::Free { .. } => (1..=self.count()).map(|k| k.to_string()).collect(),
        }
    }
    /// Corners in the part, counter-clockwise when the outline is sound; side `k` runs from corner `k` to the next.
    pub fn corners(&self) -> Vec<P2> {
        let on_circle = |radius: f64, angle: f64| P2::new(radius * angle.cos(), radius * angle.sin());
        match self {
            Self::Rectangle { width, depth } => {
                let (x, y) = (width.mm() / 2.0, depth.mm() / 2.0);
                vec![P2::new(-x, -y), P2::new(x, -y), P2::new(x, y), P2::new(-x, y)]
            }
            Self::Polygon { sides, side } => {
                let half = PI / f64::from(*sides);
                let radius = side.mm() / (2.0 * half.sin());
                (0..*sides).map(|k| on_circle(radius, half * (2.0 * f64::from(k) - 1.0) - PI / 2.0)).collect()
            }
            Self::HalfPolygon { sides, width } => {
                let step = PI / f64::from(*sides);
                (0..=*sides).map(|k| on_circle(width.mm() / 2.0, PI + step * f64::from(k))).collect()
            }
            Self::Free { corners } => corners.iter().map(|(x, y)| P2::new(x.mm(), y.mm())).collect(),
        }
    }
}
