//! Where someone can be hurt or made ill, and what is usually done about it. Local rules and licensed practice come first.

use crate::{Makes, Needs};
use gable_shell::{Glass, Stuff};
use gable_words::tr;

/// A danger that comes with a bake.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Dough with raw flour and egg.
    RawDough,
    /// Icing with raw white.
    RawWhite,
    /// Honey and infants.
    Honey,
    /// What some people must not eat.
    Allergens,
    /// Printer's ink on dough.
    Ink,
    /// Boiled and molten sugar.
    HotSugar,
    /// Knives and cutters.
    Blades,
    /// Oven, hot trays.
    Oven,
    /// Button cells.
    ButtonCells,
    /// Lights and wires.
    Lights,
    /// Candles and flames.
    Flames,
    /// Glue that is no food.
    Glue,
    /// Sweets and small pieces in small throats.
    Choking,
    /// Silver balls, glitter, dusts.
    Glitter,
    /// Pests and mould.
    Keeping,
}

impl Caution {
    /// Every one, in the order in which a bake comes to it.
    pub const ALL: [Self; 15] = [
        Self::RawDough,
        Self::RawWhite,
        Self::Honey,
        Self::Allergens,
        Self::Ink,
        Self::Blades,
        Self::Oven,
        Self::HotSugar,
        Self::Lights,
        Self::ButtonCells,
        Self::Flames,
        Self::Glue,
        Self::Choking,
        Self::Glitter,
        Self::Keeping,
    ];

    /// In a word or two.
    pub fn title(self) -> &'static str {
        match self {
            Self::RawDough => tr!("Raw dough"),
            Self::RawWhite => tr!("Raw white of egg"),
            Self::Honey => tr!("Honey"),
            Self::Allergens => tr!("Allergens"),
            Self::Ink => tr!("Printed patterns"),
            Self::HotSugar => tr!("Hot sugar"),
            Self::Blades => tr!("Blades"),
            Self::Oven => tr!("Oven"),
            Self::ButtonCells => tr!("Button cells"),
            Self::Lights => tr!("Lights and wires"),
            Self::Flames => tr!("Flames"),
            Self::Glue => tr!("Glue and board"),
            Self::Choking => tr!("Small children"),
            Self::Glitter => tr!("Silver balls and glitter"),
            Self::Keeping => tr!("Keeping it"),
        }
    }

    /// What to do.
    pub fn words(self) -> &'static str {
        match self {
            Self::RawDough => {
                tr!(
                    "Flour is raw and eggs may carry salmonella: nobody tastes the dough, children do not play with it. Wash \
                 hands, tools and tables afterwards."
                )
            }
            Self::RawWhite => {
                tr!(
                    "Take pasteurised or dried white for icing. Infants, the old, the pregnant and the ill should eat none made \
                 of raw white. What is kept for another day is kept covered and in the cold; whites never stand in the warm for \
                 more than 2 hours."
                )
            }
            Self::Honey => tr!("Nothing made with honey for infants under 12 months, not even baked."),
            Self::Allergens => {
                tr!(
                    "Keep the labels, and tell everyone who is given some what is in it. Read the label of what may hold more."
                )
            }
            Self::Ink => {
                tr!("Ink must not touch dough: lay baking paper between, or cut the patterns out of card for food.")
            }
            Self::HotSugar => {
                tr!(
                    "Boiled sugar sticks and burns deeply: long sleeves, closed shoes, gloves, cold water at hand; no children, \
                 no pets. On a burn: 20 minutes of cool running water, no ice, no butter, pull nothing off; get help for \
                 large or deep burns, hands and faces."
                )
            }
            Self::Blades => {
                tr!("A new blade that is kept for food, cut away from fingers, count blades and pins afterwards.")
            }
            Self::Oven => {
                tr!("Dry oven gloves, a place cleared for the hot tray; biscuit is trimmed while the tray is hot.")
            }
            Self::ButtonCells => {
                tr!(
                    "A swallowed button cell burns through a child's throat within 2 hours: the compartment must be screwed \
                 shut. If one may have been swallowed, go to an emergency department at once."
                )
            }
            Self::Lights => {
                tr!(
                    "Tested lights of low voltage only, no damaged cords, switched off when nobody is there. Box and wires stay \
                 outside what is eaten; mark what they touch as not to be eaten."
                )
            }
            Self::Flames => tr!("No candles in or near the house."),
            Self::Glue => {
                tr!(
                    "Glue, tape and bare wood are no food: foil or baking paper over the board; what sticks to it is not eaten."
                )
            }
            Self::Choking => tr!("No hard or sticky sweets, no nuts for children under 4; sit down to eat."),
            Self::Glitter => {
                tr!(
                    "Silver balls, glitter and dusts only if they are sold as food with a list of ingredients; otherwise take them off before eating."
                )
            }
            Self::Keeping => {
                tr!(
                    "Cool and dry, in a tin that closes. In an open room it is for looking at. Throw it away if it is mouldy or has guests."
                )
            }
        }
    }

    /// Where that comes from.
    pub fn source(self) -> &'static str {
        match self {
            Self::RawDough => tr!("FDA, 5 Dec 2023; CDC (read in a copy)"),
            Self::RawWhite => {
                tr!("Iowa State University Extension, 20 Dec 2022; advice of USDA and FDA on eggs (read in copies)")
            }
            Self::Honey => tr!("California Department of Public Health, 2024; INSPQ Quebec"),
            Self::Allergens => tr!("Regulation (EU) 1169/2011, annex II; 21 U.S.C. 343(w) (read in copies)"),
            Self::HotSugar => tr!("McGee, On Food and Cooking, 2004; first aid: NHS (read in a copy)"),
            Self::ButtonCells => tr!("CPSC, 11 Sept 2023; 16 CFR 1263 (read in copies); the last clause from memory"),
            Self::Lights => tr!("CSA advice, 2010; the rest common practice, no source"),
            Self::Flames => tr!("CPSC release 08-104, 2007"),
            Self::Choking => tr!("Nationwide Children's Hospital; City of Phoenix Fire"),
            Self::Glitter => tr!("FDA CPG 545.200, 1988, and its advisory on glitter; Univ. Wisconsin Extension, 2024"),
            Self::Keeping => {
                tr!("Utah State Univ. Extension, 2006; NY State Dept. of Agriculture; the last clause from memory")
            }
            Self::Ink | Self::Blades | Self::Oven | Self::Glue => tr!("common practice, no source"),
        }
    }

    /// Those that come with what a house takes and what it is made of.
    pub(crate) fn of(needs: &Needs, has_allergens: bool, ingredients: &[&str], made: &[Makes]) -> Vec<Self> {
        let uses = |id: &str| ingredients.contains(&id);
        let melts = needs.glazing.iter().any(|g| g.glass != Glass::Leaf) || made.contains(&Makes::BoiledSugar);
        let sweets = !needs.sweets.is_empty() || needs.pastes.iter().any(|p| p.stuff == Stuff::Sweets);
        let comes = |caution: &Self| match caution {
            Self::RawWhite => uses("egg-white"),
            Self::Honey => uses("honey"),
            Self::Allergens => has_allergens,
            Self::HotSugar => melts,
            Self::Lights | Self::ButtonCells | Self::Flames => needs.lights,
            Self::Glitter => sweets || !needs.pastes.is_empty(),
            Self::RawDough | Self::Ink | Self::Blades | Self::Oven | Self::Glue | Self::Choking | Self::Keeping => true,
        };
        Self::ALL.into_iter().filter(comes).collect()
    }
}
