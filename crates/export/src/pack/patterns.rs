//! The pages with all patterns: small pieces share pages, large ones lie on several.

use super::clip::Window;
use super::place::{Care, Plan, Small};
use super::sheet::{Heading, Sheet, area, frame};
use super::template::Template;
use super::tile::Tiling;
use super::{Draft, PackError};
use gable_drawing::{Item, Layer, LineRole, Shade};
use gable_plane::{P2, V2};
use rayon::prelude::*;

/// All pattern pages; with words that may be read from the right only if that makes them fewer.
pub(super) fn patterns(templates: &[Template], sheets: &[Sheet; 2], fewer: bool) -> Result<Vec<Draft>, PackError> {
    let cares = [Care::AtOnce, Care::FewerPages];
    let has_pages = sheets[0] != sheets[1];
    let tried =
        cares[..if fewer && has_pages { 2 } else { 1 }].par_iter().map(|care| laid_out(templates, sheets, *care));
    let tried = tried.collect::<Result<Vec<_>, _>>()?;
    Ok(tried.into_iter().min_by_key(Vec::len).unwrap_or_default())
}

/// All pattern pages, on upright or on lying paper, whichever takes fewer.
fn laid_out(templates: &[Template], sheets: &[Sheet; 2], care: Care) -> Result<Vec<Draft>, PackError> {
    let smalls: Vec<Small<'_>> = templates.par_iter().map(|t| Small::new(t, care)).collect();
    // Both are the same where paper lies one way only.
    let endless = sheets[0] == sheets[1];
    let way = |sheet: &Sheet| {
        let plan = if endless { Plan::on_roll(&smalls, sheet) } else { Plan::new(&smalls, sheet, care) };
        let tiled = plan.large.iter().map(|k| Tiling::best(&templates[*k], sheets)).collect::<Result<Vec<_>, _>>()?;
        let count = plan.count() + tiled.iter().map(Tiling::count).sum::<usize>();
        Ok((plan, tiled, count))
    };
    let ways = sheets[..if endless { 1 } else { 2 }].par_iter().map(way).collect::<Result<Vec<_>, PackError>>()?;
    let best = ways.iter().zip(sheets).min_by_key(|((_, _, count), _)| *count);
    let Some(((plan, tiled, _), sheet)) = best else { return Ok(Vec::new()) };
    let shared = plan.drawn(&smalls).into_iter().map(|(mut numbers, items)| {
        let what = said("template", &numbers);
        numbers.dedup();
        let heading = Heading { what: what.clone(), ..Heading::default() };
        Draft { sheet: *sheet, items, heading, templates: numbers, bookmark: Some(what), is_cover: false }
    });
    let mut drafts: Vec<Draft> = shared.collect();
    for (template, tiling) in plan.large.iter().map(|k| &templates[*k]).zip(tiled) {
        for (k, page) in tiling.pages().into_iter().enumerate() {
            drafts.push(Draft {
                sheet: page.sheet,
                items: page.items,
                heading: page.heading,
                templates: vec![template.number],
                bookmark: (k == 0).then(|| format!("{}: {}", template.called(), template.name)),
                is_cover: false,
            });
        }
    }
    drafts.sort_by_key(|draft| draft.templates.first().copied());
    with_maps(&mut drafts);
    Ok(drafts)
}

/// A map of all these pages in a corner of each that is shared; tiles have a map of their piece.
fn with_maps(drafts: &mut [Draft]) {
    let sizes: Vec<V2> = drafts.iter().map(|draft| draft.sheet.size).collect();
    if sizes.len() < 2 {
        return;
    }
    for (k, draft) in drafts.iter_mut().enumerate().filter(|(_, draft)| draft.heading.map.is_empty()) {
        draft.heading.map = map(&sizes, k);
        draft.heading.hints.push(format!("{} of {} such pages, dark on the map", k + 1, sizes.len()));
    }
}

/// Pages side by side in rows, each as it lies, one of them dark, within a square of 1 × 1.
fn map(sizes: &[V2], here: usize) -> Vec<Item> {
    let columns = (sizes.len() as f64).sqrt().ceil().max(1.0);
    let cell = 1.0 / columns;
    let largest = sizes.iter().map(V2::max).fold(f64::MIN_POSITIVE, f64::max);
    let place = |k: usize| {
        let (row, column) = ((k as f64 / columns).floor(), k as f64 % columns);
        let half = sizes[k] / largest * cell * 0.42;
        let middle = P2::new((column + 0.5) * cell, 1.0 - (row + 0.5) * cell);
        Window { low: middle - half, high: middle + half }
    };
    let dark = area(Layer::Sheet, Shade::Biscuit { light: 0.3 }, &place(here));
    let frames = (0..sizes.len()).map(|k| frame(Layer::Sheet, LineRole::Thin, &place(k)).into());
    std::iter::once(dark.into()).chain(frames).collect()
}

/// 'template 3' or 'templates 1, 2 (3 times), 5'.
fn said(what: &str, numbers: &[usize]) -> String {
    let times = |same: &[usize]| match same {
        [number] => number.to_string(),
        same => format!("{} ({} times)", same[0], same.len()),
    };
    let list: Vec<String> = numbers.chunk_by(|a, b| a == b).map(times).collect();
    format!("{what}{} {}", if list.len() == 1 { "" } else { "s" }, list.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every page has its own place on the map, as it lies, and only the page itself is dark.
    #[test]
    fn each_page_has_its_place_on_the_map() {
        let sizes = [
            V2::new(210.0, 297.0),
            V2::new(297.0, 210.0),
            V2::new(210.0, 297.0),
            V2::new(210.0, 297.0),
            V2::new(210.0, 297.0),
        ];
        for here in 0..sizes.len() {
            let items = map(&sizes, here);
            let Item::Fill(dark) = &items[0] else { panic!("{:?}", items[0]) };
            let frames: Vec<(P2, P2)> = items[1..]
                .iter()
                .map(|item| match item {
                    Item::Stroke(stroke) => (stroke.start, gable_plane::bounds(&ends(stroke)).unwrap().1),
                    other => panic!("{other:?}"),
                })
                .collect();
            assert_eq!(frames.len(), sizes.len());
            for (k, (low, high)) in frames.iter().enumerate() {
                assert!(low.x >= 0.0 && low.y >= 0.0 && high.x <= 1.0 && high.y <= 1.0);
                let wide = (high - low).x > (high - low).y;
                assert_eq!(wide, k == 1);
                let apart = |(a, b): &(P2, P2)| a.x >= high.x || b.x <= low.x || a.y >= high.y || b.y <= low.y;
                assert!(frames.iter().enumerate().all(|(n, other)| n == k || apart(other)), "{k}");
                let is_dark = dark.rings[0].iter().any(|p| (p - low).norm() < 1e-12);
                assert_eq!(is_dark, k == here);
            }
        }
    }

    fn ends(stroke: &gable_drawing::Stroke) -> Vec<P2> {
        let to = stroke.segments.iter().map(|s| match s {
            gable_plane::Segment::Line { to } | gable_plane::Segment::Arc { to, .. } => *to,
        });
        std::iter::once(stroke.start).chain(to).collect()
    }
}
