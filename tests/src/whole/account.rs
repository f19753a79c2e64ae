//! Shell = biscuit + icing, part by part.

use super::{Whole, box_of, boxes_apart};
use crate::body::Body;
use crate::hull::{Hull, Plane, Tag};
use crate::judge::account::{SHARE, bare_ends, under_doors};
use crate::judge::{Case, Check, Fault};
use gable_plane::P3;
use manifold_rust::manifold::Manifold;

/// Less shell than this is none, mm³: a drop of icing.
const NO_SHELL: f64 = 50.0;
/// Volume that may be missing or too much in any part, mm³: rounding of a solid library, a grain of icing.
const GRAIN: f64 = 2.0;
/// Longer than any wall is thick, mm.
const THROUGH: f64 = 40.0;
/// Films thinner than this are rounding when holes are looked for, mm.
const FILM: f64 = 0.005;
/// Holes with no more corners than this are told corner by corner.
const MANY: usize = 48;
/// Biscuit that a part may have inside another, mm³.
const INSIDE: f64 = 1.0;

impl Whole<'_> {
    /// The shell of each part against the biscuit and icing in it, and biscuit where no part may have any.
    ///
    /// The shell of a part lies between its outer envelope (outer wall planes, upper faces of the roof, foot) and its inner
    /// one (inner wall planes, undersides of the roof raised by the gap, upper face of the floor). What is inside the
    /// outer envelope of a part that stays whole against it is no shell of it; of an obstacle with a side that nothing
    /// closes, only what is in its shell. The shells of all parts so reduced do not overlap. In each of them the volumes of
    /// all pieces and all icing, whosever they are, are summed: an obstacle's overhang that does not yield counts, and so does
    /// a chimney's foot in an open ridge. Doors and windows are walled up, and left out where a guest cuts into them. Overhangs, parapets and what is deeper than the foot of a part count for nothing.
    pub(super) fn account(&self) -> Vec<Fault> {
        let obstacles: Vec<Manifold> = (0..self.parts.len()).map(|k| self.obstacle(k)).collect();
        let parts = 0..self.parts.len();
        let shell = |k: usize| self.shell_of(k, &obstacles).filter(|_| !self.is_hidden(k));
        parts.flat_map(|k| shell(k).into_iter().chain(self.inside_of(k))).collect()
    }

    /// Parts with too little biscuit and icing whose shell is rightly said to be hidden in others: they are no faults.
    pub fn hidden(&self) -> Vec<Fault> {
        let obstacles: Vec<Manifold> = (0..self.parts.len()).map(|k| self.obstacle(k)).collect();
        let hidden = (0..self.parts.len()).filter(|&k| self.is_hidden(k));
        hidden.filter_map(|k| self.shell_of(k, &obstacles)).collect()
    }

    /// The shell of a part that no obstacle takes.
    fn shell(&self, part: usize, obstacles: &[Manifold]) -> Manifold {
        let envelope = &self.parts[part].envelope;
        let room = self.box_of_part(part);
        let near = self.obstacles(part).filter(|&k| !boxes_apart(room, self.box_of_part(k)));
        let whole = envelope.outer.solid().difference(&envelope.inner.solid());
        let shell = near.fold(whole, |shell, k| shell.difference(&obstacles[k]));
        self.lost_openings(part).iter().fold(shell, |shell, opening| shell.difference(opening))
    }

    fn shell_of(&self, part: usize, obstacles: &[Manifold]) -> Option<Fault> {
        let room = self.box_of_part(part);
        let shell = self.shell(part, obstacles);
        let volume = shell.volume();
        if volume < NO_SHELL {
            return None;
        }
        let within = |body: &Body| {
            let apart = boxes_apart(room, (body.low, body.high));
            if apart { 0.0 } else { body.solid().intersection(&shell).volume() }
        };
        let biscuit: f64 = self.case.bodies.iter().map(within).sum();
        let icing: f64 = self.case.icing.iter().map(|(_, body)| within(body)).sum();
        let share = (biscuit + icing) / volume - 1.0;
        let most = SHARE + GRAIN / volume;
        (share > most || share < -most - self.missing(part, &shell) / volume || !share.is_finite()).then(|| {
            let name = &self.parts[part].part.id.0;
            let what =
                format!("{name}: shell {volume:.1} mm³, biscuit {biscuit:.1}, icing {icing:.1}; difference as a share");
            Case::fault(Check::Account, what, share)
        })
    }

    /// What nothing fills, mm³: free ends of walls that are cut square, gaps under doors, and passages, which may be as large
    /// as the inside of the guest.
    fn missing(&self, part: usize, shell: &Manifold) -> f64 {
        let standing = &self.parts[part];
        let passages = self.passages(part).map(|k| shell.intersection(&self.way_in(k)).volume());
        let own = bare_ends(&standing.envelope, &self.open_sides(part))
            + under_doors(standing.part, &standing.envelope.sizes);
        own + passages.sum::<f64>()
    }

    /// The largest holes in the shell of each part: volume in mm³ and the box round them, for whoever looks for the reason.
    pub fn holes(&self, at_least: f64) -> Vec<String> {
        let obstacles: Vec<Manifold> = (0..self.parts.len()).map(|k| self.obstacle(k)).collect();
        let mut found = Vec::new();
        for (part, standing) in self.parts.iter().enumerate() {
            let room = self.box_of_part(part);
            let icing = self.case.icing.iter().map(|(_, body)| body);
            let near = self.case.bodies.iter().chain(icing).filter(|b| !boxes_apart(room, (b.low, b.high)));
            let rest = near.fold(self.shell(part, &obstacles), |rest, body| rest.difference(&body.grown(FILM)));
            for hole in rest.decompose().iter().filter(|hole| hole.volume() > at_least) {
                let (low, high) = (hole.bounding_box().min, hole.bounding_box().max);
                let mesh = hole.get_mesh_gl64(0);
                let count = mesh.num_prop.max(3) as usize;
                let at = |v: &[f64]| format!("{:.1} {:.1} {:.1}", v[0], v[1], v[2]);
                let mut corners: Vec<String> = mesh.vert_properties.chunks_exact(count).map(at).collect();
                corners.sort_unstable();
                corners.dedup();
                let all = if corners.len() <= MANY { format!(": {}", corners.join(", ")) } else { String::new() };
                found.push(format!(
                    "{}: {:.1} mm³ in {:.1} {:.1} {:.1} to {:.1} {:.1} {:.1}{all}",
                    standing.part.id.0,
                    hole.volume(),
                    low.x,
                    low.y,
                    low.z,
                    high.x,
                    high.y,
                    high.z
                ));
            }
        }
        found
    }

    /// The inside of a part, on through its sides without a wall and through its foot.
    fn way_in(&self, part: usize) -> Manifold {
        let longer = |p: &Plane| {
            let open = p.tag == Tag::Base || self.is_bare(part, p.tag);
            Plane { offset: p.offset + if open { THROUGH } else { 0.0 }, ..*p }
        };
        Hull::new(self.parts[part].envelope.inner.planes.iter().map(longer).collect()).solid()
    }

    /// Pieces of a part in the room inside an obstacle that is closed.
    fn inside_of(&self, part: usize) -> Vec<Fault> {
        let mut faults = Vec::new();
        let closed = self.obstacles(part).filter(|&k| self.open_sides(k).is_empty());
        for obstacle in closed {
            let inner = &self.parts[obstacle].envelope.inner;
            let (solid, room) = (inner.solid(), box_of(&inner.points()));
            for &piece in &self.parts[part].pieces {
                let body = &self.case.bodies[piece];
                let inside = if boxes_apart(room, (body.low, body.high)) {
                    0.0
                } else {
                    body.solid().intersection(&solid).volume()
                };
                if inside > INSIDE {
                    let what =
                        format!("{} is inside {} with mm³", self.case.name(piece), self.parts[obstacle].part.id.0);
                    faults.push(Case::fault(Check::Account, what, inside));
                }
            }
        }
        faults
    }

    pub(super) fn box_of_part(&self, part: usize) -> (P3, P3) {
        box_of(&self.parts[part].envelope.outer.points())
    }
}
