use super::asking;
use egui::Context;

/// Which paper the pack is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum PackPaper {
    /// A4.
    #[default]
    A4,
    /// US Letter.
    Letter,
    /// The area that both have.
    Both,
}

/// What the printed set should be like.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct PackChoice {
    /// The paper.
    pub(crate) paper: PackPaper,
}

/// Asks for the paper. `Some(true)`: go on and choose a folder; `Some(false)`: not now.
pub(crate) fn pack(ctx: &Context, choice: &mut PackChoice) -> Option<bool> {
    let mut answer = None;
    let modal = asking(ctx, "pack").show(ctx, |ui| {
        ui.set_max_width(440.0);
        ui.heading("Make the pack");
        ui.label("Every piece at true scale, ready to print, cut out and lay on the dough.");
        ui.add_space(6.0);
        ui.label("Which paper is in the printer?");
        ui.radio_value(&mut choice.paper, PackPaper::A4, "A4");
        ui.radio_value(&mut choice.paper, PackPaper::Letter, "Letter");
        ui.radio_value(&mut choice.paper, PackPaper::Both, "Either: pages that fit on both");
        ui.add_space(6.0);
        ui.label("Print at actual size, not 'fit to page', and check the bars with a ruler before you cut.");
        ui.label("Pages and ink are not food: keep printed paper off the dough, or put baking parchment between.");
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            answer = ui.button("Choose where it goes…").clicked().then_some(true);
            answer = answer.or(ui.button("Not now").clicked().then_some(false));
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(false));
    }
    answer
}
