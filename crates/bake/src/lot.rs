//! Houses that are baked together, and how many are made of each; one house made once is the usual case.

use crate::notebook::title;
use crate::{About, IcingUse, ToBake};
use gable_shell::{Role, Solved};
use gable_words::tr;
use std::collections::BTreeSet;

/// So many of one house.
#[derive(Clone, Debug)]
pub struct Lot<'a> {
    /// The house.
    pub about: About<'a>,
    /// How many of it are made, one at least.
    pub copies: usize,
    /// What the house is called; no two of a bake are called the same.
    pub title: String,
    /// Its letter, which stands before the numbers of its templates where several houses are baked.
    pub mark: Option<char>,
    /// What its ids begin with; nothing for the first house, so that its tasks keep their names whatever else is baked.
    before: String,
}

/// All that is baked together, the house that the bake belongs to first; one house at least.
#[derive(Clone, Debug)]
pub struct Lots<'a> {
    all: Vec<Lot<'a>>,
    /// As what they are handed over.
    pub until: HandOver,
}

/// How far houses are taken before they are handed over to those who finish them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum HandOver {
    /// Baked and packed with bags of icing; nothing stands.
    Kits,
    /// Walls stand on their board, the rest is packed.
    Walls,
    /// Roofs are on too.
    Shells,
    /// Nothing is left to do.
    #[default]
    Finished,
}

impl HandOver {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::Kits, Self::Walls, Self::Shells, Self::Finished];

    /// Stable word for files and the command line.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Kits => "kits",
            Self::Walls => "walls",
            Self::Shells => "shells",
            Self::Finished => "finished",
        }
    }

    /// For people.
    pub fn words(self) -> &'static str {
        match self {
            Self::Kits => tr!("kits: baked pieces and bags of icing"),
            Self::Walls => tr!("walls that stand, and the rest as a kit"),
            Self::Shells => tr!("walls and roofs that stand, to be decorated"),
            Self::Finished => tr!("finished houses"),
        }
    }

    /// Whether icing for a use is left for those who finish it, of joints only for those that are open still; of finished
    /// houses that is all there is.
    pub(crate) const fn leaves(self, used: IcingUse) -> bool {
        match self {
            Self::Kits | Self::Finished => true,
            Self::Walls | Self::Shells => !matches!(used, IcingUse::Panes),
        }
    }

    /// Whether a stage of these pieces, by their index, is put up before that.
    pub(crate) fn raises(self, solved: &Solved, pieces: &[usize]) -> bool {
        let roof = |k: &usize| solved.pieces.get(*k).is_some_and(|own| matches!(own.role, Role::Slope(..) | Role::Lid));
        match self {
            Self::Kits => false,
            Self::Walls => !pieces.iter().any(roof),
            Self::Shells | Self::Finished => true,
        }
    }
}

/// One piece of one copy of one house.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PieceOf {
    /// Index of the house in [`Lots`].
    pub lot: usize,
    /// Which copy of it, from 0.
    pub copy: usize,
    /// Index into [`gable_shell::Solved::pieces`].
    pub piece: usize,
}

impl<'a> Lots<'a> {
    /// Houses in one bake: there are letters for so many.
    pub const MOST: usize = 26;

    /// So many of a house, and of others that are baked with it.
    pub fn of(first: (About<'a>, usize), others: impl IntoIterator<Item = (About<'a>, usize)>) -> Self {
        let houses: Vec<_> = std::iter::once(first).chain(others).take(Self::MOST).collect();
        let several = houses.len() > 1;
        let mut lots: Vec<Lot<'a>> = Vec::new();
        for ((about, copies), letter) in houses.into_iter().zip('A'..='Z') {
            let own = title(about.house);
            let free = |title: &String| lots.iter().all(|lot| lot.title != *title);
            let mut titles = (1..).map(|k| if k == 1 { own.to_owned() } else { format!("{own} ({k})") });
            let title = titles.find(free).unwrap_or_default();
            let before = if lots.is_empty() { String::new() } else { format!("{title}: ") };
            lots.push(Lot { about, copies: copies.max(1), title, mark: several.then_some(letter), before });
        }
        Self { all: lots, until: HandOver::default() }
    }

    /// So many of one house.
    pub fn one(about: About<'a>, copies: usize) -> Self {
        Self::of((about, copies), [])
    }

    /// The house that the bake belongs to.
    pub fn first(&self) -> &Lot<'a> {
        &self.all[0]
    }

    /// Each house.
    pub fn iter(&self) -> impl Iterator<Item = &Lot<'a>> {
        self.all.iter()
    }

    /// One of them.
    pub fn get(&self, lot: usize) -> Option<&Lot<'a>> {
        self.all.get(lot)
    }

    /// How many houses there are, copies not counted.
    pub fn count(&self) -> usize {
        self.all.len()
    }

    /// How many are made of all houses.
    pub fn copies(&self) -> usize {
        self.all.iter().map(|lot| lot.copies).sum()
    }

    /// What a copy is called: 'Boat hut', 'Boat hut 3'.
    pub fn name(&self, lot: usize, copy: usize) -> String {
        let Some(own) = self.get(lot) else { return String::new() };
        if own.copies == 1 { own.title.clone() } else { format!("{} {}", own.title, copy + 1) }
    }

    /// The id of a piece in the whole bake; nothing where there is no such piece.
    pub fn id(&self, of: PieceOf) -> Option<String> {
        let lot = self.get(of.lot).filter(|lot| of.copy < lot.copies)?;
        Some(lot.id(of.copy, &lot.about.solved.pieces.get(of.piece)?.id.0))
    }

    /// The name of a piece, with its house where there are several.
    pub fn piece_name(&self, of: PieceOf) -> String {
        let piece = self.get(of.lot).and_then(|lot| lot.about.solved.pieces.get(of.piece));
        let name = piece.map_or("", |piece| piece.name.as_str());
        if self.copies() > 1 { format!("{name} of {}", self.name(of.lot, of.copy)) } else { name.to_owned() }
    }

    /// Every piece of every copy, with its id.
    pub fn pieces(&self) -> Vec<(String, PieceOf)> {
        let of_lot = |(lot, own): (usize, &Lot<'a>)| {
            let pieces = (0..own.copies).flat_map(|copy| {
                let of = move |(piece, id): (usize, &gable_shell::PieceId)| {
                    (own.id(copy, &id.0), PieceOf { lot, copy, piece })
                };
                own.about.solved.pieces.iter().map(|piece| &piece.id).enumerate().map(of)
            });
            pieces.collect::<Vec<_>>()
        };
        self.all.iter().enumerate().flat_map(of_lot).collect()
    }

    /// The piece of an id.
    pub fn find(&self, id: &str) -> Option<PieceOf> {
        self.pieces().into_iter().find(|(own, _)| own == id).map(|(_, of)| of)
    }
}

impl Lot<'_> {
    /// The pieces of one copy that stand when it is handed over, by their index.
    pub(crate) fn raised(&self, until: HandOver) -> BTreeSet<usize> {
        let solved = self.about.solved;
        let stages: Vec<Vec<usize>> = match self.about.guide {
            Some(guide) => {
                guide.stages.iter().map(|stage| stage.steps.iter().map(|step| step.piece).collect()).collect()
            }
            None => (0..solved.pieces.len()).map(|piece| vec![piece]).collect(),
        };
        stages.into_iter().take_while(|pieces| until.raises(solved, pieces)).flatten().collect()
    }

    /// What an id within the house is in the whole bake.
    pub fn id(&self, copy: usize, id: &str) -> String {
        let copy = if copy == 0 { String::new() } else { format!("#{}", copy + 1) };
        format!("{}{id}{copy}", self.before)
    }

    /// Everything to bake of one copy.
    pub(crate) fn to_bake(&self) -> Vec<ToBake> {
        let own = |one: ToBake| ToBake { mark: self.mark, ..one };
        ToBake::all(&self.about).into_iter().map(own).collect()
    }

    /// The same of some copies, each with ids of its own.
    pub(crate) fn copied(&self, one: &[ToBake], copies: std::ops::Range<usize>) -> Vec<ToBake> {
        let copy = |k: usize| one.iter().map(move |b| ToBake { id: self.id(k, &b.id), ..b.clone() });
        copies.flat_map(copy).collect()
    }
}
