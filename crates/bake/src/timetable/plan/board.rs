use super::frame::{Frame, Spans, run};
use super::profile::Profile;
use super::{Hands, Job, Need, Placed, Schedule};
use std::collections::BTreeMap;

/// How often the jobs of a block are moved before the planner gives up on a kitchen.
const PATIENCE: usize = 5_000;

/// A schedule that is being made: what is placed so far and what that takes.
#[derive(Clone, Debug)]
pub(super) struct Board<'a> {
    pub(super) frame: &'a Frame<'a>,
    /// Per person what they are busy with, in order.
    busy: Vec<Spans>,
    places: BTreeMap<(usize, usize), Profile>,
    pub(super) schedule: Schedule,
    /// Whether people and places are counted: not for a bound that no plan can beat.
    counted: bool,
    /// Nothing is put before.
    low: i64,
}

impl<'a> Board<'a> {
    pub(super) fn new(frame: &'a Frame<'a>, low: i64, counted: bool) -> Self {
        let mut board = Self::empty(frame, low, counted);
        for taken in &frame.project.taken {
            if let Some(profile) = board.places.get_mut(&(taken.kitchen, taken.need.kind)) {
                profile.take(taken.from, taken.to, taken.need);
            }
        }
        board
    }

    fn empty(frame: &'a Frame<'a>, low: i64, counted: bool) -> Self {
        Self {
            frame,
            busy: vec![Vec::new(); frame.project.people.len()],
            places: frame.units.keys().map(|&key| (key, Profile::default())).collect(),
            schedule: Schedule { placed: vec![None; frame.project.jobs.len()] },
            counted,
            low,
        }
    }

    /// A board on which a schedule lies already; nothing is put before `low`.
    pub(super) fn with(frame: &'a Frame<'a>, schedule: &Schedule, low: i64) -> Self {
        let mut board = Self::new(frame, low, true);
        for (block, own) in frame.blocks.blocks.iter().enumerate() {
            for &job in &own.jobs {
                if let Some(placed) = &schedule.placed[job] {
                    board.lay(job, placed.clone());
                }
            }
            board.hold(block, true);
        }
        board
    }

    /// Puts a block as early as it can go after what is placed before it; false if the hours do not suffice.
    pub(super) fn put(&mut self, block: usize) -> bool {
        let mut best: Option<(i64, Vec<Placed>)> = None;
        for k in 0..self.frame.blocks.blocks[block].kitchens.len() {
            let kitchen = self.frame.blocks.blocks[block].kitchens[k];
            let Some(placed) = self.try_kitchen(block, kitchen) else { continue };
            let end = placed.iter().map(Placed::end).max().unwrap_or(0);
            if best.as_ref().is_none_or(|b| end < b.0) {
                best = Some((end, placed));
            }
        }
        let Some((_, placed)) = best else { return false };
        self.restore(block, placed);
        true
    }

    /// Lays a block as it was.
    pub(super) fn restore(&mut self, block: usize, placed: Vec<Placed>) {
        let frame = self.frame;
        for (&job, placed) in frame.blocks.blocks[block].jobs.iter().zip(placed) {
            self.lay(job, placed);
        }
        self.hold(block, true);
    }

    /// Takes a block away; how it was, job by job of the block.
    pub(super) fn lift(&mut self, block: usize) -> Vec<Placed> {
        self.hold(block, false);
        let frame = self.frame;
        frame.blocks.blocks[block].jobs.iter().filter_map(|&job| self.take_up(job)).collect()
    }

    /// When the block's jobs could end within a kitchen; nothing is changed.
    fn try_kitchen(&mut self, block: usize, kitchen: usize) -> Option<Vec<Placed>> {
        let frame = self.frame;
        let own = &frame.blocks.blocks[block];
        let mut low: Vec<i64> = own.jobs.iter().map(|&job| self.bound(job, block, kitchen)).collect::<Option<_>>()?;
        for _ in 0..PATIENCE {
            let mut laid = 0;
            let mut whole = true;
            for (k, &job) in own.jobs.iter().enumerate() {
                let within = frame.blocks.before[job].iter().filter(|l| frame.blocks.of[l.before] == block);
                let after = within.filter_map(|l| Some(self.schedule.placed[l.before].as_ref()?.end() + l.least)).max();
                let Some(placed) = self.earliest(job, kitchen, low[k].max(after.unwrap_or(i64::MIN))) else {
                    whole = false;
                    break;
                };
                self.lay(job, placed);
                laid += 1;
            }
            let moved = if whole { self.pushed(block, &mut low) } else { None };
            let placed: Vec<Placed> = own.jobs[..laid].iter().filter_map(|&job| self.take_up(job)).collect();
            match moved {
                Some(false) => return Some(placed),
                Some(true) => {}
                None => return None,
            }
        }
        None
    }

    /// The earliest that what is placed outside the block allows; nothing if something it waits for has no time.
    fn bound(&self, job: usize, block: usize, kitchen: usize) -> Option<i64> {
        let frame = self.frame;
        let mut low = frame.project.jobs[job].not_before.unwrap_or(i64::MIN).max(self.low);
        for link in frame.blocks.before[job].iter().filter(|l| frame.blocks.of[l.before] != block) {
            let before = self.schedule.placed[link.before].as_ref()?;
            let carry = if before.kitchen == kitchen { 0 } else { frame.project.carry };
            low = low.max(before.end() + link.least + carry);
        }
        Some(low)
    }

    /// Raises the bounds of jobs of a laid block that come too early: before what follows at once, or while a place that
    /// they hold is taken. Whether any was raised; nothing if a place can never be had.
    fn pushed(&self, block: usize, low: &mut [i64]) -> Option<bool> {
        let frame = self.frame;
        let own = &frame.blocks.blocks[block];
        let at = |job: usize| self.schedule.placed[job].as_ref();
        let mut moved = false;
        for (k, &job) in own.jobs.iter().enumerate() {
            for link in &frame.blocks.after[job] {
                let Some(most) = link.most else { continue };
                let (first, then) = (at(job)?, at(link.after)?);
                let short = then.start() - most - first.end();
                if short > 0 {
                    low[k] = low[k].max(first.start() + short);
                    moved = true;
                }
            }
        }
        if !self.counted {
            return Some(moved);
        }
        for &h in &own.holds {
            let hold = frame.project.holds[h];
            let (from, to) = (at(hold.from)?, at(hold.to)?);
            if let Some(free) = self.full(from.kitchen, hold.need, from.start(), to.end()) {
                if free == i64::MAX {
                    return None;
                }
                let k = own.jobs.iter().position(|&job| job == hold.from)?;
                low[k] = low[k].max(free);
                moved = true;
            }
        }
        Some(moved)
    }

    /// The first way to do a job from `low` on.
    fn earliest(&self, job: usize, kitchen: usize, low: i64) -> Option<Placed> {
        let frame = self.frame;
        let own = &frame.project.jobs[job];
        let plain = |from: i64| Placed { spans: vec![(from, from + own.minutes)], people: Vec::new(), kitchen };
        match own.hands {
            Hands::Alone => self.first(own, kitchen, low, |t| Some(plain(t))),
            Hands::Watched => {
                self.first(own, kitchen, low, |t| Some(plain(run(&frame.anybody[kitchen], t, own.minutes)?)))
            }
            Hands::Work(_) => {
                let team = |team: &Vec<usize>| {
                    self.first(own, kitchen, low, |t| {
                        let spans = match own.split {
                            Some(least) if own.minutes > least => self.filled(team, kitchen, t, own.minutes, least)?,
                            _ => {
                                let from = self.team_run(team, kitchen, t, own.minutes)?;
                                vec![(from, from + own.minutes)]
                            }
                        };
                        Some(Placed { spans, people: team.clone(), kitchen })
                    })
                };
                // Of several that are done at once the one that begins later wastes less.
                frame.teams[job].iter().filter_map(team).min_by_key(|p| (p.end(), -p.start()))
            }
        }
    }

    /// The first of the ways that `at` offers from moments on at which all places are free.
    fn first(&self, job: &Job, kitchen: usize, low: i64, at: impl Fn(i64) -> Option<Placed>) -> Option<Placed> {
        let mut t = low;
        loop {
            let placed = at(t)?;
            let full = |need: &Need| self.full(kitchen, *need, placed.start(), placed.end());
            match job.needs.iter().filter_map(full).max() {
                None => return Some(placed),
                Some(i64::MAX) => return None,
                Some(free) => t = free,
            }
        }
    }

    fn full(&self, kitchen: usize, need: Need, from: i64, to: i64) -> Option<i64> {
        let key = (kitchen, need.kind);
        if !self.counted {
            return None;
        }
        let found = self.places.get(&key).zip(self.frame.units.get(&key));
        found.map_or(Some(i64::MAX), |(profile, room)| profile.conflict(from, to, need, *room))
    }

    /// From when on all of a team have so many minutes without a break.
    fn team_run(&self, team: &[usize], kitchen: usize, low: i64, minutes: i64) -> Option<i64> {
        let mut t = low;
        loop {
            let before = t;
            for &person in team {
                t = self.person_run(person, kitchen, t, minutes)?;
            }
            if t == before {
                return Some(t);
            }
        }
    }

    fn person_run(&self, person: usize, kitchen: usize, low: i64, minutes: i64) -> Option<i64> {
        let mut t = low;
        loop {
            let (from, to) = self.free(person, kitchen, t)?;
            if from + minutes <= to {
                return Some(from);
            }
            t = to;
        }
    }

    /// The next free stretch of a person from `low` on.
    fn free(&self, person: usize, kitchen: usize, low: i64) -> Option<(i64, i64)> {
        let hours = &self.frame.hours[person][kitchen];
        let busy: &[(i64, i64)] = if self.counted { &self.busy[person] } else { &[] };
        for &(from, to) in &hours[hours.partition_point(|span| span.1 <= low)..] {
            let mut t = low.max(from);
            for &(taken, until) in &busy[busy.partition_point(|span| span.1 <= t)..] {
                if taken > t {
                    break;
                }
                t = until;
            }
            if t < to {
                let next = busy.get(busy.partition_point(|span| span.1 <= t)).map_or(to, |span| span.0.min(to));
                return Some((t, next));
            }
        }
        None
    }

    /// Work laid into what a team has free, no piece of it shorter than `least`.
    fn filled(&self, team: &[usize], kitchen: usize, low: i64, minutes: i64, least: i64) -> Option<Spans> {
        let (mut left, mut t) = (minutes, low);
        let mut spans = Vec::new();
        while left > 0 {
            let (from, to) = self.team_free(team, kitchen, t)?;
            t = to;
            let mut here = left.min(to - from);
            if left - here > 0 && left - here < least {
                here = left - least;
            }
            if here >= least {
                spans.push((from, from + here));
                left -= here;
            }
        }
        Some(spans)
    }

    fn team_free(&self, team: &[usize], kitchen: usize, low: i64) -> Option<(i64, i64)> {
        let mut t = low;
        'again: loop {
            let mut end = i64::MAX;
            for &person in team {
                let (from, to) = self.free(person, kitchen, t)?;
                if from > t {
                    t = from;
                    continue 'again;
                }
                end = end.min(to);
            }
            return (end > t).then_some((t, end));
        }
    }

    fn lay(&mut self, job: usize, placed: Placed) {
        for &person in &placed.people {
            for &span in placed.spans.iter().filter(|span| span.0 < span.1) {
                let busy = &mut self.busy[person];
                busy.insert(busy.partition_point(|own| own.0 < span.0), span);
            }
        }
        for need in &self.frame.project.jobs[job].needs {
            if let Some(profile) = self.places.get_mut(&(placed.kitchen, need.kind)) {
                profile.take(placed.start(), placed.end(), *need);
            }
        }
        self.schedule.placed[job] = Some(placed);
    }

    fn take_up(&mut self, job: usize) -> Option<Placed> {
        let placed = self.schedule.placed[job].take()?;
        for &person in &placed.people {
            for span in &placed.spans {
                let busy = &mut self.busy[person];
                let k = busy.partition_point(|own| own.0 < span.0);
                if busy.get(k) == Some(span) {
                    busy.remove(k);
                }
            }
        }
        for need in &self.frame.project.jobs[job].needs {
            if let Some(profile) = self.places.get_mut(&(placed.kitchen, need.kind)) {
                profile.give(placed.start(), placed.end(), *need);
            }
        }
        Some(placed)
    }

    fn hold(&mut self, block: usize, takes: bool) {
        let frame = self.frame;
        for &h in &frame.blocks.blocks[block].holds {
            let hold = frame.project.holds[h];
            let (Some(from), Some(to)) = (&self.schedule.placed[hold.from], &self.schedule.placed[hold.to]) else {
                continue;
            };
            let (kitchen, start, end) = (from.kitchen, from.start(), to.end());
            let Some(profile) = self.places.get_mut(&(kitchen, hold.need.kind)) else { continue };
            if takes {
                profile.take(start, end, hold.need);
            } else {
                profile.give(start, end, hold.need);
            }
        }
    }
}
