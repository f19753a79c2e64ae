//! What a baked piece really looks like.

use super::apart::{self, Rings, SAME};
use super::ease::Eases;
use super::fitted;
use crate::solve::plain;
use crate::solve::settle::height_of;
use crate::{Batch, CutPiece, House, Mode, OpeningId, PartId, Piece, PieceId, PieceOpening, Solved};
use gable_plane::{Contour, P2, V2};
use gable_words::tr;
use std::collections::BTreeMap;

/// Arcs are flattened within this, mm: well below what counts as a difference.
const FLATNESS: f64 = 0.01;

/// A baked piece, in coordinates of its own.
#[derive(Clone)]
pub(super) struct Shape {
    pub(super) outline: Vec<P2>,
    pub(super) back: Vec<P2>,
    openings: Openings,
    /// Openings that have become part of the outline.
    notches: Vec<PieceOpening>,
    /// How thick it was meant to be, mm: bevels go on through what is thicker.
    pub(super) thickness: f64,
    /// How high the walls of its part are where it was worked out, mm.
    pub(super) walls: f64,
}

#[derive(Clone)]
enum Openings {
    Planned(Vec<PieceOpening>),
    Cut(Vec<Vec<P2>>),
}

impl Shape {
    fn cut(cut: &CutPiece, plan: &Solved, walls: f64) -> Self {
        let planned = plan.pieces.iter().find(|p| p.id == cut.piece);
        let back = cut.back.as_ref().unwrap_or(&cut.outline).clone();
        let openings = Openings::Cut(cut.openings.clone());
        let notches = planned.map(|p| p.notches.clone()).unwrap_or_default();
        let thickness = planned.map_or(0.0, |p| p.thickness.mm());
        Self { outline: cut.outline.clone(), back, openings, notches, thickness, walls }
    }

    fn of(piece: &Piece, walls: f64) -> Self {
        let (outline, back) = (piece.outline.clone(), piece.outline_back.clone());
        let openings = Openings::Planned(piece.openings.clone());
        let (notches, thickness) = (piece.notches.clone(), piece.thickness.mm());
        Self { outline, back, openings, notches, thickness, walls }
    }

    /// The rings of it.
    pub(super) fn rings(&self) -> Rings {
        let openings = match &self.openings {
            Openings::Planned(openings) => openings.iter().map(|o| o.contour.flatten(FLATNESS)).collect(),
            Openings::Cut(rings) => rings.clone(),
        };
        Rings { outline: self.outline.clone(), openings }
    }

    /// Whether its openings are those of an older plan.
    pub(super) fn is_older(&self) -> bool {
        matches!(self.openings, Openings::Cut(_))
    }

    /// It, so much farther on.
    pub(super) fn moved(&self, by: V2) -> Self {
        let ring = |ring: &[P2]| ring.iter().map(|p| p + by).collect::<Vec<_>>();
        let moved = |o: &PieceOpening| PieceOpening { contour: o.contour.mapped(false, |p| p + by), ..o.clone() };
        let openings = match &self.openings {
            Openings::Planned(openings) => Openings::Planned(openings.iter().map(moved).collect()),
            Openings::Cut(rings) => Openings::Cut(rings.iter().map(|r| ring(r)).collect()),
        };
        let (outline, back) = (ring(&self.outline), ring(&self.back));
        Self { outline, back, openings, notches: self.notches.iter().map(moved).collect(), ..*self }
    }

    /// It, so thick: its bevels keep their angles.
    pub(super) fn thick(&self, thickness: f64) -> Self {
        let share = if self.thickness > 0.0 { thickness / self.thickness } else { 1.0 };
        let back = self.outline.iter().zip(&self.back).map(|(front, back)| front + (back - front) * share).collect();
        Self { back, thickness, ..self.clone() }
    }

    /// Gives a piece this shape; its edges are no edges of joints until somebody says so.
    pub(super) fn put(self, piece: &mut Piece) {
        piece.openings = match self.openings {
            Openings::Planned(openings) => openings,
            Openings::Cut(rings) => rings.iter().map(|ring| opening(piece, ring)).collect(),
        };
        (piece.outline, piece.outline_back, piece.notches) = (self.outline, self.back, self.notches);
    }
}

/// The opening of a ring: that of the plan if it is the same, else one that the plan does not know.
fn opening(piece: &Piece, ring: &[P2]) -> PieceOpening {
    let same = piece.openings.iter().find(|o| apart::ring_apart(&o.contour.flatten(FLATNESS), ring) < SAME);
    same.cloned().unwrap_or_else(|| PieceOpening {
        id: OpeningId("as-baked".to_owned()),
        copy: 0,
        name: tr!("Opening as baked").to_owned(),
        contour: Contour::polygon(ring),
        mode: Mode::Cut,
    })
}

/// What every baked piece of a house looks like, as far as it is known: as it was cut where the plan is another by now,
/// as its walls were measured, else as planned.
pub(super) fn shapes(house: &House, plan: &Solved) -> BTreeMap<PieceId, Shape> {
    let mut found = BTreeMap::new();
    for baked in &house.baked {
        let walls = house.part(&baked.part).and_then(height_of).map_or(0.0, gable_measure::Length::mm);
        let own = |p: &&Piece| p.part == baked.part && house.is_baked(&p.part, &p.role, &p.id);
        let of_batch = |p: &&Piece| Batch::of(&p.role) == Some(baked.batch);
        let planned = plan.pieces.iter().filter(own).filter(of_batch);
        found.extend(planned.map(|p| (p.id.clone(), Shape::of(p, walls))));
        let is_measured = baked.width.is_some() || baked.depth.is_some() || baked.height.is_some();
        if is_measured && baked.batch == Batch::Walls {
            let (alone, walls) = measured_alone(house, &baked.part);
            let measured = alone.pieces.iter().filter(own).filter(of_batch);
            found.extend(measured.map(|p| (p.id.clone(), Shape::of(p, walls))));
        }
        let other = baked.cut.iter().filter(|cut| apart::from_cut(plan, cut) > SAME);
        found.extend(other.map(|cut| (cut.piece.clone(), Shape::cut(cut, plan, walls))));
    }
    found
}

/// The house with nothing baked but the walls of one part: what was measured of them says what they are. Also how high
/// those walls are.
fn measured_alone(house: &House, part: &PartId) -> (Solved, f64) {
    let mut only = house.clone();
    only.baked.retain(|b| &b.part == part && b.batch == Batch::Walls);
    let (fitted, _) = fitted(&only, &Eases::new());
    let walls = fitted.part(part).and_then(height_of).map_or(0.0, gable_measure::Length::mm);
    (plain(&fitted, Vec::new()), walls)
}
