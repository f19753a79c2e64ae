use crate::crossing::distance;
use crate::{Job, Layout, Placed, Turns};
use gable_measure::{Angle, Length};
use gable_plane::{P2, V2, bounds, ring_contains};
use rstar::primitives::GeomWithData;
use rstar::{AABB, RTree, primitives::Rectangle};

/// What is wrong with a layout.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A piece lies nowhere, or more than once.
    Count {
        /// Index of the item.
        item: usize,
        /// How often it lies somewhere.
        times: usize,
    },
    /// Two pieces are nearer than the gap.
    Near {
        /// Indices of the items.
        items: [usize; 2],
        /// How far they are apart; 0 when they overlap.
        distance: Length,
    },
    /// A piece reaches beyond its sheet.
    Beyond {
        /// Index of the item.
        item: usize,
        /// By how much.
        distance: Length,
    },
    /// A piece is turned as it may not be.
    Turned {
        /// Index of the item.
        item: usize,
        /// Its turn.
        turn: Angle,
    },
    /// More sheets of a kind than there are.
    Sheets {
        /// Index of the sheet.
        sheet: usize,
        /// How many are used.
        used: usize,
    },
}

/// Nearness that counts as touching, mm, when no gap is asked for: rounding of the search on a sheet of a metre.
const ROUNDING: f64 = 2e-3;

impl Layout {
    /// Measures the layout against the job in double precision, with none of the code that found it.
    pub fn faults(&self, job: &Job) -> Vec<Fault> {
        let mut faults = self.miscounted(job);
        for filled in &self.sheets {
            let rings: Vec<Vec<P2>> = filled.placed.iter().map(|p| p.outline(job)).collect();
            let sheet = &job.sheets()[filled.sheet].outline;
            for (placed, ring) in filled.placed.iter().zip(&rings) {
                faults.extend(turned(job, placed));
                let beyond = beyond(ring, sheet);
                if beyond > ROUNDING {
                    faults.push(Fault::Beyond { item: placed.item, distance: Length::mm_of(beyond) });
                }
            }
            faults.extend(near(job, &filled.placed, &rings));
        }
        faults
    }

    fn miscounted(&self, job: &Job) -> Vec<Fault> {
        let mut times = vec![0; job.items().len()];
        for placed in self.sheets.iter().flat_map(|f| &f.placed) {
            times[placed.item] += 1;
        }
        let counts = times.into_iter().enumerate().filter(|(_, times)| *times != 1);
        let mut faults: Vec<Fault> = counts.map(|(item, times)| Fault::Count { item, times }).collect();
        for (sheet, entry) in job.sheets().iter().enumerate() {
            let used = self.sheets.iter().filter(|f| f.sheet == sheet).count();
            if entry.at_most.is_some_and(|most| used > most) {
                faults.push(Fault::Sheets { sheet, used });
            }
        }
        faults
    }
}

fn turned(job: &Job, placed: &Placed) -> Option<Fault> {
    let turn = placed.sheet_from_item.rotation.angle();
    let part = match job.items()[placed.item].turns() {
        Turns::Free => return None,
        Turns::None => std::f64::consts::TAU,
        Turns::Half => std::f64::consts::PI,
        Turns::Left | Turns::Quarter => std::f64::consts::FRAC_PI_2,
    };
    let times = (turn / part).round();
    let off = (turn / part - times).abs() * part;
    let wrong = job.items()[placed.item].turns() == Turns::Left && !(times == 0.0 || times == 1.0);
    (off > 1e-6 || wrong).then_some(Fault::Turned { item: placed.item, turn: Angle::radians(turn) })
}

fn edges(ring: &[P2]) -> impl Iterator<Item = [P2; 2]> + '_ {
    (0..ring.len()).map(|k| [ring[k], ring[(k + 1) % ring.len()]])
}

fn to_rim(p: P2, ring: &[P2]) -> f64 {
    edges(ring).map(|e| distance(e, [p, p])).fold(f64::INFINITY, f64::min)
}

/// How far a ring reaches beyond a sheet: its own corners outside, and the sheet's corners inside.
fn beyond(ring: &[P2], sheet: &[P2]) -> f64 {
    let outside = ring.iter().filter(|p| !ring_contains(sheet, **p)).map(|p| to_rim(*p, sheet));
    let inside = sheet.iter().filter(|p| ring_contains(ring, **p)).map(|p| to_rim(*p, ring));
    outside.chain(inside).fold(0.0, f64::max)
}

fn near(job: &Job, placed: &[Placed], rings: &[Vec<P2>]) -> Vec<Fault> {
    let gap = job.gap().mm();
    let boxes = rings.iter().enumerate().filter_map(|(k, ring)| {
        let (low, high) = bounds(ring)?;
        let corners = Rectangle::from_corners([low.x - gap, low.y - gap], [high.x + gap, high.y + gap]);
        Some(GeomWithData::new(corners, k))
    });
    let tree = RTree::bulk_load(boxes.collect());
    let mut faults = Vec::new();
    for (a, ring) in rings.iter().enumerate() {
        let Some((low, high)) = bounds(ring) else { continue };
        let mut others: Vec<usize> = tree
            .locate_in_envelope_intersecting(&AABB::from_corners([low.x, low.y], [high.x, high.y]))
            .map(|found| found.data)
            .filter(|b| *b > a)
            .collect();
        others.sort_unstable();
        for b in others {
            let items = [placed[a].item, placed[b].item];
            let found = apart(ring, &rings[b]);
            let (distance, allowed) = if found < 0.0 { (0.0, -found <= ROUNDING) } else { (found, found > gap - 1e-6) };
            if !allowed {
                faults.push(Fault::Near { items, distance: Length::mm_of(distance) });
            }
        }
    }
    faults
}

/// How far two rings are apart; negative when they overlap: how deep a corner of one, or the middle between two
/// crossings, lies inside the other.
fn apart(a: &[P2], b: &[P2]) -> f64 {
    let depth = depth(a, b).max(depth(b, a));
    if depth > 0.0 {
        return -depth;
    }
    edges(a).flat_map(|e| edges(b).map(move |f| distance(e, f))).fold(f64::INFINITY, f64::min)
}

/// How deep the ring `a` reaches into `b`, looked at along its edges: at corners, and halfway between places where an
/// edge crosses the other ring; there also a little within `a`, so that rings that lie on each other are seen.
fn depth(a: &[P2], b: &[P2]) -> f64 {
    let mut deepest: f64 = 0.0;
    for [from, to] in edges(a) {
        let mut shares = vec![0.0, 1.0];
        shares.extend(edges(b).filter_map(|f| crossing_share([from, to], f)));
        shares.sort_by(f64::total_cmp);
        let middles = shares.windows(2).map(|w| (w[0] + w[1]) / 2.0);
        let along = (to - from).normalize();
        let within = V2::new(-along.y, along.x) * (1.5 * ROUNDING);
        for p in middles.chain([0.0]).map(|share| from + (to - from) * share) {
            let inside = Some(p + within).filter(|q| ring_contains(a, *q));
            for q in [Some(p), inside].into_iter().flatten().filter(|q| ring_contains(b, *q)) {
                deepest = deepest.max(to_rim(q, b));
            }
        }
    }
    deepest
}

/// The share of the first segment at which it crosses the other.
fn crossing_share(a: [P2; 2], b: [P2; 2]) -> Option<f64> {
    let (u, v) = (a[1] - a[0], b[1] - b[0]);
    let across = u.perp(&v);
    if across == 0.0 {
        return None;
    }
    let share = (b[0] - a[0]).perp(&v) / across;
    let other = (b[0] - a[0]).perp(&u) / across;
    ((0.0..=1.0).contains(&share) && (0.0..=1.0).contains(&other)).then_some(share)
}
