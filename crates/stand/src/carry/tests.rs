use super::*;
use gable_bake::{About, Notebook};
use gable_dress::{Dressed, dress};
use gable_shell::{House, Solved, demo, solve};

struct Case {
    house: House,
    solved: Solved,
    dressed: Dressed,
    notebook: Notebook,
}

impl Case {
    fn of(name: &str) -> Self {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        let dressed = dress(&house, &solved);
        Self { house, solved, dressed, notebook: Notebook::default() }
    }

    fn site(&self) -> Site<'_> {
        let board = Some((Length::mm_of(420.0), Length::mm_of(380.0)));
        let about = About { house: &self.house, solved: &self.solved, dressed: &self.dressed, guide: None, board };
        Site::new(about, &self.notebook)
    }
}

/// A hut that is the same on both sides weighs the same on both sides.
#[test]
fn a_plain_hut_balances_in_its_middle() {
    let mut case = Case::of("boat-hut");
    case.house.dressing = gable_shell::Dressing::default();
    case.house.parts[0].openings.clear();
    case.solved = solve(&case.house);
    case.dressed = dress(&case.house, &case.solved);
    let carry = Carry::of(&case.site(), None);
    assert!(carry.off.0.mm().abs() < 0.5 && carry.off.1.mm().abs() < 0.5, "{carry:?}");
    assert!(carry.middle.unwrap().z < carry.height.mm() / 2.0);
    assert_eq!(carry.board.g(), 420.0 * 380.0 * 9.0 * 0.75e-3);
}

/// The mass is that of the bake plan's biscuit with all that is on it: no less than the biscuit alone.
#[test]
fn a_house_weighs_its_biscuit_and_what_is_on_it() {
    for name in demo::names() {
        let case = Case::of(name);
        let site = case.site();
        let biscuit: f64 = site.weights.iter().map(|w| w.biscuit.mass().g()).sum();
        let kitchen = gable_shell::kitchen::Kitchen::default();
        let baked =
            gable_bake::BakePlan::of(&gable_bake::Lots::one(site.about, 1), &kitchen, &case.notebook).baked().g();
        let carry = Carry::of(&site, None);
        // The plan bakes doors and ornaments of dough too.
        assert!(
            biscuit <= baked * 1.000001 && carry.house.g() >= baked * 0.999,
            "{name}: {biscuit} {baked} {}",
            carry.house.g()
        );
    }
}

/// What stands beside the house counts with its own mass, once.
#[test]
fn what_stands_beside_the_house_is_carried_too() {
    let mut case = Case::of("pilot-house");
    let with = Carry::of(&case.site(), None).house.g();
    let beside: f64 = case.dressed.extras.iter().map(gable_dress::OrnamentPiece::mass).sum();
    case.dressed.extras.clear();
    let without = Carry::of(&case.site(), None).house.g();
    // Things of icing are also counted as icing that is made, but not as icing of joints.
    assert!(beside > 0.0 && (with - without - beside).abs() < 1e-6, "{with} {without} {beside}");
}

/// Evenly sheared and bent about the middle: `F / A + F h c / (Σ A d²)` (elementary statics of a group of joints).
#[test]
fn a_jolt_shears_and_bends_the_foot() {
    let foot = [
        (50.0, P3::new(-20.0, 0.0, 0.0)),
        (50.0, P3::new(20.0, 0.0, 0.0)),
        (50.0, P3::new(0.0, 10.0, 0.0)),
        (50.0, P3::new(0.0, -10.0, 0.0)),
    ];
    let found = loose::foot_stress(&foot, 2.0, P3::new(0.0, 0.0, 30.0)).unwrap();
    // About the axis across which it is narrow: 2 N × 30 mm × 10 mm / (2 × 50 mm² × 100 mm²).
    assert!((found - (2.0 / 200.0 + 600.0 / 10_000.0)).abs() < 1e-12, "{found}");
    assert_eq!(loose::foot_stress(&[], 2.0, P3::origin()), None);
}

#[test]
fn a_house_of_one_part_is_one_section_and_the_pilot_house_is_more() {
    let hut = Case::of("boat-hut");
    let one = sections(&hut.site());
    assert_eq!((one.len(), one[0].seams.len()), (1, 0));
    assert!(one[0].way.is_some());
    let pilot = Case::of("pilot-house");
    let site = pilot.site();
    let all = sections(&site);
    assert!(all.len() > 1);
    // Every part is in exactly one section, and every piece is weighed once.
    assert_eq!(all.iter().map(|s| s.parts.len()).sum::<usize>(), pilot.house.parts.len());
    let whole: f64 = site.weights.iter().map(|w| w.done().mass().g()).sum();
    assert!((all.iter().map(|s| s.mass.g()).sum::<f64>() - whole).abs() < 1e-6);
}

/// A stiffer board is offered only when it was tried and is sound.
#[test]
fn the_board_that_is_offered_does() {
    for name in demo::names() {
        let case = Case::of(name);
        let site = case.site();
        for kind in BOARDS {
            let carry = Carry::of(&site, Some(kind.word));
            assert_eq!(carry.kind, kind);
            let told = answers(&site, &carry, Range::new(0.1, 0.2, 0.3));
            let board = told.iter().find(|t| t.matter == Matter::Board).unwrap();
            let offered = BOARDS.iter().find(|other| board.remedy.contains(&format!("take {} (tried", other.name)));
            if let Some(other) = offered {
                let tried = answers(&site, &Carry::of(&site, Some(other.word)), Range::new(0.1, 0.2, 0.3));
                assert_eq!(tried.iter().find(|t| t.matter == Matter::Board).unwrap().class(), Class::Sound);
            }
        }
    }
}
