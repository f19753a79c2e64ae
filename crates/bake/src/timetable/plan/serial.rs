use super::board::Board;
use super::frame::Frame;
use super::{Link, Placed, Schedule};

/// Puts one block after another, none before `low`, of those whose turn has come always the one with the least key. Blocks for
/// which the hours do not suffice, and what waits for them, stay without a time.
pub(super) fn generate(frame: &Frame, keys: &[i64], low: i64, counted: bool) -> Schedule {
    let blocks = &frame.blocks.blocks;
    let mut waits: Vec<usize> = blocks.iter().map(|b| b.before.len()).collect();
    let mut ready: Vec<usize> = (0..blocks.len()).filter(|&b| waits[b] == 0).collect();
    let mut board = Board::new(frame, low, counted);
    while let Some(k) = (0..ready.len()).min_by_key(|&k| (keys[ready[k]], ready[k])) {
        let block = ready.swap_remove(k);
        if !board.put(block) {
            continue;
        }
        for &next in &blocks[block].after {
            waits[next] -= 1;
            if waits[next] == 0 {
                ready.push(next);
            }
        }
    }
    board.schedule
}

/// Moves every block as early as it can go while all others stay, those that begin first coming first. A block never moves
/// later, so what follows it stays right; none begins before `low`.
pub(super) fn pull(frame: &Frame, schedule: &Schedule, low: i64) -> Schedule {
    let mut board = Board::with(frame, schedule, low);
    let blocks = &frame.blocks.blocks;
    let start = |b: usize| blocks[b].jobs.iter().filter_map(|&j| schedule.placed[j].as_ref().map(Placed::start)).min();
    let mut order: Vec<usize> = (0..blocks.len()).filter(|&b| start(b).is_some()).collect();
    order.sort_by_key(|&b| (start(b), b));
    for block in order {
        let was = board.lift(block);
        if was.len() < blocks[block].jobs.len() {
            board.restore(block, was);
            continue;
        }
        if board.put(block) && !earlier(&board, block, &was) {
            board.lift(block);
            board.restore(block, was);
        } else if blocks[block].jobs.iter().any(|&j| board.schedule.placed[j].is_none()) {
            board.restore(block, was);
        }
    }
    board.schedule
}

/// Whether a block that was put anew is nowhere later than it was and still before what follows it.
fn earlier(board: &Board, block: usize, was: &[Placed]) -> bool {
    let frame = board.frame;
    let at = |job: usize| board.schedule.placed[job].as_ref();
    let kept = |link: &Link| match (at(link.before), at(link.after)) {
        (Some(first), Some(then)) => {
            let carry = if first.kitchen == then.kitchen { 0 } else { frame.project.carry };
            first.end() + link.least + carry <= then.start()
        }
        _ => true,
    };
    frame.blocks.blocks[block].jobs.iter().zip(was).all(|(&job, was)| {
        at(job).is_some_and(|now| now.end() <= was.end() && now.start() <= was.start())
            && frame.blocks.after[job].iter().filter(|l| frame.blocks.of[l.after] != block).all(kept)
    })
}
