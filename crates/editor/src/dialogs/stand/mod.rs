//! Whether the house will stand and travel: the answers, what would help, and the snap test that they go by.

mod snap;

use super::bake::drafts::Drafts;
use super::{asking, chapter};
use crate::adapters::capital;
use crate::standing::{Asked, Asker, Said};
use crate::theme::{Palette, bold};
use egui::{Context, DragValue, RichText, ScrollArea, Ui, WidgetInfo, accesskit::Role};
use gable_bake::Notebook;
use gable_shell::House;
use gable_stand::damp::Air;
use gable_stand::{ABOUT_CAKE, Change, Class};
use gable_words::{say, tr};
use snap::SnapForm;

/// What a person looks at, tries and types.
#[derive(Clone, Debug, Default)]
pub(crate) struct StandChoice {
    part: StandPart,
    /// A change of the house that is looked at before it is taken, in words.
    trying: Option<(Change, String)>,
    snap: SnapForm,
    drafts: Drafts,
    /// Why what was said last could not be kept.
    pub(crate) trouble: Option<String>,
}

impl StandChoice {
    /// The beginning, with what is wrong with the notebook.
    pub(crate) fn new(trouble: Option<String>) -> Self {
        Self { trouble, ..Self::default() }
    }
}

/// What of the answers is looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum StandPart {
    /// What is not sound, and what would help.
    #[default]
    Weak,
    /// Every answer.
    All,
    /// The room and the way.
    Carry,
    /// What nobody has measured.
    Assumptions,
    /// Strips that the person has broken.
    Snap,
}

impl StandPart {
    const ALL: [Self; 5] = [Self::Weak, Self::All, Self::Carry, Self::Assumptions, Self::Snap];

    fn words(self) -> &'static str {
        match self {
            Self::Weak => tr!("What needs care"),
            Self::All => tr!("Everything"),
            Self::Carry => tr!("Room and way"),
            Self::Assumptions => tr!("Assumptions"),
            Self::Snap => tr!("Snap test"),
        }
    }
}

/// What the person asks of the window.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum StandAsked {
    /// To go on.
    Nothing,
    /// To see the house again.
    Close,
    /// To change the house; the change in words.
    Take(Change, String),
}

/// Shows what will stand and travel. The notebook is changed by what the person says of broken strips.
pub(crate) fn stand(
    ctx: &Context,
    choice: &mut StandChoice,
    asker: &mut Asker,
    asked: Asked<'_>,
    notebook: &mut Notebook,
) -> StandAsked {
    let mut wants = StandAsked::Nothing;
    let modal = asking(ctx, "stand").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 680.0));
        ui.heading(tr!("Will it stand?"));
        air(ui, &mut asker.room.air);
        ui.horizontal_wrapped(|ui| {
            for part in StandPart::ALL {
                ui.selectable_value(&mut choice.part, part, part.words());
            }
        });
        ui.add_space(6.0);
        if let Some(trouble) = &choice.trouble {
            ui.label(RichText::new(trouble).color(Palette::of(ctx).blocking));
        }
        asker.follow(ctx, asked);
        asker.find_help(ctx, asked);
        if let Some((change, _)) = &choice.trying {
            asker.try_out(ctx, asked, change);
        }
        trial(ui, choice, &mut wants);
        let tall = (room.y - 320.0).max(120.0);
        let scroll = ScrollArea::vertical().id_salt(("stand", choice.part.words())).auto_shrink(false);
        scroll.min_scrolled_height(tall).max_height(tall).show(ui, |ui| show(ui, choice, asker, asked.0, notebook));
        ui.add_space(6.0);
        ui.small(say(ABOUT_CAKE));
        ui.add_space(6.0);
        if ui.button(tr!("Close")).clicked() {
            wants = StandAsked::Close;
        }
    });
    if modal.should_close() { StandAsked::Close } else { wants }
}

/// The room where it is on show.
fn air(ui: &mut Ui, air: &mut Air) {
    let mut percent = air.humidity * 100.0;
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(tr!("In a room of"));
        let field = DragValue::new(&mut percent).range(10.0..=90.0).max_decimals(0).suffix(tr!(" % humidity"));
        ui.add(field).labelled_by(label.id).on_hover_text(tr!("Relative humidity, as a hygrometer shows it"));
        let label = ui.label(tr!("for"));
        let days = air.days;
        let field =
            DragValue::new(&mut air.days).range(0.0..=366.0).max_decimals(0).suffix(tr!(" day" | " days" % days));
        ui.add(field).labelled_by(label.id);
    });
    air.humidity = percent / 100.0;
}

/// What is tried: the answers are those for the changed house until it is taken or left.
fn trial(ui: &mut Ui, choice: &mut StandChoice, wants: &mut StandAsked) {
    let Some((change, words)) = &choice.trying else { return };
    let mut leave = false;
    ui.horizontal_wrapped(|ui| {
        ui.label(bold(tr!("As it would be if you {words}:")));
        if ui.button(tr!("Change the house")).on_hover_text(tr!("Undo takes it back")).clicked() {
            *wants = StandAsked::Take(change.clone(), words.clone());
            leave = true;
        }
        leave |= ui.button(tr!("Leave it as it is")).clicked();
    });
    ui.add_space(6.0);
    if leave {
        choice.trying = None;
    }
}

fn show(ui: &mut Ui, choice: &mut StandChoice, asker: &Asker, house: &House, notebook: &mut Notebook) {
    if choice.part == StandPart::Snap {
        return choice.snap.show(ui, house, notebook, &mut choice.drafts);
    }
    let trying = choice.trying.is_some();
    let said = if trying { asker.said_changed() } else { asker.said() };
    let Some(said) = said else {
        let words = if asker.is_lost() { tr!("It could not be worked out.") } else { tr!("Working it out…") };
        ui.label(words);
        return;
    };
    match choice.part {
        StandPart::Weak => {
            if let Some(before) = asker.said().filter(|_| trying) {
                ui.label(tr!("As it is: {}", before.short.join("; ")));
            }
            weak(ui, said);
            if !trying {
                helps(ui, choice, asker, house);
            }
        }
        StandPart::All => said.matters.iter().for_each(|c| chapter(ui, c)),
        StandPart::Carry => said.way.iter().for_each(|c| chapter(ui, c)),
        StandPart::Assumptions => chapter(ui, &said.assumed),
        StandPart::Snap => {}
    }
}

fn weak(ui: &mut Ui, said: &Said) {
    ui.label(said.short.join("; "));
    ui.add_space(8.0);
    let palette = Palette::of(ui.ctx());
    for (title, lines) in &said.weak {
        ui.label(bold(*title));
        for (class, line) in lines {
            let text = RichText::new(line);
            ui.label(if *class == Class::Breaks { text.color(palette.blocking) } else { text });
        }
        ui.add_space(8.0);
    }
}

/// Changes that help, each to be tried.
fn helps(ui: &mut Ui, choice: &mut StandChoice, asker: &Asker, house: &House) {
    let Some(all) = asker.helps() else {
        ui.label(tr!("Looking for what would help…"));
        return;
    };
    if all.is_empty() {
        return;
    }
    ui.label(bold(tr!("Tried, and helps")));
    for (tried, line) in all {
        ui.label(capital(line));
        let words = tried.change.words(house);
        let button =
            ui.button(tr!("Try it")).on_hover_text(tr!("See every answer as it would be; nothing is changed yet"));
        let spoken = tr!("Try it: {words}");
        button.widget_info(|| WidgetInfo::labeled(Role::Button, true, &spoken));
        if button.clicked() {
            choice.trying = Some((tried.change.clone(), words));
        }
    }
}
