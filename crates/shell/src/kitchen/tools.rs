//! What a person cuts with.

use super::Kitchen;
use crate::{Dressing, Glazier, House};
use gable_measure::{Length, Unit};
use gable_words::tr;

/// What a person cuts with, and how much biscuit they want to leave.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tools {
    /// The narrowest blade or cutter.
    pub blade: Length,
    /// The narrowest bar or bridge of biscuit that is wanted; the thickness of the dough where it is not given.
    pub bridge: Option<Length>,
}

/// The tip of a knife.
impl Default for Tools {
    fn default() -> Self {
        let Glazier { blade, bridge, .. } = Glazier::default();
        Self { blade, bridge }
    }
}

impl Tools {
    /// Widest blade and widest bridge that make sense.
    pub const WIDEST: Length = crate::file::limits::WIDEST_RIM;

    /// What the file of a house says of them: files of up to version 5 may. Nothing where that is the usual.
    pub fn said_by(house: &House) -> Option<Self> {
        let Glazier { blade, bridge, .. } = house.dressing.glazier;
        Some(Self { blade, bridge }).filter(|said| *said != Self::default())
    }

    /// 'a finest blade of 4 mm and bridges of at least 9 mm'.
    pub fn words(&self, unit: Unit) -> String {
        let blade = tr!("a finest blade of {}", unit.print(self.blade));
        self.bridge.map_or_else(|| blade.clone(), |b| tr!("{blade} and bridges of at least {}", unit.print(b)))
    }
}

impl Kitchen {
    /// The house as this kitchen cuts it. Where nobody has said what there is to cut with, what its file says counts.
    pub fn equip(&self, house: &House) -> House {
        let Some(Tools { blade, bridge }) = self.tools else { return house.clone() };
        let glazier = Glazier { blade, bridge, ..house.dressing.glazier };
        House { dressing: Dressing { glazier, ..house.dressing.clone() }, ..house.clone() }
    }

    /// Takes over what the file of a house says of tools, unless this kitchen has some already; tells what became of it.
    /// Nothing is said where the file says nothing, or the same.
    pub fn take_over(&mut self, house: &House) -> Option<String> {
        let said = Tools::said_by(house)?;
        let words = said.words(house.unit);
        match self.tools {
            Some(own) if own == said => None,
            Some(own) => Some(tr!(
                "the file of this house speaks of {words}; tools belong to your kitchen, which says {}, and that counts",
                own.words(house.unit)
            )),
            None => {
                self.tools = Some(said);
                Some(tr!("the file of this house speaks of {words}; that is kept in your kitchen now, for every house"))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, file};

    /// A house as version 5 wrote it, with tools.
    fn old() -> House {
        let text = file::write(&demo::house("boat-hut").unwrap());
        let text = text.replacen("\"version\": 6", "\"version\": 5", 1);
        let glazing = "\"glazing\": { \"blade\": 9, \"bridge\": \"1/2 in\" }\n}";
        let text = format!("{},\n  {glazing}\n", text.trim_end().trim_end_matches('}').trim_end());
        file::parse(&text).unwrap()
    }

    #[test]
    fn what_an_old_house_says_of_tools_goes_to_the_kitchen() {
        let house = old();
        let said = Tools { blade: Length::mm_of(9.0), bridge: Some(Length::inches(0.5)) };
        assert_eq!(Tools::said_by(&house), Some(said));
        let mut kitchen = Kitchen::default();
        assert_eq!(kitchen.equip(&house), house, "as long as nobody has said");
        assert!(kitchen.take_over(&house).unwrap().contains("a finest blade of 9 mm"));
        assert_eq!(kitchen.tools, Some(said));
        assert_eq!(kitchen.take_over(&house), None, "it is known");
        // Another kitchen has a finer knife: that counts, and it is told.
        let own = Tools { blade: Length::mm_of(1.0), bridge: None };
        let mut fine = Kitchen { tools: Some(own), ..Kitchen::default() };
        assert!(fine.take_over(&house).unwrap().contains("a finest blade of 1 mm"));
        assert_eq!(fine.tools, Some(own));
        assert_eq!(Tools::said_by(&fine.equip(&house)), Some(own));
        // Written again, the house says nothing of it.
        let text = file::write(&house);
        assert!(!text.contains("blade") && !text.contains("bridge"));
        assert_eq!(Tools::said_by(&file::parse(&text).unwrap()), None);
    }

    #[test]
    fn tools_decide_what_is_too_fine_and_too_narrow() {
        let house = demo::house("boat-hut").unwrap();
        let said = |tools: Tools, kind: &str| {
            let house = Kitchen { tools: Some(tools), ..Kitchen::default() }.equip(&house);
            crate::solve(&house).findings.iter().filter(|f| f.kind == kind).count()
        };
        let wide = Tools { bridge: Some(Length::mm_of(60.0)), ..Tools::default() };
        assert!(said(wide, "opening-near-edge") > said(Tools::default(), "opening-near-edge"));
    }
}
