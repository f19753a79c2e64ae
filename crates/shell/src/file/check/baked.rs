use super::Names;
use super::sizes::Sizes;
use crate::file::limits;
use crate::file::read::shown;
use crate::{Baked, Batch, CutPiece, Outline, PartId};
use gable_plane::{P2, ring_area};
use gable_words::tr;
use std::collections::BTreeMap;

/// What came out of the oven is of parts of the house, said once, and measures what a biscuit can.
pub(super) fn check(names: &Names<'_>, sizes: &mut Sizes) {
    let all = &names.house.baked;
    sizes.list("baked", all.len(), limits::MOST_BAKED);
    let mut said: BTreeMap<(&PartId, Batch), usize> = BTreeMap::new();
    for (k, baked) in all.iter().enumerate() {
        let path = format!("baked[{k}]");
        if let Some(part) = names.find(&baked.part, &format!("{path}.part"), sizes) {
            measured(names, baked, part, &path, sizes);
        }
        let first = *said.entry((&baked.part, baked.batch)).or_insert(k);
        if first < k {
            sizes.note(&path, tr!("baked[{first}] tells of the same pieces"), tr!("keep one of them"));
        }
        sizes.list(&format!("{path}.cut"), baked.cut.len(), limits::MOST_CUT);
        for cut in &baked.cut {
            piece(cut, &format!("{path}.cut.{}", shown(&cut.piece.0)), sizes);
        }
    }
}

fn measured(names: &Names<'_>, baked: &Baked, part: usize, path: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{path}.{key}");
    if let Some(thickness) = baked.thickness {
        sizes.check(&at("thickness"), thickness, limits::THINNEST_BISCUIT, limits::THICKEST_BISCUIT);
    }
    let lengths = [("width", baked.width), ("depth", baked.depth), ("height", baked.height)];
    for (key, length) in lengths.into_iter().filter_map(|(key, length)| Some((key, length?))) {
        sizes.check(&at(key), length, limits::SMALLEST_PART, limits::LARGEST_PART);
        if baked.batch != Batch::Walls {
            let what = tr!("of a {} only the thickness counts", baked.batch.words());
            sizes.note(&at(key), what, tr!("take it away, or say what the walls measure"));
        }
    }
    let regular = matches!(names.house.parts[part].outline, Outline::Polygon { .. } | Outline::HalfPolygon { .. });
    if regular && baked.depth.is_some() {
        let rests_on = [format!("parts[{part}].outline.kind")];
        let what = tr!("width and depth of a plan with equal sides are one size").to_owned();
        sizes.note_resting(&at("depth"), what, tr!("give its width alone"), &rests_on);
    }
}

fn piece(cut: &CutPiece, path: &str, sizes: &mut Sizes) {
    let rings = [("outline".to_owned(), &cut.outline)].into_iter();
    let rings = rings.chain(cut.back.iter().map(|back| ("back".to_owned(), back)));
    let rings = rings.chain(cut.openings.iter().enumerate().map(|(k, ring)| (format!("openings[{k}]"), ring)));
    for (key, ring) in rings {
        self::ring(ring, &format!("{path}.{key}"), sizes);
    }
    if cut.back.as_ref().is_some_and(|back| back.len() != cut.outline.len()) {
        let what = tr!("it has not as many corners as the outline").to_owned();
        sizes.note(&format!("{path}.back"), what, tr!("mark the pieces as baked anew"));
    }
}

fn ring(ring: &[P2], path: &str, sizes: &mut Sizes) {
    let far = |p: &P2| p.x.abs().max(p.y.abs()) > limits::FARTHEST_PLACE.mm();
    if ring.iter().any(|p| !p.x.is_finite() || !p.y.is_finite()) {
        sizes.note(path, tr!("a corner is not a number").to_owned(), "");
    } else if ring.len() < 3 || ring.len() > limits::MOST_CUT_CORNERS {
        let what = tr!("there can be 3 to {} corners, not {}", limits::MOST_CUT_CORNERS, ring.len());
        sizes.note(path, what, "");
    } else if ring.iter().any(far) {
        let what = tr!("a corner is more than {} away", sizes.shown(limits::FARTHEST_PLACE));
        sizes.note(path, what, tr!("corners are in mm"));
    } else if ring_area(ring) <= 0.0 {
        let what = tr!("the corners run clockwise, or have nothing between them").to_owned();
        sizes.note(path, what, tr!("list them counter-clockwise"));
    }
}
