//! What is to be done in a stage of the build guide, in words: on its pages and in the window.

use super::runs;
use gable_dress::Dressed;
use gable_plane::V3;
use gable_raise::{Guide, Prop, PropKind, Stage};
use gable_shell::{House, Piece, Solved};
use gable_words::{mark, say, tr};

/// Hours until a joint of royal icing can be handled (common practice, no source).
pub(super) const HANDLE: &str = mark!("about 2 hours");

/// The house that is raised.
struct Whole<'a> {
    house: &'a House,
    solved: &'a Solved,
    dressed: &'a Dressed,
}

/// What is to be done in stage `k`, counted from 0: its name first, then a sentence or two for each thing to do; nothing
/// where there is no such stage.
pub fn stage_words((house, solved, dressed): (&House, &Solved, &Dressed), guide: &Guide, k: usize) -> Vec<String> {
    let Some(stage) = guide.stages.get(k) else { return Vec::new() };
    let about = &Whole { house, solved, dressed };
    let letters = |joints: &[usize]| {
        let list: Vec<String> = joints.iter().map(|j| solved.joints[*j].letter.clone()).collect();
        runs::of_letters(&list).join(", ")
    };
    let mut all = vec![tr!("{} of {}: {}", k + 1, guide.stages.len(), stage.name(solved))];
    if stage.waits {
        all.push(tr!("First let what stands set for {}.", say(HANDLE)));
    }
    let flat = flat(about, stage);
    if !flat.is_empty() {
        all.push(tr!("Done while flat, and dry: {flat}."));
    }
    all.push(tr!("Put up, in this order: {}.", order(about, stage)));
    if !stage.joints.is_empty() {
        all.push(tr!("Ice: {}.", letters(&stage.joints)));
    }
    all.extend(propped(about, &stage.props));
    if !stage.inside.is_empty() {
        let inside = letters(&stage.inside);
        all.push(tr!("Now, from inside, strengthen with icing: {inside}. After the next stage no hand gets there."));
    }
    if !stage.out_of_reach.is_empty() {
        all.push(tr!("No hand gets to the inside of {}: ice them well before.", letters(&stage.out_of_reach)));
    }
    all
}

/// 'front wall (2), left wall (5, from the left)': names and templates, and from where they come unless from above.
fn order(about: &Whole<'_>, stage: &Stage) -> String {
    let said = |step: &gable_raise::Step| {
        let piece = &about.solved.pieces[step.piece];
        let name = own_name(piece);
        let number = about.solved.template_number(piece);
        match from(&step.way) {
            Some(side) => format!("{name} ({number}, {side})"),
            None => format!("{name} ({number})"),
        }
    };
    stage.steps.iter().map(said).collect::<Vec<_>>().join(", ")
}

/// From where a piece comes, unless simply from above.
fn from(way: &V3) -> Option<&'static str> {
    if way.z < -0.95 {
        return None;
    }
    let aside = match (way.x.abs() > way.y.abs(), way.x > 0.0, way.y > 0.0) {
        (true, true, _) => [tr!("from the left"), tr!("from above, a little from the left")],
        (true, false, _) => [tr!("from the right"), tr!("from above, a little from the right")],
        (false, _, true) => [tr!("from the front"), tr!("from above, a little from the front")],
        (false, _, false) => [tr!("from the back"), tr!("from above, a little from the back")],
    };
    Some(aside[usize::from(way.z < -0.5)])
}

/// What is decorated and glazed before the pieces of a stage are raised.
fn flat(about: &Whole<'_>, stage: &Stage) -> String {
    let dressed = about.dressed;
    let of_piece = |step: &gable_raise::Step| {
        let k = step.piece;
        let mut what: Vec<String> = Vec::new();
        let mut add = |text: String| {
            if !what.contains(&text) {
                what.push(text);
            }
        };
        dressed
            .opening_lines
            .iter()
            .filter(|l| l.piece == k && !l.pressed)
            .take(1)
            .for_each(|_| add(tr!("glazing bars").into()));
        dressed.panes.iter().filter(|p| p.piece == k).take(1).for_each(|_| add(tr!("panes").into()));
        let (house, solved) = (about.house, about.solved);
        let own = dressed.finishes.iter().filter(|f| f.piece == k && f.is_flat_work(house, solved));
        own.for_each(|f| add(f.name.to_owned()));
        dressed.ornaments.iter().filter(|o| o.host == Some(k) && o.is_flat_work(house)).for_each(|o| {
            add(o.name.split_once(": ").map_or(o.name.as_str(), |(_, own)| own).to_owned());
        });
        let name = own_name(&about.solved.pieces[k]);
        if what.is_empty() { None } else { Some(format!("{name}: {}", what.join(", "))) }
    };
    stage.steps.iter().filter_map(of_piece).collect::<Vec<_>>().join("; ")
}

/// What props have in common that are told in one line: kind, height, and what they stand on.
type Alike = (PropKind, String, String);

/// 'Prop: under front roof and back roof, 96 mm high, on the base board.' Like props in one line.
fn propped(about: &Whole<'_>, props: &[Prop]) -> Vec<String> {
    let solved = about.solved;
    let mut kinds: Vec<(Alike, Vec<&str>)> = Vec::new();
    for prop in props {
        let on = prop.on.map_or_else(|| tr!("the base board").to_owned(), |k| solved.pieces[k].name.clone());
        let (name, what) = (own_name(&solved.pieces[prop.piece]), (prop.kind, solved.unit.print(prop.height), on));
        match kinds.iter_mut().find(|(other, _)| *other == what) {
            Some((_, names)) => names.push(name),
            None => kinds.push((what, vec![name])),
        }
    }
    let line = |((kind, height, on), names): (Alike, Vec<&str>)| {
        let (count, names) = (names.len(), names.join(", "));
        match kind {
            PropKind::Beside => tr!("Prop: inside, against {names}, {height} high or more, on {on}."
                | "Props, one each: inside, against {names}, {height} high or more, on {on}." % count),
            PropKind::Under => tr!("Prop: under {names}, {height} high, on {on}."
                | "Props, one each: under {names}, {height} high, on {on}." % count),
            PropKind::Before => tr!(
                "Against sliding, something heavy: before the lower edge of {names}, {height} high or a little more, on {on}."
                    | "Against sliding, something heavy each: before the lower edge of {names}, {height} high or a little more, on {on}."
                        % count
            ),
        }
    };
    kinds.into_iter().map(line).collect()
}

/// 'front wall' of 'Main body: front wall'.
pub(super) fn own_name(piece: &Piece) -> &str {
    piece.name.split_once(": ").map_or(piece.name.as_str(), |(_, own)| own)
}
