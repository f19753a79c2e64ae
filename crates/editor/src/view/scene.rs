use super::camera::Camera;
use super::model::Model;
use crate::marks::Tone;
use gable_mesh::Theme;
use gable_plane::Rigid;
use std::sync::Arc;

/// Everything the picture is made from, for one frame. Plain data; the graphics driver is not in it.
#[derive(Clone, Debug)]
pub(crate) struct Scene {
    /// Number of the model: another number, another model.
    pub(crate) number: u64,
    /// Number of the cut that the model is of: another number, another cut; 0 for the whole house.
    pub(crate) cut: u64,
    /// The pieces.
    pub(crate) model: Arc<Model>,
    /// Where each piece is.
    pub(crate) pose: Arc<Vec<Rigid>>,
    /// Which pieces are selected.
    pub(crate) chosen: Vec<bool>,
    /// Which pieces are seen through.
    pub(crate) clear: Vec<bool>,
    /// Which pieces are left out; when any is, so is what is put on the house.
    pub(crate) hidden: Vec<bool>,
    /// The colour of each piece of which something is told; empty while nothing is.
    pub(crate) tones: Vec<Option<Tone>>,
    /// Whether it is evening: dusk outside, light in the windows.
    pub(crate) evening: bool,
    /// Whether icing is shown.
    pub(crate) icing: bool,
    /// Whether the house stands, so that ornaments are shown.
    pub(crate) standing: bool,
    /// Where the picture is taken from.
    pub(crate) camera: Camera,
    /// Light or dark.
    pub(crate) theme: Theme,
}

impl Scene {
    /// Whether a piece is seen through.
    pub(crate) fn is_clear(&self, piece: usize) -> bool {
        self.clear.get(piece).copied().unwrap_or(false)
    }
}
