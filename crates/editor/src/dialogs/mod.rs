//! Questions that stand before the window until they are answered.

mod bake;
mod compare;
mod first;
mod keys;
mod new_house;
mod pack;
mod path;
mod rescue;
mod resize;
mod settings;
mod stand;
mod trays;
mod twice;
mod unsaved;

use egui::{Frame, Id, Margin, Modal};
use std::path::PathBuf;
use std::sync::Arc;

pub(crate) use bake::{BakeAsked, BakeChoice, Planner, bake};
pub(crate) use first::{FirstChoice, first};
pub(crate) use keys::key_list;
pub(crate) use new_house::{Beginnings, Choice, new_house, page};
pub(crate) use pack::{PackChoice, Preview, pack};
pub(crate) use path::{PathBox, PathUse, path_box};
pub(crate) use rescue::{Rescue, Rescued, rescue};
pub(crate) use resize::{ResizeChoice, Resized, Resizer, resize};
pub(crate) use settings::{Heard, SettingsChoice, settings};
pub(crate) use stand::{StandAsked, StandChoice, stand};
pub(crate) use trays::{TrayChoice, trays};
pub(crate) use twice::{Differing, Met, Twice, differing, twice};
pub(crate) use unsaved::{Answer, unsaved};

/// A sheet of paper for a question, before a dimmed window.
fn asking(ctx: &egui::Context, name: &'static str) -> Modal {
    Modal::new(Id::unique(name)).frame(Frame::window(&ctx.global_style()).inner_margin(Margin::same(22)))
}

/// What a sheet has round its body, in points: its heading, its buttons, its rims and a little of the window.
const ROUND_BODY: f32 = 150.0;

/// What stands between the heading of a sheet and its buttons: in a low window, or with large text, it scrolls.
fn body<R>(ui: &mut egui::Ui, add: impl FnOnce(&mut egui::Ui) -> R) -> R {
    let tall = (ui.ctx().content_rect().height() - ROUND_BODY).max(100.0);
    egui::ScrollArea::vertical().auto_shrink([false, true]).max_height(tall).show(ui, add).inner
}

/// The question that is asked at the moment.
#[derive(Clone, Debug)]
pub(crate) enum Dialog {
    /// Which small house to start from.
    New,
    /// What a person is asked once.
    First(Box<FirstChoice>),
    /// What every key does.
    Keys,
    /// How the program shall be.
    Settings(Box<SettingsChoice>),
    /// What to do with changes that are in no file, before going on with something.
    Unsaved(Then),
    /// What to do with unsaved work that was found.
    Rescue(Arc<Rescued>),
    /// What to do with a file that is open in another window.
    Twice(Arc<Twice>),
    /// Which counts: the house here, or what something else has put into its file.
    Differing(Arc<Differing>),
    /// The name of a file.
    Path(PathBox),
    /// What the printed set should be like.
    Pack(Box<PackChoice>),
    /// How the house is baked.
    Bake(Box<BakeChoice>),
    /// Whether the house will stand and travel.
    Stand(Box<StandChoice>),
    /// How large the house shall be.
    Resize(ResizeChoice),
    /// Which trays there are.
    Trays(TrayChoice),
}

/// What goes on once changes are saved or thrown away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Then {
    /// Choose a small house.
    New,
    /// Open a file.
    Open,
    /// Open this file.
    OpenThis(PathBuf),
    /// Close the window.
    Quit,
}

/// Lines under a heading; nothing without lines.
fn chapter(ui: &mut egui::Ui, chapter: &gable_bake::Chapter) {
    if chapter.lines.is_empty() {
        return;
    }
    ui.label(crate::theme::bold(&chapter.title));
    for line in &chapter.lines {
        ui.label(line);
    }
    ui.add_space(8.0);
}
