use gable_shell::{House, Opening, OpeningId, PartId, Piece, Role, SideId, Surface};

/// What the sizes are shown of.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Selection {
    /// The whole house.
    #[default]
    House,
    /// A part.
    Part(PartId),
    /// A side of a part: its wall and what is above it.
    Side(PartId, SideId),
    /// A door or window.
    Opening(PartId, OpeningId),
    /// Something that stands free beside the house, by its place in the list.
    Extra(usize),
    /// Something that is stuck on, by its place in the list of ornaments.
    Ornament(usize),
}

impl Selection {
    /// What a piece belongs to.
    pub(crate) fn of_piece(piece: &Piece) -> Self {
        let part = piece.part.clone();
        match piece.role.side() {
            Some(side) => Self::Side(part, side.clone()),
            None => Self::Part(part),
        }
    }

    /// The part that is selected or holds what is selected.
    pub(crate) fn part(&self) -> Option<&PartId> {
        match self {
            Self::House | Self::Extra(_) | Self::Ornament(_) => None,
            Self::Part(part) | Self::Side(part, _) | Self::Opening(part, _) => Some(part),
        }
    }

    /// Whether a piece is to be shown as selected.
    pub(crate) fn holds(&self, piece: &Piece, house: &House) -> bool {
        match self {
            Self::House | Self::Part(_) | Self::Extra(_) | Self::Ornament(_) => false,
            Self::Side(part, side) => &piece.part == part && piece.role.side() == Some(side),
            Self::Opening(part, opening) => {
                let side = house.part(part).and_then(|p| p.openings.iter().find(|o| &o.id == opening));
                side.is_some_and(|o| &piece.part == part && is_face(&piece.role, o))
            }
        }
    }

    /// The same if it still is in the house, else what is left of it.
    pub(crate) fn within(&self, house: &House) -> Self {
        let listed = match self {
            Self::Extra(k) => Some(*k < house.dressing.extras.len()),
            Self::Ornament(k) => Some(*k < house.dressing.ornaments.len()),
            _ => None,
        };
        if let Some(listed) = listed {
            return if listed { self.clone() } else { Self::House };
        }
        let Some(part) = self.part().and_then(|id| house.part(id)) else { return Self::House };
        let whole = Self::Part(part.id.clone());
        match self {
            Self::House | Self::Extra(_) | Self::Ornament(_) | Self::Part(_) => whole,
            Self::Side(_, side) if part.sides.iter().any(|s| &s.id == side) => self.clone(),
            Self::Opening(_, opening) if part.openings.iter().any(|o| &o.id == opening) => self.clone(),
            Self::Side(..) | Self::Opening(..) => whole,
        }
    }

    /// What a place in a finding speaks of: a path such as `parts[0].sides.left.pitch`, or the id of a piece.
    pub(crate) fn of_place(place: &str, house: &House, pieces: &[Piece]) -> Self {
        if let Some(piece) = pieces.iter().find(|p| p.id.0 == place) {
            return Self::of_piece(piece);
        }
        let (head, rest) = place.split_once('.').unwrap_or((place, ""));
        if head == "dressing" {
            let item = rest.split('.').next().unwrap_or_default();
            let extra = indexed(item, "extras").map(Self::Extra);
            return extra.or_else(|| indexed(item, "ornaments").map(Self::Ornament)).unwrap_or_default().within(house);
        }
        let Some(part) = indexed(head, "parts").and_then(|k| house.parts.get(k)) else { return Self::House };
        let (head, rest) = rest.split_once('.').unwrap_or((rest, ""));
        if let Some(opening) = indexed(head, "openings").and_then(|k| part.openings.get(k)) {
            return Self::Opening(part.id.clone(), opening.id.clone());
        }
        let side = rest.split('.').next().unwrap_or_default();
        let side =
            if head == "sides" { side } else { head.strip_prefix("sides[").map_or("", |s| s.trim_end_matches(']')) };
        let by_name = part.sides.iter().find(|s| s.id.0 == side);
        let found = by_name.or_else(|| side.parse::<usize>().ok().and_then(|k| part.sides.get(k)));
        found.map_or(Self::Part(part.id.clone()), |s| Self::Side(part.id.clone(), s.id.clone()))
    }
}

/// `k` of `list[k]`.
fn indexed(text: &str, list: &str) -> Option<usize> {
    text.strip_prefix(list)?.strip_prefix('[')?.strip_suffix(']')?.parse().ok()
}

/// Whether an opening is in pieces of a role.
pub(crate) fn is_face(role: &Role, opening: &Opening) -> bool {
    match (role, opening.face) {
        (Role::Wall(side), Surface::Wall) => *side == opening.side,
        (Role::Slope(side, tier), Surface::Slope(own)) => *side == opening.side && *tier == own,
        _ => false,
    }
}
