//! The ruler card: every piece with its sizes, to be cut with a ruler alone.

use super::Draft;
use super::cover::About;
use super::flow::Flow;
use super::letters;
use super::sheet::Sheet;
use super::template::Template;
use super::words::{HEADING, LEADING, PLAIN, SMALLEST, wrapped};
use gable_drawing::{Anchor, Drawing, Layer, LineRole, Stroke, Text};
use gable_measure::{Length, Unit};
use gable_plane::{Contour, P2, Segment, V2};
use gable_shell::Mode;

/// Largest drawing of a piece, mm.
const DRAWN: V2 = V2::new(62.0, 46.0);
/// Room round it for the letters of its corners, mm.
const ROUND: f64 = 4.0;
/// Corners nearer to a straight line than this are none to the ruler, mm.
const STRAIGHT: f64 = 0.05;
/// More corners than this are no work for a ruler.
const MOST: usize = 24;

/// The pages of the card.
pub(super) fn pages(about: &About<'_>, sheet: &Sheet) -> Vec<Draft> {
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Ruler card");
    flow.paragraph(
        PLAIN,
        false,
        "Every piece as it is baked, seen from its good face. Draw a box of the size that is said; corners are told from its \
         lower left corner: so far to the right, so far up. Then join them in turn.",
    );
    for template in about.templates {
        piece(&mut flow, about.solved.unit, template);
    }
    flow.drafts(sheet, "ruler card", "Ruler card")
}

fn piece(flow: &mut Flow, unit: Unit, template: &Template) {
    let corners = corners(&template.outline);
    let art = drawn(template, &corners);
    let column = flow.width() - DRAWN.x - 2.0 * ROUND - 4.0;
    let mut lines: Vec<(String, bool)> = Vec::new();
    let mut add =
        |text: String, bold: bool| lines.extend(wrapped(&text, PLAIN, bold, column).into_iter().map(|l| (l, bold)));
    add(format!("{}  {}: {}", template.number, template.name, template.count), true);
    add(words(unit, template, &corners), false);
    template.openings.iter().enumerate().for_each(|(k, (contour, mode))| add(opening(unit, k, contour, *mode), false));
    let step = PLAIN * LEADING;
    let tall = (lines.len() as f64 * step).max(art.height);
    let foot = flow.take(tall + 3.0);
    let x = flow.room.low.x;
    let rule = [P2::new(x, foot + tall + 2.0), P2::new(x + flow.width(), foot + tall + 2.0)];
    flow.put(Stroke::polyline(Layer::Notes, LineRole::Thin, &rule));
    let low = P2::new(x, foot + tall - art.height);
    for mut item in art.items {
        super::lying::shift(&mut item, low.coords);
        flow.put(item);
    }
    for (k, (text, bold)) in lines.into_iter().enumerate() {
        let y = foot + tall - step * (k + 1) as f64 + PLAIN * (LEADING - 1.0) / 2.0;
        let at = P2::new(x + DRAWN.x + 2.0 * ROUND + 4.0, y);
        flow.put(Text { bold, ..Text::note(at, PLAIN, Anchor::Start, text) });
    }
}

/// The corners where the outline turns.
fn corners(outline: &[P2]) -> Vec<P2> {
    let count = outline.len();
    let turns = |k: &usize| {
        let [a, b, c] = [count - 1, 0, 1].map(|d| outline[(k + d) % count]);
        (c - a).try_normalize(1e-9).is_none_or(|way| way.perp(&(b - a)).abs() > STRAIGHT)
    };
    let mut found: Vec<P2> = (0..count).filter(turns).map(|k| outline[k]).collect();
    // Begun at the lower left.
    let first = (0..found.len()).min_by(|&a, &b| (found[a].x + found[a].y).total_cmp(&(found[b].x + found[b].y)));
    found.rotate_left(first.unwrap_or(0));
    found
}

/// 'Box 180 × 171.5 mm. a 0, 0; b 180, 0; …. Sides: ab 180, bc 96, …'
fn words(unit: Unit, template: &Template, corners: &[P2]) -> String {
    let bare = |mm: f64| unit.print_bare(Length::mm_of(mm));
    let size = format!("{} × {}", bare(template.size.x), unit.print(Length::mm_of(template.size.y)));
    if corners.len() > MOST {
        return format!("Box {size}. Its outline is too curved for a ruler: cut it with its pattern.");
    }
    let is_box = corners.len() == 4
        && corners.iter().all(|p| {
            [(p.x, template.size.x), (p.y, template.size.y)]
                .iter()
                .all(|(c, s)| c.abs() < STRAIGHT || (c - s).abs() < STRAIGHT)
        });
    let bevel = if template.is_bevelled() { " Bevelled: the sizes are those of the wider face." } else { "" };
    if is_box {
        return format!("Rectangle {size}.{bevel}");
    }
    let name = |k: usize| letters(k % corners.len(), b'a');
    let at = |(k, p): (usize, &P2)| format!("{} {}, {}", name(k), bare(p.x), bare(p.y));
    let list: Vec<String> = corners.iter().enumerate().map(at).collect();
    let side = |k: usize| {
        let length = (corners[(k + 1) % corners.len()] - corners[k]).norm();
        format!("{}{} {}", name(k), name(k + 1), bare(length))
    };
    let sides: Vec<String> = (0..corners.len()).map(side).collect();
    format!("Box {size}. {}. Sides: {}.{bevel}", list.join("; "), sides.join(", "))
}

/// 'Opening 1, cut out: 30 × 45 mm, 20 from the left, 30 up; rounded with radius 15'.
fn opening(unit: Unit, k: usize, contour: &Contour, mode: Mode) -> String {
    let bare = |mm: f64| unit.print_bare(Length::mm_of(mm));
    let (low, high) = contour.bounds();
    let what = if mode.goes_through() { "cut out" } else { "pressed" };
    let mut radii: Vec<String> = Vec::new();
    for (from, segment) in contour.pairs() {
        if let Segment::Arc { centre, .. } = segment {
            let radius = bare((from - centre).norm());
            if !radii.contains(&radius) {
                radii.push(radius);
            }
        }
    }
    let round = match radii.len() {
        0 => String::new(),
        1..=3 => format!("; rounded with radius {}", radii.join(" and ")),
        _ => "; its curve is on the pattern".to_owned(),
    };
    format!(
        "Opening {}, {what}: {} × {}, {} from the left, {} up{round}.",
        k + 1,
        bare(high.x - low.x),
        unit.print(Length::mm_of(high.y - low.y)),
        bare(low.x),
        bare(low.y)
    )
}

/// The piece, small, with letters at its corners.
fn drawn(template: &Template, corners: &[P2]) -> Drawing {
    let scale = (DRAWN.x / template.size.x).min(DRAWN.y / template.size.y).min(1.0);
    let at = |p: P2| P2::new(ROUND, ROUND) + p.coords * scale;
    let mut art = Drawing::new(DRAWN.x + 2.0 * ROUND, template.size.y * scale + 2.0 * ROUND);
    let outline: Vec<P2> = template.outline.iter().map(|p| at(*p)).collect();
    art.push(Stroke::contour(Layer::Notes, LineRole::Edge, &Contour::polygon(&outline)));
    for (k, (contour, mode)) in template.openings.iter().enumerate() {
        let role = if mode.goes_through() { LineRole::Edge } else { LineRole::Pressed };
        art.push(Stroke::contour(Layer::Notes, role, &contour.mapped(false, at)));
        let (low, high) = contour.bounds();
        let spot = at(low + (high - low) / 2.0) - V2::new(0.0, SMALLEST / 2.0);
        art.push(Text::note(spot, SMALLEST, Anchor::Middle, (k + 1).to_string()));
    }
    if corners.len() <= MOST {
        let middle = P2::from(template.size / 2.0);
        for (k, corner) in corners.iter().enumerate() {
            let away = (corner - middle).try_normalize(1e-9).unwrap_or_default();
            let spot = at(*corner) + away * 2.6 - V2::new(0.0, SMALLEST / 2.0);
            art.push(Text::note(spot, SMALLEST, Anchor::Middle, letters(k, b'a')));
        }
    }
    art
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_on_a_straight_line_are_none() {
        let ring = [(0.0, 0.0), (50.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)].map(|(x, y)| P2::new(x, y));
        assert_eq!(corners(&ring).len(), 4);
        let template = Template::plain(1, ring.to_vec(), V2::new(100.0, 60.0));
        assert_eq!(words(Unit::Millimetre, &template, &corners(&ring)), "Rectangle 100 × 60 mm.");
    }

    /// A gable of base 100 and eaves at 40, ridge at 40 + 50 tan 45° = 90: the rake is 50 √2 = 70.7 mm.
    #[test]
    fn a_gable_is_told_by_corners_and_sides() {
        let ring = [(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (50.0, 90.0), (0.0, 40.0)].map(|(x, y)| P2::new(x, y));
        let template = Template::plain(1, ring.to_vec(), V2::new(100.0, 90.0));
        let text = words(Unit::Millimetre, &template, &corners(&ring));
        assert!(text.starts_with("Box 100 × 90 mm. a 0, 0; b 100, 0; c 100, 40; d 50, 90; e 0, 40."), "{text}");
        assert!(text.ends_with("Sides: ab 100, bc 40, cd 70.7, de 70.7, ea 40."), "{text}");
    }

    #[test]
    fn round_windows_are_told_by_box_and_radius() {
        let window = Contour::round_headed(P2::new(20.0, 30.0), P2::new(50.0, 90.0)).unwrap();
        let text = opening(Unit::Millimetre, 0, &window, Mode::Cut);
        assert_eq!(text, "Opening 1, cut out: 30 × 60 mm, 20 from the left, 30 up; rounded with radius 15.");
    }
}
