//! Random doors and windows that fit their walls.

use crate::Random;
use crate::build::mm;
use crate::plan::plan_corners;
use gable_shell::{Mode, Opening, OpeningId, Part, Placing, Shape};

/// Gives some of the walls a window. `whole_to` is a height below which every wall is whole, `wall` its thickness.
pub(crate) fn add_openings(part: &mut Part, random: &mut Random, wall: f64, whole_to: f64) {
    let corners = plan_corners(part);
    for k in 0..part.sides.len() {
        let length = (corners[(k + 1) % corners.len()] - corners[k]).norm();
        // Far enough from the corners for any cut-back of the wall, and above any floor slab.
        let room = length - 8.0 * wall - 6.0;
        if !part.sides[k].wall || room < 12.0 || !random.chance(0.4) {
            continue;
        }
        let width = random.between(10.0, room);
        let door = random.chance(0.2);
        let sill = if door { 0.0 } else { wall + random.between(6.0, 10.0) };
        let tallest = whole_to * 0.8 - sill;
        let shape = if tallest > width / 2.0 + 3.0 + wall {
            let (segmental, pointed) = (Shape::Segmental { rise: mm(width / 4.0) }, Shape::Pointed { radius: 0.6 });
            random.pick([Shape::Rectangle, Shape::RoundHeaded, segmental, pointed])
        } else {
            Shape::Rectangle
        };
        // The foot of a wall may stand on a slab, and a door may be cut off there.
        let least = wall + shape.head(mm(width)).map_or(8.0, |head| head.mm() + 3.0);
        if tallest < least {
            continue;
        }
        let spare = (length - width) / 2.0 - 4.0 * wall - 3.0;
        let placing = match random.whole(0, 2) {
            0 => Placing::Centred { offset: mm(random.between(-spare, spare)) },
            1 => Placing::FromLeft { distance: mm(random.between(4.0 * wall + 3.0, length / 2.0 - width / 2.0)) },
            _ => Placing::FromRight { distance: mm(random.between(4.0 * wall + 3.0, length / 2.0 - width / 2.0)) },
        };
        part.openings.push(Opening {
            id: OpeningId(format!("opening-{}", k + 1)),
            name: format!("{} {}", if door { "Door" } else { "Window" }, k + 1),
            side: part.sides[k].id.clone(),
            shape,
            width: mm(width),
            height: mm(random.between(least, tallest)),
            sill: mm(sill),
            placing,
            mode: random.pick([Mode::Cut, Mode::Glazed, Mode::Pressed]),
            ..Opening::default()
        });
    }
}
