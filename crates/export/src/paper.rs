use gable_measure::Length;

/// What the pack is printed on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    #[default]
    A4,
    /// 8 1/2 × 11 in, 215.9 × 279.4 mm.
    Letter,
    /// The rectangle that both have, 210 × 279.4 mm.
    ///
    /// The page of the file has just this size. A viewer that prints without scaling puts such a page in the middle or
    /// in a corner of the paper; as it is nowhere larger than either paper, all of it lands on the sheet each time. A
    /// viewer that fits it to the paper cannot enlarge it on A4 (same width) or on Letter (same height).
    A4AndLetter,
}

impl Paper {
    /// Every paper.
    pub const ALL: [Self; 3] = [Self::A4, Self::Letter, Self::A4AndLetter];

    /// Width and height of the upright page.
    pub fn size(self) -> (Length, Length) {
        let (a4, letter) = ((210.0, 297.0), (215.9, 279.4));
        let (w, h) = match self {
            Self::A4 => a4,
            Self::Letter => letter,
            Self::A4AndLetter => (a4.0, letter.1),
        };
        (Length::mm_of(w), Length::mm_of(h))
    }

    /// Name for people.
    pub fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
            Self::A4AndLetter => "A4 and Letter",
        }
    }
}

/// How much of each side of a page stays empty, because printers cannot reach it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margins {
    /// On the left.
    pub left: Length,
    /// On the right.
    pub right: Length,
    /// At the top.
    pub top: Length,
    /// At the bottom.
    pub bottom: Length,
}

impl Margins {
    /// The same on every side.
    pub fn all(margin: Length) -> Self {
        Self { left: margin, right: margin, top: margin, bottom: margin }
    }
}

/// 1/4 in all round, and 6.7 mm at the bottom, the most that printer handbooks ask for there.
impl Default for Margins {
    fn default() -> Self {
        Self { bottom: Length::mm_of(6.7), ..Self::all(Length::mm_of(6.35)) }
    }
}
