//! What keeps a size from following, in words.

use super::Trouble;
use crate::{House, Measured};
use gable_measure::{Finding, Length, Severity};
use gable_words::tr;

/// What is wrong with a relation, in words.
pub(super) fn tell(house: &House, index: usize, trouble: &Trouble) -> Option<Finding> {
    let relation = &house.relations[index];
    let follower = relation.follower.words(house);
    let gone = tr!("let it go, or let it follow something else");
    let (kind, why, remedy) = match trouble {
        Trouble::Lost => return None,
        Trouble::OtherKind => {
            ("follows-another-kind", tr!("heights follow heights, and sizes of plans sizes of plans").to_owned(), gone)
        }
        Trouble::NoPart(lost) => ("follows-no-part", tr!("the house has no part called {}", lost.part.0), gone),
        Trouble::NoMeasure(m) if m == &relation.follower => {
            ("follows-with-nothing", tr!("the part has nothing of the kind that could be set").to_owned(), gone)
        }
        Trouble::NoMeasure(m) => ("follows-nothing", tr!("there is no such thing as {}", m.words(house)), gone),
        Trouble::Differs(m) => {
            let part = house.part(&m.part).map_or("", |p| p.name.as_str());
            (
                "follows-several-heights",
                tr!("the walls of {part} have different heights"),
                tr!("choose one of its sides"),
            )
        }
        Trouble::Taken(other) => {
            let what = tr!("{} sets the same size, to be {}", other.follower.words(house), other.words(house));
            ("follows-two", what, tr!("let one of the two go"))
        }
        Trouble::Circle(circle) => (
            "follows-in-a-circle",
            tr!("these follow each other in a circle: {}", round(house, circle)),
            tr!("let one of them go"),
        ),
        Trouble::Beyond(target, why) => {
            let target = house.unit.print(Length::mm_of(*target));
            let above = if relation.follower.measure.is_height() { tr!(" above the foot of its part") } else { "" };
            let what = tr!("it would have to be {target}{above}, but {why}");
            ("follows-too-far", what, tr!("change what it follows, or let it go"))
        }
    };
    let what = tr!("{follower} cannot be {}: {why}", relation.words(house));
    let place = house.field_of(&relation.follower).unwrap_or_else(|| format!("relations[{index}]"));
    Some(Finding { kind, severity: Severity::Caution, place, what, remedy: remedy.to_owned() })
}

/// The sizes of a circle, back to the first.
fn round(house: &House, circle: &[Measured]) -> String {
    /// More names say nothing to anybody.
    const FEW: usize = 6;
    let mut names: Vec<String> = circle.iter().take(FEW).map(|m| m.words(house)).collect();
    if circle.len() > FEW {
        names.push("…".to_owned());
    }
    names.extend(circle.first().map(|m| m.words(house)));
    names.join(", ")
}
