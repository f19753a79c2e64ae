use super::dimension::label;
use super::paper::Paper;
use crate::theme::Palette;
use egui::{Key, Pos2, Rect, Sense, Stroke, Ui, WidgetInfo, accesskit::Role};
use gable_measure::{Length, Unit};
use gable_plane::P2;
use gable_words::tr;

/// What is measured on the table: two places of the drawing, as far as they are chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Measured {
    from: Option<P2>,
    to: Option<P2>,
}

/// Nearer to a corner than this, a click means the corner, in points.
const NEAR: f32 = 14.0;

impl Measured {
    /// A click: the first place, the second, or the first of another pair.
    fn click(&mut self, at: P2) {
        match (self.from, self.to) {
            (Some(_), None) => self.to = Some(at),
            _ => *self = Self { from: Some(at), to: None },
        }
    }

    /// Goes on to the corner that comes next or before, by keys.
    fn step(place: &mut Option<P2>, corners: &[P2], on: bool) {
        let Some(last) = corners.len().checked_sub(1) else { return };
        let now = place.and_then(|p| corners.iter().position(|c| (c - p).norm() < 1e-6));
        let next = match (now, on) {
            (None, _) => 0,
            (Some(k), true) => {
                if k == last {
                    0
                } else {
                    k + 1
                }
            }
            (Some(k), false) => {
                if k == 0 {
                    last
                } else {
                    k - 1
                }
            }
        };
        *place = corners.get(next).copied();
    }
}

/// How far two places are apart, in words: straight, across and up.
fn words(from: P2, to: P2, unit: Unit) -> String {
    let off = to - from;
    let print = |mm: f64| unit.print(Length::mm_of(mm));
    let straight = print(off.norm());
    // What is told twice is told once.
    if off.x.abs() < 0.05 || off.y.abs() < 0.05 {
        return straight;
    }
    tr!("{straight} ({} across, {} up)", print(off.x.abs()), print(off.y.abs()))
}

/// Takes all clicks on the table while something is measured, and shows what it comes to. Corners are what clicks near
/// them mean, and what arrow keys go through: right and left for the second place, up and down for the first.
pub(super) fn show(ui: &mut Ui, paper: &Paper, (measured, corners): (&mut Measured, &[P2]), unit: Unit) {
    let response = ui.interact(paper.rect, ui.scope_id().with("measure"), Sense::click());
    let meant = |at: Pos2| {
        let near = corners.iter().map(|c| (paper.at(*c).distance(at), *c)).min_by(|a, b| a.0.total_cmp(&b.0));
        near.filter(|(d, _)| *d <= NEAR).map_or_else(|| paper.place(at), |(_, corner)| corner)
    };
    if let Some(at) = response.interact_pointer_pos().filter(|_| response.clicked()) {
        measured.click(meant(at));
        response.request_focus();
    }
    if response.has_focus() {
        let filter = egui::EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
        ui.memory_mut(|m| m.set_focus_lock_filter(response.id, filter));
        let pressed = |key| ui.input(|i| i.key_pressed(key));
        for (key, on) in [(Key::ArrowRight, true), (Key::ArrowLeft, false)] {
            if pressed(key) {
                Measured::step(&mut measured.to, corners, on);
            }
        }
        for (key, on) in [(Key::ArrowUp, true), (Key::ArrowDown, false)] {
            if pressed(key) {
                Measured::step(&mut measured.from, corners, on);
            }
        }
    }
    let said = measured.from.zip(measured.to).map(|(from, to)| words(from, to, unit));
    let name = said.clone().unwrap_or_else(|| tr!("click two places; arrow keys go from corner to corner").to_owned());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, tr!("Measure: {name}")));
    paint(
        ui,
        paper,
        measured,
        ui.ctx().pointer_hover_pos().filter(|p| paper.rect.contains(*p)).map(meant),
        said.as_deref(),
    );
    let palette = Palette::of(ui.ctx());
    if response.has_focus() {
        let ring = Stroke::new(2.0, palette.accent);
        ui.painter().rect_stroke(paper.rect.shrink(1.0), 8.0, ring, egui::StrokeKind::Inside);
    }
    if said.is_none() {
        let at = Rect::from_center_size(paper.rect.center_bottom() - egui::vec2(0.0, 18.0), egui::Vec2::ZERO).center();
        label(ui.painter(), at, tr!("Click the two places to measure between"), &palette);
    }
}

fn paint(ui: &Ui, paper: &Paper, measured: &Measured, hover: Option<P2>, said: Option<&str>) {
    let palette = Palette::of(ui.ctx());
    let painter = ui.painter();
    let dot = |at: P2| {
        painter.circle(paper.at(at), 4.5, palette.accent, Stroke::new(1.5, palette.paper));
    };
    let line = |from: P2, to: P2| {
        painter.line_segment([paper.at(from), paper.at(to)], Stroke::new(2.0, palette.accent));
    };
    if measured.to.is_none()
        && let Some(at) = hover
    {
        if let Some(from) = measured.from {
            line(from, at);
        }
        dot(at);
    }
    if let Some((from, to)) = measured.from.zip(measured.to) {
        line(from, to);
        let middle = from + (to - from) / 2.0;
        label(painter, paper.at(middle), said.unwrap_or_default(), &palette);
    }
    measured.from.into_iter().chain(measured.to).for_each(dot);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_are_told_straight_across_and_up() {
        // A right triangle of 30, 40 and 50 mm.
        let said = words(P2::new(10.0, 10.0), P2::new(40.0, 50.0), Unit::Millimetre);
        assert_eq!(said, "50 mm (30 mm across, 40 mm up)");
        assert_eq!(words(P2::new(0.0, 5.0), P2::new(25.4, 5.0), Unit::Inch(gable_measure::InchStep::Sixteenth)), "1\"");
    }

    #[test]
    fn keys_go_from_corner_to_corner_and_round() {
        let corners = [P2::new(0.0, 0.0), P2::new(1.0, 0.0), P2::new(1.0, 1.0)];
        let mut place = None;
        let mut seen = Vec::new();
        for on in [true, true, true, true, false, false] {
            Measured::step(&mut place, &corners, on);
            seen.push(corners.iter().position(|c| Some(*c) == place).unwrap());
        }
        assert_eq!(seen, [0, 1, 2, 0, 2, 1]);
        Measured::step(&mut place, &[], true);
    }
}
