//! Floors: a plate between the walls, or plates laid on each other under them, with steps.

use super::draft::{Draft, JointDraft};
use super::findings::Findings;
use super::joints::{Places, SHORTEST_JOINT};
use super::part::{Job, PartSolution};
use super::plan::PlanSide;
use super::plate::{Bound, Cause, Cut, Frame, Plate, cut_plate};
use super::roof::{Roof, Slope};
use crate::{FloorKind, JointKind, Role, Steps, StepsHigh, Tier, WedgeSide};
use gable_measure::Length;
use gable_plane::{HalfSpace, Solid, V3};
use gable_words::tr;

/// A typed height that is met this nearly is met, mm.
const MET: f64 = 0.05;

/// How a floor under the walls is built up.
pub(super) struct Layers {
    pub(super) count: usize,
    pub(super) thickness: f64,
    pub(super) gap: f64,
}

impl Layers {
    pub(super) fn of(job: &Job<'_>) -> Self {
        let (thickness, gap) = (job.floors.baked(), Length::mm_of(job.gap));
        let count = job.part.steps().map_or(1, |steps| steps.plates(thickness, gap));
        Self { count, thickness: thickness.mm(), gap: job.gap }
    }

    /// Underside of plate `layer`, counted from the ground.
    fn base(&self, layer: usize) -> f64 {
        layer as f64 * (self.thickness + self.gap)
    }

    /// Upper face of the topmost plate.
    pub(super) fn top(&self) -> f64 {
        self.base(self.count - 1) + self.thickness
    }
}

/// Adds the floor: first the plate that walls and posts stand on, then those under it, from the ground.
pub(super) fn add(job: &Job<'_>, out: &mut PartSolution, places: &mut Places, findings: &mut Findings) {
    let layers = Layers::of(job);
    let (inset, count) = match job.part.floor.kind {
        FloorKind::None => return,
        FloorKind::Inside => (job.wall_thickness() + job.gap, 1),
        FloorKind::Under => (0.0, layers.count),
    };
    let steps = job.part.steps();
    if let Some(steps) = steps {
        tell_height(steps, &layers, findings);
    }
    for layer in std::iter::once(count - 1).chain(0..count - 1) {
        let inset_of = |k: usize| if job.part.sides[k].wall { inset } else { 0.0 };
        let out_of = |k: usize| steps.map_or(0.0, |steps| reach(job, steps, k, steps.steps_above(layer, count)));
        let bound = |(k, side): (usize, &PlanSide)| {
            let half = side.half_space(out_of(k) - inset_of(k));
            Bound { half, cut: Cut::Tighter, cause: Cause::WallPlane(k) }
        };
        let bounds: Vec<Bound> = job.sides.iter().enumerate().map(bound).collect();
        let Ok(plate) = cut_plate(Frame::level(layers.base(layer)), layers.thickness, &bounds) else {
            let what = tr!("nothing is left of the floor between the walls").to_owned();
            findings.block("floor-vanishes", "floor", what, tr!("make the part larger, or leave the floor out"));
            return;
        };
        let number = layer + 1;
        let (role, name) = if number == count {
            places.floor = Some(out.drafts.len());
            (Role::Floor, "floor".to_owned())
        } else {
            places.layers.push(out.drafts.len());
            (Role::Layer(number), tr!("floor, plate {number} from below"))
        };
        out.drafts.push(Draft::new(role, job.name(&name), job.floors, plate));
    }
    places.layers.extend(places.floor);
}

/// How far the plate `steps_above` steps under the topmost one reaches out of side k, mm.
fn reach(job: &Job<'_>, steps: &Steps, k: usize, steps_above: usize) -> f64 {
    let goes_down = steps.sides.contains(&job.part.sides[k].id);
    if goes_down { steps.tread.mm() * steps_above as f64 } else { 0.0 }
}

fn tell_height(steps: &Steps, layers: &Layers, findings: &mut Findings) {
    let StepsHigh::Height(height) = steps.high else { return };
    if (height.mm() - layers.top()).abs() > MET {
        let plates = tr!("1 plate" | "{n} plates" % layers.count);
        let what = tr!(
            "the floor is asked to be {} high; {plates} of dough with icing make {}",
            findings.print(height.mm()),
            findings.print(layers.top())
        );
        findings.note("steps-height", "floor.steps.height", what, tr!("a floor is a whole number of plates high"));
    }
}

/// The joints between the plates of a floor, each along an edge with a step, or along the longest.
pub(super) fn joints(job: &Job<'_>, drafts: &[Draft], places: &Places) -> Vec<JointDraft> {
    let pairs = places.layers.windows(2).map(|w| (w[0], w[1]));
    let stepped = |cause: Cause| {
        let Cause::WallPlane(k) = cause else { return false };
        job.part.steps().is_some_and(|steps| steps.sides.contains(&job.part.sides[k].id))
    };
    pairs.filter_map(|(lower, upper)| laid(drafts, lower, upper, stepped, job.gap)).collect()
}

/// The joint of two plates face to face, with the icing between them; the second is nowhere larger than the first.
fn laid(drafts: &[Draft], first: usize, second: usize, wanted: impl Fn(Cause) -> bool, gap: f64) -> Option<JointDraft> {
    let plate = &drafts[second].plate;
    let length = |k: &usize| {
        let [a, b] = plate.edge(*k);
        (b - a).norm()
    };
    let longest = |edges: &mut dyn Iterator<Item = usize>| edges.max_by(|a, b| length(a).total_cmp(&length(b)));
    let chosen = longest(&mut (0..plate.count()).filter(|&k| wanted(plate.causes[k])));
    let edge = chosen.or_else(|| longest(&mut (0..plate.count()))).filter(|k| length(k) > SHORTEST_JOINT)?;
    Some(face_to_face(first, (second, edge), plate.edge_in_part(edge), gap, vec![film(plate, gap)]))
}

/// A joint of two pieces that lie face to face, along an edge of the second.
pub(super) fn face_to_face(
    first: usize,
    (second, edge): (usize, usize),
    line: [gable_plane::P3; 2],
    gap: f64,
    icing: Vec<Solid>,
) -> JointDraft {
    JointDraft {
        kind: JointKind::Layer,
        first: Some(first),
        second,
        edges: vec![(second, edge)],
        line,
        gap,
        halved: false,
        wedge: (WedgeSide::Closed, gap),
        icing,
    }
}

/// The icing before the reference face of a plate, as thick as the gap.
fn film(plate: &Plate, gap: f64) -> Solid {
    let ring = |depth| plate.front.iter().map(|&p| plate.frame.point(p, depth)).collect::<Vec<_>>();
    Solid::prism(&ring(-gap), &ring(0.0))
}

/// Stands for the roof of a part that is nothing but a floor: what stands on top of it stands on its upper face.
pub(super) fn open_sky(job: &Job<'_>, raised: f64) -> Roof {
    let plane = HalfSpace { normal: V3::z(), offset: Layers::of(job).top() - raised };
    Roof {
        slopes: vec![Slope { side: None, tier: Tier::Single, plane }],
        rims: vec![0.0; job.sides.len()],
        lid_rim: 0.0,
        ridge_height: Layers::of(job).top(),
    }
}
