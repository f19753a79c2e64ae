//! On the way: what it weighs and where that acts, how far the board sags, the box, what sticks on badly, how it comes apart.

mod board;
mod loose;
mod sections;
#[cfg(test)]
mod tests;

pub use board::{BOARDS, BoardKind, Sag};
use gable_words::{say, tr};
pub use sections::{Section, sections};

use crate::told::{Matter, Spot, Told, between, share as said};
use crate::weights::Load;
use crate::{Answer, Class, Range, Site};
use board::{CRACKS, Spread, sag};
use gable_bake::{Figure, IcingUse, Mass, Needs};
use gable_measure::Length;
use gable_plane::{P3, bounds};

/// Room round what is carried in its box, and above it, mm (common practice, no source).
const ROOM: f64 = 20.0;
/// The board that is taken until the person says otherwise.
const USUAL_BOARD: &str = "mdf-9";

/// What is carried.
#[derive(Clone, Debug, PartialEq)]
pub struct Carry {
    /// Biscuit with all that is on it, icing, and what stands beside the house; without the board.
    pub house: Mass,
    /// The board.
    pub board: Mass,
    /// Which board was taken.
    pub kind: BoardKind,
    /// Where the weight of all acts, in the house, mm; nothing where there is nothing.
    pub middle: Option<P3>,
    /// How far that is from the middle of the board: to the right, to the back.
    pub off: (Length, Length),
    /// Width and depth of the board.
    pub board_size: Option<(Length, Length)>,
    /// Height with the board.
    pub height: Length,
    /// Inside width, depth and height of a box for it.
    pub box_size: [Length; 3],
    /// Sag when it is held by the left and right edges.
    pub by_sides: Option<Sag>,
    /// Sag when it is held by the front and back edges.
    pub by_front_and_back: Option<Sag>,
}

impl Carry {
    /// Weighs and measures a house on a board; on the usual one without a word, or with an unknown one.
    pub fn of(site: &Site<'_>, board: Option<&str>) -> Self {
        let find = |word: &str| BOARDS.iter().find(|b| b.word == word);
        let kind = *board.and_then(find).or_else(|| find(USUAL_BOARD)).unwrap_or(&BOARDS[0]);
        Self::on(&Freight::of(site), kind)
    }

    fn on(freight: &Freight, kind: BoardKind) -> Self {
        let Freight { house, size, low, high, feet } = *freight;
        let middle_of_board = nalgebra::center(&low, &high);
        let board = size.map_or(0.0, |(w, d)| w.mm() * d.mm() * kind.thickness * kind.density / 1000.0);
        let at = P3::new(middle_of_board.x, middle_of_board.y, -kind.thickness / 2.0);
        let middle = house.with(Load::at(board, at)).middle();
        let off = middle.map_or((0.0, 0.0), |m| (m.x - middle_of_board.x, m.y - middle_of_board.y));
        let height = high.z.max(0.0) + kind.thickness;
        let (w, d) = size.map_or((high.x - low.x, high.y - low.y), |(w, d)| (w.mm(), d.mm()));
        let held = |span: f64, width: f64, axis: usize| {
            let start = middle_of_board[axis] - span / 2.0;
            let (from, to) = (feet[axis].0 - start, feet[axis].1 - start);
            size.map(|_| sag(span, width, &kind, Spread { grams: house.mass().g(), from, to }))
        };
        let mm = Length::mm_of;
        Self {
            house: house.mass(),
            board: Mass::grams(board),
            kind,
            middle,
            off: (mm(off.0), mm(off.1)),
            board_size: size,
            height: mm(height),
            box_size: [mm(w + 2.0 * ROOM), mm(d + 2.0 * ROOM), mm(height + ROOM)],
            by_sides: held(w, d, 0),
            by_front_and_back: held(d, w, 1),
        }
    }

    /// By which edges it is held better: true for left and right.
    pub fn by_sides_is_better(&self) -> bool {
        match (&self.by_sides, &self.by_front_and_back) {
            (Some(a), Some(b)) => a.under_house.usual < b.under_house.usual,
            _ => false,
        }
    }

    /// The better sag.
    pub fn better(&self) -> Option<&Sag> {
        if self.by_sides_is_better() { self.by_sides.as_ref() } else { self.by_front_and_back.as_ref() }
    }
}

/// What is carried, whatever board it stands on.
#[derive(Clone, Copy, Debug)]
struct Freight {
    house: Load,
    size: Option<(Length, Length)>,
    low: P3,
    high: P3,
    /// Between which places along x and y the house stands on the board.
    feet: [(f64, f64); 2],
}

impl Freight {
    fn of(site: &Site<'_>) -> Self {
        let (low, high) = reach(site);
        Self { house: house(site), size: site.about.board, low, high, feet: [foot(site, 0), foot(site, 1)] }
    }
}

/// Everything on the board.
fn house(site: &Site<'_>) -> Load {
    let pieces: Load = site.weights.iter().map(crate::Weight::done).sum();
    let extras = site.about.dressed.extras.iter().map(|own| {
        let middle = gable_plane::ring_centroid(&own.outline);
        Load::at(own.mass(), own.house_from_piece * P3::new(middle.x, middle.y, own.thickness.mm() / 2.0))
    });
    pieces.with(extras.sum()).with(icing(site))
}

/// The icing of joints, fillets, borders and glue, dry; along the joints.
fn icing(site: &Site<'_>) -> Load {
    let needs = Needs::of(&site.about, &site.notebook.figures);
    let counted = |u: &IcingUse| !matches!(u, IcingUse::Lines | IcingUse::Fields | IcingUse::Snow);
    let wet: Mass = needs.icing.iter().flat_map(|i| &i.uses).filter(|(u, _)| counted(u)).map(|(_, m)| *m).sum();
    let dry = wet.g() * (1.0 - site.notebook.figures.get(Figure::IcingWater));
    let joints = &site.about.solved.joints;
    let long = |j: &gable_shell::Joint| (j.line[1] - j.line[0]).norm();
    let whole: f64 = joints.iter().map(long).sum::<f64>().max(1e-9);
    joints.iter().map(|j| Load::at(dry * long(j) / whole, nalgebra::center(&j.line[0], &j.line[1]))).sum()
}

/// The box round everything, in the house.
fn reach(site: &Site<'_>) -> (P3, P3) {
    let dressed = site.about.dressed;
    let solids = dressed.ornaments.iter().chain(&dressed.extras).flat_map(gable_dress::OrnamentPiece::solids);
    let apart = solids.flat_map(|s| s.corners().to_vec());
    let corners = site.pieces().iter().flat_map(gable_shell::Piece::corners).chain(apart);
    let far = |c: f64| P3::from([c; 3]);
    let (low, high) = corners.fold((far(f64::INFINITY), far(f64::NEG_INFINITY)), |(low, high), p| {
        (P3::from(low.coords.inf(&p.coords)), P3::from(high.coords.sup(&p.coords)))
    });
    if low.iter().all(|c| c.is_finite()) { (low, high) } else { (P3::origin(), P3::origin()) }
}

/// Between which places along x or y the house stands on the board.
fn foot(site: &Site<'_>, axis: usize) -> (f64, f64) {
    let corners = site.pieces().iter().flat_map(gable_shell::Piece::corners).filter(|p| p.z < 0.5).map(|p| p.xy());
    let corners: Vec<_> = corners.collect();
    bounds(&corners).map_or((0.0, 0.0), |(low, high)| (low[axis], high[axis]))
}

/// The share of what cured icing on a foot of a length takes that a board's bow asks for.
fn bent_share(sag: &Sag, foot: f64) -> Range {
    sag.under_house * (1.0 / (foot.max(1e-9) * CRACKS))
}

/// What is to be said about carrying it.
pub fn answers(site: &Site<'_>, carry: &Carry, cured: Range) -> Vec<Told> {
    let mut all: Vec<Told> = on_board(site, carry).into_iter().collect();
    all.extend(loose::told(site, cured));
    all
}

fn on_board(site: &Site<'_>, carry: &Carry) -> Option<Told> {
    let sag = carry.better()?;
    let axis = usize::from(!carry.by_sides_is_better());
    let (from, to) = foot(site, axis);
    let share = bent_share(sag, to - from);
    let class = Class::of(share);
    let edges = [tr!("left and right"), tr!("front and back")][axis];
    let reason = tr!(
        "held at its {edges} edges it sags by {}, {} of what cured icing under the house takes",
        between(sag.most, "mm"),
        said(share)
    );
    let remedy = if class == Class::Sound { String::new() } else { stiffer(site, carry) };
    let place = Spot { name: tr!("Board ({})", say(carry.kind.name)), ..Spot::default() };
    let answer = Answer { class, number: sag.most, share, reason, place };
    Some(Told { matter: Matter::Board, answer, unit: "mm", remedy })
}

/// The first board that does not bend too much: tried one after the other.
fn stiffer(site: &Site<'_>, carry: &Carry) -> String {
    let freight = Freight::of(site);
    let does = |kind: &&BoardKind| {
        let other = Carry::on(&freight, **kind);
        let (from, to) = freight.feet[usize::from(!other.by_sides_is_better())];
        other.better().is_some_and(|s| Class::of(bent_share(s, to - from)) == Class::Sound)
    };
    match BOARDS.iter().filter(|kind| kind.word != carry.kind.word).find(does) {
        Some(kind) => tr!("take {} (tried: sound), or two battens glued under it across the grip", say(kind.name)),
        None => tr!("glue two battens under it, from grip to grip, or carry it on a stiff tray").to_owned(),
    }
}
