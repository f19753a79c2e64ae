//! What is to be said of a house of which something is baked.

use super::fill::{Clash, Settled};
use crate::{Baked, Batch, House, Part, PartId, PieceId, Role, Solved};
use gable_measure::{Finding, Length, Severity};
use gable_words::tr;

/// What a rasp takes off a biscuit, or icing bridges, without trouble, mm (common practice, no source).
const RASP: f64 = 1.0;
/// What a strip of biscuit fills together with icing, mm; more was changed by hand (no source).
const STRIP: f64 = 6.0;
/// Biscuit that came out so far from the plan, as a share, was mistyped rather than baked so (no source).
const UNLIKELY: f64 = 0.25;

/// All of it: what would have to change, what was changed, and what was baked too early.
pub(super) fn tell(house: &House, solved: &Solved, kept: &[PartId], settled: &Settled) -> Vec<Finding> {
    let mut found: Vec<Finding> = settled.clashes.iter().map(|clash| would_change(house, solved, clash)).collect();
    found.extend(house.baked.iter().filter_map(|baked| too_early(house, baked)));
    found.extend(house.baked.iter().flat_map(|baked| unlikely(house, baked)));
    found.extend(filled(house, solved, &settled.filled));
    found.extend(kept.iter().filter_map(|id| stays_whole(house, id)));
    found.extend(worked_anew(house, solved));
    found
}

fn index<'a>(house: &'a House, part: &PartId) -> Option<(usize, &'a Part)> {
    house.parts.iter().enumerate().find(|(_, p)| &p.id == part)
}

fn would_change(house: &House, solved: &Solved, clash: &Clash) -> Finding {
    let piece = solved.pieces.iter().find(|p| p.id == clash.piece);
    let name = piece.map_or(clash.piece.0.as_str(), |p| p.name.as_str());
    let k = index(house, &clash.part).map_or(0, |(k, _)| k);
    let place = match piece.map(|p| &p.role) {
        Some(Role::Wall(side) | Role::Post(side, ..) | Role::Slope(side, _)) => format!("parts[{k}].sides.{}", side.0),
        Some(Role::Lid) => format!("parts[{k}].lid"),
        _ => format!("parts[{k}]"),
    };
    if let Some(by) = clash.by.filter(|by| clash.open && *by <= STRIP) {
        let by = house.unit.print(Length::mm_of(by));
        let what = tr!("{name} is baked already and leaves a joint up to {by} wider than planned");
        let remedy =
            tr!("fill it with a strip of biscuit and icing, or say that the piece is not baked and bake it again");
        let remedy = remedy.to_owned();
        return Finding { kind: "baked-would-change", severity: Severity::Caution, place, what, remedy };
    }
    let (severity, what) = match clash.by {
        None => (Severity::Blocking, tr!("{name} is baked already, but the house has no such piece any more")),
        Some(by) => {
            let rasp = by <= house.gap.mm().max(RASP);
            let severity = if rasp { Severity::Caution } else { Severity::Blocking };
            let by = house.unit.print(Length::mm_of(by));
            (severity, tr!("{name} is baked already and would have to change by {by}; it is shown as it is"))
        }
    };
    let remedy = match severity {
        Severity::Blocking => {
            tr!("take back what was changed since it was baked, or say that it is not baked and bake it again")
        }
        _ => tr!("rasp it off, or leave it to the icing; or take back what was changed since it was baked"),
    };
    Finding { kind: "baked-would-change", severity, place, what, remedy: remedy.to_owned() }
}

/// A roof before its walls, or a lid of a part that has none.
fn too_early(house: &House, baked: &Baked) -> Option<Finding> {
    let (k, part) = index(house, &baked.part)?;
    if baked.batch == Batch::Lid && part.lid.is_none() {
        return Some(Finding {
            kind: "baked-nothing",
            severity: Severity::Caution,
            place: format!("parts[{k}].baked.lid"),
            what: tr!("a lid of {} is said to be baked, but the part has none", part.name),
            remedy: tr!("say that it is not baked, or give the part its lid back").to_owned(),
        });
    }
    let walls = part.sides.iter().any(|s| s.wall) && house.baked_batch(&baked.part, Batch::Walls).is_none();
    (baked.batch != Batch::Walls && walls).then(|| Finding {
        kind: "roof-baked-first",
        severity: Severity::Caution,
        place: format!("parts[{k}].baked.{}", baked.batch.words()),
        what: tr!("the {} of {} is baked before the walls", baked.batch.words(), part.name),
        remedy: tr!("bake roofs last: until then they can still be worked out to fit the walls as they came out")
            .to_owned(),
    })
}

/// Measures that no oven makes of the plan. A thickness may well be far out: nobody rolls to a quarter.
fn unlikely(house: &House, baked: &Baked) -> Vec<Finding> {
    let Some((k, part)) = index(house, &baked.part) else { return Vec::new() };
    let Some(planned) = house.as_planned(&baked.part, baked.batch) else { return Vec::new() };
    let pairs = [
        ("width", baked.width, planned.width),
        ("depth", baked.depth, planned.depth),
        ("height", baked.height, planned.height),
    ];
    let finding = |(name, measured, planned): (&str, Option<Length>, Option<Length>)| {
        let (measured, planned) = (measured?, planned?);
        let [came_out, meant] = [measured, planned].map(|l| house.unit.print(l));
        ((measured / planned - 1.0).abs() > UNLIKELY).then(|| Finding {
            kind: "far-from-planned",
            severity: Severity::Caution,
            place: format!("parts[{k}].baked.walls.{name}"),
            what: tr!("the {name} of {} came out as {came_out}, but is planned as {meant}", part.name),
            remedy: tr!("measure again, from outside to outside; is the unit right?").to_owned(),
        })
    };
    pairs.into_iter().filter_map(finding).collect()
}

fn stays_whole(house: &House, id: &PartId) -> Option<Finding> {
    let (k, part) = index(house, id)?;
    Some(Finding {
        kind: "whole-because-baked",
        severity: Severity::Note,
        place: format!("parts[{k}]"),
        what: tr!("{} stays whole where other parts meet it, because it is baked already", part.name),
        remedy: tr!("the others are cut to fit it").to_owned(),
    })
}

/// Baked pieces that leave joints wider than planned.
fn filled(house: &House, solved: &Solved, filled: &[(PieceId, f64)]) -> Option<Finding> {
    let most = filled.iter().map(|(_, wide)| *wide).fold(0.0, f64::max);
    let (first, _) = filled.iter().find(|(_, wide)| *wide >= most)?;
    let piece = solved.pieces.iter().find(|p| &p.id == first)?;
    let (k, _) = index(house, &piece.part)?;
    let others = match filled.len() - 1 {
        0 => String::new(),
        more => tr!(" and one more baked piece" | " and {n} more baked pieces" % more),
    };
    let by = house.unit.print(Length::mm_of(most));
    Some(Finding {
        kind: "icing-fills",
        severity: Severity::Note,
        place: format!("parts[{k}]"),
        what: tr!("round {}{others} joints are up to {by} wider than planned", piece.name),
        remedy: tr!("fill them with icing: it is counted; what stands there is set by hand, so try it dry first")
            .to_owned(),
    })
}

fn worked_anew(house: &House, solved: &Solved) -> Option<Finding> {
    let anew: Vec<_> = solved.changes.iter().filter(|c| !c.baked).collect();
    let first = anew.first()?;
    let (k, _) = index(house, &first.part)?;
    let most = anew.iter().map(|c| c.moved).fold(Length::ZERO, Length::max);
    let pieces = match anew.len() {
        1 => tr!("{} is", first.name),
        n => tr!("{n} pieces that are not baked yet are"),
    };
    Some(Finding {
        kind: "worked-anew",
        severity: Severity::Note,
        place: format!("parts[{k}]"),
        what: tr!("{pieces} worked out anew to fit what came out of the oven, by up to {}", house.unit.print(most)),
        remedy: tr!("print their pages anew, and bake roofs last: until then they can still change").to_owned(),
    })
}
