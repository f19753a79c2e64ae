use gable_shell::Share;

/// A small repeatable generator (SplitMix64, public domain): the same seed gives the same row on every machine.
pub(crate) struct Chance(u64);

impl Chance {
    /// A row of its own for each seed and name.
    pub(crate) fn new(seed: u32, name: &str) -> Self {
        // FNV-1a spreads the name over the seed.
        let spread = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        Self(name.bytes().fold(0xcbf2_9ce4_8422_2325 ^ u64::from(seed).rotate_left(32), spread))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 to 1, the end left out.
    pub(crate) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A whole number below `end`, which must not be 0.
    fn below(&mut self, end: usize) -> usize {
        (self.share() * end as f64) as usize
    }
}

/// One shade for each of so many units: as many of each as its share asks for, to the nearest unit, shuffled.
pub(crate) fn deal(shares: &[Share], units: usize, chance: &mut Chance) -> Vec<usize> {
    let total: f64 = shares.iter().map(|s| s.share).sum();
    if shares.len() < 2 || total <= 0.0 {
        return vec![0; units];
    }
    let mut deck = Vec::with_capacity(units);
    let mut sum = 0.0;
    for (shade, share) in shares.iter().enumerate() {
        sum += share.share;
        deck.resize(((sum / total * units as f64).round() as usize).min(units), shade);
    }
    for k in (1..deck.len()).rev() {
        deck.swap(k, chance.below(k + 1));
    }
    deck
}
