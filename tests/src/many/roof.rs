//! What stands on a roof.

use super::Builder;
use super::body::{flat, pointed};
use super::facts::{Facts, slopes_up};
use crate::build::{degrees, eave, gable, mm, part, rectangle};
use gable_measure::Angle;
use gable_shell::{Lid, Outline, Part, Place, Placing, Spot};
use std::f64::consts::PI;

impl Builder {
    /// One to three equal dormers on a slope, as many as the house may have parts.
    pub(super) fn add_dormers(&mut self, host: usize, most: usize) {
        let Some(side) = self.side(host, |facts, k| facts.length(k) > 60.0 && facts.ridge(k).0 > 35.0) else { return };
        if !slopes_up(&self.parts[host], side) {
            return;
        }
        let facts = self.facts(host);
        let width = self.size(28.0, 55.0);
        let up = self.size(0.0, facts.ridge(side).0 * 0.3);
        let Some(dormer) = self.dormer(&facts, side, width, up) else { return };
        let count = self.random.pick([1, 1, 2, 3]).min(most - self.parts.len());
        let length = facts.length(side);
        let step = (length - 20.0) / count as f64;
        if step < width + 8.0 {
            return;
        }
        let turn = if count == 1 { self.turn(0.1, 15.0) } else { Angle::degrees(0.0) };
        for k in 0..count {
            let offset = (k as f64 - (count as f64 - 1.0) / 2.0) * step;
            let along = Placing::Centred { offset: mm(offset) };
            let (host, side) = (self.parts[host].id.clone(), self.side_id(host, side));
            self.add("dormer", dormer.clone(), Place::OnSlope { host, side, along, up: mm(up), turn });
        }
        self.taken.push((host, side));
    }

    /// A dormer whose plan ends where the host's roof is above its own; none where the slope is too short.
    fn dormer(&mut self, facts: &Facts, side: usize, width: f64, up: f64) -> Option<Part> {
        let base = facts.height(facts.inside(side, 0.5, up));
        let over = |depth: f64| facts.height(facts.inside(side, 0.5, up + depth)) - base;
        let room = facts.ridge(side).0 - up;
        let wall = self.size(10.0, 30.0);
        let overhang = self.overhang(6.0);
        let shed = self.random.chance(0.3);
        let angle = if shed { self.slope(8.0, 20.0) } else { self.slope(25.0, 55.0) };
        let rise = angle.to_radians().tan();
        let top = |depth: f64| wall + if shed { depth * rise } else { width / 2.0 * rise };
        // Its upper faces must meet the host's before its plan ends.
        let margin = (self.gap + self.baked[2]) / angle.to_radians().cos() + self.random.pick([0.5, 1.0, 4.0]);
        let depth = (8..200).map(f64::from).find(|&d| over(d) >= top(d) + margin)?;
        if depth > room {
            return None;
        }
        let slope = eave(wall, degrees(angle), overhang);
        let tops = if shed {
            [slope, gable(overhang), gable(0.0), gable(overhang)]
        } else {
            let front = if self.random.chance(0.3) { slope } else { gable(overhang) };
            [front, slope, gable(0.0), slope]
        };
        let mut dormer = part(rectangle(width, depth), &tops);
        dormer.sides[2].wall = false;
        Some(dormer)
    }

    /// A chimney astride the ridge, on one slope, or up a wall from the board.
    pub(super) fn add_chimney(&mut self, host: usize) {
        let facts = self.facts(host);
        let width = self.size(22.0, 40.0);
        let deep = if self.random.chance(0.5) { width } else { self.size(22.0, 40.0) };
        let cap = self.random.pick([0.0, 2.0, 3.0]);
        let chimney =
            |height: f64| flat(rectangle(width, deep), Lid { height: mm(height), overhang: mm(cap), parapet: None });
        let name = self.parts[host].id.clone();
        let pick = self.random.whole(0, 4);
        if pick < 2 {
            let most = self.ridge_length(host, &facts) / 2.0 - width;
            let along = if self.random.chance(0.4) || most < 1.0 { 0.0 } else { self.size(0.0, most) };
            let turn = self.turn(0.2, 45.0);
            let height = self.size(20.0, 50.0);
            self.add("chimney", chimney(height), Place::Astride { host: name, along: mm(along), turn });
            return;
        }
        let Some(side) = self.side(host, |facts, k| facts.length(k) > 50.0) else { return };
        let (ridge, top) = facts.ridge(side);
        let along = self.along(facts.length(side) - 16.0, width);
        let turn = self.turn(0.2, 45.0);
        let id = self.side_id(host, side);
        let reach = width.hypot(deep) + 1.0;
        if pick < 4 && ridge > reach + 2.0 {
            let up = self.size(2.0, ridge - reach);
            let height = top - facts.height(facts.inside(side, 0.5, up)) + self.size(10.0, 30.0);
            self.add("chimney", chimney(height), Place::OnSlope { host: name, side: id, along, up: mm(up), turn });
        } else {
            let height = top + self.size(10.0, 40.0);
            let out = mm(deep - self.random.pick([0.0, 2.0, deep * 0.4]));
            let turn = Angle::degrees(0.0);
            self.add("chimney", chimney(height), Place::Against { host: name, side: id, along, out, turn });
        }
        self.taken.push((host, side));
    }

    /// Length of a ridge from gable to gable or hip to hip, roughly.
    fn ridge_length(&self, host: usize, facts: &Facts) -> f64 {
        let eaves: Vec<usize> = (0..facts.plan.len()).filter(|&k| slopes_up(&self.parts[host], k)).collect();
        let longest = eaves.iter().map(|&k| facts.length(k)).fold(0.0, f64::max);
        if eaves.len() > 2 { longest - 2.0 * facts.inradius() } else { longest }
    }

    /// A lantern on a lid or on the top of a roof.
    pub(super) fn add_lantern(&mut self, host: usize) {
        if self
            .parts
            .iter()
            .any(|p| p.place.host() == Some(&self.parts[host].id) && matches!(p.place, Place::OnTop { .. }))
        {
            return;
        }
        let facts = self.facts(host);
        let across = self.size(22.0, (facts.inradius() * 0.9).clamp(24.0, 60.0));
        let sides = self.random.pick([4_u8, 6, 8]);
        let edge = across * (PI / f64::from(sides)).tan();
        let outline = if sides == 4 { rectangle(across, across) } else { Outline::Polygon { sides, side: mm(edge) } };
        let height = self.size(15.0, 40.0);
        let lantern = if self.random.chance(0.2) {
            flat(outline, Lid { height: mm(height), overhang: mm(2.0), parapet: None })
        } else {
            pointed(outline, height, self.pitch(25.0, 70.0), self.overhang(4.0))
        };
        let turn = self.turn(0.3, 45.0);
        let spot = Spot { turn, ..Spot::default() };
        self.add("lantern", lantern, Place::OnTop { host: self.parts[host].id.clone(), spot });
    }
}
