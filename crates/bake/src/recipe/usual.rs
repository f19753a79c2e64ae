//! The program's own recipes. Proportions lie in the middle of published ones, masses of spoons are the USDA's.

use super::{Line, Makes, Recipe};
use crate::{Amount, Basis, Measure};
use gable_words::tr;

const CUPS: Measure = Measure::Cup;
const TABLESPOONS: Measure = Measure::Tablespoon;
const TEASPOONS: Measure = Measure::Teaspoon;
const PIECES: Measure = Measure::Piece;
const GRAMS: Measure = Measure::Gram;

type Rows = &'static [(&'static str, f64, Measure)];

fn recipe(id: &str, name: &str, makes: Makes, rows: Rows, steps: &[&str], source: &str) -> Recipe {
    let line = |(ingredient, number, measure): &(&str, f64, Measure)| Line {
        ingredient: (*ingredient).to_owned(),
        amount: Amount { number: *number, measure: *measure },
    };
    Recipe {
        id: id.to_owned(),
        name: name.to_owned(),
        makes,
        lines: rows.iter().map(line).collect(),
        steps: steps.iter().map(|s| (*s).to_owned()).collect(),
        basis: Basis::Derived,
        source: source.to_owned(),
    }
}

pub(super) fn recipes() -> Vec<Recipe> {
    vec![
        recipe(
            "construction",
            tr!("Construction dough"),
            Makes::Dough,
            &[
                ("flour", 500.0, GRAMS),
                ("shortening", 125.0, GRAMS),
                ("brown-sugar", 135.0, GRAMS),
                ("molasses", 225.0, GRAMS),
                ("egg", 1.0, PIECES),
                ("water", 10.0, GRAMS),
                ("baking-soda", 0.5, TEASPOONS),
                ("salt", 0.5, TEASPOONS),
                ("ginger", 1.0, TABLESPOONS),
                ("cinnamon", 2.0, TEASPOONS),
            ],
            &[
                tr!("Warm shortening, sugar and molasses together until the sugar has gone; let it cool to lukewarm."),
                tr!(
                    "Stir in the egg and the water, then flour, spices, salt and soda; knead until it is even and stiff."
                ),
                tr!("Flatten it, wrap it and chill it for at least 2 hours."),
            ],
            tr!(
                "flour 100, fat 25, sugar 27, syrup 45, egg and water 12: the middle of four published doughs for building"
            ),
        ),
        recipe(
            "honey",
            tr!("Honey dough"),
            Makes::Dough,
            &[
                ("flour", 500.0, GRAMS),
                ("honey", 300.0, GRAMS),
                ("sugar", 100.0, GRAMS),
                ("butter-unsalted", 100.0, GRAMS),
                ("egg", 1.0, PIECES),
                ("cinnamon", 2.0, TEASPOONS),
                ("cloves", 1.0, TEASPOONS),
                ("baking-soda", 1.0, TEASPOONS),
            ],
            &[
                tr!("Warm honey, sugar and butter until the sugar has gone; let it cool to lukewarm."),
                tr!("Stir in the egg, then flour, spices and soda; knead it."),
                tr!("Wrap it and let it rest for a day in a cool place."),
            ],
            tr!("flour 100, honey 60, sugar 20, butter 20, egg 10: the middle of two published doughs"),
        ),
        recipe(
            "royal-icing",
            tr!("Royal icing of pasteurised white"),
            Makes::Icing,
            &[("icing-sugar", 400.0, GRAMS), ("egg-white", 2.0, PIECES), ("cream-of-tartar", 0.25, TEASPOONS)],
            &[
                tr!("Bowl and beaters must be free of fat, or it never sets."),
                tr!(
                    "Beat the white with the tartar until it foams, then the sugar, spoon by spoon, 5 to 10 minutes until it stands in stiff peaks."
                ),
                tr!("Keep it under a damp cloth. Thin a little of it with water for lines, more for filling."),
            ],
            tr!("6 of sugar to 1 of white: the middle of published recipes for building"),
        ),
        recipe(
            "royal-icing-dried",
            tr!("Royal icing of dried white"),
            Makes::Icing,
            &[
                ("icing-sugar", 400.0, GRAMS),
                ("dried-white", 8.8, GRAMS),
                ("water", 57.2, GRAMS),
                ("cream-of-tartar", 0.25, TEASPOONS),
            ],
            &[
                tr!("Stir the dried white into the water and let it stand until it is smooth; sieve it."),
                tr!("Bowl and beaters must be free of fat, or it never sets."),
                tr!(
                    "Add the sugar, spoon by spoon, and beat 5 to 10 minutes until it stands in stiff peaks. Keep it under a damp cloth."
                ),
            ],
            tr!("4.4 g of powder for a white of 33 g, by their protein (USDA NDB 01136 and 01124)"),
        ),
        recipe(
            "fondant",
            tr!("Fondant to roll"),
            Makes::Fondant,
            &[
                ("icing-sugar", 900.0, GRAMS),
                ("light-syrup", 160.0, GRAMS),
                ("gelatine", 10.0, GRAMS),
                ("water", 60.0, GRAMS),
                ("glycerine", 3.0, TEASPOONS),
            ],
            &[
                tr!("Let the gelatine swell in the water, warm it until it is clear, stir in syrup and glycerine."),
                tr!("Knead in the sugar until it is smooth. Wrap it tightly and let it rest for a day."),
            ],
            tr!("common practice, no source; bought fondant does as well"),
        ),
        recipe(
            "gum-paste",
            tr!("Gum paste"),
            Makes::GumPaste,
            &[
                ("icing-sugar", 450.0, GRAMS),
                ("egg-white", 2.0, PIECES),
                ("gum", 4.0, TEASPOONS),
                ("shortening", 2.0, TEASPOONS),
            ],
            &[
                tr!("Beat white and most of the sugar as for icing, stir in the gum, let it stand for some minutes."),
                tr!("Knead in the rest of the sugar with greased hands. Wrap it tightly; chill it for a day."),
            ],
            tr!("common practice, no source; bought paste does as well"),
        ),
        recipe(
            "boiled-sugar",
            tr!("Sugar for poured panes"),
            Makes::BoiledSugar,
            &[("sugar", 2.0, CUPS), ("water", 1.0, CUPS), ("light-syrup", 0.75, CUPS)],
            &[
                tr!("Stir over gentle heat until all sugar has gone, then boil without stirring to 149 to 154 °C."),
                tr!(
                    "Stop it in cold water, let the bubbles rise, pour it at once. Long sleeves, closed shoes, gloves; no children, no pets."
                ),
            ],
            tr!("2 cups of sugar, 1 of water, 3/4 of syrup: a published household recipe"),
        ),
    ]
}
