//! Random doors and windows that fit their walls.

use crate::Random;
use crate::build::mm;
use crate::plan::plan_corners;
use gable_shell::{Mode, Opening, OpeningId, Part, Placing, Shape};

/// A heart, a star, a drop and a leaning leaf, as they come out of drawing programs.
const DRAWN: [&str; 4] = [
    "M0 26 C-18 12 -14 0 -7 0 C-3 0 0 3 0 6 C0 3 3 0 7 0 C14 0 18 12 0 26 Z",
    "M50 0 L61 35 L98 35 L68 57 L79 91 L50 70 L21 91 L32 57 L2 35 L39 35 Z",
    "M0 0 C0 -10 -8 -14 -8 -20 A8 8 0 0 1 8 -20 C8 -14 0 -10 0 0 Z",
    "m0,0q-2,-16,24,-20q2,18,-24,20z",
];

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
            // What is drawn has no foot to be a door with.
            let drawn = Shape::Path { data: random.pick(DRAWN).to_owned(), mirrored: random.chance(0.5) };
            let drawn = if door { Shape::Rectangle } else { drawn };
            random.pick([Shape::Rectangle, Shape::RoundHeaded, segmental, pointed, drawn])
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
