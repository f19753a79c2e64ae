//! What came out of the oven of a part.

use super::sizes::heading;
use crate::fields::Form;
use egui::{RichText, Ui};
use gable_measure::Length;
use gable_shell::{Baked, Batch, House, Part, PartId, Top};
use gable_words::tr;

/// Which pieces of a part are baked already, and what they measure.
pub(super) fn part(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) {
    let Some(part) = house.parts.get(k) else { return };
    let id = part.id.clone();
    let batches: Vec<Batch> = Batch::ALL.into_iter().filter(|b| has(part, *b)).collect();
    if batches.is_empty() {
        return;
    }
    heading(ui, tr!("Out of the oven"));
    for batch in batches {
        tick(ui, form, house, (k, &id), batch);
        measures(ui, form, house, (k, &id), batch);
    }
    let words = tr!("What is baked stays as it is, and everything else is worked out to fit it. So bake roofs last.");
    ui.label(RichText::new(words).small());
}

/// Whether a part has pieces of a batch.
fn has(part: &Part, batch: Batch) -> bool {
    match batch {
        Batch::Walls => part.sides.iter().any(|s| s.wall || s.posts.is_some()),
        Batch::Lid => part.lid.is_some(),
        Batch::Roof => part.sides.iter().any(|s| !matches!(s.top, Top::Gable { .. })),
    }
}

fn tick(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, (k, id): (usize, &PartId), batch: Batch) {
    let (label, name) = match batch {
        Batch::Walls => (tr!("Its walls are baked"), tr!("baking of the walls")),
        Batch::Lid => (tr!("Its flat plate is baked"), tr!("baking of the lid")),
        Batch::Roof => (tr!("Its roof is baked"), tr!("baking of the roof")),
    };
    let was = house.baked_batch(id, batch).is_some();
    let mut is = was;
    form.tick(ui, (&format!("parts[{k}].baked.{}", batch.words()), label, name), &mut is);
    match (was, is) {
        (false, true) => house.came_out(id, batch),
        (true, false) => house.not_baked(id, batch),
        _ => {}
    }
}

/// What can be measured of a batch that is baked; as planned until something else is typed.
fn measures(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, (k, id): (usize, &PartId), batch: Batch) {
    let Some(planned) = house.as_planned(id, batch) else { return };
    let Some(baked) = house.baked.iter_mut().find(|b| &b.part == id && b.batch == batch) else { return };
    let thickness = match batch {
        Batch::Walls => tr!("Walls came out thick"),
        Batch::Lid => tr!("Plate came out thick"),
        Batch::Roof => tr!("Roof came out thick"),
    };
    type Field = (&'static str, &'static str, fn(&mut Baked) -> &mut Option<Length>);
    let fields: [Field; 4] = [
        ("thickness", thickness, |b| &mut b.thickness),
        ("width", tr!("Width as they stand"), |b| &mut b.width),
        ("depth", tr!("Depth as they stand"), |b| &mut b.depth),
        ("height", tr!("Height as they stand"), |b| &mut b.height),
    ];
    let mut planned = planned;
    for (field, label, of) in fields {
        let Some(shown) = of(baked).or(*of(&mut planned)) else { continue };
        let place = format!("parts[{k}].baked.{}.{field}", batch.words());
        if let Some(new) = form.length_of(ui, (&place, label, tr!("what came out of the oven")), Some(shown)) {
            *of(baked) = Some(new);
        }
    }
}
