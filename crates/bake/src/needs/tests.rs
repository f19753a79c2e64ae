use super::*;
use crate::{Figure, Mass};
use gable_shell::{Stuff, demo, solve};

fn needs_of(house: &House, figures: &Figures) -> Needs {
    let solved = solve(house);
    let dressed = gable_dress::dress(house, &solved);
    Needs::of(&About { house, solved: &solved, dressed: &dressed, guide: None, board: None }, figures)
}

#[test]
fn sums_are_what_their_parts_add_up_to() {
    for name in demo::names() {
        let needs = needs_of(&demo::house(name).unwrap(), &Figures::default());
        let net: Mass = needs.dough.sorts.iter().map(|s| s.net).sum();
        assert!((net.g() - needs.dough.net.g()).abs() < 1e-9 && net > Mass::ZERO, "{name}");
        assert!((needs.dough.to_make / needs.dough.net - 1.2).abs() < 1e-9, "{name}");
        for icing in &needs.icing {
            let net: Mass = icing.uses.iter().map(|u| u.1).sum();
            assert!((net.g() - icing.net.g()).abs() < 1e-9, "{name}: {icing:?}");
        }
    }
}

/// What the finishes and ornaments say of their own mass, counted over the whole house.
#[test]
fn nothing_that_is_put_on_is_lost() {
    let house = demo::house("pilot-house").unwrap();
    let solved = solve(&house);
    let dressed = gable_dress::dress(&house, &solved);
    let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
    for stuff in Stuff::ALL {
        let finishes = dressed.finishes.iter().filter(|f| f.stuff == stuff).map(|f| f.tally.mass);
        let apart = dressed.ornaments.iter().chain(&dressed.extras).filter(|o| o.stuff == stuff).map(|o| o.mass());
        let expected: f64 = finishes.chain(apart).sum();
        let found: f64 = pastes::on_house(&about).filter(|o| o.stuff == stuff).map(|o| o.mass.g()).sum();
        assert!((found - expected).abs() < 1e-6, "{stuff:?}: {found} {expected}");
    }
}

/// A thicker bead, a denser dough, more to trim: never less of anything.
#[test]
fn more_of_a_figure_is_never_less_of_a_need() {
    let house = demo::house("boat-hut").unwrap();
    let plain = needs_of(&house, &Figures::default());
    let total = |needs: &Needs| {
        let icing: f64 = needs.icing.iter().map(|i| i.to_make.g()).sum();
        needs.dough.to_make.g() + icing + needs.pastes.iter().map(|p| p.to_make.g()).sum::<f64>()
    };
    for figure in Figure::ALL {
        let mut figures = Figures::default();
        figures.set(figure, figure.known().range.1).unwrap();
        assert!(total(&needs_of(&house, &figures)) >= total(&plain) - 1e-9, "{figure:?}");
    }
}

/// What does not go into two bags goes into three; snow is spread with a knife.
#[test]
fn bags_hold_all_icing_that_is_piped() {
    let house = demo::house("boat-hut").unwrap();
    let stiff = |needs: &Needs| needs.icing.iter().find(|i| i.consistency == Consistency::Stiff).unwrap().clone();
    let usual = needs_of(&house, &Figures::default());
    let mut figures = Figures::default();
    for (share, bags) in [(2.2, 3), (2.8, 3), (1.9, 2)] {
        figures.set(Figure::Bag, stiff(&usual).to_make.g() / share).unwrap();
        assert_eq!(stiff(&needs_of(&house, &figures)).bags, bags, "{share}");
    }
    let snow = usual.icing.iter().find(|i| i.consistency == Consistency::Snow).unwrap();
    assert_eq!((snow.bags, snow.to_make > Mass::ZERO), (0, true));
}
