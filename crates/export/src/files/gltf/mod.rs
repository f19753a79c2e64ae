//! The standing house as glTF 2.0, in one binary file.

mod build;
mod json;

use build::{Build, Look, Triangles};
use gable_dress::{Dressed, glass_facts};
use gable_mesh::{PieceSolid, Token, bar_of, door_of, ornament_of, pane_solid, pressed_of, relief_of, solid_of};
use gable_plane::{P3, Rigid};
use gable_shell::{House, Piece, Solved};

/// The standing house: metres, y up, the front towards +z, times `scale`. Every piece, pane, door and ornament is a node
/// with its name, and the icing of every joint; finishes, bars and pressed lines are nodes under their piece.
///
/// # Errors
/// When the scene cannot be written as JSON.
pub(super) fn glb(solved: &Solved, dressed: &Dressed, house: &House, scale: f64) -> Result<Vec<u8>, serde_json::Error> {
    let title = house.owner.title.trim();
    let title = if title.is_empty() { "House" } else { title };
    let mut build = Build::new(title, scale);
    for (index, piece) in solved.pieces.iter().enumerate() {
        let look = Look::token(Token::of_role(&piece.role));
        let body = triangles(&solid_of(piece), &look);
        let names = (piece.id.0.as_str(), piece.name.as_str());
        if let Some(node) = build.add(0, names, &piece.house_from_piece, &body) {
            on_piece(&mut build, node, dressed, (index, piece));
        }
    }
    for pane in &dressed.panes {
        let [r, g, b] = Look::token(Token::of_glass(pane.glass)).rgb;
        let look = Look { rgb: [r, g, b], glass: Some(glass_facts(pane.glass).name) };
        build.add(0, (&pane.id, &pane.name), &pane.house_from_pane, &triangles(&pane_solid(pane), &look));
    }
    for door in &dressed.doors {
        build.add(0, (&door.id, &door.name), &door.house_from_door, &back(&door.house_from_door, door_of(door)));
    }
    for piece in dressed.ornaments.iter().chain(&dressed.extras) {
        let place = &piece.house_from_piece;
        build.add(0, (&piece.id, &piece.name), place, &back(place, ornament_of(piece)));
    }
    let icing = Look::token(Token::Icing);
    for joint in &solved.joints {
        let faces = joint.icing.iter().flat_map(|solid| solid.faces()).flat_map(|face| fan(&face.corners));
        let body: Triangles = faces.map(|t| (t, icing.clone())).collect();
        build.add(0, (&joint.id.0, &format!("Icing of joint {}", joint.letter)), &Rigid::identity(), &body);
    }
    build.packed(title, &house.owner.credits())
}

/// What lies on a piece, in its coordinates.
fn on_piece(build: &mut Build, node: usize, dressed: &Dressed, (index, piece): (usize, &Piece)) {
    let plain = |list: Vec<([P3; 3], [u8; 3])>| list.into_iter().map(|(t, rgb)| (t, Look::plain(rgb))).collect();
    for covered in dressed.finishes.iter().filter(|c| c.piece == index) {
        let name = format!("{}: {}", piece.name, covered.name);
        build.add(node, ("", &name), &Rigid::identity(), &plain(relief_of(covered, piece)));
    }
    let bars = dressed.opening_lines.iter().filter(|l| l.piece == index).flat_map(bar_of);
    let lines: Triangles = plain(bars.chain(pressed_of(piece)).collect());
    build.add(node, ("", &format!("{}: bars and pressed lines", piece.name)), &Rigid::identity(), &lines);
}

/// What is given in the house, in the coordinates of a place in it.
fn back(place: &Rigid, list: Vec<([P3; 3], [u8; 3])>) -> Triangles {
    let inverse = place.inverse();
    list.into_iter().map(|(t, rgb)| (t.map(|p| inverse * p), Look::plain(rgb))).collect()
}

fn triangles(solid: &PieceSolid, look: &Look) -> Triangles {
    let corner = |k: u32| solid.positions.get(k as usize).copied().unwrap_or_default();
    solid.triangles.iter().map(|t| (t.map(corner), look.clone())).collect()
}

/// A convex polygon as triangles.
fn fan(corners: &[P3]) -> Vec<[P3; 3]> {
    let Some((&first, rest)) = corners.split_first() else { return Vec::new() };
    rest.windows(2).map(|pair| [first, pair[0], pair[1]]).collect()
}
