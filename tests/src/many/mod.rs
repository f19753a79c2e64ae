//! Random houses of several parts.

mod body;
mod facts;
mod ground;
mod roof;

use crate::Random;
use crate::build::{degrees, dough, mm};
use facts::Facts;
use gable_measure::{Angle, Length, Pitch, Unit};
use gable_shell::{
    Behind, Corners, DoughId, FloorKind, House, Owner, Part, PartId, Place, Placing, Ridges, SideId, Spot,
};

/// Any house of 2 to 8 parts: wings, lean-tos, towers, bays, dormers, chimneys, porches and lanterns, on a main body of any
/// kind. Some are odd, and their guests may be in each other's way.
pub fn random_many(seed: u64) -> House {
    Builder::new(seed, false).house()
}

/// A house of 2 to 8 parts as somebody might draw it: round sizes, one thing at a place.
pub fn plain_many(seed: u64) -> House {
    Builder::new(seed ^ 0x7a1e_0000_0000, true).house()
}

/// A house of 2 to 8 parts with porches on posts, floors of several plates and steps.
pub fn porches_many(seed: u64) -> House {
    let seed = seed ^ 0x9057_0000_0000;
    Builder { porches: true, ..Builder::new(seed, seed.is_multiple_of(2)) }.house()
}

/// What to add to a house.
#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Wing,
    LeanTo,
    Porch,
    Tower,
    Bay,
    Dormer,
    Chimney,
    Lantern,
    Steps,
}

struct Builder {
    random: Random,
    plain: bool,
    /// Porches have posts, and there are steps.
    porches: bool,
    /// Sizes are multiples of this, mm; equal heights and flush planes are likely then.
    grid: Option<f64>,
    corners: Corners,
    ridges: Ridges,
    parts: Vec<Part>,
    /// Baked thickness of `walls`, `roofs` and `fine`, the dough of small parts.
    baked: [f64; 3],
    gap: f64,
    /// Sides that something stands against, as part and side.
    taken: Vec<(usize, usize)>,
}

impl Builder {
    fn new(seed: u64, plain: bool) -> Self {
        let mut random = Random::new(seed);
        let grid = if plain { Some(5.0) } else { random.pick([None, None, Some(10.0), Some(5.0)]) };
        let uneven = [random.between(3.0, 9.0), random.between(3.0, 9.0), random.between(2.5, 4.5)];
        let even = random.pick([[6.0, 6.0, 4.0], [5.0, 5.0, 5.0], [8.0, 6.0, 4.0], [4.0, 5.0, 3.0]]);
        let corners = random.pick([Corners::Lap, Corners::Lap, Corners::LapAround, Corners::Mitre]);
        let ridges = random.pick([Ridges::Open, Ridges::Open, Ridges::Bevelled, Ridges::Lapped]);
        let baked = if plain || random.chance(0.4) { even } else { uneven };
        let gap = random.pick([0.0, 0.8]);
        Self { random, plain, porches: false, grid, corners, ridges, parts: vec![], baked, gap, taken: vec![] }
    }

    fn house(mut self) -> House {
        self.add_body();
        let most = self.random.whole(2, 8) as usize;
        for _ in 0..40 {
            if self.parts.len() >= most {
                break;
            }
            let kind = self.kind();
            let host = self.host(kind);
            match kind {
                Kind::Wing => self.add_wing(host),
                Kind::LeanTo => self.add_lean_to(host, false),
                Kind::Porch => self.add_lean_to(host, true),
                Kind::Tower => self.add_tower(host),
                Kind::Bay => self.add_bay(host),
                Kind::Dormer => self.add_dormers(host, most),
                Kind::Chimney => self.add_chimney(host),
                Kind::Lantern => self.add_lantern(host),
                Kind::Steps => self.add_steps(host),
            }
        }
        if self.parts.len() < 2 {
            self.add_lantern(0);
        }
        self.finished()
    }

    fn finished(mut self) -> House {
        let rises = [0; 3].map(|_| self.random.between(1.0, 1.4));
        let doughs = ["walls", "roofs", "fine"].iter().zip(self.baked).zip(rises);
        House {
            owner: Owner::default(),
            unit: Unit::Millimetre,
            gap: mm(self.gap),
            doughs: doughs.map(|((id, baked), rise)| dough(id, baked, rise)).collect(),
            parts: self.parts,
            decided: vec![],
            order: Vec::new(),
            relations: vec![],
            baked: vec![],
            dressing: Default::default(),
        }
    }

    fn kind(&mut self) -> Kind {
        use Kind::{Bay, Chimney, Dormer, Lantern, LeanTo, Porch, Steps, Tower, Wing};
        if self.porches {
            return self.random.pick([Wing, LeanTo, Porch, Porch, Porch, Tower, Bay, Dormer, Chimney, Steps, Steps]);
        }
        self.random.pick([Wing, Wing, LeanTo, Porch, Tower, Bay, Dormer, Dormer, Chimney, Lantern])
    }

    /// Mostly the main body; a guest of a guest where that makes sense.
    fn host(&mut self, kind: Kind) -> usize {
        let fits = |part: &Part| match kind {
            Kind::Wing | Kind::LeanTo | Kind::Porch | Kind::Tower | Kind::Bay | Kind::Steps => is_body(&part.id.0),
            Kind::Dormer | Kind::Chimney => is_body(&part.id.0) && part.lid.is_none(),
            Kind::Lantern => part.id.0.starts_with("tower") || (is_body(&part.id.0) && part.lid.is_some()),
        };
        let hosts: Vec<usize> = (0..self.parts.len()).filter(|&k| fits(&self.parts[k])).collect();
        if hosts.is_empty() || (kind != Kind::Lantern && self.random.chance(0.6)) {
            return 0;
        }
        hosts[self.random.bits() as usize % hosts.len()]
    }

    /// A length between two bounds, often on the grid.
    fn size(&mut self, low: f64, high: f64) -> f64 {
        let size = self.random.between(low, high.max(low));
        match self.grid {
            Some(grid) if self.plain || self.random.chance(0.85) => {
                ((size / grid).round() * grid).clamp((low / grid).ceil() * grid, f64::INFINITY)
            }
            _ => size,
        }
    }

    /// A slope in degrees, often a usual one.
    fn slope(&mut self, low: f64, high: f64) -> f64 {
        let usual: Vec<f64> = [20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0]
            .into_iter()
            .filter(|p| (low..=high).contains(p))
            .collect();
        if usual.is_empty() || (self.grid.is_none() && self.random.chance(0.8)) {
            return self.random.between(low, high);
        }
        usual[self.random.bits() as usize % usual.len()]
    }

    fn pitch(&mut self, low: f64, high: f64) -> Pitch {
        degrees(self.slope(low, high))
    }

    fn overhang(&mut self, most: f64) -> f64 {
        if self.random.chance(0.3) { 0.0 } else { self.size(0.0, most) }
    }

    fn turn(&mut self, chance: f64, most: f64) -> Angle {
        if self.random.chance(if self.plain { chance / 3.0 } else { chance }) {
            return Angle::degrees(self.random.between(-most, most));
        }
        Angle::degrees(0.0)
    }

    /// Somewhere along a side of a length, for something so wide: in the middle, flush with an end, or anywhere between.
    fn along(&mut self, length: f64, width: f64) -> Placing {
        let spare = (length - width).max(0.0);
        match self.random.whole(0, 9) {
            0..=3 => Placing::Centred { offset: Length::ZERO },
            4 | 5 if !self.plain => Placing::FromLeft { distance: Length::ZERO },
            6 => Placing::FromRight { distance: mm(self.size(spare * 0.1, spare * 0.9)) },
            7 => Placing::FromLeft { distance: mm(self.size(spare * 0.1, spare * 0.9)) },
            _ => Placing::Centred { offset: mm(self.size(0.0, spare * 0.4)) },
        }
    }

    /// A side of a host that is free, or any in an odd house.
    fn side(&mut self, host: usize, fits: impl Fn(&Facts, usize) -> bool) -> Option<usize> {
        let facts = self.facts(host);
        let careful = self.plain || self.random.chance(0.7);
        let free = |k: &usize| !(careful && self.taken.contains(&(host, *k)));
        let sides: Vec<usize> =
            (0..facts.plan.len()).filter(|&k| self.parts[host].sides[k].wall && fits(&facts, k)).filter(free).collect();
        let picked = self.random.bits() as usize;
        sides.get(picked % sides.len().max(1)).copied()
    }

    fn facts(&self, part: usize) -> Facts {
        Facts::of(&self.parts[part])
    }

    fn side_id(&self, host: usize, side: usize) -> SideId {
        self.parts[host].sides[side].id.clone()
    }

    /// Names a part and gives it what all parts of a house share or draw alike.
    fn add(&mut self, kind: &str, mut part: Part, place: Place) {
        let number = self.parts.len() + 1;
        part.id = PartId(if self.parts.is_empty() { kind.to_owned() } else { format!("{kind}-{number}") });
        part.name = format!("{kind} {number}");
        part.place = place;
        let own = !self.plain && self.random.chance(0.2);
        part.corners = if own {
            self.random.pick([Corners::Lap, Corners::LapAround, Corners::Mitre, Corners::SquareMitre])
        } else {
            self.corners
        };
        part.ridges =
            if own { self.random.pick([Ridges::Open, Ridges::Bevelled, Ridges::Lapped]) } else { self.ridges };
        part.level_eaves = !self.plain && self.random.chance(0.1);
        let small = ["dormer", "chimney", "lantern", "bay"].contains(&kind);
        if small {
            part.wall_dough = DoughId("fine".to_owned());
            part.roof_dough = part.wall_dough.clone();
        }
        if !small && part.floor.kind == FloorKind::None && self.random.chance(0.2) {
            part.floor.kind = self.random.pick([FloorKind::Inside, FloorKind::Under]);
        }
        if part.place.host().is_some() && kind != "tower" && kind != "chimney" && self.random.chance(0.15) {
            part.behind = Behind::Passage { rim: mm(self.size(2.0, 6.0)) };
        }
        self.parts.push(part);
    }

    /// A place for the whole house.
    fn anywhere(&mut self) -> Place {
        let (x, y) = (mm(self.random.between(-300.0, 300.0)), mm(self.random.between(-300.0, 300.0)));
        Place::Ground(Spot { x, y, turn: Angle::degrees(self.random.between(-180.0, 180.0)) })
    }
}

/// Parts that others stand against.
fn is_body(id: &str) -> bool {
    id.starts_with("main") || id.starts_with("wing")
}
