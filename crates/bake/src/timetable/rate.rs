//! How long things take: each figure with its usual value and its basis. A person may set any of them.

use crate::Basis;
use crate::figure::{Known, Settable, Values};
use gable_words::tr;

/// A figure that the length of work or waiting depends on. Minutes unless its unit says otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rate {
    /// Dough mixed at once, g.
    Batch,
    /// Weighing and mixing one batch of dough.
    MixDough,
    /// Resting of dough in the cold.
    RestDough,
    /// Rolling out the dough of one ovenful.
    Roll,
    /// Cutting 100 mm of edge, s.
    Cut,
    /// Cut pieces in the freezer.
    Freeze,
    /// Cut pieces in the cold where there is no freezer.
    Chill,
    /// Cooling on the tray.
    Cool,
    /// Drying flat under a board.
    DryFlat,
    /// Beating icing.
    BeatIcing,
    /// Cutting and gluing one pane of gelatine leaf.
    GluePane,
    /// Boiling sugar.
    BoilSugar,
    /// Pouring or filling one pane of sugar.
    FillPane,
    /// Melting crushed sweets in the oven.
    MeltPane,
    /// Until sugar is hard.
    SetSugar,
    /// Until icing has a skin.
    Skin,
    /// Until icing can be handled.
    Handle,
    /// Until icing has cured right through.
    Cure,
    /// Drying of gum paste.
    DryGumPaste,
    /// Drying of fondant.
    DryFondant,
    /// How much longer icing takes in damp air, times.
    Damp,
    /// Making one ornament.
    MakeOrnament,
    /// Sticking on one ornament.
    StickOrnament,
    /// Covering the base board and marking the house on it.
    Board,
    /// Putting up and propping one piece.
    Raise,
    /// Icing 100 mm of joint, s.
    IceJoint,
    /// Hanging one door.
    HangDoor,
    /// Making or placing one thing that stands free.
    PlaceExtra,
    /// Laying in the lights.
    Lights,
    /// Taking photographs.
    Photograph,
    /// Wrapping and loading the house, and setting it up again.
    Carry,
    /// Mending a broken piece with icing and a splint.
    Mend,
    /// Icing made at once, g.
    Bowl,
    /// Packing one kit.
    PackKit,
    /// How long icing keeps once it is made, h.
    IcingKeeps,
    /// How long dough keeps in the cold, h.
    DoughKeeps,
}

impl Rate {
    /// Every figure.
    pub const ALL: [Self; 36] = [
        Self::Batch,
        Self::MixDough,
        Self::RestDough,
        Self::Roll,
        Self::Cut,
        Self::Freeze,
        Self::Chill,
        Self::Cool,
        Self::DryFlat,
        Self::BeatIcing,
        Self::GluePane,
        Self::BoilSugar,
        Self::FillPane,
        Self::MeltPane,
        Self::SetSugar,
        Self::Skin,
        Self::Handle,
        Self::Cure,
        Self::DryGumPaste,
        Self::DryFondant,
        Self::Damp,
        Self::MakeOrnament,
        Self::StickOrnament,
        Self::Board,
        Self::Raise,
        Self::IceJoint,
        Self::HangDoor,
        Self::PlaceExtra,
        Self::Lights,
        Self::Photograph,
        Self::Carry,
        Self::Mend,
        Self::Bowl,
        Self::PackKit,
        Self::IcingKeeps,
        Self::DoughKeeps,
    ];

    /// What is known of it.
    pub fn known(self) -> Known {
        match self {
            Self::Batch => Known {
                word: "batch",
                words: tr!("dough mixed at once"),
                unit: "g",
                usual: 1400.0,
                range: (800.0, 2800.0),
                bounds: (100.0, 20_000.0),
                basis: Basis::Derived,
                source: tr!("14 published recipes make 790 to 4050 g, half of them up to 1400 g"),
            },
            Self::MixDough => habit("mix-dough", tr!("weighing and mixing a batch of dough"), 30.0, (20.0, 60.0)),
            Self::RestDough => Known {
                basis: Basis::Published,
                source: tr!("a published household recipe: 2 h in the cold; others 3 to 24 h"),
                ..habit("rest-dough", tr!("dough rests in the cold"), 120.0, (60.0, 1440.0))
            },
            Self::Roll => habit("roll", tr!("rolling out the dough of an ovenful"), 10.0, (5.0, 25.0)),
            Self::Cut => Known { unit: "s", ..habit("cut", tr!("cutting 100 mm of edge"), 6.0, (3.0, 15.0)) },
            Self::Freeze => Known {
                basis: Basis::Published,
                source: tr!("a press agency's recipe, 2019: 5 min in the freezer; habit: a few minutes"),
                ..habit("freeze", tr!("cut pieces firm in the freezer"), 10.0, (5.0, 20.0))
            },
            Self::Chill => habit("chill", tr!("cut pieces firm in the cold, without a freezer"), 30.0, (20.0, 60.0)),
            Self::Cool => habit("cool", tr!("cooling on the tray"), 20.0, (10.0, 40.0)),
            Self::DryFlat => Known {
                source: tr!(
                    "a published household recipe lets pieces stand for a day; others decorate on the next day"
                ),
                ..habit("dry-flat", tr!("biscuit dries flat under a board"), 720.0, (240.0, 1440.0))
            },
            Self::BeatIcing => Known {
                source: tr!("beaten for 5 to 10 min (household pages), and weighing, colouring, filling bags"),
                ..habit("beat-icing", tr!("making icing and filling bags"), 25.0, (15.0, 45.0))
            },
            Self::GluePane => habit("glue-pane", tr!("cutting and gluing a pane of leaf"), 4.0, (2.0, 8.0)),
            Self::BoilSugar => habit("boil-sugar", tr!("boiling sugar to hard crack"), 25.0, (15.0, 40.0)),
            Self::FillPane => habit("fill-pane", tr!("pouring or filling a pane of sugar"), 1.5, (0.5, 4.0)),
            Self::MeltPane => Known {
                source: tr!("about 5 min at 350 °F (a household page)"),
                ..habit("melt-pane", tr!("crushed sweets melt in the oven"), 6.0, (4.0, 9.0))
            },
            Self::SetSugar => habit("set-sugar", tr!("panes of sugar harden"), 30.0, (20.0, 60.0)),
            Self::Skin => habit("skin", tr!("icing gets a skin"), 30.0, (15.0, 30.0)),
            Self::Handle => habit("handle", tr!("icing sets until it can be handled"), 120.0, (60.0, 180.0)),
            Self::Cure => habit("cure", tr!("icing cures right through"), 720.0, (720.0, 1440.0)),
            Self::DryGumPaste => habit("dry-gum-paste", tr!("gum paste dries"), 1440.0, (720.0, 2880.0)),
            Self::DryFondant => habit("dry-fondant", tr!("fondant dries"), 720.0, (240.0, 1440.0)),
            Self::Damp => Known {
                unit: tr!("times"),
                usual: 2.0,
                range: (1.5, 3.0),
                bounds: (1.0, 5.0),
                source: tr!("doubled above 60 % humidity; no source"),
                ..habit("damp", tr!("longer drying in damp air"), 2.0, (1.5, 3.0))
            },
            Self::MakeOrnament => habit("make-ornament", tr!("cutting and pressing an ornament"), 3.0, (1.0, 8.0)),
            Self::StickOrnament => habit("stick-ornament", tr!("sticking on an ornament"), 1.5, (0.5, 4.0)),
            Self::Board => {
                habit("board", tr!("covering the base board and marking the house on it"), 60.0, (30.0, 120.0))
            }
            Self::Raise => habit("raise", tr!("putting up and propping a piece"), 4.0, (2.0, 10.0)),
            Self::IceJoint => {
                Known { unit: "s", ..habit("ice-joint", tr!("icing 100 mm of joint"), 20.0, (8.0, 40.0)) }
            }
            Self::HangDoor => habit("hang-door", tr!("hanging a door"), 3.0, (1.0, 8.0)),
            Self::PlaceExtra => {
                habit("place-extra", tr!("making and placing something that stands free"), 5.0, (2.0, 15.0))
            }
            Self::Lights => habit("lights", tr!("laying in the lights"), 30.0, (10.0, 90.0)),
            Self::Photograph => habit("photograph", tr!("taking photographs"), 20.0, (5.0, 60.0)),
            Self::Carry => habit("carry", tr!("wrapping, loading and setting up"), 45.0, (15.0, 120.0)),
            Self::Bowl => Known {
                unit: "g",
                bounds: (100.0, 20_000.0),
                source: tr!("what a household mixer beats at once; no source"),
                ..habit("icing-batch", tr!("icing made at once"), 1200.0, (500.0, 2000.0))
            },
            Self::PackKit => habit("pack-kit", tr!("packing a kit, its label and its slip"), 5.0, (3.0, 10.0)),
            Self::IcingKeeps => Known {
                unit: "h",
                bounds: (2.0, 2000.0),
                basis: Basis::Memory,
                source: tr!(
                    "raw whites keep 2 to 4 days in the cold; made with dried white and kept covered up to two weeks are told"
                ),
                ..habit("icing-keeps", tr!("icing keeps, covered and in the cold"), 72.0, (48.0, 336.0))
            },
            Self::DoughKeeps => Known {
                unit: "h",
                bounds: (2.0, 2000.0),
                basis: Basis::Published,
                source: tr!("about a week in the cold, a month in the freezer: AP, Dec 2008"),
                ..habit("dough-keeps", tr!("dough keeps in the cold"), 168.0, (72.0, 168.0))
            },
            Self::Mend => habit("mend", tr!("mending a broken piece with icing and a splint"), 15.0, (5.0, 40.0)),
        }
    }
}

/// Minutes by habit.
const fn habit(word: &'static str, words: &'static str, usual: f64, range: (f64, f64)) -> Known {
    let bounds = (0.0, 10_080.0);
    Known { word, words, unit: "min", usual, range, bounds, basis: Basis::Practice, source: "" }
}

/// The rates of one person.
pub type Rates = Values<Rate>;

impl Settable for Rate {
    fn all() -> &'static [Self] {
        &Self::ALL
    }

    fn known(self) -> Known {
        self.known()
    }
}
