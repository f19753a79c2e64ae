//! The base-board plan: what stands where, at full scale and as one page with its sizes.

use super::cover::About;
use super::flow::Flow;
use super::sheet::{Heading, Sheet};
use super::stand::StandMark;
use super::template::{EdgeMark, Template};
use super::tile::Tiling;
use super::words::{HEADING, PLAIN, SMALLEST};
use super::{Draft, PackError};
use crate::fonts::text_width;
use gable_drawing::{Anchor, Drawing, Fill, Item, Layer, LineRole, Shade, Stroke, Text};
use gable_dress::Dressed;
use gable_measure::Length;
use gable_plane::{Contour, P2, P3, V2, V3, bounds, convex_hull};
use gable_shell::{EdgeKind, House, Piece, Role, Solved};

/// What the board reaches past everything that stands on it or hangs over it, mm.
const RIM: f64 = 25.0;
/// Edges no farther above the foot of their piece belong to it, mm.
const FOOT: f64 = 0.5;
/// Sizes nearer than this are one size, mm.
const ALIKE: f64 = 0.5;
/// Between two sizes along the rim of the plan, mm on paper.
const APART: f64 = 3.6;
/// Room for sizes left of the plan and below it, mm on paper.
const RULED: V2 = V2::new(24.0, 20.0);
/// From the plan to the sizes, mm on paper.
const OFF: f64 = 3.0;
/// Half the length of the arms of a cross, mm on paper.
const CROSS: f64 = 3.0;
/// Radius of a hole for a cable with a small plug, mm (common practice, no source).
const CABLE: f64 = 6.0;

/// Everything on the board, its front left corner at the origin, in mm.
struct Plan {
    size: V2,
    feet: Vec<Foot>,
    floors: Vec<Vec<P2>>,
    roofs: Vec<Vec<P2>>,
    extras: Vec<(Vec<P2>, String)>,
    parts: Vec<PartPlan>,
    cable: Option<P2>,
}

/// Where a stretch of the foot of a piece stands.
struct Foot {
    /// Along the outer face.
    outer: [P2; 2],
    /// Along the inner face.
    inner: [P2; 2],
    letter: String,
}

struct PartPlan {
    name: String,
    corners: Vec<P2>,
}

impl Plan {
    /// The plan of a house; none if nothing stands on the board.
    fn of(solved: &Solved, dressed: &Dressed) -> Option<Self> {
        let feet: Vec<Foot> = solved.pieces.iter().flat_map(|p| feet(solved, p)).collect();
        let ring = |p: &Piece| p.outline.iter().map(|c| (p.house_from_piece * P3::new(c.x, c.y, 0.0)).xy()).collect();
        let floors: Vec<Vec<P2>> = solved
            .pieces
            .iter()
            .filter(|p| matches!(p.role, Role::Floor | Role::Layer(_)) && lowest(p) < FOOT)
            .map(ring)
            .collect();
        let is_roof = |p: &&Piece| matches!(p.role, Role::Slope(..) | Role::Lid);
        let roof = |part: &gable_shell::SolvedPart| {
            let corners = solved.pieces.iter().filter(|p| p.part == part.id).filter(is_roof).flat_map(Piece::corners);
            convex_hull(&corners.map(|p| p.xy()).collect::<Vec<_>>())
        };
        let roofs: Vec<Vec<P2>> = solved.parts.iter().map(roof).filter(|r| r.len() >= 3).collect();
        let extras: Vec<(Vec<P2>, String)> = dressed.extras.iter().map(footprint).collect();
        let on_board =
            |part: &&gable_shell::SolvedPart| solved.pieces.iter().any(|p| p.part == part.id && lowest(p) < FOOT);
        let part = |p: &gable_shell::SolvedPart| PartPlan { name: p.name.clone(), corners: p.plan.clone() };
        let parts: Vec<PartPlan> = solved.parts.iter().filter(on_board).map(part).collect();
        let all = feet.iter().flat_map(|f| f.outer.iter().chain(&f.inner));
        let all = all.chain(floors.iter().flatten()).chain(roofs.iter().flatten());
        let (low, high) = bounds(all.chain(extras.iter().flat_map(|e| &e.0)))?;
        if feet.is_empty() && floors.is_empty() {
            return None;
        }
        let cable = parts.first().map(|p| gable_plane::ring_centroid(&p.corners));
        let mut plan = Self { size: high - low + V2::new(RIM, RIM) * 2.0, feet, floors, roofs, extras, parts, cable };
        plan.shift(V2::new(RIM, RIM) - low.coords);
        Some(plan)
    }

    fn shift(&mut self, by: V2) {
        self.feet.iter_mut().flat_map(|f| f.outer.iter_mut().chain(&mut f.inner)).for_each(|p| *p += by);
        self.floors.iter_mut().chain(&mut self.roofs).flatten().for_each(|p| *p += by);
        self.extras.iter_mut().flat_map(|e| &mut e.0).for_each(|p| *p += by);
        self.parts.iter_mut().flat_map(|p| &mut p.corners).for_each(|p| *p += by);
        self.cable.iter_mut().for_each(|p| *p += by);
    }

    /// The plan as a template to lay on the board.
    fn template(&self) -> Template {
        let outline: Vec<P2> = Contour::rectangle(P2::origin(), P2::from(self.size)).flatten(0.1);
        let mut template = Template::plain(0, outline, self.size);
        "Base board".clone_into(&mut template.name);
        "lay it on the board and mark the lines".clone_into(&mut template.count);
        template.face = "seen from above, front at the foot";
        "walls stand inside the lines with their letters".clone_into(&mut template.dough);
        template.edges = vec![EdgeMark::default(); template.outline.len()];
        let stand = |f: &Foot| StandMark { ends: f.outer, letters: vec![f.letter.clone()] };
        template.stands = self.feet.iter().map(stand).collect();
        template.guides = self.feet.iter().map(|f| f.inner).collect();
        let closed = |ring: &Vec<P2>| ring.iter().chain(ring.first()).copied().collect::<Vec<_>>();
        template.under = self.roofs.iter().chain(self.extras.iter().map(|e| &e.0)).map(closed).collect();
        template.pressed = Vec::new();
        template
    }
}

/// Width and depth of the smallest board that carries a house with what stands beside it and a rim all round; nothing if
/// nothing stands on it.
pub fn board_size(house: &House, solved: &Solved) -> Option<(Length, Length)> {
    let plan = Plan::of(solved, &gable_dress::dress(house, solved))?;
    Some((Length::mm_of(plan.size.x), Length::mm_of(plan.size.y)))
}

/// The plan on one page with its sizes, then at full scale.
pub(super) fn pages(about: &About<'_>, sheets: &[Sheet; 2]) -> Result<Vec<Draft>, PackError> {
    let Some(plan) = Plan::of(about.solved, about.dressed) else { return Ok(Vec::new()) };
    let mut drafts = vec![sized(about, &plan, if plan.size.x > plan.size.y { &sheets[1] } else { &sheets[0] })];
    let template = plan.template();
    // A board that takes hundreds of sheets is marked out by its sizes.
    let tiles = match Tiling::best(&template, sheets) {
        Ok(tiling) => tiling.pages(),
        Err(PackError::TooLarge { .. }) => Vec::new(),
        Err(other) => return Err(other),
    };
    for page in tiles {
        drafts.push(Draft {
            sheet: page.sheet,
            items: page.items,
            heading: page.heading,
            templates: Vec::new(),
            bookmark: None,
            is_cover: false,
        });
    }
    Ok(drafts)
}

fn lowest(piece: &Piece) -> f64 {
    piece.corners().map(|p| p.z).fold(f64::INFINITY, f64::min)
}

/// The stretches of the foot of an upright piece that stand on the board or on a floor.
fn feet(solved: &Solved, piece: &Piece) -> Vec<Foot> {
    if !piece.role.is_upright() {
        return Vec::new();
    }
    let count = piece.outline.len();
    let place = |p: P2, z: f64| piece.house_from_piece * P3::new(p.x, p.y, z);
    let inward = piece.house_from_piece * V3::z() * piece.thickness.mm();
    let foot = |k: usize| {
        let EdgeKind::Joint(j) = piece.edges.get(k)? else { return None };
        let joint = solved.joints.get(*j)?;
        if joint.kind != gable_shell::JointKind::Base {
            return None;
        }
        let (a, b) = (place(piece.outline[k], 0.0), place(piece.outline[(k + 1) % count], 0.0));
        let on_ground = a.z.max(b.z) < FOOT + floor_height(solved, piece);
        let outer = [a.xy(), b.xy()];
        let inner = [(a + inward).xy(), (b + inward).xy()];
        on_ground.then(|| Foot { outer, inner, letter: joint.letter.clone() })
    };
    (0..count).filter_map(foot).collect()
}

/// How high the floor of a piece's part is above the board.
fn floor_height(solved: &Solved, piece: &Piece) -> f64 {
    let floors =
        solved.pieces.iter().filter(|p| p.part == piece.part && matches!(p.role, Role::Floor | Role::Layer(_)));
    let tops = floors.flat_map(Piece::corners).map(|p| p.z);
    tops.fold(0.0, f64::max) + solved.gap.mm()
}

fn footprint(extra: &gable_dress::OrnamentPiece) -> (Vec<P2>, String) {
    let corners: Vec<P3> = extra.solids().iter().flat_map(|s| s.corners().to_vec()).collect();
    let low = corners.iter().map(|p| p.z).fold(f64::INFINITY, f64::min);
    let feet: Vec<P2> = corners.iter().filter(|p| p.z < low + 1.0).map(|p| p.xy()).collect();
    // 'tree 1' of 'Beside the house: tree 1, slot above'.
    let own = extra.name.rsplit(": ").next().unwrap_or(&extra.name);
    let name = own.split(',').next().unwrap_or(own).to_owned();
    (convex_hull(&feet), name)
}

/// The page with sizes.
fn sized(about: &About<'_>, plan: &Plan, sheet: &Sheet) -> Draft {
    let unit = about.solved.unit;
    let said = |mm: f64| unit.print(Length::mm_of(mm));
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Base-board plan");
    flow.paragraph(PLAIN, false, &format!(
        "Smallest board: {} × {}, {} past everything all round. Sizes run from its left and its front edge. Mark the outer \
         faces of the walls (wide lines) and their letters, then measure the diagonals: both of a rectangle must be alike.",
        unit.print_bare(Length::mm_of(plan.size.x)), said(plan.size.y), said(RIM)
    ));
    for text in diagonals(plan, &said) {
        flow.point(&text);
    }
    flow.point(&format!(
        "If the house is lit, bore a hole of {} for the cable at the cross before anything stands, and leave a hatch under \
         it if a battery must be changed.", said(2.0 * CABLE)
    ));
    flow.point("Wide lines: outer faces. Thin lines: inner faces. Dashed: roofs above, and what stands free.");
    flow.space(2.0);
    let room = flow.rest();
    let scale = ((room.size().x - RULED.x) / plan.size.x).min((room.size().y - RULED.y) / plan.size.y).min(1.0);
    let corner = P2::new(room.low.x + RULED.x, room.high.y - plan.size.y * scale);
    let mut art = Drawing::new(0.0, 0.0);
    draw(&mut art, plan, &|p: &P2| corner + p.coords * scale);
    rule(&mut art, plan, about, corner, scale);
    let mut items: Vec<Item> = flow.pages.into_iter().next().unwrap_or_default();
    items.extend(art.items);
    let heading = Heading { what: "base-board plan".into(), ..Heading::default() };
    Draft {
        sheet: *sheet,
        items,
        heading,
        templates: Vec::new(),
        bookmark: Some("Base-board plan".into()),
        is_cover: false,
    }
}

/// The diagonals of parts with four corners on the board.
fn diagonals(plan: &Plan, said: &dyn Fn(f64) -> String) -> Vec<String> {
    let of_part = |part: &PartPlan| match part.corners.as_slice() {
        [a, b, c, d] => {
            let (first, second) = ((c - a).norm(), (d - b).norm());
            Some(if (first - second).abs() < 0.05 {
                format!("{}: both diagonals {}", part.name, said(first))
            } else {
                format!("{}: diagonals {} (from the front left) and {}", part.name, said(first), said(second))
            })
        }
        _ => None,
    };
    let all: Vec<String> = plan.parts.iter().filter_map(of_part).collect();
    if all.is_empty() { Vec::new() } else { vec![format!("Diagonals over the outer faces. {}.", all.join("; "))] }
}

fn draw(art: &mut Drawing, plan: &Plan, at: &dyn Fn(&P2) -> P2) {
    let ring = |r: &[P2]| r.iter().map(at).collect::<Vec<_>>();
    let outline = |art: &mut Drawing, role: LineRole, r: &[P2]| {
        art.push(Stroke::contour(Layer::Notes, role, &Contour::polygon(&ring(r))));
    };
    let board = Contour::rectangle(P2::origin(), P2::from(plan.size)).flatten(0.1);
    outline(art, LineRole::Edge, &board);
    for floor in &plan.floors {
        art.push(Fill { layer: Layer::Notes, shade: Shade::Tint, rings: vec![ring(floor)] });
    }
    for roof in &plan.roofs {
        outline(art, LineRole::Hidden, roof);
    }
    for part in plan.parts.iter().filter(|p| p.corners.len() == 4) {
        for (a, b) in [(0, 2), (1, 3)] {
            art.line(Layer::Notes, LineRole::Centre, at(&part.corners[a]), at(&part.corners[b]));
        }
    }
    for foot in &plan.feet {
        art.line(Layer::Notes, LineRole::Edge, at(&foot.outer[0]), at(&foot.outer[1]));
        art.line(Layer::Notes, LineRole::Thin, at(&foot.inner[0]), at(&foot.inner[1]));
        let middle = at(&(foot.inner[0] + (foot.inner[1] - foot.inner[0]) / 2.0));
        let inward = (foot.inner[0] - foot.outer[0]).try_normalize(0.0).unwrap_or_default();
        let spot = middle + inward * 3.0 - V2::new(0.0, PLAIN / 2.0);
        art.push(Text { bold: true, ..Text::note(spot, PLAIN, Anchor::Middle, foot.letter.clone()) });
    }
    for (k, (ring_of, name)) in plan.extras.iter().enumerate() {
        outline(art, LineRole::Hidden, ring_of);
        // Of several pieces of one thing, one is named.
        let named = plan.extras[..k].iter().any(|(_, other)| other == name);
        if let Some((low, high)) = bounds(ring_of).filter(|_| !named) {
            let spot = at(&P2::new((low.x + high.x) / 2.0, low.y)) - V2::new(0.0, SMALLEST * 1.6);
            art.push(Text::note(spot, SMALLEST, Anchor::Middle, name.clone()));
        }
    }
    if let Some(cable) = plan.cable {
        let middle = at(&cable);
        for arm in [V2::x(), V2::y()] {
            art.line(Layer::Notes, LineRole::Thin, middle - arm * CROSS, middle + arm * CROSS);
        }
        let text = Text::note(middle + V2::new(CROSS + 1.0, 1.0), SMALLEST, Anchor::Start, "cable");
        art.push(text);
    }
}

/// Running dimensions (ISO 129-1) of the corners of walls along the front and the left edge of the board.
fn rule(art: &mut Drawing, plan: &Plan, about: &About<'_>, corner: P2, scale: f64) {
    let unit = about.solved.unit;
    for axis in [0, 1] {
        let along = if axis == 0 { V2::x() } else { V2::y() };
        let out = if axis == 0 { -V2::y() } else { -V2::x() };
        let mut values: Vec<f64> = plan.feet.iter().flat_map(|f| f.outer).map(|p| p[axis]).collect();
        values.extend([0.0, plan.size[axis]]);
        values.sort_by(f64::total_cmp);
        values.dedup_by(|b, a| (*b - *a).abs() < ALIKE);
        let spots = spread(&values.iter().map(|v| v * scale).collect::<Vec<_>>(), APART);
        for (value, spot) in values.iter().zip(spots) {
            let start = corner + along * (value * scale) + out * 0.8;
            let bend = corner + along * spot + out * (OFF + 1.5);
            let text = unit.print_bare(Length::mm_of(*value));
            art.push(Stroke::polyline(Layer::Notes, LineRole::Thin, &[start, start + out * 1.2, bend]));
            let width = text_width(&text, SMALLEST, false);
            // Read from the right along the front edge, level along the left one.
            let note = if axis == 0 {
                let at = bend + out * (width + 0.8) + along * (SMALLEST / 2.0);
                Text { turn: std::f64::consts::FRAC_PI_2, ..Text::note(at, SMALLEST, Anchor::Start, text) }
            } else {
                let at = bend + out * 0.8 - along * (SMALLEST / 2.0);
                Text::note(at, SMALLEST, Anchor::End, text)
            };
            art.push(note);
        }
    }
}

/// Moves sorted places apart until they are `least` from each other, as little as needed.
fn spread(places: &[f64], least: f64) -> Vec<f64> {
    let mut spots = places.to_vec();
    for _ in 0..100 {
        let mut moved = false;
        for k in 1..spots.len() {
            let lack = least - (spots[k] - spots[k - 1]);
            if lack > 1e-6 {
                spots[k] += lack / 2.0;
                spots[k - 1] -= lack / 2.0;
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
    spots
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Without what stands free the board is as large as the house, roof included, and a rim all round; and every foot on
    /// it lies where its joint is.
    #[test]
    fn the_board_carries_the_house_and_shows_where_it_stands() {
        for name in gable_shell::demo::names() {
            let mut house = gable_shell::demo::house(name).unwrap();
            house.dressing.extras.clear();
            let solved = gable_shell::solve(&house);
            let [width, depth, _] = solved.overall().unwrap();
            let (w, d) = board_size(&house, &solved).unwrap();
            for (board, size) in [(w, width), (d, depth)] {
                assert!(((board - size).mm() - 2.0 * RIM).abs() < 1e-6, "{name}: {board:?} {size:?}");
            }
            let plan = Plan::of(&solved, &gable_dress::dress(&house, &solved)).unwrap();
            let low = solved
                .pieces
                .iter()
                .flat_map(Piece::corners)
                .fold(P2::new(f64::MAX, f64::MAX), |low, p| P2::new(low.x.min(p.x), low.y.min(p.y)));
            let bases = solved.joints.iter().filter(|j| j.ends.contains(&gable_shell::JointEnd::Board));
            for joint in bases {
                let feet: Vec<&Foot> = plan.feet.iter().filter(|f| f.letter == joint.letter).collect();
                assert!(!feet.is_empty(), "{name}: {} is not on the plan", joint.letter);
                let line = joint.line.map(|p| p.xy() - low.coords + V2::new(RIM, RIM));
                let way = (line[1] - line[0]).normalize();
                for p in feet.iter().flat_map(|f| f.outer) {
                    assert!(way.perp(&(p - line[0])).abs() < 1e-6, "{name}: {} lies beside its joint", joint.letter);
                }
            }
        }
    }

    #[test]
    fn sizes_move_apart_and_keep_their_order() {
        let spots = spread(&[0.0, 1.0, 1.5, 40.0], 3.0);
        assert!(spots.windows(2).all(|w| w[1] - w[0] > 2.9), "{spots:?}");
        assert!((spots[3] - 40.0).abs() < 1e-9);
    }
}
