use crate::overlap;
use crate::pose::Pose;
use crate::shape::engine;
use crate::weights::Weights;
use crate::{Filled, Job, Layout};
use jagua_rs::collision_detection::CDEngine;
use jagua_rs::collision_detection::hazards::collector::BasicHazardCollector;
use jagua_rs::collision_detection::hazards::filter::HazardFilter;
use jagua_rs::collision_detection::hazards::{HazKey, Hazard, HazardEntity};
use jagua_rs::geometry::geo_enums::GeoPosition;
use jagua_rs::geometry::primitives::SPolygon;
use std::sync::Arc;

/// What can be in the way on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum Thing {
    /// Everything beyond the rim.
    Rim,
    /// A piece, by its index in the job.
    Piece(usize),
}

impl HazardEntity for Thing {
    fn scope(&self) -> GeoPosition {
        match self {
            Self::Rim => GeoPosition::Exterior,
            Self::Piece(_) => GeoPosition::Interior,
        }
    }

    fn is_dynamic(&self) -> bool {
        matches!(self, Self::Piece(_))
    }
}

/// Leaves out a piece itself.
struct Others(usize);

impl HazardFilter<Thing> for Others {
    fn is_irrelevant(&self, _: HazKey, thing: &Thing) -> bool {
        *thing == Thing::Piece(self.0)
    }
}

/// A sheet in use.
#[derive(Clone)]
struct Board {
    engine: CDEngine<Thing>,
    outer: Arc<SPolygon>,
    sheet: usize,
}

/// Where a piece lies: on which board, and how.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    pub(crate) board: usize,
    pub(crate) pose: Pose,
}

/// Sheets with pieces on them that may overlap; the search moves them till none does.
#[derive(Clone)]
pub(crate) struct Arena {
    boards: Vec<Board>,
    spots: Vec<Option<(Spot, Arc<SPolygon>)>>,
}

impl Arena {
    /// Empty sheets.
    pub(crate) fn new(job: &Job, sheets: &[usize]) -> Self {
        let mut arena = Self { boards: Vec::new(), spots: vec![None; job.items().len()] };
        for &sheet in sheets {
            arena.open(sheet, job.outers[sheet].polygon.clone());
        }
        arena
    }

    /// Adds an empty sheet.
    pub(crate) fn open(&mut self, sheet: usize, outer: Arc<SPolygon>) {
        let rim = Hazard::new(Thing::Rim, outer.clone());
        let engine = CDEngine::new(outer.bbox().inflate_to_square(), vec![rim], engine());
        self.boards.push(Board { engine, outer, sheet });
    }

    /// Gives a board another outline; pieces stay where they are.
    pub(crate) fn reshape(&mut self, board: usize, outer: Arc<SPolygon>) {
        let on_it: Vec<usize> = self.on(board).map(|(item, _)| item).collect();
        let kept: Vec<_> = on_it.iter().filter_map(|&item| Some((item, self.spots[item].clone()?))).collect();
        let sheet = self.boards[board].sheet;
        let rim = Hazard::new(Thing::Rim, outer.clone());
        let engine = CDEngine::new(outer.bbox().inflate_to_square(), vec![rim], engine());
        self.boards[board] = Board { engine, outer, sheet };
        for (item, (spot, shape)) in kept {
            self.put_shape(item, spot, shape);
        }
    }

    pub(crate) fn boards(&self) -> usize {
        self.boards.len()
    }

    pub(crate) fn sheet(&self, board: usize) -> usize {
        self.boards[board].sheet
    }

    pub(crate) fn outer(&self, board: usize) -> &SPolygon {
        &self.boards[board].outer
    }

    pub(crate) fn spot(&self, item: usize) -> Option<Spot> {
        self.spots[item].as_ref().map(|s| s.0)
    }

    pub(crate) fn shape(&self, item: usize) -> Option<&SPolygon> {
        self.spots[item].as_ref().map(|s| s.1.as_ref())
    }

    pub(crate) fn on(&self, board: usize) -> impl Iterator<Item = (usize, Spot)> + '_ {
        let spots = self.spots.iter().enumerate();
        spots.filter_map(move |(k, s)| s.as_ref().map(|s| (k, s.0)).filter(|(_, s)| s.board == board))
    }

    pub(crate) fn put(&mut self, job: &Job, item: usize, spot: Spot) {
        self.take(item);
        self.put_shape(item, spot, Arc::new(job.shapes[item].laid(spot.pose)));
    }

    fn put_shape(&mut self, item: usize, spot: Spot, shape: Arc<SPolygon>) {
        self.boards[spot.board].engine.register_hazard(Hazard::new(Thing::Piece(item), shape.clone()));
        self.spots[item] = Some((spot, shape));
    }

    pub(crate) fn take(&mut self, item: usize) {
        if let Some((spot, _)) = self.spots[item].take() {
            self.boards[spot.board].engine.deregister_hazard_by_entity(Thing::Piece(item));
        }
    }

    /// Whether a shape of a piece would lie free on a board.
    pub(crate) fn is_free(&self, item: usize, shape: &SPolygon, board: usize) -> bool {
        !self.boards[board].engine.detect_poly_collision(shape, &Others(item))
    }

    /// Weighted overlap of a shape of a piece on a board with all that is in its way; stops adding above `bound`.
    pub(crate) fn loss(&self, job: &Job, weights: &Weights, at: (usize, usize), shape: &SPolygon, bound: f32) -> f32 {
        let (item, board) = at;
        let mut sum = 0.0;
        let mut found = BasicHazardCollector::new();
        let add = |thing: Thing| {
            sum += self.overlap(job, item, shape, thing, board) * weights.get(item, other(thing));
            sum > bound
        };
        let engine = &self.boards[board].engine;
        let mut add = add;
        if !engine.collect_surrogate_collisions_until(shape, &Others(item), &mut found, &mut add) {
            let _ = engine.collect_poly_collisions_until(shape, &Others(item), &mut found, &mut add);
        }
        sum
    }

    fn overlap(&self, job: &Job, item: usize, shape: &SPolygon, thing: Thing, board: usize) -> f32 {
        let weight = job.shapes[item].weight;
        match thing {
            Thing::Rim => overlap::beyond(shape, &self.boards[board].outer) * weight,
            Thing::Piece(other) => {
                let size = (weight * job.shapes[other].weight).sqrt();
                self.shape(other).map_or(0.0, |s| overlap::of_two(shape, s) * size)
            }
        }
    }

    /// Every overlap there is, each pair once.
    pub(crate) fn overlaps(&self, job: &Job) -> Vec<(usize, Option<usize>, f32)> {
        let mut all = Vec::new();
        for item in 0..self.spots.len() {
            all.extend(self.overlaps_of(job, item).into_iter().filter(|o| o.1.is_none_or(|other| other > item)));
        }
        all
    }

    /// The overlaps of one piece.
    pub(crate) fn overlaps_of(&self, job: &Job, item: usize) -> Vec<(usize, Option<usize>, f32)> {
        let Some((spot, shape)) = &self.spots[item] else { return Vec::new() };
        let mut found = BasicHazardCollector::new();
        self.boards[spot.board].engine.collect_poly_collisions(shape, &Others(item), &mut found);
        let mut things: Vec<Option<usize>> = found.iter().map(|(_, thing)| other(*thing)).collect();
        things.sort_unstable();
        let thing = |o: Option<usize>| o.map_or(Thing::Rim, Thing::Piece);
        things.into_iter().map(|o| (item, o, self.overlap(job, item, shape, thing(o), spot.board))).collect()
    }

    /// The layout, in double precision.
    pub(crate) fn layout(&self, job: &Job) -> Layout {
        let filled = |board: usize| Filled {
            sheet: self.boards[board].sheet,
            placed: self.on(board).map(|(item, spot)| job.shapes[item].placed(item, spot.pose)).collect(),
        };
        let sheets = (0..self.boards.len()).map(filled).filter(|f| !f.placed.is_empty());
        Layout { sheets: sheets.collect() }
    }
}

fn other(thing: Thing) -> Option<usize> {
    match thing {
        Thing::Rim => None,
        Thing::Piece(item) => Some(item),
    }
}
