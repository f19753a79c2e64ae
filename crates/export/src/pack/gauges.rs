//! Card gauges: angles and heights to cut out of card and hold against the walls.

use super::cover::About;
use super::template::{EdgeMark, Template};
use gable_measure::{Angle, Length};
use gable_plane::{P2, V2, V3};
use gable_raise::Guide;
use gable_shell::Role;

/// Length of the arms of a gauge, mm.
const ARM: f64 = 70.0;
/// Width of the arms and of a strip for a height, mm.
const WIDE: f64 = 22.0;
/// Angles nearer than this are one gauge.
const ALIKE: Angle = Angle::degrees(0.4);
/// Heights nearer than this are one gauge, mm.
const NEAR: f64 = 1.0;
/// Strips shorter than this are a few layers of card, mm.
const SHORTEST: f64 = 8.0;
/// Strips longer than this are better made of a ruler, mm.
const LONGEST: f64 = 240.0;

/// The gauges of a house, numbered from `first`.
pub(super) fn templates(about: &About<'_>, guide: Option<&Guide>, first: usize) -> Vec<Template> {
    let corners = corners(about).into_iter().map(|(angle, who)| corner(angle, &who));
    let pitches = pitches(about).into_iter().map(|(angle, who)| pitch(angle, &who));
    let heights = guide.map(|g| heights(about, g)).unwrap_or_default();
    let heights = heights.into_iter().map(|(height, who)| strip(about, height, &who));
    let all = corners.chain(pitches).chain(heights);
    all.enumerate().map(|(k, template)| Template { number: first + k, ..template }).collect()
}

/// Puts what is alike together, and who has it.
fn gathered<T: Copy>(found: Vec<(T, String)>, alike: impl Fn(T, T) -> bool) -> Vec<(T, Vec<String>)> {
    let mut kept: Vec<(T, Vec<String>)> = Vec::new();
    for (value, who) in found {
        match kept.iter_mut().find(|(other, _)| alike(*other, value)) {
            Some((_, names)) if names.contains(&who) => {}
            Some((_, names)) => names.push(who),
            None => kept.push((value, vec![who])),
        }
    }
    kept
}

/// The angles at the corners of the plans, measured inside.
fn corners(about: &About<'_>) -> Vec<(Angle, Vec<String>)> {
    let of_part = |part: &gable_shell::SolvedPart| {
        let count = part.plan.len();
        let name = part.name.clone();
        let walls = about.solved.pieces.iter().any(|p| p.part == part.id && matches!(p.role, Role::Wall(_)));
        let angle = move |k: usize| {
            let [a, b, c] = [k, k + 1, k + 2].map(|i| part.plan[i % count]);
            Some((Angle::radians((a - b).angle(&(c - b))), name.clone())).filter(|_| walls)
        };
        (0..count).filter_map(angle).collect::<Vec<_>>()
    };
    let found = about.solved.parts.iter().flat_map(of_part).collect();
    gathered(found, |a: Angle, b: Angle| (a.rad() - b.rad()).abs() < ALIKE.rad())
}

/// How steep the slopes are.
fn pitches(about: &About<'_>) -> Vec<(Angle, Vec<String>)> {
    let of_piece = |piece: &gable_shell::Piece| {
        let out = piece.house_from_piece * V3::z();
        let pitch = Angle::of_slope(V2::new(out.x, out.y).norm(), out.z.abs());
        let slopes = matches!(piece.role, Role::Slope(..)) && pitch > ALIKE;
        slopes.then(|| (pitch, piece.name.split(": ").next().unwrap_or(&piece.name).to_owned()))
    };
    let found = about.solved.pieces.iter().filter_map(of_piece).collect();
    gathered(found, |a: Angle, b: Angle| (a.rad() - b.rad()).abs() < ALIKE.rad())
}

/// The heights of props.
fn heights(about: &About<'_>, guide: &Guide) -> Vec<(f64, Vec<String>)> {
    let props = guide.stages.iter().flat_map(|s| &s.props);
    let of_prop = |prop: &gable_raise::Prop| {
        let height = prop.height.mm();
        (SHORTEST..=LONGEST).contains(&height).then(|| (height, about.solved.pieces[prop.piece].name.clone()))
    };
    gathered(props.filter_map(of_prop).collect(), |a: f64, b: f64| (a - b).abs() < NEAR)
}

fn gauge(outline: Vec<P2>, name: String, count: &str) -> Template {
    let (low, high) = gable_plane::bounds(&outline).unwrap_or((P2::origin(), P2::origin()));
    let outline: Vec<P2> = outline.iter().map(|p| p - low.coords).collect();
    let mut template = Template::plain(0, outline, high - low);
    template.name = name;
    count.clone_into(&mut template.count);
    "of card, not of dough".clone_into(&mut template.dough);
    "card".clone_into(&mut template.dough_name);
    template.edges = vec![EdgeMark::default(); template.outline.len()];
    template
}

/// An angle whose arms lie along the outer faces of two walls.
fn corner(angle: Angle, who: &[String]) -> Template {
    let degrees = rounded(angle);
    let way = V2::new(angle.rad().cos(), angle.rad().sin());
    // The arms on the outer sides; the inner corner is the one to hold against.
    let half = angle.rad() / 2.0;
    let reach = WIDE / half.sin();
    let outer = P2::from(V2::new(half.cos(), half.sin()) * reach);
    let (a, b) = (P2::from(V2::x() * (ARM + WIDE)), P2::from(way * (ARM + WIDE)));
    let across = V2::new(0.0, WIDE);
    let inward = V2::new(way.y, -way.x) * WIDE;
    let outline = if angle.rad() < std::f64::consts::PI - 0.02 {
        vec![P2::origin(), a, a + across, outer, b + inward, b]
    } else {
        vec![P2::origin(), a, a + across, P2::new(-ARM, WIDE), P2::new(-ARM, 0.0)]
    };
    gauge(outline, format!("Corner {degrees}°: {}", who.join(", ")), "hold it into the corner, on the base board")
}

/// A right-angled triangle with the pitch at its foot.
fn pitch(angle: Angle, who: &[String]) -> Template {
    let degrees = rounded(angle);
    let (mut base, mut rise) = (ARM, ARM * angle.rad().tan());
    if rise > LONGEST / 2.0 {
        (base, rise) = (LONGEST / 2.0 / angle.rad().tan(), LONGEST / 2.0);
    }
    let outline = vec![P2::origin(), P2::new(base, 0.0), P2::new(base, rise)];
    gauge(outline, format!("Pitch {degrees}°: {}", who.join(", ")), "foot level, long side along the slope")
}

/// A strip as long as a prop is high.
fn strip(about: &About<'_>, height: f64, who: &[String]) -> Template {
    let outline = vec![P2::origin(), P2::new(WIDE, 0.0), P2::new(WIDE, height), P2::new(0.0, height)];
    let height = about.solved.unit.print(Length::mm_of(height));
    gauge(outline, format!("Prop {height}: {}", who.join(", ")), "as high as the prop")
}

fn rounded(angle: Angle) -> f64 {
    (angle.deg() * 10.0).round() / 10.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_plane::ring_area;

    /// Closed forms: a triangle of base 70 and pitch 45°; a right angle of two arms.
    #[test]
    fn gauges_have_the_angles_they_say() {
        let triangle = pitch(Angle::degrees(45.0), &["Hut".into()]);
        assert!((ring_area(&triangle.outline) - 70.0 * 70.0 / 2.0).abs() < 1e-9);
        for degrees in [60.0, 90.0, 135.0] {
            let angle = corner(Angle::degrees(degrees), &["Hut".into()]);
            let ring = &angle.outline;
            let (a, b, c) = (ring[ring.len() - 1], ring[0], ring[1]);
            assert!(((a - b).angle(&(c - b)).to_degrees() - degrees).abs() < 1e-9);
            // Both arms are equally wide.
            let depth = |p: P2, q: P2, r: P2| (q - p).normalize().perp(&(r - p)).abs();
            assert!((depth(b, c, ring[3]) - WIDE).abs() < 1e-9 && (depth(b, a, ring[3]) - WIDE).abs() < 1e-9);
        }
    }
}
