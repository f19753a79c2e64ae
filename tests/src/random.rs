//! Numbers that look random and are the same on every run.

/// A stream of numbers from a seed: SplitMix64, Steele, Lea and Flood, OOPSLA 2014, figure 17.
#[derive(Clone, Debug)]
pub struct Random(u64);

impl Random {
    /// The stream of a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 up to but not including 1.
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// From `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// A whole number from `low` to `high`, both included.
    pub fn whole(&mut self, low: u64, high: u64) -> u64 {
        low + self.bits() % (high - low + 1)
    }

    /// True with this probability.
    pub fn chance(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }

    /// One of several.
    pub fn pick<T: Clone, const N: usize>(&mut self, choices: [T; N]) -> T {
        choices[(self.bits() % N as u64) as usize].clone()
    }
}
