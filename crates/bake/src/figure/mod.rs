//! Figures of baking, each with its usual value, its range and its basis. A person may set any of them.

mod known;
mod values;

pub use values::{Settable, Values};

use crate::Basis;
use gable_words::tr;

/// A figure that amounts and times depend on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Figure {
    /// Mass of rolled dough, g/cm³.
    DoughDensity,
    /// Dough on top of that in the pieces, for trimming and for scraps that are not rolled again.
    DoughTrim,
    /// Water left in the biscuit, share of its mass.
    BiscuitWater,
    /// Mass of beaten icing, g/cm³.
    IcingDensity,
    /// Water that icing loses as it dries, share of its mass.
    IcingWater,
    /// Thickness of the bead that glues a joint, mm.
    Bead,
    /// Leg of the fillet that strengthens a joint from inside, mm.
    Fillet,
    /// Bead piped over the seams that show outside, mm; 0 for none.
    Border,
    /// Thickness of a piped line, mm.
    PipedLine,
    /// Icing under ornaments and tiles, mm.
    GlueFilm,
    /// Icing on top, for what stays in bowls and bags.
    IcingSpare,
    /// Icing that a bag holds, g.
    Bag,
    /// Fondant on top of what is on the house, for trimming.
    FondantSpare,
    /// The same of gum paste.
    GumPasteSpare,
    /// Sugar on top of that in poured and crushed panes.
    SugarSpare,
    /// Sweets on top of those that are counted.
    SweetsSpare,
    /// Leaves on top of those that are counted.
    LeafSpare,
    /// Space between pieces on a tray, mm.
    TraySpace,
    /// Space between pieces on rolled dough, mm.
    DoughSpace,
    /// Longest side up to which a piece bakes as a small one, mm.
    SmallPiece,
    /// Minutes in the oven of a large piece rolled to 1/4 in.
    LargeMinutes,
    /// Minutes of a small one.
    SmallMinutes,
    /// Minutes for which biscuit stays soft enough to be trimmed.
    WarmMinutes,
    /// Seconds to trim 100 mm of edge.
    TrimSeconds,
    /// Bending strength of dry, crisp biscuit, MPa.
    BiscuitStrength,
    /// Stiffness (Young's modulus) of dry, crisp biscuit, MPa.
    BiscuitStiffness,
    /// How much biscuit narrows as it is stretched (Poisson's ratio).
    BiscuitNarrowing,
    /// Humidity of the room at which biscuit left in it has lost half its strength, share.
    SoftAt,
    /// How suddenly it softens about there: humidity over which what is left falls by a factor of e, share.
    SoftOver,
    /// Yield stress of fresh stiff icing, Pa: below it a bead stays where it was piped.
    IcingYield,
    /// Strength of a joint of set icing, MPa of the area that it holds.
    BondStrength,
}

/// What is known of a figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// Stable word for files.
    pub word: &'static str,
    /// What it is, for people.
    pub words: &'static str,
    /// Its unit as written behind it: `g/cm³`, `mm`, `g`, or `%` for shares, which are kept as 0.2 and shown as 20; nothing for
    /// plain numbers.
    pub unit: &'static str,
    /// What is taken until the person sets it.
    pub usual: f64,
    /// Least and most that is seen in practice.
    pub range: (f64, f64),
    /// Least and most that make sense at all.
    pub bounds: (f64, f64),
    /// How well the usual value is founded.
    pub basis: Basis,
    /// Where it comes from.
    pub source: &'static str,
}

/// The figures of one person.
pub type Figures = Values<Figure>;

/// Why a figure was not set.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{}", tr!("{words}: {given} {unit} is out of range; give {least} to {most} {unit}"))]
pub struct OutOfRange {
    words: &'static str,
    unit: &'static str,
    given: f64,
    least: f64,
    most: f64,
}

impl Figure {
    /// Whether only what will stand and travel depends on it, and no amount and no time.
    pub const fn is_of_strength(self) -> bool {
        matches!(
            self,
            Self::BiscuitStrength
                | Self::BiscuitStiffness
                | Self::BiscuitNarrowing
                | Self::SoftAt
                | Self::SoftOver
                | Self::IcingYield
                | Self::BondStrength
        )
    }
}

impl Settable for Figure {
    fn all() -> &'static [Self] {
        &Self::ALL
    }

    fn known(self) -> Known {
        self.known()
    }
}

impl Known {
    /// # Errors
    /// When the value makes no sense.
    pub(crate) fn check(&self, value: f64) -> Result<(), OutOfRange> {
        let (least, most) = self.bounds;
        // A comparison that NaN fails too.
        if (least..=most).contains(&value) {
            return Ok(());
        }
        let [given, least, most] = [value, least, most].map(|v| self.shown(v));
        Err(OutOfRange { words: self.words, unit: self.unit, given, least, most })
    }

    /// How well it is founded and by what, in words.
    pub fn founded(&self) -> String {
        if self.source.is_empty() {
            self.basis.words().to_owned()
        } else {
            format!("{}: {}", self.basis.words(), self.source)
        }
    }

    /// A value as shown before the unit: shares in per cent.
    pub fn shown(&self, value: f64) -> f64 {
        if self.unit == "%" { value * 100.0 } else { value }
    }
}
