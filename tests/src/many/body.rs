//! The main body.

use super::Builder;
use crate::build::{degrees, eave, gable, mm, part, rectangle};
use crate::houses::random_house;
use gable_measure::{Angle, Pitch};
use gable_shell::{DoughId, Lid, Outline, Parapet, Part, Place, Top};

impl Builder {
    pub(super) fn add_body(&mut self) {
        let odd = !self.plain && self.random.chance(0.15);
        let mut part = if odd { self.any_part() } else { self.usual_part() };
        part.floor.dough = DoughId("walls".to_owned());
        let place = if self.random.chance(0.3) { self.anywhere() } else { Place::default() };
        self.add("main", part, place);
    }

    /// One of the random houses of one part, with walls all round.
    fn any_part(&mut self) -> Part {
        let mut part = random_house(self.random.bits() % 100_000).parts.swap_remove(0);
        part.sides.iter_mut().for_each(|side| side.wall = true);
        part
    }

    fn usual_part(&mut self) -> Part {
        let (width, depth) = (self.size(100.0, 220.0), self.size(120.0, 300.0));
        let height = self.size(60.0, 150.0);
        let outline = rectangle(width, depth);
        let (tops, lid) = match self.random.whole(0, 9) {
            0..=3 => (self.gabled(width, height), None),
            4 => (self.hipped(height), None),
            5 => (self.half_hipped(width, height), None),
            6 => (self.saltbox(width, height), None),
            7 => (self.knees(width, height), None),
            8 => (self.mansard(width.min(depth), height), None),
            _ => (vec![gable(0.0); 4], Some(self.lid(height, 8.0))),
        };
        let mut part = part(outline, &tops);
        part.lid = lid;
        if self.random.chance(0.25) {
            crate::openings::add_openings(&mut part, &mut self.random, self.baked[0], height * 0.8);
        }
        part
    }

    /// Left and right slopes with gables before and behind.
    pub(super) fn gabled(&mut self, width: f64, height: f64) -> Vec<Top> {
        let angle = self.slope(25.0, 55.0);
        let rise = width / 2.0 * angle.to_radians().tan();
        let other = if !self.plain && self.random.chance(0.2) { self.slope(25.0, 55.0) } else { angle };
        let pitches = if self.random.chance(0.2) {
            let ridge = self.size(height + rise * 0.8, height + rise * 1.1);
            [Pitch::RidgeHeight(mm(ridge)); 2]
        } else {
            [degrees(angle), degrees(other)]
        };
        let [right, left] = pitches.map(|pitch| eave(height, pitch, self.overhang(15.0)));
        vec![gable(self.overhang(15.0)), right, gable(self.overhang(15.0)), left]
    }

    fn hipped(&mut self, height: f64) -> Vec<Top> {
        let (one, other) = (self.pitch(25.0, 50.0), self.pitch(25.0, 50.0));
        let alike = self.plain || self.random.chance(0.6);
        let overhang = self.overhang(15.0);
        (0..4).map(|k| eave(height, if alike || k % 2 == 0 { one } else { other }, overhang)).collect()
    }

    fn half_hipped(&mut self, width: f64, height: f64) -> Vec<Top> {
        let mut tops = self.gabled(width, height);
        let start = height + width / 2.0 * 0.5 * self.random.between(0.3, 0.6);
        for k in [0, 2] {
            tops[k] =
                Top::HalfHip { start: mm(start), pitch: self.pitch(35.0, 60.0), overhang: mm(self.overhang(10.0)) };
        }
        tops
    }

    fn saltbox(&mut self, width: f64, height: f64) -> Vec<Top> {
        let (share, low) = (self.random.between(0.3, 0.6), height * self.random.between(0.55, 0.9));
        let top = height + width * share * self.random.between(0.5, 1.0);
        let slope = |rise: f64, run: f64| Pitch::Angle(Angle::of_slope(rise, run));
        let right = eave(height, slope(top - height, width * share), self.overhang(12.0));
        let left = eave(low, slope(top - low, width * (1.0 - share)), self.overhang(12.0));
        vec![gable(self.overhang(12.0)), right, gable(self.overhang(12.0)), left]
    }

    /// A gambrel: left and right with a knee.
    pub(super) fn knees(&mut self, width: f64, height: f64) -> Vec<Top> {
        let lower = self.slope(55.0, 70.0);
        let knee = height + width / 2.0 * self.random.between(0.3, 0.5) * lower.to_radians().tan();
        let (upper, overhang) = (self.pitch(20.0, 40.0), self.overhang(8.0));
        let side =
            Top::Knee { height: mm(height), lower: degrees(lower), knee: mm(knee), upper, overhang: mm(overhang) };
        vec![gable(self.overhang(10.0)), side, gable(self.overhang(10.0)), side]
    }

    fn mansard(&mut self, width: f64, height: f64) -> Vec<Top> {
        vec![self.knees(width, height)[1]; 4]
    }

    /// A flat roof at a height.
    pub(super) fn lid(&mut self, height: f64, overhang: f64) -> Lid {
        let parapet = self.random.chance(0.6).then_some(Parapet { height: mm(self.size(10.0, 20.0)) });
        Lid { height: mm(height), overhang: mm(self.overhang(overhang)), parapet }
    }
}

/// A pavilion or spire over a regular plan.
pub(super) fn pointed(outline: Outline, height: f64, pitch: Pitch, overhang: f64) -> Part {
    let count = outline.count();
    part(outline, &vec![eave(height, pitch, overhang); count])
}

/// A part under a lid.
pub(super) fn flat(outline: Outline, lid: Lid) -> Part {
    let count = outline.count();
    let mut part = part(outline, &vec![gable(0.0); count]);
    part.lid = Some(lid);
    part
}
