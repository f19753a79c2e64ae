//! What bakes alike: pieces of about one thickness, small or large.

use crate::median::median;
use crate::{Basis, Figure, Figures, ToBake};
use gable_measure::{Length, Unit};
use gable_plane::bounds;
use gable_words::tr;

/// Doughs no thicker than this over the thinnest bake together, mm.
const ALIKE: f64 = 0.8;
/// The thickness that the usual times are for, mm.
const QUARTER_INCH: f64 = 6.35;

/// Small pieces bake faster than large ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PieceSize {
    /// A large one.
    Large,
    /// A small one.
    Small,
}

impl PieceSize {
    /// In a word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Large => "large",
            Self::Small => "small",
        }
    }

    /// For people.
    fn words(self) -> &'static str {
        match self {
            Self::Large => tr!("large"),
            Self::Small => tr!("small"),
        }
    }
}

/// Pieces that bake alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BakeClass {
    /// How thick the thinnest of them is rolled.
    pub thinnest: Length,
    /// How thick the thickest is rolled; times are for it.
    pub thickest: Length,
    /// Small or large.
    pub size: PieceSize,
    /// How long they are in the oven.
    pub minutes: Minutes,
}

impl BakeClass {
    /// What it is and how long it takes: 'large pieces rolled 6 mm, 12 min'.
    pub fn words(&self, unit: Unit) -> String {
        let (size, rolled) = (self.size.words(), unit.print(self.thickest));
        tr!("{size} pieces rolled {rolled}, {} min", self.minutes.usual.round())
    }
}

/// A time in the oven: what to set, and when to begin and stop looking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Minutes {
    /// What to set.
    pub usual: f64,
    /// When to look first.
    pub least: f64,
    /// When it must be out.
    pub most: f64,
    /// How well that is founded.
    pub basis: Basis,
}

/// What the person has written of one ovenful.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OvenNote {
    /// How thick the dough was rolled.
    pub rolled: Length,
    /// Small or large pieces.
    pub size: PieceSize,
    /// How long it took.
    pub minutes: f64,
}

impl Minutes {
    /// Times for pieces of a size, at 350 °F (177 °C).
    ///
    /// Usual times are for 1/4 in (common practice); other thicknesses take 2 + 2 t minutes for each 2 + 2 × 6.35 of that
    /// (derived from published recipes of 3 to 10 mm). Times that the person has written scale them: the median of what
    /// each took over what it should have.
    pub fn of(rolled: Length, size: PieceSize, figures: &Figures, log: &[OvenNote]) -> Self {
        let plain = plain(rolled, size, figures);
        let mut ratios: Vec<f64> = log
            .iter()
            .filter(|note| note.size == size && note.minutes > 0.0)
            .map(|note| note.minutes / plain_usual(note.rolled, size, figures))
            .filter(|ratio| ratio.is_finite())
            .collect();
        ratios.sort_by(f64::total_cmp);
        let Some(own) = median(&ratios) else { return plain };
        let spread = |ratio: Option<&f64>| ratio.map_or(own, |r| *r);
        let usual = plain.usual * own;
        Self {
            usual,
            least: (plain.usual * spread(ratios.first())).min(usual * 0.9),
            most: (plain.usual * spread(ratios.last())).max(usual * 1.1),
            basis: Basis::Own,
        }
    }
}

fn figure(size: PieceSize) -> Figure {
    if size == PieceSize::Large { Figure::LargeMinutes } else { Figure::SmallMinutes }
}

fn by_thickness(rolled: Length) -> f64 {
    (2.0 + 2.0 * rolled.mm()) / (2.0 + 2.0 * QUARTER_INCH)
}

fn plain_usual(rolled: Length, size: PieceSize, figures: &Figures) -> f64 {
    figures.get(figure(size)) * by_thickness(rolled)
}

fn plain(rolled: Length, size: PieceSize, figures: &Figures) -> Minutes {
    let known = figure(size).known();
    let usual = plain_usual(rolled, size, figures);
    let share = |bound: f64| bound / known.usual * usual;
    Minutes { usual, least: share(known.range.0), most: share(known.range.1), basis: figures.basis(figure(size)) }
}

fn size(one: &ToBake, figures: &Figures) -> PieceSize {
    let longest = bounds(&one.outline).map_or(0.0, |(low, high)| (high - low).max());
    if longest > figures.get(Figure::SmallPiece) { PieceSize::Large } else { PieceSize::Small }
}

/// The classes of everything to bake, thick ones first, large before small.
pub(crate) fn classes(to_bake: &[ToBake], figures: &Figures, log: &[OvenNote]) -> Vec<BakeClass> {
    let mut all: Vec<(Length, PieceSize)> = to_bake.iter().map(|one| (one.rolled, size(one, figures))).collect();
    all.sort_by(|a, b| a.0.mm().total_cmp(&b.0.mm()));
    let mut classes: Vec<BakeClass> = Vec::new();
    for (rolled, size) in all {
        let fits = |class: &&mut BakeClass| class.size == size && (rolled - class.thinnest).mm() <= ALIKE;
        match classes.iter_mut().find(fits) {
            Some(class) => class.thickest = rolled,
            None => {
                let minutes = Minutes::of(rolled, size, figures, log);
                classes.push(BakeClass { thinnest: rolled, thickest: rolled, size, minutes });
            }
        }
    }
    for class in &mut classes {
        class.minutes = Minutes::of(class.thickest, class.size, figures, log);
    }
    classes.sort_by(|a, b| b.thickest.mm().total_cmp(&a.thickest.mm()).then(a.size.cmp(&b.size)));
    classes
}

/// What bakes alike, in the order in which it is baked, with what belongs to it. `log` is what the person has written of their oven.
pub fn alike<'a>(to_bake: &'a [ToBake], figures: &Figures, log: &[OvenNote]) -> Vec<(BakeClass, Vec<&'a ToBake>)> {
    let classes = classes(to_bake, figures, log);
    let members = sorted(to_bake, &classes, figures);
    classes.into_iter().zip(members).collect()
}

/// What is to be baked, class by class; thin ones of a class first, otherwise in their order.
pub(super) fn sorted<'a>(to_bake: &'a [ToBake], classes: &[BakeClass], figures: &Figures) -> Vec<Vec<&'a ToBake>> {
    let mut all: Vec<&ToBake> = to_bake.iter().collect();
    // Stable, so that pieces stay in their order.
    all.sort_by(|a, b| a.rolled.mm().total_cmp(&b.rolled.mm()));
    let of_class = |class: &BakeClass| {
        let within = |one: &&&ToBake| (class.thinnest.mm()..=class.thickest.mm()).contains(&one.rolled.mm());
        all.iter().filter(within).filter(|one| size(one, figures) == class.size).copied().collect()
    };
    classes.iter().map(of_class).collect()
}
