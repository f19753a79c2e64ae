//! Weights of overlaps: what does not come free for long counts more and more (guided local search).

/// What an overlap's weight grows by at least, and at most, in one round.
const GROWTH: (f32, f32) = (1.2, 2.0);
/// What it falls by when the two are free of each other.
const DECAY: f32 = 0.95;

/// A weight for every pair of pieces, and for every piece against the rim of its sheet.
#[derive(Clone, Debug)]
pub(crate) struct Weights {
    count: usize,
    values: Vec<f32>,
}

impl Weights {
    pub(crate) fn new(count: usize) -> Self {
        Self { count, values: vec![1.0; count * (count + 1)] }
    }

    /// Of two pieces; `other` none: of a piece and the rim.
    pub(crate) fn get(&self, item: usize, other: Option<usize>) -> f32 {
        self.values[self.at(item, other)]
    }

    fn at(&self, item: usize, other: Option<usize>) -> usize {
        match other {
            Some(other) => item.min(other) * (self.count + 1) + item.max(other),
            None => item * (self.count + 1) + self.count,
        }
    }

    /// Everything falls a little; what still overlaps grows by how much it does.
    pub(crate) fn update(&mut self, overlaps: &[(usize, Option<usize>, f32)]) {
        let most = overlaps.iter().map(|o| o.2).fold(0.0, f32::max);
        let kept: Vec<(usize, f32)> = overlaps
            .iter()
            .map(|(item, other, overlap)| {
                let at = self.at(*item, *other);
                let share = if most > 0.0 { overlap / most } else { 0.0 };
                (at, self.values[at] * (GROWTH.0 + (GROWTH.1 - GROWTH.0) * share))
            })
            .collect();
        for value in &mut self.values {
            *value = (*value * DECAY).max(1.0);
        }
        for (at, value) in kept {
            self.values[at] = value;
        }
    }
}
