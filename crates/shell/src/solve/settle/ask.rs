//! What the person may let follow what, and what was changed by hand.

use super::gauge::{self, NoMeasure};
use super::order::order;
use crate::{Gives, House, Measure, Measured, Outline, Part, Relation, Side, Top};
use gable_measure::{Length, Pitch};

impl House {
    /// A measure of a part as the house has it, from the foot of the part; none if the part has no such measure.
    pub fn size_of(&self, what: &Measured) -> Option<Length> {
        gauge::own(self, self.part(&what.part)?, &what.measure).ok().map(Length::mm_of)
    }

    /// Where in the house a measure is typed, such as `parts[0].outline.width`; none for a part that is not there.
    pub fn field_of(&self, what: &Measured) -> Option<String> {
        let k = self.parts.iter().position(|p| p.id == what.part)?;
        let field = match &what.measure {
            Measure::Width | Measure::Depth => match (&self.parts[k].outline, &what.measure) {
                (Outline::Polygon { .. }, _) => "outline.side".to_owned(),
                (Outline::Rectangle { .. }, Measure::Depth) => "outline.depth".to_owned(),
                _ => "outline.width".to_owned(),
            },
            Measure::Eave(None) => "sides.height".to_owned(),
            Measure::Eave(Some(side)) => format!("sides.{}.height", side.0),
            Measure::Ridge => "sides.ridge".to_owned(),
            Measure::Lid => "lid.height".to_owned(),
        };
        Some(format!("parts[{k}].{field}"))
    }

    /// What a measure could follow: every measure of the right kind that does not lead round in a circle.
    pub fn could_follow(&self, what: &Measured) -> Vec<Measured> {
        let kinds = |part: &Part| {
            if !what.measure.is_height() {
                return vec![Measure::Width, Measure::Depth];
            }
            match gauge::own(self, part, &Measure::Eave(None)) {
                Err(NoMeasure::Differs) => part.sides.iter().map(|s| Measure::Eave(Some(s.id.clone()))).collect(),
                _ => vec![Measure::Eave(None)],
            }
            .into_iter()
            .chain([Measure::Ridge, Measure::Lid])
            .collect()
        };
        let all = self
            .parts
            .iter()
            .flat_map(|p| kinds(p).into_iter().map(|measure| Measured { part: p.id.clone(), measure }));
        let gives = self.followed(what).map_or_else(Gives::default, |r| r.gives);
        let relation = |leader: Measured| Relation { follower: what.clone(), leader, offset: Length::ZERO, gives };
        all.filter(|leader| leader != what && self.can_follow(&relation(leader.clone()))).collect()
    }

    /// Whether a relation could be added: both measures are there, nothing else sets the same size, and it does not
    /// lead round in a circle. It would replace what the same measure follows now.
    pub fn can_follow(&self, relation: &Relation) -> bool {
        let (follower, leader) = (&relation.follower, &relation.leader);
        let is_there = |m: &Measured| self.part(&m.part).is_some_and(|p| gauge::own(self, p, &m.measure).is_ok());
        let is_free = matches!(self.part(&follower.part).map(|p| &p.outline), Some(Outline::Free { .. }));
        if (is_free && !follower.measure.is_height()) || !is_there(leader) {
            return false;
        }
        let mut tried = self.clone();
        tried.follow(relation.clone());
        let last = tried.relations.len() - 1;
        order(&tried).iter().all(|(r, trouble)| *r != last || trouble.is_none())
    }

    /// Lets go of every size that was changed by hand since `before`, where it followed something; says of what.
    ///
    /// Another roof form or another kind of plan is no such change: then the new sizes follow.
    pub fn let_go_of_changed(&mut self, before: &Self) -> Vec<Relation> {
        let changed = |r: &Relation| before.relations.contains(r) && is_changed(before, self, r);
        let gone: Vec<Relation> = self.relations.iter().filter(|r| changed(r)).cloned().collect();
        self.relations.retain(|r| !gone.contains(r));
        gone
    }
}

/// Whether what a relation sets was set to something else by hand.
fn is_changed(before: &House, after: &House, relation: &Relation) -> bool {
    let Measured { part, measure } = &relation.follower;
    let (Some(old), Some(new)) = (before.part(part), after.part(part)) else { return false };
    let kinds = |p: &Part| {
        let sides: Vec<_> = p.sides.iter().map(|s| std::mem::discriminant(&s.top)).collect();
        (std::mem::discriminant(&p.outline), p.outline.count(), sides, p.lid.is_some())
    };
    if kinds(old) != kinds(new) {
        return false;
    }
    let eaves = |p: &Part| p.sides.iter().map(gauge::eave).collect::<Vec<_>>();
    match measure {
        Measure::Eave(None) => eaves(old) != eaves(new),
        Measure::Ridge if relation.gives == Gives::Walls => eaves(old) != eaves(new),
        Measure::Ridge => pitches(old) != pitches(new),
        Measure::Width | Measure::Depth | Measure::Eave(Some(_)) | Measure::Lid => {
            gauge::own(before, old, measure) != gauge::own(after, new, measure)
        }
    }
}

fn pitches(part: &Part) -> Vec<Pitch> {
    let of = |side: &Side| match side.top {
        Top::Eave { pitch, .. } | Top::HalfHip { pitch, .. } => vec![pitch],
        Top::Knee { lower, upper, .. } => vec![lower, upper],
        Top::Gable { .. } => Vec::new(),
    };
    part.sides.iter().flat_map(of).collect()
}
