use crate::theme::Palette;
use egui::{Color32, Pos2, Rect, Sense, Shape, Stroke, Ui, vec2};
use gable_measure::Severity;
use gable_words::tr;

/// How bad a finding is, in a word or two.
pub(crate) fn severity_word(severity: Severity) -> &'static str {
    match severity {
        Severity::Note => tr!("Good to know"),
        Severity::Caution => tr!("Take care"),
        Severity::Blocking => tr!("Cannot be built"),
    }
}

/// The colour of a severity; never the only sign of it.
pub(crate) fn severity_colour(palette: &Palette, severity: Severity) -> Color32 {
    match severity {
        Severity::Note => palette.note,
        Severity::Caution => palette.caution,
        Severity::Blocking => palette.blocking,
    }
}

/// A sign for a severity: a dot, a triangle or a crossed square.
pub(super) fn severity_icon(ui: &mut Ui, severity: Severity) {
    let (rect, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
    let colour = severity_colour(&Palette::of(ui.ctx()), severity);
    let line = Stroke::new(2.0, colour);
    let painter = ui.painter();
    match severity {
        Severity::Note => {
            painter.circle_stroke(rect.center(), 7.0, line);
            painter.circle_filled(rect.center(), 2.5, colour);
        }
        Severity::Caution => {
            painter.add(Shape::closed_line(triangle(rect.shrink(1.5)), line));
            painter.line_segment([rect.center() - vec2(0.0, 2.0), rect.center() + vec2(0.0, 3.0)], line);
        }
        Severity::Blocking => {
            let square = rect.shrink(2.0);
            painter.rect_stroke(square, 3.0, line, egui::StrokeKind::Inside);
            let cross = square.shrink(4.0);
            painter.line_segment([cross.left_top(), cross.right_bottom()], line);
            painter.line_segment([cross.right_top(), cross.left_bottom()], line);
        }
    }
}

fn triangle(rect: Rect) -> Vec<Pos2> {
    vec![rect.center_top(), rect.right_bottom(), rect.left_bottom()]
}
