//! A paper mock-up: nets with glue tabs, to try a house before a gram of flour is weighed.

use super::cover::About;
use super::template::{EdgeMark, Template};
use super::{letters, stand::StandMark};
use gable_mesh::{Net, NetFace, Seam, nets};
use gable_plane::{Contour, P2, Rest, V2, bounds, ring_area, united};
use gable_shell::Mode;

/// Depth of a glue tab on paper, mm, and the least that is worth it.
const TAB: f64 = 7.0;
const LEAST_TAB: f64 = 2.5;
/// Edges shorter than this on paper get no tab, mm.
const SHORT: f64 = 4.0;
/// Grid on which outlines are joined, mm.
const GRID: f64 = 1e-4;
/// What a tab may share with the net, mm².
const FILM: f64 = 0.05;

/// The nets of a house at a share of its size, numbered from `first`.
pub(super) fn templates(about: &About<'_>, scale: f64, first: usize) -> Vec<Template> {
    let (nets, seams) = nets(about.solved);
    let tabs = tabs(&nets, &seams, scale);
    let of_net = |(k, net): (usize, &Net)| template(about, net, &tabs[k], scale);
    let made = nets.iter().enumerate().flat_map(of_net);
    made.enumerate().map(|(k, template)| Template { number: first + k, ..template }).collect()
}

/// A glue tab, or the edge that one is glued behind.
struct Tab {
    /// Empty where the other edge has it.
    ring: Vec<P2>,
    edge: [P2; 2],
    letter: String,
}

/// The tabs of each net: of two edges that are glued one gets the tab, where it lies on nothing.
fn tabs(nets: &[Net], seams: &[Seam], scale: f64) -> Vec<Vec<Tab>> {
    let mut tabs: Vec<Vec<Tab>> = nets.iter().map(|_| Vec::new()).collect();
    for (n, seam) in seams.iter().enumerate() {
        let letter = letters(n, b'a');
        let edges = seam.ends.map(|(net, face, edge)| {
            let flat = &nets[net].faces[face].flat;
            [flat[edge], flat[(edge + 1) % flat.len()]].map(|p| P2::from(p.coords * scale))
        });
        if (edges[0][1] - edges[0][0]).norm() < SHORT {
            continue;
        }
        let tried = [(0, TAB), (1, TAB), (0, TAB / 2.0), (1, TAB / 2.0), (0, LEAST_TAB), (1, LEAST_TAB)];
        let free = tried.into_iter().find_map(|(end, depth)| {
            let ring = tab(edges[end], depth);
            let net = seam.ends[end].0;
            let clear = !nets[net].faces.iter().any(|f| shares(&ring, &scaled(&f.flat, scale)))
                && !tabs[net].iter().any(|t| shares(&ring, &t.ring));
            clear.then_some((end, ring))
        });
        for end in [0, 1] {
            let ring = free.as_ref().filter(|(own, _)| *own == end).map(|(_, ring)| ring.clone()).unwrap_or_default();
            tabs[seam.ends[end].0].push(Tab { ring, edge: edges[end], letter: letter.clone() });
        }
    }
    tabs
}

/// A trapezium on the right of an edge.
fn tab([a, b]: [P2; 2], depth: f64) -> Vec<P2> {
    let (way, length) = ((b - a).normalize(), (b - a).norm());
    let out = V2::new(way.y, -way.x);
    let lean = depth.min(length / 3.0);
    vec![a, a + out * depth + way * lean, b + out * depth - way * lean, b]
}

fn scaled(ring: &[P2], scale: f64) -> Vec<P2> {
    ring.iter().map(|p| P2::from(p.coords * scale)).collect()
}

fn rest(ring: &[P2]) -> Rest<()> {
    Rest { labels: vec![(); ring.len()], corners: ring.to_vec() }
}

fn shares(a: &[P2], b: &[P2]) -> bool {
    a.len() > 2 && b.len() > 2 && rest(a).common(&rest(b)).iter().map(gable_plane::Region::area).sum::<f64>() > FILM
}

/// One net: its outline with the tabs, its folds, its windows. A net that other parts cut in two is two templates.
fn template(about: &About<'_>, net: &Net, tabs: &[Tab], scale: f64) -> Vec<Template> {
    let solved = about.solved;
    let faces = net.faces.iter().flat_map(|f| &f.shapes).filter(|ring| ring_area(ring) > 0.0);
    let own_tabs = tabs.iter().map(|t| t.ring.clone()).filter(|r| r.len() > 2);
    // On a common grid, so that what lies edge to edge becomes one.
    let snapped = |ring: Vec<P2>| -> Vec<P2> {
        ring.iter().map(|p| P2::from(p.coords.map(|c| (c / GRID).round() * GRID))).collect()
    };
    let rings = faces.map(|ring| scaled(ring, scale)).chain(own_tabs).map(snapped);
    let mut joined = united(&rings.collect::<Vec<_>>());
    // A tab whose edge another part has taken hangs on nothing.
    let is_tab =
        |ring: &Vec<P2>| tabs.iter().any(|t| t.ring.len() > 2 && (ring_area(&t.ring) - ring_area(ring)).abs() < FILM);
    joined.retain(|ring| !is_tab(ring));
    let part = solved.parts.get(net.part).map_or("", |p| p.name.as_str());
    joined.iter().filter_map(|outline| one(about, net, tabs, scale, outline, part)).collect()
}

fn one(about: &About<'_>, net: &Net, tabs: &[Tab], scale: f64, outline: &[P2], part: &str) -> Option<Template> {
    let (low, high) = bounds(outline)?;
    let at = |p: &P2| p - low.coords;
    let inside = |p: P2| gable_plane::ring_contains(outline, p);
    let half = |[a, b]: [P2; 2]| a + (b - a) / 2.0;
    let mut template = Template::plain(0, outline.iter().map(at).collect(), high - low);
    template.name = format!("Mock-up: {part}");
    template.count = format!("of paper, at {} %", (scale * 1000.0).round() / 10.0);
    template.face = "printed side out";
    "fold back along the dashed lines".clone_into(&mut template.dough);
    "paper".clone_into(&mut template.dough_name);
    template.edges = vec![EdgeMark::default(); template.outline.len()];
    let folds = net.faces.iter().filter_map(|f| f.fold).map(|f| f.line.map(|p| P2::from(p.coords * scale)));
    let tab_folds = tabs.iter().filter(|t| !t.ring.is_empty()).map(|t| t.edge);
    template.under = folds.chain(tab_folds).filter(|l| inside(half(*l))).map(|l| l.iter().map(at).collect()).collect();
    let glued = tabs.iter().filter(|t| {
        let [a, b] = t.edge;
        let way = (b - a).normalize();
        inside(half(t.edge) + V2::new(-way.y, way.x) * 0.2)
    });
    template.stands =
        glued.map(|t| StandMark { ends: t.edge.map(|p| at(&p)), letters: vec![t.letter.clone()] }).collect();
    template.openings = net
        .faces
        .iter()
        .flat_map(|f| windows(about, f, scale))
        .filter(|c| inside(c.start()))
        .map(|c| (c.mapped(false, |p| at(&p)), Mode::Pressed))
        .collect();
    Some(template)
}

/// The openings of the pieces that a face stands for, where they lie in the net.
fn windows(about: &About<'_>, face: &NetFace, scale: f64) -> Vec<Contour> {
    let [a, b, c] = [face.corners[0], face.corners[1], face.corners[face.corners.len() - 1]];
    let x = (b - a).normalize();
    let y = x.cross(&(c - a)).cross(&x).normalize();
    let (u, v) = ((face.flat[1] - face.flat[0]).normalize(), face.flat[0]);
    let side = V2::new(-u.y, u.x);
    let to_net = |p: gable_plane::P3| v + u * x.dot(&(p - a)) + side * y.dot(&(p - a));
    let of_piece = |k: &usize| {
        let piece = about.solved.pieces.get(*k)?;
        // Openings lie in the outer face, or straight under it where the net stands for the underside of a roof.
        let flat = |p: P2| {
            let q = to_net(piece.house_from_piece * gable_plane::P3::new(p.x, p.y, 0.0));
            P2::from(q.coords * scale)
        };
        let contours = piece.openings.iter().chain(&piece.notches);
        Some(contours.map(|o| o.contour.mapped(piece.reference_is_outside(), flat)).collect::<Vec<_>>())
    };
    face.pieces.iter().filter_map(of_piece).flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::super::PackOptions;
    use super::*;
    use gable_shell::{demo, solve};

    /// A house of four walls and two slopes is one net, and each edge that is glued has its letter twice.
    #[test]
    fn a_plain_house_is_one_sheet_with_tabs() {
        let house = demo::house("boat-hut").unwrap();
        let solved = solve(&house);
        let dressed = gable_dress::dress(&house, &solved);
        let options = PackOptions::default();
        let about = About { solved: &solved, house: &house, dressed: &dressed, options: &options, templates: &[] };
        let nets = templates(&about, 0.5, 1);
        assert_eq!(nets.len(), 1, "{:?}", nets.iter().map(|n| n.size).collect::<Vec<_>>());
        let mut letters: Vec<&String> = nets[0].stands.iter().flat_map(|s| &s.letters).collect();
        letters.sort();
        // One corner, four rakes, the ridge; twice each.
        assert_eq!(letters.len(), 12);
        assert!(letters.chunks(2).all(|pair| pair[0] == pair[1]), "{letters:?}");
        // Three corners and two eaves are folded, and six tabs.
        assert_eq!(nets[0].under.len(), 3 + 2 + 6);
    }
}
