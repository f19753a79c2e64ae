use gable_measure::Length;
use gable_plane::{P2, P3, Rigid, Solid, V3};
use gable_shell::{Ornament, Stuff, Tint};

/// One flat piece of an ornament or of something that stands free.
#[derive(Clone, Debug, PartialEq)]
pub struct OrnamentPiece {
    /// The ornament, as an index into [`gable_shell::Dressing::ornaments`], or into `extras` for what stands free.
    pub ornament: usize,
    /// The piece of biscuit that it is stuck on, as an index into [`gable_shell::Solved::pieces`]; none for what stands
    /// free.
    pub host: Option<usize>,
    /// Stable name, such as `main/back-1/shutters-left`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Outline on its back, which is stuck on (z = 0), counter-clockwise seen from its good face (z = `thickness`).
    pub outline: Vec<P2>,
    /// Holes, clockwise.
    pub holes: Vec<Vec<P2>>,
    /// Convex areas that make it up.
    pub parts: Vec<Vec<P2>>,
    /// Lines pressed into its good face.
    pub pressed: Vec<[P2; 2]>,
    /// How thick it is.
    pub thickness: Length,
    /// What it is made of.
    pub stuff: Stuff,
    /// Its colour.
    pub tint: Tint,
    /// Where the finished house has it.
    pub house_from_piece: Rigid,
}

impl OrnamentPiece {
    /// Convex solids in the house that make it up.
    pub fn solids(&self) -> Vec<Solid> {
        let lift = |ring: &[P2], z: f64| ring.iter().map(|p| self.house_from_piece * P3::new(p.x, p.y, z)).collect();
        let solid = |ring: &Vec<P2>| {
            let (low, high): (Vec<P3>, Vec<P3>) = (lift(ring, 0.0), lift(ring, self.thickness.mm()));
            Solid::prism(&low, &high)
        };
        self.parts.iter().map(solid).collect()
    }

    /// Area of its good face, mm².
    pub fn area(&self) -> f64 {
        gable_plane::ring_area(&self.outline) + self.holes.iter().map(|h| gable_plane::ring_area(h)).sum::<f64>()
    }

    /// Mass, g.
    pub fn mass(&self) -> f64 {
        self.area() * self.thickness.mm() * self.stuff.density() / 1000.0
    }
}

/// Where ornaments are made: what they have in common.
pub(super) struct Bench<'a> {
    pub(super) ornament: &'a Ornament,
    pub(super) index: usize,
    /// Beginning of names: part and opening or side.
    pub(super) id: String,
    pub(super) name: String,
    pub(super) host: usize,
}

impl Bench<'_> {
    /// A convex piece. What it is called among others has a word for ids, the same in all languages, and words for people.
    pub(super) fn plate(&self, (word, words): (&str, &str), outline: Vec<P2>, place: Rigid) -> OrnamentPiece {
        let kind = self.ornament.kind;
        let (end, said) =
            if word.is_empty() { (String::new(), String::new()) } else { (format!("-{word}"), format!(", {words}")) };
        OrnamentPiece {
            ornament: self.index,
            host: Some(self.host),
            id: format!("{}/{}{end}", self.id, kind.word()),
            name: format!("{}: {}{said}", self.name, kind.words()),
            parts: vec![outline.clone()],
            outline,
            holes: Vec::new(),
            pressed: Vec::new(),
            thickness: self.ornament.thickness,
            stuff: self.ornament.stuff,
            tint: self.ornament.tint,
            house_from_piece: place,
        }
    }
}

/// The motion to a place with given axes: x and y along the plate, unit and square to each other.
pub(crate) fn placed(origin: P3, x: V3, y: V3) -> Rigid {
    let turn = nalgebra::Rotation3::from_basis_unchecked(&[x, y, x.cross(&y)]);
    Rigid::from_parts(origin.coords.into(), nalgebra::UnitQuaternion::from_rotation_matrix(&turn))
}

/// An upright rectangle, counter-clockwise.
pub(crate) fn rectangle(low: P2, high: P2) -> Vec<P2> {
    vec![low, P2::new(high.x, low.y), high, P2::new(low.x, high.y)]
}
