use crate::links::Links;
use gable_mesh::{Body, solids_of};
use gable_plane::{HalfSpace, P2, P3, Solid, V3, ring_area, ring_centroid, ring_contains};
use gable_shell::{JointEnd, Piece, Solved, Wish};

/// Openings are flattened this fine where only weight matters, mm.
const ROUGH: f64 = 0.2;

/// The house where it is built, as everything about stages needs it.
pub(super) struct Site<'a> {
    pub(super) solved: &'a Solved,
    pub(super) links: Links,
    /// Per piece its convex solids in the house.
    pub(super) solids: Vec<Vec<Block>>,
    /// The same with their openings closed: nothing is stood in a window.
    closed: Vec<Vec<Block>>,
    /// The icing of each joint, with the pieces it holds.
    icing: Vec<(Vec<usize>, Block)>,
    /// Per piece its joints: index, and the piece at the other end unless it is the base board.
    pub(super) joints: Vec<Vec<(usize, Option<usize>)>>,
}

/// A convex solid with its planes.
pub(super) struct Block {
    planes: Vec<HalfSpace>,
    pub(super) low: P3,
    pub(super) high: P3,
}

impl Block {
    fn new(solid: &Solid) -> Self {
        let (low, high) = solid.bounds();
        Self { planes: solid.half_spaces(), low: P3::from(low), high: P3::from(high) }
    }

    /// How far a point is outside, mm: below zero inside. Beyond corners a little less than the distance.
    pub(super) fn outside(&self, p: &P3) -> f64 {
        self.planes.iter().map(|h| h.excess(p)).fold(f64::NEG_INFINITY, f64::max)
    }

    /// The part of the way from `a` to `b` inside it, as shares; none if it only touches.
    pub(super) fn crossed(&self, a: &P3, b: &P3) -> Option<(f64, f64)> {
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for plane in &self.planes {
            let (at_a, at_b) = (plane.excess(a), plane.excess(b));
            match (at_a > 0.0, at_b > 0.0) {
                (true, true) => return None,
                (true, false) => from = from.max(at_a / (at_a - at_b)),
                (false, true) => to = to.min(at_a / (at_a - at_b)),
                (false, false) => {}
            }
        }
        (to - from > 1e-9).then_some((from, to))
    }
}

impl<'a> Site<'a> {
    pub(super) fn new(solved: &'a Solved, wishes: &[Wish]) -> Self {
        let solids: Vec<Vec<Solid>> = solved.pieces.iter().map(moved).collect();
        let bodies: Vec<Vec<Body>> = solids.iter().map(|list| list.iter().map(Body::of).collect()).collect();
        let piece = |end: &JointEnd| if let JointEnd::Piece(k) = end { Some(*k) } else { None };
        let mut joints = vec![Vec::new(); solved.pieces.len()];
        for (j, joint) in solved.joints.iter().enumerate() {
            let [a, b] = [piece(&joint.ends[0]), piece(&joint.ends[1])];
            for (own, other) in [(a, b), (b, a)] {
                if let Some(list) = own.and_then(|k| joints.get_mut(k)) {
                    list.push((j, other));
                }
            }
        }
        let mut links = Links::of(solved, &bodies);
        links.heed(&wishes.iter().collect::<Vec<_>>());
        let blocks = |list: &Vec<Solid>| list.iter().map(Block::new).collect();
        let closed = |p: &Piece| blocks(&moved(&Piece { openings: Vec::new(), ..p.clone() }));
        let closed = solved.pieces.iter().map(closed).collect();
        let icing = solved.joints.iter().flat_map(|joint| {
            let ends: Vec<usize> = joint.ends.iter().filter_map(piece).collect();
            joint.icing.iter().map(move |solid| (ends.clone(), Block::new(solid)))
        });
        Self { solved, links, solids: solids.iter().map(blocks).collect(), closed, icing: icing.collect(), joints }
    }

    pub(super) fn piece(&self, k: usize) -> &'a Piece {
        &self.solved.pieces[k]
    }

    /// Out of the house, square to a piece.
    pub(super) fn outward(&self, k: usize) -> V3 {
        self.piece(k).outward()
    }

    /// Where the weight of a piece acts.
    pub(super) fn middle(&self, k: usize) -> P3 {
        let piece = self.piece(k);
        let mut sum = (0.0, P2::origin().coords);
        let mut add = |ring: &[P2], sign: f64| {
            let area = ring_area(ring).abs() * sign;
            sum = (sum.0 + area, sum.1 + ring_centroid(ring).coords * area);
        };
        add(&piece.outline, 1.0);
        for opening in piece.openings.iter().filter(|o| o.mode.goes_through()) {
            add(&opening.contour.flatten(ROUGH), -1.0);
        }
        let flat = sum.1 / sum.0;
        piece.house_from_piece * P3::new(flat.x, flat.y, piece.thickness.mm() / 2.0)
    }

    /// Volume of a piece, openings counted as biscuit, mm³.
    pub(super) fn volume(&self, k: usize) -> f64 {
        let piece = self.piece(k);
        ring_area(&piece.outline).abs() * piece.thickness.mm()
    }

    /// How high a piece reaches right below a point, its openings closed; nothing where it is not below.
    pub(super) fn top_below(&self, k: usize, at: &P3) -> Option<f64> {
        let foot = P3::new(at.x, at.y, at.z.min(0.0) - 1.0);
        let tops = self.closed[k].iter().filter_map(|block| block.crossed(&foot, at));
        tops.map(|(_, to)| foot.z + to * (at.z - foot.z)).reduce(f64::max)
    }

    /// Whether no opening lies below a point, of what stands.
    pub(super) fn is_whole_below(&self, at: &P3, stands: &dyn Fn(usize) -> bool) -> bool {
        let standing = (0..self.solids.len()).filter(|&k| stands(k));
        standing.into_iter().all(|k| {
            let foot = P3::new(at.x, at.y, at.z.min(0.0) - 1.0);
            let open = self.solids[k].iter().filter_map(|b| b.crossed(&foot, at)).map(|(_, to)| to).reduce(f64::max);
            let closed = self.closed[k].iter().filter_map(|b| b.crossed(&foot, at)).map(|(_, to)| to).reduce(f64::max);
            open.is_some() == closed.is_some()
        })
    }

    /// Icing right below a point, of joints whose ends all stand: one of the pieces, and how high it is there.
    pub(super) fn icing_below(&self, at: &P3, stands: &dyn Fn(usize) -> bool) -> Option<(usize, f64)> {
        let foot = P3::new(at.x, at.y, at.z.min(0.0) - 1.0);
        let tops = self.icing.iter().filter(|(ends, _)| ends.iter().all(|k| stands(*k))).filter_map(|(ends, block)| {
            let (_, to) = block.crossed(&foot, at)?;
            Some((*ends.first()?, foot.z + to * (at.z - foot.z)))
        });
        tops.max_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Whether a point of the underside of a piece, given in the house, is biscuit: no opening, not past the edge.
    pub(super) fn is_biscuit(&self, k: usize, p: &P3) -> bool {
        let piece = self.piece(k);
        let flat = (piece.house_from_piece.inverse() * p).xy();
        let open = piece.openings.iter().filter(|o| o.mode.goes_through());
        ring_contains(&piece.outline, flat)
            && ring_contains(&piece.outline_back, flat)
            && !open.into_iter().any(|o| ring_contains(&o.contour.flatten(ROUGH), flat))
    }

    /// Whether a piece stands upright: walls, posts, cheeks.
    pub(super) fn is_upright(&self, k: usize) -> bool {
        self.outward(k).z.abs() < 0.2
    }

    /// Whether a piece lies level.
    pub(super) fn is_level(&self, k: usize) -> bool {
        self.outward(k).z.abs() > 0.999
    }
}

fn moved(piece: &Piece) -> Vec<Solid> {
    solids_of(piece).iter().map(|s| s.moved(&piece.house_from_piece)).collect()
}

/// The middle of two points.
pub(super) fn half_way(a: &P3, b: &P3) -> P3 {
    a + (b - a) / 2.0
}
