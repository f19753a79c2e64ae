use super::*;
use crate::pack::sample::gable_box;
use serde_json::Value;

#[test]
fn the_json_has_the_promised_keys_and_rings() {
    let (_, solved) = gable_box(1.0);
    let read: Value = serde_json::from_str(&pieces_json(&solved).unwrap()).unwrap();
    let keys = |v: &Value| v.as_object().unwrap().keys().cloned().collect::<Vec<_>>().join(" ");
    assert_eq!(keys(&read), "joints pieces");
    let piece = &read["pieces"][2];
    let wanted = "baked group holes house_from_piece id material name outline outline_back rolled thickness";
    assert_eq!(keys(piece), wanted);
    assert_eq!(piece["id"], "main/wall-right");
    assert_eq!(piece["outline"].as_array().unwrap().len(), 4);
    let ring: Vec<gable_plane::P2> = piece["holes"][0]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| gable_plane::P2::new(p[0].as_f64().unwrap(), p[1].as_f64().unwrap()))
        .collect();
    // 30 x 30 under a half circle of radius 15, clockwise, arcs within 0.02 mm (closed form).
    let exact = 900.0 + std::f64::consts::PI * 225.0 / 2.0;
    let area = -gable_plane::ring_area(&ring);
    assert!(area < exact && exact - area < 0.02 * std::f64::consts::PI * 15.0);
    assert_eq!(keys(&read["joints"][0]), "bevel dihedral gap kind letter line pieces wedge");
    assert_eq!(read["joints"][0]["pieces"][1], "board");
    assert!((read["joints"][0]["dihedral"].as_f64().unwrap() - 90.0).abs() < 1e-12);
}

/// A quarter turn about y takes z to x: the rows are 0 0 1 1, 0 1 0 2, -1 0 0 3.
#[test]
fn the_matrix_is_row_by_row() {
    let (_, solved) = gable_box(1.0);
    let read: Value = serde_json::from_str(&pieces_json(&solved).unwrap()).unwrap();
    let wanted = [0.0, 0.0, 1.0, 1.0, 0.0, 1.0, 0.0, 2.0, -1.0, 0.0, 0.0, 3.0, 0.0, 0.0, 0.0, 1.0];
    for (k, number) in wanted.iter().enumerate() {
        assert!((read["pieces"][0]["house_from_piece"][k].as_f64().unwrap() - number).abs() < 1e-12, "number {k}");
    }
}

#[test]
fn the_table_has_a_row_for_every_piece() {
    let (_, mut solved) = gable_box(1.0);
    let table = pieces_csv(&solved).unwrap();
    assert_eq!(table.lines().count(), 7);
    assert_eq!(
        table.lines().next(),
        Some("id,name,group,material,width_mm,height_mm,rolled_mm,thickness_mm,openings,area_mm2")
    );
    assert_eq!(table.lines().nth(5), Some("main/slope-right,Main body: right slope,1,roof,250,128,5,6,0,32000"));
    solved.unit = gable_measure::Unit::Inch(gable_measure::InchStep::Sixteenth);
    let inches = pieces_csv(&solved).unwrap();
    assert!(inches.contains(",9.8425,5.0394,0.1969,0.2362,250,128,5,6,0,32000"), "{inches}");
}
