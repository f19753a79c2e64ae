use super::*;
use gable_bake::Notebook;
use gable_shell::DoughId;

fn stuff() -> Stuff {
    Stuff::of(&Notebook::default(), &DoughId("walls".into()))
}

fn mm(length: f64) -> Length {
    Length::mm_of(length)
}

/// Saleem et al. 2003: at first 1e-5 a minute, 1e-2 in the end. Our curve stretches by 1e-2 (1 - e^(-t/τ)), whose first rate is
/// 1e-2 / τ; after the 48 h of that measurement it has all but ended.
#[test]
fn biscuit_soaks_as_it_was_seen_to_stretch() {
    let hours = soaking_hours(mm(6.5), false).usual;
    assert!((1e-2 / (hours * 60.0) / 1e-5 - 1.0).abs() < 0.03);
    let air = Air { humidity: 0.6, days: 2.0 };
    let wet = reached(air, mm(6.5), false);
    assert!(growth(mm(1000.0), wet).high > 8.0 && growth(mm(1000.0), wet).high <= 10.0);
}

/// Water comes to twice the depth in four times the time (diffusion, Crank, The Mathematics of Diffusion, 1975), and a face that is
/// shut makes a slab as deep as one of twice its thickness.
#[test]
fn depth_takes_the_square_of_its_time() {
    let air = |days: f64| Air { humidity: 0.6, days };
    assert_eq!(reached(air(1.0), mm(5.0), false), reached(air(4.0), mm(10.0), false));
    assert_eq!(reached(air(3.0), mm(5.0), true), reached(air(3.0), mm(10.0), false));
    assert!((reached(air(1e4), mm(5.0), false).low - 0.6).abs() < 1e-9);
    assert_eq!(reached(air(0.0), mm(5.0), false), Range::exactly(CRISP));
}

/// The bands of food.md 2.4: crisp up to 35 %, softening from 46 to 60 %; and of 1.3: softened biscuit keeps a fifth or less.
#[test]
fn the_bands_of_humidity() {
    let left = |humidity: f64| softened(&stuff(), Air { humidity, days: 60.0 }, mm(6.0), false).left.usual;
    assert!(left(0.35) > 0.9, "{}", left(0.35));
    assert!(left(0.46) > 0.5 && left(0.46) < 0.9, "{}", left(0.46));
    assert!(left(0.6) < 0.25, "{}", left(0.6));
}

/// Damper, longer or thinner is never better.
#[test]
fn damper_is_never_better() {
    let stuff = stuff();
    let left =
        |humidity: f64, days: f64, thickness: f64| softened(&stuff, Air { humidity, days }, mm(thickness), false);
    let not_more = |a: Softened, b: Softened| {
        assert!(
            a.left.low <= b.left.low + 1e-12
                && a.left.usual <= b.left.usual + 1e-12
                && a.left.high <= b.left.high + 1e-12
        );
        assert!(a.left.low <= a.left.usual && a.left.usual <= a.left.high);
    };
    for humidity in [0.25, 0.35, 0.45, 0.55, 0.65, 0.75] {
        for days in [0.5, 2.0, 7.0, 30.0] {
            for thickness in [3.0, 6.0, 10.0] {
                let own = left(humidity, days, thickness);
                not_more(left(humidity + 0.05, days, thickness), own);
                not_more(left(humidity, days * 2.0, thickness), own);
                not_more(own, left(humidity, days, thickness + 2.0));
                not_more(own, softened(&stuff, Air { humidity, days }, mm(thickness), true));
            }
        }
    }
}

#[test]
fn what_is_asked_for_more_must_be_kept_drier() {
    let stuff = stuff();
    let limits: Vec<Option<f64>> = [0.02, 0.1, 0.2, 0.3, 0.6].map(|s| keep_below(&stuff, Range::exactly(s))).to_vec();
    assert!(limits.windows(2).all(|w| w[1].unwrap_or(0.0) <= w[0].unwrap_or(0.0)), "{limits:?}");
    assert!(limits[0].is_some() && limits[4].is_none());
    // The highest per cent that is still sound.
    for (share, limit) in [0.02, 0.1, 0.2, 0.3].into_iter().zip(&limits) {
        let sound = |humidity: f64| Class::of(Range::exactly(share) / stuff.at(humidity).left) == Class::Sound;
        let Some(limit) = *limit else { continue };
        assert!(sound(limit) && (limit >= 0.8 || !sound(limit + 0.01)), "{share} {limit}");
    }
}

/// A time constant, by its definition: after it, 1 - 1/e of the way is done.
#[test]
fn after_its_hours_biscuit_is_two_thirds_of_the_way_to_the_air() {
    let hours = soaking_hours(mm(6.5), false).usual;
    let wet = reached(Air { humidity: 0.6, days: hours / 24.0 }, mm(6.5), false).usual;
    assert!(((wet - CRISP) / (0.6 - CRISP) - (1.0 - (-1_f64).exp())).abs() < 1e-9, "{wet}");
}

/// Panes need care as soon as the first of them may curl.
#[test]
fn panes_need_care_from_the_low_end_of_what_is_known() {
    let house = gable_shell::demo::house("boat-hut").unwrap();
    let solved = gable_shell::solve(&house);
    let (dressed, notebook) = (gable_dress::dress(&house, &solved), Notebook::default());
    let about = gable_bake::About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
    let site = Site::new(about, &notebook);
    let class = |humidity: f64| panes(&site, Air { humidity, days: 7.0 }).iter().map(|t| t.class()).max();
    assert_eq!(class(STICKY.low.min(CURLS.low) - 0.01), Some(Class::Sound));
    assert_eq!(class(CURLS.low + 0.01), Some(Class::Care));
}
