use super::{House, Part, PartId, SideId};
use gable_measure::Length;
use gable_words::tr;

/// A measure of one part that follows a measure of another, or another of its own, whatever changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Relation {
    /// What follows.
    pub follower: Measured,
    /// What it follows.
    pub leader: Measured,
    /// How much more it is than what it follows; negative: less.
    pub offset: Length,
    /// What of the part changes so that a ridge can follow; counts for nothing else.
    pub gives: Gives,
}

/// A measure of a part.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Measured {
    /// The part.
    pub part: PartId,
    /// Which measure of it.
    pub measure: Measure,
}

/// What can follow and be followed. Heights are heights in the finished house, above the base board.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    /// The plan from left to right, before the part is turned.
    Width,
    /// The plan from front to back.
    Depth,
    /// Height of the walls that end under a slope: of one side, or of all of them at once.
    Eave(Option<SideId>),
    /// Highest point of the underside of the roof, of a part without a lid.
    Ridge,
    /// Underside of the lid.
    Lid,
}

/// What changes when a ridge follows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gives {
    /// The walls; the roof keeps its shape and rises or sinks with them.
    #[default]
    Walls,
    /// The pitches; the walls keep their height.
    Pitch,
}

impl Measure {
    /// Whether it is a height rather than a size of the plan.
    pub const fn is_height(&self) -> bool {
        !matches!(self, Self::Width | Self::Depth)
    }
}

impl House {
    /// What a measure follows. A wall height also follows what all of its part's wall heights follow.
    pub fn followed(&self, what: &Measured) -> Option<&Relation> {
        let all = Measured { part: what.part.clone(), measure: Measure::Eave(None) };
        let find = |what: &Measured| self.relations.iter().find(|r| &r.follower == what);
        find(what).or_else(|| find(&all).filter(|_| matches!(what.measure, Measure::Eave(_))))
    }

    /// Lets a measure follow, and no longer what it followed before.
    pub fn follow(&mut self, relation: Relation) {
        self.relations.retain(|r| r.follower != relation.follower);
        self.relations.push(relation);
    }

    /// Lets go: the measure keeps the size that it has.
    pub fn let_go(&mut self, what: &Measured) {
        self.relations.retain(|r| &r.follower != what);
    }

    /// Takes away what is said of parts that are not in the house any more.
    pub fn forget_lost(&mut self) {
        let parts = &self.parts;
        let is_there = |id: &PartId| parts.iter().any(|p| &p.id == id);
        self.decided.retain(|d| is_there(&d.whole) && is_there(&d.cut));
        self.relations.retain(|r| is_there(&r.follower.part) && is_there(&r.leader.part));
        self.order.retain(|b| is_there(&b.first.part()) && is_there(&b.then.part()));
        self.baked.retain(|b| is_there(&b.part));
    }
}

impl Relation {
    /// What it follows, as in 'level with the eave of Main body' or 'as wide as Main body is deep'.
    pub fn words(&self, house: &House) -> String {
        let offset = self.offset.abs();
        let words = self.leader.as_led(&self.follower.measure, house);
        let by = house.unit.print(offset);
        let way = match (self.follower.measure.is_height(), self.offset > Length::ZERO) {
            (true, true) => tr!("higher"),
            (true, false) => tr!("lower"),
            (false, true) => tr!("more"),
            (false, false) => tr!("less"),
        };
        if offset == Length::ZERO { words } else { tr!("{words}, and {by} {way}") }
    }
}

impl Measured {
    /// What follows it, in words: 'level with the eave of Main body'.
    fn as_led(&self, follower: &Measure, house: &House) -> String {
        let name = name(house, &self.part);
        match (follower, &self.measure) {
            (Measure::Width, Measure::Width) => tr!("as wide as {name}"),
            (Measure::Width, _) => tr!("as wide as {name} is deep"),
            (Measure::Depth, Measure::Depth) => tr!("as deep as {name}"),
            (Measure::Depth, _) => tr!("as deep as {name} is wide"),
            _ => tr!("level with {}", self.words(house)),
        }
    }

    /// 'the eave of Main body'.
    pub fn words(&self, house: &House) -> String {
        let name = name(house, &self.part);
        match &self.measure {
            Measure::Width => tr!("the width of {name}"),
            Measure::Depth => tr!("the depth of {name}"),
            Measure::Eave(None) => tr!("the eave of {name}"),
            Measure::Eave(Some(side)) if side.0.parse::<u8>().is_ok() => {
                tr!("the eave on side {} of {name}", side.words())
            }
            Measure::Eave(Some(side)) => tr!("the {} eave of {name}", side.words()),
            Measure::Ridge => tr!("the ridge of {name}"),
            Measure::Lid => tr!("the top of {name}"),
        }
    }
}

/// What people call a part.
fn name<'a>(house: &'a House, part: &'a PartId) -> &'a str {
    house.part(part).map_or(part.0.as_str(), |p: &Part| p.name.as_str())
}
