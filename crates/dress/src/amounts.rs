//! How much of everything a dressed house takes.

use crate::{Dressed, Tally};
use gable_measure::Length;
use gable_shell::{Glass, House, Share, Stuff, Where};
use gable_words::tr;

/// What one finish of the list takes on all its faces.
#[derive(Clone, Debug, PartialEq)]
pub struct FinishAmount {
    /// The finish, as an index into [`gable_shell::Dressing::finishes`].
    pub finish: usize,
    /// What it is, in a word or two.
    pub name: &'static str,
    /// What its units are made of.
    pub stuff: Stuff,
    /// Its shades, in the order of the counts.
    pub shades: Vec<Share>,
    /// On how many faces it is.
    pub faces: usize,
    /// All of them together.
    pub tally: Tally,
}

impl FinishAmount {
    /// All of it on one line: 'Tower, slopes: tiles of fondant on 8 faces: blueberry 77 whole, 195 cut; … 64 g, 1 h 35 min'.
    pub fn sentence(&self, house: &House) -> String {
        let count = |counts: &[usize], k: usize| counts.get(k).copied().unwrap_or(0);
        let shade = |(k, share): (usize, &Share)| {
            let (whole, cut) = (count(&self.tally.whole, k), count(&self.tally.cut, k));
            tr!("{} {whole} whole, {cut} cut", share.tint.word().replace('-', " "))
        };
        let shades: Vec<String> = self.shades.iter().enumerate().map(shade).collect();
        tr!(
            "{}: {} of {}: {}; {} to pipe, {:.0} g, {}",
            self.place(house),
            self.name,
            self.stuff.words(),
            shades.join("; "),
            house.unit.print(Length::mm_of(self.tally.piping.mm().round())),
            self.tally.mass.ceil(),
            duration(self.tally.minutes)
        )
    }

    /// Which faces it is on, in words: 'Tower: slopes', 'all walls'.
    pub fn place(&self, house: &House) -> String {
        let Some(finish) = house.dressing.finishes.get(self.finish) else { return String::new() };
        let which = match finish.faces.which {
            Where::Walls => tr!("walls"),
            Where::Slopes => tr!("slopes"),
            Where::Lids => tr!("flat roofs"),
        };
        let side = finish.faces.side.as_ref().map_or_else(String::new, |side| tr!(", side {}", side.words()));
        match finish.faces.part.as_ref().and_then(|id| house.part(id)) {
            Some(part) => format!("{}, {which}{side}", part.name),
            None => tr!("all {which}{side}"),
        }
    }
}

/// How many panes of a material there are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GlassAmount {
    /// The material.
    pub glass: Glass,
    /// Panes.
    pub panes: usize,
    /// Area of them, mm².
    pub area: f64,
    /// Mass of sugar, g; none for leaves, which are counted.
    pub mass: Option<f64>,
}

impl GlassAmount {
    /// On one line: 'glazing: 23 panes of gelatine leaf'.
    pub fn sentence(&self) -> String {
        let glass = crate::glass_facts(self.glass).name;
        let mass = self.mass.map_or_else(String::new, |mass| format!(", {:.0} g", mass.ceil()));
        tr!("Glazing: {n} pane of {glass}{mass}" | "Glazing: {n} panes of {glass}{mass}" % self.panes)
    }
}

/// Every finish that covers something, in the order of the list.
pub fn finish_amounts(house: &House, dressed: &Dressed) -> Vec<FinishAmount> {
    let amount = |(finish, own): (usize, &gable_shell::Finish)| {
        let mut faces = dressed.finishes.iter().filter(|c| c.finish == finish).peekable();
        faces.peek()?;
        let mut amount = FinishAmount {
            finish,
            name: own.covering.words(),
            stuff: own.stuff,
            shades: own.shades.clone(),
            faces: 0,
            tally: Tally::default(),
        };
        for face in faces {
            amount.faces += 1;
            amount.tally.add(&face.tally);
        }
        Some(amount)
    };
    house.dressing.finishes.iter().enumerate().filter_map(amount).collect()
}

/// Mass of a cubic millimetre of sugar glass, mg: hard sweets are at most 1.56 (see [`Stuff::density`]).
const SUGAR: f64 = 1.5;

/// Every material that is used.
pub fn glass_amounts(dressed: &Dressed) -> Vec<GlassAmount> {
    let amount = |glass: Glass| {
        let own: Vec<_> = dressed.panes.iter().filter(|p| p.glass == glass).collect();
        let sugar = own.iter().map(|p| p.outline.area() * p.thickness.mm()).sum::<f64>() * SUGAR / 1000.0;
        (!own.is_empty()).then(|| GlassAmount {
            glass,
            panes: own.len(),
            area: own.iter().map(|p| p.outline.area()).sum(),
            mass: (glass != Glass::Leaf).then_some(sugar),
        })
    };
    [Glass::Leaf, Glass::Poured, Glass::Crushed].into_iter().filter_map(amount).collect()
}

/// Minutes as people say them: '45 min', '3 h 20 min'; to five minutes above an hour, because rates are rough.
pub fn duration(minutes: f64) -> String {
    let whole = if minutes < 60.0 { minutes.ceil() } else { (minutes / 5.0).ceil() * 5.0 } as u64;
    match (whole / 60, whole % 60) {
        (0, minutes) => tr!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => tr!("{hours} h {minutes} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_shell::{demo, solve};

    #[test]
    fn durations_are_said_as_people_say_them() {
        let said = [0.0, 0.2, 45.0, 59.6, 60.0, 61.0, 200.0, f64::NAN].map(duration);
        assert_eq!(said, ["0 min", "1 min", "45 min", "1 h", "1 h", "1 h 5 min", "3 h 20 min", "0 min"]);
    }

    /// The totals are what the faces add up to, each counted once.
    #[test]
    fn amounts_are_the_sum_of_the_faces() {
        let house = demo::house("pilot-house").unwrap();
        let dressed = crate::dress(&house, &solve(&house));
        let amounts = finish_amounts(&house, &dressed);
        let units: usize = amounts.iter().map(|a| a.tally.all_whole() + a.tally.all_cut()).sum();
        assert_eq!(units, dressed.finishes.iter().map(|c| c.units.len()).sum::<usize>());
        assert_eq!(amounts.iter().map(|a| a.faces).sum::<usize>(), dressed.finishes.len());
        assert_eq!(glass_amounts(&dressed).iter().map(|g| g.panes).sum::<usize>(), dressed.panes.len());
    }
}
