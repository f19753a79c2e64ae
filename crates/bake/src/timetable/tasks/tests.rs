use super::*;
use crate::timetable::plan::{Answer, ROUNDS, plan};
use crate::timetable::{Helper, Shift, Timetable, Workplace};
use crate::{Figure, Figures, Lots, Needs, ToBake};
use gable_dress::Dressed;
use gable_raise::Guide;
use gable_shell::kitchen::Kitchen;
use gable_shell::{House, Solved, Stuff, demo, solve};
use jiff::ToSpan;
use jiff::civil::{date, time};
use std::sync::LazyLock;

/// Two people, every evening of two weeks and both Saturdays.
pub(crate) fn ask() -> Ask {
    let first = date(2026, 11, 27);
    let shifts = |from: i8, to: i8| {
        (0..21)
            .map(|k: i32| Shift {
                date: first.checked_add(k.days()).unwrap(),
                from: time(from, 0, 0, 0),
                to: time(to, 0, 0, 0),
                kitchen: 0,
            })
            .collect()
    };
    Ask {
        helpers: vec![
            Helper { name: "Ida".to_owned(), shifts: shifts(18, 22) },
            Helper { name: "Tove".to_owned(), shifts: shifts(19, 21) },
        ],
        lights: true,
        carried: true,
        ..Ask::usual(first.at(12, 0, 0, 0), date(2026, 12, 12).at(12, 0, 0, 0))
    }
}

/// A house with all that tasks are made from.
pub(crate) struct Built {
    house: House,
    pub(crate) solved: Solved,
    dressed: Dressed,
    guide: Option<Guide>,
    ovenfuls: Ovenfuls,
}

impl Built {
    fn of(house: House, solved: Solved) -> Self {
        let dressed = gable_dress::dress(&house, &solved);
        let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
        let ovenfuls = Ovenfuls::of(&ToBake::all(&about), &Kitchen::default(), &Figures::default(), &[]);
        assert_eq!(ovenfuls.too_large, [""; 0]);
        let guide = Guide::of(&solved).ok();
        Self { house, solved, dressed, guide, ovenfuls }
    }

    pub(crate) fn about(&self) -> About<'_> {
        let (house, solved, dressed, guide) = (&self.house, &self.solved, &self.dressed, self.guide.as_ref());
        About { house, solved, dressed, guide, board: None }
    }

    fn tasks(&self, ask: &Ask) -> Tasks {
        let about = self.about();
        let figures = Figures::default();
        Tasks::of(&Lots::one(about, 1), &[&Needs::of(&about, &figures)], &self.ovenfuls, &figures, ask)
    }
}

/// Laying pieces on trays takes a while, so each demo is laid once.
static BUILT: LazyLock<Vec<(&str, Built)>> = LazyLock::new(|| {
    let built = |name| {
        let house = demo::house(name).unwrap();
        let solved = solve(&house);
        (name, Built::of(house, solved))
    };
    demo::names().map(built).collect()
});

pub(crate) fn built(name: &str) -> &'static Built {
    &BUILT.iter().find(|built| built.0 == name).unwrap().1
}

pub(crate) fn tasks_of(name: &str, ask: &Ask) -> Tasks {
    built(name).tasks(ask)
}

fn at_home(ask: &mut Ask, from: i8, to: i8) {
    for shift in ask.helpers.iter_mut().flat_map(|helper| &mut helper.shifts) {
        (shift.from, shift.to) = (time(from, 0, 0, 0), time(to, 0, 0, 0));
    }
}

/// At most a tenth longer than the longest way or the busiest of helpers and ovens allow, whoever is there when.
#[test]
fn timetables_of_the_demos_are_nearly_as_short_as_can_be() {
    for (from, to) in [(18, 22), (8, 20), (0, 0)] {
        for name in demo::names() {
            let mut ask = ask();
            at_home(&mut ask, from, to);
            let tasks = tasks_of(name, &ask);
            for project in [tasks.project.clone(), tasks.project.in_steps(5)] {
                let Answer::Fits(plan) = plan(&project, ROUNDS).unwrap() else { panic!("{name}") };
                let (span, least) = (plan.end() - plan.start(), bound::least_span(&tasks.project, plan.end()));
                println!("{name} from {from} to {to}: {span}, at least {least}");
                assert!(
                    least <= span && span as f64 <= 1.1 * least as f64,
                    "{name} from {from} to {to}: {span}, at least {least}"
                );
            }
        }
    }
}

/// What a baker would never do the other way round.
#[test]
fn tasks_come_in_the_order_of_the_trade() {
    let ask = ask();
    let tasks = tasks_of("pilot-house", &ask);
    let table = Timetable::of(&tasks, &ask, 0).unwrap();
    assert_eq!(table.entries.len(), tasks.tasks.len());
    let of = |kind: TaskKind| table.entries.iter().filter(move |entry| entry.kind == kind);
    let before = |first: TaskKind, then: TaskKind| {
        for late in of(then) {
            for early in of(first).filter(|early| early.pieces.iter().any(|piece| late.pieces.contains(piece))) {
                assert!(early.to() <= late.from(), "{} before {}", early.name, late.name);
            }
        }
    };
    before(TaskKind::Bake, TaskKind::Trim);
    before(TaskKind::DryFlat, TaskKind::Glaze);
    before(TaskKind::Glaze, TaskKind::Decorate);
    before(TaskKind::Glaze, TaskKind::Bars);
    before(TaskKind::Decorate, TaskKind::Raise);
    before(TaskKind::Raise, TaskKind::Cover);
    before(TaskKind::Cover, TaskKind::Snow);
    let pieces = |kind: TaskKind| of(kind).flat_map(|entry| entry.pieces.clone()).collect::<Vec<_>>();
    let (mut baked, mut raised) = (pieces(TaskKind::Bake), pieces(TaskKind::Raise));
    baked.sort_unstable();
    raised.sort_unstable();
    assert_eq!(baked, raised, "every piece is baked once and put up once");
    for bake in of(TaskKind::Bake) {
        let trim = table.entry(&bake.id.replace("bake/", "trim/")).unwrap();

        let warm = Figures::default().get(Figure::WarmMinutes) as i64;
        let last = bake.to().checked_add(warm.max(trim.minutes() + 1).minutes()).unwrap();
        assert!(bake.to() <= trim.from() && trim.to() <= last, "{} is trimmed while warm", bake.name);
    }
    let ids: BTreeSet<&str> = table.entries.iter().map(|entry| entry.id.as_str()).collect();
    assert_eq!(ids.len(), table.entries.len(), "names are unique");
}

#[test]
fn damp_air_takes_longer_and_what_was_learned_counts() {
    let minutes = |ask: &Ask, id: &str| {
        let tasks = tasks_of("pilot-house", ask);
        tasks.project.jobs[tasks.find(id).unwrap()].minutes
    };
    let mut ask = ask();
    let id = "set/raise-main/wall-front";
    assert_eq!(minutes(&ask, id), 120);
    ask.damp = true;
    assert_eq!(minutes(&ask, id), 240, "double above 60 % humidity: common practice, no source");
    let board = minutes(&ask, "board/board");
    ask.learned.insert(TaskKind::Board, 1.5);
    assert_eq!(minutes(&ask, "board/board"), board * 3 / 2);
}

/// What is baked already is not baked again.
#[test]
fn baked_pieces_are_not_baked_again() {
    let ask = ask();
    let house = demo::house("boat-hut").unwrap();
    let mut solved = solve(&house);
    solved.pieces.iter_mut().for_each(|piece| piece.baked = true);
    let tasks = Built::of(house, solved).tasks(&ask);
    assert!(tasks.tasks.iter().all(|task| task.kind != TaskKind::Bake || task.pieces.is_empty()));
    assert!(tasks.tasks.iter().any(|task| task.kind == TaskKind::Raise));
    assert_eq!(tasks.project.faults(), []);
}

/// Said plainly, with what would help, each of which was tried.
#[test]
fn what_cannot_be_done_says_what_would_help() {
    let mut ask = ask();
    ask.stand_by = date(2026, 12, 4).at(12, 0, 0, 0);
    ask.helpers.truncate(1);
    ask.kitchens[0].trays = 1;
    let tasks = tasks_of("pilot-house", &ask);
    let table = Timetable::of(&tasks, &ask, 2).unwrap();
    let trouble = table.trouble.unwrap();
    assert!(table.stands.unwrap() > ask.stand_by);
    assert!(
        trouble.short[0].starts_with("It takes ") && trouble.short[0].contains("longer than there is"),
        "{:?}",
        trouble.short
    );
    assert!(trouble.helps.iter().any(|help| help.words.starts_with("let it stand ")), "{:?}", trouble.helps);

    ask.stand_by = date(2026, 12, 12).at(12, 0, 0, 0);
    ask.kitchens[0].ovens = 0;
    let table = Timetable::of(&tasks_of("boat-hut", &ask), &ask, 2).unwrap();
    let trouble = table.trouble.unwrap();
    assert!(trouble.short[0].starts_with("No kitchen has the helpers, ovens, trays and room"), "{:?}", trouble.short);
    assert!(trouble.helps.iter().any(|help| help.words == "one more oven in Kitchen"), "{:?}", trouble.helps);
    assert_eq!(table.stands, None);
}

/// Two kitchens: what is baked in one is carried to where the house is put up.
#[test]
fn another_kitchen_helps_with_the_baking() {
    let mut ask = ask();
    ask.kitchens.push(Workplace::usual("Tove's kitchen"));
    ask.helpers[1].shifts.iter_mut().for_each(|shift| shift.kitchen = 1);
    let table = Timetable::of(&tasks_of("pilot-house", &ask), &ask, 5).unwrap();
    assert_eq!(table.trouble, None);
    let places: BTreeSet<usize> =
        table.entries.iter().filter(|e| e.kind == TaskKind::Bake).map(|e| e.kitchen).collect();
    assert_eq!(places, BTreeSet::from([0, 1]));
    assert!(table.entries.iter().filter(|e| e.kind == TaskKind::Raise).all(|e| e.kitchen == 0));
}

/// Cut pieces get firm at once, within minutes (common practice, no source); roofs are baked last, when walls can be measured, so
/// that they can be cut to fit.
#[test]
fn cut_dough_gets_cold_at_once_and_roofs_come_last() {
    let mut roofs = 0;
    for name in demo::names() {
        let (tasks, solved) = (tasks_of(name, &ask()), &built(name).solved);
        let all = &tasks.tasks;
        let jobs = |kind: TaskKind| (0..all.len()).filter(move |&k| all[k].kind == kind);
        let link = |before, after| tasks.project.links.iter().find(|l| (l.before, l.after) == (before, after));
        let part = |k: usize| tasks.tasks[k].id.split_once('/').unwrap().1;
        for (cut, firm) in jobs(TaskKind::Cut).zip(jobs(TaskKind::Firm)) {
            assert_eq!(part(cut), part(firm));
            let most = link(cut, firm).unwrap().most.unwrap();
            assert!((5..=15).contains(&most), "{most} min");
        }
        let is_roof = |of: &PieceOf| {
            matches!(solved.pieces[of.piece].role, gable_shell::Role::Slope(..) | gable_shell::Role::Lid)
        };
        let own = |k: usize| tasks.tasks[k].pieces.iter();
        for roof in jobs(TaskKind::Cut).filter(|&k| own(k).len() > 0 && own(k).all(is_roof)) {
            for walls in jobs(TaskKind::Cool).filter(|&k| own(k).len() > 0 && !own(k).any(is_roof)) {
                assert!(link(walls, roof).is_some(), "{name}: {}", tasks.tasks[roof].name);
                roofs += 1;
            }
        }
    }
    assert!(roofs > 0, "some house has a tray of roofs alone");
}

/// Ornaments that are piped need icing first.
#[test]
fn ornaments_of_icing_wait_until_it_is_made() {
    let mut house = demo::house("boat-hut").unwrap();
    house.dressing.ornaments.iter_mut().for_each(|own| own.stuff = Stuff::Icing);
    let solved = solve(&house);
    let tasks = Built::of(house, solved).tasks(&ask());
    let (mix, piped) = (tasks.find("icing/decorating").unwrap(), tasks.find("ornaments/icing").unwrap());
    assert!(tasks.project.links.iter().any(|link| (link.before, link.after) == (mix, piped)));
}
