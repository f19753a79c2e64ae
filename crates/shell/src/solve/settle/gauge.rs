//! Measures of parts as they are, by the solver's own placing and roofs.

use crate::solve::findings::Findings;
use crate::solve::part::{self, PartSolution};
use crate::solve::place::{self, Stand};
use crate::{House, Measure, Part, Side, Top};
use gable_plane::{Rigid, bounds};

/// Wall heights nearer than this are the same, mm: what is left of a millimetre by sums.
const SAME: f64 = 1e-9;

/// Why a measure cannot be told.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum NoMeasure {
    /// The part has nothing of the kind.
    None,
    /// Its walls under slopes have different heights.
    Differs,
}

/// A measure in the part's own coordinates, mm: heights count from its foot.
pub(super) fn own(house: &House, part: &Part, measure: &Measure) -> Result<f64, NoMeasure> {
    let own = match measure {
        Measure::Width => extent(part).map(|e| e[0]),
        Measure::Depth => extent(part).map(|e| e[1]),
        Measure::Eave(Some(side)) => part.sides.iter().find(|s| &s.id == side).and_then(eave),
        Measure::Eave(None) => {
            let mut heights = part.sides.iter().filter_map(eave);
            let first = heights.next();
            if first.is_some_and(|first| heights.any(|h| (h - first).abs() > SAME)) {
                return Err(NoMeasure::Differs);
            }
            first
        }
        Measure::Ridge => ridge(house, part),
        Measure::Lid => part.lid.map(|lid| lid.height.mm()),
    };
    own.filter(|own| own.is_finite()).ok_or(NoMeasure::None)
}

/// Width and depth of a plan, mm.
fn extent(part: &Part) -> Option<[f64; 2]> {
    let (low, high) = bounds(&part.outline.corners())?;
    Some([high.x - low.x, high.y - low.y])
}

/// Height of the wall under a slope.
pub(super) fn eave(side: &Side) -> Option<f64> {
    match side.top {
        Top::Eave { height, .. } | Top::Knee { height, .. } => Some(height.mm()),
        Top::HalfHip { .. } | Top::Gable { .. } => None,
    }
}

/// Height of the ridge; none under a lid, or where the roof cannot be worked out.
pub(super) fn ridge(house: &House, part: &Part) -> Option<f64> {
    if part.lid.is_some() {
        return None;
    }
    let stand = Stand { house_from_part: Rigid::identity(), foot: 0.0, on_board: true };
    let outlined = part::outlined(house, part, stand, &mut Findings::new(house, 0));
    outlined.roof.is_some().then_some(outlined.ridge_height)
}

/// Height of a part's foot above the board, mm; none when it cannot be placed.
pub(in crate::solve) fn foot(house: &House, part: usize) -> Option<f64> {
    placed(house, part).map(|p| p.stand.house_from_part.translation.z)
}

/// A part with its plan and roof, where it stands; none when it cannot be placed.
fn placed(house: &House, part: usize) -> Option<PartSolution> {
    // The part, its host, the host's host …; longer than the house it goes round in a circle.
    let mut chain = vec![part];
    while let Some(host) = house.parts[chain[chain.len() - 1]].place.host() {
        chain.push(house.parts.iter().position(|p| &p.id == host)?);
        if chain.len() > house.parts.len() {
            return None;
        }
    }
    let mut host: Option<(&Part, PartSolution)> = None;
    for k in chain.into_iter().rev() {
        let part = &house.parts[k];
        let stand = place::place(part, host.as_ref().map(|(part, solution)| (*part, solution))).ok()?;
        host = Some((part, part::outlined(house, part, stand, &mut Findings::new(house, k))));
    }
    host.map(|(_, solution)| solution)
}
