//! What travels badly: what stands slender, what sticks out, what sits on a roof.

use crate::told::{Matter, Spot, Told, between, share as said};
use crate::weights::{Load, Weight};
use crate::{Answer, Class, Range, Site};
use gable_dress::OrnamentPiece;
use gable_measure::Length;
use gable_plane::P3;
use gable_shell::{Joint, JointEnd, Place};
use gable_words::tr;

/// How hard a car brakes or a hand sets down, in parts of gravity (from memory: hard braking on a dry road is about 0.8).
const JOLT: Range = Range { low: 0.3, usual: 0.5, high: 0.8 };
/// What reaches past the house by more than this is knocked off, mm (an assumption).
const OUT: f64 = 8.0;
/// What is thicker than this is not easily knocked off, mm (an assumption).
const STURDY: f64 = 5.0;

pub(super) fn told(site: &Site<'_>, cured: Range) -> Vec<Told> {
    let mut all = on_roofs(site, cured);
    all.extend(slender(site));
    all.extend(sticking_out(site));
    all
}

/// Parts that stand on roofs, jolted.
fn on_roofs(site: &Site<'_>, cured: Range) -> Vec<Told> {
    let parts = site.about.house.parts.iter();
    let on_roof =
        parts.filter(|p| matches!(p.place, Place::OnSlope { .. } | Place::Astride { .. } | Place::OnTop { .. }));
    on_roof.filter_map(|part| jolted(site, part, cured)).collect()
}

fn jolted(site: &Site<'_>, part: &gable_shell::Part, cured: Range) -> Option<Told> {
    let own = |k: usize| site.pieces().get(k).is_some_and(|p| p.part == part.id);
    let load: Load = (0..site.pieces().len()).filter(|k| own(*k)).map(|k| Weight::done(&site.weights[k])).sum();
    let middle = load.middle()?;
    let is_foot = |j: &&Joint| {
        let ends: Vec<bool> = j.ends.iter().map(|e| matches!(e, JointEnd::Piece(k) if own(*k))).collect();
        ends.contains(&true) && ends.contains(&false)
    };
    let foot: Vec<(f64, P3)> =
        site.about.solved.joints.iter().filter(is_foot).map(|j| (site.seat(j), middle_of(j))).collect();
    let force = load.newton();
    let stress = foot_stress(&foot, force, middle)?;
    let share = JOLT * stress / cured;
    let class = Class::of(share);
    let reason = tr!("a jolt on the way asks {} of what its cured joints hold", said(share));
    let remedy = match class {
        Class::Sound => String::new(),
        _ => tr!("carry it by itself and stick it on at the place").to_owned(),
    };
    let place = Spot { at: Some(middle), name: part.name.clone(), ..Spot::default() };
    let answer = Answer { class, number: Range::exactly(load.mass().g()), share, reason, place };
    Some(Told { matter: Matter::Travels, answer, unit: "g", remedy })
}

fn middle_of(joint: &Joint) -> P3 {
    nalgebra::center(&joint.line[0], &joint.line[1])
}

/// The stress in joints, each an area at a place, under a level force at a point: sheared evenly, and bent about their middle along the
/// weaker of two axes; nothing without area. A level force of 1 N gives stress by N.
pub(super) fn foot_stress(foot: &[(f64, P3)], force: f64, at: P3) -> Option<f64> {
    let area: f64 = foot.iter().map(|(a, _)| a).sum();
    if area <= 0.0 {
        return None;
    }
    let middle = foot.iter().map(|(a, p)| p.coords * *a).sum::<gable_plane::V3>() / area;
    let lever = (at.z - middle.z).max(0.0);
    let bent = |axis: usize| {
        let off = |p: &P3| (p[axis] - middle[axis]).abs();
        let stiff: f64 = foot.iter().map(|(a, p)| a * off(p).powi(2)).sum();
        let farthest = foot.iter().map(|(_, p)| off(p)).fold(0.0, f64::max);
        if stiff > 0.0 { force * lever * farthest / stiff } else { f64::INFINITY }
    };
    let worst = [bent(0), bent(1)].into_iter().filter(|s| s.is_finite()).fold(0.0, f64::max);
    Some(force / area + worst)
}

/// The box round some solids.
fn reach<'o>(all: impl Iterator<Item = &'o OrnamentPiece>) -> Option<(P3, P3)> {
    let corners = all.flat_map(OrnamentPiece::solids).flat_map(|s| s.corners().to_vec());
    corners.fold(None, |found: Option<(P3, P3)>, p| {
        let (low, high) = found.unwrap_or((p, p));
        Some((P3::from(low.coords.inf(&p.coords)), P3::from(high.coords.sup(&p.coords))))
    })
}

/// What stands free beside the house and falls over before it slides.
fn slender(site: &Site<'_>) -> Vec<Told> {
    let extras = &site.about.dressed.extras;
    let numbers: std::collections::BTreeSet<usize> = extras.iter().map(|e| e.ornament).collect();
    let mut falling: Vec<(Range, &str, P3)> = Vec::new();
    for number in numbers {
        let own = || extras.iter().filter(|e| e.ornament == number);
        let (Some((low, high)), Some(first)) = (reach(own()), own().next()) else { continue };
        let size = high - low;
        let half = size.x.min(size.y) / 2.0;
        // It tips when the jolt's share of its weight has the longer lever.
        let share = JOLT * (size.z / 2.0 / half.max(1e-9));
        if Class::of(share) == Class::Breaks {
            let own_name = first.name.split_once(": ").map_or(first.name.as_str(), |(_, own)| own);
            falling.push((share, own_name.split(',').next().unwrap_or(own_name), nalgebra::center(&low, &high)));
        }
    }
    falling.sort_by(|a, b| b.0.usual.total_cmp(&a.0.usual));
    let Some((share, _, at)) = falling.first() else { return Vec::new() };
    let names: std::collections::BTreeSet<&str> = falling.iter().map(|(_, name, _)| *name).collect();
    let names = names.into_iter().collect::<Vec<_>>().join(", ");
    let what = tr!("1 thing beside the house" | "{n} things beside the house" % falling.len());
    let place = Spot { at: Some(*at), name: what, ..Spot::default() };
    let jolt = between(JOLT * (1.0 / share.usual), "");
    let reason = tr!("so slender that a jolt of {jolt} of its weight tips it ({names})"
        | "so slender that a jolt of {jolt} of their weight tips them ({names})" % falling.len());
    let answer =
        Answer { class: Class::Care, number: Range::exactly(falling.len() as f64), share: *share, reason, place };
    let remedy = tr!("lay them in the box by themselves and stick them on at the place").to_owned();
    vec![Told { matter: Matter::Travels, answer, unit: "", remedy }]
}

/// Thin ornaments that reach past the house.
fn sticking_out(site: &Site<'_>) -> Option<Told> {
    let mut low = P3::from([f64::INFINITY; 3]);
    let mut high = P3::from([f64::NEG_INFINITY; 3]);
    for p in site.pieces().iter().flat_map(gable_shell::Piece::corners) {
        (low, high) = (P3::from(low.coords.inf(&p.coords)), P3::from(high.coords.sup(&p.coords)));
    }
    let by = |k: usize| {
        let own = &site.about.dressed.ornaments[k];
        let (a, b) = reach(std::iter::once(own))?;
        let out = [low.x - a.x, b.x - high.x, low.y - a.y, b.y - high.y, b.z - high.z].into_iter().fold(0.0, f64::max);
        (out > OUT && own.thickness.mm() < STURDY).then_some((out, own, nalgebra::center(&a, &b)))
    };
    let mut out: Vec<_> = (0..site.about.dressed.ornaments.len()).filter_map(by).collect();
    out.sort_by(|a, b| b.0.total_cmp(&a.0));
    let (most, first, at) = out.first()?;
    let print = site.about.solved.unit.print(Length::mm_of(*most));
    let more = if out.len() > 1 { tr!(" and {} more", out.len() - 1) } else { String::new() };
    let place = Spot { at: Some(*at), piece: first.host, name: format!("{}{more}", first.name), ..Spot::default() };
    let reason = tr!("reaches up to {print} past the house");
    let share = Range::exactly(most / OUT);
    let answer = Answer { class: Class::Care, number: Range::exactly(*most), share, reason, place };
    Some(Told { matter: Matter::Travels, answer, unit: "mm", remedy: tr!("stick it on at the place").to_owned() })
}
