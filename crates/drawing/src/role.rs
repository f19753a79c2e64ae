/// What a line means. Roles differ in dash and width, never in colour alone.
///
/// After ISO 128-2:2022: wide lines 0.5 mm, narrow 0.25 mm (line group 0.5, the one for A4 to A2).
/// ISO 128 has no line for 'cut here'; the visible outline (01.2) serves and the layer name says so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineRole {
    /// An edge to cut, or a visible edge: 01.2 continuous wide.
    Edge,
    /// Dimension, extension and leader lines, folds, marks: 01.1 continuous narrow.
    Thin,
    /// An edge on the far face, or hidden behind something: 02.1 dashed narrow.
    Hidden,
    /// Centre and symmetry lines: 04.1 long-dashed dotted narrow.
    Centre,
    /// Neighbouring things and other positions (the sheet's edge, a piece that continues): 05.1 long-dashed double-dotted narrow.
    Neighbour,
    /// Where dough is cut that is trimmed to another line once it is baked: 05.2 long-dashed double-dotted wide.
    Blank,
    /// A line to press into the dough, not through it: 02.2 dashed wide.
    Pressed,
    /// Joints between tiles, bricks and boards: 01.1 of the finest width.
    Fine,
}

impl LineRole {
    /// Every role.
    pub const ALL: [Self; 8] =
        [Self::Edge, Self::Thin, Self::Hidden, Self::Centre, Self::Neighbour, Self::Blank, Self::Pressed, Self::Fine];

    /// Width of the line, mm.
    pub fn width(self) -> f64 {
        match self {
            Self::Edge | Self::Blank | Self::Pressed => 0.5,
            Self::Thin | Self::Hidden | Self::Centre | Self::Neighbour => 0.25,
            Self::Fine => 0.13,
        }
    }

    /// Lengths of dashes and gaps in turn, mm; empty for a continuous line.
    ///
    /// ISO 128-2 (figures from memory of the standard): dash 12 d, long dash 24 d, gap 3 d, dot 0.5 d. Pressed lines are
    /// short, so their dashes are half as long.
    pub fn dashes(self) -> Vec<f64> {
        let pattern: &[f64] = match self {
            Self::Edge | Self::Thin | Self::Fine => &[],
            Self::Hidden => &[12.0, 3.0],
            Self::Pressed => &[6.0, 3.0],
            Self::Centre => &[24.0, 3.0, 0.5, 3.0],
            // Half as long, as pressed lines are: pieces are small.
            Self::Blank => &[12.0, 3.0, 0.5, 3.0, 0.5, 3.0],
            Self::Neighbour => &[24.0, 3.0, 0.5, 3.0, 0.5, 3.0],
        };
        pattern.iter().map(|d| d * self.width()).collect()
    }
}

impl Shade {
    /// Share of what lies behind glazing that it hides.
    pub const GLASS_COVERS: f64 = 0.6;

    /// Whether what lies behind shows through, so that nothing may be painted twice.
    pub fn is_clear(self) -> bool {
        matches!(self, Self::Glass { .. })
    }

    /// A colour in its light: never below three fifths of itself, so that shades stay apart.
    pub fn lit(rgb: [u8; 3], light: f64) -> [u8; 3] {
        rgb.map(|c| (f64::from(c) * (0.6 + 0.4 * light.clamp(0.0, 1.0))).round() as u8)
    }
}

/// A tone to fill with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shade {
    /// Paper white: hides what is behind.
    Paper,
    /// Biscuit, from 0 (full shadow) to 1 (full light).
    Biscuit {
        /// Share of light that falls on the face.
        light: f64,
    },
    /// A colour of its own, from 0 (full shadow) to 1 (full light).
    Coloured {
        /// Red, green and blue in full light.
        rgb: [u8; 3],
        /// Share of light that falls on the face.
        light: f64,
    },
    /// Glazing: what lies behind it shows through, where the format knows how.
    Glass {
        /// Red, green and blue in full light.
        rgb: [u8; 3],
        /// Share of light that falls on the face.
        light: f64,
    },
    /// A pale tint that stays under lines and text.
    Tint,
    /// Solid black, for marks.
    Ink,
}
