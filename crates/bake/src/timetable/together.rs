//! Checks of several houses, and several copies, in one timetable.

use super::plan::tests::judge::wrong;
use super::plan::{Answer, plan};
use super::tasks::tests::built;
use super::*;
use crate::{BakePlan, Consistency, Figure, HandOver, IcingUse, Lots, Makes, Mass, Notebook, PieceOf};
use gable_shell::kitchen::{Kitchen, Tray};
use gable_shell::{Joint, JointEnd, Role};
use jiff::civil::{DateTime, date};
use std::collections::BTreeSet;

fn lots(houses: &[(&str, usize)], until: HandOver) -> Lots<'static> {
    let mut all = houses.iter().map(|(name, copies)| (built(name).about(), *copies));
    let mut lots = Lots::of(all.next().unwrap(), all);
    lots.until = until;
    lots
}

fn kitchen() -> Kitchen {
    Kitchen { trays: Tray::usual()[..1].to_vec(), ..Kitchen::default() }
}

fn notebook() -> Notebook {
    let person = |text| Person::read(text).unwrap();
    let people = vec![person("Ida: daily 9:00-21:00"), person("Tove: daily 17:00-21:00")];
    let home = Workplace { ovens: 2, trays: 6, freezer: 2, table: 400, ..Workplace::usual("Here") };
    Notebook { people, kitchens: vec![home], ..Notebook::default() }
}

const NOW: DateTime = date(2026, 11, 28).at(8, 0, 0, 0);

/// What is planned, and the plan of its days.
fn planned(lots: &Lots<'_>) -> (BakePlan, Work, Timetable) {
    let notebook = notebook();
    let plan = BakePlan::of(lots, &kitchen(), &notebook);
    let build = Build { ready_by: Some(date(2026, 12, 12).at(15, 0, 0, 0)), ..Build::new("Boat hut") };
    let work = build.work(lots, &plan, (&notebook, &kitchen()), NOW).unwrap();
    assert_eq!(work.left.project.faults(), []);
    let table = Timetable::of(&work.left, &work.ask, 2).unwrap();
    assert_eq!(table.trouble, None);
    (plan, work, table)
}

/// The pieces of all tasks of a kind, in their order.
fn pieces(table: &Timetable, kind: TaskKind) -> Vec<PieceOf> {
    let own = table.entries.iter().filter(|entry| entry.kind == kind);
    let mut pieces: Vec<PieceOf> = own.flat_map(|entry| entry.pieces.clone()).collect();
    pieces.sort_unstable();
    pieces
}

#[test]
fn every_piece_of_every_copy_is_baked_once_and_put_up_once() {
    let lots = lots(&[("boat-hut", 4), ("net-store", 2)], HandOver::Finished);
    let (plan, work, table) = planned(&lots);
    let mut all: Vec<PieceOf> = lots.pieces().into_iter().map(|(_, of)| of).collect();
    all.sort_unstable();
    assert_eq!(all.len(), 4 * built("boat-hut").solved.pieces.len() + 2 * built("net-store").solved.pieces.len());
    assert_eq!(pieces(&table, TaskKind::Bake), all);
    assert_eq!(pieces(&table, TaskKind::Raise), all);
    let ids: BTreeSet<&str> = table.entries.iter().map(|entry| entry.id.as_str()).collect();
    assert_eq!(ids.len(), table.entries.len(), "names are unique");
    let Answer::Fits(found) = super::plan::plan(&work.left.project, 2).unwrap() else { panic!("it fits") };
    assert_eq!(wrong(&work.left.project, &found.schedule, true), Vec::<String>::new());
    // No piece is put up, and none decorated, before its own copy is dry.
    for entry in table.entries.iter().filter(|e| matches!(e.kind, TaskKind::Raise | TaskKind::Decorate)) {
        let dry = table.entries.iter().filter(|e| e.kind == TaskKind::DryFlat);
        for dry in dry.filter(|dry| dry.pieces.iter().any(|of| entry.pieces.contains(of))) {
            assert!(dry.to() <= entry.from(), "{} before {}", dry.name, entry.name);
        }
    }
    // What is mixed is what both houses take.
    let dough: Mass = plan.houses.iter().map(|house| house.needs.dough.to_make * house.copies as f64).sum();
    let mixed = plan.batch(Makes::Dough).unwrap();
    assert!((mixed.needed.g() - dough.g()).abs() < 1e-6 && mixed.weighed.mass >= mixed.needed);
    assert_eq!(plan.title(), "4 × Boat hut, 2 × Net store");
}

/// Two shelves: only what takes as long bakes beside each other.
#[test]
fn no_oven_bakes_two_classes_at_once() {
    let lots = lots(&[("boat-hut", 2), ("net-store", 1)], HandOver::Kits);
    let mut notebook = notebook();
    notebook.kitchens[0] = Workplace { ovens: 1, shelves: 2, ..notebook.kitchens[0].clone() };
    let plan = BakePlan::of(&lots, &kitchen(), &notebook);
    assert!(plan.ovenfuls.classes.len() > 2);
    let build = Build { ready_by: Some(date(2026, 11, 30).at(20, 0, 0, 0)), ..Build::new("Boat hut") };
    let work = build.work(&lots, &plan, (&notebook, &kitchen()), NOW).unwrap();
    let table = Timetable::of(&work.left, &work.ask, 5).unwrap();
    let baked: Vec<&Entry> = table.entries.iter().filter(|entry| entry.kind == TaskKind::Bake).collect();
    assert_eq!(baked.len(), plan.ovenfuls.trays.len());
    let mut beside = 0;
    for (k, one) in baked.iter().enumerate() {
        for other in baked[k + 1..].iter().filter(|other| other.from() < one.to() && one.from() < other.to()) {
            assert_eq!(one.oven, other.oven, "{} and {}", one.name, other.name);
            beside += 1;
        }
    }
    assert!(beside > 0, "alike ones do bake beside each other");
}

/// No more than four batches of dough are mixed before any rests, and all that is needed is mixed.
#[test]
fn much_dough_is_mixed_in_several_goes() {
    let (plan, work, _) = planned(&lots(&[("net-store", 8)], HandOver::Kits));
    let mixes: Vec<&Task> = work.tasks.iter().filter(|task| task.id.starts_with("mix-dough/walls")).collect();
    let usual = Rates::default();
    let most = 4.0 * usual.get(Rate::MixDough);
    assert!(mixes.len() > 1 && mixes.iter().all(|task| task.usual <= most), "{mixes:?}");
    let dough = &plan.houses[0].needs.dough;
    let walls: f64 = dough.sorts.iter().filter(|sort| sort.name == "walls").map(|sort| sort.net.g()).sum();
    let grams = walls * (dough.to_make / dough.net) * 8.0;
    let batches = (grams / usual.get(Rate::Batch)).ceil();
    let mixed: f64 = mixes.iter().map(|task| task.usual).sum();
    assert!((mixed - batches * usual.get(Rate::MixDough)).abs() < 1e-6, "{mixed} for {batches} batches");
}

/// Whoever gets a shell needs no icing for its joints; of what they do need there is a bag, however little it is.
#[test]
fn a_kit_holds_the_icing_that_is_still_needed() {
    let icing = |until: HandOver| {
        let plan = BakePlan::of(&lots(&[("net-store", 2)], until), &kitchen(), &notebook());
        let stiff = plan.houses[0].kit.icing.iter().filter(|own| own.0 == crate::Consistency::Stiff).cloned();
        let (bags, grams) = stiff.fold((0, 0.0), |sum, own| (sum.0 + own.2, sum.1 + own.3.g()));
        let needed =
            |used: &(crate::IcingUse, Mass)| !matches!(used.0, crate::IcingUse::Joints | crate::IcingUse::Fillets);
        let needs = plan.houses[0].needs.icing.iter().filter(|own| own.consistency == crate::Consistency::Stiff);
        let glue: f64 = needs.flat_map(|own| own.uses.iter().filter(|used| needed(used))).map(|used| used.1.g()).sum();
        (bags, grams, glue)
    };
    let (kits, shells) = (icing(HandOver::Kits), icing(HandOver::Shells));
    assert!(shells.1 < kits.1 / 2.0, "joints take most of it: {kits:?} {shells:?}");
    // What stays in bowls and bags is a fifth or so on top; what was round panes is used already.
    assert!(shells.1 <= 1.5 * shells.2 && shells.0 >= 1, "{shells:?}");
}

/// With walls that stand, icing is still needed along joints at which a slope or a lid has an end, and nowhere else: counted here
/// by the parts that pieces play, not by the stages in which they are put up.
#[test]
fn a_kit_with_walls_that_stand_holds_icing_for_the_roof_alone() {
    let net_store = lots(&[("net-store", 1)], HandOver::Walls);
    let (plan, _, _) = planned(&net_store);
    let (about, figures) = (net_store.first().about, &notebook().figures);
    let roof = |end: &JointEnd| match end {
        JointEnd::Piece(piece) => matches!(about.solved.pieces[*piece].role, Role::Slope(..) | Role::Lid),
        JointEnd::Board => false,
    };
    let closed: BTreeSet<usize> =
        about.guide.unwrap().stages.iter().flat_map(|stage| stage.out_of_reach.clone()).collect();
    let (bead, leg) = (figures.get(Figure::Bead), figures.get(Figure::Fillet));
    let of = |(k, joint): (usize, &Joint)| {
        let length = (joint.line[1] - joint.line[0]).norm();
        // A round bead, or the wedge where that is more; inside a triangle between the two faces.
        let fillet = if closed.contains(&k) { 0.0 } else { leg * leg / 2.0 * joint.dihedral.rad().sin() * length };
        joint.wedge.volume.max(std::f64::consts::PI / 4.0 * bead * bead * length) + fillet
    };
    let open: f64 = about.solved.joints.iter().enumerate().filter(|(_, j)| j.ends.iter().any(roof)).map(of).sum();
    let stiff = plan.houses[0].needs.icing.iter().find(|own| own.consistency == Consistency::Stiff).unwrap();
    let glue: f64 = stiff.uses.iter().filter(|used| used.0 == IcingUse::Glue).map(|used| used.1.g()).sum();
    let expected = (open * figures.get(Figure::IcingDensity) / 1000.0 + glue) * (1.0 + figures.get(Figure::IcingSpare));
    let kit = &plan.houses[0].kit.icing;
    let found: f64 = kit.iter().filter(|own| own.0 == Consistency::Stiff).map(|own| own.3.g()).sum();
    assert!((found - expected).abs() < 1e-6 && found < 0.8 * stiff.to_make.g(), "{found} {expected} {stiff:?}");
    // The rest of the joints are iced here: by the bowl of 100 g, 25 minutes each.
    let all: f64 = about.solved.joints.iter().enumerate().map(of).sum();
    let here = (all - open) * figures.get(Figure::IcingDensity) / 1000.0 * (1.0 + figures.get(Figure::IcingSpare));
    let mut notebook = notebook();
    notebook.rates.set(Rate::Bowl, 100.0).unwrap();
    let build = Build { ready_by: Some(date(2026, 12, 12).at(15, 0, 0, 0)), ..Build::new("Net store") };
    let work = build.work(&net_store, &plan, (&notebook, &kitchen()), NOW).unwrap();
    let usual = work.task("icing/assembly").unwrap().usual;
    assert!(here > 100.0 && (usual - 25.0 * (here / 100.0).ceil()).abs() < 1e-9, "{usual} min for {here} g");
}

/// One task for all copies takes as long as all of them by themselves.
#[test]
fn work_on_several_copies_takes_so_many_times_as_long() {
    let minutes = |copies: usize| {
        let (_, work, _) = planned(&lots(&[("boat-hut", copies)], HandOver::Finished));
        let tasks = work.tasks.iter().filter(|task| task.kind == TaskKind::Raise);
        (tasks.clone().count(), tasks.map(|task| task.usual).sum::<f64>())
    };
    let (one, three) = (minutes(1), minutes(3));
    assert_eq!(one.0, three.0, "in one go");
    assert!((three.1 / one.1 - 3.0).abs() < 1e-9, "{one:?} {three:?}");
    // A wait is a wait, however much waits.
    let wait = |copies: usize| {
        let (_, work, _) = planned(&lots(&[("boat-hut", copies)], HandOver::Finished));
        work.tasks.iter().filter(|task| task.kind == TaskKind::Set).map(|task| task.usual).fold(0.0, f64::max)
    };
    assert!((wait(1) - wait(3)).abs() < 1e-9);
}

/// Kits are packed and nothing stands; walls stand without roofs; shells stand and are not decorated.
#[test]
fn houses_are_taken_as_far_as_is_said() {
    let roof = |lots: &Lots<'_>, of: &PieceOf| {
        let piece = &lots.get(of.lot).unwrap().about.solved.pieces[of.piece];
        matches!(piece.role, Role::Slope(..) | Role::Lid)
    };
    for until in HandOver::ALL {
        let lots = lots(&[("net-store", 2)], until);
        let (plan, _, table) = planned(&lots);
        let has = |kind: TaskKind| table.entries.iter().any(|entry| entry.kind == kind);
        let named = |name: &str| table.entries.iter().any(|entry| entry.name == name);
        let raised = pieces(&table, TaskKind::Raise);
        let kit: usize = plan.houses[0].kit.pieces.iter().map(|piece| piece.2).sum();
        assert_eq!(has(TaskKind::Pack), until != HandOver::Finished, "{until:?}");
        assert!(until == HandOver::Finished || named("Pack 2 kits, each with its label and its slip"), "{until:?}");
        assert_eq!(has(TaskKind::Decorate) || has(TaskKind::Cover), until == HandOver::Finished, "{until:?}");
        assert_eq!(has(TaskKind::Cure), until != HandOver::Kits, "{until:?}");
        match until {
            HandOver::Kits => assert!(raised.is_empty() && plan.houses[0].kit.standing == 0),
            HandOver::Walls => assert!(!raised.is_empty() && raised.iter().all(|of| !roof(&lots, of))),
            HandOver::Shells | HandOver::Finished => assert!(raised.iter().any(|of| roof(&lots, of))),
        }
        if until != HandOver::Finished {
            let one = crate::ToBake::all(&lots.first().about).len();
            assert_eq!(kit + raised.len() / 2, one, "{until:?}: what does not stand is in the kit");
            let last =
                table.entries.iter().filter(|entry| entry.kind == TaskKind::Pack).map(Entry::from).min().unwrap();
            let dry =
                table.entries.iter().filter(|entry| entry.kind == TaskKind::DryFlat).map(Entry::to).max().unwrap();
            assert!(dry <= last, "nothing damp is packed");
        }
    }
}

/// The tasks of the first house keep their names when another is baked with it, so that what is ticked off stays ticked off.
#[test]
fn another_house_does_not_rename_the_tasks_of_the_first() {
    let ids = |houses: &[(&str, usize)]| -> BTreeSet<String> {
        let (_, work, _) = planned(&lots(houses, HandOver::Finished));
        let later = |kind: TaskKind| matches!(kind, TaskKind::Raise | TaskKind::Board | TaskKind::Decorate);
        work.tasks.iter().filter(|task| later(task.kind)).map(|task| task.id.clone()).collect()
    };
    let (alone, both) = (ids(&[("boat-hut", 1)]), ids(&[("boat-hut", 1), ("net-store", 1)]));
    assert!(!alone.is_empty() && alone.is_subset(&both));
    assert!(both.contains("board/Net store: board"), "{both:?}");
}

/// A piece of one copy breaks: that copy alone waits for it.
#[test]
fn one_copy_that_broke_is_baked_again() {
    let lots = lots(&[("boat-hut", 3)], HandOver::Finished);
    let (plan, work, _) = planned(&lots);
    let notebook = notebook();
    let piece = lots.pieces().into_iter().find(|(id, _)| id.ends_with("#2")).unwrap();
    let mut build = Build { ready_by: Some(date(2026, 12, 12).at(15, 0, 0, 0)), ..Build::new("Boat hut") };
    let done = date(2026, 11, 29).at(12, 0, 0, 0);
    for task in work.tasks.iter().filter(|task| ["cut", "firm", "bake", "trim"].iter().any(|k| task.kind.word() == *k))
    {
        build.log.done(task, done, None, Some(0));
    }
    build.broken.push(Broken { piece: piece.0.clone(), at: done, way: Mending::BakeAgain });
    let again = build.work(&lots, &plan, (&notebook, &kitchen()), done).unwrap();
    let anew: Vec<&Task> = again.left.tasks.iter().filter(|task| task.id.ends_with("/again")).collect();
    assert!(anew.iter().any(|task| task.kind == TaskKind::Bake));
    let about = anew.iter().flat_map(|task| &task.pieces).collect::<BTreeSet<_>>();
    assert_eq!(about, BTreeSet::from([&piece.1]));
    assert_eq!(again.left.project.faults(), []);
    assert!(matches!(plan_of(&again.left), Answer::Fits(_)));
}

fn plan_of(tasks: &Tasks) -> Answer {
    plan(&tasks.project, 2).unwrap()
}

/// Letters only where there are several houses, numbers only where there are several copies, and no house of which there is none.
#[test]
fn houses_and_copies_are_told_apart() {
    let one = lots(&[("boat-hut", 1)], HandOver::Finished);
    assert_eq!((one.first().mark, one.name(0, 0)), (None, "Boat hut".to_owned()));
    let piece = |lot, copy| PieceOf { lot, copy, piece: 0 };
    assert!(one.id(piece(0, 0)).is_some() && one.id(piece(0, 1)).is_none() && one.id(piece(1, 0)).is_none());
    let two = lots(&[("boat-hut", 2), ("boat-hut", 0)], HandOver::Finished);
    assert_eq!([two.name(0, 1), two.name(1, 0)], ["Boat hut 2", "Boat hut (2)"]);
    assert_eq!((two.first().mark, two.copies()), (Some('A'), 3));
    let ids = two.pieces();
    assert_eq!(ids.iter().map(|(id, _)| id).collect::<BTreeSet<_>>().len(), ids.len(), "ids are unique");
    let own = built("net-store");
    let many = Lots::of((own.about(), 1), (0..40).map(|_| (own.about(), 1)));
    assert_eq!((many.count(), Lots::MOST), (26, 26), "a letter for each");
}
