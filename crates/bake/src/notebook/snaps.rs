//! Snap tests in the file of a notebook.

use super::NotebookError;
use super::file::{masses, wrong};
use super::types::{SnapData, StripData};
use crate::{Mass, SnapTest, Strip};
use gable_measure::Length;

pub(super) fn snap_data(test: &SnapTest) -> SnapData {
    let strip = |strip: &Strip| StripData {
        width: strip.width.mm(),
        thickness: strip.thickness.mm(),
        broke_at: strip.broke_at.g(),
        load: strip.sag.map(|(load, _)| load.g()),
        sag: strip.sag.map(|(_, sag)| sag.mm()),
    };
    SnapData { dough: test.dough.clone(), span: test.span.mm(), strips: test.strips.iter().map(strip).collect() }
}

pub(super) fn snap(place: &str, data: &SnapData) -> Result<SnapTest, NotebookError> {
    let mut strips = Vec::new();
    for (k, strip) in data.strips.iter().enumerate() {
        let place = format!("{place}.strips[{k}]");
        let sag = match (masses(&format!("{place}.load"), strip.load)?, strip.sag) {
            (Some(load), Some(sag)) => Some((load, Length::mm_of(sag))),
            (None, None) => None,
            _ => return Err(wrong(place, "a load and the sag under it belong together; give both, or leave both out")),
        };
        strips.push(Strip {
            width: Length::mm_of(strip.width),
            thickness: Length::mm_of(strip.thickness),
            broke_at: Mass::grams(strip.broke_at),
            sag,
        });
    }
    let test = SnapTest { dough: data.dough.clone(), span: Length::mm_of(data.span), strips };
    test.judge().map_err(|e| wrong(place, e.to_string()))?;
    Ok(test)
}
