//! What stands round the drawing table and the view.

mod add_part;
mod arrange;
mod baked;
mod dressing;
mod findings;
mod follow;
mod house_sizes;
mod icon;
mod notice;
mod opening;
mod part_sizes;
mod parts;
mod pieces;
mod place_sizes;
mod posts;
mod roof_sizes;
mod several;
mod side_sizes;
mod sizes;
mod stages;
mod topbar;
mod whole;

pub(crate) use add_part::{Added, add_part};
pub(crate) use arrange::arrange;
pub(crate) use findings::{Heeded, findings};
pub(crate) use follow::followed;
pub(crate) use house_sizes::units;
pub(crate) use icon::{severity_colour, severity_word};
pub(crate) use notice::{Notice, notice};
pub(crate) use parts::{PART_ROW, parts, side_name};
pub(crate) use pieces::pieces;
pub(crate) use several::several;
pub(crate) use sizes::sizes;
pub(crate) use stages::stages;
pub(crate) use topbar::{TopBar, topbar};
