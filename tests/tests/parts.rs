//! Random houses of several parts close: pieces neither overlap nor gape where parts meet, by an independent solid
//! library. What a house encloses and which pieces must touch is worked out from the house alone.
//!
//! `GABLE_HOUSES` sets how many houses are tried.

use gable_measure::{Angle, Finding};
use gable_mesh::{Pose, View};
use gable_shell::{Behind, House, Place, Solved, solve};
use gable_tests::{Crowd, Fault, Whole, plain_many, porches_many, random_house, random_many};
use std::collections::BTreeSet;
use std::path::Path;

fn seen_in(house: &House) -> Vec<String> {
    let mut seen = vec![format!("{} parts", house.parts.len()), format!("gap {}", house.gap.mm())];
    for part in &house.parts {
        let kind = part.id.0.trim_end_matches(|c: char| c.is_ascii_digit() || c == '-');
        seen.push(kind.to_owned());
        let turned = part.place.turn().deg() != 0.0;
        seen.push(match &part.place {
            Place::Ground(_) => format!("{kind} on the ground, turned {turned}"),
            Place::Against { .. } => format!("{kind} against, turned {turned}"),
            Place::OnSlope { .. } => format!("{kind} on a slope, turned {turned}"),
            Place::Astride { .. } => format!("{kind} astride, turned {turned}"),
            Place::OnTop { .. } => format!("{kind} on top, turned {turned}"),
        });
        seen.extend(part.place.host().filter(|host| host.0 != "main").map(|_| format!("{kind} of a guest")));
        seen.extend((part.behind != Behind::Whole).then(|| "passage".to_owned()));
        seen.extend(part.stays_whole.then(|| "stays whole".to_owned()));
        seen.extend((part.raised.mm() > 0.0).then(|| "raised".to_owned()));
    }
    seen
}

#[test]
fn the_random_houses_show_every_kind_of_part_and_place() {
    let seen: BTreeSet<String> = (0..400).flat_map(|seed| seen_in(&random_many(seed))).collect();
    let kinds = ["main", "wing", "lean-to", "porch", "tower", "bay", "dormer", "chimney", "lantern"];
    let places = [
        "main on the ground, turned true",
        "wing against, turned true",
        "wing against, turned false",
        "tower against, turned true",
        "dormer on a slope, turned true",
        "dormer on a slope, turned false",
        "chimney astride, turned true",
        "chimney astride, turned false",
        "chimney on a slope, turned false",
        "chimney against, turned false",
        "lantern on top, turned true",
        "wing of a guest",
        "dormer of a guest",
        "chimney of a guest",
        "lantern of a guest",
    ];
    let rest = ["passage", "stays whole", "raised", "gap 0", "gap 0.8"];
    for setting in kinds.iter().chain(&places).chain(&rest) {
        assert!(seen.contains(*setting), "{setting} is in none of {seen:?}");
    }
    assert!((2..=8).all(|n| seen.contains(&format!("{n} parts"))), "{seen:?}");
}

#[test]
fn one_seed_is_one_house() {
    for seed in 0..20 {
        assert_eq!(random_many(seed), random_many(seed));
        assert_eq!(plain_many(seed), plain_many(seed));
        assert_ne!(random_many(seed), random_many(seed + 1));
    }
}

fn houses(usual: u64) -> u64 {
    std::env::var("GABLE_HOUSES").ok().and_then(|n| n.parse().ok()).unwrap_or(usual)
}

fn all_but_seal(_: u64, house: &House, solved: &Solved) -> Vec<Fault> {
    Whole::new(house, solved).map_or(vec![], |whole| whole.faults())
}

fn seal(_: u64, house: &House, solved: &Solved) -> Vec<Fault> {
    Whole::new(house, solved).map_or(vec![], |whole| whole.seal())
}

#[test]
fn houses_of_one_part_pass_this_judge_too() {
    let crowd = Crowd::judge(houses(200), random_house, all_but_seal);
    assert!(crowd.faults.is_empty(), "{}", crowd.report());
    let crowd = Crowd::judge(houses(20).min(400), random_house, seal);
    assert!(crowd.faults.is_empty(), "{}", crowd.report());
}

#[test]
fn no_two_pieces_of_several_parts_overlap() {
    let overlaps =
        |_: u64, house: &House, solved: &Solved| Whole::new(house, solved).map_or(vec![], |whole| whole.overlaps());
    for make in [random_many, plain_many, porches_many] {
        let crowd = Crowd::judge(houses(150), make, overlaps);
        assert!(crowd.faults.is_empty(), "{}", crowd.report());
        assert!(crowd.refused_share() < 0.15, "{}", crowd.report());
    }
}

/// Share of made-up houses in which a contact is wider than it should be, or a little icing is missing: not yet none.
/// docs/closure.md has the numbers for 10,000 houses.
const NOT_CLOSED: f64 = 0.01;
/// Share of made-up houses with a pinhole into a part.
const LEAKS: f64 = 0.04;

/// What tells the baker that a part is open, in the air, or inside others.
const TELLS: [&str; 8] = [
    "open-behind",
    "hangs-in-the-air",
    "part-hidden",
    "touches-nothing",
    "touches-no-piece",
    "no-order",
    "narrow-bridge",
    "opening-cut",
];

/// Of the houses at fault, the ones with a fault in parts of which the program says nothing that has to do with it.
fn untold(crowd: &Crowd, make: fn(u64) -> House) -> Vec<u64> {
    let told = |(seed, faults): (&u64, &Vec<Fault>)| {
        let house = make(*seed);
        let solved = solve(&house);
        let findings: Vec<Finding> = solved.findings.iter().cloned().chain(gable_raise::check(&solved)).collect();
        let tells = |part: usize, id: &str| {
            let here =
                |f: &&Finding| f.place.starts_with(&format!("parts[{part}]")) || f.place.starts_with(&format!("{id}/"));
            findings.iter().filter(here).any(|f| TELLS.contains(&f.kind))
        };
        let is_told = |fault: &Fault| {
            let parts = house.parts.iter().map(|p| p.id.0.as_str()).enumerate();
            parts.filter(|(_, id)| fault.what.contains(id)).any(|(part, id)| tells(part, id))
        };
        faults.iter().all(is_told)
    };
    crowd.faults.iter().filter(|house| !told(*house)).map(|(seed, _)| *seed).collect()
}

fn share_at_fault(crowd: &Crowd) -> f64 {
    crowd.faults.len() as f64 / crowd.count.max(1) as f64
}

#[test]
fn nearly_all_random_houses_of_several_parts_close() {
    let crowd = Crowd::judge(houses(120), random_many, all_but_seal);
    eprintln!("{}not told: {:?}", crowd.report(), untold(&crowd, random_many));
    assert!(share_at_fault(&crowd) <= NOT_CLOSED, "{}", crowd.report());
    assert!(crowd.refused_share() < 0.15, "{}", crowd.report());
}

#[test]
fn nearly_all_plain_houses_of_several_parts_close_and_none_is_refused() {
    let crowd = Crowd::judge(houses(120), plain_many, all_but_seal);
    eprintln!("{}not told: {:?}", crowd.report(), untold(&crowd, plain_many));
    assert!(share_at_fault(&crowd) <= NOT_CLOSED, "{}", crowd.report());
    assert!(crowd.refused.is_empty(), "{}", crowd.report());
}

#[test]
fn nearly_all_houses_with_posts_and_steps_close() {
    let crowd = Crowd::judge(houses(120), porches_many, all_but_seal);
    eprintln!("{}not told: {:?}", crowd.report(), untold(&crowd, porches_many));
    assert!(share_at_fault(&crowd) <= NOT_CLOSED, "{}", crowd.report());
    assert!(crowd.refused_share() < 0.15, "{}", crowd.report());
}

#[test]
fn the_inside_of_nearly_every_part_is_a_closed_hollow() {
    let crowd = Crowd::judge(houses(60).min(2000), random_many, seal);
    eprintln!("{}not told: {:?}", crowd.report(), untold(&crowd, random_many));
    assert!(share_at_fault(&crowd) <= LEAKS, "{}", crowd.report());
}

/// `SEED=17 cargo test -p gable-tests --test parts look -- --ignored --nocapture`: what is said about one house, and its file
/// and picture in the target folder; `PLAIN=1` for a plain one, `PORCHES=1` for one with porches, `JOINTS=main/wall-left` for the joints of a piece.
#[test]
#[ignore = "a look at one house"]
fn look_at_one_house() {
    let seed: u64 = std::env::var("SEED").ok().and_then(|s| s.parse().ok()).unwrap_or(0);
    let plain = std::env::var("PLAIN").is_ok();
    let porches = std::env::var("PORCHES").is_ok();
    let make = if porches {
        porches_many
    } else if plain {
        plain_many
    } else {
        random_many
    };
    let house = make(seed);
    let solved = solve(&house);
    let name = format!("{}-{seed}", if plain { "plain" } else { "random" });
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    std::fs::write(folder.join(format!("{name}.json")), gable_shell::file::write(&house)).unwrap();
    let view = View { board: false, ..View::from(Angle::degrees(35.0), Angle::degrees(25.0)) };
    let picture = gable_export::write_svg(&gable_mesh::picture(&solved, Pose::Standing, &view));
    std::fs::write(folder.join(format!("{name}.svg")), picture).unwrap();
    eprintln!("{}", folder.join(&name).display());
    for part in &house.parts {
        eprintln!("  {}: {:?} {:?}", part.id.0, part.outline, part.place);
    }
    for joint in
        std::env::var("JOINTS").iter().flat_map(|of| solved.joints.iter().filter(|j| j.id.0.contains(of.as_str())))
    {
        let line = joint.line.map(|p| format!("{:.2} {:.2} {:.2}", p.x, p.y, p.z)).join(" to ");
        eprintln!("  {}: {line}, icing {:.1} mm³", joint.id.0, joint.wedge.volume);
    }
    for piece in solved.pieces.iter().filter(|p| std::env::var("JOINTS").is_ok_and(|of| p.id.0.starts_with(&of))) {
        let ring = |ring: &[gable_plane::P2]| format!("{:.2?}", ring.iter().map(|p| (p.x, p.y)).collect::<Vec<_>>());
        eprintln!("  {}: {}, other face {}", piece.id.0, ring(&piece.outline), ring(&piece.outline_back));
        piece.openings.iter().for_each(|o| eprintln!("    {}: {}", o.name, ring(&o.contour.flatten(0.1))));
    }
    for finding in &solved.findings {
        eprintln!("  {:?} {} {}: {}", finding.severity, finding.kind, finding.place, finding.what);
    }
    let faults = all_but_seal(seed, &house, &solved).into_iter().chain(seal(seed, &house, &solved));
    faults.for_each(|fault| eprintln!("{fault}"));
    let whole = Whole::new(&house, &solved).unwrap();
    whole.hidden().iter().for_each(|fault| eprintln!("  rightly said to be hidden: {fault}"));
    whole.leaks().iter().for_each(|leak| eprintln!("  a block closes it at {leak}"));
    whole.holes(5.0).iter().for_each(|hole| eprintln!("  nothing fills: {hole}"));
    let mut growth = house.gap.mm() + 0.1;
    while !whole.seal_at(growth).is_empty() && growth < 20.0 {
        growth *= 1.4;
    }
    eprintln!("  closed when pieces grow by {growth:.2} mm");
}
