use crate::block::Obstacle;
use crate::links::Links;
use crate::stuck::{Held, Reason, Stuck};
use crate::ways::{Reach, ways};
use gable_measure::Length;
use gable_mesh::{Body, chunks_within};
use gable_plane::V3;
use gable_shell::{Solved, Wish};
use std::collections::BTreeMap;

/// One piece put up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Index into [`Solved::pieces`].
    pub piece: usize,
    /// Unit direction in the house in which the piece comes to its place, in a straight line from far away. It never
    /// leads upwards, through the base board.
    pub way: V3,
}

/// How far the chords of round openings and notches may be off the arc: far less than the gap that they are cut with.
const ROUND: Length = Length::mm_of(0.005);
/// How often the search is begun anew, with what was carried for nothing taken away earlier.
const ROUNDS: usize = 12;

/// An order in which the pieces can be put up one by one, each by one straight move that meets nothing that stands.
///
/// Each piece rests on the base board or has a joint with one that stands already, and the walls of a part stand before its
/// roof. What the person wants of the order is kept as far as it can be: [`plan`] tells what cannot. Found backwards: the finished house is taken apart piece by piece, and what has been taken away never is in
/// anybody's way. Directions are up, square to pieces and joints, and combinations of two of them.
///
/// # Errors
/// When some pieces cannot be taken away, with what holds them. There may still be an order by other moves.
pub fn order(solved: &Solved) -> Result<Vec<Step>, Stuck> {
    plan(solved, &solved.wishes).map(|plan| plan.steps)
}

/// An order, and what the person wanted of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The pieces, one after the other.
    pub steps: Vec<Step>,
    /// Wishes that are kept.
    pub kept: Vec<Wish>,
    /// Wishes that cannot be kept, together with those before them, and what stands in the way.
    pub refused: Vec<(Wish, Vec<Held>)>,
}

/// The order that keeps as many wishes as can be, the earlier ones first.
///
/// # Errors
/// As [`order`], when there is no order without any wish either.
pub fn plan(solved: &Solved, wishes: &[Wish]) -> Result<Plan, Stuck> {
    let bodies: Vec<Vec<Body>> = solved
        .pieces
        .iter()
        .map(|piece| chunks_within(piece, ROUND).iter().map(|b| b.moved(&piece.house_from_piece)).collect())
        .collect();
    let mut yard = Yard {
        solved,
        links: Links::of(solved, &bodies),
        obstacles: bodies.iter().map(|b| Obstacle::new(b)).collect(),
        known: BTreeMap::new(),
    };
    let floating = yard.links.floating(&vec![true; bodies.len()]);
    if floating.is_empty()
        && !wishes.is_empty()
        && let Ok(steps) = yard.tried(&wishes.iter().collect::<Vec<_>>())
    {
        return Ok(Plan { steps, kept: wishes.to_vec(), refused: Vec::new() });
    }
    let mut steps = match yard.tried(&[]) {
        Ok(steps) if floating.is_empty() => steps,
        Ok(_) => return Err(Stuck::new(solved, floating.into_iter().map(|k| (k, Reason::Floats)).collect())),
        Err((left, _)) => return Err(Stuck::new(solved, yard.reasons(&left))),
    };
    let (mut kept, mut refused) = (Vec::new(), Vec::new());
    for wish in wishes {
        kept.push(wish);
        match yard.tried(&kept) {
            Ok(with) => steps = with,
            Err((left, _)) => {
                kept.pop();
                refused.push((wish.clone(), Stuck::new(solved, yard.against(wish, &left)).left));
            }
        }
    }
    Ok(Plan { steps, kept: kept.into_iter().cloned().collect(), refused })
}

/// The house while it is taken apart.
struct Yard<'a> {
    solved: &'a Solved,
    links: Links,
    obstacles: Vec<Obstacle>,
    /// Per piece the ways that have been looked at, each with all that is ever in it.
    known: BTreeMap<(usize, Reach), Vec<Way>>,
}

/// A direction, and the pieces in the way.
type Way = (V3, Vec<usize>);

/// The pieces that are left, and the steps so far.
type DeadEnd = (Vec<bool>, Vec<Step>);

impl Yard<'_> {
    /// Takes the house apart so that these wishes are kept.
    fn tried(&mut self, wishes: &[&Wish]) -> Result<Vec<Step>, DeadEnd> {
        self.links.heed(wishes);
        let mut hurry = vec![0usize; self.obstacles.len()];
        let mut outcome = self.taken_apart(&hurry);
        for _ in 0..ROUNDS {
            let Err((left, _)) = &outcome else { break };
            // What could go but carries others goes before what they rested on the next time.
            let carrying: Vec<usize> = self.carrying(left);
            if carrying.is_empty() {
                break;
            }
            carrying.into_iter().for_each(|k| hurry[k] += 1);
            outcome = self.taken_apart(&hurry);
        }
        outcome
    }

    /// Why what should come after the rest of a wish cannot be taken away before it, what tells most first.
    fn against(&mut self, wish: &Wish, left: &[bool]) -> Vec<(usize, Reason)> {
        let then: Vec<usize> = wish.then.iter().copied().filter(|&k| left[k] && !wish.first.contains(&k)).collect();
        let floating = self.links.floating(left);
        let mut reasons: Vec<(usize, Reason)> =
            then.into_iter().map(|k| (k, self.reason(k, left, &floating))).collect();
        reasons.sort_by_key(|(_, reason)| reason.rank(&wish.first));
        reasons
    }

    fn taken_apart(&mut self, hurry: &[usize]) -> Result<Vec<Step>, DeadEnd> {
        let mut left = vec![true; self.obstacles.len()];
        let mut steps = Vec::new();
        while left.contains(&true) {
            let Some(step) = self.next(&left, hurry) else { return Err((left, steps)) };
            left[step.piece] = false;
            steps.push(step);
        }
        steps.reverse();
        Ok(steps)
    }

    /// The piece to take away next: one that can go easily, the later in the usual order the better.
    fn next(&mut self, left: &[bool], hurry: &[usize]) -> Option<Step> {
        let mut pieces: Vec<usize> = (0..left.len()).filter(|&k| left[k]).collect();
        pieces.sort_by_key(|&k| std::cmp::Reverse((hurry[k], self.links.turn[k])));
        [Reach::Plain, Reach::Joints, Reach::Pairs].into_iter().find_map(|reach| {
            pieces.iter().find_map(|&piece| {
                let may = self.links.is_uncovered(piece, left)
                    && self.links.waits_for(piece, left).is_empty()
                    && self.carries(piece, left).is_empty();
                let way = may.then(|| self.free_way(piece, left, reach)).flatten()?;
                // Taken from zero, so that no part of it is -0.
                Some(Step { piece, way: way.map(|c| 0.0 - c) })
            })
        })
    }

    /// What would rest on nothing without a piece, and does not with it.
    fn carries(&self, piece: usize, left: &[bool]) -> Vec<usize> {
        let mut without = left.to_vec();
        without[piece] = false;
        let before = self.links.floating(left);
        self.links.floating(&without).into_iter().filter(|k| !before.contains(k)).collect()
    }

    fn free_way(&mut self, piece: usize, left: &[bool], reach: Reach) -> Option<V3> {
        let free = |(way, stops): &Way| (!stops.iter().any(|&k| left[k])).then_some(*way);
        self.ways_of(piece, reach).iter().find_map(free)
    }

    fn ways_of(&mut self, piece: usize, reach: Reach) -> &[Way] {
        let (solved, obstacles) = (self.solved, &self.obstacles);
        self.known.entry((piece, reach)).or_insert_with(|| {
            let stops = |way: &V3| -> Vec<usize> {
                let met = |k: &usize| *k != piece && obstacles[piece].is_stopped(way, &obstacles[*k]);
                (0..obstacles.len()).filter(met).collect()
            };
            ways(solved, piece, reach).into_iter().map(|way| (way, stops(&way))).collect()
        })
    }

    /// Pieces that are left, could go, and carry others.
    fn carrying(&mut self, left: &[bool]) -> Vec<usize> {
        let pieces: Vec<usize> = (0..left.len()).filter(|&k| left[k] && self.links.is_uncovered(k, left)).collect();
        let pieces = pieces.into_iter().filter(|&k| self.links.waits_for(k, left).is_empty()).collect::<Vec<_>>();
        pieces.into_iter().filter(|&k| self.free_way(k, left, Reach::Pairs).is_some()).collect()
    }

    fn reasons(&mut self, left: &[bool]) -> Vec<(usize, Reason)> {
        let floating = self.links.floating(left);
        let pieces: Vec<usize> = (0..left.len()).filter(|&k| left[k]).collect();
        pieces.into_iter().map(|k| (k, self.reason(k, left, &floating))).collect()
    }

    fn reason(&mut self, piece: usize, left: &[bool], floating: &[usize]) -> Reason {
        if floating.contains(&piece) {
            return Reason::Floats;
        }
        if !self.links.is_uncovered(piece, left) {
            return Reason::UnderItsRoof;
        }
        let later = self.links.waits_for(piece, left);
        if !later.is_empty() {
            return Reason::Wanted(later);
        }
        if self.free_way(piece, left, Reach::Pairs).is_some() {
            return Reason::Carries(self.carries(piece, left));
        }
        let met = |(_, stops): &Way| stops.iter().copied().filter(|&k| left[k]).collect::<Vec<_>>();
        let fewest = self.ways_of(piece, Reach::Pairs).iter().map(met).min_by_key(Vec::len);
        Reason::InTheWay(fewest.unwrap_or_default())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Held, Why};
    use gable_measure::Unit;
    use gable_plane::{Contour, P2, Rigid};
    use gable_shell::{EdgeKind, House, Joint, JointEnd, Mode, Piece, PieceId, PieceOpening, Role, solve};

    fn simple() -> Solved {
        solve(&House::simple(Unit::Millimetre))
    }

    #[test]
    fn walls_come_first_and_everything_comes_from_above() {
        let solved = simple();
        let steps = order(&solved).unwrap();
        let walls = solved.pieces.iter().filter(|p| matches!(p.role, Role::Wall(_))).count();
        assert!(steps[..walls].iter().all(|s| matches!(solved.pieces[s.piece].role, Role::Wall(_))));
        assert_eq!(steps.len(), solved.pieces.len());
        assert!(steps.iter().all(|s| s.way == -V3::z()), "{steps:?}");
    }

    #[test]
    fn what_touches_nothing_is_named() {
        let mut solved = simple();
        let roof = solved.pieces.iter().position(|p| matches!(p.role, Role::Slope(..))).unwrap();
        solved.joints.retain(|j| !j.ends.contains(&JointEnd::Piece(roof)));
        let stuck = order(&solved).unwrap_err();
        let name = solved.pieces[roof].name.clone();
        assert_eq!(stuck.to_string(), format!("no order by straight moves: {name} rests on nothing"));
        assert_eq!(stuck.left, [Held { piece: roof, name: name.clone(), why: Why::Floats }]);
        let told = &crate::check(&solved)[0];
        assert_eq!((told.kind, &told.place), ("touches-no-piece", &solved.pieces[roof].id.0));
        assert_eq!(told.what, format!("{name} touches no other piece"));
    }

    fn ring(corners: &[(f64, f64)]) -> Vec<P2> {
        corners.iter().map(|&(x, y)| P2::new(x, y)).collect()
    }

    /// A piece like another one, straight-cut, without edges in joints.
    fn plate(like: &Piece, id: &str, outline: &[P2], pose: Rigid) -> Piece {
        Piece {
            id: PieceId(id.to_owned()),
            name: id.to_owned(),
            outline: outline.to_vec(),
            outline_back: outline.to_vec(),
            edges: vec![EdgeKind::Free; outline.len()],
            openings: Vec::new(),
            notches: Vec::new(),
            house_from_piece: pose,
            ..like.clone()
        }
    }

    /// A square frame that stands on the board, and a bar through its hole that is higher than the hole before it and
    /// behind it.
    fn frame_and_bar(ends: f64) -> Solved {
        let mut solved = simple();
        let like = solved.pieces[0].clone();
        let t = like.thickness.mm();
        let upright = V3::x() * std::f64::consts::FRAC_PI_2;
        let square = ring(&[(0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0)]);
        let mut frame = plate(&like, "frame", &square, Rigid::new(V3::zeros(), upright));
        let contour = Contour::rectangle(P2::new(20.0, 20.0), P2::new(40.0, 40.0));
        frame.openings.push(PieceOpening {
            id: gable_shell::OpeningId("hole".into()),
            copy: 0,
            name: "hole".into(),
            contour,
            mode: Mode::Cut,
        });
        // Through the hole along y: narrow from a little before the frame to a little behind it.
        let (low, high) = (21.0, 39.0);
        let bar = ring(&[
            (-40.0, low - ends),
            (1.0, low - ends),
            (1.0, low),
            (t + 1.0, low),
            (t + 1.0, low - ends),
            (40.0, low - ends),
            (40.0, high + ends),
            (t + 1.0, high + ends),
            (t + 1.0, high),
            (1.0, high),
            (1.0, high + ends),
            (-40.0, high + ends),
        ]);
        let across = Rigid::new(V3::new(30.0, 0.0, 0.0), V3::zeros());
        let turned = Rigid::new(V3::zeros(), V3::new(1.0, 1.0, 1.0).normalize() * (2.0 * std::f64::consts::FRAC_PI_3));
        let bar = plate(&like, "bar", &shifted(&bar, t), across * turned);
        let joint = |ends: [JointEnd; 2]| Joint { ends, ..solved.joints[0].clone() };
        solved.joints =
            vec![joint([JointEnd::Board, JointEnd::Piece(0)]), joint([JointEnd::Piece(0), JointEnd::Piece(1)])];
        solved.pieces = vec![frame, bar];
        solved
    }

    /// The frame lies at y from -t to 0.
    fn shifted(ring: &[P2], t: f64) -> Vec<P2> {
        ring.iter().map(|p| P2::new(p.x - t - 1.0, p.y)).collect()
    }

    #[test]
    fn a_bar_goes_through_a_hole_unless_its_ends_are_thicker() {
        let steps = order(&frame_and_bar(0.0)).unwrap();
        assert_eq!(steps.iter().map(|s| s.piece).collect::<Vec<_>>(), [0, 1]);
        assert!(steps[1].way.y.abs() > 1.0 - 1e-9, "{steps:?}");
        let stuck = order(&frame_and_bar(5.0)).unwrap_err();
        assert_eq!(stuck.to_string(), "no order by straight moves: frame cannot pass bar; bar cannot pass frame");
        let told = crate::check(&frame_and_bar(5.0));
        assert_eq!(
            told.iter().map(|f| (f.kind, f.place.as_str())).collect::<Vec<_>>(),
            [("no-order", "frame"), ("no-order", "bar")]
        );
        assert_eq!(told[0].what, "frame hooks into bar: no straight move parts them");
        assert!(crate::check(&frame_and_bar(0.0)).is_empty() && crate::check(&simple()).is_empty());
    }
}
