//! Named roof forms. A form is only a way to set the tops of a part's sides; nothing keeps it afterwards.

mod apply;
mod arrange;
mod guests;
mod mend;
mod openings;
mod pair;
mod reshape;
mod resize;
mod ridge;
mod simple;
mod sizes;
mod start;
#[cfg(test)]
mod tests;

pub use arrange::{Mirror, NotArranged};
use gable_words::tr;
pub use guests::{GuestKind, NoGuest};
pub use mend::{Change, Remedy, remedies};
pub use openings::{NotMoved, OpeningLine};
pub use resize::{FACTORS, Resizing, resized};
pub use ridge::Ridge;
pub use start::Starter;

use crate::Outline;

/// Named roof forms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RoofForm {
    /// Two slopes, the other walls run up between them.
    Gable,
    /// A slope on every side.
    Hip,
    /// A gable with its top cut off by a slope.
    HalfHip,
    /// Two slopes of one pitch, one of which comes down farther.
    Saltbox,
    /// One slope.
    LeanTo,
    /// Two slopes, each steep below and flatter above.
    Gambrel,
    /// A steep and a flatter slope on every side.
    Mansard,
    /// Equal slopes over a regular plan.
    Pavilion,
    /// Equal steep slopes over a regular plan.
    Spire,
    /// A flat plate with a parapet.
    Flat,
}

impl RoofForm {
    /// Every form, in the order in which they are offered.
    pub const ALL: [Self; 10] = [
        Self::Gable,
        Self::Hip,
        Self::HalfHip,
        Self::Saltbox,
        Self::LeanTo,
        Self::Gambrel,
        Self::Mansard,
        Self::Pavilion,
        Self::Spire,
        Self::Flat,
    ];

    /// Name for people.
    pub fn name(self) -> &'static str {
        match self {
            Self::Gable => tr!("Gable"),
            Self::Hip => tr!("Hip"),
            Self::HalfHip => tr!("Half-hip"),
            Self::Saltbox => tr!("Saltbox"),
            Self::LeanTo => tr!("Lean-to"),
            Self::Gambrel => tr!("Gambrel"),
            Self::Mansard => tr!("Mansard"),
            Self::Pavilion => tr!("Pavilion"),
            Self::Spire => tr!("Spire"),
            Self::Flat => tr!("Flat with parapet"),
        }
    }

    /// Whether the form makes sense over a plan.
    ///
    /// Forms with a level ridge need two parallel sides, pavilion and spire a regular plan.
    pub fn fits(self, outline: &Outline) -> bool {
        match self {
            Self::Gable | Self::HalfHip | Self::Saltbox | Self::Gambrel => !pair::parallel(outline).is_empty(),
            Self::Pavilion | Self::Spire => is_regular(outline),
            Self::Hip | Self::LeanTo | Self::Mansard | Self::Flat => outline.count() >= 3,
        }
    }
}

fn is_regular(outline: &Outline) -> bool {
    match outline {
        Outline::Polygon { .. } => true,
        Outline::Rectangle { width, depth } => (*width - *depth).abs().mm() < pair::ALIKE,
        Outline::HalfPolygon { .. } | Outline::Free { .. } => false,
    }
}
