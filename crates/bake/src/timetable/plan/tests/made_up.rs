//! Thousands of made-up projects, judged by counting.

use super::judge::wrong;
use crate::timetable::plan::*;
use fastrand::Rng;

/// A project out of a number.
fn made_up(seed: u64) -> Project {
    let mut random = Rng::with_seed(seed);
    let kitchens = random.usize(1..=2);
    let days = random.i64(1..=4);
    let mut project = Project {
        start: random.i64(-500..500),
        due: days * 1440,
        reserve: [0, 60, 600][random.usize(0..3)],
        kitchens,
        carry: random.i64(0..60),
        ..Project::default()
    };
    for p in 0..random.usize(1..=3) {
        let hours = |day: i64, random: &mut Rng| {
            let from = day * 1440 + random.i64(400..900);
            Hours { kitchen: random.usize(0..kitchens), from, to: from + random.i64(60..500) }
        };
        let hours = (0..days + 1).map(|day| hours(day, &mut random)).collect();
        project.people.push(Person { name: format!("person {p}"), hours });
    }
    for kitchen in 0..kitchens {
        for kind in 0..3 {
            let more = random.u32(1..=2);
            project.places.push(Place {
                name: format!("place {kind}"),
                kitchen,
                kind,
                units: random.u32(1..=3) * more,
                more,
            });
        }
    }
    if random.bool() {
        let (from, kind) = (random.i64(0..1440), random.usize(0..3));
        let to = from + random.i64(1..600);
        project.taken.push(Taken { kitchen: 0, need: Need::of(kind, 1), from, to });
    }
    let mut block = 0;
    while project.jobs.len() < 16 {
        add(&mut project, block, &mut random);
        block += 1;
        if random.u8(0..12) == 0 {
            break;
        }
    }
    project
}

/// Adds a block of one to four jobs and what it comes after.
fn add(project: &mut Project, block: usize, random: &mut Rng) {
    let first = project.jobs.len();
    let size = if random.bool() { 1 } else { random.usize(2..=4) };
    for k in first..first + size {
        let hands = match random.u8(0..6) {
            0 => Hands::Alone,
            1 => Hands::Watched,
            2 => Hands::Work(random.usize(1..=project.people.len())),
            _ => Hands::Work(1),
        };
        let mut job =
            Job { name: format!("job {k}"), minutes: random.i64(0..120), hands, block: Some(block), ..Job::default() };
        job.kitchen = (random.u8(0..10) == 0).then(|| random.usize(0..project.kitchens));
        job.not_before = (random.u8(0..10) == 0).then(|| random.i64(0..1500));
        job.not_after = (random.u8(0..20) == 0).then(|| random.i64(500..3000));
        job.split = random.bool().then(|| random.i64(5..40));
        if random.u8(0..8) == 0 {
            job.who = vec![random.usize(0..project.people.len())];
        }
        if random.u8(0..3) == 0 {
            let sort = random.bool().then(|| random.usize(0..2));
            job.needs.push(Need { sort, ..Need::of(random.usize(0..3), random.u32(1..=2)) });
        }
        project.jobs.push(job);
    }
    for after in first + 1..first + size {
        let most = random.bool().then(|| [0, 30, 60][random.usize(0..3)]);
        project.links.push(Link {
            before: after - 1,
            after,
            least: most.map_or(30, |most| random.i64(0..=most.min(30))),
            most,
        });
    }
    for after in first..first + size {
        for _ in 0..random.usize(0..=2) {
            if first > 0 {
                let least = if random.bool() { 0 } else { random.i64(0..300) };
                project.links.push(Link { before: random.usize(0..first), after, least, most: None });
            }
        }
    }
    if size > 1 && random.bool() {
        let need = Need::of(random.usize(0..3), random.u32(1..=2));
        project.holds.push(Hold { from: first, to: first + size - 1, need });
    }
}

/// Never more of a person or a place than there is, nothing before its time, and the same every time.
#[test]
fn made_up_projects_are_planned_without_breaking_anything() {
    let count = std::env::var("GABLE_PROJECTS").ok().and_then(|n| n.parse().ok()).unwrap_or(3000);
    let (mut fit, mut not) = (0, 0);
    for seed in 0..count {
        let project = made_up(seed);
        assert_eq!(project.faults(), [], "seed {seed}");
        let answer = plan(&project, 4).unwrap();
        match &answer {
            Answer::Fits(plan) => {
                fit += 1;
                assert_eq!(wrong(&project, &plan.schedule, true), Vec::<String>::new(), "seed {seed}");
                assert!(plan.slack.iter().all(|&slack| slack >= 0), "seed {seed}: {:?}", plan.slack);
            }
            Answer::DoesNotFit(trouble) => {
                not += 1;
                assert_eq!(wrong(&project, &trouble.schedule, false), Vec::<String>::new(), "seed {seed}");
                assert!(!trouble.short.is_empty());
            }
        }
        if seed % 50 == 0 {
            assert_eq!(plan(&project, 4).unwrap(), answer, "seed {seed}");
        }
    }
    assert!(fit > count / 10 && not > count / 10, "both kinds are judged: {fit} fit, {not} do not");
}

/// Every help that is offered makes it possible.
#[test]
fn every_help_helps() {
    let mut offered = 0;
    for seed in 0..400 {
        let project = made_up(seed);
        if let Answer::Fits(_) = plan(&project, 2).unwrap() {
            continue;
        }
        let night = Hours { kitchen: 0, from: 1440 + 1000, to: 1440 + 1400 };
        let free = project.people[0].hours.iter().all(|h| h.to <= night.from || h.from >= night.to);
        let offers = if free { vec![Change::Hours(0, night)] } else { Vec::new() };
        for help in helps(&project, &offers, 2) {
            let changed = help.changes.iter().fold(project.clone(), |p, change| p.with(change));
            let Answer::Fits(plan) = plan(&changed, 2).unwrap() else { panic!("seed {seed}: {help:?}") };
            assert_eq!(wrong(&changed, &plan.schedule, true), Vec::<String>::new(), "seed {seed}");
            offered += 1;
        }
    }
    assert!(offered > 50, "{offered}");
}
