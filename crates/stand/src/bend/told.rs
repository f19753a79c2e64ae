//! What is said of pieces that bend where they stand, and what would help.

use super::standing::{Standing, standing};
use super::{BendError, Bent, Held, Kept, Rib, bend, bend_by, bend_ribbed};
use crate::stuff::Stuff;
use crate::told::{Matter, Told, between, share as said};
use crate::{Answer, Class, Range, Site};
use gable_measure::{Length, decimal};
use gable_plane::{P2, P3, V2};
use gable_words::tr;
use std::sync::Arc;

/// What is asked of a house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ask {
    /// Humidity of the room where it stands, from 0 to 1.
    pub humidity: f64,
    /// How much of finishes, ornaments and the rest is put on, against what is planned: 2 for twice.
    pub covering: f64,
}

impl Default for Ask {
    /// Air in which biscuit stays crisp, and what is planned.
    fn default() -> Self {
        Self { humidity: CRISP, covering: 1.0 }
    }
}

/// Up to this humidity biscuit stays crisp (derived from published sorption and crispness figures: Shrestha and Subba; Primo-Martín et al.,
/// 2008; Červenka et al., 2007).
pub const CRISP: f64 = 0.35;

/// A piece that was bent where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Bends {
    /// The piece, its plate, what holds it and what lies on it.
    pub standing: Standing,
    /// The plate, bent at the usual mass of biscuit; or why it could not be.
    pub bent: Result<Arc<Bent>, BendError>,
    /// What its load may be, against that.
    pub load: Range,
    /// Share of what biscuit carries that the worst place is asked.
    pub share: Range,
    /// The worst stress, MPa.
    pub stress: Range,
    /// Where, in the piece.
    pub at: P2,
    /// How far it sags at most, mm.
    pub sag: Range,
    /// Where it sags most, in the piece.
    pub deepest: P2,
    /// What its biscuit carries in that air, MPa.
    pub strength: Range,
}

/// Bends one piece, if it bends where it stands.
pub(crate) fn bends_one(site: &Site<'_>, ask: &Ask, piece: usize) -> Option<Bends> {
    let one = standing(site, piece, ask.covering)?;
    let bent = bend(&one.plate, &one.held, &one.load).map(Arc::new);
    Some(judged(site, ask, one, bent))
}

/// Bends every piece of a house that bends where it stands.
pub fn bends(site: &Site<'_>, ask: &Ask, kept: &mut Kept) -> Vec<Bends> {
    let all: Vec<Standing> = (0..site.pieces().len()).filter_map(|k| standing(site, k, ask.covering)).collect();
    let bent = kept.bend(&all);
    all.into_iter().zip(bent).map(|(one, bent)| judged(site, ask, one, bent)).collect()
}

fn judged(site: &Site<'_>, ask: &Ask, standing: Standing, bent: Result<Arc<Bent>, BendError>) -> Bends {
    let stuff = Stuff::of(site.notebook, &site.pieces()[standing.piece].dough);
    let soft = stuff.at(ask.humidity);
    let load = load_range(&stuff, standing.own);
    let (worst, at) = bent.as_ref().map_or((f64::NAN, P2::origin()), |b| b.worst());
    let (deep, deepest) = bent.as_ref().map_or((f64::NAN, P2::origin()), |b| b.deepest(1.0));
    let stress = load * worst;
    Bends {
        bent,
        load,
        share: stress / soft.strength,
        stress,
        at,
        sag: load * deep / soft.stiffness,
        deepest,
        strength: soft.strength,
        standing,
    }
}

/// What a load may be against its usual value, when so much of it is biscuit.
fn load_range(stuff: &Stuff, own: f64) -> Range {
    let biscuit = stuff.biscuit.range;
    biscuit.map(|mass| 1.0 - own + own * mass / biscuit.usual)
}

/// What is said of every piece that bends, in the order of the pieces. What could not be worked out is said too.
pub fn answers(site: &Site<'_>, ask: &Ask, kept: &mut Kept) -> Vec<Told> {
    told_of(site, ask, &bends(site, ask, kept))
}

/// The same of pieces that are bent already.
pub(crate) fn told_of(site: &Site<'_>, ask: &Ask, bent: &[Bends]) -> Vec<Told> {
    bent.iter().map(|one| told(site, ask, one)).collect()
}

fn told(site: &Site<'_>, ask: &Ask, one: &Bends) -> Told {
    let piece = &site.pieces()[one.standing.piece];
    let place = |at: P2| piece.house_from_piece * P3::new(at.x, at.y, 0.0);
    let answer = match &one.bent {
        Ok(_) => Answer {
            class: Class::of(one.share),
            number: one.share * 100.0,
            share: one.share,
            reason: reason(ask, one),
            place: site.piece_spot(one.standing.piece, Some(place(one.at))),
        },
        Err(error) => Answer {
            class: Class::Care,
            number: Range::exactly(f64::NAN),
            share: Range::exactly(f64::NAN),
            reason: tr!("how far it bends is not known: {error}"),
            place: site.piece_spot(one.standing.piece, None),
        },
    };
    let remedy = if answer.class == Class::Sound { None } else { remedies(site, ask, one).into_iter().next() };
    Told { matter: Matter::Bends, answer, unit: "%", remedy: remedy.map_or_else(String::new, |r| r.words) }
}

fn reason(ask: &Ask, one: &Bends) -> String {
    let biscuit = if ask.humidity <= CRISP {
        tr!("crisp biscuit").to_owned()
    } else {
        tr!("biscuit in air of {} %", decimal(ask.humidity * 100.0, 0))
    };
    let sag =
        if one.sag.high < 0.05 { tr!("hardly sags").to_owned() } else { tr!("sags by {}", between(one.sag, "mm")) };
    tr!("its weight and what is on it ask {} of what {biscuit} carries; it {sag}", said(one.share))
}

/// Something that would help, tried.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What to do, a plain sentence without its full stop.
    pub words: String,
    /// What would then be asked of what biscuit carries.
    pub share: Range,
}

/// How much more biscuit carries when the face that lay on the tray is pressed instead of pulled: a little (Baltsavias et al., 1997, tell the
/// direction, 'slightly'; the numbers are an assumption).
const TRAY_SIDE_PRESSED: Range = Range { low: 1.0, usual: 1.05, high: 1.1 };

/// Thicknesses that are tried, mm more.
const THICKER: [f64; 4] = [1.0, 2.0, 3.0, 4.0];

/// What would help a piece, the best class first, the smaller change first; each tried on the plate itself. Nothing that does not help.
pub fn remedies(site: &Site<'_>, ask: &Ask, one: &Bends) -> Vec<Remedy> {
    if one.bent.is_err() {
        return Vec::new();
    }
    let stuff = Stuff::of(site.notebook, &site.pieces()[one.standing.piece].dough);
    let mut all = Vec::new();
    if ask.humidity > CRISP {
        let share = one.stress / stuff.at(CRISP).strength;
        all.push(Remedy {
            words: tr!("keep it in air below {} %, and dry it out first", decimal(CRISP * 100.0, 0)),
            share,
        });
    }
    let share = one.share / TRAY_SIDE_PRESSED;
    all.push(Remedy {
        words: tr!("bake it with its outer face on the tray if it is covered, so that the firm face is pressed and not pulled ({} then)",
            said(share)
        ),
        share,
    });
    all.extend(THICKER.iter().filter_map(|more| thicker(one, &stuff, *more)));
    all.extend(ribbed(site, one));
    all.extend(propped(site, one));
    let class = Class::of(one.share);
    all.retain(|r| r.share.usual < one.share.usual && Class::of(r.share) < class);
    all.sort_by_key(|r| Class::of(r.share));
    all
}

/// The same outline thicker: heavier by its own biscuit. By the same triangles, so that like is compared with like.
fn thicker(one: &Bends, stuff: &Stuff, more: f64) -> Option<Remedy> {
    let mut plate = one.standing.plate.clone();
    let before = plate.thickness;
    plate.thickness = before + Length::mm_of(more);
    let heavier = 1.0 + one.standing.own * more / before.mm();
    let size = one.bent.as_ref().ok()?.mesh.size;
    let (worst, _) = bend_by(&plate, &one.standing.held, &one.standing.load, size).ok()?.worst();
    let own = one.standing.own * (plate.thickness / before) / heavier;
    let share = load_range(stuff, own) * (worst * heavier) / one.strength;
    Some(Remedy { words: tr!("bake it {} mm thicker ({} then)", decimal(more, 0), said(share)), share })
}

/// Heights of ribs that are tried, mm.
const RIBS: [f64; 4] = [10.0, 15.0, 20.0, 30.0];

/// A rib of the same biscuit on edge under the place that sags most, level or up the slope: the lowest that brings a better class. The rib
/// must not be asked for more than the plate is then.
fn ribbed(site: &Site<'_>, one: &Bends) -> Vec<Remedy> {
    let piece = &site.pieces()[one.standing.piece];
    let level = V2::new(piece.up.y, -piece.up.x);
    let of_way = |(way, words): (V2, &str)| {
        RIBS.into_iter().find_map(|height| {
            let share = with_rib(one, way, height)?;
            let height = decimal(height, 0);
            let words = tr!("ice a rib {height} mm high, on edge, under its middle {words} ({} then)", said(share));
            (Class::of(share) < Class::of(one.share)).then_some(Remedy { words, share })
        })
    };
    [(level, tr!("from side to side")), (piece.up, tr!("from bottom to top"))].into_iter().filter_map(of_way).collect()
}

/// What is asked of plate and rib, whichever is more.
fn with_rib(one: &Bends, way: V2, height: f64) -> Option<Range> {
    let Standing { plate, held, load, own, .. } = &one.standing;
    let width = plate.thickness.mm();
    let [from, to] = [-1.0, 1.0].map(|sign| reach(one, way * sign, width));
    let rib = Rib { from, to, width, height };
    let heavier = 1.0 + own * height * (to - from).norm() / plate.shape.area();
    let size = one.bent.as_ref().ok()?.mesh.size;
    let bent = bend_ribbed(plate, (held, &[rib]), load, size).ok()?;
    let worst = bent.ribs.iter().copied().fold(bent.worst().0, f64::max);
    Some(one.load * (worst * heavier) / one.strength)
}

/// How far a rib goes from where a piece sags most: up to a thickness before an edge, an opening or what holds the piece.
fn reach(one: &Bends, way: V2, clear: f64) -> P2 {
    let shape = &one.standing.plate.shape;
    let free = |p: &P2| {
        shape.contains(*p)
            && shape.edge_distance(*p) > clear
            && one.standing.held.iter().all(|h| h.distance(*p) > clear)
    };
    let at = |k: usize| one.deepest + way * k as f64;
    (1..FAR as usize).map(at).take_while(free).last().unwrap_or(one.deepest)
}

/// A prop under the place that sags most, and a wall that is level along it; both stay.
fn propped(site: &Site<'_>, one: &Bends) -> Vec<Remedy> {
    let piece = &site.pieces()[one.standing.piece];
    // The face at z = 0 of slopes and lids is their underside.
    let height = decimal((piece.house_from_piece * P3::new(one.deepest.x, one.deepest.y, 0.0)).z, 0);
    let tried = |held: Held, what: &str| {
        let share = under(one, held)?;
        Some(Remedy { words: tr!("{what} {height} mm high under its middle for good ({} then)", said(share)), share })
    };
    let prop = tried(Held::at(one.deepest), tr!("leave a prop"));
    let wall = tried(across(piece.up, one.deepest), tr!("stand a wall inside,"));
    prop.into_iter().chain(wall).collect()
}

/// A level line right across a piece.
pub(super) fn across(up: V2, through: P2) -> Held {
    let level = V2::new(up.y, -up.x) * FAR;
    Held::along(through - level, through + level)
}

/// Farther than any piece reaches, mm.
const FAR: f64 = 2000.0;

/// What is asked of biscuit with something more under it.
fn under(one: &Bends, more: Held) -> Option<Range> {
    let mut held = one.standing.held.clone();
    held.push(more);
    let (worst, _) = bend(&one.standing.plate, &held, &one.standing.load).ok()?.worst();
    Some(one.load * worst / one.strength)
}
