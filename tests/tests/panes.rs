//! Panes against their openings let out by the margin, by shapely (PyPI), an independent library of plane geometry.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a check says by stopping that it failed")]

mod python_env;

use gable_dress::dress;
use gable_measure::{Length, Unit};
use gable_plane::P2;
use gable_shell::{House, Mode, Opening, OpeningId, Outline, Placing, Shape, SideId, solve};
use python_env::{python, said, scripts};
use std::process::Command;

fn mm(mm: f64) -> Length {
    Length::mm_of(mm)
}

/// Windows of every shape, three to a wall.
fn house() -> House {
    let shapes = [
        Shape::Rectangle,
        Shape::RoundHeaded,
        Shape::Segmental { rise: mm(5.0) },
        Shape::Pointed { radius: 0.75 },
        Shape::Pointed { radius: 1.0 },
        Shape::Circle,
        Shape::Ellipse,
        Shape::Fanlight,
        Shape::Regular { corners: 5 },
        Shape::Free { corners: vec![[0.0, 0.0], [1.0, 0.0], [1.0, 0.5], [0.5, 0.5], [0.5, 1.0], [0.0, 1.0]] },
        Shape::Path {
            data: "M0 26 C-18 12 -14 0 -7 0 C-3 0 0 3 0 6 C0 3 3 0 7 0 C14 0 18 12 0 26 Z".to_owned(),
            mirrored: true,
        },
        Shape::Free { corners: vec![[0.0, 0.3], [0.5, 0.0], [1.0, 0.3], [0.7, 1.0], [0.3, 1.0]] },
    ];
    let mut house = House::simple(Unit::Millimetre);
    house.parts[0].outline = Outline::Rectangle { width: mm(220.0), depth: mm(220.0) };
    let window = |(k, shape): (usize, Shape)| {
        let mut opening = Opening {
            id: OpeningId(format!("window-{k}")),
            name: format!("{shape:?}"),
            side: SideId(["front", "right", "back", "left"][k / 3].into()),
            shape,
            width: mm(26.0),
            height: mm(36.0),
            sill: mm(22.0),
            placing: Placing::Centred { offset: mm((k % 3) as f64 * 60.0 - 60.0) },
            mode: Mode::Glazed,
            ..Opening::default()
        };
        opening.settle();
        opening
    };
    house.parts[0].openings = shapes.into_iter().enumerate().map(window).collect();
    house
}

#[test]
fn panes_are_openings_let_out_by_the_margin() {
    let ring = |points: Vec<P2>| points.iter().map(|p| [p.x, p.y]).collect::<Vec<_>>();
    let mut panes = Vec::new();
    for margin in [2.0, 6.0, 9.5] {
        let mut house = house();
        house.dressing.glazier.margin = mm(margin);
        let solved = solve(&house);
        let dressed = dress(&house, &solved);
        assert_eq!(dressed.panes.len(), 12, "{:?}", dressed.findings);
        for pane in &dressed.panes {
            let opening = solved.pieces[pane.piece].openings.iter().find(|o| o.id == pane.opening).unwrap();
            panes.push(serde_json::json!({
                "name": pane.name,
                "opening": ring(opening.contour.flatten(0.001)),
                "pane": ring(pane.outline.flatten(0.001)),
                "margin": margin,
            }));
        }
    }
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("panes.json");
    std::fs::write(&file, serde_json::to_string(&panes).unwrap()).unwrap();
    let done = Command::new(python()).arg(scripts().join("panes.py")).arg(&file).output().unwrap();
    assert!(done.status.success(), "{}", said(&done));
}
