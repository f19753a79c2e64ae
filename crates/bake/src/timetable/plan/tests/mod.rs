pub(in crate::timetable) mod judge;
mod made_up;
mod textbook;

use super::*;

fn alone(name: &str, minutes: i64) -> Job {
    Job { name: name.to_owned(), minutes, ..Job::default() }
}

fn work(name: &str, minutes: i64) -> Job {
    Job { hands: Hands::Work(1), ..alone(name, minutes) }
}

const fn link(before: usize, after: usize) -> Link {
    Link { before, after, least: 0, most: None }
}

/// One kitchen, one person from 18:00 to 21:00 every day, an oven and a tray.
fn evenings(days: i64) -> Project {
    let hours = (0..days).map(|day| Hours { kitchen: 0, from: day * 1440 + 1080, to: day * 1440 + 1260 }).collect();
    let place = |kind, name: &str| Place { name: name.to_owned(), kitchen: 0, kind, units: 1, more: 1 };
    Project {
        due: days * 1440,
        kitchens: 1,
        people: vec![Person { name: "Ida".to_owned(), hours }],
        places: vec![place(0, "oven"), place(1, "tray")],
        ..Project::default()
    }
}

fn fits(project: &Project) -> Plan {
    match plan(project, 10).unwrap() {
        Answer::Fits(plan) => {
            assert_eq!(judge::wrong(project, &plan.schedule, true), Vec::<String>::new());
            plan
        }
        Answer::DoesNotFit(trouble) => panic!("{trouble:?}"),
    }
}

fn trouble(project: &Project) -> Trouble {
    match plan(project, 10).unwrap() {
        Answer::Fits(plan) => panic!("{plan:?}"),
        Answer::DoesNotFit(trouble) => trouble,
    }
}

#[test]
fn drying_goes_on_at_night_and_work_does_not() {
    let mut project = evenings(2);
    project.jobs = vec![work("ice", 120), alone("dry", 720), work("raise", 60)];
    project.links = vec![link(0, 1), link(1, 2)];
    let plan = fits(&project);
    let spans: Vec<_> = plan.schedule.placed.iter().flatten().map(|p| p.spans.clone()).collect();
    assert_eq!(spans[2], [(1440 + 1200, 1440 + 1260)], "as late as may be");
    assert_eq!(spans[1], [(1440 + 480, 1440 + 1200)]);
    assert_eq!(spans[0], [(1140, 1260)], "on the evening before");
}

#[test]
fn long_work_is_laid_down_over_night_only_where_that_may_be() {
    let mut project = evenings(3);
    project.jobs = vec![Job { split: Some(30), ..work("tiles", 300) }];
    let spans = fits(&project).schedule.placed[0].clone().unwrap().spans;
    assert_eq!(spans.iter().map(|(from, to)| to - from).sum::<i64>(), 300);
    assert_eq!(spans.len(), 2);
    project.jobs[0].split = None;
    let short = trouble(&project).short;
    assert_eq!(short, [Short::NoHours(vec![0])]);
}

/// What is trimmed must be trimmed while warm, so it is not baked before there are hands for it.
#[test]
fn nothing_is_baked_that_nobody_can_trim() {
    let mut project = evenings(1);
    let one_go = |job: Job| Job { block: Some(7), ..job };
    let oven = vec![Need::of(0, 1)];
    project.jobs = vec![
        one_go(work("cut", 30)),
        one_go(Job { hands: Hands::Watched, needs: oven, ..alone("bake", 15) }),
        one_go(work("trim", 10)),
        work("a call that cannot wait", 60),
    ];
    project.jobs[3].not_before = Some(1120);
    project.people[0].hours = vec![Hours { kitchen: 0, from: 1080, to: 1192 }];
    project.links = vec![link(0, 1), Link { most: Some(2), ..link(1, 2) }];
    let plan = fits(&project);
    let at = |k: usize| plan.schedule.placed[k].clone().unwrap();
    assert!(at(2).start() - at(1).end() <= 2);
}

#[test]
fn a_tray_stays_taken_until_what_lies_on_it_is_cold() {
    let mut project = evenings(1);
    for k in 0..2 {
        let one_go = |job: Job| Job { block: Some(k), ..job };
        let first = project.jobs.len();
        project.jobs.extend([one_go(work("cut", 10)), one_go(alone("cool", 30))]);
        project.links.push(link(first, first + 1));
        project.holds.push(Hold { from: first, to: first + 1, need: Need::of(1, 1) });
    }
    let plan = fits(&project);
    let at = |k: usize| plan.schedule.placed[k].clone().unwrap();
    assert!(at(0).start() >= at(3).end() || at(2).start() >= at(1).end());
    project.places[1].units = 2;
    assert!(fits(&project).start() > plan.start(), "a second tray lets one begin later");
}

#[test]
fn what_does_not_fit_says_what_is_short_and_what_was_tried() {
    let mut project = evenings(1);
    project.jobs = vec![work("cut", 120), Job { split: Some(20), ..work("decorate", 120) }];
    project.links = vec![link(0, 1)];
    project.spare = vec![Spare { name: "decoration".to_owned(), jobs: vec![1] }];
    assert_eq!(trouble(&project).short, [Short::NoHours(vec![1]), Short::People { needed: 240, there: 180 }]);
    let more = Hours { kitchen: 0, from: 840, to: 960 };
    let helps = helps(&project, &[Change::Hours(0, more)], 5);
    let changes: Vec<_> = helps.iter().map(|help| help.changes.clone()).collect();
    assert!(changes.contains(&vec![Change::Hours(0, more)]), "{changes:?}");
    assert!(changes.contains(&vec![Change::LeaveOut(0)]), "{changes:?}");
    assert!(!changes.contains(&vec![Change::Place(0)]), "an oven does not help");
    assert!(!changes.contains(&vec![Change::Helper(0)]), "one cannot begin before the other is done");
}

#[test]
fn what_cannot_be_planned_is_said() {
    let mut project = evenings(1);
    let end = project.people[0].hours[0].to;
    project.people[0].hours.push(Hours { kitchen: 0, from: end, to: end + 60 });
    assert_eq!(project.faults(), [], "hours may follow each other");
    project.people[0].hours.pop();
    project.jobs = vec![work("cut", 10), Job { split: Some(5), ..work("bake", 10) }];
    project.links = vec![link(0, 1), Link { most: Some(3), ..link(1, 0) }];
    project.people[0].hours.push(Hours { kitchen: 0, from: 1200, to: 1300 });
    let said: Vec<String> = project.faults().iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "Ida has hours that overlap",
            "bake and cut are not done in one go, so neither can one follow the other at once nor one place serve both",
            "these wait for each other in a ring: cut, bake",
        ]
    );
    project.links.push(link(5, 0));
    assert_eq!(project.faults()[0].to_string(), "a link names a job that is not there");
}
