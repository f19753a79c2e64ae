//! The build guide, judged by code that shares nothing with the planner: an independent solid library (`manifold-rust`)
//! for weights and props, directions instead of hulls for what bears them.
//!
//! `GABLE_HOUSES` sets how many made-up houses are tried.

use gable_plane::{P2, V2, V3};
use gable_raise::{Guide, Prop, PropKind, Stage, Step};
use gable_shell::{House, Joint, JointEnd, JointKind, Piece, Role, Solved, demo, solve};
use gable_tests::{Body, plain_many, random_many};
use manifold_rust::linalg::Vec3;
use manifold_rust::manifold::Manifold;

/// A weight may lie so far outside of what bears it, mm: half the width of a bead of icing.
const BEAD: f64 = 1.0;
/// Fresh icing holds a piece of this volume by itself, mm³: little more than a gram of biscuit (common practice, no source).
const LIGHT: f64 = 2000.0;
/// How far before its place a piece is looked at, mm.
const BEFORE: [f64; 7] = [0.2, 1.0, 4.0, 15.0, 50.0, 150.0, 500.0];
/// What rounding leaves of faces that touch may be this thick, mm.
const FILM: f64 = 2e-3;
/// What rounding leaves, mm.
const NEAR: f64 = 0.05;

/// A house with the solids of its pieces.
struct Site {
    solved: Solved,
    bodies: Vec<Body>,
}

impl Site {
    fn new(house: &House) -> Self {
        let solved = solve(house);
        // Doors stay open, windows count as closed.
        let open = |(piece, body): (&Piece, Body)| {
            if piece.notches.is_empty() {
                body
            } else {
                Body::of_piece(&Piece { notches: Vec::new(), ..piece.clone() })
            }
        };
        let bodies = std::iter::zip(&solved.pieces, Body::of_house(house, &solved)).map(open).collect();
        Self { solved, bodies }
    }

    fn name(&self, k: usize) -> &str {
        &self.solved.pieces[k].id.0
    }

    /// Everything that is wrong with a guide.
    fn faults(&self, guide: &Guide) -> Vec<String> {
        let mut found = Vec::new();
        let mut raised: Vec<usize> = guide.stages.iter().flat_map(|s| &s.steps).map(|s| s.piece).collect();
        raised.sort_unstable();
        if raised != (0..self.solved.pieces.len()).collect::<Vec<_>>() {
            found.push(format!("{} of {} pieces are raised", raised.len(), self.solved.pieces.len()));
        }
        let mut set: Vec<usize> = Vec::new();
        let mut iced: Vec<usize> = Vec::new();
        for (k, stage) in guide.stages.iter().enumerate() {
            let say = |text: String| format!("stage {}: {text}", k + 1);
            found.extend(self.of_stage(stage, &set).into_iter().map(say));
            set.extend(stage.steps.iter().map(|s| s.piece));
            iced.extend(&stage.joints);
            let early = stage.joints.iter().chain(&stage.inside).find(|j| !self.stands(**j, &set));
            found.extend(early.map(|j| say(format!("joint {} before both ends stand", self.solved.joints[*j].letter))));
        }
        iced.sort_unstable();
        if iced != (0..self.solved.joints.len()).collect::<Vec<_>>() {
            found.push(format!("{} of {} joints are iced", iced.len(), self.solved.joints.len()));
        }
        found
    }

    fn stands(&self, joint: usize, set: &[usize]) -> bool {
        self.solved.joints[joint].ends.iter().all(|end| match end {
            JointEnd::Board => true,
            JointEnd::Piece(k) => set.contains(k),
        })
    }

    fn of_stage(&self, stage: &Stage, set: &[usize]) -> Vec<String> {
        let mut found = Vec::new();
        let mut standing = set.to_vec();
        for step in &stage.steps {
            let piece = step.piece;
            let props: Vec<&Prop> = stage.props.iter().filter(|p| p.piece == piece).collect();
            if !self.is_held(piece, &props, set, &standing) {
                found.push(format!("{} tips or sinks", self.name(piece)));
            }
            found.extend(props.iter().filter_map(|p| self.of_prop(p, &standing)));
            found.extend(
                self.met(step, &standing).map(|other| format!("{} meets {other} on its way", self.name(piece))),
            );
            standing.push(piece);
        }
        found
    }

    /// What a piece meets on its way to its place.
    fn met(&self, step: &Step, standing: &[usize]) -> Option<&str> {
        BEFORE.into_iter().find_map(|before| {
            let body = self.bodies[step.piece].moved(&(step.way * -before));
            let hits = |k: &&usize| !body.apart(&self.bodies[**k], FILM) && body.film(&self.bodies[**k]) > FILM;
            standing.iter().find(hits).map(|k| self.name(*k))
        })
    }

    /// Whether a piece stays where it is until its icing has set: it stands on the board and something steadies it, or its
    /// weight lies over joints that have set and props. Fresh icing holds a gram.
    fn is_held(&self, piece: usize, props: &[&Prop], set: &[usize], standing: &[usize]) -> bool {
        if self.bodies[piece].volume() < LIGHT {
            return true;
        }
        let (low, high) = self.bodies[piece].reach(&V3::z());
        let upright = self.out(piece).z.abs() < 0.2;
        if upright {
            let crossed = |k: usize| self.out(k).cross(&self.out(piece)).norm() > 0.15 && self.out(k).z.abs() < 0.25;
            let steadied = self.others(piece).any(|k| standing.contains(&k) && crossed(k));
            let rests = low < NEAR || self.others(piece).any(|k| set.contains(&k) || standing.contains(&k));
            return rests && (steadied || props.iter().any(|p| p.kind == PropKind::Beside));
        }
        if low < NEAR && high < self.solved.pieces[piece].thickness.mm() + 1.0 {
            return true;
        }
        let joints = self.solved.joints.iter().filter(|j| j.ends.contains(&JointEnd::Piece(piece)));
        // Plates that lie on each other face to face.
        if joints.clone().any(|j| j.kind == JointKind::Layer && self.stands_on(j, piece, set)) {
            return true;
        }
        let firm = joints.filter(|j| {
            j.ends.iter().any(|e| matches!(e, JointEnd::Piece(k) if set.contains(k)) || *e == JointEnd::Board)
        });
        let mut bearing: Vec<P2> = firm.flat_map(|j| j.line).map(|p| p.xy()).collect();
        bearing.extend(props.iter().filter(|p| p.kind == PropKind::Under).map(|p| p.at.xy()));
        // The lowest corners rest on the board, if they do.
        bearing.extend(self.bodies[piece].points.iter().filter(|p| p.z < NEAR).map(|p| p.xy()));
        let weight = self.weight(piece);
        let borne = (0..720).all(|k| {
            let angle = f64::from(k) * std::f64::consts::TAU / 720.0;
            let way = V2::new(angle.cos(), angle.sin());
            bearing.iter().map(|b| way.dot(&(b - weight))).fold(f64::NEG_INFINITY, f64::max) >= -BEAD
        });
        let out = self.out(piece);
        let steep = out.z.abs() < 6f64.to_radians().cos();
        borne && (!steep || !props.is_empty() || self.is_caught(piece, standing))
    }

    fn stands_on(&self, joint: &Joint, piece: usize, set: &[usize]) -> bool {
        joint.ends.iter().any(|e| matches!(e, JointEnd::Piece(k) if *k != piece && set.contains(k)))
    }

    /// Whether something stands right before the lowest edge of a slope, or right under it.
    fn is_caught(&self, piece: usize, standing: &[usize]) -> bool {
        let out = self.out(piece);
        let down = V3::new(out.x, out.y, 0.0).normalize();
        let moved = self.bodies[piece].moved(&(down * 8.0 - V3::z() * 8.0));
        standing.iter().any(|k| !moved.apart(&self.bodies[*k], 0.01) && moved.shared(&self.bodies[*k]) > 1e-3)
    }

    fn others(&self, piece: usize) -> impl Iterator<Item = usize> + '_ {
        let own = JointEnd::Piece(piece);
        let joints = self.solved.joints.iter().filter(move |j| j.ends.contains(&JointEnd::Piece(piece)));
        joints.flat_map(|j| &j.ends).filter_map(move |e| match e {
            JointEnd::Piece(k) if *e != own => Some(*k),
            _ => None,
        })
    }

    fn out(&self, k: usize) -> V3 {
        let piece = &self.solved.pieces[k];
        let z = piece.house_from_piece * V3::z();
        if matches!(piece.role, Role::Slope(..) | Role::Lid) { z } else { -z }
    }

    /// Where the weight of a piece acts, seen from above: between the halves of equal volume, by the solid library.
    fn weight(&self, k: usize) -> P2 {
        let mesh = self.bodies[k].solid().get_mesh_gl64(-1);
        let at = |i: u64| {
            let n = mesh.num_prop as usize * i as usize;
            V3::new(mesh.vert_properties[n], mesh.vert_properties[n + 1], mesh.vert_properties[n + 2])
        };
        let (mut volume, mut sum) = (0.0, V3::zeros());
        for t in mesh.tri_verts.chunks_exact(3) {
            let [a, b, c] = [at(t[0]), at(t[1]), at(t[2])];
            let part = a.dot(&b.cross(&c)) / 6.0;
            volume += part;
            sum += (a + b + c) / 4.0 * part;
        }
        P2::from((sum / volume).xy())
    }

    /// What is wrong with a prop: it must touch its piece, stand on what it says, and pass through nothing.
    fn of_prop(&self, prop: &Prop, standing: &[usize]) -> Option<String> {
        let name = self.name(prop.piece);
        let foot = prop.at.z - prop.height.mm();
        let spot = prop.stands;
        let needle = |from: f64, to: f64| {
            let size = Vec3::new(0.02, 0.02, to - from);
            Manifold::cube(size, false).translate(Vec3::new(spot.x - 0.01, spot.y - 0.01, from))
        };
        let pierces = |needle: &Manifold, body: &Body| needle.intersection(body.solid()).volume() > 1e-5;
        if prop.height.mm() > 0.5 && prop.kind != PropKind::Before {
            let shaft = needle(foot + 0.1, prop.at.z - 0.1);
            if let Some(k) = standing.iter().find(|k| pierces(&shaft, &self.bodies[**k])) {
                return Some(format!("the prop of {name} goes through {}", self.name(*k)));
            }
        }
        let tip = needle(foot - 1.0, foot);
        let stands = prop.on.map_or(foot.abs() < NEAR, |k| {
            let of_it = self.solved.joints.iter().filter(|j| j.ends.contains(&JointEnd::Piece(k)));
            let iced = of_it.flat_map(|j| &j.icing).any(|solid| pierces(&tip, &Body::of_solid(solid)));
            standing.contains(&k) && (iced || pierces(&tip, &self.bodies[k]))
        });
        if !stands {
            return Some(format!("the prop of {name} stands on nothing, {foot:.2} mm above the board"));
        }
        let touch = prop.at + V3::z() * if prop.kind == PropKind::Under { 0.6 } else { 0.0 };
        let ball = Manifold::sphere(1.0, 16).translate(Vec3::new(touch.x, touch.y, touch.z));
        let touches = ball.intersection(self.bodies[prop.piece].solid()).volume() > 1e-6;
        (!touches).then(|| format!("the prop of {name} does not touch it"))
    }
}

#[test]
fn every_demo_is_raised_without_an_exception() {
    for name in demo::names() {
        let site = Site::new(&demo::house(name).unwrap());
        let guide = Guide::of(&site.solved).unwrap_or_else(|stuck| panic!("{name}: {stuck}"));
        let faults = site.faults(&guide);
        assert!(faults.is_empty(), "{name}: {faults:#?}");
        assert!(guide.stages.len() < site.solved.pieces.len(), "{name}: a stage for every piece is no guide");
    }
}

#[test]
fn made_up_houses_are_raised_on_what_bears_them() {
    let count: u64 = std::env::var("GABLE_HOUSES").ok().and_then(|n| n.parse().ok()).unwrap_or(40);
    let (mut tried, mut wrong) = (0, Vec::new());
    for (kind, make) in [("any", random_many as fn(u64) -> House), ("plain", plain_many)] {
        for seed in 0..count {
            let site = Site::new(&make(seed));
            if site.solved.blocking().next().is_some() {
                continue;
            }
            let Ok(guide) = Guide::of(&site.solved) else { continue };
            tried += 1;
            wrong.extend(site.faults(&guide).into_iter().map(|f| format!("{kind} {seed}: {f}")));
        }
    }
    println!("{tried} houses");
    assert!(wrong.is_empty(), "{} of {tried} houses: {wrong:#?}", wrong.len());
}

/// A house of four walls and two slopes: every corner can be reached until the second slope lies, and its own joints
/// cannot.
#[test]
fn the_second_slope_of_a_plain_house_shuts_it() {
    let house = House::simple(gable_measure::Unit::Millimetre);
    let solved = solve(&house);
    let guide = Guide::of(&solved).unwrap();
    let slopes: Vec<usize> = (0..guide.stages.len())
        .filter(|k| guide.stages[*k].steps.iter().any(|s| matches!(solved.pieces[s.piece].role, Role::Slope(..))))
        .collect();
    let [first, second] = slopes.as_slice() else { panic!("{slopes:?}") };
    assert_eq!(*second, guide.stages.len() - 1);
    let corners = |stage: usize| {
        guide.stages[stage].inside.iter().filter(|j| solved.joints[**j].kind == gable_shell::JointKind::Corner).count()
    };
    assert_eq!(corners(*first), 4, "the four corners are strengthened before the last slope");
    assert!(guide.stages[*second].inside.is_empty() && !guide.stages[*second].out_of_reach.is_empty());
    assert!(guide.stages[*second].waits && !guide.stages[0].waits);
}
