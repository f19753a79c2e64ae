//! Finishes and ornaments, from the model to the file.

use super::types::*;
use super::write::{angle, length};
use crate::{Covering, Dressing, Extra, Finish, Ornament, Rates, Share};
use gable_measure::{Unit, tidy};

/// The entry; `None` when there is nothing to write.
pub(super) fn entry(dressing: &Dressing, unit: Unit) -> Option<DressingEntry> {
    let rates = dressing.rates;
    let entry = DressingEntry {
        finishes: dressing.finishes.iter().map(|f| finish(f, unit)).collect(),
        ornaments: dressing.ornaments.iter().map(|o| ornament(o, unit)).collect(),
        extras: dressing.extras.iter().map(|e| extra(e, unit)).collect(),
        rates: (rates != Rates::default()).then(|| RatesEntry {
            set: Number(tidy(rates.set)),
            cut: Number(tidy(rates.cut)),
            pipe: Number(tidy(rates.pipe)),
        }),
    };
    Some(entry).filter(|e| !e.is_empty())
}

fn finish(finish: &Finish, unit: Unit) -> FinishEntry {
    let sizes = finish.covering.sizes();
    let size = |key: &str| sizes.iter().find(|(own, _)| *own == key).map(|(_, l)| length(*l, unit));
    let (mut shape, mut bond, mut braces) = (None, None, None);
    match finish.covering {
        Covering::Tiles { shape: own, .. } => shape = Some(own.into()),
        Covering::Brick { bond: own, .. } => bond = Some(own.into()),
        Covering::HalfTimber { braces: own, .. } => braces = Some(own),
        _ => {}
    }
    FinishEntry {
        kind: finish.covering.into(),
        on: finish.faces.which.into(),
        part: finish.faces.part.as_ref().map(|p| p.0.clone()),
        side: finish.faces.side.as_ref().map(|s| s.0.clone()),
        shape,
        bond,
        braces,
        width: size("width"),
        length: size("length"),
        height: size("height"),
        exposure: size("exposure"),
        joint: size("joint"),
        size: size("size"),
        board: size("board"),
        batten: size("batten"),
        timber: size("timber"),
        bay: size("bay"),
        depth: size("depth"),
        tongue: size("tongue"),
        made_of: finish.stuff.into(),
        thickness: length(finish.thickness, unit),
        shades: finish.shades.iter().map(share).collect(),
        seed: finish.seed,
    }
}

fn share(share: &Share) -> ShareEntry {
    ShareEntry { tint: share.tint.into(), share: Number(tidy(share.share)) }
}

fn ornament(ornament: &Ornament, unit: Unit) -> OrnamentEntry {
    OrnamentEntry {
        kind: ornament.kind.into(),
        part: ornament.part.0.clone(),
        opening: ornament.opening.as_ref().map(|o| o.0.clone()),
        side: ornament.side.as_ref().map(|s| s.0.clone()),
        size: length(ornament.size, unit),
        style: ornament.style.into(),
        made_of: ornament.stuff.into(),
        thickness: length(ornament.thickness, unit),
        tint: ornament.tint.into(),
    }
}

fn extra(extra: &Extra, unit: Unit) -> ExtraEntry {
    ExtraEntry {
        kind: extra.kind.into(),
        x: length(extra.spot.x, unit),
        y: length(extra.spot.y, unit),
        turn: angle(extra.spot.turn),
        height: length(extra.height, unit),
        width: length(extra.width, unit),
        path: extra.path.clone(),
        made_of: extra.stuff.into(),
        thickness: length(extra.thickness, unit),
        tint: extra.tint.into(),
    }
}
