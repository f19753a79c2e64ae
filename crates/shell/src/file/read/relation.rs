use super::entries::Entries;
use super::log::Log;
use super::tree::Tree;
use super::values::{length, text};
use crate::{Gives, Measure, Measured, PartId, Relation, SideId};
use gable_measure::Length;
use gable_words::tr;

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Width,
    Depth,
    Eave,
    Ridge,
    Lid,
}

const KINDS: [(&str, Kind); 5] =
    [("width", Kind::Width), ("depth", Kind::Depth), ("eave", Kind::Eave), ("ridge", Kind::Ridge), ("lid", Kind::Lid)];

const GIVES: [(&str, Gives); 2] = [("walls", Gives::Walls), ("pitch", Gives::Pitch)];

pub(super) fn read(tree: &Tree, path: &str, log: &mut Log) -> Option<Relation> {
    let mut entries = Entries::open(tree, path, log)?;
    let follower = measured(&mut entries, log);
    let gives = entries.word("gives", &GIVES, log);
    let is_ridge = follower.as_ref().is_none_or(|f| f.measure == Measure::Ridge);
    if gives.is_some() && !is_ridge {
        log.add(&entries.path_of("gives"), tr!("only a ridge has something that gives"), tr!("take it away"));
    }
    let follows = entries.path_of("follows");
    let leader = entries.need("follows", log).and_then(|tree| {
        let mut entries = Entries::open(tree, &follows, log)?;
        let leader = measured(&mut entries, log);
        entries.close(log);
        leader
    });
    let offset = entries.value("offset", length, Length::ZERO, log);
    entries.close(log);
    Some(Relation { follower: follower?, leader: leader?, offset, gives: gives.unwrap_or_default() })
}

/// A measure; `None` when it cannot be told which.
fn measured(entries: &mut Entries<'_>, log: &mut Log) -> Option<Measured> {
    let part = PartId(entries.needed("part", text, String::new(), log));
    let hint = tr!("it may be width, depth, eave, ridge or lid");
    let kind = entries.need_with("measure", hint, log).and_then(|_| entries.word("measure", &KINDS, log));
    let side = entries.maybe("side", text, String::new(), log).map(SideId);
    if side.is_some() && kind.is_some_and(|kind| kind != Kind::Eave) {
        log.add(&entries.path_of("side"), tr!("only an eave has a side"), tr!("take it away"));
    }
    let measure = match kind? {
        Kind::Width => Measure::Width,
        Kind::Depth => Measure::Depth,
        Kind::Eave => Measure::Eave(side),
        Kind::Ridge => Measure::Ridge,
        Kind::Lid => Measure::Lid,
    };
    Some(Measured { part, measure })
}
