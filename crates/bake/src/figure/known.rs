//! The usual values and where they come from.

use super::{Figure, Known};
use crate::Basis;
use gable_words::tr;

impl Figure {
    /// Every figure.
    pub const ALL: [Self; 31] = [
        Self::DoughDensity,
        Self::DoughTrim,
        Self::BiscuitWater,
        Self::IcingDensity,
        Self::IcingWater,
        Self::Bead,
        Self::Fillet,
        Self::Border,
        Self::PipedLine,
        Self::GlueFilm,
        Self::IcingSpare,
        Self::Bag,
        Self::FondantSpare,
        Self::GumPasteSpare,
        Self::SugarSpare,
        Self::SweetsSpare,
        Self::LeafSpare,
        Self::TraySpace,
        Self::DoughSpace,
        Self::SmallPiece,
        Self::LargeMinutes,
        Self::SmallMinutes,
        Self::WarmMinutes,
        Self::TrimSeconds,
        Self::BiscuitStrength,
        Self::BiscuitStiffness,
        Self::BiscuitNarrowing,
        Self::SoftAt,
        Self::SoftOver,
        Self::IcingYield,
        Self::BondStrength,
    ];

    /// What is known of it.
    pub fn known(self) -> Known {
        match self {
            Self::DoughDensity => Known {
                word: "dough-density",
                words: tr!("mass of rolled dough"),
                unit: "g/cm³",
                usual: 1.25,
                range: (1.15, 1.39),
                bounds: (0.5, 2.0),
                basis: Basis::Derived,
                source: tr!(
                    "1.30 to 1.39 without air by the masses of its ingredients (USDA ARS SR), less 4 to 8 % of air"
                ),
            },
            Self::DoughTrim => share(
                "dough-trim",
                tr!("dough for trimming and scraps"),
                0.20,
                (0.15, 0.25),
                (Basis::Practice, tr!("bakers add 15 to 25 %")),
            ),
            Self::BiscuitWater => share(
                "biscuit-water",
                tr!("water in the biscuit"),
                0.053,
                (0.037, 0.106),
                (
                    Basis::Published,
                    tr!("gingersnaps: USDA ARS SR, NDB 18172; soft gingerbread up to 10.6 %: Tulbure et al., 2013"),
                ),
            ),
            Self::IcingDensity => Known {
                word: "icing-density",
                words: tr!("mass of beaten icing"),
                unit: "g/cm³",
                usual: 1.3,
                range: (0.8, 1.48),
                bounds: (0.5, 1.6),
                basis: Basis::Derived,
                source: tr!(
                    "1.45 to 1.48 without air by its ingredients (USDA ARS SR); 1.0 to 1.3 beaten; long beaten 0.8"
                ),
            },
            Self::IcingWater => share(
                "icing-water",
                tr!("water that icing loses"),
                0.14,
                (0.125, 0.16),
                (Basis::Derived, tr!("all the water of the whites: USDA ARS SR, NDB 01124")),
            ),
            Self::Bead => millimetres("bead", tr!("bead of icing along a joint"), 5.0, (3.0, 8.0), (0.5, 20.0)),
            Self::Fillet => {
                millimetres("fillet", tr!("fillet along the inside of a joint"), 8.0, (5.0, 12.0), (0.0, 30.0))
            }
            Self::Border => millimetres("border", tr!("bead over the seams outside"), 4.0, (0.0, 6.0), (0.0, 20.0)),
            Self::PipedLine => {
                millimetres("piped-line", tr!("thickness of a piped line"), 2.0, (1.0, 3.0), (0.2, 10.0))
            }
            Self::GlueFilm => {
                millimetres("glue-film", tr!("icing under ornaments and tiles"), 0.4, (0.2, 1.0), (0.0, 5.0))
            }
            Self::IcingSpare => {
                share("icing-spare", tr!("icing left in bowls and bags"), 0.25, (0.15, 0.4), (Basis::Practice, ""))
            }
            Self::Bag => Known {
                word: "bag",
                words: tr!("icing in a piping bag"),
                unit: "g",
                usual: 250.0,
                range: (100.0, 400.0),
                bounds: (20.0, 2000.0),
                basis: Basis::Practice,
                source: tr!("a bag half full, so that it can be twisted shut"),
            },
            Self::FondantSpare => share(
                "fondant-spare",
                tr!("fondant trimmed off"),
                0.65,
                (0.3, 0.65),
                (Basis::Derived, tr!("trade tables for covering cakes carry 65 %; scraps can be rolled again")),
            ),
            Self::GumPasteSpare => {
                share("gum-paste-spare", tr!("gum paste trimmed off"), 0.4, (0.2, 0.65), (Basis::Practice, ""))
            }
            Self::SugarSpare => {
                share("sugar-spare", tr!("sugar left in the pan"), 0.25, (0.1, 0.5), (Basis::Practice, ""))
            }
            Self::SweetsSpare => share(
                "sweets-spare",
                tr!("spare sweets"),
                0.1,
                (0.05, 0.2),
                (Basis::Practice, tr!("some break, some are eaten")),
            ),
            Self::LeafSpare => share(
                "leaf-spare",
                tr!("spare gelatine leaves"),
                0.1,
                (0.0, 0.3),
                (Basis::Practice, tr!("leaves are brittle")),
            ),
            Self::TraySpace => {
                millimetres("tray-space", tr!("space between pieces on a tray"), 12.0, (10.0, 20.0), (0.0, 60.0))
            }
            Self::DoughSpace => {
                millimetres("dough-space", tr!("space between pieces on dough"), 3.0, (2.0, 8.0), (0.0, 30.0))
            }
            Self::SmallPiece => {
                millimetres("small-piece", tr!("longest side of a small piece"), 80.0, (50.0, 120.0), (10.0, 500.0))
            }
            Self::LargeMinutes => Known {
                word: "large-minutes",
                words: tr!("time in the oven of large pieces, 1/4 in at 350 °F (177 °C)"),
                unit: "min",
                usual: 18.0,
                range: (16.0, 20.0),
                bounds: (3.0, 90.0),
                basis: Basis::Practice,
                source: tr!("recipes rolled so thick bake 12 to 17 min"),
            },
            Self::SmallMinutes => Known {
                word: "small-minutes",
                words: tr!("time in the oven of small pieces, 1/4 in at 350 °F (177 °C)"),
                unit: "min",
                usual: 7.0,
                range: (5.0, 8.0),
                bounds: (1.0, 60.0),
                basis: Basis::Practice,
                source: "",
            },
            Self::WarmMinutes => Known {
                word: "warm-minutes",
                words: tr!("time in which warm biscuit can be trimmed"),
                unit: "min",
                usual: 6.0,
                range: (3.0, 10.0),
                bounds: (0.5, 60.0),
                basis: Basis::Practice,
                source: tr!("longer on the hot tray"),
            },
            Self::TrimSeconds => Known {
                word: "trim-seconds",
                words: tr!("time to trim 100 mm of edge"),
                unit: "s",
                usual: 8.0,
                range: (4.0, 15.0),
                bounds: (0.5, 120.0),
                basis: Basis::Practice,
                source: "",
            },
            Self::BiscuitStrength => remembered(
                ("biscuit-strength", tr!("bending strength of crisp biscuit"), "MPa"),
                (0.7, (0.3, 1.5), (0.005, 20.0)),
                tr!("an order of magnitude; none was found published for gingerbread: break five strips"),
            ),
            Self::BiscuitStiffness => remembered(
                ("biscuit-stiffness", tr!("stiffness of crisp biscuit (Young's modulus)"), "MPa"),
                (100.0, (50.0, 300.0), (0.5, 20_000.0)),
                tr!("an order of magnitude; none was found published for gingerbread: break five strips"),
            ),
            Self::BiscuitNarrowing => remembered(
                ("biscuit-narrowing", tr!("how biscuit narrows as it is stretched (Poisson's ratio)"), ""),
                (0.25, (0.2, 0.3), (0.0, 0.45)),
                tr!("no measured value was found"),
            ),
            Self::SoftAt => Known {
                word: "soft-at",
                words: tr!("humidity of the room at which biscuit has lost half its strength"),
                unit: "%",
                usual: 0.50,
                range: (0.46, 0.55),
                bounds: (0.2, 0.9),
                basis: Basis::Memory,
                source: tr!(
                    "softening of rusk begins at 46 to 50 %: Primo-Martín et al., 2008; the middle of it is assumed"
                ),
            },
            Self::SoftOver => Known {
                word: "soft-over",
                words: tr!("how suddenly biscuit softens about that humidity"),
                unit: "%",
                usual: 0.05,
                range: (0.03, 0.07),
                bounds: (0.005, 0.3),
                basis: Basis::Memory,
                source: tr!("the form of the curve is published (Carter et al., 2015), its width is assumed"),
            },
            Self::IcingYield => remembered(
                ("icing-yield", tr!("yield stress of fresh stiff icing"), "Pa"),
                (400.0, (200.0, 1000.0), (1.0, 20_000.0)),
                tr!("no published value was found"),
            ),
            Self::BondStrength => remembered(
                ("bond-strength", tr!("strength of a joint of set icing"), "MPa"),
                (0.2, (0.1, 0.3), (0.001, 10.0)),
                tr!("no published value was found"),
            ),
        }
    }
}

/// What is only remembered: its word, words and unit; usual value, range and bounds; why nothing better is known.
const fn remembered(
    (word, words, unit): (&'static str, &'static str, &'static str),
    (usual, range, bounds): (f64, (f64, f64), (f64, f64)),
    source: &'static str,
) -> Known {
    Known { word, words, unit, usual, range, bounds, basis: Basis::Memory, source }
}

/// A share of something.
const fn share(
    word: &'static str,
    words: &'static str,
    usual: f64,
    range: (f64, f64),
    (basis, source): (Basis, &'static str),
) -> Known {
    Known { word, words, unit: "%", usual, range, bounds: (0.0, 1.0), basis, source }
}

/// A size that bakers work to.
const fn millimetres(
    word: &'static str,
    words: &'static str,
    usual: f64,
    range: (f64, f64),
    bounds: (f64, f64),
) -> Known {
    Known { word, words, unit: "mm", usual, range, bounds, basis: Basis::Practice, source: "" }
}
