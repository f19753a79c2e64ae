//! Working out one part, in its own coordinates.

use super::draft::{Draft, JointDraft};
use super::findings::Findings;
use super::heights::Heights;
use super::icing::{self, RingIcing};
use super::joints::{self, Places};
use super::layers::{self, Layers};
use super::place::Stand;
use super::plan::{self, PlanSide};
use super::plate::{Cause, NoPlate, Plate};
use super::ring::{Ring, RingOf};
use super::roof::{self, Roof, RoofThickness};
use super::{checks, openings, posts, slopes};
use crate::{Batch, Dough, DoughId, FloorKind, House, JointKind, Part, Role, Tier, Top};
use gable_plane::{HalfSpace, P2, Solid, V3};
use gable_words::tr;

/// What became of a part.
pub(super) struct PartSolution {
    pub(super) stand: Stand,
    pub(super) plan: Vec<P2>,
    pub(super) sides: Vec<PlanSide>,
    pub(super) roof: Option<Roof>,
    pub(super) roof_thickness: RoofThickness,
    pub(super) gap: f64,
    pub(super) ridge_height: f64,
    pub(super) drafts: Vec<Draft>,
    pub(super) joints: Vec<JointDraft>,
    /// Icing whose joint was cut away.
    pub(super) loose: Vec<Solid>,
}

impl PartSolution {
    /// Its roof as a surface, when it has one.
    pub(super) fn roof_heights(&self) -> Option<Heights<'_>> {
        let roof = self.roof.as_ref()?;
        Some(Heights { roof, plan: &self.plan, thickness: self.roof_thickness, gap: self.gap })
    }
}

/// A part with what its pieces are cut from, in mm.
pub(super) struct Job<'a> {
    pub(super) part: &'a Part,
    pub(super) sides: Vec<PlanSide>,
    pub(super) walls: Dough,
    pub(super) roofs: Dough,
    pub(super) lid: Dough,
    /// Dough of the parapet: that of the walls, whatever became of them.
    pub(super) strips: &'a Dough,
    pub(super) floors: &'a Dough,
    pub(super) gap: f64,
    /// Height of the foot.
    foot: f64,
    on_board: bool,
}

impl<'a> Job<'a> {
    pub(super) fn name(&self, what: &str) -> String {
        format!("{}: {what}", self.part.name)
    }

    pub(super) fn side_name(&self, k: usize) -> &'a str {
        &self.part.sides[k].id.0
    }

    /// The same for people.
    pub(super) fn side_words(&self, k: usize) -> &'a str {
        self.part.sides[k].id.words()
    }

    pub(super) fn wall_thickness(&self) -> f64 {
        self.walls.baked().mm()
    }

    fn roof_thickness(&self) -> RoofThickness {
        RoofThickness { slopes: self.roofs.baked().mm(), lid: self.lid.baked().mm() }
    }

    /// Side k in a sentence: its own name, or its number.
    pub(super) fn spoken_side(&self, k: usize) -> String {
        let name = self.side_name(k);
        if name.parse::<u8>().is_ok() { tr!("side {name}") } else { self.side_words(k).to_owned() }
    }

    /// Height of what the walls stand on, and of their feet.
    pub(super) fn ground(&self) -> (f64, f64) {
        match self.part.floor.kind {
            FloorKind::Under => {
                let top = Layers::of(self).top();
                (top, top + self.gap)
            }
            FloorKind::None | FloorKind::Inside => (self.foot, self.foot),
        }
    }
}

/// A part of which nothing is known but its plan and where it stands.
fn bare(house: &House, part: &Part, stand: Stand) -> PartSolution {
    PartSolution {
        stand,
        plan: part.outline.corners(),
        sides: Vec::new(),
        roof: None,
        roof_thickness: RoofThickness::default(),
        gap: house.gap.mm(),
        ridge_height: 0.0,
        drafts: Vec::new(),
        joints: Vec::new(),
        loose: Vec::new(),
    }
}

/// Plan and roof of a part without its pieces: all that places whatever stands by it. No roof where it has none, or
/// with blocking findings.
pub(super) fn outlined(house: &House, part: &Part, stand: Stand, findings: &mut Findings) -> PartSolution {
    let mut solution = bare(house, part, stand);
    if let Some(job) = job(house, part, &solution, findings) {
        (solution.sides, solution.roof_thickness) = (job.sides.clone(), job.roof_thickness());
        let roof = match part.is_bare_floor() {
            true => layers::open_sky(&job, job.gap + job.roof_thickness().slopes),
            false => roof::roof(part, &job.sides, job.gap, findings),
        };
        solution.ridge_height = roof.ridge_height;
        solution.roof = (!findings.blocked() && !roof.slopes.is_empty()).then_some(roof);
    }
    solution
}

/// Works out a part; with blocking findings it may come out without pieces.
pub(super) fn solve(house: &House, part: &Part, stand: Stand, findings: &mut Findings) -> PartSolution {
    let table = -stand.house_from_part.translation.z;
    let mut solution = bare(house, part, stand);
    let Some(job) = job(house, part, &solution, findings) else { return solution };
    (solution.sides, solution.roof_thickness) = (job.sides.clone(), job.roof_thickness());
    checks::plan(&job, findings);
    if part.is_bare_floor() {
        bare_floor(&job, &mut solution, findings);
        return solution;
    }
    let roof = roof::roof(part, &job.sides, job.gap, findings);
    if roof.slopes.is_empty() {
        let what = tr!("{} has neither a slope nor a lid, so its walls have no top", part.name);
        findings.block("no-roof", "", what, tr!("give a side an eave, or add a lid"));
    }
    solution.ridge_height = roof.ridge_height;
    if findings.blocked() {
        return solution;
    }
    let Some(ring) = ring(&job, &roof, findings) else { return solution };
    let roofing = slopes::cut(&roof, &job.sides, part.ridges, job.roof_thickness(), job.gap, table);
    let mut places = Places::default();
    layers::add(&job, &mut solution, &mut places, findings);
    add_walls(&job, &ring, &mut solution, &mut places);
    posts::add(&job, &roof, &mut solution, &mut places, findings);
    add_slopes(&job, &roof, &roofing.plates, &mut solution, &mut places, findings);
    openings::place(&job, &house.dressing.glazier, &mut solution.drafts, findings);
    let parapet = add_parapet(&job, &roof, &mut solution, &mut places, findings);
    let joiner = Joiner { job: &job, roof: &roof, laps: &roofing.laps, drafts: &solution.drafts, places: &places };
    solution.joints = joiner.all(&ring, parapet.as_ref());
    checks::laps(&job, &roof, &roofing.laps_given_up, findings);
    checks::result(&job, &roof, &ring, &solution, &places, findings);
    solution.roof = Some(roof);
    solution
}

/// A part that is nothing but plates laid on each other.
fn bare_floor(job: &Job<'_>, solution: &mut PartSolution, findings: &mut Findings) {
    let mut places = Places::default();
    layers::add(job, solution, &mut places, findings);
    solution.joints = layers::joints(job, &solution.drafts, &places);
    let roof = layers::open_sky(job, job.gap + job.roof_thickness().slopes);
    solution.ridge_height = roof.ridge_height;
    solution.roof = Some(roof);
}

fn job<'a>(house: &'a House, part: &'a Part, solution: &PartSolution, findings: &mut Findings) -> Option<Job<'a>> {
    let (plan, stand) = (&solution.plan, &solution.stand);
    let mut dough = |id: &DoughId, field: &str| {
        let found = house.dough(id);
        if found.is_none() {
            let what = tr!("there is no dough called {}", id.0);
            findings.block("no-such-dough", field, what, tr!("choose one of the doughs of the house, or add this one"));
        }
        found
    };
    let strips = dough(&part.wall_dough, "wall-dough");
    dough(&part.roof_dough, "roof-dough");
    let floors = dough(&part.floor.dough, "floor.dough");
    let sound = plan.len() >= 3 && plan.len() == part.sides.len() && gable_plane::ring_area(plan) > 0.0;
    if !sound {
        let what = tr!("the plan has no inside, or its sides do not match its corners").to_owned();
        findings.block(
            "no-plan",
            "outline",
            what,
            tr!("give it three or more corners, counter-clockwise, and a side each"),
        );
        return None;
    }
    Some(Job {
        part,
        sides: plan::sides(plan),
        walls: house.dough_of(part, Batch::Walls)?,
        roofs: house.dough_of(part, Batch::Roof)?,
        lid: house.dough_of(part, Batch::Lid)?,
        strips: strips?,
        floors: floors?,
        gap: house.gap.mm(),
        foot: stand.foot,
        on_board: stand.on_board,
    })
}

fn ring(job: &Job<'_>, roof: &Roof, findings: &mut Findings) -> Option<Ring> {
    let part = job.part;
    let ring = RingOf {
        sides: &job.sides,
        stands: part.sides.iter().map(|s| s.wall).collect(),
        first: part.sides.iter().map(|s| matches!(s.top, Top::Gable { .. } | Top::HalfHip { .. })).collect(),
        base: job.ground().1,
        hosted: part.place.host().is_some(),
        tops: roof.slopes.iter().enumerate().map(|(s, slope)| (slope.plane, Cause::Slope(s))).collect(),
        thickness: job.wall_thickness(),
        gap: job.gap,
        corners: part.corners,
    };
    match ring.cut() {
        Ok(ring) => Some(ring),
        Err((side, why)) => {
            let what = match why {
                NoPlate::Nothing => tr!("nothing is left of the wall on side {}", job.side_words(side)),
                NoPlate::Endless => tr!("no slope closes the top of the wall on side {}", job.side_words(side)),
            };
            let remedy = tr!("make the part larger, its walls higher, or its dough thinner");
            findings.block("wall-vanishes", &format!("sides.{}", job.side_name(side)), what, remedy);
            None
        }
    }
}

fn add_walls(job: &Job<'_>, ring: &Ring, out: &mut PartSolution, places: &mut Places) {
    for (k, plate) in ring.plates.iter().enumerate() {
        places.walls.push(plate.as_ref().map(|_| out.drafts.len()));
        let Some(plate) = plate else { continue };
        let name = job.name(&tr!("{} wall", job.spoken_side(k)));
        let role = Role::Wall(job.part.sides[k].id.clone());
        out.drafts.push(Draft::new(role, name, &job.walls, plate.clone()));
    }
}

fn add_slopes(
    job: &Job<'_>,
    roof: &Roof,
    plates: &[Result<Plate, NoPlate>],
    out: &mut PartSolution,
    places: &mut Places,
    findings: &mut Findings,
) {
    for (slope, plate) in roof.slopes.iter().zip(plates) {
        places.slopes.push(plate.as_ref().ok().map(|_| out.drafts.len()));
        let (role, name, place) = match slope.side {
            None => (Role::Lid, job.name(tr!("lid")), "lid".to_owned()),
            Some(k) => {
                let side = job.spoken_side(k);
                let own = match slope.tier {
                    Tier::Single => tr!("{side} roof"),
                    Tier::Lower => tr!("{side} lower roof"),
                    Tier::Upper => tr!("{side} upper roof"),
                };
                let id = job.part.sides[k].id.clone();
                let name = job.name(&own);
                (Role::Slope(id, slope.tier), name, format!("sides.{}", job.side_name(k)))
            }
        };
        match plate {
            Ok(plate) => {
                let dough = if slope.side.is_some() { &job.roofs } else { &job.lid };
                out.drafts.push(Draft::new(role, name, dough, plate.clone()));
            }
            Err(_) => {
                let what = tr!("nothing is left of {name} once the gaps for icing are taken off");
                findings.block("slope-vanishes", &place, what, tr!("change the pitch, or leave this slope out"));
            }
        }
    }
}

/// A ring of strips on the rim of the lid.
struct ParapetRing {
    sides: Vec<PlanSide>,
    ring: Ring,
    ground: f64,
}

fn add_parapet(
    job: &Job<'_>,
    roof: &Roof,
    out: &mut PartSolution,
    places: &mut Places,
    findings: &mut Findings,
) -> Option<ParapetRing> {
    let parapet = job.part.lid.and_then(|lid| lid.parapet)?;
    let lid = out.drafts.iter().find(|d| d.role == Role::Lid)?;
    let (rim, causes) = (lid.front.clone(), lid.causes.clone());
    let ground = lid.plate.frame.origin.z + lid.plate.thickness;
    let base = ground + job.gap;
    let sides = plan::sides(&rim);
    let top = HalfSpace { normal: V3::z(), offset: base + parapet.height.mm() };
    let ring = RingOf {
        sides: &sides,
        stands: vec![true; sides.len()],
        first: vec![false; sides.len()],
        base,
        hosted: false,
        tops: vec![(top, Cause::Open)],
        thickness: job.strips.baked().mm(),
        gap: job.gap,
        corners: job.part.corners,
    };
    let Ok(ring) = ring.cut() else {
        let what = tr!("nothing is left of the parapet").to_owned();
        findings.block("parapet-vanishes", "lid.parapet", what, tr!("make the lid larger or leave the parapet out"));
        return None;
    };
    for (plate, cause) in ring.plates.iter().zip(&causes) {
        let side = match *cause {
            Cause::Rim(j) => Some(j),
            Cause::Slope(s) => roof.slopes[s].side,
            _ => None,
        };
        let (Some(plate), Some(k)) = (plate, side) else {
            places.parapet.push(None);
            continue;
        };
        places.parapet.push(Some(out.drafts.len()));
        let role = Role::Parapet(job.part.sides[k].id.clone());
        let name = job.name(&tr!("{} parapet", job.spoken_side(k)));
        out.drafts.push(Draft::new(role, name, job.strips, plate.clone()));
    }
    Some(ParapetRing { sides, ring, ground })
}

/// Finds all joints of a part and the icing in them.
struct Joiner<'a> {
    job: &'a Job<'a>,
    roof: &'a Roof,
    laps: &'a [(usize, usize)],
    drafts: &'a [Draft],
    places: &'a Places,
}

impl Joiner<'_> {
    fn all(&self, ring: &Ring, parapet: Option<&ParapetRing>) -> Vec<JointDraft> {
        let (drafts, places, gap) = (self.drafts, self.places, self.job.gap);
        let mut feet =
            joints::feet(drafts, places, self.job.part.floor.kind == FloorKind::Under, self.job.on_board, gap);
        let mut found = self.walls(ring, &mut feet);
        if let Some(parapet) = parapet {
            found.extend(self.parapet(parapet, &mut feet));
        }
        found.extend(self.slopes());
        self.floor(&mut feet);
        found.extend(layers::joints(self.job, self.drafts, self.places));
        found.extend(posts::laminations(self.job, self.roof, self.drafts, &self.places.posts));
        found.extend(feet);
        found
    }

    fn walls(&self, ring: &Ring, feet: &mut [JointDraft]) -> Vec<JointDraft> {
        let gap = self.job.gap;
        let icing = RingIcing {
            drafts: self.drafts,
            places: &self.places.walls,
            sides: &self.job.sides,
            lids: joints::raised(self.roof, gap),
            ground: self.job.ground().0,
        };
        let mut corners = joints::corners(self.drafts, &self.places.walls, &ring.meetings, gap);
        icing.fill_corners(&mut corners);
        let mut tops = joints::tops(self.drafts, self.places, self.roof, gap);
        for side in 0..self.job.sides.len() {
            let wall = |t: &(usize, usize, JointDraft)| t.2.first == self.places.walls[side];
            for (cause, body) in icing.over(side) {
                let Cause::Slope(s) = cause else {
                    spread(feet, self.places.walls[side], body);
                    continue;
                };
                if let Some(top) = own_or_neighbour(&mut tops, |t| wall(t) && t.1 == s, wall) {
                    top.2.icing.push(body);
                }
            }
        }
        self.posts(&mut tops, feet);
        let all = corners.iter_mut().map(|c| &mut c.1).chain(tops.iter_mut().map(|t| &mut t.2));
        icing.clear_of_tips(all);
        corners.into_iter().map(|c| c.1).chain(tops.into_iter().map(|t| t.2)).collect()
    }

    /// Gives the icing over and under posts to the joints there.
    fn posts(&self, tops: &mut [(usize, usize, JointDraft)], feet: &mut [JointDraft]) {
        for post in &self.places.posts {
            for &strip in &post.strips {
                for (cause, body) in posts::icing_of(self.job, self.roof, post, &self.drafts[strip].plate) {
                    let Cause::Slope(s) = cause else {
                        spread(feet, Some(strip), body);
                        continue;
                    };
                    let own = |t: &(usize, usize, JointDraft)| t.2.first == Some(strip);
                    if let Some(top) = own_or_neighbour(tops, |t| own(t) && t.1 == s, own) {
                        top.2.icing.push(body);
                    }
                }
            }
        }
    }

    fn parapet(&self, parapet: &ParapetRing, feet: &mut [JointDraft]) -> Vec<JointDraft> {
        let icing = RingIcing {
            drafts: self.drafts,
            places: &self.places.parapet,
            sides: &parapet.sides,
            lids: parapet.ring.plates.iter().flatten().filter_map(top_of).take(1).collect(),
            ground: parapet.ground,
        };
        let mut corners = joints::corners(self.drafts, &self.places.parapet, &parapet.ring.meetings, self.job.gap);
        icing.fill_corners(&mut corners);
        for side in 0..parapet.sides.len() {
            for (_, body) in icing.over(side) {
                spread(feet, self.places.parapet[side], body);
            }
        }
        corners.into_iter().map(|c| c.1).collect()
    }

    fn slopes(&self) -> Vec<JointDraft> {
        let mut found = joints::slopes(self.drafts, self.places, self.roof, self.laps, self.job.gap);
        for s in 0..self.roof.slopes.len() {
            for (cause, body) in icing::between_slopes(self.drafts, self.places, self.roof, self.laps, s) {
                let Cause::Slope(r) = cause else { continue };
                let between = |f: &(usize, usize, _)| (f.0, f.1) == (s, r) || (f.0, f.1) == (r, s);
                if let Some(joint) = own_or_neighbour(&mut found, between, |f| f.0 == s || f.1 == s) {
                    joint.2.icing.push(body);
                }
            }
        }
        found.into_iter().map(|f| f.2).collect()
    }

    fn floor(&self, feet: &mut [JointDraft]) {
        let Some(floor) = self.places.floor.filter(|_| self.job.part.floor.kind == FloorKind::Inside) else { return };
        let depth = |s: &crate::Side| if s.wall { self.job.wall_thickness() } else { 0.0 };
        let depths: Vec<f64> = self.job.part.sides.iter().map(depth).collect();
        for (cause, body) in icing::round_floor(&self.drafts[floor].plate, &self.job.sides, &depths) {
            let Cause::WallPlane(j) = cause else { continue };
            let abuts = |f: &&mut JointDraft| f.kind == JointKind::Abutment && f.first == self.places.walls[j];
            if let Some(joint) = feet.iter_mut().find(abuts) {
                joint.icing.push(body);
            }
        }
    }
}

/// The joint that icing belongs to, or a neighbour of it where the two pieces touch for too short a way to be a joint.
fn own_or_neighbour<T>(joints: &mut [T], own: impl Fn(&T) -> bool, neighbour: impl Fn(&T) -> bool) -> Option<&mut T> {
    let found = joints.iter().position(own).or_else(|| joints.iter().position(neighbour))?;
    joints.get_mut(found)
}

/// The half-space under the top edge of a strip.
fn top_of(plate: &Plate) -> Option<HalfSpace> {
    plate.edges_of(Cause::Open).next().map(|k| plate.side_of(k))
}

/// Gives the icing under a foot to the feet of a piece: each gets what is between its ends.
fn spread(feet: &mut [JointDraft], piece: Option<usize>, body: gable_plane::Solid) {
    for foot in feet.iter_mut().filter(|f| f.kind == JointKind::Base && Some(f.second) == piece) {
        let along = foot.line[1] - foot.line[0];
        let ends = [HalfSpace::through(foot.line[0], -along), HalfSpace::through(foot.line[1], along)];
        foot.icing.extend(body.clip_all(&ends));
    }
}
