use super::super::sizes::Sizes;
use super::{GuestKind, NoGuest};
use crate::solve::Surface;
use crate::{Batch, House, Part, PartId, Place, SideId, Top};
use gable_measure::{Length, Pitch, Unit};

/// Where a guest is to stand: the host with its sizes, mm, and the sides that come into question.
pub(in super::super) struct Site<'a> {
    pub(in super::super) house: &'a House,
    pub(in super::super) host: &'a Part,
    pub(in super::super) surface: Surface<'a>,
    /// Baked thickness of the host's walls, which are the guest's too.
    pub(in super::super) wall: f64,
    /// Baked thickness of the host's roof, with the gap under it.
    pub(super) roof: f64,
    pub(super) overhang: f64,
    chosen: Option<usize>,
}

impl<'a> Site<'a> {
    pub(super) fn of(house: &'a House, kind: GuestKind, host: &PartId, side: Option<&SideId>) -> Result<Self, NoGuest> {
        let found = house.part(host).ok_or(NoGuest::NoSuchPlace)?;
        let chosen = match side {
            Some(id) => Some(found.sides.iter().position(|s| &s.id == id).ok_or(NoGuest::NoSuchPlace)?),
            None => None,
        };
        if kind.is_on_board() && !is_on_board(house, found) {
            return Err(NoGuest::HostIsUp { kind, host: found.name.clone() });
        }
        Ok(Self { chosen, ..Self::by(house, host)? })
    }

    /// By a part, whatever it is that is to stand there.
    pub(in super::super) fn by(house: &'a House, host: &PartId) -> Result<Self, NoGuest> {
        let host = house.part(host).ok_or(NoGuest::NoSuchPlace)?;
        let fails = || NoGuest::HostFails { host: host.name.clone() };
        let baked = |batch| house.dough_of(host, batch).map(|d| d.baked().mm()).ok_or_else(fails);
        let (wall, roof) = (baked(Batch::Walls)?, baked(Batch::Roof)? + house.gap.mm());
        let surface = Surface::of(house, host).ok_or_else(fails)?;
        let overhang = Sizes::of(host, house.unit).overhang.mm();
        Ok(Self { house, host, surface, wall, roof, overhang, chosen: None })
    }

    /// Sides that fit, the chosen one alone if there is one, else those without guests first and of them the longest.
    pub(super) fn sides(&self, fits: impl Fn(usize) -> bool) -> Vec<usize> {
        if let Some(side) = self.chosen {
            return if fits(side) { vec![side] } else { vec![] };
        }
        let guests = |k: usize| {
            let by = |p: &&Part| {
                matches!(&p.place, Place::Against { host, side, .. } | Place::OnSlope { host, side, .. }
                    if host == &self.host.id && side == &self.host.sides[k].id)
            };
            self.house.parts.iter().filter(by).count()
        };
        let mut sides: Vec<usize> = (0..self.host.sides.len()).filter(|k| fits(*k)).collect();
        let order = |k: &usize| (guests(*k), -self.surface.length(*k).round() as i64);
        sides.sort_by_key(order);
        sides
    }

    /// Sides with a wall.
    pub(super) fn walls(&self, kind: GuestKind) -> Result<Vec<usize>, NoGuest> {
        let walls = self.sides(|k| self.host.sides[k].wall);
        if walls.is_empty() {
            return Err(NoGuest::NoWall { kind, host: self.host.name.clone(), side: self.side_name() });
        }
        Ok(walls)
    }

    /// Sides from which a slope rises.
    pub(super) fn slopes(&self, kind: GuestKind) -> Result<Vec<usize>, NoGuest> {
        let slopes = self.sides(|k| self.slopes_up(k));
        if slopes.is_empty() {
            return Err(NoGuest::NoSlope { kind, host: self.host.name.clone(), side: self.side_name() });
        }
        Ok(slopes)
    }

    pub(super) fn slopes_up(&self, side: usize) -> bool {
        let is_slope = matches!(self.host.sides[side].top, Top::Eave { .. } | Top::Knee { .. });
        is_slope && self.ridge(side).0 > self.wall
    }

    pub(super) fn too_small(&self, kind: GuestKind) -> NoGuest {
        NoGuest::TooSmall { kind, host: self.host.name.clone(), side: self.side_name() }
    }

    pub(super) fn no_room(&self, kind: GuestKind) -> NoGuest {
        NoGuest::NoRoom { kind, host: self.host.name.clone(), side: self.side_name() }
    }

    fn side_name(&self) -> Option<String> {
        self.chosen.map(|k| self.host.sides[k].id.words().to_owned())
    }

    /// The lowest height of the roof's underside over the middle part of a wall, so many mm to each side of a share of
    /// it, out to where the roof ends over it.
    pub(super) fn ceiling(&self, side: usize, share: f64, half: f64) -> f64 {
        let length = self.surface.length(side);
        let out = match self.host.sides[side].top {
            Top::Eave { overhang, .. } | Top::Knee { overhang, .. } | Top::HalfHip { overhang, .. } => overhang.mm(),
            Top::Gable { .. } => 0.0,
        };
        let at = |k: i32| (share + half / length * f64::from(k) / 4.0).clamp(0.0, 1.0);
        let heights = (-4..=4).map(|k| self.surface.under(self.surface.inside(side, at(k), -out)));
        heights.fold(f64::INFINITY, f64::min)
    }

    /// Height of the wall's lowest point.
    pub(super) fn eaves(&self, side: usize) -> f64 {
        let at = |share| self.surface.under(self.surface.inside(side, share, 0.0));
        [0.0, 0.5, 1.0].map(at).into_iter().fold(f64::INFINITY, f64::min)
    }

    /// The first highest point of the roof behind the middle of a side: how far in, and the height of its underside.
    pub(super) fn ridge(&self, side: usize) -> (f64, f64) {
        /// How finely it is looked for; the roof is made of planes, so that a miss costs little.
        const STEPS: u32 = 128;
        let depth = self.surface.depth(side);
        let steps = (0..=STEPS).map(|k| depth * f64::from(k) / f64::from(STEPS));
        let heights = steps.map(|d| (d, self.surface.under(self.surface.inside(side, 0.5, d))));
        heights.fold((0.0, f64::NEG_INFINITY), |best, h| if h.1 > best.1 + 1e-6 { h } else { best })
    }

    /// The pitch of the slope over a side as it was typed, if it is known and moderate, with its tangent; then usual ones.
    pub(super) fn pitches(&self, side: usize) -> Vec<(Pitch, f64)> {
        let typed = |k: usize| match self.host.sides[k].top {
            Top::Eave { pitch, .. } => Some(pitch),
            _ => None,
        };
        let any = (0..self.host.sides.len()).find_map(typed);
        let own = typed(side).or(any).and_then(|p| Some((p, p.angle()?)));
        let own = own.filter(|(_, a)| (25.0..=55.0).contains(&a.deg())).map(|(p, a)| (p, a.tan()));
        own.into_iter().chain([45.0, 35.0, 25.0].map(degrees)).collect()
    }

    /// A size as somebody might have typed it: larger ones rounder.
    pub(in super::super) fn round(&self, mm: f64) -> Length {
        let step = self.step(mm);
        self.in_steps(mm, step, f64::round)
    }

    /// The same, never more than that.
    pub(super) fn round_down(&self, mm: f64) -> Length {
        self.in_steps(mm, self.step(mm), f64::floor)
    }

    /// The same, never less than that.
    pub(super) fn round_up(&self, mm: f64) -> Length {
        self.in_steps(mm, self.step(mm), f64::ceil)
    }

    /// The same in the smallest step of the unit, for what must be nearly exact.
    pub(super) fn just_under(&self, mm: f64) -> Length {
        let step = if matches!(self.house.unit, Unit::Millimetre) { 0.5 } else { 1.0 / 32.0 };
        self.in_steps(mm, step, f64::floor)
    }

    /// A length without the noise of arithmetic.
    pub(super) fn tidy(&self, mm: f64) -> Length {
        let unit = self.house.unit;
        unit.length(unit.tidy_number(Length::mm_of(mm)))
    }

    fn step(&self, mm: f64) -> f64 {
        match self.house.unit {
            Unit::Millimetre => {
                if mm.abs() < 40.0 {
                    1.0
                } else {
                    5.0
                }
            }
            Unit::Inch(_) => {
                if mm.abs() < 40.0 {
                    0.125
                } else {
                    0.25
                }
            }
        }
    }

    fn in_steps(&self, mm: f64, step: f64, rounding: fn(f64) -> f64) -> Length {
        let unit = self.house.unit;
        // What is a step but for the noise of arithmetic stays there.
        let steps = unit.number(Length::mm_of(mm)) / step;
        let near = steps.round();
        unit.length(step * if (steps - near).abs() < 1e-6 { near } else { rounding(steps) })
    }
}

/// A pitch in degrees and its tangent.
pub(super) fn degrees(degrees: f64) -> (Pitch, f64) {
    let angle = gable_measure::Angle::degrees(degrees);
    (Pitch::Angle(angle), angle.tan())
}

/// Whether a part stands on the base board, by way of its hosts.
fn is_on_board(house: &House, part: &Part) -> bool {
    let mut at = part;
    for _ in 0..=house.parts.len() {
        if at.raised > Length::ZERO {
            return false;
        }
        match &at.place {
            Place::Ground(_) => return true,
            Place::Against { host, .. } => match house.part(host) {
                Some(host) => at = host,
                None => return false,
            },
            Place::OnSlope { .. } | Place::Astride { .. } | Place::OnTop { .. } => return false,
        }
    }
    false
}
