//! Lining up and spacing evenly, as moves of boxes on a drawing: x to the right, y up, mm.

use egui::Key;
use gable_plane::P2;
use gable_words::tr;

/// What of several things is brought onto one line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Line {
    /// Left edges.
    Left,
    /// Middles between left and right.
    Middle,
    /// Right edges.
    Right,
    /// Upper edges.
    Upper,
    /// Middles between above and below.
    Level,
    /// Lower edges.
    Lower,
}

/// What is made equal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Space {
    /// Spaces from left to right; the outermost stay.
    Across,
    /// Spaces from below upwards; the outermost stay.
    Upwards,
    /// Spaces from left to right, and those to both ends of the wall.
    Ends,
}

impl Line {
    /// What menus call it.
    pub(crate) fn label(self) -> &'static str {
        match self {
            Self::Left => tr!("Left edges in line"),
            Self::Middle => tr!("Middles one above the other"),
            Self::Right => tr!("Right edges in line"),
            Self::Upper => tr!("Upper edges in line"),
            Self::Level => tr!("Middles at one height"),
            Self::Lower => tr!("Lower edges in line"),
        }
    }

    /// What it does, in one line.
    pub(crate) fn tip(self) -> &'static str {
        match self {
            Self::Left => {
                tr!("Move what is selected until all left edges are on a line with that of the last one chosen")
            }
            Self::Middle => {
                tr!(
                    "Move what is selected to the right or left until all middles are above or below that of the last one chosen"
                )
            }
            Self::Right => {
                tr!("Move what is selected until all right edges are on a line with that of the last one chosen")
            }
            Self::Upper => {
                tr!("Move what is selected until all upper edges are as high as that of the last one chosen")
            }
            Self::Level => {
                tr!("Move what is selected up or down until all middles are as high as that of the last one chosen")
            }
            Self::Lower => {
                tr!("Move what is selected until all lower edges are as high as that of the last one chosen")
            }
        }
    }

    /// Its letter, with Ctrl and Shift.
    pub(crate) const fn key(self) -> Key {
        match self {
            Self::Left => Key::L,
            Self::Middle => Key::M,
            Self::Right => Key::R,
            Self::Upper => Key::U,
            Self::Level => Key::H,
            Self::Lower => Key::D,
        }
    }

    /// What undo calls it.
    pub(crate) fn undo(self) -> &'static str {
        match self {
            Self::Left | Self::Right | Self::Upper | Self::Lower => tr!("edges lined up"),
            Self::Middle | Self::Level => tr!("middles lined up"),
        }
    }

    /// Whether it moves things up and down.
    pub(crate) const fn is_level(self) -> bool {
        matches!(self, Self::Upper | Self::Level | Self::Lower)
    }

    /// How far a box goes along its axis to be in line with another, mm.
    pub(crate) fn shift(self, own: (P2, P2), other: (P2, P2)) -> f64 {
        let line = |(low, high): (P2, P2)| match self {
            Self::Left => low.x,
            Self::Middle => (low.x + high.x) / 2.0,
            Self::Right => high.x,
            Self::Upper => high.y,
            Self::Level => (low.y + high.y) / 2.0,
            Self::Lower => low.y,
        };
        line(other) - line(own)
    }
}

impl Space {
    /// What menus call it.
    pub(crate) fn label(self) -> &'static str {
        match self {
            Self::Across => tr!("Equal spaces across"),
            Self::Upwards => tr!("Equal spaces upwards"),
            Self::Ends => tr!("Equal spaces over the whole wall"),
        }
    }

    /// What it does, in one line.
    pub(crate) fn tip(self) -> &'static str {
        match self {
            Self::Across => tr!("Move what is between the outermost two until all spaces from left to right are equal"),
            Self::Upwards => tr!("Move what is between the lowest and the highest until all spaces upwards are equal"),
            Self::Ends => tr!("Move openings of a wall until spaces between them and to both its ends are equal"),
        }
    }

    /// Its letter, with Ctrl and Shift.
    pub(crate) const fn key(self) -> Key {
        match self {
            Self::Across => Key::A,
            Self::Upwards => Key::V,
            Self::Ends => Key::W,
        }
    }

    /// What undo calls it.
    pub(crate) fn undo(self) -> &'static str {
        tr!("equal spaces")
    }
}

/// How far each of these goes so that all spaces between them are equal, mm. Each is told by its lower and upper end;
/// with `ends` those spaces count that lie between them and these ends, else the outermost stay. Things keep their order.
/// `None` where nothing could be spaced: without ends there must be three.
pub(crate) fn spaced(spans: &[(f64, f64)], ends: Option<(f64, f64)>) -> Option<Vec<f64>> {
    if spans.is_empty() || (ends.is_none() && spans.len() < 3) {
        return None;
    }
    let mut order: Vec<usize> = (0..spans.len()).collect();
    order.sort_by(|a, b| (spans[*a].0 + spans[*a].1).total_cmp(&(spans[*b].0 + spans[*b].1)));
    let filled: f64 = spans.iter().map(|(low, high)| high - low).sum();
    let (from, gap) = match ends {
        Some((low, high)) => {
            let gap = (high - low - filled) / (spans.len() + 1) as f64;
            (low + gap, gap)
        }
        None => {
            let (first, last) = (*order.first()?, *order.last()?);
            (spans[first].0, (spans[last].1 - spans[first].0 - filled) / (spans.len() - 1) as f64)
        }
    };
    let mut moves = vec![0.0; spans.len()];
    let mut next = from;
    for k in order {
        moves[k] = next - spans[k].0;
        next += spans[k].1 - spans[k].0 + gap;
    }
    Some(moves)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: 10, 20 and 10 mm in 100 mm leave 60 mm, which is 30 mm twice or 15 mm four times.
    #[test]
    fn spaces_become_equal_whatever_the_order_they_were_chosen_in() {
        let spans = [(90.0, 100.0), (0.0, 10.0), (15.0, 35.0)];
        assert_eq!(spaced(&spans, None).unwrap(), [0.0, 0.0, 25.0]);
        assert_eq!(spaced(&spans, Some((0.0, 100.0))).unwrap(), [-15.0, 15.0, 25.0]);
        assert_eq!(spaced(&[(3.0, 13.0)], Some((0.0, 100.0))).unwrap(), [42.0], "in the middle");
        assert_eq!(spaced(&spans[..2], None), None);
    }

    #[test]
    fn lines_are_those_of_the_other() {
        let own = (P2::new(1.0, 2.0), P2::new(5.0, 12.0));
        let other = (P2::new(10.0, 20.0), P2::new(20.0, 24.0));
        let moves = [Line::Left, Line::Middle, Line::Right, Line::Upper, Line::Level, Line::Lower];
        assert_eq!(moves.map(|line| line.shift(own, other)), [9.0, 12.0, 15.0, 12.0, 15.0, 18.0]);
    }
}
