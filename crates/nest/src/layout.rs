use crate::Job;
use gable_plane::{P2, ring_area};
use nalgebra::Isometry2;

/// Where every piece lies.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Layout {
    /// The sheets that something lies on.
    pub sheets: Vec<Filled>,
}

/// A sheet with what lies on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Filled {
    /// Index into the job's sheets.
    pub sheet: usize,
    /// The pieces on it, in the job's order.
    pub placed: Vec<Placed>,
}

/// A piece in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Index into the job's items.
    pub item: usize,
    /// Takes the item's coordinates to the sheet's.
    pub sheet_from_item: Isometry2<f64>,
}

impl Placed {
    /// The outline of the piece where it lies, mm.
    pub fn outline(&self, job: &Job) -> Vec<P2> {
        job.items()[self.item].outline().iter().map(|p| self.sheet_from_item * p).collect()
    }
}

impl Layout {
    /// Number of sheets that are not free.
    pub fn sheets_paid(&self, job: &Job) -> usize {
        self.sheets.iter().filter(|f| job.sheets()[f.sheet].at_most.is_none()).count()
    }

    /// Share of the used sheets that pieces cover.
    pub fn density(&self, job: &Job) -> f64 {
        let area = |ring: &[P2]| ring_area(ring).abs();
        let sheets: f64 = self.sheets.iter().map(|f| area(&job.sheets()[f.sheet].outline)).sum();
        let placed = self.sheets.iter().flat_map(|f| &f.placed);
        let covered: f64 = placed.map(|p| area(job.items()[p.item].outline())).sum();
        if sheets > 0.0 { covered / sheets } else { 0.0 }
    }
}
