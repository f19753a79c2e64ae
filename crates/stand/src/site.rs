//! A house with its weights and stages, as every question about it needs it.

use crate::told::Spot;
use crate::weights::{Weight, weights};
use gable_bake::{About, Figure, Notebook};
use gable_plane::{P3, V3};
use gable_raise::{Prop, Stage};
use gable_shell::{Joint, JointEnd, JointKind, Piece};

/// A house as it is asked about.
#[derive(Debug)]
pub struct Site<'a> {
    /// The house, solved and dressed, with its order of assembly.
    pub about: About<'a>,
    /// What its baker has written down.
    pub notebook: &'a Notebook,
    /// What every piece weighs.
    pub weights: Vec<Weight>,
    /// Per piece when it is raised: stage and place within the stage; nothing without an order of assembly.
    pub(crate) when: Vec<Option<(usize, usize)>>,
    /// Per piece its joints.
    joints: Vec<Vec<usize>>,
}

impl<'a> Site<'a> {
    /// Weighs a house and finds its way round it.
    pub fn new(about: About<'a>, notebook: &'a Notebook) -> Self {
        let count = about.solved.pieces.len();
        let mut joints = vec![Vec::new(); count];
        for (j, joint) in about.solved.joints.iter().enumerate() {
            for end in &joint.ends {
                if let JointEnd::Piece(k) = end
                    && let Some(own) = joints.get_mut(*k)
                {
                    own.push(j);
                }
            }
        }
        let mut when = vec![None; count];
        for (k, stage) in about.guide.into_iter().flat_map(|g| &g.stages).enumerate() {
            for (n, step) in stage.steps.iter().enumerate() {
                if let Some(own) = when.get_mut(step.piece) {
                    *own = Some((k, n));
                }
            }
        }
        Self { weights: weights(&about, notebook), about, notebook, when, joints }
    }

    pub(crate) fn pieces(&self) -> &'a [Piece] {
        &self.about.solved.pieces
    }

    pub(crate) fn stages(&self) -> &'a [Stage] {
        self.about.guide.map_or(&[], |g| &g.stages)
    }

    /// The props of a piece, with the number of its stage.
    pub(crate) fn props(&self, piece: usize) -> impl Iterator<Item = &'a Prop> {
        self.stages().iter().flat_map(|s| &s.props).filter(move |p| p.piece == piece)
    }

    /// The joints of a piece: index, joint, and the piece at the other end unless it is the base board.
    pub(crate) fn joints(&self, piece: usize) -> impl Iterator<Item = (usize, &'a Joint, Option<usize>)> + '_ {
        self.joints.get(piece).into_iter().flatten().map(move |&j| {
            let joint = &self.about.solved.joints[j];
            let other = joint.ends.iter().find_map(|e| match e {
                JointEnd::Piece(k) if *k != piece => Some(*k),
                _ => None,
            });
            (j, joint, other)
        })
    }

    /// Whether a piece has set before another is raised: it came in an earlier stage.
    pub(crate) fn has_set(&self, piece: usize, before: usize) -> bool {
        matches!((self.when[piece], self.when[before]), (Some((a, _)), Some((b, _))) if a < b)
    }

    /// Whether a piece stands already when another is raised.
    pub(crate) fn stands(&self, piece: usize, before: usize) -> bool {
        matches!((self.when[piece], self.when[before]), (Some(a), Some(b)) if a < b)
    }

    /// Area on which the two sides of a joint are stuck together, mm²: as wide as the thinner piece, or as far as the bead is
    /// pressed out in the gap, if that is less.
    pub(crate) fn seat(&self, joint: &Joint) -> f64 {
        let length = (joint.line[1] - joint.line[0]).norm();
        let ends = || {
            joint.ends.iter().filter_map(|e| if let JointEnd::Piece(k) = e { Some(&self.pieces()[*k]) } else { None })
        };
        let thickness = ends().map(|p| p.thickness.mm()).fold(f64::INFINITY, f64::min);
        if joint.kind == JointKind::Layer {
            // Plates that lie on each other, iced all over: as deep as the smaller one.
            return ends().map(gable_bake::piece_area).fold(f64::INFINITY, f64::min).max(length * thickness);
        }
        length * thickness.min(self.pressed(joint.gap.mm()))
    }

    /// How wide a bead becomes when it is pressed into a gap, mm: its round becomes a strip of the same area.
    pub(crate) fn pressed(&self, gap: f64) -> f64 {
        let bead = self.notebook.figures.get(Figure::Bead);
        if gap > 0.0 { std::f64::consts::PI / 4.0 * bead * bead / gap } else { f64::INFINITY }
    }

    pub(crate) fn piece_spot(&self, piece: usize, at: Option<P3>) -> Spot {
        Spot { piece: Some(piece), joint: None, at, name: self.pieces()[piece].name.clone() }
    }

    /// The way down a sloping piece, as long as the sine of its pitch; nothing where it lies level.
    pub(crate) fn downhill(&self, piece: usize) -> V3 {
        let out = self.pieces()[piece].house_from_piece * V3::z();
        out * out.z - V3::z()
    }
}
