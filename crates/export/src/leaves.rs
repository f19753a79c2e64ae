//! How many leaves the panes take.

use gable_dress::Dressed;
use gable_measure::Length;
use gable_nest::{Item, Job, Search, Sheet, Turns};
use gable_shell::{Glass, Glazier};

/// How far chords may be off arcs where only the number of leaves matters, mm.
const CHORD: f64 = 0.1;

/// How many leaves all panes that are cut from leaves take, laid side by side; `None` where one of them fits on no leaf.
pub fn leaves(dressed: &Dressed, glazier: &Glazier) -> Option<usize> {
    let panes = dressed.panes.iter().filter(|p| p.glass == Glass::Leaf);
    let item = |p: &gable_dress::Pane| Item { outline: p.outline.flatten(CHORD), turns: Turns::Quarter };
    let items: Vec<Item> = panes.map(item).collect();
    if items.is_empty() {
        return Some(0);
    }
    // A tenth of a millimetre more: panes were cut to the leaf exactly.
    let spare = Length::mm_of(0.1);
    let leaf = Sheet::rectangle(glazier.leaf_length + spare, glazier.leaf_width + spare);
    let job = Job::new(items, vec![leaf], Length::ZERO).ok()?;
    let search = Search::new(job, 1);
    Some(search.best().sheets_paid(search.job()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::{Contour, P2, Rigid};

    /// By hand: of a leaf of 230 by 70, three panes of 70 by 60 take one (3 × 70 = 210), the fourth a second one.
    #[test]
    fn panes_share_leaves_as_far_as_they_go() {
        let pane = gable_dress::Pane {
            id: String::new(),
            name: String::new(),
            piece: 0,
            opening: gable_shell::OpeningId(String::new()),
            copy: 0,
            glass: Glass::Leaf,
            outline: Contour::rectangle(P2::origin(), P2::new(60.0, 70.0)),
            thickness: Length::mm_of(0.1),
            house_from_pane: Rigid::identity(),
        };
        let count = |panes: usize, glazier: &Glazier| {
            leaves(&Dressed { panes: vec![pane.clone(); panes], ..Dressed::default() }, glazier)
        };
        let glazier = Glazier::default();
        assert_eq!([0, 1, 3, 4, 7].map(|n| count(n, &glazier)), [Some(0), Some(1), Some(1), Some(2), Some(3)]);
        assert_eq!(count(1, &Glazier { leaf_width: Length::mm_of(50.0), ..glazier }), None);
    }
}
