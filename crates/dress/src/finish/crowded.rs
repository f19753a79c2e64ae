use super::Face;
use gable_measure::{Finding, Severity};
use gable_shell::{Covering, Piece};
use gable_words::tr;

/// Most units of a finish on one face. Beyond it a size was mistyped: nobody sets ten thousand tiles, and millions of them
/// would stop the machine.
const MOST: f64 = 10_000.0;

/// Whether a finish takes more units on a face than anyone can lay.
pub(super) fn too_many(covering: &Covering, face: &Face) -> bool {
    let (low, high) = face.border.bounds();
    let (wide, tall) = (high.x - low.x, high.y - low.y);
    let count = match *covering {
        Covering::Tiles { width, exposure, .. } => wide * tall / (width.mm() * exposure.mm()),
        Covering::Brick { length, height, joint, .. } => wide * tall / ((length + joint).mm() * (height + joint).mm()),
        Covering::Stone { size, .. } => wide * tall / size.mm().powi(2),
        Covering::Weatherboard { exposure, length } => wide * tall / (exposure.mm() * length.mm()),
        Covering::BoardAndBatten { board, .. } => 2.0 * wide / board.mm(),
        Covering::HalfTimber { bay, .. } => 4.0 * wide * tall / bay.mm().powi(2),
        Covering::Snow { tongue, .. } => wide / tongue.mm(),
    };
    count > MOST
}

/// Says that a face stays bare for that.
pub(super) fn remark(covering: &Covering, piece: &Piece) -> Finding {
    Finding {
        kind: "finish-too-many",
        severity: Severity::Caution,
        place: piece.id.0.clone(),
        what: tr!("the {} would take more than {MOST:.0} pieces here, so the face is left bare", covering.words()),
        remedy: tr!("choose larger sizes; is the unit right?").to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use crate::dress;
    use gable_measure::Length;
    use gable_shell::{Covering, Faces, Finish, TileShape, Where, demo, solve};

    /// Closed form: a slope of the hut is at least 180 mm long and 100 mm high, 18,000 tiles of 1 mm², or 125 of 12 mm x 12 mm.
    #[test]
    fn mistyped_sizes_leave_faces_bare_and_it_is_said() {
        let dressed = |mm: f64| {
            let size = Length::mm_of(mm);
            let covering = Covering::Tiles { shape: TileShape::Square, width: size, length: size, exposure: size };
            let faces = Faces { which: Where::Slopes, ..Faces::default() };
            let mut house = demo::house("boat-hut").unwrap();
            house.dressing.finishes = vec![Finish::usual(covering, faces)];
            dress(&house, &solve(&house))
        };
        let bare = dressed(1.0);
        let said: Vec<&str> = bare.findings.iter().map(|f| f.kind).collect();
        assert_eq!((bare.finishes.len(), said), (0, vec!["finish-too-many"; 2]));
        let covered = dressed(12.0);
        assert!(covered.finishes.iter().all(|c| c.units.len() >= 125));
        assert_eq!(covered.finishes.len(), 2);
    }
}
