//! Free-standing extras on the base board, made of flat pieces.

mod outline;
mod path;
#[cfg(test)]
mod tests;

use crate::OrnamentPiece;
use crate::ornament::{placed, rectangle};
use gable_measure::{Finding, Severity};
use gable_plane::{P2, P3, V3};
use gable_shell::{Extra, ExtraKind, House};
use gable_words::{mark, say, tr};
use outline::{fence, figure, runner, tree};

/// How much wider a slot is than the piece that goes into it, mm.
const LOOSE: f64 = 0.6;

/// The pieces of all extras, in the order of the list.
pub(crate) fn extras(house: &House, findings: &mut Vec<Finding>) -> Vec<OrnamentPiece> {
    let mut all = Vec::new();
    for (index, extra) in house.dressing.extras.iter().enumerate() {
        let stand = Stand { extra, index };
        match extra.kind {
            ExtraKind::Tree => all.extend(stand.tree()),
            ExtraKind::Fence => all.push(stand.upright("", fence(extra.width.mm(), extra.height.mm()))),
            ExtraKind::Sledge => all.extend(stand.sledge()),
            ExtraKind::Figure => all.extend(figure(extra.width.mm(), extra.height.mm()).map(|o| stand.upright("", o))),
            ExtraKind::Outline => match path::outline(&extra.path, extra.height.mm()) {
                Ok((rim, holes)) => all.push(OrnamentPiece { holes, ..stand.upright("", rim) }),
                Err(error) => findings.push(Finding {
                    kind: "outline-unreadable",
                    severity: Severity::Caution,
                    place: format!("dressing.extras[{index}].path"),
                    what: error.to_string(),
                    remedy: error.remedy().to_owned(),
                }),
            },
        }
    }
    all
}

struct Stand<'a> {
    extra: &'a Extra,
    index: usize,
}

impl Stand<'_> {
    /// Its own axes on the board: along, across, and the middle.
    fn axes(&self) -> (P3, V3, V3) {
        let spot = &self.extra.spot;
        let (sin, cos) = spot.turn.rad().sin_cos();
        (P3::new(spot.x.mm(), spot.y.mm(), 0.0), V3::new(cos, sin, 0.0), V3::new(-sin, cos, 0.0))
    }

    /// What it is called among others is marked English: a part of its id, and said in its name.
    fn piece(&self, what: &'static str, outline: Vec<P2>) -> OrnamentPiece {
        let (word, words) = (self.extra.kind.word(), self.extra.kind.words());
        let (end, said) = if what.is_empty() {
            (String::new(), String::new())
        } else {
            (format!("-{what}"), format!(", {}", say(what)))
        };
        OrnamentPiece {
            ornament: self.index,
            host: None,
            id: format!("extra-{}/{word}{end}", self.index + 1),
            name: tr!("Beside the house: {words} {}{said}", self.index + 1),
            parts: vec![outline.clone()],
            outline,
            holes: Vec::new(),
            pressed: Vec::new(),
            thickness: self.extra.thickness,
            stuff: self.extra.stuff,
            tint: self.extra.tint,
            house_from_piece: gable_plane::Rigid::identity(),
        }
    }

    /// An outline over x = 0 that stands upright along the extra, so far across from its middle.
    fn standing(&self, what: &'static str, outline: Vec<P2>, across: f64) -> OrnamentPiece {
        let (at, along, over) = self.axes();
        // z of the piece runs against `over`, so its back is half a thickness behind.
        let back = at + over * (across + self.extra.thickness.mm() / 2.0);
        OrnamentPiece { house_from_piece: placed(back, along, V3::z()), ..self.piece(what, outline) }
    }

    fn upright(&self, what: &'static str, outline: Vec<P2>) -> OrnamentPiece {
        self.standing(what, outline, 0.0)
    }

    /// One half has its slot from above, the other from below, each to the middle of the height.
    fn tree(&self) -> [OrnamentPiece; 2] {
        let (width, height, slot) = (self.extra.width.mm(), self.extra.height.mm(), self.extra.thickness.mm() + LOOSE);
        let (at, along, over) = self.axes();
        let first = self.upright(mark!("slot above"), tree(width, height, slot, true));
        let back = at - along * (self.extra.thickness.mm() / 2.0);
        let second = self.piece(mark!("slot below"), tree(width, height, slot, false));
        [first, OrnamentPiece { house_from_piece: placed(back, over, V3::z()), ..second }]
    }

    /// Runners on edge and a seat that lies on them.
    fn sledge(&self) -> [OrnamentPiece; 3] {
        let (length, height, thick) = (self.extra.width.mm(), self.extra.height.mm(), self.extra.thickness.mm());
        let low = (height - thick).max(height / 2.0);
        let apart = length * 0.4;
        let (at, along, over) = self.axes();
        let seat = rectangle(P2::new(-length * 0.42, -apart / 2.0), P2::new(length * 0.3, apart / 2.0));
        let seat = OrnamentPiece {
            house_from_piece: placed(at + V3::z() * low, along, over),
            ..self.piece(mark!("seat"), seat)
        };
        let side = (apart - thick) / 2.0;
        [
            self.standing(mark!("left runner"), runner(length, low), side),
            self.standing(mark!("right runner"), runner(length, low), -side),
            seat,
        ]
    }
}
