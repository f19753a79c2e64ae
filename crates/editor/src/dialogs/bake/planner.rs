//! What a bake comes to, worked out beside the window.

use crate::adapters::with_others;
use crate::errands::{Errand, Progress};
use egui::Context;
use gable_bake::timetable::{Timetable, Work, plan::ROUNDS};
use gable_bake::{BakePlan, Lots, PieceOf};
use gable_export::{Baker, Complete, Together};
use gable_measure::Unit;
use gable_shell::House;
use gable_words::tr;
use jiff::civil::DateTime;

/// The moment counts as the same for so many minutes, so that not every frame is planned anew.
const SAME: i8 = 5;

/// What follows from a house, a baker and a moment.
pub(crate) struct Planned {
    pub(crate) plan: BakePlan,
    /// The days, once it is known by when the house must stand; or why they cannot be planned.
    pub(crate) days: Option<Result<Days, String>>,
    /// Every piece, with whether its ovenful is ticked off.
    pub(crate) pieces: Vec<PieceState>,
}

/// Who does what when.
pub(crate) struct Days {
    pub(crate) work: Work,
    pub(crate) table: Timetable,
}

/// A piece that could break.
pub(crate) struct PieceState {
    pub(crate) id: String,
    pub(crate) name: String,
    pub(crate) is_baked: bool,
}

/// What can be done about a piece that broke: the lines, and whether it can be baked again.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Ways {
    pub(crate) lines: Vec<String>,
    pub(crate) again: bool,
}

pub(crate) type Found = Option<Result<Ways, String>>;

/// Plans a bake beside the window.
#[derive(Default)]
pub(crate) struct Planner {
    /// A clock that stands still, for checks; the clock of this machine if none.
    pub(crate) clock: Option<DateTime>,
    /// What it is planned for: revision of the house, and the baker with the moment.
    asked: Option<(u64, Baker)>,
    working: Option<Errand<Planned>>,
    found: Option<Planned>,
    lost: bool,
    /// What is asked about a piece, by its id, and for which notebook.
    broke: Option<(String, Baker, Option<Errand<Found>>, Found)>,
}

impl Planner {
    /// The moment that counts as now.
    pub(crate) fn now(&self) -> DateTime {
        let now = self.clock.unwrap_or_else(|| jiff::Zoned::now().datetime());
        now.with().second(0).subsec_nanosecond(0).build().unwrap_or(now)
    }

    /// Nobody looks any more.
    pub(crate) fn forget(&mut self) {
        *self = Self { clock: self.clock, ..Self::default() };
    }

    /// Sees to it that what is found is of this house and baker, sooner or later.
    pub(crate) fn follow(&mut self, ctx: &Context, house: &House, revision: u64, baker: &Baker) {
        if let Some(errand) = self.working.take() {
            match errand.look() {
                Progress::Under => self.working = Some(errand),
                Progress::Done(found, _) => self.found = Some(found),
                Progress::Lost => self.lost = true,
            }
        }
        let key = (revision, self.at_now(baker));
        // One at a time: what is under way is waited for, and replaced.
        if self.asked.as_ref() != Some(&key) && self.working.is_none() {
            let (house, baker) = (house.clone(), key.1.clone());
            (self.asked, self.lost) = (Some(key), false);
            self.working = Some(Errand::start(ctx, move || planned(&house, &baker)));
        }
    }

    fn at_now(&self, baker: &Baker) -> Baker {
        let now = self.now();
        let round = now.with().minute(now.minute() / SAME * SAME).build().unwrap_or(now);
        Baker { now: Some(round), ..baker.clone() }
    }

    /// Whether something is being worked out.
    pub(crate) fn is_working(&self) -> bool {
        self.working.is_some()
    }

    pub(crate) fn is_lost(&self) -> bool {
        self.lost
    }

    /// The latest plan, of what was asked before while something else is worked out.
    pub(crate) fn found(&self) -> Option<&Planned> {
        self.found.as_ref()
    }

    /// What can be done about a piece; nothing while it is worked out, `Some(None)` if it is not baked yet.
    pub(crate) fn ways(&mut self, ctx: &Context, house: &House, baker: &Baker, piece: &str) -> Option<&Found> {
        let baker = self.at_now(baker);
        if self.broke.as_ref().is_none_or(|(id, for_whom, ..)| id != piece || *for_whom != baker) {
            let (house, own, id) = (house.clone(), baker.clone(), piece.to_owned());
            let errand = Errand::start(ctx, move || ways(&house, &own, &id));
            self.broke = Some((piece.to_owned(), baker, Some(errand), None));
        }
        let (.., errand, found) = self.broke.as_mut()?;
        match errand.as_ref().map(Errand::look) {
            Some(Progress::Under) => return None,
            Some(Progress::Done(ways, _)) => (*errand, *found) = (None, ways),
            Some(Progress::Lost) => {
                (*errand, *found) = (None, Some(Err(tr!("It could not be worked out.").to_owned())))
            }
            None => {}
        }
        Some(found)
    }
}

/// Everything that plans are made of, handed to something that needs it. Other houses that cannot be read are left out, and
/// it is said why.
fn with_all<T>(house: &House, baker: &Baker, work: impl FnOnce(&Lots<'_>, &BakePlan) -> T) -> T {
    let complete = Complete::of(baker.notebook.baked_here(house));
    let (baker, trouble) = match with_others(house, baker) {
        Ok(baker) => (baker, None),
        Err(error) => (baker.clone(), Some(error)),
    };
    let together = Together::of(&baker);
    let lots = together.lots(complete.about(), &baker);
    let mut plan = BakePlan::of(&lots, &baker.kitchen, &baker.notebook);
    plan.problems.extend(trouble.map(|error| tr!("A house that is baked with it cannot be read: {error}")));
    work(&lots, &plan)
}

fn work_of(lots: &Lots<'_>, plan: &BakePlan, baker: &Baker) -> Option<Work> {
    let build = baker.notebook.build(lots.first().about.house)?;
    build.work(lots, plan, (&baker.notebook, &baker.kitchen), baker.now?)
}

fn planned(house: &House, baker: &Baker) -> Planned {
    with_all(house, baker, |lots, plan| {
        let work = work_of(lots, plan, baker);
        let is_left = |piece: PieceOf| {
            let bakes = |work: &Work| {
                work.left.tasks.iter().any(|task| task.id.starts_with("bake/") && task.pieces.contains(&piece))
            };
            work.as_ref().is_none_or(bakes)
        };
        let state = |(id, of): (String, PieceOf)| PieceState { id, name: lots.piece_name(of), is_baked: !is_left(of) };
        let pieces = lots.pieces().into_iter().map(state).collect();
        let days = work.map(|work| match Timetable::of(&work.left, &work.ask, ROUNDS) {
            Ok(table) => Ok(Days { work, table }),
            Err(faults) => Err(in_words(&faults)),
        });
        Planned { plan: plan.clone(), days, pieces }
    })
}

fn ways(house: &House, baker: &Baker, id: &str) -> Found {
    let unit: Unit = house.unit;
    with_all(house, baker, |lots, plan| {
        let work = work_of(lots, plan, baker)?;
        let piece = lots.find(id)?;
        let build = baker.notebook.build(lots.first().about.house)?;
        match work.broke(piece, build, (lots, &baker.notebook, &baker.kitchen), ROUNDS) {
            Ok(broke) => broke.map(|broke| Ok(Ways { lines: broke.words(unit), again: broke.again.is_some() })),
            Err(faults) => Some(Err(in_words(&faults))),
        }
    })
}

fn in_words(faults: &[gable_bake::timetable::plan::Fault]) -> String {
    let said: Vec<String> = faults.iter().map(ToString::to_string).collect();
    tr!("The days cannot be planned: {}.", said.join("; "))
}
