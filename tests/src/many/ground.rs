//! What stands on the board against another part.

use super::Builder;
use super::body::{flat, pointed};
use super::facts::{Facts, slopes_up};
use crate::build::{degrees, eave, gable, mm, part, rectangle};
use gable_measure::{Angle, Length};
use gable_shell::{FloorKind, Outline, Part, PartId, Place, Placing, Posts, Steps, StepsHigh, Top};
use std::f64::consts::PI;

impl Builder {
    fn host_id(&self, host: usize) -> PartId {
        self.parts[host].id.clone()
    }

    /// A wing whose open end reaches to where the host's roof covers it, or a little into a gable wall.
    pub(super) fn add_wing(&mut self, host: usize) {
        let Some(side) = self.side(host, |facts, k| facts.length(k) > 60.0 && facts.wall_top(k) > 35.0) else { return };
        let facts = self.facts(host);
        let (length, eaves) = (facts.length(side), facts.wall_top(side));
        let (depth, ridge) = facts.ridge(side);
        let sloped = slopes_up(&self.parts[host], side);
        let width = self.size(45.0, length * 0.85);
        let out = self.size(30.0, 120.0);
        let top = if sloped { self.wing_top(eaves, ridge) } else { self.size(eaves * 0.6, eaves.max(ridge * 0.9)) };
        let wall = if self.random.chance(0.25) && eaves < top - 12.0 {
            eaves
        } else {
            top - width / 2.0 * self.slope(25.0, 55.0).to_radians().tan()
        };
        let wall = wall.max(30.0);
        let angle = ((top - wall) / (width / 2.0)).atan().to_degrees();
        if !(15.0..62.0).contains(&angle) {
            return;
        }
        let turn = self.turn(0.3, 35.0);
        let inner = if sloped { depth } else { self.size(0.0, 30.0) };
        let askew = turn.sin().abs() * width / 2.0;
        let deep = (out + inner - askew) / turn.cos() + if sloped { 0.0 } else { 2.0 * askew };
        let extent = width * turn.cos() + deep * turn.sin().abs();
        let along = self.along(length, extent);
        let covered = sloped || self.covers(&facts, side, middle(along, length, extent), width / 2.0, wall, top);
        if deep < 30.0 || askew > 0.7 * facts.depth(side) / 2.0 || !(covered || self.odd()) {
            return;
        }
        let tops = self.wing_tops(width, wall, angle);
        let mut wing = part(rectangle(width, deep), &tops);
        wing.sides[2].wall = false;
        let place =
            Place::Against { host: self.host_id(host), side: self.side_id(host, side), along, out: mm(out), turn };
        self.taken.push((host, side));
        self.add("wing", wing, place);
    }

    /// Whether a host's wall is higher than a wing's roof that ends at it, at both eaves and under the ridge.
    fn covers(&self, facts: &Facts, side: usize, middle: f64, half: f64, wall: f64, top: f64) -> bool {
        let thick = (self.gap + self.baked[1]) * 1.5;
        let length = facts.length(side);
        let high = |at: f64, height: f64| {
            let share = at / length;
            (0.0..=1.0).contains(&share) && facts.height(facts.inside(side, share, 0.0)) > height + thick
        };
        high(middle - half, wall) && high(middle + half, wall) && high(middle, top)
    }

    fn odd(&mut self) -> bool {
        !self.plain && self.random.chance(0.1)
    }

    /// Height of a wing's ridge: lower than, level with or higher than the host's eave, or level with its ridge.
    fn wing_top(&mut self, eaves: f64, ridge: f64) -> f64 {
        match self.random.whole(0, 9) {
            0 | 1 => self.size(eaves * 0.75, eaves - 5.0),
            2 => eaves,
            3 | 4 if ridge > eaves => ridge,
            _ => self.size(eaves + 2.0, ridge - 2.0).min(ridge),
        }
    }

    fn wing_tops(&mut self, width: f64, wall: f64, angle: f64) -> Vec<Top> {
        let end = gable(0.0);
        let overhang = self.overhang(12.0);
        let slope = eave(wall, degrees(angle), overhang);
        let rise = width / 2.0 * angle.to_radians().tan();
        let front = match self.random.whole(0, 5) {
            0 => eave(wall, self.pitch(30.0, 60.0), overhang),
            1 => Top::HalfHip { start: mm(wall + rise * 0.5), pitch: self.pitch(35.0, 60.0), overhang: mm(overhang) },
            _ => gable(self.overhang(12.0)),
        };
        let knee = Top::Knee {
            height: mm(wall),
            lower: degrees(60.0),
            knee: mm(wall + rise * 0.6),
            upper: degrees((rise * 0.4 / (width / 2.0 - rise * 0.6 / 60.0_f64.to_radians().tan())).atan().to_degrees()),
            overhang: mm(overhang),
        };
        let gambrel = (35.0..50.0).contains(&angle) && self.random.chance(0.2);
        if gambrel { vec![gable(overhang), knee, end, knee] } else { vec![front, slope, end, slope] }
    }

    /// A lean-to: one slope that rises to the host; a porch has open sides.
    pub(super) fn add_lean_to(&mut self, host: usize, porch: bool) {
        let Some(side) = self.side(host, |facts, k| facts.length(k) > 50.0 && facts.wall_top(k) > 45.0) else { return };
        let facts = self.facts(host);
        let (length, eaves) = (facts.length(side), facts.wall_top(side));
        let whole = !porch && self.random.chance(0.25);
        let width = if whole { length } else { self.size(40.0, length * 0.8) };
        let (out, inner) = (self.size(25.0, 80.0), self.random.pick([0.0, 0.0, 2.0, self.baked[0], 12.0]));
        let angle = self.slope(10.0, 35.0);
        let rise = (out + inner) * angle.to_radians().tan();
        let high = match self.random.whole(0, 5) {
            0 => eaves,
            1 => eaves - self.baked[1],
            _ => self.size(eaves * 0.5, eaves - 8.0),
        };
        let low = high - rise;
        if low < 25.0 {
            return;
        }
        let overhang = self.overhang(12.0);
        let tops = [eave(low, degrees(angle), overhang), gable(overhang), gable(0.0), gable(overhang)];
        let mut guest = part(rectangle(width, out + inner), &tops);
        guest.sides[2].wall = false;
        if porch {
            let open = self.random.pick([&[0_usize][..], &[1], &[0, 3], &[1, 3]]);
            open.iter().for_each(|&k| guest.sides[k].wall = false);
            if self.porches {
                self.posts_and_floor(&mut guest, low);
            }
        }
        let along = if whole { Placing::Centred { offset: Length::ZERO } } else { self.along(length, width) };
        let turn = Angle::degrees(0.0);
        let place =
            Place::Against { host: self.host_id(host), side: self.side_id(host, side), along, out: mm(out), turn };
        self.taken.push((host, side));
        self.add(if porch { "porch" } else { "lean-to" }, guest, place);
    }

    /// Posts on some open sides of a porch, and a floor, with or without steps, under most.
    fn posts_and_floor(&mut self, porch: &mut Part, low: f64) {
        for side in [0, 1, 3] {
            if !porch.sides[side].wall && self.random.chance(0.8) {
                porch.sides[side].posts = Some(Posts {
                    count: self.random.whole(1, 3) as u8,
                    width: mm(self.size(5.0, 9.0)),
                    strips: self.random.whole(1, 2) as u8,
                    at_ends: self.random.chance(0.7),
                });
            }
        }
        if self.random.chance(0.7) {
            porch.floor.kind = FloorKind::Under;
            let high = if self.random.chance(0.7) {
                StepsHigh::Count(self.random.whole(1, 2) as u8)
            } else {
                StepsHigh::Height(mm(self.size(5.0, low * 0.5)))
            };
            let sides = self.random.pick([&[0_usize][..], &[0, 1], &[0, 1, 3], &[]]);
            let sides = sides.iter().map(|&k| porch.sides[k].id.clone()).collect();
            let steps = Steps { high, plates: 1, tread: mm(self.size(4.0, 15.0)), sides };
            porch.floor.steps = self.random.chance(0.8).then_some(steps);
        }
    }

    /// Steps before a wall, and nothing over them.
    pub(super) fn add_steps(&mut self, host: usize) {
        let Some(side) = self.side(host, |facts, k| facts.length(k) > 50.0 && facts.wall_top(k) > 30.0) else { return };
        let length = self.facts(host).length(side);
        let (width, out) = (self.size(25.0, length * 0.6), self.size(15.0, 50.0));
        let inner = self.random.pick([0.0, 0.0, 5.0]);
        let mut steps = part(rectangle(width, out + inner), &[gable(0.0); 4]);
        steps.sides.iter_mut().for_each(|side| side.wall = false);
        steps.floor.kind = FloorKind::Under;
        let count = self.random.whole(1, 3) as u8;
        let sides = self.random.pick([&[0_usize][..], &[0, 1, 3]]);
        steps.floor.steps = Some(Steps {
            high: StepsHigh::Count(count),
            plates: self.random.whole(1, 2) as u8,
            tread: mm(self.size(4.0, 15.0)),
            sides: sides.iter().map(|&k| steps.sides[k].id.clone()).collect(),
        });
        let along = self.along(length, width);
        let turn = self.turn(0.2, 30.0);
        let place =
            Place::Against { host: self.host_id(host), side: self.side_id(host, side), along, out: mm(out), turn };
        self.taken.push((host, side));
        self.add("steps", steps, place);
    }

    /// A tower let into a corner; it stays whole.
    pub(super) fn add_tower(&mut self, host: usize) {
        let Some(side) = self.side(host, |facts, k| facts.length(k) > 60.0) else { return };
        let facts = self.facts(host);
        let sides = self.random.pick([4_u8, 6, 8, 8]);
        let across = self.size(45.0, 100.0);
        let edge = across * (PI / f64::from(sides)).tan();
        let outline = if sides == 4 { rectangle(across, across) } else { Outline::Polygon { sides, side: mm(edge) } };
        let (eaves, ridge) = (facts.wall_top(side), facts.top());
        let height = match self.random.whole(0, 5) {
            0 => eaves,
            1 => self.size(eaves, ridge),
            _ => self.size(ridge, ridge + 60.0),
        };
        let mut tower = match self.random.whole(0, 2) {
            0 => flat(outline, self.lid(height, 8.0)),
            1 => pointed(outline, height, self.pitch(25.0, 55.0), self.overhang(8.0)),
            _ => pointed(outline, height, self.pitch(58.0, 74.0), self.overhang(6.0)),
        };
        tower.stays_whole = self.plain || self.random.chance(0.85);
        let (past, out) = (self.size(across * 0.2, across * 0.8), self.size(across * 0.2, across * 0.8));
        let along = if self.random.chance(0.5) {
            Placing::FromLeft { distance: mm(-past) }
        } else {
            Placing::FromRight { distance: mm(-past) }
        };
        let turn = self.turn(0.3, 45.0);
        let place =
            Place::Against { host: self.host_id(host), side: self.side_id(host, side), along, out: mm(out), turn };
        self.taken.push((host, side));
        self.add("tower", tower, place);
    }

    /// A bay under an eave, its roof against the wall.
    pub(super) fn add_bay(&mut self, host: usize) {
        let Some(side) = self.side(host, |facts, k| facts.length(k) > 70.0 && facts.wall_top(k) > 50.0) else { return };
        let facts = self.facts(host);
        let (length, eaves) = (facts.length(side), facts.wall_top(side));
        let sides = self.random.pick([3_u8, 3, 4, 5]);
        let width = self.size(50.0, (length * 0.6).min(100.0));
        let apothem = width / 2.0 * (PI / 2.0 / f64::from(sides)).cos();
        let deep = if sides.is_multiple_of(2) { width / 2.0 } else { apothem };
        let outline = Outline::HalfPolygon { sides, width: mm(width) };
        let angle = self.slope(25.0, 60.0);
        let top = if self.random.chance(0.2) { eaves } else { self.size(eaves * 0.6, eaves - 5.0) };
        let wall = top - apothem * angle.to_radians().tan();
        let mut bay = if wall < 25.0 || self.random.chance(0.15) {
            flat(outline, self.lid(top, 4.0))
        } else {
            pointed(outline, wall, degrees(angle), self.overhang(6.0))
        };
        let back = bay.sides.len() - 1;
        bay.sides[back].wall = false;
        bay.sides[back].top = gable(0.0);
        let out = deep - self.random.pick([0.0, 1.0, 4.0, deep * 0.2]);
        let along = self.along(length, width);
        if eaves - top > 12.0 && self.random.chance(0.4) {
            bay.raised = mm(self.size(6.0, eaves - top - 2.0));
            bay.floor.kind = FloorKind::Under;
        }
        let turn = Angle::degrees(0.0);
        let place =
            Place::Against { host: self.host_id(host), side: self.side_id(host, side), along, out: mm(out), turn };
        self.taken.push((host, side));
        self.add("bay", bay, place);
    }
}

/// Middle of an extent along a side, mm from its start.
fn middle(along: Placing, length: f64, extent: f64) -> f64 {
    match along {
        Placing::Centred { offset } => length / 2.0 + offset.mm(),
        Placing::FromLeft { distance } => distance.mm() + extent / 2.0,
        Placing::FromRight { distance } => length - distance.mm() - extent / 2.0,
    }
}
