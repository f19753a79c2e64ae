//! Outlines of extras: upright, standing on y = 0, symmetric to x = 0 where the thing is.

use gable_plane::P2;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;

/// Points of a round end.
const STEPS: usize = 16;

/// The outline of half a slotted fir: trunk and three tiers, with a slot to the middle of its height.
pub(super) fn tree(width: f64, height: f64, slot: f64, from_above: bool) -> Vec<P2> {
    let (half, notch) = (width / 2.0, slot / 2.0);
    // Shares of half the width and of the height, from the trunk up the right side.
    let side = [(0.16, 0.0), (0.16, 0.15), (1.0, 0.15), (0.52, 0.42), (0.76, 0.42), (0.36, 0.68), (0.52, 0.68)];
    let trunk = half * 0.16;
    let mut right: Vec<P2> = side.iter().map(|(x, y)| P2::new(half * x, height * y)).collect();
    if trunk < notch + 1.0 {
        // A trunk needs something on both sides of the slot.
        right[0].x = notch + 1.5;
        right[1].x = notch + 1.5;
    }
    let middle = height / 2.0;
    let last = right[right.len() - 1];
    let mut ring = Vec::new();
    if from_above {
        // The sides of the slot meet the slope of the upper tier.
        let top = last.y + (height - last.y) * (1.0 - notch / last.x).clamp(0.0, 1.0);
        right.extend([P2::new(notch, top), P2::new(notch, middle)]);
    } else {
        ring.push(P2::new(notch, middle));
        ring.push(P2::new(notch, 0.0));
        right.push(P2::new(0.0, height));
    }
    ring.extend(right.iter().copied());
    let mirrored = ring.iter().rev().filter(|p| p.x > 1e-9).map(|p| P2::new(-p.x, p.y));
    let all: Vec<P2> = ring.iter().copied().chain(mirrored).collect();
    all
}

/// A run of pales on a band.
pub(super) fn fence(length: f64, height: f64) -> Vec<P2> {
    let count = (length / (height * 0.36)).round().clamp(2.0, 400.0);
    let (pitch, band) = (length / count, height * 0.5);
    let pale = pitch * 0.62;
    let mut ring = vec![P2::new(-length / 2.0, 0.0), P2::new(length / 2.0, 0.0), P2::new(length / 2.0, band)];
    for k in (0..count as usize).rev() {
        let middle = -length / 2.0 + pitch * (k as f64 + 0.5);
        let (left, right) = (middle - pale / 2.0, middle + pale / 2.0);
        let shoulder = height - pale / 2.0;
        ring.extend([P2::new(right, band), P2::new(right, shoulder.max(band))]);
        ring.extend([P2::new(middle, height), P2::new(left, shoulder.max(band)), P2::new(left, band)]);
    }
    ring.push(P2::new(-length / 2.0, band));
    ring
}

/// A runner with its front bent up.
pub(super) fn runner(length: f64, height: f64) -> Vec<P2> {
    let half = length / 2.0;
    let bend = (length * 0.3).min(height * 1.4);
    let arc = |from: f64, rise: f64| {
        (0..=STEPS).map(move |k| {
            let angle = std::f64::consts::FRAC_PI_2 * k as f64 / STEPS as f64;
            P2::new(from + bend * angle.sin(), rise * (1.0 - angle.cos()))
        })
    };
    let mut ring = vec![P2::new(-half, 0.0)];
    ring.extend(arc(half - bend, height));
    ring.extend([P2::new(half - bend * 0.4, height), P2::new(-half, height)]);
    ring
}

/// A person: head, trunk, arms and legs as round-ended bars, joined; `None` when nothing of it is left.
pub(super) fn figure(width: f64, height: f64) -> Option<Vec<P2>> {
    let at = |x: f64, y: f64| P2::new(width * x, height * y);
    let bars = [
        (at(0.0, 0.84), at(0.0, 0.85), height * 0.145),
        (at(0.0, 0.42), at(0.0, 0.62), width * 0.2),
        (at(-0.37, 0.6), at(0.37, 0.6), height * 0.08),
        (at(-0.19, 0.1), at(-0.1, 0.42), height * 0.1),
        (at(0.19, 0.1), at(0.1, 0.42), height * 0.1),
    ];
    let shapes: Vec<Vec<[f64; 2]>> = bars.iter().map(|(a, b, r)| capsule(*a, *b, *r)).collect();
    let nothing: Vec<Vec<[f64; 2]>> = Vec::new();
    let joined = shapes.overlay_as::<i64>(&nothing, OverlayRule::Union, FillRule::NonZero);
    let rim = joined.into_iter().next()?.into_iter().next()?;
    let mut ring: Vec<P2> = rim.into_iter().map(P2::from).collect();
    if gable_plane::ring_area(&ring) < 0.0 {
        ring.reverse();
    }
    Some(ring)
}

/// Points round a bar with round ends, counter-clockwise.
fn capsule(a: P2, b: P2, radius: f64) -> Vec<[f64; 2]> {
    let along = (b - a).y.atan2((b - a).x);
    let arc = |middle: P2, start: f64| {
        (0..=STEPS).map(move |k| {
            let angle = start + std::f64::consts::PI * k as f64 / STEPS as f64;
            [middle.x + radius * angle.cos(), middle.y + radius * angle.sin()]
        })
    };
    let quarter = std::f64::consts::FRAC_PI_2;
    arc(b, along - quarter).chain(arc(a, along + quarter)).collect()
}
