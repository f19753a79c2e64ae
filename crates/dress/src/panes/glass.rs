//! What is known about the materials of panes.

use gable_measure::Length;
use gable_shell::Glass;
use gable_words::tr;

/// What panes of a material are like and how they are made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GlassFacts {
    /// Name for people.
    pub name: &'static str,
    /// Thickness of a pane.
    pub thickness: Length,
    /// Whether it takes a pass of its own in the oven or the pot.
    pub pass: &'static str,
    /// What can go wrong or hurt.
    pub cautions: &'static [&'static str],
}

/// Figures and cautions of a material.
///
/// Leaf: 2 g on 161 cm² at 1.3 g/cm³ give 0.095 mm (derived from a size from memory: an assumption); glued dry and cold
/// (common practice). Sugar: hard crack at 149-154 °C (Exploratorium; McGee, On Food and Cooking, 2004); panes of 3 mm
/// (derived); crushed sweets take about 5 min at 350 °F (household page). Melted isomalt laxative: JECFA.
pub fn facts(glass: Glass) -> GlassFacts {
    match glass {
        Glass::Leaf => GlassFacts {
            name: tr!("gelatine leaf"),
            thickness: Length::mm_of(0.1),
            pass: "Glue it behind the cold, dry piece with stiff icing; lay the piece face down to dry, so that the leaf stays flat.",
            cautions: &[
                "Gelatine comes from pigs, cattle or fish: say so to whoever does not eat them. Fish is an allergen.",
                "Leaves curl near damp icing and in damp rooms.",
            ],
        },
        Glass::Poured => GlassFacts {
            name: tr!("poured sugar"),
            thickness: Length::mm_of(3.0),
            pass: "Boil sugar to hard crack, 149 to 154 °C, and pour it into the openings of the baked piece on a silicone mat.",
            cautions: &[
                "Boiled sugar sticks to the skin and burns deeply: long sleeves, closed shoes, heatproof gloves, a bowl of cold water; no children, no pets. On a burn let cool water run for 20 minutes and get help.",
                "Sugar draws damp and turns sticky: make it late and keep it dry.",
            ],
        },
        Glass::Crushed => GlassFacts {
            name: tr!("crushed sweets"),
            thickness: Length::mm_of(3.0),
            pass: "Fill the openings of the baked piece with crushed hard sweets; about 5 minutes at 175 °C, watched all the time; peel it off when it is cold.",
            cautions: &[
                "Molten sweets are as hot as boiled sugar: leave them until they are cold.",
                "Sugar draws damp and turns sticky: make it late and keep it dry.",
                "Hard sweets choke small children.",
            ],
        },
    }
}
