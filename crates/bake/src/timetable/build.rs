//! One bake: of which houses, by when they must stand, what is done of it, what broke; and what is left to do at a moment.

use super::moment::minute;
use super::plan::Fault;
use super::tasks::Builder;
use super::{Ask, Broke, Log, Task, Tasks, broke};
use crate::{BakePlan, HandOver, Lots, Needs, Notebook, PieceOf};
use gable_shell::kitchen::Kitchen;
use gable_words::tr;
use jiff::civil::DateTime;

/// How long before it must stand a house should be done if there is time enough, minutes (an assumption).
pub const RESERVE: u32 = 120;

/// What a person has written down of one bake.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// Title of the house that it belongs to, by which it is found again.
    pub house: String,
    /// When the house must stand, once that is known.
    pub ready_by: Option<DateTime>,
    /// How long before that it should be done if there is time enough, minutes.
    pub reserve: u32,
    /// How many houses of it are made.
    pub copies: usize,
    /// Other houses that are baked with it.
    pub others: Vec<Other>,
    /// As what they are handed over.
    pub until: HandOver,
    /// Whether it is carried somewhere once it stands.
    pub carried: bool,
    /// What is done.
    pub log: Log,
    /// What broke, in that order.
    pub broken: Vec<Broken>,
}

/// Another house of a bake.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Other {
    /// File or name by which it is found.
    pub house: String,
    /// How many of it are made.
    pub copies: usize,
}

/// A piece that broke.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Broken {
    /// Id of the piece in the bake.
    pub piece: String,
    /// When it broke.
    pub at: DateTime,
    /// What is done about it.
    pub way: Mending,
}

/// What is done about a broken piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mending {
    /// It is baked again.
    BakeAgain,
    /// It is mended with icing and a splint.
    Mend,
}

impl Mending {
    /// Both ways.
    pub const ALL: [Self; 2] = [Self::BakeAgain, Self::Mend];

    /// Stable word for files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::BakeAgain => "bake-again",
            Self::Mend => "mend",
        }
    }
}

impl Build {
    /// Houses of one kind that are baked at once.
    pub const MOST_COPIES: usize = 200;
    /// A fortnight in minutes, the longest reserve.
    pub const MOST_RESERVE: u32 = 14 * 1440;

    /// Nothing is known of it yet.
    pub fn new(house: &str) -> Self {
        Self {
            house: house.to_owned(),
            ready_by: None,
            reserve: RESERVE,
            copies: 1,
            others: Vec::new(),
            until: HandOver::Finished,
            carried: false,
            log: Log::default(),
            broken: Vec::new(),
        }
    }

    /// What there is to do at a moment; none before anyone has said by when the house must stand.
    pub fn work(
        &self,
        lots: &Lots<'_>,
        plan: &BakePlan,
        (notebook, kitchen): (&Notebook, &Kitchen),
        now: DateTime,
    ) -> Option<Work> {
        let ask = notebook.ask(self, plan.lights(), now)?;
        let needs: Vec<&Needs> = plan.houses.iter().map(|house| &house.needs).collect();
        let base = Tasks::of(lots, &needs, &plan.ovenfuls, &notebook.figures, &ask);
        let mut all = base.clone();
        let mut tasks = base.tasks.clone();
        for (k, broken) in self.broken.iter().enumerate() {
            let Some(piece) = lots.find(&broken.piece) else { continue };
            let log = self.log.until(broken.at);
            let left = all.rest_at(minute(broken.at), &log);
            let mut builder = Builder::on(left, lots, &notebook.figures, &ask);
            let round = self.broken[..k].iter().filter(|before| before.piece == broken.piece).count();
            match broken.way {
                Mending::BakeAgain => {
                    let (ovenfuls, dough) = broke::alone(piece, lots, notebook, kitchen);
                    builder.again(piece, &ovenfuls, dough, (&base, &log), round);
                }
                Mending::Mend => builder.mend(piece, round),
            }
            all = builder.finished();
            let new = all.tasks.iter().filter(|task| !tasks.iter().any(|known| known.id == task.id));
            tasks.extend(new.cloned().collect::<Vec<_>>());
        }
        let plain = all.rest_at(minute(now), &self.log);
        let left = Builder::on(plain.clone(), lots, &notebook.figures, &ask).fresh(&self.log);
        let more = left.mixed_again(&tasks, &self.log);
        tasks.extend(more);
        Some(Work { ask, base, tasks, plain, left })
    }
}

/// What there is to do of a house, and for whom it is planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// What is asked of the timetable.
    pub ask: Ask,
    /// The tasks of the house before anything was done or broke.
    base: Tasks,
    /// Every task, whether it is done or not, with those of what broke.
    pub tasks: Vec<Task>,
    /// What is left, with all icing made once.
    plain: Tasks,
    /// What is left.
    pub left: Tasks,
}

/// Why no single task is meant.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WhichTask {
    /// There is none.
    #[error("{}", tr!("no task is called '{0}'", .0))]
    None(String),
    /// There are several.
    #[error("{}", tr!("'{0}' could be {1}; say which", .0, .1))]
    Several(String, String),
}

impl Work {
    /// The task that is meant by its stable name, by what it is called, or by a part of that if nothing else has it.
    ///
    /// # Errors
    /// When there is none, or when there are several.
    pub fn task(&self, words: &str) -> Result<&Task, WhichTask> {
        let plain = words.trim().to_lowercase();
        let exact = self.tasks.iter().find(|t| t.id == words.trim() || t.name.to_lowercase() == plain);
        if let Some(task) = exact {
            return Ok(task);
        }
        let some: Vec<&Task> =
            self.tasks.iter().filter(|t| !plain.is_empty() && t.name.to_lowercase().contains(&plain)).collect();
        match some[..] {
            [] => Err(WhichTask::None(words.to_owned())),
            [one] => Ok(one),
            _ => {
                let mut names: Vec<String> = some.iter().take(4).map(|t| format!("'{}'", t.name)).collect();
                if some.len() > names.len() {
                    names.push("others".to_owned());
                }
                Err(WhichTask::Several(words.to_owned(), names.join(" or ")))
            }
        }
    }

    /// What can be done about a piece that breaks now. Nothing if it is not baked yet.
    ///
    /// # Errors
    /// As [`super::Timetable::of`].
    pub fn broke(
        &self,
        piece: PieceOf,
        build: &Build,
        (lots, notebook, kitchen): (&Lots<'_>, &Notebook, &Kitchen),
        rounds: usize,
    ) -> Result<Option<Broke>, Vec<Fault>> {
        let id = lots.id(piece);
        let round = build.broken.iter().filter(|before| Some(&before.piece) == id.as_ref()).count();
        let done = broke::Done { base: &self.base, left: &self.plain, log: &build.log, round };
        Broke::of(piece, &done, (lots, notebook, kitchen), &self.ask, rounds)
    }
}
