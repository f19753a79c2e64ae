use gable_measure::Length;
use gable_plane::P2;
use gable_shell::{Stuff, Tint};

/// A face with its finish.
#[derive(Clone, Debug, PartialEq)]
pub struct Covered {
    /// The piece, as an index into [`gable_shell::Solved::pieces`].
    pub piece: usize,
    /// The finish, as an index into [`gable_shell::Dressing::finishes`].
    pub finish: usize,
    /// What it is, in a word or two.
    pub name: &'static str,
    /// The word that ids have for it, the same in all languages.
    pub word: &'static str,
    /// z of the face in the piece.
    pub z: Length,
    /// Whether outside is where z of the piece grows.
    pub faces_up: bool,
    /// What a unit is made of.
    pub stuff: Stuff,
    /// Thickness of a unit.
    pub thickness: Length,
    /// The shades, in the order in which units and counts name them.
    pub tints: Vec<Tint>,
    /// Whether each course lies over the one below, so that its lower edge stands out further.
    pub lapped: bool,
    /// What shows between the units, if it is not the biscuit: mortar, plaster.
    pub ground: Option<Tint>,
    /// The face that is covered: rims counter-clockwise, holes clockwise, in piece coordinates.
    pub area: Vec<Vec<P2>>,
    /// The units. They do not overlap.
    pub units: Vec<Unit>,
    /// Straight lines for the pattern, in piece coordinates; what is piped is piped along them.
    pub guides: Vec<[P2; 2]>,
    /// Counts and amounts.
    pub tally: Tally,
}

/// One unit of a finish as it lies on its face: what shows of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Unit {
    /// Outline in piece coordinates, counter-clockwise.
    pub outline: Vec<P2>,
    /// Holes, clockwise.
    pub holes: Vec<Vec<P2>>,
    /// Index into [`Covered::tints`].
    pub shade: usize,
    /// Whether it is set as it is. All others are cut, by the face or for the bond.
    pub whole: bool,
}

/// What a finish needs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tally {
    /// Units set as they are, by shade.
    pub whole: Vec<usize>,
    /// Units that are cut to fit, by shade.
    pub cut: Vec<usize>,
    /// Area of the face, mm².
    pub face: f64,
    /// Area that units cover, mm².
    pub covered: f64,
    /// Mass of the units, what laps included, g.
    pub mass: f64,
    /// Length of the lines that are piped.
    pub piping: Length,
    /// Work, in minutes.
    pub minutes: f64,
}

impl Tally {
    /// Units set as they are, all shades.
    pub fn all_whole(&self) -> usize {
        self.whole.iter().sum()
    }

    /// Units that are cut, all shades.
    pub fn all_cut(&self) -> usize {
        self.cut.iter().sum()
    }

    /// Adds what another face needs.
    pub fn add(&mut self, other: &Self) {
        add_counts(&mut self.whole, &other.whole);
        add_counts(&mut self.cut, &other.cut);
        self.face += other.face;
        self.covered += other.covered;
        self.mass += other.mass;
        self.piping += other.piping;
        self.minutes += other.minutes;
    }
}

fn add_counts(sums: &mut Vec<usize>, counts: &[usize]) {
    sums.resize(sums.len().max(counts.len()), 0);
    sums.iter_mut().zip(counts).for_each(|(sum, count)| *sum += count);
}
