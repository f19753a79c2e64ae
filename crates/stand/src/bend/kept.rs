//! Plates that were bent are kept until they change.

use super::standing::Standing;
use super::{BendError, Bent, Held, Plate, bend};
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};

/// Everything that a bent plate depends on, bit by bit.
type Key = Vec<u64>;
type Known = Result<Arc<Bent>, BendError>;

/// Bent plates of the house as it was last asked about. What has not changed since is not bent again.
#[derive(Debug, Default)]
pub struct Kept {
    known: BTreeMap<Key, Known>,
}

/// Threads that bend at a time; more do not pay for some tens of pieces.
const THREADS: usize = 4;

impl Kept {
    /// Bends pieces, several at a time, and forgets what is not among them.
    pub fn bend(&mut self, all: &[Standing]) -> Vec<Known> {
        let keys: Vec<Key> = all.iter().map(key).collect();
        let mut todo: BTreeMap<&Key, &Standing> = keys.iter().zip(all).collect();
        todo.retain(|key, _| !self.known.contains_key(*key));
        let todo: Vec<(&Key, &Standing)> = todo.into_iter().collect();
        let bent = side_by_side(&todo);
        let before = std::mem::take(&mut self.known);
        let fresh: BTreeMap<Key, Known> = todo.into_iter().map(|(key, _)| key.clone()).zip(bent).collect();
        let find = |key: &Key| before.get(key).or_else(|| fresh.get(key)).cloned().unwrap_or(Err(BendError::Mesh));
        let found: Vec<Known> = keys.iter().map(find).collect();
        self.known = keys.into_iter().zip(found.iter().cloned()).collect();
        found
    }

    /// How many plates are kept.
    pub fn len(&self) -> usize {
        self.known.len()
    }

    /// Whether nothing is kept.
    pub fn is_empty(&self) -> bool {
        self.known.is_empty()
    }
}

fn side_by_side(todo: &[(&Key, &Standing)]) -> Vec<Known> {
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<(usize, Known)>> = Mutex::new(Vec::new());
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(THREADS).min(todo.len());
    let work = || {
        loop {
            let k = next.fetch_add(1, Ordering::Relaxed);
            let Some((_, one)) = todo.get(k) else { break };
            let bent = bend(&one.plate, &one.held, &one.load).map(Arc::new);
            if let Ok(mut done) = done.lock() {
                done.push((k, bent));
            }
        }
    };
    std::thread::scope(|scope| (0..threads).for_each(|_| drop(scope.spawn(work))));
    // A place that a thread did not fill stays an error.
    let mut all = vec![Err(BendError::Mesh); todo.len()];
    for (k, bent) in done.into_inner().unwrap_or_default() {
        all[k] = bent;
    }
    all
}

fn key(one: &Standing) -> Key {
    let Standing { plate, held, load, .. } = one;
    let Plate { shape, thickness, narrowing } = plate;
    let mut key = vec![thickness.mm().to_bits(), narrowing.to_bits(), load.pressure.to_bits(), held.len() as u64];
    for Held { from, to, clamped } in held {
        key.extend([from.x, from.y, to.x, to.y].map(f64::to_bits));
        key.push(u64::from(*clamped));
    }
    for ring in &shape.rings {
        key.push(ring.len() as u64);
        key.extend(ring.iter().flat_map(|p| [p.x.to_bits(), p.y.to_bits()]));
    }
    key.extend(load.forces.iter().flat_map(|(p, force)| [p.x, p.y, *force].map(f64::to_bits)));
    key
}
