//! What every piece weighs: its biscuit, and what is put on it before and after it stands.

use crate::stuff::GRAVITY;
use gable_bake::{About, Figure, Mass, Notebook, piece_area};
use gable_plane::{P2, P3, Rigid, V3, ring_area, ring_centroid};
use gable_shell::{Glass, Piece, Stuff};

/// Openings are flattened this fine where only weight matters, mm.
const ROUGH: f64 = 0.2;

/// Masses with the point where their weight acts, in the house.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Load {
    grams: f64,
    moment: V3,
}

impl Load {
    /// So many grams at a point.
    pub fn at(grams: f64, point: P3) -> Self {
        Self { grams, moment: point.coords * grams }
    }

    /// How much.
    pub fn mass(&self) -> Mass {
        Mass::grams(self.grams)
    }

    /// Its weight, N.
    pub fn newton(&self) -> f64 {
        self.grams * GRAVITY / 1000.0
    }

    /// Where it acts; nothing without mass.
    pub fn middle(&self) -> Option<P3> {
        (self.grams > 0.0).then(|| P3::from(self.moment / self.grams))
    }

    /// Both together.
    pub fn with(self, other: Self) -> Self {
        Self { grams: self.grams + other.grams, moment: self.moment + other.moment }
    }
}

impl std::iter::Sum for Load {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), Self::with)
    }
}

/// What one piece weighs.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Weight {
    /// Its biscuit.
    pub biscuit: Load,
    /// What is on it when it is raised: panes, bars, finishes of walls, ornaments at openings.
    pub flat: Load,
    /// What is put on it when it stands: finishes of roofs, doors, other ornaments, snow.
    pub later: Load,
}

impl Weight {
    /// When it is raised.
    pub fn raised(&self) -> Load {
        self.biscuit.with(self.flat)
    }

    /// When the house is done.
    pub fn done(&self) -> Load {
        self.raised().with(self.later)
    }
}

/// What every piece weighs, in the order of the pieces.
///
/// Biscuit weighs what its dough weighs less what it loses in the oven, so that how far it rises does not matter. What is put
/// on when is as in guide and timetable: walls are decorated while they lie flat, roofs when they stand.
pub fn weights(about: &About<'_>, notebook: &Notebook) -> Vec<Weight> {
    let of_dough = notebook.figures.get(Figure::DoughDensity) * (1.0 - notebook.expected_loss()) / 1000.0;
    let pieces = &about.solved.pieces;
    let mut all: Vec<Weight> =
        pieces.iter().map(|p| Weight { biscuit: biscuit(p, of_dough), ..Weight::default() }).collect();
    let mut add = |piece: usize, flat: bool, load: Load| {
        if let Some(own) = all.get_mut(piece) {
            let side = if flat { &mut own.flat } else { &mut own.later };
            *side = side.with(load);
        }
    };
    let line = std::f64::consts::PI / 4.0 * notebook.figures.get(Figure::PipedLine).powi(2);
    let icing = notebook.figures.get(Figure::IcingDensity) / 1000.0;
    for face in &about.dressed.finishes {
        let Some(piece) = pieces.get(face.piece) else { continue };
        let mass = face.tally.mass + face.tally.piping.mm() * line * icing;
        let at = place(&piece.house_from_piece, middle_of(&face.area), face.z.mm());
        add(face.piece, face.is_flat_work(about.house, about.solved), Load::at(mass, at));
    }
    for own in &about.dressed.ornaments {
        let flat = own.is_flat_work(about.house);
        let at = place(&own.house_from_piece, ring_centroid(&own.outline), own.thickness.mm() / 2.0);
        own.host.into_iter().for_each(|host| add(host, flat, Load::at(own.mass(), at)));
    }
    for pane in &about.dressed.panes {
        let density = if pane.glass == Glass::Leaf { LEAF } else { Stuff::Sweets.density() };
        let thickness = pane.thickness.mm();
        let at = place(&pane.house_from_pane, ring_centroid(&pane.outline.flatten(ROUGH)), thickness / 2.0);
        add(pane.piece, true, Load::at(pane.outline.area() * thickness * density / 1000.0, at));
    }
    for door in &about.dressed.doors {
        let at = place(&door.house_from_door, ring_centroid(&door.outline.flatten(ROUGH)), door.thickness.mm() / 2.0);
        add(door.piece, false, Load::at(door.outline.area() * door.rolled.mm() * of_dough, at));
    }
    all
}

/// Mass of a cubic millimetre of gelatine, mg (from memory, as the thickness of leaves was derived).
const LEAF: f64 = 1.3;

fn biscuit(piece: &Piece, of_dough: f64) -> Load {
    let at = place(&piece.house_from_piece, centroid(piece), piece.thickness.mm() / 2.0);
    Load::at(piece_area(piece) * piece.rolled.mm() * of_dough, at)
}

/// Where the weight of a piece acts, in its plane.
pub(crate) fn centroid(piece: &Piece) -> P2 {
    let holes = through(piece).map(|ring| ring.into_iter().rev().collect());
    middle_of(&std::iter::once(piece.outline.clone()).chain(holes).collect::<Vec<_>>())
}

/// The openings that go through a piece inside its outline, counter-clockwise.
pub(crate) fn through(piece: &Piece) -> impl Iterator<Item = Vec<P2>> + '_ {
    piece.openings.iter().filter(|o| o.mode.goes_through()).map(|o| o.contour.flatten(ROUGH))
}

/// The centre of area of rims and, running the other way, holes.
fn middle_of(rings: &[Vec<P2>]) -> P2 {
    let add = |(area, sum): (f64, gable_plane::V2), ring: &Vec<P2>| {
        let own = ring_area(ring);
        (area + own, sum + ring_centroid(ring).coords * own)
    };
    let (area, sum) = rings.iter().fold((0.0, gable_plane::V2::zeros()), add);
    if area.abs() > f64::EPSILON {
        P2::from(sum / area)
    } else {
        rings.first().map_or_else(P2::origin, |r| ring_centroid(r))
    }
}

fn place(house_from: &Rigid, p: P2, z: f64) -> P3 {
    house_from * P3::new(p.x, p.y, z)
}
