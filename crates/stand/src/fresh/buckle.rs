//! Whether a wall buckles under its own weight and what rests on it.

use super::carried::Carried;
use super::panel::HeldWall;
use crate::bend::CRISP;
use crate::lift::Slices;
use crate::stuff::{GRAVITY, Stuff};
use crate::told::{Matter, Told, share as said};
use crate::{Answer, Class, Range, Site};
use gable_measure::decimal;
use gable_plane::P3;
use gable_shell::{Joint, JointKind, Piece, Role};
use gable_words::tr;
use std::f64::consts::PI;

/// The height at which a free-standing plate buckles under its own weight, mm: `(7.84 E I / (ρ g A))^(1/3)` with
/// `I / A = t² / 12` (A. G. Greenhill, 1881; the formula as told by T. Jones, 'Musings on structural gingerbread', 2013).
///
/// `modulus` in N/mm², `thickness` in mm, `mass` in g for each mm² of wall.
pub fn critical_height(modulus: Range, thickness: f64, mass: f64) -> Range {
    let newton = mass * GRAVITY / 1000.0;
    modulus.map(|e| (BUCKLES * e * thickness.powi(3) / 12.0 / newton).cbrt())
}

/// The square of 1.8663, the first zero of the Bessel function J₋₁⸝₃, times 9/4: `9 j² / 4`.
const BUCKLES: f64 = 7.837;

/// A wall as a strip that stands on its foot and is free at its top: as if no other wall steadied it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Column {
    /// mm.
    pub(super) height: f64,
    /// The least biscuit across its lower half, mm.
    pub(super) width: f64,
    /// mm.
    pub(super) thickness: f64,
    /// Its own weight with what is on it, N.
    pub(super) own: f64,
    /// What rests on it, N; counted as if all of it lay on its top.
    pub(super) top: f64,
}

/// The share of what makes a column buckle: that of its own weight (Greenhill) and that of what is on its top (Euler, `π² E I / 4 L²`) added,
/// which is never too little (R. V. Southwell and S. Dunkerley's lower bound).
pub(super) fn share(column: &Column, modulus: Range) -> Range {
    let Column { height, width, thickness, own, top } = *column;
    let inertia = width * thickness.powi(3) / 12.0;
    let asked = height * height * (own / BUCKLES + 4.0 * top / (PI * PI)) / inertia;
    Range::exactly(asked) / modulus
}

/// The joints of a piece that steady it along a line, with the piece across it.
fn steadying<'a>(site: &'a Site<'a>, k: usize) -> impl Iterator<Item = &'a Joint> {
    let side = |joint: &Joint| matches!(joint.kind, JointKind::Corner | JointKind::Abutment);
    let upright = |other: Option<usize>| other.is_some_and(|o| site.pieces()[o].role.is_upright());
    site.joints(k).filter(move |(_, joint, other)| side(joint) && upright(*other)).map(|(_, joint, _)| joint)
}

/// What presses a wall or post together, N: its own weight, and what rests on it, which goes through its foot too.
fn presses(site: &Site<'_>, carried: &[Carried], k: usize) -> (f64, f64) {
    let piece = &site.pieces()[k];
    let own = site.weights[k].done().newton();
    // What stands on its top has a base joint with it too.
    let foot = piece.corners().map(|p| p.z).fold(f64::INFINITY, f64::min);
    let at_foot = |joint: &Joint| joint.line.iter().all(|p| (p.z - foot).abs() < piece.thickness.mm());
    let is_foot =
        |j: usize| site.joints(k).any(|(n, joint, _)| n == j && joint.kind == JointKind::Base && at_foot(joint));
    let through: f64 = carried.iter().filter(|c| is_foot(c.joint)).map(|c| c.load).sum();
    (own, (through - own).max(0.0))
}

/// A wall or post that no other wall steadies along a side: what is iced to a wall across it does not buckle as a column.
fn column(site: &Site<'_>, carried: &[Carried], k: usize) -> Option<Column> {
    let piece = &site.pieces()[k];
    if steadying(site, k).next().is_some() || !matches!(piece.role, Role::Wall(_) | Role::Post(..)) {
        return None;
    }
    let beam = Slices::of(piece, piece.up)?;
    let half = beam.across.len() / 2;
    let width = beam.widths().take(half).filter(|w| *w > 0.0).fold(f64::INFINITY, f64::min);
    let (own, top) = presses(site, carried, k);
    let (height, thickness) = (beam.length(), piece.thickness.mm());
    (width.is_finite() && height > 0.0).then_some(Column { height, width, thickness, own, top })
}

/// Thicknesses that are tried, mm more.
const THICKER: [f64; 4] = [1.0, 2.0, 3.0, 4.0];

/// The smallest thickness that brings a better class, in words; heavier by its own biscuit.
fn thicker(column: &Column, piece: &Piece, modulus: Range) -> Option<String> {
    let now = Class::of(share(column, modulus));
    THICKER.iter().find_map(|more| {
        let thickness = piece.thickness.mm() + more;
        let own = column.own * thickness / column.thickness;
        let then = share(&Column { thickness, own, ..*column }, modulus);
        let words = tr!("bake it {} mm thicker ({} then)", decimal(*more, 0), said(then));
        (Class::of(then) < now).then_some(words)
    })
}

/// What is said of every wall and post that stands alone, in air of a humidity, from 0 to 1, and of walls that other walls hold
/// if they are not sound.
pub(crate) fn buckles(site: &Site<'_>, humidity: f64) -> Vec<Told> {
    let carried = super::carried(site);
    let columns = (0..site.pieces().len()).filter_map(|k| column(site, &carried, k).map(|c| (k, c)));
    let mut all: Vec<Told> = columns.map(|(k, column)| of_column(site, humidity, k, &column)).collect();
    let held = (0..site.pieces().len()).filter_map(|k| of_held(site, humidity, &carried, k));
    all.extend(held.filter(|told| told.answer.class > Class::Sound));
    all
}

fn of_column(site: &Site<'_>, humidity: f64, k: usize, column: &Column) -> Told {
    let piece = &site.pieces()[k];
    let stuff = Stuff::of(site.notebook, &piece.dough);
    let share = share(column, stuff.at(humidity).stiffness);
    let reason = tr!(
        "nothing steadies it from the side; its weight and what rests on it ask {} of what makes it buckle",
        said(share)
    );
    let crisp = self::share(column, stuff.at(CRISP).stiffness);
    let thicker = || thicker(column, piece, stuff.at(humidity).stiffness);
    told(site, k, reason, [share, crisp], humidity, thicker)
}

fn of_held(site: &Site<'_>, humidity: f64, carried: &[Carried], k: usize) -> Option<Told> {
    let piece = &site.pieces()[k];
    if steadying(site, k).next().is_none() || !matches!(piece.role, Role::Wall(_)) {
        return None;
    }
    let roof = site.joints(k).filter(|(_, joint, _)| joint.kind == JointKind::Rake).map(|(_, joint, _)| joint);
    let lines: Vec<[P3; 2]> = steadying(site, k).chain(roof).map(|joint| joint.line).collect();
    let (own, top) = presses(site, carried, k);
    let stuff = Stuff::of(site.notebook, &piece.dough);
    let held = HeldWall::of(piece, &lines, own + top, stuff.narrowing.range.usual)?;
    let [share, crisp] = [humidity, CRISP].map(|air| held.share(stuff.at(air).stiffness));
    let reason = tr!(
        "walls beside it hold it, but wide apart; its weight and what rests on it ask {} of what makes it buckle between them",
        said(share)
    );
    Some(told(site, k, reason, [share, crisp], humidity, || None))
}

/// An answer with what helps: air that is dry, more thickness, a wall across.
fn told(
    site: &Site<'_>,
    k: usize,
    reason: String,
    [share, crisp]: [Range; 2],
    humidity: f64,
    thicker: impl Fn() -> Option<String>,
) -> Told {
    let class = Class::of(share);
    let remedy = match class {
        Class::Sound => String::new(),
        _ if humidity > CRISP && Class::of(crisp) < class => {
            tr!("keep it in air below {} % ({} then)", decimal(CRISP * 100.0, 0), said(crisp))
        }
        _ => thicker().unwrap_or_else(|| tr!("stand a wall across inside, iced to it").to_owned()),
    };
    let place = site.piece_spot(k, site.weights[k].biscuit.middle());
    let answer = Answer { class, number: share * 100.0, share, reason, place };
    Told { matter: Matter::Buckles, answer, unit: "%", remedy }
}
