//! Will it stand, will it travel: what must hold for any house, whatever its figures are.
//!
//! `GABLE_HOUSES` sets how many made-up houses of each kind are tried. Closed forms and worked examples stand beside the code.

#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise, helpers included")]

use gable_bake::{About, Figure, Notebook};
use gable_dress::{Dressed, dress};
use gable_raise::{Guide, PropKind};
use gable_shell::{House, Solved, demo, solve};
use gable_stand::bend::{self, Kept};
use gable_stand::damp::Air;
use gable_stand::stuff::Stuff;
use gable_stand::{ABOUT_CAKE, Ask, Class, Matter, Report, Site, Told, lift, tried};
use gable_tests::{plain_house, random_many};

struct Case {
    name: String,
    house: House,
    solved: Solved,
    dressed: Dressed,
    guide: Option<Guide>,
}

impl Case {
    fn new(name: String, house: House) -> Option<Self> {
        let solved = solve(&house);
        if solved.blocking().next().is_some() {
            return None;
        }
        let (dressed, guide) = (dress(&house, &solved), Guide::of(&solved).ok());
        Some(Self { name, house, solved, dressed, guide })
    }

    fn site<'a>(&'a self, notebook: &'a Notebook) -> Site<'a> {
        let board = gable_export::board_size(&self.house, &self.solved);
        let guide = self.guide.as_ref();
        let about = About { house: &self.house, solved: &self.solved, dressed: &self.dressed, guide, board };
        Site::new(about, notebook)
    }
}

/// Demos, plain houses and houses of many parts.
fn cases() -> Vec<Case> {
    let count: u64 = std::env::var("GABLE_HOUSES").ok().and_then(|n| n.parse().ok()).unwrap_or(4);
    let demos = demo::names().map(|name| (name.to_owned(), demo::house(name).unwrap()));
    let plain = (0..count).map(|seed| (format!("plain {seed}"), plain_house(seed)));
    let many = (0..count).map(|seed| (format!("many {seed}"), random_many(seed)));
    demos.chain(plain).chain(many).filter_map(|(name, house)| Case::new(name, house)).collect()
}

fn ask(humidity: f64, days: f64) -> Ask {
    Ask { air: Air { humidity, days }, board: None }
}

fn report(site: &Site<'_>, humidity: f64, days: f64, kept: &mut Kept) -> Report {
    Report::of(site, &ask(humidity, days), kept)
}

/// What an answer is about.
fn about(told: &Told) -> (Matter, Option<usize>, Option<usize>, &str) {
    (told.matter, told.answer.place.piece, told.answer.place.joint, &told.answer.place.name)
}

/// Words that promise. What is said is about cake.
const PROMISES: [&str; 12] = [
    "safe",
    "guarantee",
    "certainly",
    "surely",
    "will hold",
    "cannot break",
    "cannot fall",
    "no risk",
    "no danger",
    "harmless",
    "always holds",
    "never breaks",
];

#[test]
fn nothing_that_is_said_promises_anything() {
    let notebook = Notebook::default();
    let mut kept = Kept::default();
    let mut said = ABOUT_CAKE.to_owned();
    for case in cases() {
        for (humidity, days) in [(0.3, 3.0), (0.65, 30.0)] {
            let site = case.site(&notebook);
            let report = report(&site, humidity, days, &mut kept);
            report.chapters(&site).iter().for_each(|c| said.push_str(&c.text()));
            report.told.iter().for_each(|t| said.push_str(&format!("{}\n", t.line())));
        }
    }
    let low = said.to_lowercase();
    for promise in PROMISES {
        assert!(!low.contains(promise), "'{promise}': {:?}", low.lines().find(|line| line.contains(promise)));
    }
    assert!(ABOUT_CAKE.contains("none of this is a promise") && ABOUT_CAKE.contains("local rules come first"));
    // Every class is met somewhere, or nothing was walked.
    for class in [Class::Sound, Class::Care] {
        assert!(low.contains(class.words()));
    }
}

/// Damper or longer on show is never better, for anything that is asked of the same place.
#[test]
fn damper_is_never_better() {
    let notebook = Notebook::default();
    let mut kept = Kept::default();
    for case in cases() {
        let site = case.site(&notebook);
        let steps = [(0.35, 7.0), (0.5, 7.0), (0.5, 30.0), (0.62, 30.0)];
        let all = steps.map(|(humidity, days)| report(&site, humidity, days, &mut kept));
        for pair in all.windows(2) {
            for wet in &pair[1].told {
                // Of the joints only the one that is asked for most and those that are not sound are told.
                let Some(dry) = pair[0].told.iter().find(|t| about(t) == about(wet)) else { continue };
                let (a, b) = (dry.answer.share, wet.answer.share);
                // What could not be bent is told as such, in any air.
                if a.usual.is_nan() && b.usual.is_nan() {
                    continue;
                }
                assert!(
                    b.usual >= a.usual * (1.0 - 1e-9) && b.high >= a.high * (1.0 - 1e-9),
                    "{}: {}",
                    case.name,
                    wet.line()
                );
                assert!(wet.class() >= dry.class(), "{}: {}", case.name, wet.line());
            }
            assert!(pair[1].worst() >= pair[0].worst());
        }
        assert!(all.windows(2).all(|w| w[0].keep_below == w[1].keep_below), "{}", case.name);
    }
}

/// What is put on twice is never asked for less where it stands, is carried or hangs on a joint.
#[test]
fn double_covering_is_never_better() {
    let notebook = Notebook::default();
    for case in cases().iter().filter(|c| !c.dressed.finishes.is_empty()) {
        let mut double = case.dressed.clone();
        double.finishes.extend(case.dressed.finishes.clone());
        let site = case.site(&notebook);
        let twice = Site::new(About { dressed: &double, ..site.about }, &notebook);
        let (one, two) =
            (report(&site, 0.5, 7.0, &mut Kept::default()), report(&twice, 0.5, 7.0, &mut Kept::default()));
        assert!(two.carry.house >= one.carry.house);
        for (a, b) in one.carried.iter().zip(&two.carried) {
            assert!(a.joint == b.joint && b.load >= a.load * (1.0 - 1e-9) && b.hangs >= a.hangs * (1.0 - 1e-9));
        }
        for b in two.told.iter().filter(|t| matches!(t.matter, Matter::Lifted | Matter::Bends | Matter::Slides)) {
            let Some(a) = one.told.iter().find(|t| about(t) == about(b)) else { continue };
            assert!(b.answer.share.usual >= a.answer.share.usual * (1.0 - 1e-6), "{}: {}", case.name, b.line());
        }
    }
}

/// The guide alone says where props stand, and what would slide has one: with icing as thin as it is seen, no slope that is likely to
/// slide is without. What slides and is not stopped is told with that prop's own height.
#[test]
fn what_would_slide_is_propped_by_the_guide() {
    let notebook = Notebook::default();
    let mut slides = 0;
    for case in cases().iter().filter(|c| c.guide.is_some()) {
        let site = case.site(&notebook);
        let report = report(&site, 0.4, 1.0, &mut Kept::default());
        let guide = case.guide.as_ref().unwrap();
        for told in report.told.iter().filter(|t| t.matter == Matter::Slides) {
            let piece = told.answer.place.piece.unwrap();
            let props: Vec<_> = guide
                .stages
                .iter()
                .flat_map(|s| &s.props)
                .filter(|p| p.piece == piece && p.kind != PropKind::Beside)
                .collect();
            slides += 1;
            assert!(told.class() < Class::Breaks || !props.is_empty(), "{}: {}", case.name, told.line());
            if told.class() == Class::Care && !props.is_empty() {
                let height = |p: &&gable_raise::Prop| told.remedy.contains(&case.solved.unit.print(p.height));
                assert!(props.iter().any(height), "{}: {}", case.name, told.line());
            }
        }
        // Every prop that keeps a piece from tipping is told, no other.
        let beside = guide.stages.iter().flat_map(|s| &s.props).filter(|p| p.kind == PropKind::Beside).count();
        assert_eq!(report.told.iter().filter(|t| t.matter == Matter::Tips).count(), beside, "{}", case.name);
    }
    assert!(slides > 20);
}

/// What may slide has something before its edge, not just under it: wherever fresh icing may not hold at the least of its range, unless there
/// is no level place before the edge, which is then told. With such a stop nothing is likely to slide. The guide and the notebook take the
/// same least.
#[test]
fn what_may_slide_is_stopped_at_its_lower_edge() {
    let least = Figure::IcingYield.known().range.0;
    assert!((gable_raise::FLOWS * 1e6 - least).abs() < 1e-9, "{least} Pa");
    let notebook = Notebook::default();
    let (mut stopped, mut nowhere, mut steep) = (0, 0, 0);
    for case in cases().iter().filter(|c| c.guide.is_some()) {
        let site = case.site(&notebook);
        let guide = case.guide.as_ref().unwrap();
        for told in report(&site, 0.4, 1.0, &mut Kept::default()).told.iter().filter(|t| t.matter == Matter::Slides) {
            let piece = told.answer.place.piece.unwrap();
            let props = || guide.stages.iter().flat_map(|s| &s.props).filter(|p| p.piece == piece);
            let before = props().any(|p| p.kind == PropKind::Before);
            steep += usize::from(told.answer.share.usual >= 1.0);
            if before {
                stopped += 1;
                assert!(told.class() < Class::Breaks, "{}: {}", case.name, told.line());
            } else if told.answer.share.high >= 1.0 && props().next().is_some() {
                nowhere += 1;
                let unstopped = told.class() < Class::Breaks || told.remedy.contains("no level place before it");
                assert!(unstopped, "{}: {}", case.name, told.line());
            }
        }
    }
    println!("{stopped} stopped, {nowhere} with no level place, {steep} that fresh icing alone does not hold");
    assert!(stopped > 10 && steep > 0 && nowhere * 4 < stopped);
}

/// A person's own figures replace the assumptions, and make the answers narrower.
#[test]
fn ones_own_figures_make_answers_narrower() {
    let mut own = Notebook::default();
    own.figures.set(Figure::BiscuitStrength, 0.7).unwrap();
    own.figures.set(Figure::IcingYield, 400.0).unwrap();
    let usual = Notebook::default();
    let case = Case::new("pilot-house".to_owned(), demo::house("pilot-house").unwrap()).unwrap();
    let (before, after) = (case.site(&usual), case.site(&own));
    let mut kept = Kept::default();
    let (before, after) = (report(&before, 0.35, 7.0, &mut kept), report(&after, 0.35, 7.0, &mut kept));
    for b in after.told.iter().filter(|t| matches!(t.matter, Matter::Lifted | Matter::Slides)) {
        let a = before.told.iter().find(|t| about(t) == about(b)).unwrap();
        let wide = |t: &Told| t.answer.share.high - t.answer.share.low;
        assert!(wide(b) <= wide(a) * (1.0 + 1e-9), "{}", b.line());
        assert!((a.answer.share.usual - b.answer.share.usual).abs() < 1e-9, "{}", b.line());
    }
}

/// What is said to help was tried: the changed house, worked out here, is asked for less and is of a better class.
#[test]
fn what_is_said_to_help_helps() {
    let notebook = Notebook::default();
    let (mut count, mut bent) = (0, 0);
    // So damp that some pieces bend too far.
    let damp = bend::Ask { humidity: 0.6, ..bend::Ask::default() };
    for case in cases() {
        let site = case.site(&notebook);
        let mut told = in_hand(&site);
        told.extend(bend::answers(&site, &damp, &mut Kept::default()));
        for tried in tried(&site, &told, damp.humidity, || true) {
            count += 1;
            bent += usize::from(tried.matter == Matter::Bends);
            let mut house = case.house.clone();
            tried.change.apply(&mut house);
            let changed = Case::new(case.name.clone(), house).unwrap();
            let site = changed.site(&notebook);
            let mut after = in_hand(&site);
            after.extend(bend::answers(&site, &damp, &mut Kept::default()));
            let k = changed.solved.pieces.iter().position(|p| p.id == tried.piece).unwrap();
            let own = after.iter().find(|t| t.matter == tried.matter && t.answer.place.piece == Some(k)).unwrap();
            assert_eq!((own.class(), own.answer.share), (tried.class, tried.after), "{}", tried.line(&case.house));
            assert!(tried.after.usual < tried.before.usual, "{}", tried.line(&case.house));
        }
    }
    println!("{count} changes help, {bent} of them pieces that bend");
    assert!(count > 0 && bent > 0);
}

fn in_hand(site: &Site<'_>) -> Vec<Told> {
    lift::answers(site, |piece| Stuff::of(site.notebook, &piece.dough).strength.range)
}

/// The same house, the same words.
#[test]
fn the_same_house_gets_the_same_answers() {
    let notebook = Notebook::default();
    for case in cases() {
        let site = case.site(&notebook);
        let text = || report(&site, 0.5, 7.0, &mut Kept::default()).chapters(&site);
        assert_eq!(text(), text(), "{}", case.name);
    }
}
