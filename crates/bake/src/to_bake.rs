//! Everything that is cut from dough and not baked yet.

use crate::{About, Mass};
use gable_dress::OrnamentPiece;
use gable_measure::Length;
use gable_plane::{P2, Region, Rest, ring_area, united};
use gable_shell::{Dough, House, Mode, Piece, Stuff};

/// How far chords may be off arcs on trays, where nothing is cut by them, mm.
const CHORD: f64 = 0.2;
/// What is narrower cannot be cut, mm.
const HAIR: f64 = 0.05;
/// What is cut thinner than the doughs of the house, or after it: ornaments, timber, what stands free.
const ORNAMENTS: &str = "ornaments";

/// One thing to cut from dough and bake.
#[derive(Clone, Debug, PartialEq)]
pub struct ToBake {
    /// Stable id: of a piece, door or ornament.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Letter of its house, where several houses are baked together.
    pub mark: Option<char>,
    /// Number of its template, where it is a piece.
    pub template: Option<usize>,
    /// Which dough of the house, or 'ornaments'.
    pub dough: String,
    /// How thick its dough is rolled.
    pub rolled: Length,
    /// What it takes of the tray, counter-clockwise: of a bevelled piece what both faces cover.
    pub outline: Vec<P2>,
    /// Openings in it.
    pub holes: Vec<Vec<P2>>,
    /// Area that makes its volume when it is multiplied with its thickness, openings left out, mm².
    pub area: f64,
}

impl ToBake {
    /// All that a house still takes, in a fixed order: pieces, doors, ornaments, what stands free, finishes of dough.
    pub fn all(about: &About<'_>) -> Vec<Self> {
        let About { house, solved, dressed, .. } = *about;
        let piece = |p: &Piece| Self {
            template: Some(solved.template_number(p)),
            ..Self::plain(&p.id.0, &p.name, (&p.dough.0, p.rolled), both_faces(p), openings(p), piece_area(p))
        };
        let door = |d: &gable_dress::DoorPiece| {
            let outline = d.outline.flatten(CHORD);
            Self::plain(&d.id, &d.name, (&d.dough.0, d.rolled), outline, Vec::new(), d.outline.area())
        };
        let apart = |o: &OrnamentPiece| {
            let rolled = o.thickness * (1.0 / rise(house));
            Self::plain(&o.id, &o.name, (ORNAMENTS, rolled), o.outline.clone(), o.holes.clone(), o.area())
        };
        let of_dough = dressed.ornaments.iter().chain(&dressed.extras).filter(|o| o.stuff == Stuff::Dough);
        let pieces = solved.pieces.iter().filter(|p| !p.baked).map(piece);
        let all = pieces.chain(dressed.doors.iter().map(door)).chain(of_dough.map(apart)).chain(units(about));
        all.filter(|one| one.area > 0.0).map(Self::without_whiskers).collect()
    }

    fn plain(
        id: &str,
        name: &str,
        (dough, rolled): (&str, Length),
        outline: Vec<P2>,
        holes: Vec<Vec<P2>>,
        area: f64,
    ) -> Self {
        let (id, name, dough) = (id.to_owned(), name.to_owned(), dough.to_owned());
        Self { id, name, mark: None, template: None, dough, rolled, outline, holes, area }
    }

    /// The outline without whiskers, as cutting along a face can leave them: nobody cuts what is narrower than a hair.
    fn without_whiskers(self) -> Self {
        let whole = Region {
            rim: Rest { labels: vec![(); self.outline.len()], corners: self.outline.clone() },
            holes: Vec::new(),
        };
        if whole.is_convex() {
            return self;
        }
        let left = whole.opened(HAIR, ()).into_iter().next().map(|region| region.rim.corners);
        Self { outline: left.unwrap_or_default(), ..self }
    }

    /// Its mass before it is baked, of dough of so many g/cm³.
    pub fn mass(&self, density: f64) -> Mass {
        Mass::grams(self.area * self.rolled.mm() * density / 1000.0)
    }
}

/// Finishes of dough, such as the timber of a half-timbered wall.
fn units<'a>(about: &About<'a>) -> impl Iterator<Item = ToBake> + 'a {
    let About { house, solved, dressed, .. } = *about;
    let faces = dressed.finishes.iter().filter(|f| f.stuff == Stuff::Dough);
    faces.flat_map(move |face| {
        let (id, name) = solved.pieces.get(face.piece).map_or(("", ""), |p| (&p.id.0, &p.name));
        let rolled = face.thickness * (1.0 / rise(house));
        face.units.iter().enumerate().map(move |(k, unit)| {
            let area = ring_area(&unit.outline) + unit.holes.iter().map(|h| ring_area(h)).sum::<f64>();
            let (id, name) = (format!("{id}/{}-{}", face.word, k + 1), format!("{name}: {} {}", face.name, k + 1));
            ToBake::plain(&id, &name, (ORNAMENTS, rolled), unit.outline.clone(), unit.holes.clone(), area)
        })
    })
}

/// What is made apart rises as the first dough of the house does.
fn rise(house: &House) -> f64 {
    house.doughs.first().map_or(Dough::USUAL_RISE, |d| d.rise)
}

/// What both faces of a piece cover together.
fn both_faces(piece: &Piece) -> Vec<P2> {
    if piece.outline == piece.outline_back {
        return piece.outline.clone();
    }
    united(&[piece.outline.clone(), piece.outline_back.clone()]).into_iter().next().unwrap_or_default()
}

fn openings(piece: &Piece) -> Vec<Vec<P2>> {
    let through = piece.openings.iter().filter(|o| o.mode != Mode::Pressed);
    through.map(|o| o.contour.flatten(CHORD)).collect()
}

/// Area of a piece that makes its volume when it is multiplied with its thickness, openings left out, mm²: of bevelled ones
/// the mean over the thickness, by the formula for prismatoids.
pub fn piece_area(piece: &Piece) -> f64 {
    let middle: Vec<P2> = piece.outline.iter().zip(&piece.outline_back).map(|(a, b)| nalgebra::center(a, b)).collect();
    let mean = (ring_area(&piece.outline) + 4.0 * ring_area(&middle) + ring_area(&piece.outline_back)) / 6.0;
    let through = piece.openings.iter().filter(|o| o.mode != Mode::Pressed);
    mean - through.map(|o| o.contour.area()).sum::<f64>()
}
