//! Whether the house will stand and travel, worked out beside the window: for the question about it, for colours in the picture, and
//! for the drawing table.

use crate::errands::{Errand, Progress};
use egui::Context;
use gable_bake::Chapter;
use gable_drawing::Drawing;
use gable_export::{Baker, Complete};
use gable_shell::{House, PieceId};
use gable_stand::bend::{Kept, overlay};
use gable_stand::{Ask, Change, Class, Matter, Report, Site, Told, Tried, tried};
use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Numbers on a drawing of stress are so high, as a share of the piece.
const NUMBERS: f64 = 1.0 / 40.0;

/// The answers in words and pictures.
#[derive(Clone, Debug, Default)]
pub(crate) struct Said {
    /// How many answers there are of each class, and the room.
    pub(crate) short: Vec<String>,
    /// By matter: what is not sound.
    pub(crate) weak: Vec<(&'static str, Vec<(Class, String)>)>,
    /// Every answer, by matter.
    pub(crate) matters: Vec<Chapter>,
    /// The room and the way.
    pub(crate) way: Vec<Chapter>,
    /// What nobody has measured.
    pub(crate) assumed: Chapter,
    /// How well each piece will do.
    pub(crate) classes: BTreeMap<PieceId, Class>,
    /// What is asked of biscuit all over each piece that bends, as it lies on the drawing table.
    pub(crate) maps: BTreeMap<PieceId, Drawing>,
    told: Vec<Told>,
}

/// What is asked: the house as it is, or with a change.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    revision: u64,
    baker: Baker,
    room: Ask,
    change: Option<Change>,
}

/// One answer that is worked out beside the window, one question at a time.
struct Slot<T> {
    asked: Option<Key>,
    working: Option<Errand<T>>,
    found: Option<T>,
    /// Whether what was found answers what is asked now.
    ready: bool,
    lost: bool,
}

impl<T> Default for Slot<T> {
    fn default() -> Self {
        Self { asked: None, working: None, found: None, ready: false, lost: false }
    }
}

impl<T: Send + 'static> Slot<T> {
    /// Takes in what is done; asks anew when something else is wanted, once nothing is under way. What is no longer wanted is waited
    /// for, and thrown away.
    fn follow(&mut self, key: &Key, may_begin: bool, begin: impl FnOnce() -> Errand<T>) {
        let wanted = self.asked.as_ref() == Some(key);
        if let Some(errand) = self.working.take() {
            match errand.look() {
                Progress::Under => self.working = Some(errand),
                Progress::Done(found, _) if wanted => (self.found, self.ready) = (Some(found), true),
                Progress::Done(..) => {}
                Progress::Lost => self.lost = wanted,
            }
        }
        if !wanted {
            (self.ready, self.lost) = (false, false);
            if may_begin && self.working.is_none() {
                self.asked = Some(key.clone());
                self.working = Some(begin());
            }
        }
    }

    fn ready(&self) -> Option<&T> {
        self.found.as_ref().filter(|_| self.ready)
    }
}

/// Answers beside the window.
#[derive(Default)]
pub(crate) struct Asker {
    /// The room and the board that are asked about.
    pub(crate) room: Ask,
    as_is: Slot<Said>,
    changed: Slot<Said>,
    helps: Slot<Vec<(Tried, String)>>,
    /// Ends the search for what helps.
    enough: Arc<AtomicBool>,
}

impl Drop for Asker {
    fn drop(&mut self) {
        self.enough.store(true, Ordering::Relaxed);
    }
}

/// A house and the person who bakes it.
pub(crate) type Asked<'a> = (&'a House, u64, &'a Baker);

impl Asker {
    /// Works out how well the house will do; nothing is begun while something is dragged.
    pub(crate) fn follow(&mut self, ctx: &Context, (house, revision, baker): Asked<'_>) {
        let key = self.key(revision, baker, None);
        let may_begin = !ctx.input(|i| i.pointer.any_down());
        self.as_is.follow(&key, may_begin, || begin(ctx, house, &key));
    }

    /// Looks for changes that help, once the answers are there.
    pub(crate) fn find_help(&mut self, ctx: &Context, (house, revision, baker): Asked<'_>) {
        let key = self.key(revision, baker, None);
        let Some(told) = self.as_is.ready().map(|said| said.told.clone()) else { return };
        if self.helps.asked.as_ref() != Some(&key) {
            self.enough.store(true, Ordering::Relaxed);
        }
        let enough = Arc::new(AtomicBool::new(false));
        let (mine, ctx) = (Arc::clone(&enough), ctx.clone());
        let mut begun = false;
        self.helps.follow(&key, true, || {
            begun = true;
            let (house, key) = (house.clone(), key.clone());
            Errand::start(&ctx, move || {
                let complete = Complete::of(key.baker.notebook.baked_here(&house));
                let site = Site::new(complete.about(), &key.baker.notebook);
                let found = tried(&site, &told, key.room.air.humidity, || !mine.load(Ordering::Relaxed));
                found.into_iter().map(|t| (t.clone(), t.line(&house))).collect()
            })
        });
        if begun {
            self.enough = enough;
        }
    }

    /// Works out how well the house would do with a change.
    pub(crate) fn try_out(&mut self, ctx: &Context, (house, revision, baker): Asked<'_>, change: &Change) {
        let key = self.key(revision, baker, Some(change.clone()));
        self.changed.follow(&key, true, || begin(ctx, house, &key));
    }

    fn key(&self, revision: u64, baker: &Baker, change: Option<Change>) -> Key {
        Key { revision, baker: baker.clone(), room: self.room.clone(), change }
    }

    /// Stops looking for what helps.
    pub(crate) fn rest(&mut self) {
        self.enough.store(true, Ordering::Relaxed);
        (self.changed, self.helps) = (Slot::default(), Slot::default());
    }

    /// The answers for the house as it is.
    pub(crate) fn said(&self) -> Option<&Said> {
        self.as_is.ready()
    }

    /// The latest answers, perhaps for the house as it was a moment ago.
    pub(crate) fn last_said(&self) -> Option<&Said> {
        self.as_is.found.as_ref()
    }

    /// The answers for the house as it would be.
    pub(crate) fn said_changed(&self) -> Option<&Said> {
        self.changed.ready()
    }

    /// Changes that help, with what they do in words; nothing while they are looked for.
    pub(crate) fn helps(&self) -> Option<&[(Tried, String)]> {
        self.helps.ready().map(Vec::as_slice)
    }

    /// Whether a fault of the program has cost the answers.
    pub(crate) const fn is_lost(&self) -> bool {
        self.as_is.lost || self.changed.lost
    }
}

fn begin(ctx: &Context, house: &House, key: &Key) -> Errand<Said> {
    let (mut house, key) = (house.clone(), key.clone());
    if let Some(change) = &key.change {
        change.apply(&mut house);
    }
    Errand::start(ctx, move || answered(&house, &key.baker, &key.room))
}

fn answered(house: &House, baker: &Baker, room: &Ask) -> Said {
    let complete = Complete::of(baker.notebook.baked_here(house));
    let site = Site::new(complete.about(), &baker.notebook);
    let report = Report::of(&site, room, &mut Kept::default());
    let weak = |matter: Matter| {
        let own = report.told.iter().filter(|t| t.matter == matter && t.class() > Class::Sound);
        (matter.title(), own.map(|t| (t.class(), t.line())).collect::<Vec<_>>())
    };
    let pieces = &complete.solved.pieces;
    let classes = report.of_pieces(&complete.solved);
    let map = |one: &gable_stand::bend::Bends| {
        let piece = &pieces[one.standing.piece];
        let (width, height) = piece.size();
        (piece.id.clone(), overlay(piece, one, width.max(height).mm() * NUMBERS))
    };
    let [_, bows, spares, room, carry, sections, assumed] = report.others(&site);
    Said {
        short: report.in_short().lines,
        weak: Matter::ALL.map(weak).into_iter().filter(|(_, lines)| !lines.is_empty()).collect(),
        matters: Matter::ALL.map(|m| report.of_matter(m)).to_vec(),
        way: vec![room, carry, sections, bows, spares],
        assumed,
        classes: pieces.iter().map(|p| p.id.clone()).zip(classes).collect(),
        maps: report.bent.iter().filter(|one| one.bent.is_ok()).map(map).collect(),
        told: report.told,
    }
}
