//! The build guide, judged by code that shares nothing with the planner: an independent solid library (`manifold-rust`)
//! for weights and props, directions instead of hulls for what bears them.
//!
//! `GABLE_HOUSES` sets how many made-up houses are tried.

use gable_plane::{P2, V2, V3};
use gable_raise::{Guide, Prop, PropKind, Stage, Step, Why, check};
use gable_shell::{
    Before, House, Joint, JointEnd, JointKind, Piece, PieceId, PieceKind, Raised, Role, Solved, demo, solve,
};
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
        if prop.height.mm() > if prop.kind == PropKind::Before { 8.0 } else { 0.5 } {
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

/// A house whose order somebody wants otherwise: up to four wishes, from a seed.
fn wanting(house: House, seed: u64) -> House {
    let solved = solve(&house);
    // A plain mixing of bits (Steele, Lea and Flood, 2014, from memory), so that every seed gives other wishes.
    let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    let mut next = |below: usize| {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = (state ^ (state >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) % below.max(1) as u64) as usize
    };
    let mut raised = || {
        let piece = &solved.pieces[next(solved.pieces.len())];
        match next(3) {
            0 => Raised::Part(piece.part.clone()),
            1 => Raised::Kind(piece.part.clone(), PieceKind::of(&piece.role)),
            _ => Raised::Piece(piece.id.clone()),
        }
    };
    let order = (0..4).map(|_| Before { first: raised(), then: raised() }).filter(|b| b.first != b.then).collect();
    House { order, ..house }
}

/// What is wrong with how a guide heeds what is wanted: every wish is kept or refused, and what is kept is so.
fn heeds(solved: &Solved, guide: &Guide) -> Vec<String> {
    let mut found = Vec::new();
    let order: Vec<usize> = guide.stages.iter().flat_map(|s| &s.steps).map(|s| s.piece).collect();
    let at = |k: &usize| order.iter().position(|o| o == k).unwrap_or(usize::MAX);
    if guide.kept.len() + guide.refused.len() != solved.wishes.len() {
        found.push(format!("{} of {} wishes", guide.kept.len() + guide.refused.len(), solved.wishes.len()));
    }
    for wish in &guide.kept {
        let (first, then) = (&wish.first, &wish.then);
        let last = first.iter().filter(|k| !then.contains(k)).map(at).max();
        let next = then.iter().filter(|k| !first.contains(k)).map(at).min();
        if last.zip(next).is_some_and(|(last, next)| last > next) {
            found.push(format!("'{}' is not kept", wish.words));
        }
    }
    found
}

#[test]
fn made_up_houses_are_raised_in_the_order_that_is_wanted_where_it_can_be() {
    let count: u64 = std::env::var("GABLE_HOUSES").ok().and_then(|n| n.parse().ok()).unwrap_or(12);
    let (mut tried, mut kept, mut refused, mut handless, mut wrong) = (0, 0, 0, 0, Vec::new());
    let made = (0..count).flat_map(|seed| [(seed, random_many(seed)), (seed, plain_many(seed))]);
    let built_in = demo::names().filter_map(demo::house).zip(100..).map(|(house, seed)| (seed, house));
    for (seed, house) in made.chain(built_in) {
        let site = Site::new(&wanting(house, seed));
        if site.solved.blocking().next().is_some() {
            continue;
        }
        let Ok(guide) = Guide::of(&site.solved) else { continue };
        tried += 1;
        kept += guide.kept.len();
        refused += guide.refused.len();
        let faults = site.faults(&guide).into_iter().chain(heeds(&site.solved, &guide));
        wrong.extend(faults.map(|f| format!("{seed}: {f}")));
        let findings = guide.findings(&site.solved);
        assert_eq!(findings.iter().filter(|f| f.kind == "order-impossible").count(), guide.refused.len());
        // Hands are kept out where the guide without wishes lets them in.
        let usual = Guide::of(&Solved { wishes: Vec::new(), ..site.solved.clone() }).unwrap();
        let shut = |guide: &Guide| guide.stages.iter().flat_map(|s| s.out_of_reach.clone()).collect::<Vec<_>>();
        let (now, before) = (shut(&guide), shut(&usual));
        let told: Vec<&str> =
            findings.iter().filter(|f| f.kind == "order-out-of-reach").map(|f| f.what.as_str()).collect();
        let lost: Vec<usize> = now.into_iter().filter(|j| !before.contains(j)).collect();
        handless += lost.len();
        assert_eq!(lost.is_empty(), told.is_empty(), "{seed}");
        for j in lost {
            let letter = &site.solved.joints[j].letter;
            let says = |what: &str| what.split([' ', ',', ':']).any(|word| word == letter);
            assert!(told.iter().any(|what| says(what)), "{seed}: joint {letter} in {told:?}");
        }
    }
    println!("{tried} houses, {kept} wishes kept, {refused} refused, {handless} joints without a hand because of them");
    assert!(wrong.is_empty(), "{} of {tried} houses: {wrong:#?}", wrong.len());
    assert!(kept > tried / 2 && refused > 0 && handless > 0, "wishes are neither all kept nor all refused");
}

fn wish(first: &str, then: &str) -> Before {
    Before { first: Raised::read(first), then: Raised::read(then) }
}

#[test]
fn what_cannot_be_had_is_told_with_what_stands_in_the_way() {
    let simple = House::simple(gable_measure::Unit::Millimetre);
    let askew = demo::house("askew-house").unwrap();
    for (house, wish, told) in [
        (&simple, wish("main/roof", "main/wall-left"), "left wall comes before the roof over it"),
        (&askew, wish("chimney", "main/roof"), "nothing would carry Chimney:"),
    ] {
        let house = House { order: vec![wish], ..house.clone() };
        let solved = solve(&house);
        let guide = Guide::of(&solved).unwrap();
        assert_eq!((guide.kept.len(), guide.refused.len()), (0, 1));
        let findings = check(&solved);
        assert_eq!(findings.len(), 1);
        assert_eq!((findings[0].kind, findings[0].place.as_str()), ("order-impossible", "order[0]"));
        assert!(findings[0].what.contains(told), "{}", findings[0].what);
        // The house is raised all the same.
        assert!(Site::new(&house).faults(&guide).is_empty());
    }
}

#[test]
fn of_wishes_against_each_other_the_first_is_kept() {
    let simple = House::simple(gable_measure::Unit::Millimetre);
    let [a, b, c] = ["main/wall-back", "main/wall-left", "main/wall-front"];
    let house = House { order: vec![wish(a, b), wish(b, c), wish(c, a)], ..simple };
    let solved = solve(&house);
    let guide = Guide::of(&solved).unwrap();
    assert_eq!((guide.kept.len(), guide.refused.len()), (2, 1));
    assert_eq!(guide.refused[0].0.index, 2);
    assert!(matches!(&guide.refused[0].1[0].why, Why::Wanted(others) if !others.is_empty()));
    let ids: Vec<&PieceId> = guide.stages[0].steps.iter().map(|s| &solved.pieces[s.piece].id).collect();
    let at = |id: &str| ids.iter().position(|i| i.0 == id).unwrap();
    assert!(at(a) < at(b) && at(b) < at(c), "{ids:?}");
}

#[test]
fn what_names_nothing_is_left_out_and_told() {
    let simple = House::simple(gable_measure::Unit::Millimetre);
    let house = House { order: vec![wish("porch", "main/roof"), wish("main/wall-back", "main/wall-left")], ..simple };
    let solved = solve(&house);
    let told: Vec<_> = solved.findings.iter().filter(|f| f.kind == "order-of-nothing").collect();
    assert_eq!(told.iter().map(|f| f.place.as_str()).collect::<Vec<_>>(), ["order[0].first"]);
    let guide = Guide::of(&solved).unwrap();
    assert_eq!(guide.kept.iter().map(|w| w.index).collect::<Vec<_>>(), [1]);
}

#[test]
fn stages_are_moved_by_hand_and_back() {
    let house = demo::house("askew-house").unwrap();
    let solved = solve(&house);
    let guide = Guide::of(&solved).unwrap();
    let pieces = |guide: &Guide, k: usize| guide.stages[k].steps.iter().map(|s| s.piece).collect::<Vec<_>>();
    let mut moved = 0;
    for k in 0..guide.stages.len() - 1 {
        let order = guide.swapped(&solved, &house.order, k);
        assert!(!order.is_empty() && order.len() <= guide.stages[k].steps.len() * guide.stages[k + 1].steps.len());
        let changed = solve(&House { order: order.clone(), ..house.clone() });
        let new = Guide::of(&changed).unwrap();
        assert!(heeds(&changed, &new).is_empty());
        if new.refused.is_empty() {
            moved += 1;
            let (a, b) = (pieces(&guide, k)[0], pieces(&guide, k + 1)[0]);
            assert!(new.stage_of(b) < new.stage_of(a));
            // And back: the opposite wish takes its place.
            let at = new.stage_of(b).unwrap();
            if new.stage_of(a) == Some(at + 1) {
                let back = new.swapped(&changed, &order, at);
                assert!(back.iter().all(|b| !order.contains(b)), "{back:?}");
            }
        }
    }
    assert!(moved > 0);
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
