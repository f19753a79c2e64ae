use super::entries::Entries;
use super::floor;
use super::log::{Log, meant};
use super::tree::Tree;
use super::values::{flag, length, pitch};
use crate::file::limits;
use crate::{Outline, Posts, Side, SideId, Top};
use gable_measure::{Angle, Length, Pitch};
use gable_words::tr;

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Eave,
    HalfHip,
    Knee,
    Gable,
}

const KINDS: [(&str, Kind); 4] =
    [("eave", Kind::Eave), ("half-hip", Kind::HalfHip), ("knee", Kind::Knee), ("gable", Kind::Gable)];

/// Every key of a side that belongs to certain tops only.
const SIZES: [&str; 6] = ["height", "start", "pitch", "lower", "knee", "upper"];

impl Kind {
    fn keys(self) -> &'static [&'static str] {
        match self {
            Self::Eave => &["height", "pitch"],
            Self::HalfHip => &["start", "pitch"],
            Self::Knee => &["height", "lower", "knee", "upper"],
            Self::Gable => &[],
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Eave => tr!("an eave"),
            Self::HalfHip => tr!("a half-hip"),
            Self::Knee => tr!("a knee"),
            Self::Gable => tr!("a gable"),
        }
    }
}

/// What the entry of one side says; a value that is faulty has been noted and is replaced by a stand-in.
#[derive(Clone, Default)]
struct Said {
    keys: Vec<String>,
    wall: Option<bool>,
    posts: Option<Posts>,
    /// The inner `None` is a word that is not known.
    top: Option<Option<Kind>>,
    height: Option<Length>,
    start: Option<Length>,
    pitch: Option<Pitch>,
    lower: Option<Pitch>,
    knee: Option<Length>,
    upper: Option<Pitch>,
    overhang: Option<Length>,
}

impl Said {
    fn read(tree: &Tree, path: &str, log: &mut Log) -> Option<Self> {
        let mut entries = Entries::open(tree, path, log)?;
        let (low, high) = (Length::mm_of(60.0), Length::mm_of(90.0));
        let (steep, flat) = (Pitch::Angle(Angle::degrees(60.0)), Pitch::Angle(Angle::degrees(30.0)));
        let said = Self {
            keys: entries.keys().map(str::to_owned).collect(),
            wall: entries.maybe("wall", flag, true, log),
            posts: entries.get("posts").and_then(|tree| floor::posts(tree, &entries.path_of("posts"), log)),
            top: entries.get("top").is_some().then(|| entries.word("top", &KINDS, log)),
            height: entries.maybe("height", length, low, log),
            start: entries.maybe("start", length, high, log),
            pitch: entries.maybe("pitch", pitch, flat, log),
            lower: entries.maybe("lower", pitch, steep, log),
            knee: entries.maybe("knee", length, high, log),
            upper: entries.maybe("upper", pitch, flat, log),
            overhang: entries.maybe("overhang", length, Length::ZERO, log),
        };
        entries.close(log);
        Some(said)
    }

    fn says(&self, key: &str) -> bool {
        self.keys.iter().any(|k| k == key)
    }

    /// Its own word before that of `all`.
    fn or(self, all: &Self) -> Self {
        Self {
            keys: self.keys,
            // Posts for all are only for the sides without a wall of their own.
            posts: self.posts.or(all.posts.filter(|_| self.wall != Some(true))),
            wall: self.wall.or(all.wall),
            top: self.top.or(all.top),
            height: self.height.or(all.height),
            start: self.start.or(all.start),
            pitch: self.pitch.or(all.pitch),
            lower: self.lower.or(all.lower),
            knee: self.knee.or(all.knee),
            upper: self.upper.or(all.upper),
            overhang: self.overhang.or(all.overhang),
        }
    }
}

/// All sides in the order of the outline; without an outline the entries are only read for their faults.
pub(super) fn read_all(tree: &Tree, path: &str, outline: Option<&Outline>, log: &mut Log) -> Vec<Side> {
    let Some(map) = Entries::open(tree, path, log) else { return Vec::new() };
    let all_tree = map.find("all");
    let all = all_tree.and_then(|tree| Said::read(tree, &map.path_of("all"), log)).unwrap_or_default();
    let Some(names) = outline.map(Outline::side_names) else {
        for name in map.keys().filter(|name| *name != "all").take(usize::from(limits::MOST_SIDES)) {
            one(&map, name, &all, all_tree.is_some(), log);
        }
        return Vec::new();
    };
    unknown_names(&map, &names, log);
    let sides: Vec<(Said, Side)> =
        names.iter().filter_map(|name| one(&map, name, &all, all_tree.is_some(), log)).collect();
    for key in SIZES.iter().filter(|key| all.says(key)) {
        let uses = |(own, side): &(Said, Side)| kind_of(&side.top).keys().contains(key) && !own.says(key);
        if sides.len() == names.len() && !sides.iter().any(uses) {
            log.add(&format!("{path}.all.{key}"), tr!("no side of this part uses it"), tr!("take it away"));
        }
    }
    sides.into_iter().map(|(_, side)| side).collect()
}

fn kind_of(top: &Top) -> Kind {
    match top {
        Top::Eave { .. } => Kind::Eave,
        Top::HalfHip { .. } => Kind::HalfHip,
        Top::Knee { .. } => Kind::Knee,
        Top::Gable { .. } => Kind::Gable,
    }
}

fn unknown_names(map: &Entries<'_>, known: &[String], log: &mut Log) {
    let names: Vec<&str> = known.iter().map(String::as_str).chain(["all"]).collect();
    for key in map.keys().filter(|key| !names.contains(key)) {
        let hint = match meant(key, &names) {
            hint if hint.is_empty() => tr!("its sides are {}", known.join(", ")),
            hint => hint,
        };
        log.add(&map.path_of(key), tr!("the outline has no such side"), &hint);
    }
}

/// One side with what it says itself; `None` when its entry is missing or of the wrong kind.
fn one(map: &Entries<'_>, name: &str, all: &Said, has_all: bool, log: &mut Log) -> Option<(Said, Side)> {
    let path = map.path_of(name);
    let own = match map.find(name) {
        Some(tree) => Said::read(tree, &path, log)?,
        None if has_all => Said::default(),
        None => {
            log.add(&path, tr!("this side is missing"), tr!("describe it, or all sides at once under \"all\""));
            return None;
        }
    };
    let said = own.clone().or(all);
    for key in all.keys.iter().filter(|key| !own.says(key)) {
        log.alias(format!("{path}.{key}"), map.path_of("all") + "." + key);
    }
    let (wall, overhang) = (said.wall.unwrap_or(true), said.overhang.unwrap_or(Length::ZERO));
    let top = match said.top {
        None => {
            log.add(&format!("{path}.top"), tr!("it is missing"), tr!("it may be eave, half-hip, knee or gable"));
            None
        }
        Some(None) => None,
        Some(Some(kind)) => {
            strangers(&own, kind, &path, log);
            top(&said, kind, overhang, &path, log)
        }
    };
    let top = top.unwrap_or(Top::Gable { overhang });
    Some((own, Side { id: SideId(name.to_owned()), wall, posts: said.posts, top }))
}

/// Notes what a side says itself but its top has no use for.
fn strangers(own: &Said, kind: Kind, path: &str, log: &mut Log) {
    for key in SIZES.iter().filter(|key| own.says(key) && !kind.keys().contains(key)) {
        let owners: Vec<&str> = KINDS.iter().filter(|(_, k)| k.keys().contains(key)).map(|(word, _)| *word).collect();
        let hint = tr!("take it away, or make the top {}", owners.join(tr!(" or ")));
        log.add(&format!("{path}.{key}"), tr!("{} has no {key}", kind.words()), &hint);
    }
}

fn top(said: &Said, kind: Kind, overhang: Length, path: &str, log: &mut Log) -> Option<Top> {
    let given = [
        ("height", said.height.is_some()),
        ("start", said.start.is_some()),
        ("pitch", said.pitch.is_some()),
        ("lower", said.lower.is_some()),
        ("knee", said.knee.is_some()),
        ("upper", said.upper.is_some()),
    ];
    for (key, _) in given.iter().filter(|(key, given)| !given && kind.keys().contains(key)) {
        log.add(&format!("{path}.{key}"), tr!("it is missing; {} needs it", kind.words()), "");
    }
    match kind {
        Kind::Eave => Some(Top::Eave { height: said.height?, pitch: said.pitch?, overhang }),
        Kind::HalfHip => Some(Top::HalfHip { start: said.start?, pitch: said.pitch?, overhang }),
        Kind::Knee => {
            Some(Top::Knee { height: said.height?, lower: said.lower?, knee: said.knee?, upper: said.upper?, overhang })
        }
        Kind::Gable => Some(Top::Gable { overhang }),
    }
}
