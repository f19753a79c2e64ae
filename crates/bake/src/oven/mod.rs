//! Ovenfuls: what is baked together on which tray, and what dough is rolled to.

mod class;
mod drawn;
mod laid;
mod rolled;
#[cfg(test)]
mod tests;

pub(crate) use class::classes;
pub use class::{BakeClass, Minutes, OvenNote, PieceSize, alike};
pub use drawn::tray_drawing;
pub use rolled::RolledSheet;

use crate::{Figure, Figures, Mass, ToBake};
use gable_measure::Length;
use gable_plane::P2;
use gable_shell::kitchen::{Kitchen, Tray};
use rayon::prelude::*;

/// How a house is baked.
#[derive(Clone, Debug, PartialEq)]
pub struct Ovenfuls {
    /// What bakes alike, thick and large ones first.
    pub classes: Vec<BakeClass>,
    /// One tray after the other, by class.
    pub trays: Vec<Ovenful>,
    /// Dough as it is rolled, by dough and thickness.
    pub rolled: Vec<RolledSheet>,
    /// Names of what is larger than every tray.
    pub too_large: Vec<String>,
    /// Whether the person has named no tray, so that a usual one was taken.
    pub assumed_tray: bool,
}

/// What is baked together on one tray.
#[derive(Clone, Debug, PartialEq)]
pub struct Ovenful {
    /// Index into [`Ovenfuls::classes`]; only pieces of one class lie on a tray.
    pub class: usize,
    /// The tray.
    pub tray: Tray,
    /// What lies on it.
    pub pieces: Vec<OnTray>,
    /// Dough on it.
    pub mass: Mass,
    /// Minutes to trim it, which must be done while it is warm.
    pub trim_minutes: f64,
}

/// One piece in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct OnTray {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Letter of its house, where several houses are baked together.
    pub mark: Option<char>,
    /// Number of its template, where it is a piece.
    pub template: Option<usize>,
    /// Its outline on the tray, whose lower left corner is the origin.
    pub outline: Vec<P2>,
    /// Openings in it.
    pub holes: Vec<Vec<P2>>,
}

impl Ovenfuls {
    /// Plans how everything is baked on the trays of a kitchen. `log` is what the person has written of their oven.
    pub fn of(to_bake: &[ToBake], kitchen: &Kitchen, figures: &Figures, log: &[OvenNote]) -> Self {
        Self::of_classes(to_bake, &class::classes(to_bake, figures, log), kitchen, figures)
    }

    /// The same of some of all that is baked, whose classes are known.
    pub(crate) fn of_classes(to_bake: &[ToBake], classes: &[BakeClass], kitchen: &Kitchen, figures: &Figures) -> Self {
        let assumed_tray = kitchen.trays.is_empty();
        let trays = if assumed_tray { Tray::usual()[..1].to_vec() } else { kitchen.trays.clone() };
        let sorted = class::sorted(to_bake, classes, figures);
        let space = Length::mm_of(figures.get(Figure::TraySpace));
        let on_trays = || sorted.par_iter().map(|members| laid::on_trays(members, &trays, space)).collect::<Vec<_>>();
        let (laid, rolled) = rayon::join(on_trays, || rolled::sheets(to_bake, &trays, figures));
        let (mut ovenfuls, mut too_large) = (Vec::new(), Vec::new());
        for (class, (members, laid)) in sorted.iter().zip(laid).enumerate() {
            too_large.extend(laid.too_large.iter().map(|k| members[*k].name.clone()));
            for (tray, places) in laid.sheets {
                let all: Vec<(&ToBake, OnTray)> = places.into_iter().map(|(k, on)| (members[k], on)).collect();
                let parts = split(all, figures);
                ovenfuls.extend(parts.into_iter().map(|part| ovenful(class, &trays[tray], part, figures)));
            }
        }
        Self { classes: classes.to_vec(), trays: ovenfuls, rolled, too_large, assumed_tray }
    }
}

impl OnTray {
    /// What is written on it: the number of its template, with the letter of its house where there are several.
    pub fn number(&self) -> Option<String> {
        let mark = self.mark.map_or_else(String::new, String::from);
        self.template.map(|number| format!("{mark}{number}"))
    }
}

fn ovenful(class: usize, tray: &Tray, pieces: Vec<(&ToBake, OnTray)>, figures: &Figures) -> Ovenful {
    Ovenful {
        class,
        tray: tray.clone(),
        mass: pieces.iter().map(|(one, _)| one.mass(figures.get(Figure::DoughDensity))).sum(),
        trim_minutes: pieces.iter().map(|(one, _)| trim_minutes(one, figures)).sum(),
        pieces: pieces.into_iter().map(|(_, on)| on).collect(),
    }
}

/// Minutes to trim a piece all round, openings included.
fn trim_minutes(one: &ToBake, figures: &Figures) -> f64 {
    let round = |ring: &[P2]| (0..ring.len()).map(|k| (ring[(k + 1) % ring.len()] - ring[k]).norm()).sum::<f64>();
    let edge = round(&one.outline) + one.holes.iter().map(|h| round(h)).sum::<f64>();
    edge / 100.0 * figures.get(Figure::TrimSeconds) / 60.0
}

/// A tray that takes longer to trim than it stays warm is baked as several, as even as may be.
fn split<'a>(pieces: Vec<(&'a ToBake, OnTray)>, figures: &Figures) -> Vec<Vec<(&'a ToBake, OnTray)>> {
    let minutes: f64 = pieces.iter().map(|(one, _)| trim_minutes(one, figures)).sum();
    let count = (minutes / figures.get(Figure::WarmMinutes) - 1e-9).ceil().max(1.0) as usize;
    let mut parts: Vec<(f64, Vec<(&ToBake, OnTray)>)> = vec![(0.0, Vec::new()); count];
    let mut largest_first = pieces;
    largest_first.sort_by(|a, b| trim_minutes(b.0, figures).total_cmp(&trim_minutes(a.0, figures)));
    for (one, on) in largest_first {
        if let Some(least) = parts.iter_mut().min_by(|a, b| a.0.total_cmp(&b.0)) {
            least.0 += trim_minutes(one, figures);
            least.1.push((one, on));
        }
    }
    parts.into_iter().map(|(_, part)| part).filter(|part| !part.is_empty()).collect()
}
