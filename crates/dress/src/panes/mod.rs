//! Glazing of the openings, bars to pipe on it, and doors that hang in openings.

mod bars;
mod door;
pub(crate) mod flat;
mod glass;
mod leaf;
mod remarks;
pub(crate) mod solids;
mod split;
#[cfg(test)]
mod tests;

pub use door::DoorPiece;
pub use glass::{GlassFacts, facts as glass_facts};

use gable_measure::{Finding, Length, Severity, Unit};
use gable_plane::{Contour, P2, Rigid};
use gable_shell::{Glass, House, Mode, Opening, OpeningId, Piece, PieceOpening, Solved};
use solids::Solids;

/// How closely the arcs of openings are followed by panes, mm: where an arc ends at a corner, the first chord turns the tip of
/// the pane aside, by more the coarser it is.
const LOOK: f64 = 0.002;

/// A sheet of glazing.
#[derive(Clone, Debug, PartialEq)]
pub struct Pane {
    /// Stable name: piece, opening, copy, and which part of a split pane.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// The piece it belongs to, as an index into [`Solved::pieces`].
    pub piece: usize,
    /// The opening that it closes.
    pub opening: OpeningId,
    /// Which copy of the opening.
    pub copy: usize,
    /// What it is made of.
    pub glass: Glass,
    /// Its outline at z = 0 of the pane, counter-clockwise; it reaches to z = `thickness`. Its x and y are those of the piece.
    pub outline: Contour,
    /// How thick it is.
    pub thickness: Length,
    /// Where the finished house has it.
    pub house_from_pane: Rigid,
}

/// A line to pipe along or to press, on the outer face of a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct OpeningLine {
    /// The piece, as an index into [`Solved::pieces`].
    pub piece: usize,
    /// The opening it belongs to.
    pub opening: OpeningId,
    /// Which copy of it.
    pub copy: usize,
    /// Whether it is pressed into the dough; otherwise it is a bar to pipe.
    pub pressed: bool,
    /// Its ends, in the piece.
    pub ends: [P2; 2],
    /// Where the face that it lies on is along z of the piece: of bars on glazing that of the pane.
    pub z: Length,
    /// Whether that face looks along z; against it otherwise.
    pub faces_up: bool,
}

/// What closes the openings of a house.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Closed {
    pub(crate) panes: Vec<Pane>,
    pub(crate) lines: Vec<OpeningLine>,
    pub(crate) doors: Vec<DoorPiece>,
}

/// One opening as it lies in its piece, with what the person wants of it.
pub(crate) struct Job<'a> {
    pub(crate) index: usize,
    pub(crate) piece: &'a Piece,
    pub(crate) shown: &'a PieceOpening,
    pub(crate) opening: &'a Opening,
    /// Where the opening is in the house.
    pub(crate) place: String,
    pub(crate) ring: Vec<P2>,
    /// Whether it is cut through the foot.
    pub(crate) at_foot: bool,
}

impl Job<'_> {
    /// Stable name of what closes it.
    fn id(&self) -> String {
        let number = if self.shown.copy > 0 { format!("-{}", self.shown.copy + 1) } else { String::new() };
        format!("{}/{}{number}", self.piece.id.0, self.shown.id.0)
    }

    /// Where the inner face of its piece is along z, and which way along z is out of the house.
    fn inner_face(&self) -> (f64, f64) {
        if self.piece.reference_is_outside() { (self.piece.thickness.mm(), -1.0) } else { (0.0, 1.0) }
    }

    /// Where along z bars are piped: on the outer side of the pane, or on the piece where there is none.
    fn front(&self) -> f64 {
        let (inner, out) = self.inner_face();
        let deep = match (self.shown.mode, self.opening.glazing.glass) {
            (Mode::Glazed, Glass::Leaf) => 0.0,
            (Mode::Glazed, glass) => leaf::sugar_thickness(self, glass),
            _ => self.piece.thickness.mm(),
        };
        inner + out * deep
    }
}

/// Collects findings about openings.
pub(crate) struct Notes<'a> {
    unit: Unit,
    found: &'a mut Vec<Finding>,
}

impl Notes<'_> {
    pub(crate) fn print(&self, mm: f64) -> String {
        self.unit.print(Length::mm_of(mm))
    }

    /// Notes a finding once for an opening, whatever its copies.
    pub(crate) fn add(&mut self, severity: Severity, kind: &'static str, place: &str, what: String, remedy: &str) {
        if !self.found.iter().any(|f| f.kind == kind && f.place == place) {
            let remedy = remedy.to_owned();
            self.found.push(Finding { kind, severity, place: place.to_owned(), what, remedy });
        }
    }
}

/// What closes the openings of a house: panes, bars, doors.
pub(crate) fn closed(house: &House, solved: &Solved, solids: &Solids, findings: &mut Vec<Finding>) -> Closed {
    let jobs = jobs(house, solved);
    let mut notes = Notes { unit: house.unit, found: findings };
    let mut closed = Closed::default();
    remarks::cutting(&jobs, &house.dressing.glazier, &mut notes);
    for job in &jobs {
        closed.lines.extend(lines(job));
        closed.doors.extend(door::piece(job));
    }
    if jobs.iter().any(|j| j.shown.mode == Mode::Glazed) {
        remarks::dark(&jobs, house, solved, solids, &mut notes);
        closed.panes = leaf::panes(&jobs, house, solids, &mut notes);
    }
    closed
}

/// Every opening that is in a piece, in the order of the pieces.
fn jobs<'a>(house: &'a House, solved: &'a Solved) -> Vec<Job<'a>> {
    let mut jobs = Vec::new();
    for (index, piece) in solved.pieces.iter().enumerate() {
        let Some(p) = house.parts.iter().position(|part| part.id == piece.part) else { continue };
        let notches = piece.notches.iter().map(|o| (o, true));
        for (shown, at_foot) in piece.openings.iter().map(|o| (o, false)).chain(notches) {
            let Some(k) = house.parts[p].openings.iter().position(|o| o.id == shown.id) else { continue };
            let ring = flat::counter_clockwise(&shown.contour.flatten(LOOK));
            let (opening, place) = (&house.parts[p].openings[k], format!("parts[{p}].openings[{k}]"));
            jobs.push(Job { index, piece, shown, opening, place, ring, at_foot });
        }
    }
    jobs
}

/// Bars to pipe, and the line down the middle of pressed double doors.
fn lines(job: &Job<'_>) -> Vec<OpeningLine> {
    let line = |ends: [P2; 2], pressed: bool| OpeningLine {
        piece: job.index,
        opening: job.shown.id.clone(),
        copy: job.shown.copy,
        pressed,
        ends,
        z: Length::mm_of(job.front()),
        faces_up: !job.piece.reference_is_outside(),
    };
    let bounds = job.shown.contour.bounds();
    let mut found: Vec<OpeningLine> = Vec::new();
    if job.shown.mode != Mode::Cut {
        found.extend(bars::lines(job.opening, &job.ring, bounds).into_iter().map(|ends| line(ends, false)));
    }
    if job.shown.mode == Mode::Pressed && job.opening.door.is_some_and(|d| d.double) {
        found.extend(door::middle(&job.ring, bounds).into_iter().map(|ends| line(ends, true)));
    }
    found
}

/// A move along z.
fn lifted(z: f64) -> Rigid {
    Rigid::translation(0.0, 0.0, z)
}
