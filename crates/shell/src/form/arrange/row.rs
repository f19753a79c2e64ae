use super::{NotArranged, extent, judge};
use crate::{House, Part, PartId, Place, Placing};
use gable_measure::Length;

impl House {
    /// Makes a row of `count` equal parts of one, with equal spaces, along the side or the ridge that it stands by: over
    /// all of its length, or else closer together. What stands by the part stands by each of them.
    ///
    /// # Errors
    /// When there is no such part, it stands by nothing that has a length, or there is no room for so many.
    pub fn repeat_part(&mut self, part: &PartId, count: usize) -> Result<Vec<PartId>, NotArranged> {
        let original = self.part(part).ok_or(NotArranged::NoSuchPart)?.clone();
        let name = original.name.clone();
        let mut alone = self.clone();
        let gone = self.with_guests(part);
        alone.parts.retain(|p| !gone.contains(&p.id));
        alone.forget_lost();
        let (site, ground) = judge(&alone, &original)?;
        let (length, now) = match &original.place {
            Place::Against { side, along, .. } | Place::OnSlope { side, along, .. } => {
                let side = site.host.sides.iter().position(|s| &s.id == side).ok_or(NotArranged::HostFails)?;
                (site.surface.length(side), offset(along, site.surface.length(side), extent(&original)))
            }
            Place::Astride { along, .. } => (site.surface.top().map_or(0.0, |top| top.length), along.mm()),
            Place::Ground(_) | Place::OnTop { .. } => return Err(NotArranged::NoHost { part: name }),
        };
        let least = extent(&original) + site.wall * 2.0;
        let steps = [length / count as f64, least * 1.25, least];
        let rows = steps.into_iter().filter(|step| *step >= least - 1e-6).flat_map(|step| [(0.0, step), (now, step)]);
        for (middle, step) in rows {
            let places = row(&original, site.round(middle), site.round(step).max(Length::mm_of(least)), count);
            let free = places.iter().all(|place| {
                ground.is_free(&site, &Part { place: place.clone(), ..original.clone() })
                    && fits(place, length, &original)
            });
            let mut tried = self.clone();
            let Some(made) = free.then(|| tried.set_row(&original, &places)) else { continue };
            if ground.cautions(&tried).is_some() {
                *self = tried;
                return Ok(made);
            }
        }
        Err(NotArranged::NoRoom { part: name })
    }

    /// Moves a part to the first of some places and adds a copy at each of the others.
    fn set_row(&mut self, part: &Part, places: &[Place]) -> Vec<PartId> {
        let mut made = vec![part.id.clone()];
        for place in &places[1..] {
            made.push(self.double(part, place.clone()));
        }
        if let Some((old, new)) = self.place_mut(&part.id).zip(places.first()) {
            *old = new.clone();
        }
        made
    }
}

fn row(part: &Part, middle: Length, step: Length, count: usize) -> Vec<Place> {
    let at = |k: usize| {
        let to = middle + step * (k as f64 - (count as f64 - 1.0) / 2.0);
        let mut place = part.place.clone();
        match &mut place {
            Place::Against { along, .. } | Place::OnSlope { along, .. } => *along = Placing::Centred { offset: to },
            Place::Astride { along, .. } => *along = to,
            Place::Ground(_) | Place::OnTop { .. } => {}
        }
        place
    };
    (0..count).map(at).collect()
}

/// Whether a part stays within the length that it stands along.
fn fits(place: &Place, length: f64, part: &Part) -> bool {
    let at = match place {
        Place::Against { along, .. } | Place::OnSlope { along, .. } => offset(along, length, extent(part)),
        Place::Astride { along, .. } => along.mm(),
        Place::Ground(_) | Place::OnTop { .. } => 0.0,
    };
    at.abs() + extent(part) / 2.0 <= length / 2.0 + 1e-6
}

/// From the middle of a side to the middle of what is placed along it, mm.
pub(super) fn offset(along: &Placing, length: f64, extent: f64) -> f64 {
    match along {
        Placing::Centred { offset } => offset.mm(),
        Placing::FromLeft { distance } => distance.mm() + (extent - length) / 2.0,
        Placing::FromRight { distance } => (length - extent) / 2.0 - distance.mm(),
    }
}
