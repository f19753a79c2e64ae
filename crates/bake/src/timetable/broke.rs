//! A piece is broken: bake it again, or mend it.

use super::plan::Fault;
use super::tasks::Builder;
use super::{Ask, Log, TaskKind, Tasks, Timetable};
use crate::{About, Figure, Lots, Mass, Notebook, Ovenfuls, PieceOf, ToBake};
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

/// What is done of a house when something breaks.
pub(super) struct Done<'d> {
    /// All tasks before anything was done or broke.
    pub(super) base: &'d Tasks,
    /// What is left.
    pub(super) left: &'d Tasks,
    /// What is done.
    pub(super) log: &'d Log,
    /// How often the piece broke before.
    pub(super) round: usize,
}

impl Broke {
    /// What can be done about a piece that was baked. Nothing if there is no such piece, or if it is not
    /// baked yet.
    ///
    /// # Errors
    /// As [`Timetable::of`].
    pub(super) fn of(
        piece: PieceOf,
        done: &Done<'_>,
        (lots, notebook, kitchen): (&Lots<'_>, &Notebook, &Kitchen),
        ask: &Ask,
        rounds: usize,
    ) -> Result<Option<Self>, Vec<Fault>> {
        if lots.id(piece).is_none() {
            return Ok(None);
        }
        let about_it = |kind: TaskKind| done.left.tasks.iter().any(|t| t.kind == kind && t.pieces.contains(&piece));
        if about_it(TaskKind::Bake) {
            return Ok(None);
        }
        let figures = &notebook.figures;
        let (ovenfuls, dough) = alone(piece, lots, notebook, kitchen);
        let again = if about_it(TaskKind::Raise) {
            let mut builder = Builder::on(done.left.clone(), lots, figures, ask);
            builder.again(piece, &ovenfuls, dough, (done.base, done.log), done.round);
            Some(Way::of(builder.fresh(done.log), ask, TaskKind::Bake, piece, rounds)?)
        } else {
            None
        };
        let mut builder = Builder::on(done.left.clone(), lots, figures, ask);
        builder.mend(piece, done.round);
        let mend = Way::of(builder.fresh(done.log), ask, TaskKind::Mend, piece, rounds)?;
        Ok(Some(Self { dough, again, mend }))
    }
}

/// How one piece is baked by itself, whether it is baked already or not, and the dough for it.
pub(super) fn alone(of: PieceOf, lots: &Lots<'_>, notebook: &Notebook, kitchen: &Kitchen) -> (Ovenfuls, Mass) {
    let none = || (Ovenfuls::of(&[], kitchen, &notebook.figures, &[]), Mass::ZERO);
    let Some(lot) = lots.get(of.lot) else { return none() };
    let mut solved = lot.about.solved.clone();
    let Some(own) = solved.pieces.get_mut(of.piece) else { return none() };
    own.baked = false;
    let id = own.id.0.clone();
    let to_bake = ToBake::all(&About { solved: &solved, ..lot.about });
    let alone = to_bake.into_iter().filter(|one| one.id == id);
    let alone: Vec<ToBake> = alone.map(|one| ToBake { id: lot.id(of.copy, &one.id), mark: lot.mark, ..one }).collect();
    let figures = &notebook.figures;
    let net: Mass = alone.iter().map(|one| one.mass(figures.get(Figure::DoughDensity))).sum();
    let dough = Mass::grams(net.g() * (1.0 + figures.get(Figure::DoughTrim)));
    (Ovenfuls::of(&alone, kitchen, figures, &notebook.oven_log), dough)
}

impl Way {
    fn of(tasks: Tasks, ask: &Ask, kind: TaskKind, piece: PieceOf, rounds: usize) -> Result<Self, Vec<Fault>> {
        let table = Timetable::of(&tasks, ask, rounds)?;
        let entry = table.entries.iter().find(|entry| entry.kind == kind && entry.pieces.contains(&piece));
        let when = entry.map(|entry| (entry.from(), entry.to()));
        let in_time = table.trouble.is_none();
        Ok(Self { tasks, when, in_time, table })
    }
}
