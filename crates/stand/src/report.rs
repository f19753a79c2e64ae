//! Everything that is asked about one house, answered for one person and one room.

use crate::bend::{self, Bends, Kept, bends};
use crate::carry::{Carry, Section};
use crate::damp::{self, Air};
use crate::fresh::{self, Bow, Carried, Icing, Waits};
use crate::lift::{self, Spare};
use crate::light::{self, LitRoom};
use crate::stuff::Stuff;
use crate::{Class, Matter, Range, Site, Told, Tried, carry, tried};
use gable_bake::timetable::{Rate, Rates};
use gable_shell::{DoughId, JointEnd, Solved};

/// What share of its cured strength icing has when it can be handled (an assumption, no source).
const HANDLED: Range = Range { low: 0.1, usual: 0.25, high: 0.5 };

/// What is asked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ask {
    /// The room where it is on show.
    pub air: Air,
    /// Which board it stands on, by its word among [`carry::BOARDS`]; the usual one if none is named.
    pub board: Option<String>,
}

/// The answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// What was asked.
    pub ask: Ask,
    /// Every answer, by matter, the worst first.
    pub told: Vec<Told>,
    /// Every piece that bends where it stands, with its stress all over.
    pub bent: Vec<Bends>,
    /// What every joint carries.
    pub carried: Vec<Carried>,
    /// How much bow joints forgive.
    pub bows: Vec<Bow>,
    /// Changes of the house that were tried and help a piece: see [`Report::try_changes`].
    pub tried: Vec<Tried>,
    /// Templates of which one more should be baked.
    pub spares: Vec<Spare>,
    /// What to do in this air.
    pub advice: Vec<String>,
    /// The highest humidity at which nothing that carries is asked for too much, from 0 to 1; nothing if even crisp it is.
    pub keep_below: Option<f64>,
    /// The house as freight.
    pub carry: Carry,
    /// How it comes apart.
    pub sections: Vec<Section>,
    /// Its rooms with windows.
    pub rooms: Vec<LitRoom>,
}

impl Report {
    /// Answers everything; plates that were bent before are kept. A house is weighed, bent and looked through: call it away from the
    /// window.
    pub fn of(site: &Site<'_>, ask: &Ask, kept: &mut Kept) -> Self {
        let stuff = Materials::of(site, ask.air);
        let carry = Carry::of(site, ask.board.as_deref());
        let carried = fresh::carried(site);
        let mut told = fresh::answers(site, &stuff.icing, &waits(&site.notebook.rates, ask.air));
        told.extend(lift::answers(site, |piece| Stuff::of(site.notebook, &piece.dough).strength.range));
        let room = bend::Ask { humidity: ask.air.humidity, ..bend::Ask::default() };
        let bent = bends(site, &room, kept);
        told.extend(bend::told_of(site, &room, &bent));
        told.extend(fresh::buckles(site, ask.air.humidity));
        told.extend(damp::answers(site, ask.air));
        told.extend(carry::answers(site, &carry, stuff.dry.cured));
        told.extend(light::answers(site));
        let spares = lift::spares(site, &told);
        told.sort_by(|a, b| {
            let worst = |t: &Told| (std::cmp::Reverse(t.class()), t.matter);
            let order = |t: &Told| Matter::ALL.iter().position(|m| *m == t.matter);
            let share = b.answer.share.usual.total_cmp(&a.answer.share.usual);
            order(a).cmp(&order(b)).then(worst(a).cmp(&worst(b))).then(share)
        });
        let keep_below = keep_below(site, &stuff, &carried, &bent);
        let thinnest = site.about.solved.pieces.iter().map(|p| p.thickness).reduce(gable_measure::Length::min);
        let thinnest = thinnest.unwrap_or(gable_measure::Length::mm_of(6.0));
        let advice = damp::advice(&stuff.stuff, ask.air, thinnest, keep_below);
        let (bows, sections, rooms) = (fresh::bows(site), carry::sections(site), light::rooms(site));
        Self {
            ask: ask.clone(),
            told,
            bent,
            tried: Vec::new(),
            carried,
            bows,
            spares,
            advice,
            keep_below,
            carry,
            sections,
            rooms,
        }
    }

    /// Tries what would help pieces in the hand and where they stand. The house is worked out anew dozens of times; it ends early when `go_on` says no.
    pub fn try_changes(&mut self, site: &Site<'_>, go_on: impl Fn() -> bool) {
        self.tried = tried(site, &self.told, self.ask.air.humidity, go_on);
    }

    /// How many answers there are of a class.
    pub fn count(&self, class: Class) -> usize {
        self.told.iter().filter(|t| t.class() == class).count()
    }

    /// How well each piece will do, in the order of the pieces: the worst that is said of it, or of a joint that holds it. How light falls
    /// is no matter of strength.
    pub fn of_pieces(&self, solved: &Solved) -> Vec<Class> {
        let mut worst = vec![Class::Sound; solved.pieces.len()];
        for told in self.told.iter().filter(|t| t.matter != Matter::Light) {
            let place = &told.answer.place;
            let joint = place.joint.filter(|_| place.piece.is_none()).and_then(|j| solved.joints.get(j));
            let ends = joint.into_iter().flat_map(|j| &j.ends);
            let of_joint = ends.filter_map(|e| if let JointEnd::Piece(k) = e { Some(*k) } else { None });
            for k in place.piece.into_iter().chain(of_joint) {
                worst[k] = worst[k].max(told.class());
            }
        }
        worst
    }

    /// The pieces that are asked for most where they stand, the worst first, one of those that are cut alike: all that are not sound, up
    /// to so many, and two in any case.
    pub fn bent_most(&self, solved: &Solved, most: usize) -> Vec<&Bends> {
        let mut all: Vec<&Bends> = self.bent.iter().filter(|one| one.bent.is_ok()).collect();
        all.sort_by(|a, b| b.share.usual.total_cmp(&a.share.usual).then(a.standing.piece.cmp(&b.standing.piece)));
        let mut seen = Vec::new();
        all.retain(|one| {
            let template = solved.template_number(&solved.pieces[one.standing.piece]);
            let new = !seen.contains(&template);
            seen.push(template);
            new
        });
        let weak = all.iter().filter(|one| Class::of(one.share) > Class::Sound).count();
        all.truncate(weak.clamp(2, most));
        all
    }

    /// The worst of all.
    pub fn worst(&self) -> Class {
        self.told.iter().map(Told::class).max().unwrap_or(Class::Sound)
    }
}

/// What biscuit and icing are in one kitchen and one room.
struct Materials {
    stuff: Stuff,
    /// Icing in this room after its days on show.
    icing: Icing,
    /// The same while everything is crisp.
    dry: Icing,
}

impl Materials {
    fn of(site: &Site<'_>, air: Air) -> Self {
        let first = site.about.house.doughs.first().map_or_else(|| DoughId("walls".to_owned()), |d| d.id.clone());
        let stuff = Stuff::of(site.notebook, &first);
        let thinnest = site.about.solved.pieces.iter().map(|p| p.thickness).reduce(gable_measure::Length::min);
        let soft = thinnest.map_or(stuff.strength.range, |t| damp::softened(&stuff, air, t, false).strength);
        let dry = icing(&stuff, stuff.strength.range);
        // Seams are put up crisp; only what has cured stands in the damp.
        let icing = Icing { cured: icing(&stuff, soft).cured, ..dry };
        Self { stuff, icing, dry }
    }
}

/// Icing as it holds on biscuit of a strength: a joint gives way in the weaker of the two.
fn icing(stuff: &Stuff, biscuit: Range) -> Icing {
    let bond = stuff.bond.range;
    let cured = Range {
        low: bond.low.min(biscuit.low),
        usual: bond.usual.min(biscuit.usual),
        high: bond.high.min(biscuit.high),
    };
    Icing { fresh: stuff.icing_yield.range * 1e-6, handled: cured * HANDLED, cured }
}

/// How long icing takes, in hours; longer in damp air, as in the timetable.
fn waits(rates: &Rates, air: Air) -> Waits {
    let damp = if air.humidity > damp::MOULD { rates.get(Rate::Damp) } else { 1.0 };
    let hours = |rate: Rate| {
        let (least, most) = rate.known().range;
        let usual = rates.get(rate);
        let own = rates.basis(rate) == gable_bake::Basis::Own;
        let all = if own { Range::exactly(usual) } else { Range::new(least, usual, most) };
        all * (damp / 60.0)
    };
    Waits { handle: hours(Rate::Handle), cure: hours(Rate::Cure) }
}

/// The highest humidity at which every joint and every piece that bends stays sound.
fn keep_below(site: &Site<'_>, stuff: &Materials, carried: &[Carried], bent: &[Bends]) -> Option<f64> {
    let most = carried.iter().map(Carried::stress).fold(0.0, f64::max);
    let joints = damp::keep_below(&stuff.stuff, Range::exactly(most) / stuff.dry.cured);
    let piece = |one: &Bends| {
        let own = Stuff::of(site.notebook, &site.pieces()[one.standing.piece].dough);
        damp::keep_below(&own, one.stress / own.strength.range)
    };
    // Nothing at all, if one of them is nothing.
    bent.iter().filter(|one| one.bent.is_ok()).map(piece).fold(joints, |least, own| Some(least?.min(own?)))
}
