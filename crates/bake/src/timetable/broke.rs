//! A piece is broken: bake it again, or mend it.

use super::plan::Fault;
use super::tasks::Builder;
use super::{Ask, Log, TaskKind, Tasks, Timetable};
use crate::{About, Figures, Mass, Ovenfuls, ToBake};
use gable_shell::kitchen::Kitchen;
use jiff::civil::DateTime;

/// What can be done about a broken piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Broke {
    /// Dough for one, with what is trimmed off.
    pub dough: Mass,
    /// To bake it again; none if it stands in the house already.
    pub again: Option<Way>,
    /// To mend it with icing and a splint inside.
    pub mend: Way,
}

/// One way to go on.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// What is left to do then.
    pub tasks: Tasks,
    /// When it is done.
    pub table: Timetable,
    /// When the piece is in the oven, or is mended; none if that finds no time.
    pub when: Option<(DateTime, DateTime)>,
    /// Whether the house still stands in time.
    pub in_time: bool,
}

impl Broke {
    /// What can be done about a piece, by its index, that was baked. `all` are the tasks of the whole house for `ask`; what is
    /// done of them is in the log. Nothing if there is no such piece, or if it is not baked yet.
    ///
    /// # Errors
    /// As [`Timetable::of`].
    pub fn of(
        piece: usize,
        all: &Tasks,
        log: &Log,
        (about, figures, kitchen): (&About<'_>, &Figures, &Kitchen),
        ask: &Ask,
        rounds: usize,
    ) -> Result<Option<Self>, Vec<Fault>> {
        let Some(own) = about.solved.pieces.get(piece) else { return Ok(None) };
        let left = all.rest(log);
        let about_it =
            |tasks: &Tasks, kind: TaskKind| tasks.tasks.iter().any(|t| t.kind == kind && t.pieces.contains(&piece));
        if about_it(&left, TaskKind::Bake) {
            return Ok(None);
        }
        // As if it were not baked, so that it is baked again.
        let mut solved = about.solved.clone();
        solved.pieces[piece].baked = false;
        let to_bake = ToBake::all(&About { solved: &solved, ..*about });
        let alone: Vec<ToBake> = to_bake.into_iter().filter(|one| one.id == own.id.0).collect();
        let ovenfuls = Ovenfuls::of(&alone, kitchen, figures, &[]);
        let density = figures.get(crate::Figure::DoughDensity);
        let net: Mass = alone.iter().map(|one| one.mass(density)).sum();
        let dough = Mass::grams(net.g() * (1.0 + figures.get(crate::Figure::DoughTrim)));
        let again = if about_it(&left, TaskKind::Raise) {
            let mut builder = Builder::on(left.clone(), about, figures, ask);
            builder.again(piece, &ovenfuls, dough, all, log);
            Some(Way::of(builder.finished(), ask, TaskKind::Bake, piece, rounds)?)
        } else {
            None
        };
        let mut builder = Builder::on(left, about, figures, ask);
        builder.mend(piece);
        let mend = Way::of(builder.finished(), ask, TaskKind::Mend, piece, rounds)?;
        Ok(Some(Self { dough, again, mend }))
    }
}

impl Way {
    fn of(tasks: Tasks, ask: &Ask, kind: TaskKind, piece: usize, rounds: usize) -> Result<Self, Vec<Fault>> {
        let table = Timetable::of(&tasks, ask, rounds)?;
        let entry = table.entries.iter().find(|entry| entry.kind == kind && entry.pieces.contains(&piece));
        let when = entry.map(|entry| (entry.from(), entry.to()));
        let in_time = table.trouble.is_none();
        Ok(Self { tasks, when, in_time, table })
    }
}
