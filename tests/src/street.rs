//! A street of houses, as many parts as one likes.

use gable_measure::Length;
use gable_shell::{Dressing, House, PartId, Place, demo};

/// Parts of each house of the street: a main body and four parts that meet it and nothing else.
const KEPT: [&str; 5] = ["main", "cross-wing", "dormer-1", "chimney", "lean-to"];
/// Houses side by side, then the next row begins.
const ROW: usize = 10;
/// From house to house, mm.
const APART: f64 = 600.0;

/// Houses of five parts, until there are so many parts; each part meets at most four others. None without the demo.
pub fn street(parts: usize) -> Option<House> {
    let model = demo::house("pilot-house")?;
    let mut street = House {
        parts: Vec::new(),
        decided: Vec::new(),
        relations: Vec::new(),
        baked: Vec::new(),
        dressing: Dressing::default(),
        ..model.clone()
    };
    for number in 0..parts.div_ceil(KEPT.len()) {
        for part in model.parts.iter().filter(|p| KEPT.contains(&p.id.0.as_str())) {
            let named = |id: &PartId| PartId(format!("{}-{number}", id.0));
            let mut part = part.clone();
            part.id = named(&part.id);
            match &mut part.place {
                Place::Ground(spot) => {
                    spot.x += Length::mm_of(APART * (number % ROW) as f64);
                    spot.y += Length::mm_of(APART * (number / ROW) as f64);
                }
                Place::Against { host, .. }
                | Place::OnSlope { host, .. }
                | Place::Astride { host, .. }
                | Place::OnTop { host, .. } => *host = named(host),
            }
            street.parts.push(part);
        }
    }
    Some(street)
}
