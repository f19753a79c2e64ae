use super::block::Blocks;
use gable_words::tr;
use thiserror::Error;

/// Everything that is to be done, and who and what there is to do it with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Project {
    /// Nothing begins before.
    pub start: i64,
    /// Everything must be done by then.
    pub due: i64,
    /// How long before `due` one would like to be done, in minutes.
    pub reserve: i64,
    /// How many kitchens there are; each is named by its index.
    pub kitchens: usize,
    /// Minutes from any kitchen to any other, for what is carried.
    pub carry: i64,
    /// Who helps.
    pub people: Vec<Person>,
    /// What there is of ovens, trays, shelves. Those of one kind in one kitchen count together.
    pub places: Vec<Place>,
    /// What is to be done.
    pub jobs: Vec<Job>,
    /// What comes after what.
    pub links: Vec<Link>,
    /// Places that stay taken from one job to another.
    pub holds: Vec<Hold>,
    /// Places that are taken already.
    pub taken: Vec<Taken>,
    /// What could be left out.
    pub spare: Vec<Spare>,
}

/// Somebody who helps.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Person {
    /// Name.
    pub name: String,
    /// When, and in which kitchen; in any order, none at the same time as another.
    pub hours: Vec<Hours>,
}

/// Hours of a person in a kitchen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hours {
    /// Index of the kitchen.
    pub kitchen: usize,
    /// First minute.
    pub from: i64,
    /// The minute after the last.
    pub to: i64,
}

/// Something there is only so much of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Name of one more: 'tray'.
    pub name: String,
    /// Where it is.
    pub kitchen: usize,
    /// What kind of place; any number.
    pub kind: usize,
    /// How many, or how much.
    pub units: u32,
    /// How much one more of it adds, if one more could be had.
    pub more: u32,
}

/// A place that is taken for a while, by something that is under way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Taken {
    /// Where.
    pub kitchen: usize,
    /// What of.
    pub need: Need,
    /// From when on.
    pub from: i64,
    /// Until when.
    pub to: i64,
}

/// Who a job takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hands {
    /// So many people, who do nothing else meanwhile.
    Work(usize),
    /// Somebody must be in the kitchen, whatever else they do.
    Watched,
    /// It goes on by itself, at night too.
    #[default]
    Alone,
}

/// What a job takes up while it lasts, breaks included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Need {
    /// The kind of place.
    pub kind: usize,
    /// How much of it.
    pub units: u32,
    /// Uses of different sorts never share what one more of the place adds: trays of one oven are of one sort.
    pub sort: Option<usize>,
}

impl Need {
    /// So much of a kind of place, whatever else is in it.
    pub const fn of(kind: usize, units: u32) -> Self {
        Self { kind, units, sort: None }
    }
}

/// One thing to do.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Job {
    /// Its name, for messages.
    pub name: String,
    /// How long it takes; with several people each of them is busy so long.
    pub minutes: i64,
    /// Who it takes.
    pub hands: Hands,
    /// The people who can do it; empty for anybody.
    pub who: Vec<usize>,
    /// The kitchen in which it must be done; none for any that has what it needs.
    pub kitchen: Option<usize>,
    /// What it takes up.
    pub needs: Vec<Need>,
    /// Work that may be laid down and taken up again: how many minutes are worth beginning with. No piece of it is shorter.
    pub split: Option<i64>,
    /// It cannot begin before.
    pub not_before: Option<i64>,
    /// It ought to begin by then; that is kept where it can be, and never hinders a plan.
    pub not_after: Option<i64>,
    /// Jobs of the same number are done in one go in one kitchen; none for a job of its own.
    pub block: Option<usize>,
}

/// One job comes after another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// Index of the first.
    pub before: usize,
    /// Index of the second.
    pub after: usize,
    /// Minutes from the end of the first to the beginning of the second, at least.
    pub least: i64,
    /// At most; only within a block.
    pub most: Option<i64>,
}

/// A place that stays taken from the beginning of one job to the end of another, both of one block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hold {
    /// Index of the first job.
    pub from: usize,
    /// Index of the last job.
    pub to: usize,
    /// What is taken up.
    pub need: Need,
}

/// Jobs that could be left out together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spare {
    /// What would be left out.
    pub name: String,
    /// The jobs.
    pub jobs: Vec<usize>,
}

/// Why a project cannot be planned as it is written.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Fault {
    /// Something names a job, person or kitchen that is not there.
    #[error("{}", tr!("{0} names a {1} that is not there", .0, .1))]
    Unknown(String, &'static str),
    /// A negative time.
    #[error("{}", tr!("{0}: a time below nothing", .0))]
    Negative(String),
    /// It ends before it begins.
    #[error("{}", tr!("{0} end before they begin", .0))]
    Hours(String),
    /// Someone is in two places.
    #[error("{}", tr!("{0} has hours that overlap", .0))]
    Twice(String),
    /// Jobs wait for each other.
    #[error("{}", tr!("these wait for each other in a ring: {0}", .0))]
    Ring(String),
    /// A greatest lag, or a hold, between jobs of different blocks.
    #[error("{}", tr!("{0} and {1} are not done in one go, so neither can one follow the other at once nor one place serve both", .0, .1))]
    Apart(String, String),
}

impl Project {
    /// Everything that is wrong with it.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        self.unknown(&mut faults);
        if !faults.is_empty() {
            return faults;
        }
        self.times(&mut faults);
        self.together(&mut faults);
        if let Err(ring) = Blocks::of(self) {
            faults.push(Fault::Ring(ring));
        }
        faults
    }

    fn unknown(&self, faults: &mut Vec<Fault>) {
        let mut check = |ok: bool, name: &str, what| {
            if !ok {
                faults.push(Fault::Unknown(name.to_owned(), what));
            }
        };
        for person in &self.people {
            check(person.hours.iter().all(|h| h.kitchen < self.kitchens), &person.name, "kitchen");
        }
        for place in &self.places {
            check(place.kitchen < self.kitchens, &place.name, "kitchen");
        }
        for job in &self.jobs {
            check(job.kitchen.is_none_or(|k| k < self.kitchens), &job.name, "kitchen");
            check(job.who.iter().all(|&p| p < self.people.len()), &job.name, "person");
        }
        let there = |k: usize| k < self.jobs.len();
        check(self.links.iter().all(|l| there(l.before) && there(l.after)), "a link", "job");
        check(self.holds.iter().all(|h| there(h.from) && there(h.to)), "a hold", "job");
        check(self.taken.iter().all(|t| t.kitchen < self.kitchens), "what is taken", "kitchen");
        check(self.spare.iter().all(|s| s.jobs.iter().all(|&j| there(j))), "what could be left out", "job");
    }

    fn times(&self, faults: &mut Vec<Fault>) {
        for job in &self.jobs {
            if job.minutes < 0 || job.split.is_some_and(|s| s < 1) {
                faults.push(Fault::Negative(job.name.clone()));
            }
        }
        for link in &self.links {
            if link.least < 0 || link.most.is_some_and(|most| most < link.least) {
                faults.push(Fault::Negative(self.jobs[link.after].name.clone()));
            }
        }
        if self.carry < 0 || self.reserve < 0 {
            faults.push(Fault::Negative("carrying or reserve".to_owned()));
        }
        for person in &self.people {
            let mut hours = person.hours.clone();
            hours.sort_by_key(|h| (h.from, h.to));
            if hours.iter().any(|h| h.to <= h.from) {
                faults.push(Fault::Hours(format!("hours of {}", person.name)));
            }
            if hours.windows(2).any(|pair| pair[1].from < pair[0].to) {
                faults.push(Fault::Twice(person.name.clone()));
            }
        }
    }

    fn together(&self, faults: &mut Vec<Fault>) {
        let one_go =
            |a: usize, b: usize| a == b || (self.jobs[a].block.is_some() && self.jobs[a].block == self.jobs[b].block);
        let apart = |a: usize, b: usize| Fault::Apart(self.jobs[a].name.clone(), self.jobs[b].name.clone());
        for link in self.links.iter().filter(|l| l.most.is_some()) {
            if !one_go(link.before, link.after) {
                faults.push(apart(link.before, link.after));
            }
        }
        faults.extend(self.holds.iter().filter(|h| !one_go(h.from, h.to)).map(|h| apart(h.from, h.to)));
    }

    /// The same with time turned over: minute t is minute -t, what came after comes before.
    pub(super) fn turned(&self) -> Self {
        let mut turned = self.clone();
        (turned.start, turned.due) = (-self.due, -self.start);
        for hours in turned.people.iter_mut().flat_map(|p| &mut p.hours) {
            (hours.from, hours.to) = (-hours.to, -hours.from);
        }
        for job in &mut turned.jobs {
            job.not_before = job.not_after.map(|t| -(t + job.minutes));
            job.not_after = None;
        }
        for taken in &mut turned.taken {
            (taken.from, taken.to) = (-taken.to, -taken.from);
        }
        for link in &mut turned.links {
            (link.before, link.after) = (link.after, link.before);
        }
        for hold in &mut turned.holds {
            (hold.from, hold.to) = (hold.to, hold.from);
        }
        turned
    }
}
