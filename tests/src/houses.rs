//! Random houses of one part.

use crate::Random;
use crate::build::{degrees, dough, eave, gable, house, mm, part};
use crate::openings::add_openings;
use gable_measure::{Angle, Length, Pitch};
use gable_shell::{Corners, FloorKind, House, Lid, Outline, Parapet, Place, Ridges, Spot, Top};

/// Any house of one part, some of them odd: the solver may refuse a few.
pub fn random_house(seed: u64) -> House {
    Maker { random: Random::new(seed), plain: false }.house()
}

/// A house that any solver must manage: a rectangle or regular polygon under a named roof form.
pub fn plain_house(seed: u64) -> House {
    Maker { random: Random::new(seed ^ 0x5eed_0000_0000), plain: true }.house()
}

#[derive(Clone, Copy)]
enum Form {
    Gable,
    Hip,
    HalfHip,
    Saltbox,
    LeanTo,
    Gambrel,
    Mansard,
    Pavilion,
    Spire,
    Flat,
    Mixed,
}

struct Maker {
    random: Random,
    plain: bool,
}

impl Maker {
    fn house(mut self) -> House {
        let outline = self.outline();
        let form = self.form(&outline);
        let (tops, lid, height) = self.roof(form, &outline);
        let mut part = part(outline, &tops);
        part.lid = lid;
        part.corners = self.random.pick([Corners::Lap, Corners::LapAround, Corners::Mitre, Corners::SquareMitre]);
        part.ridges = self.random.pick([Ridges::Open, Ridges::Bevelled, Ridges::Lapped]);
        part.level_eaves = self.random.chance(0.3);
        part.floor.kind = self.random.pick([FloorKind::None, FloorKind::Inside, FloorKind::Under]);
        if self.random.chance(0.3) {
            part.place = self.place();
        }
        let thickest = if self.plain { 8.0 } else { 12.0 };
        let wall = self.random.between(4.0, thickest);
        let roof = self.random.between(4.0, thickest);
        if !self.plain && self.random.chance(0.15) {
            let bare = self.random.bits() as usize % part.sides.len();
            part.sides[bare].wall = false;
        }
        add_openings(&mut part, &mut self.random, wall, height);
        let gap = self.random.pick([0.0, 0.8, 1.5]);
        let mut house = house(part, wall, roof, gap);
        let (one, other) = (self.random.between(1.0, 1.4), self.random.between(1.0, 1.4));
        house.doughs = vec![dough("walls", wall, one), dough("roofs", roof, other)];
        house
    }

    fn place(&mut self) -> Place {
        let turn = Angle::degrees(self.random.between(-180.0, 180.0));
        let (x, y) = (mm(self.random.between(-500.0, 500.0)), mm(self.random.between(-500.0, 500.0)));
        Place::Ground(Spot { x, y, turn })
    }

    fn outline(&mut self) -> Outline {
        let kind = self.random.unit();
        let least = if self.plain { 100.0 } else { 60.0 };
        if kind < 0.5 {
            let (width, depth) = (self.random.between(least, 400.0), self.random.between(least, 400.0));
            return crate::build::rectangle(width, depth);
        }
        if self.plain || kind < 0.75 {
            return self.polygon(least);
        }
        if kind < 0.87 { self.half_polygon() } else { self.free() }
    }

    fn polygon(&mut self, least: f64) -> Outline {
        let sides = self.random.whole(if self.plain { 4 } else { 3 }, 24);
        let across = |side: f64| side / (std::f64::consts::PI / sides as f64).tan();
        let shortest = least / across(1.0);
        let side = self.random.between(shortest.max(25.0), (400.0 / across(1.0)).max(30.0));
        Outline::Polygon { sides: sides as u8, side: mm(side) }
    }

    fn half_polygon(&mut self) -> Outline {
        let sides = self.random.whole(2, 12);
        let chord = (std::f64::consts::FRAC_PI_2 / sides as f64).sin();
        let width = self.random.between((25.0 / chord).max(80.0), 400.0);
        Outline::HalfPolygon { sides: sides as u8, width: mm(width) }
    }

    /// Points on an ellipse, no side under 25 mm and no corner sharper than 35 degrees.
    fn free(&mut self) -> Outline {
        loop {
            let count = self.random.whole(3, 9) as usize;
            let (across, deep) = (self.random.between(60.0, 200.0), self.random.between(60.0, 200.0));
            let turn = std::f64::consts::TAU / count as f64;
            let start = self.random.between(0.0, turn);
            let at = |k: usize, jitter: f64| {
                let angle = start + turn * (k as f64 + jitter);
                (across * angle.cos(), deep * angle.sin())
            };
            let corners: Vec<(f64, f64)> = (0..count).map(|k| at(k, self.random.between(-0.4, 0.4))).collect();
            if well_shaped(&corners) {
                return Outline::Free { corners: corners.iter().map(|&(x, y)| (mm(x), mm(y))).collect() };
            }
        }
    }

    fn form(&mut self, outline: &Outline) -> Form {
        let rectangular = matches!(outline, Outline::Rectangle { .. });
        if rectangular {
            let ends = [Form::Gable, Form::HalfHip, Form::Saltbox, Form::Gambrel];
            let round = [Form::Hip, Form::LeanTo, Form::Mansard, Form::Pavilion, Form::Spire, Form::Flat];
            if self.random.chance(0.45) {
                return self.random.pick(ends);
            }
            return if self.odd() { Form::Mixed } else { self.random.pick(round) };
        }
        if self.odd() {
            return self.random.pick([Form::Mixed, Form::LeanTo, Form::Hip]);
        }
        self.random.pick([Form::Mansard, Form::Pavilion, Form::Spire, Form::Flat])
    }

    fn odd(&mut self) -> bool {
        !self.plain && self.random.chance(0.35)
    }

    fn overhang(&mut self) -> f64 {
        if self.random.chance(0.25) { 0.0 } else { self.random.between(0.0, 20.0) }
    }

    fn pitch(&mut self, low: f64, high: f64) -> Pitch {
        let angle = self.random.between(low, high);
        if self.random.chance(0.25) {
            return Pitch::RiseInRun { rise: 12.0 * angle.to_radians().tan(), run: 12.0 };
        }
        degrees(angle)
    }

    /// Tops by side, the lid, and a height below which every wall is whole.
    fn roof(&mut self, form: Form, outline: &Outline) -> (Vec<Top>, Option<Lid>, f64) {
        let height = self.random.between(45.0, 220.0);
        let count = outline.count();
        match form {
            Form::Gable | Form::HalfHip | Form::Saltbox | Form::Gambrel => self.ridged(form, outline, height),
            Form::Hip => {
                let low = if self.plain { 30.0 } else { 20.0 };
                ((0..count).map(|_| self.eave(height, low, 50.0)).collect(), None, height)
            }
            Form::LeanTo => {
                let low = self.random.whole(0, count as u64 - 1) as usize;
                let eave = self.eave(height, 8.0, 35.0);
                let tops = (0..count).map(|k| if k == low { eave } else { gable(self.overhang()) }).collect();
                (tops, None, height)
            }
            Form::Mansard => self.mansard(outline, height),
            Form::Pavilion => (self.alike(count, height, 20.0, 55.0), None, height),
            Form::Spire => (self.alike(count, height.max(80.0), 60.0, 76.0), None, height.max(80.0)),
            Form::Flat => self.flat(count, height),
            Form::Mixed => {
                let mut tops: Vec<Top> = (0..count).map(|_| self.any_top(outline, height)).collect();
                tops[0] = self.eave(height, 20.0, 50.0);
                (tops, None, height)
            }
        }
    }

    fn eave(&mut self, height: f64, low: f64, high: f64) -> Top {
        eave(height, self.pitch(low, high), self.overhang())
    }

    fn alike(&mut self, count: usize, height: f64, low: f64, high: f64) -> Vec<Top> {
        let pitch = self.pitch(low, high);
        (0..count).map(|_| eave(height, pitch, self.overhang())).collect()
    }

    fn flat(&mut self, count: usize, height: f64) -> (Vec<Top>, Option<Lid>, f64) {
        let strip = mm(self.random.between(12.0, 30.0));
        let parapet = self.random.chance(0.7).then_some(Parapet { height: strip });
        let lid = Lid { height: mm(height), overhang: mm(self.overhang()), parapet };
        ((0..count).map(|_| gable(0.0)).collect(), Some(lid), height)
    }

    fn mansard(&mut self, outline: &Outline, height: f64) -> (Vec<Top>, Option<Lid>, f64) {
        let inset = inradius(outline) * self.random.between(0.2, 0.45);
        let lower = self.random.between(55.0, 75.0);
        let knee = height + inset * lower.to_radians().tan();
        if self.random.chance(0.4) {
            let overhang = if self.plain { Length::ZERO } else { mm(self.overhang()) };
            let lid = Lid { height: mm(knee), overhang, parapet: None };
            let tops = (0..outline.count()).map(|_| eave(height, degrees(lower), self.overhang())).collect();
            return (tops, Some(lid), height);
        }
        let upper = self.pitch(12.0, 35.0);
        let tops = (0..outline.count()).map(|_| self.knee(height, degrees(lower), knee, upper)).collect();
        (tops, None, height)
    }

    fn knee(&mut self, height: f64, lower: Pitch, knee: f64, upper: Pitch) -> Top {
        Top::Knee { height: mm(height), lower, knee: mm(knee), upper, overhang: mm(self.overhang()) }
    }

    /// Forms of a rectangle with a ridge from front to back.
    fn ridged(&mut self, form: Form, outline: &Outline, height: f64) -> (Vec<Top>, Option<Lid>, f64) {
        let Outline::Rectangle { width, .. } = *outline else { return (vec![], None, height) };
        let half = width.mm() / 2.0;
        let angle = self.random.between(22.0, 58.0);
        let rise = half * angle.to_radians().tan();
        let (front, back) = (gable(self.overhang()), gable(self.overhang()));
        let sides = match form {
            Form::Saltbox => {
                let share = self.random.between(0.3, 0.7);
                let (low, top) = (height * self.random.between(0.5, 1.0), height + rise);
                let slope = |rise: f64, run: f64| Pitch::Angle(Angle::of_slope(rise, run));
                let right = eave(height, slope(rise, 2.0 * half * share), self.overhang());
                let left = eave(low, slope(top - low, 2.0 * half * (1.0 - share)), self.overhang());
                return (vec![front, right, back, left], None, low);
            }
            Form::Gambrel => {
                let inset = half * self.random.between(0.25, 0.5);
                let lower = self.random.between(52.0, 72.0);
                let (knee, upper) = (height + inset * lower.to_radians().tan(), self.pitch(15.0, 40.0));
                [0, 1].map(|_| self.knee(height, degrees(lower), knee, upper))
            }
            _ if self.random.chance(0.25) => {
                [0, 1].map(|_| eave(height, Pitch::RidgeHeight(mm(height + rise)), self.overhang()))
            }
            _ => [0, 1].map(|_| eave(height, degrees(angle), self.overhang())),
        };
        let ends = if matches!(form, Form::HalfHip) {
            let start = height + rise * self.random.between(0.3, 0.75);
            [0, 1].map(|_| self.half_hip(start))
        } else {
            [front, back]
        };
        (vec![ends[0], sides[0], ends[1], sides[1]], None, height)
    }

    fn half_hip(&mut self, start: f64) -> Top {
        Top::HalfHip { start: mm(start), pitch: self.pitch(30.0, 60.0), overhang: mm(self.overhang()) }
    }

    fn any_top(&mut self, outline: &Outline, height: f64) -> Top {
        match self.random.whole(0, 9) {
            0..=4 => self.eave(height, 20.0, 55.0),
            5 => self.eave(height, 20.0, 55.0),
            6 => {
                let start = height + inradius(outline) * self.random.between(0.1, 0.3);
                self.half_hip(start)
            }
            7 => {
                let (inset, lower) =
                    (inradius(outline) * self.random.between(0.2, 0.4), self.random.between(45.0, 70.0));
                let upper = self.pitch(12.0, 40.0);
                self.knee(height, degrees(lower), height + inset * lower.to_radians().tan(), upper)
            }
            _ => gable(self.overhang()),
        }
    }
}

/// Distance from the middle of a plan to its nearest side, mm.
fn inradius(outline: &Outline) -> f64 {
    match outline {
        Outline::Rectangle { width, depth } => width.min(*depth).mm() / 2.0,
        Outline::Polygon { sides, side } => side.mm() / 2.0 / (std::f64::consts::PI / f64::from(*sides)).tan(),
        Outline::HalfPolygon { width, .. } => width.mm() / 6.0,
        Outline::Free { .. } => 25.0,
    }
}

fn well_shaped(corners: &[(f64, f64)]) -> bool {
    let count = corners.len();
    (0..count).all(|k| {
        let (a, b, c) = (corners[k], corners[(k + 1) % count], corners[(k + 2) % count]);
        let (u, v) = ((b.0 - a.0, b.1 - a.1), (c.0 - b.0, c.1 - b.1));
        let turn = (u.0 * v.1 - u.1 * v.0).atan2(u.0 * v.0 + u.1 * v.1).to_degrees();
        u.0.hypot(u.1) >= 25.0 && (6.0..145.0).contains(&turn)
    })
}
