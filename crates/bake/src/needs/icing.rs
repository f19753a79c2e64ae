//! Icing: what holds the house together, what is piped, what is filled, and snow.

use super::{About, pastes};
use crate::{Figure, Figures, HandOver, Mass};
use gable_shell::{Glass, Joint, JointEnd, JointKind, Stuff, Tint};
use gable_words::tr;
use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::PI;

/// How stiff icing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Consistency {
    /// Peaks stand: what glues.
    Stiff,
    /// Peaks bend: lines and borders.
    Medium,
    /// A line drawn through it closes: what fills a field.
    Flood,
    /// Spread as snow.
    Snow,
}

/// What icing is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum IcingUse {
    /// Beads along joints, and the wedges and gaps that they fill.
    Joints,
    /// Fillets along joints from inside, where a hand reaches.
    Fillets,
    /// Borders round panes.
    Panes,
    /// Under ornaments, tiles and boards.
    Glue,
    /// Beads over the seams outside.
    Borders,
    /// Lines of finishes and glazing bars.
    Lines,
    /// Fields, and ornaments of icing.
    Fields,
    /// Snow.
    Snow,
}

/// Icing of one consistency and colour.
#[derive(Clone, Debug, PartialEq)]
pub struct IcingNeed {
    /// How stiff it is.
    pub consistency: Consistency,
    /// Its colour.
    pub tint: Tint,
    /// What it is for, and how much of it.
    pub uses: Vec<(IcingUse, Mass)>,
    /// All of it.
    pub net: Mass,
    /// With what stays in bowls and bags.
    pub to_make: Mass,
    /// Bags to fill.
    pub bags: usize,
}

impl Consistency {
    /// Stable word for files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Stiff => "stiff",
            Self::Medium => "medium",
            Self::Flood => "flood",
            Self::Snow => "snow",
        }
    }

    /// For people.
    pub fn words(self) -> &'static str {
        match self {
            Self::Stiff => tr!("stiff"),
            Self::Medium => tr!("medium"),
            Self::Flood => tr!("flood"),
            Self::Snow => tr!("snow"),
        }
    }
}

impl IcingUse {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Joints => tr!("joints"),
            Self::Fillets => tr!("fillets inside"),
            Self::Panes => tr!("round panes"),
            Self::Glue => tr!("under ornaments and tiles"),
            Self::Borders => tr!("seams outside"),
            Self::Lines => tr!("lines"),
            Self::Fields => tr!("fields"),
            Self::Snow => tr!("snow"),
        }
    }

    const fn consistency(self) -> Consistency {
        match self {
            Self::Joints | Self::Fillets | Self::Panes | Self::Glue => Consistency::Stiff,
            Self::Borders | Self::Lines => Consistency::Medium,
            Self::Fields => Consistency::Flood,
            Self::Snow => Consistency::Snow,
        }
    }
}

/// All icing of a house.
pub(super) fn needs(about: &About<'_>, figures: &Figures) -> Vec<IcingNeed> {
    worked_out(about, figures, |_| true, |_| true)
}

/// What is left for those who finish a house that is handed over so, with these pieces, by their index, put up already.
pub(super) fn left(
    about: &About<'_>,
    figures: &Figures,
    until: HandOver,
    standing: &BTreeSet<usize>,
) -> Vec<IcingNeed> {
    let stands = |end: &JointEnd| match end {
        JointEnd::Piece(piece) => standing.contains(piece),
        JointEnd::Board => true,
    };
    worked_out(about, figures, |joint| !joint.ends.iter().all(stands), |used| until.leaves(used))
}

/// Icing for some uses; joints and fillets only along joints that are still `open`.
fn worked_out(
    about: &About<'_>,
    figures: &Figures,
    open: impl Fn(&Joint) -> bool,
    wanted: impl Fn(IcingUse) -> bool,
) -> Vec<IcingNeed> {
    let mut all: BTreeMap<(Consistency, Tint), BTreeMap<IcingUse, Mass>> = BTreeMap::new();
    let density = figures.get(Figure::IcingDensity);
    let volumes = volumes(about, figures, open)
        .into_iter()
        .map(|(what, mm3)| (what, Tint::Icing, Mass::grams(mm3 * density / 1000.0)));
    let some = |(what, _, mass): &(IcingUse, Tint, Mass)| *mass > Mass::ZERO && wanted(*what);
    for (what, tint, mass) in volumes.chain(spread(about)).filter(some) {
        *all.entry((what.consistency(), tint)).or_default().entry(what).or_default() += mass;
    }
    let need = |((consistency, tint), uses): ((Consistency, Tint), BTreeMap<IcingUse, Mass>)| {
        let net: Mass = uses.values().copied().sum();
        let to_make = net * (1.0 + figures.get(Figure::IcingSpare));
        let bags = (to_make.g() / figures.get(Figure::Bag)).ceil() as usize;
        // Snow is spread with a knife.
        let bags = if consistency == Consistency::Snow { 0 } else { bags };
        IcingNeed { consistency, tint, uses: uses.into_iter().collect(), net, to_make, bags }
    };
    all.into_iter().map(need).collect()
}

/// What is white and given by its volume, mm³.
fn volumes(about: &About<'_>, figures: &Figures, open: impl Fn(&Joint) -> bool) -> [(IcingUse, f64); 6] {
    let joints = &about.solved.joints;
    let round = |figure: Figure| PI / 4.0 * figures.get(figure).powi(2);
    let (bead, line, border) = (round(Figure::Bead), round(Figure::PipedLine), round(Figure::Border));
    let closed = |k: &usize| about.guide.is_some_and(|g| g.stages.iter().any(|s| s.out_of_reach.contains(k)));
    let reached = (0..joints.len()).filter(|k| !closed(k)).map(|k| &joints[k]).filter(|j| open(j));
    let piped = about.dressed.finishes.iter().map(|f| f.tally.piping.mm()).sum::<f64>();
    let bars =
        about.dressed.opening_lines.iter().filter(|l| !l.pressed).map(|l| (l.ends[1] - l.ends[0]).norm()).sum::<f64>();
    let rims = about.dressed.panes.iter().filter(|p| p.glass == Glass::Leaf).map(|p| p.outline.length()).sum::<f64>();
    [
        (IcingUse::Joints, joints.iter().filter(|j| open(j)).map(|j| j.wedge.volume.max(bead * length(j))).sum()),
        (IcingUse::Fillets, reached.map(|j| fillet(j, figures.get(Figure::Fillet)) * length(j)).sum()),
        (IcingUse::Panes, line * rims),
        (IcingUse::Glue, figures.get(Figure::GlueFilm) * glued(about)),
        (IcingUse::Borders, joints.iter().filter(|j| shows(j.kind)).map(|j| border * length(j)).sum()),
        (IcingUse::Lines, line * (piped + bars)),
    ]
}

fn length(joint: &Joint) -> f64 {
    (joint.line[1] - joint.line[0]).norm()
}

/// Area across a fillet that reaches so far along both pieces, mm²: a triangle between them.
fn fillet(joint: &Joint, leg: f64) -> f64 {
    match joint.kind {
        // Plates lie face to face and have no inside.
        JointKind::Layer => 0.0,
        // A wall on the board, or against a face: square.
        JointKind::Base => leg * leg / 2.0,
        _ => leg * leg / 2.0 * joint.dihedral.rad().sin().max(0.0),
    }
}

/// Whether the seam is seen from outside and usually covered.
const fn shows(kind: JointKind) -> bool {
    match kind {
        JointKind::Corner
        | JointKind::Ridge
        | JointKind::Hip
        | JointKind::Knee
        | JointKind::Valley
        | JointKind::Base => true,
        JointKind::Abutment => true,
        // Under an overhang nobody sees them.
        JointKind::Eave | JointKind::Rake | JointKind::Layer => false,
    }
}

/// Area that is stuck on, mm².
fn glued(about: &About<'_>) -> f64 {
    let stuck = about.dressed.finishes.iter().filter(|f| f.stuff != Stuff::Icing).map(|f| f.tally.covered);
    let ornaments =
        about.dressed.ornaments.iter().filter(|o| o.stuff != Stuff::Icing).map(gable_dress::OrnamentPiece::area);
    stuck.chain(ornaments).sum()
}

/// What is made of icing itself, in its colours.
fn spread<'a>(about: &About<'a>) -> impl Iterator<Item = (IcingUse, Tint, Mass)> + 'a {
    let icing = pastes::on_house(about).filter(|o| o.stuff == Stuff::Icing);
    icing.map(|o| (if o.snow { IcingUse::Snow } else { IcingUse::Fields }, o.tint, o.mass))
}
