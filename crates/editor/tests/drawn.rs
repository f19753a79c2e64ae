//! Openings whose outline is drawn elsewhere: pasted, and out of a file.
#![allow(missing_docs, unreachable_pub, dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod kitchen;

use egui_kittest::kittest::Queryable;
use gable_shell::{House, Opening, OpeningId, Shape, SideId};
use kitchen::{Kitchen, kitchen, plain, press};

const STAR: &str = "M50 0 L61 35 L98 35 L68 57 L79 91 L50 70 L21 91 L32 57 L2 35 L39 35 Z";

fn with_window() -> House {
    let mm = gable_measure::Length::mm_of;
    let mut house = plain();
    house.parts[0].openings = vec![Opening {
        id: OpeningId("window".into()),
        name: "Star window".into(),
        side: SideId("front".into()),
        shape: Shape::Path { data: "M0 0 L10 0 L5 -10 Z".into(), mirrored: true },
        width: mm(30.0),
        height: mm(30.0),
        sill: mm(20.0),
        ..Opening::default()
    }];
    house
}

fn window(kitchen: &Kitchen) -> Opening {
    kitchen.state().house().unwrap().parts[0].openings[0].clone()
}

fn paste(kitchen: &mut Kitchen, text: &str) {
    let name = "Path data, or a whole SVG, to paste";
    kitchen.get_by_label(name).focus();
    kitchen.run();
    kitchen.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    kitchen.run();
    kitchen.get_by_label(name).type_text(text);
    kitchen.run();
    kitchen.get_by_label("Width").focus();
    kitchen.run();
}

#[test]
fn outlines_are_pasted_as_path_data_or_as_a_whole_drawing() {
    let mut kitchen = kitchen(with_window());
    press(&mut kitchen, "Star window");
    paste(&mut kitchen, STAR);
    assert_eq!(window(&kitchen).shape, Shape::Path { data: STAR.into(), mirrored: true });
    press(&mut kitchen, "As high as drawn");
    // The star is drawn 96 by 91.
    assert!((window(&kitchen).height.mm() - 30.0 * 91.0 / 96.0).abs() <= 0.5, "{:?}", window(&kitchen).height);
    let triangle = "M0 0 L8 0 L4 -6 Z";
    paste(&mut kitchen, &format!("<svg xmlns='http://www.w3.org/2000/svg'><path d='{triangle}'/></svg>"));
    assert_eq!(window(&kitchen).shape, Shape::Path { data: triangle.into(), mirrored: true });
    paste(&mut kitchen, "M0 0 L10 10 V0 L0 10 Z");
    assert_eq!(window(&kitchen).shape, Shape::Path { data: triangle.into(), mirrored: true });
    assert!(kitchen.query_by_label_contains("crosses or touches itself near x 5.0000, y 5.0000").is_some());
}

#[test]
fn outlines_come_out_of_files() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("star.svg");
    std::fs::write(&file, format!("<svg xmlns='http://www.w3.org/2000/svg'><path d='{STAR}'/></svg>")).unwrap();
    let mut kitchen = kitchen(with_window());
    press(&mut kitchen, "Star window");
    press(&mut kitchen, "From an SVG file…");
    kitchen::type_into(&mut kitchen, "File", &file.display().to_string());
    let star = window(&kitchen);
    assert_eq!(star.shape, Shape::Path { data: STAR.into(), mirrored: false });
    assert!((star.height.mm() - 30.0 * 91.0 / 96.0).abs() < 1e-9);
}
