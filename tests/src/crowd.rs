//! Many houses at once, on all cores, with the same answer as one after the other.

use crate::judge::{Check, Fault};
use gable_measure::Severity;
use gable_shell::{House, Solved, solve};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};

/// What the judge said about many houses.
#[derive(Clone, Debug, Default)]
pub struct Crowd {
    /// Houses looked at.
    pub count: u64,
    /// Seeds of houses that the solver refused, with its reason.
    pub refused: BTreeMap<u64, String>,
    /// Faults by seed.
    pub faults: BTreeMap<u64, Vec<Fault>>,
}

impl Crowd {
    /// Solves the houses of seeds `0..count` and judges those that are not refused.
    pub fn judge(
        count: u64,
        make: fn(u64) -> House,
        check: impl Fn(u64, &House, &Solved) -> Vec<Fault> + Sync,
    ) -> Self {
        let next = AtomicU64::new(0);
        let found = Mutex::new(Self { count, ..Self::default() });
        let work = || {
            loop {
                let seed = next.fetch_add(1, Ordering::Relaxed);
                if seed >= count {
                    return;
                }
                let house = make(seed);
                let solved = solve(&house);
                let blocking = solved.findings.iter().find(|f| f.severity == Severity::Blocking);
                let refused = blocking.map(|f| format!("{}: {}: {}", f.kind, f.place, f.what));
                let faults = if refused.is_some() { vec![] } else { check(seed, &house, &solved) };
                let Ok(mut found) = found.lock() else { return };
                found.refused.extend(refused.map(|why| (seed, why)));
                if !faults.is_empty() {
                    found.faults.insert(seed, faults);
                }
            }
        };
        let threads = std::thread::available_parallelism().map_or(2, usize::from);
        std::thread::scope(|scope| (0..threads).for_each(|_| drop(scope.spawn(work))));
        found.into_inner().unwrap_or_default()
    }

    /// Share of the houses that the solver refused.
    pub fn refused_share(&self) -> f64 {
        self.refused.len() as f64 / self.count.max(1) as f64
    }

    /// Counts by check, then the first faults of each check; all of them with `ALL` set in the environment.
    pub fn report(&self) -> String {
        let mut by_check: BTreeMap<Check, Vec<(u64, &Fault)>> = BTreeMap::new();
        for (seed, faults) in &self.faults {
            for fault in faults {
                by_check.entry(fault.check).or_default().push((*seed, fault));
            }
        }
        let mut text =
            format!("{} houses, {} refused, {} at fault\n", self.count, self.refused.len(), self.faults.len());
        for (check, faults) in by_check {
            let mut seeds: Vec<u64> = faults.iter().map(|(seed, _)| *seed).collect();
            seeds.dedup();
            let _ = writeln!(text, "{check:?}: {} faults in {} houses", faults.len(), seeds.len());
            let most = if std::env::var_os("ALL").is_some() { usize::MAX } else { 8 };
            for (seed, fault) in faults.iter().take(most) {
                let _ = writeln!(text, "  house {seed}: {fault}");
            }
        }
        for (seed, why) in self.refused.iter().take(5) {
            let _ = writeln!(text, "  refused {seed}: {why}");
        }
        text
    }
}
