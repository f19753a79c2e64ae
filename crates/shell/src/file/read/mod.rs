//! From text to a house, noting every fault on the way.
//!
//! What is faulty is replaced by something harmless, so that reading can go on; the fault stays, and no house comes out.

mod baked;
mod dressing;
mod entries;
mod floor;
mod house;
mod log;
mod opening;
mod opening_parts;
mod outline;
mod part;
mod place;
mod relation;
mod side;
mod tree;
mod values;

use super::fault::{Fault, FileErrors};
use super::{check, limits};
use crate::House;
use gable_words::tr;
use log::Log;

pub(super) use log::{meant, meant_or_known, shown, too_many};

/// Reads and checks the text of a house file.
pub(super) fn house(text: &str) -> Result<House, FileErrors> {
    // Some programs put a byte order mark before the text; it means nothing.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let whole = |what: &str, hint: &str| FileErrors(vec![Fault::new("file", what.to_owned(), hint)]);
    if text.len() > limits::LONGEST_FILE {
        return Err(whole(tr!("it is larger than 16 MB"), tr!("no house is; is this the right file?")));
    }
    if text.trim().is_empty() {
        return Err(whole(tr!("it is empty"), tr!("it may have been cut off while it was saved; look for a copy")));
    }
    let tree = tree::parse(text).map_err(|fault| FileErrors(vec![fault]))?;
    let mut log = Log::default();
    let house = house::read(&tree, &mut log);
    let found = house.as_ref().map(check::noted).unwrap_or_default();
    let new: Vec<Fault> = found.into_iter().filter(|n| n.stands_beside(log.faults())).map(|n| n.fault).collect();
    for fault in new {
        log.add_at_source(fault);
    }
    match (house, log.into_faults()) {
        (Some(house), faults) if faults.is_empty() => Ok(house),
        (_, faults) => Err(FileErrors(faults)),
    }
}
