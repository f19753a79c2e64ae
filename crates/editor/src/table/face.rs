use super::dimension::{dimension, label, label_width, letter};
use super::draw::drawing;
use super::paper::Paper;
use super::{Desk, face_handles, guests, ornaments, stress};
use egui::{Response, Ui};
use gable_drawing::{Drawing, Fill, Layer, LineRole, Shade, Stroke};
use gable_measure::Length;
use gable_plane::{Contour, P2, V2};
use gable_shell::{EdgeKind, Piece, Role, Solved, Tier};
use gable_words::tr;

/// How a piece is laid on the table: its outer face up, its upper edge away from the person.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lay {
    right: V2,
    up: V2,
}

impl Lay {
    pub(super) fn of(piece: &Piece) -> Self {
        let up = piece.up;
        // Outer faces of walls look against z of the piece, those of everything else along it.
        let from_below = piece.role.is_upright();
        let right = if from_below { V2::new(-up.y, up.x) } else { V2::new(up.y, -up.x) };
        Self { right, up }
    }

    /// Where a place of the piece is on the table.
    pub(super) fn table(&self, p: P2) -> P2 {
        P2::new(p.coords.dot(&self.right), p.coords.dot(&self.up))
    }

    fn mirrors(&self) -> bool {
        self.right.perp(&self.up) < 0.0
    }
}

/// A name short enough for a button.
pub(super) fn short_name(piece: &Piece, solved: &Solved) -> String {
    let what = match &piece.role {
        Role::Floor => tr!("Floor").to_owned(),
        Role::Layer(number) => tr!("Floor plate {number}"),
        Role::Wall(side) => tr!("Wall {}", side.words()),
        Role::Post(side, number, None) => tr!("Post {} {number}", side.words()),
        Role::Post(side, number, Some(strip)) => tr!("Post {} {number}, strip {}", side.words(), strip + 1),
        Role::Slope(side, Tier::Single) => tr!("Roof {}", side.words()),
        Role::Slope(side, Tier::Lower) => tr!("Lower roof {}", side.words()),
        Role::Slope(side, Tier::Upper) => tr!("Upper roof {}", side.words()),
        Role::Lid => tr!("Lid").to_owned(),
        Role::Parapet(side) => tr!("Parapet {}", side.words()),
    };
    let part = solved.parts.iter().find(|p| p.id == piece.part).filter(|_| solved.parts.len() > 1);
    let name = part.map_or_else(|| what.clone(), |part| format!("{}: {what}", part.name));
    if piece.baked { tr!("{name}, baked") } else { name }
}

/// The box round a piece as it lies on the table.
pub(super) fn bounds(piece: &Piece) -> Option<(P2, P2)> {
    let lay = Lay::of(piece);
    let points: Vec<P2> = piece.outline.iter().map(|p| lay.table(*p)).collect();
    gable_plane::bounds(&points)
}

/// Corners of a piece as it lies on the table, and of its openings.
pub(super) fn corners(piece: &Piece) -> Vec<P2> {
    let lay = Lay::of(piece);
    let openings = piece.openings.iter().chain(&piece.notches).flat_map(|o| o.contour.flatten(0.5));
    piece.outline.iter().copied().chain(openings).map(|p| lay.table(p)).collect()
}

/// A face: outline, what is asked of its biscuit, openings, joint letters, sizes, handles.
pub(super) fn show(
    ui: &mut Ui,
    paper: &Paper,
    desk: &mut Desk<'_, '_>,
    (piece, map): (&Piece, Option<&Drawing>),
    background: &Response,
) {
    let lay = Lay::of(piece);
    drawing(ui.painter(), &sheet(piece, &lay), paper, &desk.palette);
    map.into_iter().for_each(|map| stress::map(ui.painter(), map, paper, &desk.palette));
    let corners: Vec<P2> = piece.outline.iter().map(|p| lay.table(*p)).collect();
    sizes(ui, paper, desk, piece, &corners);
    letters(ui, paper, desk, piece, &corners);
    guests::on_face(ui, paper, desk, piece, |p| lay.table(p));
    // Under openings, which are picked up more often.
    ornaments::on_face(ui, paper, desk, piece);
    face_handles::show(ui, paper, desk, piece, &lay, background);
}

fn sheet(piece: &Piece, lay: &Lay) -> Drawing {
    let mut sheet = Drawing::new(0.0, 0.0);
    let ring: Vec<P2> = piece.outline.iter().map(|p| lay.table(*p)).collect();
    let placed = |contour: &Contour| contour.mapped(lay.mirrors(), |p| lay.table(p));
    let cut = piece.openings.iter().filter(|o| o.mode.goes_through());
    let holes = cut.map(|o| placed(&o.contour).flatten(0.05));
    let rings = std::iter::once(ring.clone()).chain(holes).collect();
    sheet.push(Fill { layer: Layer::Picture, shade: Shade::Tint, rings });
    sheet.push(Stroke::contour(Layer::Cut, LineRole::Edge, &Contour::polygon(&ring)));
    if piece.outline != piece.outline_back {
        let back: Vec<P2> = piece.outline_back.iter().map(|p| lay.table(*p)).collect();
        sheet.push(Stroke::contour(Layer::Guide, LineRole::Hidden, &Contour::polygon(&back)));
    }
    for opening in &piece.openings {
        let role = if opening.mode.goes_through() { LineRole::Edge } else { LineRole::Pressed };
        sheet.push(Stroke::contour(Layer::Cut, role, &placed(&opening.contour)));
    }
    sheet
}

/// Width and height over all, and the length of every edge that is neither level nor upright.
fn sizes(ui: &mut Ui, paper: &Paper, desk: &mut Desk<'_, '_>, piece: &Piece, corners: &[P2]) {
    let Some((low, high)) = gable_plane::bounds(corners) else { return };
    let unit = desk.house.unit;
    let print = |mm: f64| unit.print(Length::mm_of(mm));
    let painter = ui.painter();
    let bottom = [low, P2::new(high.x, low.y)];
    dimension(painter, paper, bottom, V2::new(0.0, -1.0), 40.0, &print(high.x - low.x), &desk.palette);
    let left = [low, P2::new(low.x, high.y)];
    let words = print(high.y - low.y);
    let at = dimension(painter, paper, left, V2::new(-1.0, 0.0), 44.0, &words, &desk.palette);
    face_handles::type_height(ui, desk, piece, (at, &words));
    let painter = ui.painter();
    for k in 0..corners.len() {
        let (a, b) = (corners[k], corners[(k + 1) % corners.len()]);
        let along = b - a;
        let slanted = along.x.abs() > 0.5 && along.y.abs() > 0.5;
        let long = along.norm() * f64::from(paper.scale) > 70.0;
        if slanted && long && !on_notch(piece, a, b) {
            let out = outwards(along, piece);
            // So far out that the words stay clear of the edge, whichever way it runs.
            let words = print(along.norm());
            let way = paper.way(out);
            let off = 12.0 + (way.x.abs() * label_width(painter, &words) + way.y.abs() * 14.0) / 2.0;
            label(painter, paper.at(a + along / 2.0) + way * off, &words, &desk.palette);
        }
    }
}

/// Chords of a round-headed notch are no edges to measure.
fn on_notch(piece: &Piece, a: P2, b: P2) -> bool {
    !piece.notches.is_empty() && (b - a).norm() < 12.0
}

/// Out of the piece, across an edge of its outline as it lies on the table.
fn outwards(along: V2, piece: &Piece) -> V2 {
    let turned = if Lay::of(piece).mirrors() { V2::new(-along.y, along.x) } else { V2::new(along.y, -along.x) };
    turned.normalize()
}

fn letters(ui: &Ui, paper: &Paper, desk: &Desk<'_, '_>, piece: &Piece, corners: &[P2]) {
    for k in 0..corners.len() {
        let Some(EdgeKind::Joint(joint)) = piece.edges.get(k) else { continue };
        let Some(joint) = desk.solved.joints.get(*joint) else { continue };
        let (a, b) = (corners[k], corners[(k + 1) % corners.len()]);
        if (b - a).norm() * f64::from(paper.scale) < 40.0 {
            continue;
        }
        let inwards = -outwards(b - a, piece);
        letter(ui.painter(), paper.at(a + (b - a) / 2.0) + paper.way(inwards) * 16.0, &joint.letter, &desk.palette);
    }
}
