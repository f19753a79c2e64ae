//! How a house comes apart into sections that are carried one by one.

use crate::{Site, Weight};
use gable_bake::Mass;
use gable_mesh::{Body, chunks_of};
use gable_plane::{P3, V3};
use gable_shell::{JointEnd, PartId, Place};

/// Shared by less than this, bodies pass each other, mm: what rounding leaves where they touch.
const FILM: f64 = 0.05;
/// Level directions in which a section is drawn away, round the compass; up comes first.
const ROUND: usize = 16;

/// Parts that stay together.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The part that stands on the board, and what stands on it.
    pub parts: Vec<PartId>,
    /// Name of the first.
    pub name: String,
    /// All of it, without icing.
    pub mass: Mass,
    /// The way in which it can be drawn off all others in a straight line, a unit direction in the house; nothing if there is none.
    pub way: Option<V3>,
    /// Joints with other sections, which are iced at the place: indices into [`gable_shell::Solved::joints`].
    pub seams: Vec<usize>,
}

/// The sections of a house: each part that stands on the board with what stands on it. Whether one comes away is told with all
/// others in place.
pub fn sections(site: &Site<'_>) -> Vec<Section> {
    let parts = &site.about.house.parts;
    let base = |id: &PartId| -> usize {
        let mut at = parts.iter().position(|p| &p.id == id).unwrap_or(0);
        for _ in 0..parts.len() {
            let host = match &parts[at].place {
                Place::OnSlope { host, .. } | Place::Astride { host, .. } | Place::OnTop { host, .. } => host,
                Place::Ground(_) | Place::Against { .. } => break,
            };
            at = parts.iter().position(|p| &p.id == host).unwrap_or(at);
        }
        at
    };
    let of_piece: Vec<usize> = site.pieces().iter().map(|p| base(&p.part)).collect();
    let bodies: Vec<Vec<Body>> =
        site.pieces().iter().map(|p| chunks_of(p).iter().map(|b| b.moved(&p.house_from_piece)).collect()).collect();
    let numbers: Vec<usize> = (0..parts.len()).filter(|n| of_piece.contains(n)).collect();
    let section = |number: usize| {
        let own = |k: usize| of_piece.get(k) == Some(&number);
        let all = || 0..of_piece.len();
        let ends = |j: &gable_shell::Joint| -> Vec<bool> {
            j.ends.iter().filter_map(|e| if let JointEnd::Piece(k) = e { Some(own(*k)) } else { None }).collect()
        };
        let seams = site.about.solved.joints.iter().enumerate();
        let seams =
            seams.filter(|(_, j)| ends(j).contains(&true) && ends(j).contains(&false)).map(|(k, _)| k).collect();
        let [mine, others] = [true, false]
            .map(|side| -> Vec<&Body> { all().filter(|&k| own(k) == side).flat_map(|k| &bodies[k]).collect() });
        Section {
            parts: parts.iter().filter(|p| base(&p.id) == number).map(|p| p.id.clone()).collect(),
            name: parts[number].name.clone(),
            mass: all().filter(|&k| own(k)).map(|k| Weight::done(&site.weights[k]).mass()).sum(),
            way: ways(&mine, &others).into_iter().find(|way| comes_away(&mine, &others, way)),
            seams,
        }
    };
    numbers.into_iter().map(section).collect()
}

fn comes_away(mine: &[&Body], others: &[&Body], way: &V3) -> bool {
    !mine.iter().any(|a| others.iter().any(|b| a.swept_meets(way, b, FILM)))
}

/// Directions to try: up, then level, the one straight away from the others first.
fn ways(mine: &[&Body], others: &[&Body]) -> Vec<V3> {
    let middle = |all: &[&Body]| {
        let sum: V3 = all.iter().map(|b| b.middle().coords).sum();
        P3::from(sum / all.len().max(1) as f64)
    };
    let away = middle(mine) - middle(others);
    let mut level: Vec<V3> = (0..ROUND)
        .map(|k| {
            let angle = std::f64::consts::TAU * k as f64 / ROUND as f64;
            V3::new(angle.cos(), angle.sin(), 0.0)
        })
        .collect();
    level.sort_by(|a, b| b.dot(&away).total_cmp(&a.dot(&away)));
    std::iter::once(V3::z()).chain(level).collect()
}
