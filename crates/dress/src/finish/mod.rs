//! Finishes: what covers faces, cut to each face as it was finally cut and to its openings.

mod boards;
mod border;
mod brick;
mod covered;
mod crowded;
mod face;
mod fill;
mod hidden;
mod laid;
mod narrow;
mod shades;
mod snow;
mod stone;
#[cfg(test)]
mod tests;
mod tiles;

pub use covered::{Covered, Tally, Unit};
pub(crate) use face::Face;
pub(crate) use hidden::Standing;

use crate::OrnamentPiece;
use border::{Border, Clipped, Kept};
use face::kind_of;
use gable_measure::{Finding, Length};
use gable_plane::{P2, P3, ring_area};
use gable_shell::{Covering, Finish, House, Piece, Rates, Solved};
use hidden::under_ornaments;
use laid::{Laid, Slab};
use shades::{Chance, deal};

/// Narrower bits than this are dust, mm: they come from rounding.
const DUST: f64 = 0.02;

/// All finishes of a house, in the order of the pieces; snow after what it lies on.
pub(crate) fn finishes(
    house: &House,
    solved: &Solved,
    ornaments: &[OrnamentPiece],
    findings: &mut Vec<Finding>,
) -> Vec<Covered> {
    let mut all = Vec::new();
    if house.dressing.finishes.is_empty() {
        return all;
    }
    let standing = Standing::new(solved);
    for (index, piece) in solved.pieces.iter().enumerate() {
        for number in chosen(house, piece) {
            let finish = &house.dressing.finishes[number];
            let Some(face) = Face::of(house, solved, piece) else { continue };
            let taken: Vec<Vec<P3>> =
                standing.on(piece).into_iter().chain(under_ornaments(piece, index, ornaments)).collect();
            let face = face.uncovered(&taken, piece);
            if face.border.is_empty() {
                continue;
            }
            if crowded::too_many(&finish.covering, &face) {
                findings.push(crowded::remark(&finish.covering, piece));
                continue;
            }
            let covered = cover(finish, face, piece, &house.dressing.rates);
            let covered = Covered { piece: index, finish: number, ..covered };
            all.push(covered);
        }
    }
    narrow::remark(&all, &solved.pieces, house, findings);
    all
}

/// The finishes of a piece, as indices: the last that covers it, and the last snow on it.
fn chosen(house: &House, piece: &Piece) -> Vec<usize> {
    let finishes = &house.dressing.finishes;
    let last = |snow: bool| {
        let fits = |f: &Finish| matches!(f.covering, Covering::Snow { .. }) == snow && covers(f, piece);
        finishes.iter().rposition(fits)
    };
    [last(false), last(true)].into_iter().flatten().collect()
}

/// Whether a finish covers the outside of a piece.
pub(crate) fn covers(finish: &Finish, piece: &Piece) -> bool {
    let faces = &finish.faces;
    kind_of(&piece.role) == Some(faces.which)
        && faces.part.as_ref().is_none_or(|part| *part == piece.part)
        && faces.side.as_ref().is_none_or(|own| Some(own) == piece.role.side())
}

/// A unit on the face: what is left of it, whether it is whole, and the mass of it against its visible area.
struct Placed {
    shape: Clipped,
    whole: bool,
    /// Area with what is covered over the area that shows.
    laps: f64,
}

fn cover(finish: &Finish, face: Face, piece: &Piece, rates: &Rates) -> Covered {
    let mut chance = Chance::new(finish.seed, &piece.id.0);
    let (placed, lines) = match finish.covering {
        Covering::Stone { size, joint } => {
            let rubble = stone::lay(&face.border, size.mm(), joint.mm(), &mut chance);
            let whole = |shape| Placed { shape, whole: true, laps: 1.0 };
            (rubble.stones.into_iter().map(whole).collect(), rubble.lines)
        }
        covering => cut_to(&face.border, lay(&covering, &face, &mut chance)),
    };
    finished(finish, &face, placed, &lines, &mut chance, rates)
}

/// Units over the whole box of the face.
fn lay(covering: &Covering, face: &Face, chance: &mut Chance) -> Laid {
    let (low, high) = face.border.bounds();
    match *covering {
        Covering::Tiles { shape, width, length, exposure } => {
            let (width, length, exposure) = (width.mm(), length.mm(), exposure.mm());
            tiles::lay(&tiles::Tiles { shape, width, length, exposure }, low, high)
        }
        Covering::Brick { bond, length, height, joint } => {
            let (length, height, joint) = (length.mm(), height.mm(), joint.mm());
            let run = brick::Run { length: face.side.unwrap_or(high.x - low.x), side: face.number };
            let start = if face.side.is_some() { 0.0 } else { low.x };
            brick::lay(&brick::Bricks { bond, length, height, joint }, &run, start, low, high)
        }
        Covering::Weatherboard { exposure, length } => boards::weatherboard(exposure.mm(), length.mm(), low, high),
        Covering::BoardAndBatten { board, batten } => boards::board_and_batten(board.mm(), batten.mm(), low, high),
        Covering::HalfTimber { timber, bay, braces } => {
            boards::half_timber(&boards::Frame { timber: timber.mm(), bay: bay.mm(), braces }, low, high)
        }
        Covering::Snow { depth, tongue } => snow::lay(depth.mm(), tongue.mm(), low, high, chance),
        Covering::Stone { .. } => Laid::default(),
    }
}

/// What of the units and lines lies on the face. Without lines of their own the outlines of the units serve.
fn cut_to(border: &Border, laid: Laid) -> (Vec<Placed>, Vec<[P2; 2]>) {
    let mut placed = Vec::with_capacity(laid.slabs.len());
    for slab in laid.slabs {
        place(border, slab, &mut placed);
    }
    let lines: Vec<[P2; 2]> = if laid.lines.is_empty() {
        let sides = |p: &Placed| {
            let rim = p.shape.rim.clone();
            (0..rim.len()).map(|k| [rim[k], rim[(k + 1) % rim.len()]]).collect::<Vec<_>>()
        };
        placed.iter().flat_map(sides).collect()
    } else {
        laid.lines.iter().flat_map(|[from, to]| border.spans(*from, *to)).collect()
    };
    (placed, lines)
}

fn place(border: &Border, slab: Slab, placed: &mut Vec<Placed>) {
    let shows = ring_area(&slab.ring).abs();
    let Some((low, high)) = gable_plane::bounds(&slab.ring) else { return };
    let top = P2::new(high.x, high.y + slab.covered);
    let laps = if shows > 0.0 { 1.0 + slab.covered * (high.x - low.x) / shows } else { 1.0 };
    match border.clip(&slab.ring, slab.convex) {
        Kept::Whole => {
            let whole = slab.whole && (slab.covered <= 0.0 || border.holds(low, top));
            placed.push(Placed { shape: Clipped { rim: slab.ring, holes: Vec::new() }, whole, laps });
        }
        Kept::Parts(parts) => {
            let real = parts.into_iter().filter(|p| narrow::width(&p.rim) > DUST);
            placed.extend(real.map(|shape| Placed { shape, whole: false, laps }));
        }
    }
}

fn finished(
    finish: &Finish,
    face: &Face,
    placed: Vec<Placed>,
    lines: &[[P2; 2]],
    chance: &mut Chance,
    rates: &Rates,
) -> Covered {
    let shades = deal(&finish.shades, placed.len(), chance);
    let mut tally = Tally { face: face.border.area(), ..Tally::default() };
    (tally.whole, tally.cut) = (vec![0; finish.shades.len()], vec![0; finish.shades.len()]);
    let mut units = Vec::with_capacity(placed.len());
    for (placed, shade) in placed.into_iter().zip(shades) {
        let counts = if placed.whole { &mut tally.whole } else { &mut tally.cut };
        if let Some(count) = counts.get_mut(shade) {
            *count += 1;
        }
        let area = placed.shape.area();
        tally.covered += area;
        // mm³ times g/cm³ is mg.
        tally.mass += area * placed.laps * finish.thickness.mm() * finish.stuff.density() / 1000.0;
        let outline = face.ring_to_piece(&placed.shape.rim, true);
        let holes = placed.shape.holes.iter().map(|h| face.ring_to_piece(h, false)).collect();
        units.push(Unit { outline, holes, shade, whole: placed.whole });
    }
    tally.piping = Length::mm_of(lines.iter().map(|[a, b]| (b - a).norm()).sum());
    tally.minutes = minutes(&tally, rates);
    Covered {
        piece: 0,
        finish: 0,
        name: finish.covering.words(),
        word: finish.covering.word(),
        z: Length::mm_of(face.z),
        faces_up: face.faces_up,
        stuff: finish.stuff,
        thickness: finish.thickness,
        tints: finish.shades.iter().map(|s| s.tint).collect(),
        lapped: matches!(finish.covering, Covering::Tiles { .. } | Covering::Weatherboard { .. }),
        ground: finish.covering.ground(),
        area: face.border.rings().map(|r| face.ring_to_piece(&r, ring_area(&r) > 0.0)).collect(),
        units,
        guides: lines.iter().map(|line| line.map(|p| face.to_piece(p))).collect(),
        tally,
    }
}

fn minutes(tally: &Tally, rates: &Rates) -> f64 {
    let (whole, cut) = (tally.all_whole() as f64, tally.all_cut() as f64);
    ((whole + cut) * rates.set + cut * rates.cut + tally.piping.mm() / 100.0 * rates.pipe) / 60.0
}
