use super::sizes::Sizes;
use crate::file::limits;
use crate::file::read::{meant_or_known, shown};
use crate::{Bars, Glazier, Opening, Part, Placing, Shape};
use gable_measure::Length;
use gable_plane::{P2, SvgPath, ring_area};
use gable_words::tr;

/// `path` is that of the part, `own` that of the opening.
pub(super) fn check(part: &Part, opening: &Opening, path: &str, own: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{own}.{key}");
    sizes.id(&at("id"), &opening.id.0);
    sizes.line(&at("name"), &opening.name);
    side(part, opening, path, &at("side"), sizes);
    if !opening.shape.is_whole_face() {
        placed(opening, own, sizes);
    }
    shape(opening, own, sizes);
    bars(opening.glazing.bars, own, sizes);
    if let Some(door) = opening.door {
        sizes.check(&at("door.clearance"), door.clearance, Length::ZERO, limits::WIDEST_CLEARANCE);
        let degrees = door.ajar.deg();
        if !(0.0..=limits::WIDEST_AJAR.deg()).contains(&degrees) {
            let what = tr!("a door stands open by 0 to {} degrees, not {degrees}", limits::WIDEST_AJAR.deg());
            sizes.note(&at("door.ajar"), what, "");
        }
    }
}

fn placed(opening: &Opening, own: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{own}.{key}");
    let largest = limits::LARGEST_PART;
    sizes.check(&at("width"), opening.width, limits::SMALLEST_OPENING, largest);
    sizes.check(&at("height"), opening.height, limits::SMALLEST_OPENING / 2.0, largest);
    sizes.check(&at("sill"), opening.sill, Length::ZERO, largest);
    let (distance, least) = match opening.placing {
        Placing::Centred { offset } => (offset, -largest),
        Placing::FromLeft { distance } | Placing::FromRight { distance } => (distance, Length::ZERO),
    };
    sizes.check(&at("distance"), distance, least, largest);
    heights(opening, own, sizes);
    let Some(repeat) = opening.repeat else { return };
    number(&at("repeat.across"), repeat.across, (1, limits::MOST_COPIES), sizes);
    number(&at("repeat.up"), repeat.up, (1, limits::MOST_COPIES), sizes);
    sizes.check(&at("repeat.gap"), repeat.gap.unwrap_or_default(), Length::ZERO, largest);
    sizes.check(&at("repeat.gap_up"), repeat.gap_up, Length::ZERO, largest);
}

/// Whether the height is what the shape lets it be.
fn heights(opening: &Opening, own: &str, sizes: &mut Sizes) {
    let (width, height) = (opening.width, opening.height);
    let rests_on = ["width", "shape", "rise", "radius", "sides"].map(|key| format!("{own}.{key}"));
    let at = format!("{own}.height");
    if let Some(follows) = opening.shape.height_of(width).filter(|f| *f != height) {
        let what =
            tr!("this shape {} wide is {} high, not {}", sizes.shown(width), sizes.shown(follows), sizes.shown(height));
        sizes.note_resting(&at, what, tr!("leave the height out, or choose another shape"), &rests_on);
    }
    if let Some(head) = opening.shape.head(width).filter(|head| height.mm() < head.mm() - 1e-9) {
        let name = match opening.shape {
            Shape::Segmental { .. } => tr!("an arc"),
            Shape::Pointed { .. } => tr!("a pointed arch"),
            _ => tr!("a round head"),
        };
        let what = tr!(
            "{name} of {} needs at least {} of height, not {}",
            sizes.shown(width),
            sizes.shown(head),
            sizes.shown(height)
        );
        sizes.note_resting(&at, what, tr!("make it taller or narrower"), &rests_on);
    }
}

fn shape(opening: &Opening, own: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{own}.{key}");
    match &opening.shape {
        Shape::Segmental { rise } => {
            sizes.check(&at("rise"), *rise, limits::LEAST_RISE_OF_ARC, limits::LARGEST_PART);
            if *rise > opening.width / 2.0 {
                let what = tr!("an arc of {} rises at most half as high", sizes.shown(opening.width));
                sizes.note_resting(&at("rise"), what, tr!("lower it, or choose a round head"), &[at("width")]);
            }
        }
        Shape::Pointed { radius } => {
            let (least, most) = limits::POINTED_RADIUS;
            if !(least..=most).contains(radius) {
                let what = tr!("the radius is {least} to {most} times the width, not {radius}");
                sizes.note(&at("radius"), what, tr!("1 is an equilateral arch"));
            }
        }
        Shape::Regular { corners } => {
            number(&at("sides"), *corners, (limits::FEWEST_SIDES, limits::MOST_SIDES), sizes);
        }
        Shape::Free { corners } => free(corners, &at("corners"), sizes),
        Shape::Path { data, .. } => drawn(data, &at("path"), sizes),
        Shape::WholeFace { across, up, bar } => {
            number(&at("across"), *across, (1, limits::MOST_COPIES), sizes);
            number(&at("up"), *up, (1, limits::MOST_COPIES), sizes);
            sizes.check(&at("bar"), *bar, limits::SMALLEST_OPENING, limits::LARGEST_PART);
        }
        Shape::Rectangle | Shape::RoundHeaded | Shape::Circle | Shape::Ellipse | Shape::Fanlight => {}
    }
}

/// One closed outline.
fn drawn(data: &str, at: &str, sizes: &mut Sizes) {
    if data.chars().count() > limits::LONGEST_PATH {
        let what = tr!("a path has up to {} characters, not {}", limits::LONGEST_PATH, data.chars().count());
        return sizes.note(at, what, tr!("draw it with fewer points"));
    }
    if let Err(error) = SvgPath::read(data).and_then(|path| path.single()) {
        sizes.note(at, error.to_string(), error.remedy());
    }
}

/// A simple ring that fills its box.
fn free(corners: &[[f64; 2]], at: &str, sizes: &mut Sizes) {
    let most = usize::from(limits::MOST_OPENING_CORNERS);
    if !(3..=most).contains(&corners.len()) {
        let what = tr!("a polygon has 3 to {most} corners, not {}", corners.len());
        return sizes.note(at, what, "");
    }
    let ring: Vec<P2> = corners.iter().map(|c| P2::new(c[0], c[1])).collect();
    let reach = gable_plane::bounds(&ring);
    let fills =
        reach.is_some_and(|(low, high)| [low.x, low.y, high.x - 1.0, high.y - 1.0].iter().all(|off| off.abs() < 1e-9));
    if !fills {
        let what = tr!("the corners must reach from 0 to 1 both ways").to_owned();
        return sizes.note(at, what, tr!("they are shares of the width and of the height"));
    }
    let edge = |k: usize| [ring[k], ring[(k + 1) % ring.len()]];
    let apart = |j: usize, k: usize| k - j > 1 && k - j < ring.len() - 1;
    let meets = |j: usize, k: usize| apart(j, k) && touch(edge(j), edge(k));
    let crossed = (0..ring.len()).any(|k| (0..k).any(|j| meets(j, k)));
    let short = (0..ring.len()).any(|k| (edge(k)[1] - edge(k)[0]).norm() < limits::SHORTEST_SHARE);
    if crossed || short || ring_area(&ring) < limits::SHORTEST_SHARE {
        let what = tr!("its edges cross or touch each other, or it runs clockwise").to_owned();
        sizes.note(at, what, tr!("give the corners one after another, counter-clockwise seen from outside"));
    }
}

/// Whether two edges cross or nearly touch.
fn touch(a: [P2; 2], b: [P2; 2]) -> bool {
    let side = |[p, q]: [P2; 2], r: P2| (q - p).perp(&(r - p));
    let splits = |e: [P2; 2], f: [P2; 2]| side(e, f[0]) * side(e, f[1]) <= 0.0;
    let far = |p: P2, [q, r]: [P2; 2]| {
        let along = r - q;
        let share = ((p - q).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        (p - (q + along * share)).norm()
    };
    let near = [far(a[0], b), far(a[1], b), far(b[0], a), far(b[1], a)].iter().any(|d| *d < limits::SHORTEST_SHARE);
    near || (splits(a, b) && splits(b, a))
}

fn bars(bars: Bars, own: &str, sizes: &mut Sizes) {
    let most = limits::MOST_COPIES;
    let at = |key: &str| format!("{own}.bars.{key}");
    match bars {
        Bars::None => {}
        Bars::Grid { across, up } => {
            number(&at("across"), across, (1, most), sizes);
            number(&at("up"), up, (1, most), sizes);
        }
        Bars::Diamond { across } => number(&at("across"), across, (1, most), sizes),
        Bars::Fan { rays } => number(&at("rays"), rays, (2, most), sizes),
    }
}

fn number(path: &str, number: u8, (least, most): (u8, u8), sizes: &mut Sizes) {
    if !(least..=most).contains(&number) {
        sizes.note(path, tr!("it must be from {least} to {most}, not {number}"), "");
    }
}

/// What the person glazes and cuts with.
pub(super) fn glazier(glazier: &Glazier, path: &str, sizes: &mut Sizes) {
    let at = |key: &str| format!("{path}.{key}");
    let largest = limits::LARGEST_PART;
    sizes.check(&at("leaf_length"), glazier.leaf_length, limits::SMALLEST_LEAF, largest);
    sizes.check(&at("leaf_width"), glazier.leaf_width, limits::SMALLEST_LEAF, largest);
    sizes.check(&at("margin"), glazier.margin, Length::ZERO, limits::WIDEST_RIM);
    sizes.check(&at("blade"), glazier.blade, Length::ZERO, largest);
    sizes.check(&at("bridge"), glazier.bridge.unwrap_or_default(), Length::ZERO, limits::WIDEST_RIM);
    if glazier.leaf_width.min(glazier.leaf_length) <= glazier.margin * 3.0 {
        let what = tr!("a leaf this small is all margin").to_owned();
        sizes.note_resting(&at("margin"), what, tr!("make the margin smaller"), &[at("leaf_width"), at("leaf_length")]);
    }
}

fn side(part: &Part, opening: &Opening, path: &str, own: &str, sizes: &mut Sizes) {
    let names = part.outline.side_names();
    if names.contains(&opening.side.0) {
        return;
    }
    let known: Vec<&str> = names.iter().map(String::as_str).collect();
    let hint = meant_or_known(&opening.side.0, &known, tr!("its sides are"));
    let what = tr!("the outline has no side \"{}\"", shown(&opening.side.0));
    sizes.note_resting(own, what, &hint, &super::plan_of(path));
}
