//! Critical paths of textbooks. Numbers from memory; the books are named.

use super::*;

/// A network without people or places: (name, time, what comes before).
fn network(rows: &[(&str, i64, &str)]) -> Project {
    let mut project = Project { kitchens: 1, ..Project::default() };
    for (k, (name, time, before)) in rows.iter().enumerate() {
        project.jobs.push(alone(name, *time));
        let index = |c: char| rows.iter().position(|row| row.0 == c.to_string()).unwrap();
        project.links.extend(before.chars().map(|c| link(index(c), k)));
    }
    project.due = rows.iter().map(|row| row.1).sum();
    project
}

/// The shortest time in which a network can be done, then its plan when it is due at once.
fn tight(mut project: Project) -> (i64, Plan) {
    let turned = project.turned();
    let end = improve::Ends::of(&project, &turned).unwrap().earliest(0).end().unwrap();
    project.due = end;
    (end, fits(&project))
}

fn critical(project: &Project, plan: &Plan) -> String {
    let names = project.jobs.iter().zip(&plan.critical).filter(|(_, critical)| **critical);
    names.map(|(job, _)| job.name.as_str()).collect()
}

/// Heizer and Render, 'Operations Management', chapter on projects: the paper mill that installs air filters. Done in 15
/// weeks; slack 0, 1, 0, 1, 0, 6, 0, 0.
#[test]
fn the_paper_mill_takes_fifteen_weeks() {
    let project = network(&[
        ("A", 2, ""),
        ("B", 3, ""),
        ("C", 2, "A"),
        ("D", 4, "AB"),
        ("E", 4, "C"),
        ("F", 3, "C"),
        ("G", 5, "DE"),
        ("H", 2, "FG"),
    ]);
    let (end, plan) = tight(project.clone());
    assert_eq!(end, 15);
    assert_eq!(critical(&project, &plan), "ACEGH");
    // As late as may be, so the slack is what lies before: earliest begins of the book are 0, 0, 2, 3, 4, 4, 8, 13.
    let early = [0, 0, 2, 3, 4, 4, 8, 13];
    let room: Vec<i64> = plan.schedule.placed.iter().flatten().zip(early).map(|(p, early)| p.start() - early).collect();
    assert_eq!(room, [0, 1, 0, 1, 0, 6, 0, 0]);
    assert_eq!(plan.slack, [0; 8]);
}

/// Hillier and Lieberman, 'Introduction to Operations Research', chapter on projects: the construction of a plant. 44 weeks
/// along A-B-C-E-F-J-L-N.
#[test]
fn the_plant_takes_forty_four_weeks() {
    let project = network(&[
        ("A", 2, ""),
        ("B", 4, "A"),
        ("C", 10, "B"),
        ("D", 6, "C"),
        ("E", 4, "C"),
        ("F", 5, "E"),
        ("G", 7, "D"),
        ("H", 9, "EG"),
        ("I", 7, "C"),
        ("J", 8, "FI"),
        ("K", 4, "J"),
        ("L", 5, "J"),
        ("M", 2, "H"),
        ("N", 6, "KL"),
    ]);
    let (end, plan) = tight(project.clone());
    assert_eq!(end, 44);
    assert_eq!(critical(&project, &plan), "ABCEFJLN");
}

/// With room at the end the slack is what is left, and honest: total float of the network.
#[test]
fn slack_is_counted_to_when_it_is_due() {
    let mut project = network(&[("A", 5, ""), ("B", 2, ""), ("C", 4, "AB")]);
    (project.due, project.reserve) = (12, 3);
    assert_eq!(fits(&project).slack, [3, 3, 3]);
    assert_eq!(critical(&project, &fits(&project)), "AC");
}
