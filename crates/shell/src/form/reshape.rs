//! Another plan under the same part.

use super::pair::{ALIKE, directions};
use crate::{House, Outline, Part, PartId, Place, Side, SideId};
use gable_plane::V2;

impl Part {
    /// Gives a part another outline.
    ///
    /// An outline of the same kind with as many sides only changes sizes. Otherwise each new side takes wall and top of
    /// the old one that faces nearest the same way, and each opening moves to the wall that does; of equals the first.
    /// Nothing is dropped: what does not fit any more is left to the checks.
    pub fn set_outline(&mut self, outline: Outline) {
        if !is_same_kind(&self.outline, &outline) {
            let (old, new) = (directions(&self.outline), directions(&outline));
            let any: Vec<usize> = (0..self.sides.len()).collect();
            let names = outline.side_names();
            let like = |(k, name): (usize, &String)| {
                let side = self.sides.get(nearest(new.get(k)?, &old, &any)?)?;
                Some(Side { id: SideId(name.clone()), ..side.clone() })
            };
            let sides: Vec<Side> = names.iter().enumerate().filter_map(like).collect();
            let walls: Vec<usize> = (0..sides.len()).filter(|k| sides[*k].wall).collect();
            let open = if walls.is_empty() { (0..sides.len()).collect() } else { walls };
            for opening in &mut self.openings {
                if let Some(side) = moved(&opening.side, &self.sides, &old, &new, &open).and_then(|k| sides.get(k)) {
                    opening.side = side.id.clone();
                }
            }
            let any: Vec<usize> = (0..sides.len()).collect();
            if let Some(steps) = &mut self.floor.steps {
                let new_side = |side: &SideId| Some(sides.get(moved(side, &self.sides, &old, &new, &any)?)?.id.clone());
                steps.sides = steps.sides.iter().filter_map(new_side).collect();
                steps.sides.sort();
                steps.sides.dedup();
            }
            self.sides = sides;
        }
        self.outline = outline;
    }
}

impl House {
    /// Gives a part another outline, as [`Part::set_outline`] does; parts that stand against one of its sides or on one
    /// of its slopes move to the side that faces nearest the same way.
    pub fn set_outline(&mut self, id: &PartId, outline: Outline) {
        let Some(part) = self.parts.iter_mut().find(|p| &p.id == id) else { return };
        let (sides, old, new) = (part.sides.clone(), directions(&part.outline), directions(&outline));
        let is_same = is_same_kind(&part.outline, &outline);
        part.set_outline(outline);
        if is_same {
            return;
        }
        let (names, any): (Vec<SideId>, Vec<usize>) =
            part.sides.iter().enumerate().map(|(k, side)| (side.id.clone(), k)).unzip();
        for guest in &mut self.parts {
            if let Place::Against { host, side, .. } | Place::OnSlope { host, side, .. } = &mut guest.place
                && host == id
                && let Some(name) = moved(side, &sides, &old, &new, &any).and_then(|k| names.get(k))
            {
                *side = name.clone();
            }
        }
    }
}

/// Whether two outlines have the same sides, whatever their sizes.
fn is_same_kind(a: &Outline, b: &Outline) -> bool {
    std::mem::discriminant(a) == std::mem::discriminant(b) && a.count() == b.count()
}

/// Index of the new side, one of `among`, that what was in an old side moves to.
fn moved(side: &SideId, sides: &[Side], old: &[V2], new: &[V2], among: &[usize]) -> Option<usize> {
    let k = sides.iter().position(|s| &s.id == side)?;
    nearest(old.get(k)?, new, among)
}

/// Which of some directions is nearest to one; of equals the first.
fn nearest(way: &V2, ways: &[V2], among: &[usize]) -> Option<usize> {
    let mut best: Option<(usize, f64)> = None;
    for &k in among.iter().filter(|k| **k < ways.len()) {
        let alike = way.dot(&ways[k]);
        if best.is_none_or(|(_, most)| alike > most + ALIKE) {
            best = Some((k, alike));
        }
    }
    best.map(|(k, _)| k)
}
