use gable_shell::{Joint, JointEnd, JointKind, Role, SideId, Solved, Tier};

/// What a piece hangs on when its part is folded flat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Carrier {
    /// It is the floor and stays.
    IsFloor,
    /// The plane under the part.
    Table,
    /// A piece, by index into [`Solved::pieces`].
    Piece(usize),
    /// It touches nothing of its part.
    Nothing,
}

/// The pieces of one part, each after the one that carries it.
///
/// Walls hang on the table, a slope on the wall of its side, an upper slope on the lower one. What has no such carrier, a
/// lid or the slope of a side without a wall, hangs on a piece that it has a joint with: the kind that is hinged most
/// naturally first, of one kind the longest. What is still left is loose.
pub(crate) fn carriers(solved: &Solved, members: &[usize]) -> Vec<(usize, Carrier)> {
    let mut placed: Vec<(usize, Carrier)> = Vec::new();
    let mut waiting: Vec<usize> = members.to_vec();
    while !waiting.is_empty() {
        let own = waiting.iter().find_map(|&piece| Some((piece, by_role(solved, members, &placed, piece)?)));
        let (piece, carrier) =
            own.or_else(|| by_joint(solved, &placed, &waiting)).unwrap_or((waiting[0], Carrier::Nothing));
        waiting.retain(|&k| k != piece);
        placed.push((piece, carrier));
    }
    placed
}

fn by_role(solved: &Solved, members: &[usize], placed: &[(usize, Carrier)], piece: usize) -> Option<Carrier> {
    let find = |role: &Role| members.iter().copied().find(|&k| &solved.pieces[k].role == role);
    let wall = |side: &SideId| find(&Role::Wall(side.clone()));
    let lower = |side: &SideId| find(&Role::Slope(side.clone(), Tier::Lower));
    let carrier = match &solved.pieces[piece].role {
        Role::Floor => return Some(Carrier::IsFloor),
        Role::Wall(_) | Role::Post(..) => return Some(Carrier::Table),
        // Plates under a floor lie beside it.
        Role::Layer(_) => return Some(Carrier::Nothing),
        Role::Slope(side, Tier::Single | Tier::Lower) => wall(side),
        Role::Slope(side, Tier::Upper) => lower(side),
        Role::Parapet(_) => find(&Role::Lid),
        Role::Lid => None,
    };
    carrier.filter(|c| placed.iter().any(|(k, _)| k == c)).map(Carrier::Piece)
}

fn by_joint(solved: &Solved, placed: &[(usize, Carrier)], waiting: &[usize]) -> Option<(usize, Carrier)> {
    let is_placed = |k: usize| placed.iter().any(|(p, _)| *p == k);
    let link = |joint: &Joint| -> Option<(usize, usize)> {
        let [JointEnd::Piece(a), JointEnd::Piece(b)] = joint.ends else { return None };
        [(a, b), (b, a)].into_iter().find(|&(piece, on)| waiting.contains(&piece) && is_placed(on))
    };
    let length = |joint: &Joint| (joint.line[1] - joint.line[0]).norm();
    let found = solved.joints.iter().filter_map(|j| Some((rank(j.kind), length(j), link(j)?)));
    let best = found.min_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)))?;
    let (piece, on) = best.2;
    Some((piece, Carrier::Piece(on)))
}

fn rank(kind: JointKind) -> u8 {
    match kind {
        JointKind::Base => 0,
        JointKind::Eave => 1,
        JointKind::Knee => 2,
        JointKind::Ridge => 3,
        JointKind::Hip => 4,
        JointKind::Corner => 5,
        JointKind::Rake => 6,
        JointKind::Valley => 7,
        JointKind::Abutment => 8,
        JointKind::Layer => 9,
    }
}
