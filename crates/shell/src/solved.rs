use crate::{DoughId, Mode, OpeningId, PartId, Relation, SideId};
use gable_measure::{Angle, Finding, Length, Severity, Unit};
use gable_plane::{Contour, P2, P3, Rigid, Solid, V3, bounds};
use gable_words::tr;

/// Everything the solver found out about a house. Plain data: print, screen and plans only read it.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// Unit of the house.
    pub unit: Unit,
    /// Gap left for icing.
    pub gap: Length,
    /// The parts, in the house's order.
    pub parts: Vec<SolvedPart>,
    /// The pieces, in a fixed order: by part; floor, plates under it, walls, posts, roof, lid, parapet.
    pub pieces: Vec<Piece>,
    /// Where pieces meet, in letter order.
    pub joints: Vec<Joint>,
    /// Pieces that are congruent and can be cut with one template, in the order of their first piece.
    pub groups: Vec<Group>,
    /// What the solver noticed.
    pub findings: Vec<Finding>,
    /// What the person wants of the order of assembly, as far as there are such pieces.
    pub wishes: Vec<Wish>,
    /// What would put some of the findings right, in their order.
    pub offers: Vec<Offer>,
    /// What has changed because of what came out of the oven: every piece that is not as it was planned.
    pub changes: Vec<Altered>,
}

/// That some pieces are to be put up before others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wish {
    /// Index into [`crate::House::order`].
    pub index: usize,
    /// Indices into [`Solved::pieces`] of what comes first.
    pub first: Vec<usize>,
    /// The same of what comes after all of that.
    pub then: Vec<usize>,
    /// 'Porch before roof of Main body'.
    pub words: String,
}

/// A piece that is not as it was planned, because something came out of the oven otherwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Altered {
    /// The piece.
    pub piece: PieceId,
    /// Its name for people.
    pub name: String,
    /// Part it belongs to.
    pub part: PartId,
    /// It is baked already, so it only came out otherwise.
    pub baked: bool,
    /// What it measures as planned; none if the plan has no such piece.
    pub before: Option<Extent>,
    /// What it measures now; none if there is no such piece any more.
    pub after: Option<Extent>,
    /// How far the farthest point of its outline or openings has moved, when both are laid on each other with the middle
    /// of their feet.
    pub moved: Length,
}

impl Altered {
    /// What has become of the piece: 'was 180 × 96 mm, is 182 × 96 mm; its outline moves by up to 1 mm'.
    pub fn words(&self, unit: Unit) -> String {
        let size = |e: &Extent| format!("{} × {}", unit.print_bare(e.width), unit.print(e.height));
        let (before, after) = match (&self.before, &self.after) {
            (None, Some(after)) => return tr!("is new, {}", size(after)),
            (Some(before), None) => return tr!("is not needed any more, was {}", size(before)),
            (Some(before), Some(after)) => (before, after),
            (None, None) => return String::new(),
        };
        let mut words = if size(before) == size(after) {
            tr!("measures {} as before", size(after))
        } else {
            tr!("was {}, is {}", size(before), size(after))
        };
        if self.moved > Length::ZERO && self.moved.mm() > 0.05 {
            words += &tr!("; its outline moves by up to {}", unit.print(self.moved));
        }
        if unit.print(before.thickness) != unit.print(after.thickness) {
            let [was, is] = [before, after].map(|e| unit.print(e.thickness));
            words += &tr!("; came out {is} thick, not {was}");
        }
        words
    }
}

/// What a piece measures over all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Along its foot.
    pub width: Length,
    /// Up from its foot.
    pub height: Length,
    /// Thickness of the biscuit.
    pub thickness: Length,
}

/// Something that would put a finding right, if the person wants it.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Index into [`Solved::findings`].
    pub finding: usize,
    /// The relation that would be added.
    pub relation: Relation,
}

impl Solved {
    /// The findings that must be put right before anything can be built.
    pub fn blocking(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|f| f.severity == Severity::Blocking)
    }

    /// Width, depth and height of the box round all pieces; nothing without pieces.
    pub fn overall(&self) -> Option<[Length; 3]> {
        let far = |c: f64| P3::from([c; 3]);
        let corners = self.pieces.iter().flat_map(Piece::corners);
        let (low, high) = corners.fold((far(f64::INFINITY), far(f64::NEG_INFINITY)), |(low, high), p| {
            (P3::from(low.coords.inf(&p.coords)), P3::from(high.coords.sup(&p.coords)))
        });
        let size = high - low;
        (!self.pieces.is_empty()).then(|| [size.x, size.y, size.z].map(Length::mm_of))
    }

    /// Number of the template that a piece is cut with.
    pub fn template_number(&self, piece: &Piece) -> usize {
        self.groups.get(piece.group).map_or(piece.group + 1, |group| group.number)
    }
}

/// A part with its plan worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct SolvedPart {
    /// Its id.
    pub id: PartId,
    /// Its name.
    pub name: String,
    /// Where the part stands: its own coordinates have the origin of its plan and count heights from its foot.
    pub house_from_part: Rigid,
    /// Outer corners of the plan in the house, counter-clockwise; side k runs from corner k to the next.
    pub plan: Vec<P2>,
    /// Height of the highest point of the roof's underside above the foot of the part.
    pub ridge_height: Length,
}

/// Stable name of a piece: part, role and side, such as `main/wall-front`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PieceId(pub String);

/// Which slope of a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tier {
    /// The only one.
    Single,
    /// Below a knee.
    Lower,
    /// Above a knee.
    Upper,
}

/// What a piece is in its part.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Floor slab; of several plates the topmost.
    Floor,
    /// A plate under the floor, counted from the ground, from 1.
    Layer(usize),
    /// Wall of a side.
    Wall(SideId),
    /// A post of a side, counted from the left seen from outside, from 1; one of its strips, from the outside in, where it
    /// has several.
    Post(SideId, u8, Option<u8>),
    /// Slope of a side.
    Slope(SideId, Tier),
    /// Flat plate on top.
    Lid,
    /// Strip of the parapet over a side.
    Parapet(SideId),
}

impl Role {
    /// The side that it belongs to; none of floors and lids.
    pub const fn side(&self) -> Option<&SideId> {
        match self {
            Self::Wall(side) | Self::Post(side, ..) | Self::Slope(side, _) | Self::Parapet(side) => Some(side),
            Self::Floor | Self::Layer(_) | Self::Lid => None,
        }
    }

    /// Whether it stands upright and z of the piece runs into the house: walls, posts, parapets.
    pub const fn is_upright(&self) -> bool {
        matches!(self, Self::Wall(_) | Self::Post(..) | Self::Parapet(_))
    }

    /// Whether it lies level, its upper face up: floors and lids.
    pub const fn is_level(&self) -> bool {
        matches!(self, Self::Floor | Self::Layer(_) | Self::Lid)
    }
}

/// One flat thing cut from dough.
///
/// The solid joins `outline` at z = 0 (the reference face: outside of a wall, underside of a slope, lid or floor) to
/// `outline_back` at z = `thickness`, corner by corner; straight-cut pieces have both equal. z of the piece therefore
/// runs **into** the house for a wall and **out of** it for a roof. Both rings run counter-clockwise seen against z.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Stable id.
    pub id: PieceId,
    /// Name for people, such as 'Main body: front wall'.
    pub name: String,
    /// Part it belongs to.
    pub part: PartId,
    /// It is baked already: it stays what it is.
    pub baked: bool,
    /// What it is.
    pub role: Role,
    /// Index into [`Solved::groups`].
    pub group: usize,
    /// Its dough.
    pub dough: DoughId,
    /// Thickness of the dough.
    pub rolled: Length,
    /// Thickness of the biscuit.
    pub thickness: Length,
    /// Corners on the reference face.
    pub outline: Vec<P2>,
    /// Corners on the other face, as many as `outline`.
    pub outline_back: Vec<P2>,
    /// `edges[k]` belongs to the edge from `outline[k]` to the next corner.
    pub edges: Vec<EdgeKind>,
    /// Doors and windows inside the outline, straight through or pressed.
    pub openings: Vec<PieceOpening>,
    /// Openings cut through the foot of a wall. They are **part of the outline already** (arcs flattened within
    /// 0.005 mm) and are listed only for their names and exact shapes.
    pub notches: Vec<PieceOpening>,
    /// Where the finished house has it.
    pub house_from_piece: Rigid,
    /// Which way is up in the house, as a unit direction in piece coordinates (for level pieces: the back).
    pub up: gable_plane::V2,
}

impl Piece {
    /// Whether the outside of the house is the face that `outline` lies in.
    pub fn reference_is_outside(&self) -> bool {
        !matches!(self.role, Role::Slope(..) | Role::Lid)
    }

    /// Its corners in the house, those of the reference face first.
    pub fn corners(&self) -> impl Iterator<Item = P3> + '_ {
        let near = self.outline.iter().map(|p| P3::new(p.x, p.y, 0.0));
        let far = self.outline_back.iter().map(|p| P3::new(p.x, p.y, self.thickness.mm()));
        near.chain(far).map(|p| self.house_from_piece * p)
    }

    /// The unit direction square to it that looks out of the house.
    pub fn outward(&self) -> V3 {
        let z = self.house_from_piece * V3::z();
        if self.reference_is_outside() { -z } else { z }
    }

    /// Whether an opening of it is a door: it starts at the foot of its wall.
    pub fn is_door(&self, opening: &PieceOpening) -> bool {
        let foot = bounds(self.outline.iter().chain(&self.outline_back)).map(|(low, _)| low.y);
        let (low, _) = opening.contour.bounds();
        matches!(self.role, Role::Wall(_)) && foot.is_some_and(|foot| low.y <= foot + gable_plane::SAME_POINT)
    }

    /// Width and height over all, both faces counted, along x and y of the piece.
    pub fn size(&self) -> (Length, Length) {
        let size = bounds(self.outline.iter().chain(&self.outline_back)).map(|(low, high)| high - low);
        let size = size.unwrap_or_default();
        (Length::mm_of(size.x), Length::mm_of(size.y))
    }
}

/// What an edge of a piece is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EdgeKind {
    /// It belongs to the joint with this index in [`Solved::joints`].
    Joint(usize),
    /// Nothing meets it.
    Free,
}

/// An opening as it lies in its piece.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceOpening {
    /// Which opening of the part.
    pub id: OpeningId,
    /// Which of its copies, counted as in [`crate::Opening::layout`]; 0 where there is but one.
    pub copy: usize,
    /// Name for people.
    pub name: String,
    /// Outline in piece coordinates, counter-clockwise.
    pub contour: Contour,
    /// Cut, glazed or pressed.
    pub mode: Mode,
}

/// Pieces cut with one template.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// Number printed on the template, from 1.
    pub number: usize,
    /// The pieces: first those cut alike, then those cut with the template turned over, each in their order. The first
    /// one gives the template its shape.
    pub members: Vec<Member>,
}

/// A piece of a group and how it lies on the first one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Member {
    /// Index into [`Solved::pieces`].
    pub piece: usize,
    /// Whether it is cut with the template turned over.
    pub turned_over: bool,
    /// Its corner that lies on corner 0 of the first. From there its corners lie on those of the first in turn, counted
    /// on; turned over, counted back. Of several ways to lie on it, it is the one that turns it least.
    pub start: usize,
}

impl Group {
    /// The pieces cut alike, as indices into [`Solved::pieces`].
    pub fn same(&self) -> impl Iterator<Item = usize> + '_ {
        self.members.iter().filter(|m| !m.turned_over).map(|m| m.piece)
    }

    /// The pieces cut with the template turned over, as indices into [`Solved::pieces`].
    pub fn turned_over(&self) -> impl Iterator<Item = usize> + '_ {
        self.members.iter().filter(|m| m.turned_over).map(|m| m.piece)
    }
}

/// Stable name of a joint: kind and the two pieces.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct JointId(pub String);

/// What kind of place two pieces meet in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum JointKind {
    /// Wall or parapet strip against wall or parapet strip.
    Corner,
    /// Level top of a wall and what lies on it.
    Eave,
    /// Sloping top of a wall and the slope on it.
    Rake,
    /// Two slopes along a level line.
    Ridge,
    /// Two slopes along a sloping line that points outwards.
    Hip,
    /// Lower and upper slope of a side, or a slope and the lid.
    Knee,
    /// Two slopes along a line that points inwards.
    Valley,
    /// A piece that stands against the face of another.
    Abutment,
    /// The foot of a wall or post on the floor or the base board, or of a parapet strip on the lid.
    Base,
    /// Two plates that lie face to face: of a floor of several plates, or of a post of several strips.
    Layer,
}

impl JointKind {
    /// The word for it, in the language that is spoken.
    pub fn words(self) -> &'static str {
        match self {
            Self::Corner => tr!("a joint" => "corner"),
            Self::Eave => tr!("a joint" => "eave"),
            Self::Rake => tr!("a joint" => "rake"),
            Self::Ridge => tr!("a joint" => "ridge"),
            Self::Hip => tr!("a joint" => "hip"),
            Self::Knee => tr!("a joint" => "knee"),
            Self::Valley => tr!("a joint" => "valley"),
            Self::Abutment => tr!("a joint" => "abutment"),
            Self::Base => tr!("a joint" => "base"),
            Self::Layer => tr!("a joint" => "layer"),
        }
    }

    /// The word for it in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Corner => "corner",
            Self::Eave => "eave",
            Self::Rake => "rake",
            Self::Ridge => "ridge",
            Self::Hip => "hip",
            Self::Knee => "knee",
            Self::Valley => "valley",
            Self::Abutment => "abutment",
            Self::Base => "base",
            Self::Layer => "layer",
        }
    }
}

/// One side of a joint.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum JointEnd {
    /// A piece, by index into [`Solved::pieces`].
    Piece(usize),
    /// The base board.
    Board,
}

/// Where two pieces meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Stable id.
    pub id: JointId,
    /// Letters on both edges: A … Z, AA, AB …
    pub letter: String,
    /// What kind.
    pub kind: JointKind,
    /// The two sides; the first one runs through or stays whole.
    pub ends: [JointEnd; 2],
    /// Where they meet, in the house: the edge that touches, on the outside when both edges of a wall do, and on the
    /// underside of roofs; only as long as both pieces are there.
    pub line: [P3; 2],
    /// Angle between the two pieces, measured inside the house.
    pub dihedral: Angle,
    /// Bevel from square that would close the joint: of both edges where they are alike (ridge, hip, knee, mitred
    /// corner), otherwise of the edge of the second piece.
    pub bevel: Angle,
    /// What a straight cut leaves open.
    pub wedge: Wedge,
    /// Gap for icing between the two.
    pub gap: Length,
    /// What icing fills, gap and wedge, in the house: convex solids that do not overlap. They reach to the rim of
    /// the roof, overhang included.
    pub icing: Vec<Solid>,
}

/// The open wedge of a joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wedge {
    /// Where it shows.
    pub side: WedgeSide,
    /// How wide it is where it shows.
    pub width: Length,
    /// Area across the joint, mm², gap included.
    pub area: f64,
    /// Volume of the icing that fills gap and wedge, mm³.
    pub volume: f64,
}

/// Where a wedge shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WedgeSide {
    /// Faces lie on each other all over.
    Closed,
    /// It opens to the inside of the house.
    Inside,
    /// It opens to the outside.
    Outside,
    /// It opens to both.
    Both,
}
