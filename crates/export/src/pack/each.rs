//! A template for every single piece.

use super::Template;
use gable_dress::Dressed;
use gable_shell::{Group, Member, Solved};

/// Every template as often as it is cut, each house piece with its own name, letters and lines, seen from outside.
pub(super) fn every_piece(templates: &[Template], solved: &Solved, dressed: &Dressed, guides: bool) -> Vec<Template> {
    let mut all = Vec::new();
    for template in templates {
        match solved.groups.iter().find(|g| g.number == template.number) {
            Some(group) => all.extend(of_group(group, solved, dressed, guides)),
            // Templates that only show the lines of some of a group have no copies: their pieces show their own.
            None => all.extend((1..=template.copies).map(|copy| copy_of(template, copy))),
        }
    }
    all
}

fn of_group(group: &Group, solved: &Solved, dressed: &Dressed, guides: bool) -> Vec<Template> {
    let copies = group.members.len();
    let single = |(k, member): (usize, &Member)| {
        let alone = Member { piece: member.piece, turned_over: false, start: 0 };
        let alone = Group { number: group.number, members: vec![alone] };
        let template = Template::of_group(solved, &alone)?;
        let template = template.with_lines(solved, dressed, &alone, guides).into_iter().next()?;
        let mut template = Template { copies, copy: k + 1, ..template };
        if member.turned_over {
            template.note = format!("{}a turned over", group.number);
        }
        Some(template)
    };
    group.members.iter().enumerate().filter_map(single).collect()
}

fn copy_of(template: &Template, copy: usize) -> Template {
    let mut template = Template { copy, ..template.clone() };
    if template.copies > 1 {
        template.count = format!("cut 1: {copy} of {}", template.copies);
    }
    template
}

#[cfg(test)]
mod tests {
    use super::super::sample::gable_box;
    use super::super::{PackOptions, all_templates};
    use super::*;
    use gable_plane::{P2, ring_area};
    use gable_shell::{demo, solve};

    /// By number and by area every piece is there once: what is cut from the house's own outlines and with all templates.
    #[test]
    fn every_piece_has_a_pattern_of_its_own() {
        for name in demo::names() {
            let house = demo::house(name).unwrap();
            let solved = solve(&house);
            let dressed = gable_dress::dress(&house, &solved);
            let templates = all_templates(&solved, &dressed, &PackOptions::default());
            let each = every_piece(&templates, &solved, &dressed, true);
            let others = dressed.doors.len() + dressed.ornaments.len() + dressed.extras.len();
            let leaves = dressed.panes.iter().filter(|p| p.glass == gable_shell::Glass::Leaf).count();
            assert_eq!(each.len(), solved.pieces.len() + others + leaves, "{name}");
            let area = |list: &[Template]| list.iter().map(|t| ring_area(&t.outline)).sum::<f64>();
            let pieces: f64 = solved.pieces.iter().map(|p| ring_area(&p.outline).abs()).sum();
            let of_pieces: Vec<Template> = each.iter().filter(|t| t.number <= solved.groups.len()).cloned().collect();
            assert!((area(&of_pieces) - pieces).abs() < 1e-6 * pieces, "{name}");
            let titles: std::collections::BTreeSet<String> = each.iter().map(Template::short_title).collect();
            assert_eq!(titles.len(), each.len(), "{name}: each has a number of its own");
        }
    }

    /// The window of the right wall is at 170 to 200 seen from outside, that of the left wall the other way round.
    #[test]
    fn a_piece_that_is_cut_turned_over_is_printed_so() {
        let (house, solved) = gable_box(1.0);
        let dressed = gable_dress::dress(&house, &solved);
        let templates = all_templates(&solved, &dressed, &PackOptions::default());
        let each = every_piece(&templates, &solved, &dressed, true);
        let walls: Vec<&Template> = each.iter().filter(|t| t.number == 2).collect();
        let left = |t: &Template| t.openings[0].0.bounds().0;
        assert!((left(walls[0]) - P2::new(170.0, 30.0)).norm() < 0.01, "{}", left(walls[0]));
        assert!((left(walls[1]) - P2::new(20.0, 30.0)).norm() < 0.01, "{}", left(walls[1]));
        assert_eq!((walls[1].short_title(), walls[1].note.as_str()), ("2b".into(), "2a turned over"));
        assert_eq!((walls[0].count.as_str(), walls[0].note.as_str()), ("cut 1", ""));
        assert!(walls[1].edges.iter().all(|m| m.letters.len() <= 1));
    }
}
