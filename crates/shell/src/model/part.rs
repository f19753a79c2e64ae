use super::{DoughId, Opening, Outline, Place, Posts, Steps};
use gable_measure::{Length, Pitch};
use gable_words::tr;

/// Name of a part within a house, lower-case words joined by hyphens.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartId(pub String);

/// Name of a side within a part: `front`, `left`, `3` …
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SideId(pub String);

impl SideId {
    /// What people call it: `front`, `right`, `back` and `left` in the language that is spoken, else its number.
    pub fn words(&self) -> &str {
        match self.0.as_str() {
            "front" => tr!("a side" => "front"),
            "right" => tr!("a side" => "right"),
            "back" => tr!("a side" => "back"),
            "left" => tr!("a side" => "left"),
            other => other,
        }
    }
}

/// One convex body with walls and a roof.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Stable name in the file and in piece ids.
    pub id: PartId,
    /// Name for people.
    pub name: String,
    /// Outside plan.
    pub outline: Outline,
    /// Where it stands.
    pub place: Place,
    /// Height of its foot above the base board, or above the foot of the part that it stands against. On a roof it
    /// counts for nothing. Never negative.
    pub raised: Length,
    /// It stays whole where it meets other parts that do not say so: they are cut to fit, whatever the order.
    pub stays_whole: bool,
    /// The person wants it left as it is: the editor changes nothing of it by accident. It counts for nothing else.
    pub locked: bool,
    /// What its hosts do behind it.
    pub behind: Behind,
    /// Dough of the walls.
    pub wall_dough: DoughId,
    /// Dough of roof and lid.
    pub roof_dough: DoughId,
    /// Floor slab.
    pub floor: Floor,
    /// How wall corners meet.
    pub corners: Corners,
    /// How roof pieces meet.
    pub ridges: Ridges,
    /// Overhangs follow the pitch, so that all eaves end at the height of the first one.
    pub level_eaves: bool,
    /// One entry per side of the outline, in its order.
    pub sides: Vec<Side>,
    /// A flat plate on top.
    pub lid: Option<Lid>,
    /// Doors and windows.
    pub openings: Vec<Opening>,
}

impl Part {
    /// The steps of a floor that lies under the walls.
    pub fn steps(&self) -> Option<&Steps> {
        self.floor.steps.as_ref().filter(|_| self.floor.kind == FloorKind::Under)
    }

    /// Whether it is nothing but a floor under the open sky: steps before a door, a plinth.
    pub fn is_bare_floor(&self) -> bool {
        let nothing = |s: &Side| !s.wall && s.posts.is_none() && matches!(s.top, Top::Gable { .. });
        self.floor.kind == FloorKind::Under && self.lid.is_none() && self.sides.iter().all(nothing)
    }
}

/// What happens to a host's wall or roof where a guest stands against it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Behind {
    /// The host's piece stays whole behind the guest.
    #[default]
    Whole,
    /// A passage is cut through it, so that light reaches the guest.
    Passage {
        /// Width of the rim that is left to glue the guest to, measured from the inside of its walls and roof.
        rim: Length,
    },
}

/// One side of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Side {
    /// Its name.
    pub id: SideId,
    /// Whether a wall stands there.
    pub wall: bool,
    /// What stands there instead of a wall to carry the roof.
    pub posts: Option<Posts>,
    /// What is above the wall.
    pub top: Top,
}

/// What closes a side at the top.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Top {
    /// A slope whose underside passes through the outer top edge of the wall.
    Eave {
        /// Height of the wall.
        height: Length,
        /// Slope of the roof.
        pitch: Pitch,
        /// How far the roof reaches past the wall, measured level.
        overhang: Length,
    },
    /// A gable whose top is cut off by a slope.
    HalfHip {
        /// Height at which the slope starts.
        start: Length,
        /// Slope of the roof.
        pitch: Pitch,
        /// How far the roof reaches past the wall, measured level.
        overhang: Length,
    },
    /// A steep lower slope and a flatter upper one (gambrel, mansard).
    Knee {
        /// Height of the wall.
        height: Length,
        /// Steep slope.
        lower: Pitch,
        /// Height of the line where the slope changes.
        knee: Length,
        /// Flat slope.
        upper: Pitch,
        /// How far the roof reaches past the wall, measured level.
        overhang: Length,
    },
    /// The wall runs up to the slopes of the other sides.
    Gable {
        /// How far the roof reaches past the wall.
        overhang: Length,
    },
}

/// One flat plate on top: flat roof, platform, top of a mansard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lid {
    /// Height of its underside.
    pub height: Length,
    /// How far it reaches past walls that end under it.
    pub overhang: Length,
    /// A ring of strips standing on it.
    pub parapet: Option<Parapet>,
}

/// A ring of strips standing on the rim of a lid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parapet {
    /// Height of the strips.
    pub height: Length,
}

/// Floor slab of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Floor {
    /// Whether there is one, and where.
    pub kind: FloorKind,
    /// Its dough.
    pub dough: DoughId,
    /// It is built up of several plates; only of a floor under the walls.
    pub steps: Option<Steps>,
}

/// Where a floor slab lies.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FloorKind {
    /// The base board is the floor.
    #[default]
    None,
    /// Between the walls.
    Inside,
    /// The walls stand on it; heights are still measured from the board.
    Under,
}

/// How walls meet at a corner. The wall that stands higher there always runs through.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Corners {
    /// Every second wall runs through (front and back of a rectangle).
    #[default]
    Lap,
    /// Each wall runs through at its start and stops against the next at its end, so that all are alike.
    LapAround,
    /// Bevelled to half the angle.
    Mitre,
    /// Cut straight where the outer corner line would be mitred, so that the inner edges meet; only where a wall turns 60° or less.
    SquareMitre,
}

/// How roof pieces meet along ridges, hips and knees.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ridges {
    /// Cut straight; the V between them is filled with icing.
    #[default]
    Open,
    /// Bevelled to half the angle.
    Bevelled,
    /// Level ridges and knees that run from rim to rim: one piece covers the edge of the other. Hips stay open.
    Lapped,
}
