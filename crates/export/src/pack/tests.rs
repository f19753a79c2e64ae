use super::sample::gable_box;
use super::*;
use gable_drawing::{Layer, LineRole};
use gable_plane::Contour;
use gable_plane::P3;

fn options(paper: Paper) -> PackOptions {
    let sections = Sections::only(&[Section::Cover, Section::Calibration, Section::Patterns]);
    PackOptions { paper, sections, ..PackOptions::default() }
}

fn texts(page: &Page) -> Vec<String> {
    let text = |item: &Item| if let Item::Text(t) = item { Some(t.text.clone()) } else { None };
    page.drawing.items.iter().filter_map(text).collect()
}

fn cut_lengths(page: &Page) -> Vec<f64> {
    let cut = |item: &Item| match item {
        Item::Stroke(s) if s.layer == Layer::Cut && s.role == LineRole::Edge && s.closed => {
            Some(Contour::new(s.start, s.segments.clone()).length())
        }
        _ => None,
    };
    page.drawing.items.iter().filter_map(cut).collect()
}

#[test]
fn every_template_is_drawn_once_at_its_size() {
    let (house, solved) = gable_box(1.0);
    let pages = pack(&solved, &house, &options(Paper::A4)).unwrap();
    let mut found: Vec<f64> = pages.iter().flat_map(cut_lengths).collect();
    found.sort_by(f64::total_cmp);
    // Gable wall, side wall, slope; two windows of 30 x 45 with a half circle: closed forms.
    let window = 30.0 + 2.0 * 30.0 + std::f64::consts::PI * 15.0;
    let rake = 80.0 / 40f64.to_radians().cos();
    let wanted = [window, window, 160.0 + 200.0 + 2.0 * rake, 2.0 * (220.0 + 100.0), 2.0 * (250.0 + 128.0)];
    assert_eq!(found.len(), wanted.len());
    for (a, b) in found.iter().zip(wanted) {
        assert!((a - b).abs() < 1e-9, "{a} is not {b}");
    }
}

#[test]
fn counts_and_letters_are_those_seen_from_outside() {
    let (house, solved) = gable_box(1.0);
    let all: Vec<String> = pack(&solved, &house, &options(Paper::Letter)).unwrap().iter().flat_map(texts).collect();
    let has = |text: &str| assert!(all.iter().any(|t| t == text), "no '{text}' among {all:#?}");
    has("cut 2");
    has("cut 1, and 1 with the pattern");
    has("outside face up");
    has("A / F");
    has("O");
}

/// The window sits at x 20 to 50 of the right wall, whose own coordinates show it from inside.
#[test]
fn walls_are_mirrored_and_slopes_are_not() {
    let (_, solved) = gable_box(1.0);
    let right = Template::of_group(&solved, &solved.groups[1]).unwrap();
    let (low, high) = right.openings[0].0.bounds();
    assert!((low.x - 170.0).abs() < 0.01 && (high.x - 200.0).abs() < 0.01, "{low} {high}");
    let slope = Template::of_group(&solved, &solved.groups[2]).unwrap();
    assert_eq!(slope.edges[0].letters, ["L", "N"]);
    // From the upper right corner on: the top, then the far end, which seen from outside is on the left.
    let letters: Vec<&str> = right.edges.iter().map(|e| e.letters[0].as_str()).collect();
    assert_eq!(letters, ["L", "B", "K", "F"]);
}

/// The sill of the window of the front wall runs from (-50, 30) to (-20, 30) in its own coordinates.
#[test]
fn what_stands_on_the_rim_of_an_opening_is_lettered_like_an_edge() {
    let (house, mut solved) = gable_box(1.0);
    let mut joint = solved.joints[0].clone();
    joint.letter = "ZZ".into();
    joint.ends = [gable_shell::JointEnd::Piece(0), gable_shell::JointEnd::Piece(4)];
    let sill = [P3::new(-48.0, 30.0, 0.0), P3::new(-22.0, 30.0, 0.0)];
    joint.line = sill.map(|p| solved.pieces[0].house_from_piece * p);
    solved.joints.push(joint);
    let template = Template::of_group(&solved, &solved.groups[0]).unwrap();
    assert_eq!(template.stands.len(), 1);
    let art = lying::Lying::new(&template, 0).whole();
    let dashed = |item: &Item| matches!(item, Item::Stroke(s) if s.role == LineRole::Centre);
    assert!(!art.items.iter().any(dashed), "the rim is drawn already");
    let (low, high) = template.openings[0].0.bounds();
    let text = art
        .items
        .iter()
        .find_map(|i| if let Item::Text(t) = i { Some(t) } else { None }.filter(|t| t.text == "ZZ / –"));
    let at = text.unwrap().at;
    assert!(at.y < low.y && at.y > low.y - 12.0 && at.x > low.x && at.x < high.x, "{at} under {low} {high}");
    assert!(pack(&solved, &house, &options(Paper::A4)).is_ok());
}

#[test]
fn everything_stays_inside_the_margins() {
    let margins = Margins { left: Length::mm_of(12.0), ..Margins::default() };
    for (paper, scale) in [(Paper::A4, 1.0), (Paper::Letter, 2.5), (Paper::A4AndLetter, 2.0)] {
        let (house, solved) = gable_box(scale);
        for page in pack(&solved, &house, &PackOptions { paper, margins, ..PackOptions::default() }).unwrap() {
            let (w, h) = (page.drawing.width, page.drawing.height);
            let edge = if w < h { (12.0, 6.35, 6.7, 6.35) } else { (6.7, 6.7, 12.0, 12.0) };
            for item in &page.drawing.items {
                let points: Vec<gable_plane::P2> = match item {
                    Item::Text(t) => vec![t.at],
                    Item::Fill(f) => f.rings.concat(),
                    Item::Stroke(s) => std::iter::once(s.start).chain(s.segments.iter().map(|s| s.to())).collect(),
                };
                for p in points {
                    let inside = p.x > edge.0 - 1e-6 && p.x < w - edge.1 + 1e-6 && p.y > edge.2 && p.y < h - edge.3;
                    assert!(inside, "{p} of {item:?} on {}", page.label);
                }
            }
        }
    }
}

/// How far a level text reaches beyond what most printers can print of its page, mm; nothing for others.
fn beyond(page: &Page, item: &Item) -> Option<(String, f64)> {
    let Item::Text(t) = item else { return None };
    let width = crate::text_width(&t.text, t.height, t.bold);
    let left = t.at.x
        - width
            * match t.anchor {
                gable_drawing::Anchor::Start => 0.0,
                gable_drawing::Anchor::Middle => 0.5,
                gable_drawing::Anchor::End => 1.0,
            };
    // The usual margin, a quarter of an inch.
    let over = (6.35 - left).max(left + width - page.drawing.width + 6.35) - 1e-6;
    (t.turn == 0.0 && over > 0.0).then(|| (t.text.clone(), over))
}

#[test]
fn no_words_of_a_demo_run_off_what_is_printed() {
    for name in gable_shell::demo::names() {
        let house = gable_shell::demo::house(name).unwrap();
        let pages = pack(&gable_shell::solve(&house), &house, &options(Paper::A4AndLetter)).unwrap();
        let found: Vec<_> = pages.iter().flat_map(|p| p.drawing.items.iter().filter_map(|i| beyond(p, i))).collect();
        assert!(found.is_empty(), "{name}: {found:?}");
    }
}

#[test]
fn large_pieces_come_in_tiles_with_the_same_marks_on_both_sides() {
    let (house, solved) = gable_box(2.5);
    let pages = pack(&solved, &house, &options(Paper::A4)).unwrap();
    let small = |t: &String| t.len() == 1 && t.chars().all(|c| c.is_ascii_lowercase());
    for number in ["template 1", "template 2", "template 3"] {
        let tiles = pages.iter().filter(|p| texts(p).iter().any(|t| t.starts_with(&format!("{number}, tile"))));
        let mut marks: Vec<String> = tiles.flat_map(texts).filter(|t| small(t)).collect();
        marks.sort();
        assert!(!marks.is_empty() && marks.len().is_multiple_of(2), "{marks:?}");
        assert!(marks.chunks(2).all(|pair| pair[0] == pair[1]), "{marks:?}");
    }
}

/// Said on every page and on the cover; a pack to share has no place for it.
#[test]
fn patterns_for_one_oven_say_so_on_every_page() {
    let (house, solved) = gable_box(1.0);
    for (way, words) in [(crate::Way::CutOnce, "PATTERNS CUT SMALLER"), (crate::Way::TrimWarm, "trim warm")] {
        let spread = crate::Spread::new(0.02, Length::mm_of(0.8), way).ok();
        let purpose = Purpose::Mine { printer: crate::Printer::default(), spread };
        let pages = pack(&solved, &house, &PackOptions { purpose, ..options(Paper::A4) }).unwrap();
        let all_say =
            |page: &Page| texts(page).iter().any(|t| t.contains(words) && t.contains("grows by 2 % and 0.8 mm"));
        assert!(pages.iter().all(all_say), "{words}");
        let trimmed = pages.iter().flat_map(texts).filter(|t| t == "trim").count();
        assert_eq!(trimmed > 0, way == crate::Way::TrimWarm);
        let cover = texts(&pages[0]).join(" ");
        assert!(cover.contains("which grows by") || cover.contains("allows for dough"), "{cover}");
    }
    assert!(Purpose::Share.spread().is_none());
}

#[test]
fn what_cannot_be_printed_says_why() {
    let (house, mut solved) = gable_box(1.0);
    let wide = PackOptions { margins: Margins::all(Length::mm_of(80.0)), ..PackOptions::default() };
    let said = |r: Result<Vec<Page>, PackError>| r.unwrap_err().to_string();
    assert_eq!(
        said(pack(&solved, &house, &wide)),
        "the margins leave 41 × 112 mm for patterns; at least 60 mm each way are needed"
    );
    let odd = PackOptions { margins: Margins::all(Length::mm_of(f64::NAN)), ..PackOptions::default() };
    assert_eq!(said(pack(&solved, &house, &odd)), "margins must be lengths of 0 or more");
    let (_, huge) = gable_box(1e5);
    assert!(said(pack(&huge, &house, &options(Paper::A4))).contains("is a size in the wrong unit?"));
    solved.groups.clear();
    assert!(matches!(pack(&solved, &house, &options(Paper::A4)), Err(PackError::NoPieces)));
}

#[test]
fn the_common_page_is_no_larger_than_either_paper() {
    let (w, h) = Paper::A4AndLetter.size();
    for paper in [Paper::A4, Paper::Letter] {
        assert!(w <= paper.size().0 && h <= paper.size().1);
    }
}

#[test]
fn the_pack_is_the_same_each_time() {
    let (house, solved) = gable_box(2.0);
    let once = pack_pdf(&solved, &house, &options(Paper::A4)).unwrap();
    assert_eq!(once, pack_pdf(&solved, &house, &options(Paper::A4)).unwrap());
    if let Ok(folder) = std::env::var("GABLE_KEEP") {
        std::fs::write(std::path::Path::new(&folder).join("large.pdf"), &once).unwrap();
        let (house, solved) = gable_box(1.0);
        let pdf = pack_pdf(&solved, &house, &options(Paper::A4)).unwrap();
        std::fs::write(std::path::Path::new(&folder).join("small.pdf"), pdf).unwrap();
    }
}

#[test]
fn letters_go_on_after_z() {
    let said: Vec<String> = [0, 25, 26, 51, 52, 701, 702].map(|k| letters(k, b'A')).to_vec();
    assert_eq!(said, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
}

/// What somebody baked stays at home: the pack to share is made of the house as planned, and so is the house inside it.
#[test]
fn nothing_baked_gets_into_a_pack_to_share() {
    let planned = gable_shell::demo::house("boat-hut").unwrap();
    let mut house = planned.clone();
    let walls = gable_shell::Baked::new(house.parts[0].id.clone(), gable_shell::Batch::Walls);
    house.baked.push(gable_shell::Baked { thickness: Some(Length::mm_of(9.0)), ..walls });
    let share = PackOptions { purpose: Purpose::Share, ..options(Paper::A4) };
    let refused = pack_pdf(&gable_shell::solve(&house), &house, &share);
    assert!(matches!(refused, Err(PackError::Baked)), "{refused:?}");
    assert_eq!(*house_for(&house, &share), planned);
    let mine = options(Paper::A4);
    assert_eq!(*house_for(&house, &mine), house);
    // Shared, it is to the byte the pack of somebody who has not baked.
    let pdf = |house: &House| pack_pdf(&gable_shell::solve(house), house, &share).unwrap();
    assert_eq!(pdf(&house_for(&house, &share)), pdf(&planned));
}

/// Pages from a roll are as wide as it, end below what is on them, and lose nothing.
#[test]
fn paper_from_a_roll_ends_where_its_page_does() {
    let house = gable_shell::demo::house("boat-hut").unwrap();
    let solved = gable_shell::solve(&house);
    let of = |paper| pack(&solved, &house, &PackOptions { paper, ..PackOptions::default() }).unwrap();
    let roll = Paper::Roll { width: Length::mm_of(610.0) };
    for page in of(roll) {
        let drawing = &page.drawing;
        assert!((drawing.width - 610.0).abs() < 1e-9 && drawing.height <= roll.size().1.mm() + 1e-9);
        for item in &drawing.items {
            let Item::Stroke(stroke) = item else { continue };
            let points = std::iter::once(stroke.start).chain(stroke.segments.iter().map(gable_plane::Segment::to));
            for p in points {
                assert!(
                    p.x >= 0.0 && p.x <= drawing.width && p.y >= 0.0 && p.y <= drawing.height,
                    "{p} {}",
                    page.label
                );
            }
        }
    }
    let shortest = of(roll).iter().map(|p| p.drawing.height).fold(f64::INFINITY, f64::min);
    assert!(shortest < 700.0, "{shortest}");
}

/// Days are in the pack of the person who has said by when the house must stand, drawn inside the margins, and in nobody else's;
/// kits have labels with what is in them and who must not eat it.
#[test]
fn days_and_kits_are_in_the_pack_of_the_person_alone() {
    use gable_bake::timetable::Person;
    let house = gable_shell::demo::house("boat-hut").unwrap();
    let solved = gable_shell::solve(&house);
    let mut options = options(Paper::A4);
    options.sections = Sections::only(&[Section::BakePlan]);
    let mut baker = Baker { now: Some(jiff::civil::date(2026, 12, 1).at(8, 0, 0, 0)), ..Baker::default() };
    let has = |pages: &[Page], words: &str| pages.iter().flat_map(texts).any(|text| text.contains(words));
    let pages = |options: &PackOptions, baker: &Baker| pack_for(&solved, &house, options, baker).unwrap();
    assert!(!has(&pages(&options, &baker), "Timetable"), "nobody said by when");
    baker.notebook.people = vec![Person::read("Ida: daily 18:00-22:00").unwrap()];
    baker.notebook.build_mut(&house).ready_by = Some(jiff::civil::date(2026, 12, 20).at(15, 0, 0, 0));
    let mine = pages(&options, &baker);
    assert!(has(&mine, "Timetable") && has(&mine, "It stands on") && has(&mine, "Ida: Mix the dough for walls"));
    for page in &mine {
        let found = page.drawing.items.iter().find_map(|item| beyond(page, item));
        assert_eq!(found, None);
    }
    assert!(!has(&pages(&PackOptions { purpose: Purpose::Share, ..options }, &baker), "Ida"));
    baker.notebook.build_mut(&house).copies = 12;
    baker.notebook.build_mut(&house).until = gable_bake::HandOver::Kits;
    let kits = pages(&options, &baker);
    assert!(has(&kits, "Timetable") && has(&kits, "Pack 12 kits") && has(&kits, "One for each of the 12 kits"));
    let slips = kits.iter().flat_map(texts).filter(|t| t.starts_with("Contains wheat (gluten)")).count();
    assert!(slips >= 3, "on each label, and with the cautions");
    // Of another house that is baked with it there are labels too, with its name and its own slip.
    let store = gable_shell::demo::house("net-store").unwrap();
    baker.others = vec![(store, 3)];
    let both = pages(&options, &baker);
    assert!(has(&both, "Labels for the kits: Net store") && has(&both, "One for each of the 3 kits"));
    assert_eq!(both.iter().flat_map(texts).filter(|text| text == "Net store").count(), 3, "three labels, not four");
}
