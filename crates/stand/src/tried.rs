//! Remedies that were tried: the house is changed, worked out anew, and the same piece is asked the same again.

use crate::stuff::Stuff;
use crate::told::share as said;
use crate::{Class, Matter, Range, Site, Told, bend, lift};
use gable_bake::About;
use gable_measure::{Length, Severity, Unit};
use gable_shell::{DoughId, House, OpeningId, PartId, Piece, PieceId, file, solve};
use gable_words::tr;

/// A small change of a house that might help a piece.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// A dough is rolled thicker, for all that is cut from it.
    Thicker {
        /// The dough.
        dough: DoughId,
        /// By so much, rolled.
        by: Length,
    },
    /// An opening becomes smaller, about the middle of its foot.
    Smaller {
        /// Its part.
        part: PartId,
        /// The opening, with all its copies.
        opening: OpeningId,
        /// Width, and height where the width does not decide it, become smaller by so much.
        by: Length,
    },
}

impl Change {
    /// Makes the change; nothing else of the house is touched.
    pub fn apply(&self, house: &mut House) {
        match self {
            Self::Thicker { dough, by } => {
                house.doughs.iter_mut().filter(|d| &d.id == dough).for_each(|d| d.rolled += *by);
            }
            Self::Smaller { part, opening, by } => {
                let parts = house.parts.iter_mut().filter(|p| &p.id == part);
                for own in parts.flat_map(|p| &mut p.openings).filter(|o| &o.id == opening) {
                    own.width -= *by;
                    own.height -= *by;
                    own.settle();
                }
            }
        }
    }

    /// What to do: 'Roll dough 'walls' 1 mm thicker', 'Make Window of Main body 4 mm smaller'.
    pub fn words(&self, house: &House) -> String {
        let unit = house.unit;
        match self {
            Self::Thicker { dough, by } => tr!("roll dough '{}' {} thicker", dough.0, unit.print(*by)),
            Self::Smaller { part, opening, by } => {
                let own = house.part(part);
                let name = own.and_then(|p| p.openings.iter().find(|o| &o.id == opening)).map(|o| o.name.as_str());
                let (name, by) = (name.filter(|n| !n.is_empty()).unwrap_or(&opening.0), unit.print(*by));
                tr!("make {name} of {} {by} smaller", own.map_or(part.0.as_str(), |p| p.name.as_str()))
            }
        }
    }
}

/// A change that helps, with what it changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// The piece, by its stable name.
    pub piece: PieceId,
    /// Name of the piece for people.
    pub name: String,
    /// What was asked of it.
    pub matter: Matter,
    /// The change.
    pub change: Change,
    /// The share before.
    pub before: Range,
    /// The share after.
    pub after: Range,
    /// How well it will do after.
    pub class: Class,
}

impl Tried {
    /// On one line: 'Dormer: front wall: make Window of Dormer 4 mm smaller: asked for 30 % (…) instead of 68 % (…), sound'.
    pub fn line(&self, house: &House) -> String {
        let (after, before) = (said(self.after), said(self.before));
        let words = self.change.words(house);
        tr!("{}: {words}: asked for {after} instead of {before}, {}", self.name, self.class.words())
    }
}

/// Most answers for which changes are tried.
const MOST: usize = 12;

/// What is changed, smallest first, in the steps that a person would type.
fn steps(unit: Unit) -> [Length; 4] {
    match unit {
        Unit::Millimetre => [1.0, 2.0, 4.0, 8.0].map(Length::mm_of),
        Unit::Inch(_) => [0.0625, 0.125, 0.1875, 0.3125].map(Length::inches),
    }
}

/// For each piece that is not sound in the hand, or bends too far in air of a humidity, the smallest change that brings it a better class; nothing that the solver has anything
/// new against. A house is solved dozens of times: call it away from the window; it ends early when `go_on` says no.
pub fn tried(site: &Site<'_>, told: &[Told], humidity: f64, go_on: impl Fn() -> bool) -> Vec<Tried> {
    let is_tried = |t: &Told| matches!(t.matter, Matter::Lifted | Matter::Bridge | Matter::Bends);
    let weak = told.iter().filter(|t| is_tried(t) && t.class() > Class::Sound);
    let mut found: Vec<Tried> = Vec::new();
    for own in weak.take(MOST) {
        let Some(piece) = own.answer.place.piece.map(|k| &site.pieces()[k]).filter(|p| !p.baked) else { continue };
        // What helped one piece often helps its like.
        let known: Vec<Change> = found.iter().map(|t| t.change.clone()).collect();
        let all = known.into_iter().filter(|c| concerns(c, piece)).chain(changes(site, own.matter, piece));
        for change in all {
            if !go_on() {
                return found;
            }
            if let Some(better) = try_it(site, own, piece, humidity, change) {
                found.push(better);
                break;
            }
        }
    }
    found
}

fn concerns(change: &Change, piece: &Piece) -> bool {
    match change {
        Change::Thicker { dough, .. } => dough == &piece.dough,
        Change::Smaller { part, .. } => part == &piece.part,
    }
}

fn changes(site: &Site<'_>, matter: Matter, piece: &Piece) -> Vec<Change> {
    let steps = steps(site.about.house.unit);
    let own =
        |id: &OpeningId| site.about.house.part(&piece.part).is_some_and(|p| p.openings.iter().any(|o| &o.id == id));
    let mut openings: Vec<&OpeningId> =
        piece.openings.iter().chain(&piece.notches).map(|o| &o.id).filter(|id| own(id)).collect();
    openings.sort_unstable();
    openings.dedup();
    let smaller = |by: Length| {
        let one = move |id: &&OpeningId| Change::Smaller { part: piece.part.clone(), opening: (*id).clone(), by };
        openings.iter().map(one).collect::<Vec<_>>()
    };
    let smaller = steps.into_iter().flat_map(smaller);
    let thicker = steps[..3].iter().map(|by| Change::Thicker { dough: piece.dough.clone(), by: *by });
    match matter {
        // A thicker wall wants a wider strip.
        Matter::Bridge => smaller.collect(),
        _ => thicker.chain(smaller).collect(),
    }
}

/// What is said of a piece in a changed house.
fn again(changed: &Site<'_>, at: usize, matter: Matter, humidity: f64) -> Option<(Class, Range)> {
    if matter == Matter::Bends {
        let one = bend::bends_one(changed, &bend::Ask { humidity, ..bend::Ask::default() }, at)?;
        return one.bent.is_ok().then(|| (Class::of(one.share), one.share));
    }
    let strength = Stuff::of(changed.notebook, &changed.pieces()[at].dough).strength.range;
    let after = lift::of_piece(changed, at, strength).into_iter().find(|t| t.matter == matter);
    after.map(|t| (t.answer.class, t.answer.share))
}

/// What becomes of a piece after a change, if that is better and nothing new is wrong.
fn try_it(site: &Site<'_>, before: &Told, piece: &Piece, humidity: f64, change: Change) -> Option<Tried> {
    let mut house = site.about.house.clone();
    change.apply(&mut house);
    if !file::check(&house).is_empty() {
        return None;
    }
    let solved = solve(&house);
    let known = &site.about.solved.findings;
    let new = |f: &gable_measure::Finding| {
        f.severity == Severity::Blocking || !known.iter().any(|k| (k.kind, &k.place) == (f.kind, &f.place))
    };
    if solved.findings.iter().any(new) {
        return None;
    }
    let dressed = gable_dress::dress(&house, &solved);
    let about = About { house: &house, solved: &solved, dressed: &dressed, guide: None, board: None };
    let changed = Site::new(about, site.notebook);
    let at = solved.pieces.iter().position(|p| p.id == piece.id)?;
    let (class, share) = again(&changed, at, before.matter, humidity)?;
    let tried = Tried {
        piece: piece.id.clone(),
        name: piece.name.clone(),
        matter: before.matter,
        change,
        before: before.answer.share,
        after: share,
        class,
    };
    (class < before.class()).then_some(tried)
}
