//! Pieces in the hand: lifted flat, from the tray, turned over, on edge; their narrowest strips; which deserve a spare.

mod bridge;
mod slices;
#[cfg(test)]
mod tests;

pub use bridge::{Bridge, beside_notch, narrowest};
use gable_words::tr;

use crate::stuff::GRAVITY;
use crate::told::{Matter, Told, share as said, short};
use crate::{Answer, Class, Range, Site};
use gable_measure::Length;
use gable_plane::{P2, P3, V2};
use gable_shell::Piece;
pub(crate) use slices::Slices;

/// How much more a piece weighs on hands that jerk (an assumption).
const JERK: Range = Range { low: 1.2, usual: 1.5, high: 2.0 };
/// Width of a broad blade or fish slice that goes under a piece on its tray, mm (common practice, no source).
const BLADE: f64 = 100.0;

/// A way to take a piece in hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// Flat, by its left and right ends.
    BySides,
    /// Flat, by its foot and its top.
    ByFootAndTop,
    /// From the tray, a broad blade under its middle.
    FromTray,
    /// Turned over about its longer side.
    TurnedOver,
    /// Upright on its edge, by its ends.
    OnEdge,
    /// The same with a third hand under its middle.
    Helped,
}

impl Way {
    /// In words, after 'lifted'.
    pub fn words(self) -> &'static str {
        match self {
            Self::BySides => tr!("flat by its left and right ends"),
            Self::ByFootAndTop => tr!("flat by its foot and its top"),
            Self::FromTray => tr!("from the tray with a broad blade under its middle"),
            Self::TurnedOver => tr!("by one long side to turn it over"),
            Self::OnEdge => tr!("upright by its ends"),
            Self::Helped => tr!("upright by its ends with a hand under its middle"),
        }
    }
}

/// What a way of lifting asks of a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lift {
    /// How it is held.
    pub way: Way,
    /// The greatest bending stress, held still, N/mm².
    pub stress: f64,
    /// Where, in the piece.
    pub at: P2,
}

/// The ways a piece is lifted, with what they ask of it. Bare on the tray; with its panes and finish when it is turned over or
/// raised.
///
/// A piece is taken for a beam of slices: what is left of it across each place bends as one. On edge what stands on either side of an
/// opening bends by itself, so that the stress is no less than that.
pub fn lifts(site: &Site<'_>, k: usize) -> Vec<Lift> {
    let piece = &site.pieces()[k];
    let area = gable_bake::piece_area(piece).max(1e-9);
    let [bare, dressed] = [site.weights[k].biscuit, site.weights[k].raised()].map(|w| w.newton() / area);
    let up = V2::new(piece.up.x, piece.up.y);
    let aside = V2::new(up.y, -up.x);
    let (Some(over), Some(along)) = (Slices::of(piece, up), Slices::of(piece, aside)) else { return Vec::new() };
    let (long, wide) = if along.length() >= over.length() { (&along, &over) } else { (&over, &along) };
    let t = piece.thickness.mm();
    let flat =
        |way, beam: &Slices, moments: &[f64]| worst(way, beam, moments, |w: &[(f64, f64)]| across(w) * t * t / 6.0);
    // Upright each stretch bends on its own height.
    let section = |w: &[(f64, f64)]| {
        let highest = w.iter().map(|(a, b)| b - a).fold(0.0, f64::max);
        let stiff: f64 = w.iter().map(|(a, b)| (b - a).powi(3)).sum();
        if highest > 0.0 { t * stiff / highest / 6.0 } else { 0.0 }
    };
    let upright = |way, moments: &[f64]| worst(way, &along, moments, section);
    let all = [
        flat(Way::BySides, &along, &along.on_ends(bare)),
        flat(Way::ByFootAndTop, &over, &over.on_ends(bare)),
        flat(Way::FromTray, long, &long.on_blade(bare, BLADE)),
        flat(Way::TurnedOver, wide, &wide.on_ends(dressed)),
        upright(Way::OnEdge, &along.on_ends(dressed)),
        upright(Way::Helped, &along.on_three(dressed)),
    ];
    all.into_iter().flatten().collect()
}

fn across(stretches: &[(f64, f64)]) -> f64 {
    stretches.iter().map(|(a, b)| b - a).sum()
}

/// The slice with the greatest stress: moment over what the slice has to bend with, mm³.
fn worst(way: Way, beam: &Slices, moments: &[f64], section: impl Fn(&[(f64, f64)]) -> f64) -> Option<Lift> {
    let stress = |k: usize| {
        let own = section(&beam.across[k]);
        if own > 0.0 { moments[k] / own } else { 0.0 }
    };
    let all = (0..moments.len()).map(|k| (k, stress(k)));
    let (k, stress) = all.max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(Lift { way, stress, at: beam.place(k) })
}

/// Of the two ways to hold a piece flat, the one that asks less of it.
fn better(lifts: &[Lift]) -> Option<&Lift> {
    let flat = lifts.iter().filter(|l| matches!(l.way, Way::BySides | Way::ByFootAndTop));
    flat.min_by(|a, b| a.stress.total_cmp(&b.stress))
}

/// What a piece has to go through, held the better way: the lift that asks most of it.
pub(crate) fn hardest(lifts: &[Lift]) -> Option<Lift> {
    hardest_but(lifts, None)
}

/// The same with one way left out, because something better is done instead.
fn hardest_but(lifts: &[Lift], left_out: Option<Way>) -> Option<Lift> {
    let flat = better(lifts).map(|l| l.way);
    let is_needed = |l: &&Lift| match l.way {
        Way::Helped => left_out == Some(Way::OnEdge),
        Way::BySides | Way::ByFootAndTop => Some(l.way) == flat,
        _ => true,
    };
    let needed = lifts.iter().filter(is_needed).filter(|l| Some(l.way) != left_out);
    needed.max_by(|a, b| a.stress.total_cmp(&b.stress)).copied()
}

/// The share of a strength, N/mm², that a lift asks for with hands that jerk.
pub(crate) fn share(lift: &Lift, strength: Range) -> Range {
    JERK * lift.stress / strength
}

/// Every piece in the hand, and its narrowest strip where it has one.
pub fn answers(site: &Site<'_>, strength: impl Fn(&Piece) -> Range) -> Vec<Told> {
    (0..site.pieces().len()).flat_map(|k| of_piece(site, k, strength(&site.pieces()[k]))).collect()
}

/// The same of one piece.
pub(crate) fn of_piece(site: &Site<'_>, k: usize, strength: Range) -> Vec<Told> {
    [in_hand(site, k, strength), strip(site, k)].into_iter().flatten().collect()
}

fn in_hand(site: &Site<'_>, k: usize, strength: Range) -> Option<Told> {
    let lifts = lifts(site, k);
    let lift = hardest(&lifts)?;
    let share = share(&lift, strength);
    let class = Class::of(share);
    let reason = tr!("lifted {}, it is asked for {} of what crisp biscuit carries", lift.way.words(), said(share));
    let remedy = if class == Class::Sound { String::new() } else { better_held(&lifts, lift.way, strength) };
    let number = Range::exactly(lift.stress * 1000.0);
    let place = site.piece_spot(k, Some(in_house(&site.pieces()[k], lift.at)));
    Some(Told { matter: Matter::Lifted, answer: Answer { class, number, share, reason, place }, unit: "kPa", remedy })
}

/// How a piece is taken in hand better than a way, with what the next hardest way then asks.
fn better_held(lifts: &[Lift], way: Way, strength: Range) -> String {
    let words = match way {
        Way::OnEdge | Way::Helped => tr!("carry it flat on a board, and raise it with a third hand under its middle"),
        Way::TurnedOver => tr!("turn it over between two boards"),
        Way::FromTray => tr!("let it cool on the tray, then slide it on a board with its paper"),
        Way::BySides | Way::ByFootAndTop => tr!("slide a board under it instead of lifting it by its ends"),
    };
    match hardest_but(lifts, Some(way)) {
        Some(next) => tr!("{words}: {} then", said(share(&next, strength))),
        None => words.to_owned(),
    }
}

/// A strip as wide as the biscuit is thick is asked for a third of what it carries (common practice, no source): such a strip
/// mostly stays whole.
pub(crate) fn strip_share(width: f64, thickness: f64) -> Range {
    Range::exactly(thickness / (3.0 * width.max(1e-9)))
}

/// How well a strip of a piece will do.
pub fn class_of_strip(piece: &Piece, bridge: &Bridge) -> Class {
    Class::of(strip_share(bridge.width, piece.thickness.mm()))
}

/// The narrowest strip of a piece, beside an opening or a door.
pub fn narrow(piece: &Piece) -> Option<Bridge> {
    let both = [narrowest(piece), if piece.notches.is_empty() { None } else { beside_notch(piece) }];
    both.into_iter().flatten().min_by(|a, b| a.width.total_cmp(&b.width))
}

fn strip(site: &Site<'_>, k: usize) -> Option<Told> {
    let piece = &site.pieces()[k];
    let bridge = narrow(piece)?;
    let thickness = piece.thickness.mm();
    let share = strip_share(bridge.width, thickness);
    let class = Class::of(share);
    let print = |mm: f64| site.about.solved.unit.print(Length::mm_of(mm));
    let times = short(bridge.width / thickness);
    let reason = tr!("its narrowest strip is {} wide, {times} times the thickness", print(bridge.width));
    let remedy = match class {
        Class::Sound => String::new(),
        _ => tr!(
            "leave {} there: make the opening smaller or move it, or pipe a line of icing along the strip inside",
            print(thickness)
        ),
    };
    let place = site.piece_spot(k, Some(in_house(piece, bridge.at)));
    let answer = Answer { class, number: Range::exactly(bridge.width), share, reason, place };
    Some(Told { matter: Matter::Bridge, answer, unit: "mm", remedy })
}

fn in_house(piece: &Piece, p: P2) -> P3 {
    piece.house_from_piece * P3::new(p.x, p.y, 0.0)
}

/// A piece of which one more should be baked.
#[derive(Clone, Debug, PartialEq)]
pub struct Spare {
    /// Number of its template.
    pub template: usize,
    /// The pieces cut with it, as indices into [`gable_shell::Solved::pieces`].
    pub pieces: Vec<usize>,
    /// Why.
    pub because: String,
}

/// Templates of which one more piece deserves to be baked: those with a piece that is to be handled with care, the weakest first.
pub fn spares(site: &Site<'_>, told: &[Told]) -> Vec<Spare> {
    let mut found: Vec<(f64, Spare)> = Vec::new();
    for own in told.iter().filter(|t| matches!(t.matter, Matter::Lifted | Matter::Bridge) && t.class() > Class::Sound) {
        let Some(k) = own.answer.place.piece.filter(|k| !site.pieces()[*k].baked) else { continue };
        let template = site.about.solved.template_number(&site.pieces()[k]);
        let because = match own.matter {
            Matter::Bridge => tr!("a narrow strip"),
            _ => tr!("it bends in the hand"),
        };
        let share = own.answer.share.usual;
        match found.iter_mut().find(|(_, s)| s.template == template) {
            Some((most, spare)) => {
                if !spare.pieces.contains(&k) {
                    spare.pieces.push(k);
                }
                if share > *most {
                    (*most, spare.because) = (share, because.to_owned());
                }
            }
            None => found.push((share, Spare { template, pieces: vec![k], because: because.to_owned() })),
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.template.cmp(&b.1.template)));
    found.into_iter().map(|(_, spare)| spare).collect()
}

/// What a panel of a span, thickness and weight bends by and is asked for: `q L² / 8` over `t² / 6` (a strip of it 1 mm wide).
/// `density` in g/mm³, `covering` in g/mm².
pub fn panel_stress(span: f64, thickness: f64, density: f64, covering: f64) -> f64 {
    let load = (density * thickness + covering) * GRAVITY / 1000.0;
    load * span * span / 8.0 / (thickness * thickness / 6.0)
}
