use super::{Hands, Link, Project};
use std::collections::{BTreeMap, BTreeSet};

/// Jobs that are done in one go in one kitchen.
#[derive(Clone, Debug, Default)]
pub(super) struct Block {
    /// The jobs, each after those of the block that it waits for.
    pub(super) jobs: Vec<usize>,
    /// Kitchens that have all that its jobs take up.
    pub(super) kitchens: Vec<usize>,
    /// Indices of the holds within it.
    pub(super) holds: Vec<usize>,
    /// Blocks that come before it.
    pub(super) before: BTreeSet<usize>,
    /// Blocks that come after it.
    pub(super) after: BTreeSet<usize>,
}

/// The blocks of a project and how they hang together.
#[derive(Clone, Debug)]
pub(super) struct Blocks {
    /// In the order of their first job.
    pub(super) blocks: Vec<Block>,
    /// Per job the links before it.
    pub(super) before: Vec<Vec<Link>>,
    /// Per job the links after it.
    pub(super) after: Vec<Vec<Link>>,
    /// Per job the number of its block.
    pub(super) of: Vec<usize>,
}

impl Blocks {
    /// # Errors
    /// The names of jobs that wait for each other.
    pub(super) fn of(project: &Project) -> Result<Self, String> {
        let mut numbers = BTreeMap::new();
        let mut blocks: Vec<Block> = Vec::new();
        let mut of = Vec::new();
        for (k, job) in project.jobs.iter().enumerate() {
            let number = job.block.and_then(|own| numbers.get(&own).copied()).unwrap_or_else(|| {
                blocks.push(Block::default());
                blocks.len() - 1
            });
            if let Some(own) = job.block {
                numbers.insert(own, number);
            }
            blocks[number].jobs.push(k);
            of.push(number);
        }
        let count = project.jobs.len();
        let (mut before, mut after) = (vec![Vec::new(); count], vec![Vec::new(); count]);
        for &link in &project.links {
            before[link.after].push(link);
            after[link.before].push(link);
            let (a, b) = (of[link.before], of[link.after]);
            if a != b {
                blocks[a].after.insert(b);
                blocks[b].before.insert(a);
            }
        }
        for (k, hold) in project.holds.iter().enumerate() {
            blocks[of[hold.from]].holds.push(k);
        }
        let mut all = Self { blocks, before, after, of };
        all.sort_jobs(project)?;
        all.check_blocks(project)?;
        for block in &mut all.blocks {
            block.kitchens = kitchens(project, block);
        }
        Ok(all)
    }

    fn sort_jobs(&mut self, project: &Project) -> Result<(), String> {
        for number in 0..self.blocks.len() {
            let jobs = self.blocks[number].jobs.clone();
            let within = |k: &usize| {
                let links = self.before[*k].iter().map(|link| link.before);
                links.filter(|&b| self.of[b] == number).collect::<Vec<_>>()
            };
            self.blocks[number].jobs = sorted(&jobs, within).map_err(|ring| names(project, ring))?;
        }
        Ok(())
    }

    fn check_blocks(&self, project: &Project) -> Result<(), String> {
        let all: Vec<usize> = (0..self.blocks.len()).collect();
        let jobs = |ring: Vec<usize>| ring.into_iter().flat_map(|b| self.blocks[b].jobs.clone()).collect();
        sorted(&all, |&b| self.blocks[b].before.iter().copied().collect())
            .map_err(|ring| names(project, jobs(ring)))?;
        Ok(())
    }
}

/// Each after those that it waits for, otherwise in the order given; or those that wait in rings.
fn sorted(all: &[usize], before: impl Fn(&usize) -> Vec<usize>) -> Result<Vec<usize>, Vec<usize>> {
    let mut waiting: Vec<(usize, Vec<usize>)> = all.iter().map(|k| (*k, before(k))).collect();
    let mut done = Vec::new();
    let mut seen = BTreeSet::new();
    while !waiting.is_empty() {
        let Some(next) = waiting.iter().position(|(_, before)| before.iter().all(|b| seen.contains(b))) else {
            return Err(waiting.into_iter().map(|(k, _)| k).collect());
        };
        let (k, _) = waiting.remove(next);
        seen.insert(k);
        done.push(k);
    }
    Ok(done)
}

fn names(project: &Project, jobs: Vec<usize>) -> String {
    let names: Vec<&str> = jobs.into_iter().filter_map(|k| project.jobs.get(k)).map(|job| job.name.as_str()).collect();
    names.join(", ")
}

/// The kitchens in which all of a block can be done, its places and people regarded, not their time.
fn kitchens(project: &Project, block: &Block) -> Vec<usize> {
    let fits = |kitchen: &usize| {
        let has = |kind, units| units <= units_of(project, *kitchen, kind);
        let holds = block.holds.iter().map(|&h| project.holds[h].need);
        let people = |job: &super::Job| {
            let able = |p: &usize| job.who.is_empty() || job.who.contains(p);
            let comes = |p: &usize| project.people[*p].hours.iter().any(|h| h.kitchen == *kitchen);
            (0..project.people.len()).filter(|p| able(p) && comes(p)).count()
        };
        let job = |&k: &usize| {
            let job = &project.jobs[k];
            let enough = match job.hands {
                Hands::Work(hands) => people(job) >= hands,
                Hands::Watched | Hands::Alone => true,
            };
            enough && job.kitchen.is_none_or(|own| own == *kitchen) && job.needs.iter().all(|n| has(n.kind, n.units))
        };
        holds.into_iter().all(|n| has(n.kind, n.units)) && block.jobs.iter().all(job)
    };
    (0..project.kitchens).filter(fits).collect()
}

/// How much of a kind of place there is in a kitchen.
pub(super) fn units_of(project: &Project, kitchen: usize, kind: usize) -> u32 {
    project.places.iter().filter(|p| p.kitchen == kitchen && p.kind == kind).map(|p| p.units).sum()
}
