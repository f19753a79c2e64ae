//! How narrow the narrowest strip of each piece is.

use super::{Mark, Marks, Tone, count_classes, severity_of, sign};
use crate::view::Shown;
use gable_measure::Length;
use gable_shell::Solved;
use gable_stand::Class;
use gable_stand::lift::{Bridge, class_of_strip, narrow};
use gable_words::{Tongue, spoken, tr};

/// The narrowest strips, kept until the pieces or the language change: looking for them takes its time.
#[derive(Clone, Debug, Default)]
pub(crate) struct Strips {
    asked: Option<(u64, Tongue)>,
    marks: Marks,
}

impl Strips {
    /// Those of what is shown.
    pub(crate) fn of(&mut self, shown: &Shown) -> Marks {
        let asked = Some((shown.number, spoken()));
        if self.asked != asked {
            (self.asked, self.marks) = (asked, Marks::narrow(&shown.solved));
        }
        self.marks.clone()
    }
}

impl Marks {
    /// The narrowest strip of each piece, where it is, with its width; nothing of pieces that have none.
    pub(crate) fn narrow(solved: &Solved) -> Self {
        let strip = |p: &gable_shell::Piece| narrow(p).map(|bridge| (class_of_strip(p, &bridge), bridge));
        let all: Vec<Option<(Class, Bridge)>> = solved.pieces.iter().map(strip).collect();
        let print = |bridge: &Bridge| solved.unit.print(Length::mm_of(bridge.width));
        let mark = |(class, bridge): &(Class, Bridge)| {
            let (tone, before) = match severity_of(*class) {
                Some(severity) => (Tone::Bad(severity), format!("{} ", sign(severity))),
                None => (Tone::Plain, String::new()),
            };
            Mark { tone, sign: before + &print(bridge), at: Some(bridge.at) }
        };
        let mut key = count_classes(all.iter().flatten().map(|(class, _)| *class));
        let sound = all.iter().flatten().filter(|(class, _)| *class == Class::Sound);
        if let Some(narrowest) = sound.clone().map(|(_, b)| b).min_by(|a, b| a.width.total_cmp(&b.width)) {
            let words = tr!("{}: {}, from {}", Class::Sound.words(), sound.count(), print(narrowest));
            key.push((None, words));
        }
        let without = all.iter().filter(|strip| strip.is_none()).count();
        if without > 0 {
            key.push((None, tr!("without a narrow strip: {without}")));
        }
        Self::told(tr!("Narrowest strips"), all.iter().map(|strip| strip.as_ref().map(mark)).collect(), key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gable_measure::Severity;
    use gable_plane::{Contour, P2};
    use gable_shell::{demo, solve};

    /// A window beside the left edge of a wall; the strip between them is measured here by where it was put.
    #[test]
    fn a_strip_narrower_than_it_is_thick_is_marked_in_its_middle() {
        let mut solved = solve(&demo::house("boat-hut").expect("a demo"));
        let k = solved.pieces.iter().position(|p| p.notches.is_empty() && !p.openings.is_empty());
        let k = k.expect("a wall with a window");
        let piece = &mut solved.pieces[k];
        piece.openings.truncate(1);
        let thick = piece.thickness.mm();
        let low = piece
            .outline
            .iter()
            .fold(P2::new(f64::INFINITY, f64::INFINITY), |low, p| P2::from(low.coords.inf(&p.coords)));
        let mut mark_at = |share: f64| {
            let corner = low + gable_plane::V2::new(share * thick, 20.0);
            solved.pieces[k].openings[0].contour =
                Contour::rectangle(corner, corner + gable_plane::V2::new(15.0, 20.0));
            let marks = Marks::narrow(&solved);
            (marks.of[k].clone().expect("a mark"), marks.words)
        };
        for (share, tone) in
            [(1.2, Tone::Plain), (0.8, Tone::Bad(Severity::Caution)), (0.3, Tone::Bad(Severity::Blocking))]
        {
            let (mark, words) = mark_at(share);
            assert_eq!(mark.tone, tone, "{share}: {words}");
            let at = mark.at.expect("a place");
            assert!((at.x - low.x - share * thick / 2.0).abs() < 0.01, "half way across: {at} from {low}");
            assert!(mark.sign.ends_with(&solved_print(share * thick)), "{}", mark.sign);
        }
    }

    fn solved_print(mm: f64) -> String {
        gable_measure::Unit::Millimetre.print(Length::mm_of(mm))
    }
}
