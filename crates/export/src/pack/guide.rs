//! The build guide: how the house is raised, stage by stage.

use super::Draft;
use super::cover::About;
use super::flow::Flow;
use super::sheet::{Sheet, scaled};
use super::stage_words::{HANDLE, stage_words};
use super::words::{HEADING, LARGE, LEADING, PLAIN, wrapped};
use gable_drawing::{Anchor, Layer, LineRole, Stroke, Text};
use gable_measure::{Angle, Length};
use gable_mesh::{Shown, StageScene, View, stage_picture};
use gable_plane::{P2, P3, Solid, V2, V3};
use gable_raise::{Guide, Prop, Stage, Stuck};
use gable_words::tr;

/// Share of the width that pictures take.
const PICTURE: f64 = 0.47;
/// Highest picture, mm.
const HIGHEST: f64 = 88.0;
/// Between the picture and the words, mm.
const BETWEEN: f64 = 5.0;
/// Side of a prop in the picture, mm.
const PROP: f64 = 14.0;
/// How far a prop stands off an upright piece, mm.
const OFF: f64 = 1.0;
/// Turns of the eye round the house that are tried for a picture, degrees, the usual one first.
const ROUND: [f64; 4] = [32.0, -58.0, 122.0, 212.0];
/// How far above the level the eye is, degrees.
const ABOVE: f64 = 28.0;
/// Hours until a joint of royal icing has cured right through (common practice, no source).
const CURE: &str = "12 to 24 hours";

/// The pages of the guide.
pub(super) fn pages(about: &About<'_>, guide: Result<&Guide, &Stuck>, sheet: &Sheet) -> Vec<Draft> {
    let mut flow = Flow::new(sheet);
    flow.paragraph(HEADING, true, "Build guide");
    flow.space(1.0);
    match guide {
        Ok(guide) => {
            before(&mut flow, guide);
            for k in 0..guide.stages.len() {
                stage(&mut flow, about, guide, k);
            }
            after(&mut flow, about);
        }
        Err(stuck) => {
            flow.paragraph(PLAIN, false, &format!(
                "The program found no order in which these pieces can be put up one by one, each by one straight move ({stuck}). \
                 Change the house, or try it with the paper patterns before you bake."
            ));
        }
    }
    flow.drafts(sheet, "build guide", "Build guide")
}

fn before(flow: &mut Flow, guide: &Guide) {
    let stages = guide.stages.len();
    let stages = tr!("1 stage" | "{n} stages" % stages);
    flow.paragraph(PLAIN, false, &format!(
        "{stages}. In each picture the new pieces are brown and carry the number of their template; what stood before \
         is white, and what props it up is grey."
    ));
    for text in [
        "Ice joints with stiff royal icing: a bead along both edges of the letter, pressed together, what comes out smoothed \
         with a finger.",
        "A prop is a can, a bottle, a jar or a stack of card of the height that is said. It stays until the joints of its \
         piece have set; what stands inside must come out before the stage that shuts it in.",
        &format!(
            "A joint can be handled after {HANDLE} and has cured after {CURE}; in damp air (above 60 %) allow twice as long. \
             These are habits of the trade: trust your own icing."
        ),
        "Decorate walls and glaze all pieces while they lie flat, and let that dry before they are raised. Roofs are covered once they \
         stand and have set, from the eaves up, and snow comes last.",
    ] {
        flow.point(text);
    }
    for wish in &guide.kept {
        flow.point(&format!("In this order because you want it: {}.", wish.words));
    }
    for (wish, why) in &guide.refused {
        flow.point(&format!("You wanted {}, which cannot be done: {}.", wish.words, Guide::because(why)));
    }
    flow.space(2.0);
}

fn after(flow: &mut Flow, about: &About<'_>) {
    flow.heading("When all of it stands");
    let later = later(about);
    if !later.is_empty() {
        flow.point(&format!("Once its icing can be handled, put on what was not done flat: {later}."));
    }
    flow.point(&format!("Let it cure for {CURE} before you take the last props away or carry it."));
    flow.point("What is left of joints and gaps is filled with icing from outside; snow hides all of it.");
}

/// A picture on the left, what is to be done on the right.
fn stage(flow: &mut Flow, about: &About<'_>, guide: &Guide, k: usize) {
    let width = flow.width();
    let column = width * PICTURE;
    let drawing = picture(about, guide, k, column);
    let scale = (HIGHEST / drawing.height).min(1.0);
    let size = V2::new(drawing.width, drawing.height) * scale;
    let words_width = width - column - BETWEEN;
    let lines = words(about, guide, k, words_width);
    let tall: f64 = lines.iter().map(|l| l.height * LEADING + l.gap).sum();
    let foot = flow.take(size.y.max(tall) + 4.0);
    let top = foot + size.y.max(tall) + 1.0;
    let x = flow.room.low.x;
    let rule = [P2::new(x, top + 2.0), P2::new(x + width, top + 2.0)];
    flow.put(Stroke::polyline(Layer::Notes, LineRole::Thin, &rule));
    let corner = P2::new(x + (column - size.x) / 2.0, top - size.y);
    for item in &drawing.items {
        flow.put(scaled(item, scale, corner));
    }
    let mut y = top;
    for line in lines {
        y -= line.gap + line.height * LEADING;
        let at = P2::new(x + column + BETWEEN + line.indent, y + line.height * (LEADING - 1.0) / 2.0);
        flow.put(Text { bold: line.bold, ..Text::note(at, line.height, Anchor::Start, line.text) });
    }
}

struct Line {
    text: String,
    height: f64,
    bold: bool,
    indent: f64,
    gap: f64,
}

/// What is to be done in a stage, in lines as wide as there is room.
fn words(about: &About<'_>, guide: &Guide, k: usize, width: f64) -> Vec<Line> {
    let mut lines = Vec::new();
    for (n, text) in stage_words((about.house, about.solved, about.dressed), guide, k).into_iter().enumerate() {
        let (height, bold, indent) = if n == 0 { (LARGE, true, 0.0) } else { (PLAIN, false, 3.5) };
        for (n, line) in wrapped(&text, height, bold, width - indent).into_iter().enumerate() {
            let gap = if n == 0 && !bold { 0.8 } else { 0.0 };
            lines.push(Line { text: line, height, bold, indent, gap });
        }
    }
    lines
}

/// What is put on when the house stands, a part after the other: 'Main body: tiles; Tower: slates, finial'. Snow is the last.
fn later(about: &About<'_>) -> String {
    let (house, solved, dressed) = (about.house, about.solved, about.dressed);
    let part = |k: usize| solved.pieces.get(k).map(|p| &p.part);
    let of_part = |own: &gable_shell::Part| {
        let here = |k: usize| part(k) == Some(&own.id);
        let all = dressed.finishes.iter().filter(|f| here(f.piece) && !f.is_flat_work(house, solved));
        let (snow, finishes): (Vec<_>, Vec<_>) = all.partition(|f| f.is_snow(house));
        let stuck = dressed.ornaments.iter().filter(|o| o.host.is_some_and(here) && !o.is_flat_work(house));
        let stuck = stuck.map(|o| o.name.split_once(": ").map_or(o.name.as_str(), |(_, own)| own));
        let mut what: Vec<&str> = Vec::new();
        for name in finishes.iter().map(|f| f.name).chain(stuck).chain(snow.iter().map(|f| f.name)) {
            if !what.contains(&name) {
                what.push(name);
            }
        }
        (!what.is_empty()).then(|| format!("{}: {}", own.name, what.join(", ")))
    };
    house.parts.iter().filter_map(of_part).collect::<Vec<_>>().join("; ")
}

fn picture(about: &About<'_>, guide: &Guide, k: usize, width: f64) -> gable_drawing::Drawing {
    let solved = about.solved;
    let mut shown = vec![Shown::Not; solved.pieces.len()];
    for (n, stage) in guide.stages[..=k].iter().enumerate() {
        for step in &stage.steps {
            shown[step.piece] = if n == k { Shown::New } else { Shown::Pale };
        }
    }
    let stage = &guide.stages[k];
    let labels = stage.steps.iter().map(|s| (s.piece, solved.template_number(&solved.pieces[s.piece]).to_string()));
    let props = stage.props.iter().map(block).collect();
    let scene = StageScene { shown, props, labels: labels.collect() };
    let round = ROUND.into_iter().map(|round| (round, seen(about, stage, round)));
    let round = round.reduce(|best, next| if next.1 > best.1 * 1.15 { next } else { best }).map_or(ROUND[0], |r| r.0);
    let view =
        View { width: Length::mm_of(width), icing: false, ..View::from(Angle::degrees(round), Angle::degrees(ABOVE)) };
    stage_picture(solved, &scene, &view)
}

/// How much of the outer faces of new pieces looks towards an eye.
fn seen(about: &About<'_>, stage: &Stage, round: f64) -> f64 {
    let (round, above) = (round.to_radians(), ABOVE.to_radians());
    let to_eye = V3::new(round.sin() * above.cos(), -round.cos() * above.cos(), above.sin());
    let shows = |step: &gable_raise::Step| {
        let piece = &about.solved.pieces[step.piece];
        gable_plane::ring_area(&piece.outline).abs() * piece.outward().dot(&to_eye).max(0.0)
    };
    stage.steps.iter().map(shows).sum()
}

/// A prop as it is drawn: beside an upright piece or an edge its nearer side touches it.
fn block(prop: &Prop) -> Solid {
    let aside = (prop.stands - prop.at.xy()).try_normalize(1e-6).unwrap_or_default() * (PROP / 2.0 + OFF);
    let middle = prop.at.xy() + aside;
    let half = V3::new(PROP / 2.0, PROP / 2.0, 0.0);
    let at = |z: f64| P3::new(middle.x, middle.y, z);
    Solid::block(at(prop.at.z - prop.height.mm()) - half, at(prop.at.z) + half)
}
