use crate::shape::{Outer, Shape};
use crate::{Item, Sheet};
use gable_measure::Length;
use rayon::prelude::*;

/// What has to lie where.
#[derive(Clone, Debug)]
pub struct Job {
    items: Vec<Item>,
    sheets: Vec<Sheet>,
    gap: Length,
    measurable: bool,
    pub(crate) shapes: Vec<Shape>,
    pub(crate) outers: Vec<Outer>,
}

/// Why a job cannot be begun.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refused {
    /// There is no sheet of which there are as many as it takes.
    #[error("there is no sheet to lay pieces on; give at least one whose number is not limited")]
    NoSheet,
    /// A gap below zero, or not a number.
    #[error("the space between pieces must be a length of 0 or more")]
    Gap,
    /// An outline that crosses itself, has no area, or is not made of numbers.
    #[error("the outline of piece {item} crosses itself or has no area; give a simple outline")]
    Item {
        /// Index of the item.
        item: usize,
    },
    /// The same of a sheet.
    #[error("the outline of sheet {sheet} crosses itself or has no area; give a simple outline")]
    Sheet {
        /// Index of the sheet.
        sheet: usize,
    },
    /// A piece that fits on none of the sheets of which there are as many as it takes.
    #[error("piece {item} is larger than every sheet; use a larger sheet, or make the piece smaller or of two")]
    TooLarge {
        /// Index of the item.
        item: usize,
    },
}

impl Job {
    /// Pieces that lie at least `gap` apart on sheets.
    ///
    /// # Errors
    ///
    /// Everything that stands against it, so that all of it can be put right at once.
    pub fn new(items: Vec<Item>, sheets: Vec<Sheet>, gap: Length) -> Result<Self, Vec<Refused>> {
        let mut refused = Vec::new();
        if !(gap.mm().is_finite() && gap.mm() >= 0.0) {
            return Err(vec![Refused::Gap]);
        }
        let mut outers = Vec::new();
        for (sheet, entry) in sheets.iter().enumerate() {
            match Outer::new(&entry.outline, gap.mm()) {
                Some(outer) => outers.push(outer),
                None => refused.push(Refused::Sheet { sheet }),
            }
        }
        if !sheets.iter().any(|s| s.at_most.is_none()) {
            refused.push(Refused::NoSheet);
        }
        let made = made(&items, |item| item.shape(gap.mm()));
        let bad = made.iter().enumerate().filter(|(_, shape)| shape.is_none());
        refused.extend(bad.map(|(item, _)| Refused::Item { item }));
        let shapes = made.into_iter().flatten().collect();
        if !refused.is_empty() {
            return Err(refused);
        }
        let job = Self { items, sheets, gap, measurable: false, shapes, outers };
        let too_large = job.too_large();
        if too_large.is_empty() { Ok(job) } else { Err(too_large) }
    }

    /// Gives every shape what overlaps are measured by, which a first layout can do without.
    pub(crate) fn make_measurable(&mut self) {
        if std::mem::replace(&mut self.measurable, true) {
            return;
        }
        let measurable = made(&self.items, |item| item.measurable(self.gap.mm()));
        for (shape, measurable) in self.shapes.iter_mut().zip(measurable) {
            if let Some(measurable) = measurable {
                *shape = measurable;
            }
        }
    }

    /// The pieces.
    pub fn items(&self) -> &[Item] {
        &self.items
    }

    /// The sheets.
    pub fn sheets(&self) -> &[Sheet] {
        &self.sheets
    }

    /// Least distance of two pieces.
    pub fn gap(&self) -> Length {
        self.gap
    }

    /// Indices of the sheets of which there are as many as it takes.
    pub(crate) fn endless(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.sheets.len()).filter(|&k| self.sheets[k].at_most.is_none())
    }

    fn too_large(&self) -> Vec<Refused> {
        let fits = |item: usize| self.endless().any(|sheet| crate::first::alone(self, item, sheet).is_some());
        let mut known: Vec<(usize, bool)> = Vec::new();
        let mut refused = Vec::new();
        for item in 0..self.items.len() {
            let twin = known.iter().find(|(k, _)| self.items[*k] == self.items[item]).map(|k| k.1);
            let fit = twin.unwrap_or_else(|| fits(item));
            if twin.is_none() {
                known.push((item, fit));
            }
            if !fit {
                refused.push(Refused::TooLarge { item });
            }
        }
        refused
    }
}

/// The shape of each item, side by side; those that are alike are made once.
fn made(items: &[Item], shape: impl Fn(&Item) -> Option<Shape> + Sync) -> Vec<Option<Shape>> {
    let alike = |k: usize| items[..k].iter().position(|other| *other == items[k]);
    let twins: Vec<Option<usize>> = (0..items.len()).map(alike).collect();
    let own = |k: usize| if twins[k].is_none() { shape(&items[k]) } else { None };
    let made: Vec<Option<Shape>> = (0..items.len()).into_par_iter().map(own).collect();
    (0..items.len()).map(|k| made[twins[k].unwrap_or(k)].clone()).collect()
}
