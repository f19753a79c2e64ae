//! What the person wants of the order of assembly, as pieces.

use crate::{Before, House, Raised, Solved, Wish};
use gable_measure::{Finding, Severity};
use gable_words::tr;

/// Finds the pieces that the wishes of a house speak of; a wish that names what is not there is left out and told.
pub(super) fn find(house: &House, solved: &mut Solved) {
    for (index, Before { first, then }) in house.order.iter().enumerate() {
        let named = [("first", first), ("then", then)];
        let pieces = named.map(|(_, raised)| pieces(raised, solved));
        // Where the house cannot be built, pieces are missing for another reason.
        let lost =
            named.iter().zip(&pieces).filter(|(_, pieces)| pieces.is_empty() && solved.blocking().next().is_none());
        let told: Vec<Finding> = lost
            .map(|((key, raised), _)| Finding {
                kind: "order-of-nothing",
                severity: Severity::Caution,
                place: format!("order[{index}].{key}"),
                what: tr!("the order of assembly speaks of {}, and the house has none", raised.words(house)),
                remedy: tr!("strike out that wish, or name a part, the walls or roof of a part, or a piece").to_owned(),
            })
            .collect();
        solved.findings.extend(told);
        let words = tr!("{} before {}", words(first, house, solved), words(then, house, solved));
        let [first, then] = pieces;
        if !first.is_empty() && !then.is_empty() {
            solved.wishes.push(Wish { index, first, then, words });
        }
    }
}

fn pieces(raised: &Raised, solved: &Solved) -> Vec<usize> {
    let held = solved.pieces.iter().enumerate().filter(|(_, p)| raised.holds(&p.id, &p.part, &p.role));
    held.map(|(k, _)| k).collect()
}

fn words(raised: &Raised, house: &House, solved: &Solved) -> String {
    let piece = match raised {
        Raised::Piece(id) => solved.pieces.iter().find(|p| &p.id == id),
        _ => None,
    };
    piece.map_or_else(|| raised.words(house), |p| p.name.clone())
}
