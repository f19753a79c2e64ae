//! Where parts meet: guests are cut to hosts, and a host's overhang yields where a guest rises through it.
//!
//! Of two parts that meet, one stays whole and one is cut. The cut one loses, piece by piece, the shadow of everything
//! solid in the other: its envelope, and its plates as finally cut, each in convex lumps. Everything here is in the house.

mod bridges;
mod clean;
mod contacts;
mod facing;
mod icing;
mod levels;
mod lump;
mod order;
mod overhang;
mod passage;
mod recut;
mod remarks;
mod tool;
mod trim;

pub(super) use contacts::Contact;

use super::draft::Draft;
use super::findings::Findings;
use super::part::PartSolution;
use super::plate::Frame;
use super::roof::Slope;
use crate::{House, Role};
use gable_plane::{HalfSpace, P3, Rigid, Solid, V3};
use lump::Lump;
use rayon::prelude::*;
use std::collections::BTreeMap;
use tool::{Owner, Tool};

/// A part as a body, in the house.
pub(super) struct Body {
    /// Up to its undersides; none for a part that is open.
    envelope: Option<Lump>,
    /// What hosts' overhangs yield to: all within its walls, up to its upper faces.
    outer: Option<Lump>,
    /// The icing in open ridges, hips, knees and corners.
    vees: Vec<Lump>,
    /// Walls' outer planes.
    sides: Vec<HalfSpace>,
    /// Per draft: what is left of it.
    pieces: Vec<PieceBody>,
    /// Parts that stay whole where this one is cut.
    hosts: Vec<usize>,
    /// Parts that are cut where this one stays whole.
    guests: Vec<usize>,
}

impl Body {
    /// The whole of it, then its pieces.
    fn lumps(&self) -> impl Iterator<Item = &Lump> {
        self.outer.iter().chain(self.pieces.iter().flat_map(|p| &p.lumps))
    }

    /// Least and greatest coordinates; none without any lumps.
    fn bounds(&self) -> Option<(V3, V3)> {
        self.lumps().map(Lump::bounds).reduce(|(low, high), (l, h)| (low.inf(&l), high.sup(&h)))
    }
}

/// A piece as convex lumps, and what was cut off it.
#[derive(Default)]
struct PieceBody {
    lumps: Vec<Lump>,
    lost: Vec<(Lump, Owner)>,
    changed: bool,
}

/// Cuts all parts to each other; contacts between pieces of different parts.
pub(super) fn meet(house: &House, solutions: &mut [Option<PartSolution>], findings: &mut [Findings]) -> Vec<Contact> {
    let mut bodies: Vec<Body> = (0..solutions.len()).map(|k| body(solutions, k)).collect();
    let near = order::near(&bodies);
    let open = |k: &usize| !order::is_closed(house, solutions, &bodies, &near, *k);
    for k in (0..bodies.len()).filter(open).collect::<Vec<_>>() {
        bodies[k].envelope = None;
    }
    let order = order::decide(house, &mut bodies, &near);
    if bodies.iter().all(|b| b.hosts.is_empty()) {
        return Vec::new();
    }
    let mut pending = Vec::new();
    for &part in &order {
        let hurt = cut_part(house, solutions, &mut bodies, part, &mut pending);
        for finding in hurt {
            finding.tell(house, &mut findings[part]);
        }
    }
    let mut contacts = contacts::find(solutions, &bodies, &pending);
    icing::settle(house, solutions, &bodies, &order, &mut contacts);
    passage::cut(house, solutions, &bodies, findings);
    remarks::all(house, solutions, &bodies, &contacts, findings);
    contacts
}

fn body(solutions: &[Option<PartSolution>], part: usize) -> Body {
    let none = Body {
        envelope: None,
        outer: None,
        vees: Vec::new(),
        sides: Vec::new(),
        pieces: Vec::new(),
        hosts: Vec::new(),
        guests: Vec::new(),
    };
    let Some(solution) = &solutions[part] else { return none };
    if solution.roof.is_none() {
        return none;
    }
    let place = solution.stand.house_from_part;
    let walls: Vec<HalfSpace> = solution.sides.iter().map(|s| s.half_space(0.0)).collect();
    let lumps = |d: &Draft| d.plate.solids().iter().map(|s| Lump::new(s.moved(&place))).collect::<Vec<_>>();
    let vees = solution.joints.iter().filter(|j| j.halved).flat_map(|j| &j.icing);
    let vees = vees.map(|s| Lump::new(s.moved(&place))).collect();
    let pieces = solution.drafts.iter().map(|d| PieceBody { lumps: lumps(d), ..PieceBody::default() });
    Body {
        envelope: within(solution, |_| solution.gap),
        outer: within(solution, |s| solution.gap + solution.roof_thickness.of(s)),
        vees,
        sides: walls.iter().map(|h| moved(h, &place)).collect(),
        pieces: pieces.collect(),
        ..none
    }
}

/// All of a part within its walls, from its foot up to its undersides raised by so much, in the house.
fn within(solution: &PartSolution, raised: impl Fn(&Slope) -> f64) -> Option<Lump> {
    let roof = solution.roof.as_ref()?;
    let foot = HalfSpace { normal: -V3::z(), offset: -solution.stand.foot };
    let walls = solution.sides.iter().map(|s| s.half_space(0.0));
    let tops = roof.slopes.iter().map(|s| s.plane.moved(raised(s)));
    let bounds: Vec<HalfSpace> = walls.chain(tops).chain([foot]).collect();
    Some(Lump::new(everywhere().clip_all(&bounds)?.moved(&solution.stand.house_from_part)))
}

fn everywhere() -> Solid {
    const FAR: f64 = 1e5;
    Solid::block([-FAR, -FAR, -FAR].into(), [FAR, FAR, FAR].into())
}

fn moved(half: &HalfSpace, by: &Rigid) -> HalfSpace {
    HalfSpace::through(by * P3::from(half.normal * half.offset), by.rotation * half.normal)
}

/// The frame of a draft in the house.
fn frame_in_house(solution: &PartSolution, draft: &Draft) -> Frame {
    let place = solution.stand.house_from_part;
    let frame = &draft.plate.frame;
    let turned = |v: V3| place.rotation * v;
    Frame { origin: place * frame.origin, x: turned(frame.x), y: turned(frame.y), z: turned(frame.z) }
}

/// Cuts every piece of a part to what it meets.
fn cut_part(
    house: &House,
    solutions: &mut [Option<PartSolution>],
    bodies: &mut [Body],
    part: usize,
    pending: &mut Vec<contacts::Pending>,
) -> Vec<recut::Hurt> {
    let pieces = 0..bodies[part].pieces.len();
    // No piece of a part looks at what becomes of another, so they are cut side by side.
    let tongue = gable_words::spoken();
    let own = |d| tongue.while_speaking(|| cut_piece(house, solutions, bodies, part, d));
    let cuts = pieces.into_par_iter().map(own).collect::<Vec<_>>();
    let mut edges: BTreeMap<(usize, usize), Vec<(usize, usize)>> = BTreeMap::new();
    let mut hurt = Vec::new();
    for (d, cut) in cuts.into_iter().enumerate() {
        let (Some((cut, owners)), Some(solution)) = (cut, &mut solutions[part]) else { continue };
        if let (true, Some((_, lumps))) = (cut.untouched, cut.drafts.first()) {
            bodies[part].pieces[d].lumps = lumps.clone();
            continue;
        }
        hurt.extend(cut.hurt);
        let old_edges = solution.drafts[d].front.len();
        let mut places = vec![d];
        places.extend((1..cut.drafts.len()).map(|k| solution.drafts.len() + k - 1));
        for (old, local, new) in cut.own_edges {
            edges.entry((d, old)).or_default().push((places[local], new));
        }
        let met = cut.tool_edges.into_iter();
        pending.extend(met.map(|at| contacts::Pending { owner: owners[at.tool], part, draft: places[at.draft], at }));
        bodies[part].pieces[d] = PieceBody { lost: cut.lost, changed: true, lumps: Vec::new() };
        if cut.drafts.is_empty() {
            solution.drafts[d].vanish();
        }
        for (k, (mut draft, lumps)) in cut.drafts.into_iter().enumerate() {
            if k == 0 {
                solution.drafts[d] = draft;
                bodies[part].pieces[d].lumps = lumps;
            } else {
                draft.fragment_of = Some(d);
                solution.drafts.push(draft);
                bodies[part].pieces.push(PieceBody { lumps, changed: true, lost: Vec::new() });
            }
        }
        // Edges that were not seen again are gone.
        for old in 0..old_edges {
            edges.entry((d, old)).or_default();
        }
    }
    if let Some(solution) = &mut solutions[part] {
        trim::joints(solution, &bodies[part], &edges);
    }
    hurt
}

/// One piece cut to what it meets, and whose every tool was; nothing where it meets nothing.
fn cut_piece(
    house: &House,
    solutions: &[Option<PartSolution>],
    bodies: &[Body],
    part: usize,
    draft: usize,
) -> Option<(recut::Recut, Vec<Owner>)> {
    let solution = solutions[part].as_ref()?;
    let tools = tools_for(house, solutions, bodies, part, draft);
    if tools.is_empty() {
        return None;
    }
    let piece = &solution.drafts[draft];
    let lumps = bodies[part].pieces[draft].lumps.clone();
    let cut = recut::recut(piece, &frame_in_house(solution, piece), lumps, &tools);
    Some((cut, tools.into_iter().map(|tool| tool.owner).collect()))
}

/// Everything that a piece must keep clear of.
fn tools_for(
    house: &House,
    solutions: &[Option<PartSolution>],
    bodies: &[Body],
    part: usize,
    draft: usize,
) -> Vec<Tool> {
    let Some(solution) = &solutions[part] else { return Vec::new() };
    let piece = &solution.drafts[draft];
    let frame = frame_in_house(solution, piece);
    let maker = tool::Maker::new(frame, piece, solution.gap);
    let mut tools = Vec::new();
    if matches!(piece.role, Role::Slope(..) | Role::Lid | Role::Parapet(_)) {
        for &guest in &bodies[part].guests {
            if let Some(rising) = &bodies[guest].outer {
                tools.extend(maker.yielding(rising, guest, &bodies[part].sides));
            }
        }
    }
    for &host in &bodies[part].hosts {
        let Some(whole) = &solutions[host] else { continue };
        // The walls of a part that is closed are within its envelope.
        let within = |d: usize| bodies[host].envelope.is_some() && matches!(whole.drafts[d].role, Role::Wall(_));
        for (d, other) in bodies[host].pieces.iter().enumerate().filter(|(d, _)| !within(*d)) {
            for lump in &other.lumps {
                tools.extend(maker.shadow(lump, Owner::Piece(host, d)));
            }
        }
        if matches!(piece.role, Role::Slope(..)) {
            let eaves = overhang::over_eaves(whole, &bodies[host], &bodies[part], draft);
            tools.extend(eaves.iter().filter_map(|under| maker.within(under)));
        }
        // Only the foot of what stands on a roof reaches down into open ridges; elsewhere that would leave hooks.
        if solution.stand.on_board || !matches!(piece.role, Role::Wall(_)) {
            tools.extend(bodies[host].vees.iter().filter_map(|lump| maker.shadow(lump, Owner::Envelope(host))));
        }
        if let Some(envelope) = &bodies[host].envelope {
            tools.extend(maker.shadow(envelope, Owner::Envelope(host)));
        }
        for beyond in order::beyond_ridge(house, part, host, whole) {
            tools.extend(maker.beyond(&beyond));
        }
    }
    tools.extend(maker.openings(&tools));
    tools
}
