//! The bake of a house: how much, what goes in, who does what when, and working through it. Whatever is said here is kept at
//! once in the person's notebook.

mod biscuits;
mod days;
pub(super) mod drafts;
mod figures;
mod hours;
mod ingredients;
mod lots;
mod planner;
mod recipes;
mod shopping;
mod today;
mod trays;

use gable_words::tr;
pub(crate) use planner::Planner;

use super::{asking, chapter};
use crate::table::{Paper, drawing};
use crate::theme::{Palette, bold};
use biscuits::BiscuitForm;
use days::Desk;
use drafts::Drafts;
use egui::{Context, RichText, ScrollArea, Sense, Ui, Vec2, WidgetInfo, accesskit::Role, vec2};
use gable_bake::Notebook;
use gable_drawing::Drawing;
use gable_export::Baker;
use gable_plane::P2;
use gable_shell::House;
use planner::{Found, Planned};

/// What is looked at of a bake.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum BakePart {
    /// How much of everything.
    #[default]
    Amounts,
    /// What goes in.
    Recipes,
    /// What lies on which tray.
    Trays,
    /// What to buy.
    Shopping,
    /// By when, who helps, where.
    Hours,
    /// The timetable.
    Days,
    /// What to do now.
    Today,
    /// Two test biscuits.
    Biscuits,
    /// What nobody has measured, and what the person has.
    Figures,
    /// Where someone could be hurt.
    Cautions,
}

impl BakePart {
    const ALL: [Self; 10] = [
        Self::Amounts,
        Self::Recipes,
        Self::Trays,
        Self::Shopping,
        Self::Hours,
        Self::Days,
        Self::Today,
        Self::Biscuits,
        Self::Figures,
        Self::Cautions,
    ];

    fn words(self) -> &'static str {
        match self {
            Self::Amounts => tr!("How much"),
            Self::Recipes => tr!("Recipes"),
            Self::Trays => tr!("Trays"),
            Self::Shopping => tr!("Shopping"),
            Self::Hours => tr!("Who and when"),
            Self::Days => tr!("Days"),
            Self::Today => tr!("Today"),
            Self::Biscuits => tr!("Test biscuits"),
            Self::Figures => tr!("Figures"),
            Self::Cautions => tr!("Cautions"),
        }
    }
}

/// Where a person is in the bake, and what is being typed.
#[derive(Clone, Debug, Default)]
pub(crate) struct BakeChoice {
    part: BakePart,
    drafts: Drafts,
    biscuits: BiscuitForm,
    /// Id of a piece that broke, while it is decided what to do.
    broke: Option<String>,
    /// Why what was said last could not be kept.
    pub(crate) trouble: Option<String>,
}

impl BakeChoice {
    /// The beginning, with what is wrong with the notebook.
    pub(crate) fn new(trouble: Option<String>) -> Self {
        Self { trouble, ..Self::default() }
    }

    /// The same, where it is said by when, how many and with whom.
    pub(crate) fn at_hours(self) -> Self {
        Self { part: BakePart::Hours, ..self }
    }
}

/// What the person asks of the window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum BakeAsked {
    /// To go on.
    Nothing,
    /// To see the house again.
    Close,
    /// To choose the file of another house that is baked with this one.
    Another,
    /// To save the days as a calendar.
    Calendar,
    /// To save the days as a table.
    Table,
    /// To save the shopping list as a table.
    ShoppingList,
}

/// Shows how the house is baked. The notebook is changed by what the person says; `former` is the title that the house had when
/// it was opened.
pub(crate) fn bake(
    ctx: &Context,
    choice: &mut BakeChoice,
    planner: &mut Planner,
    (house, revision, baker): (&House, u64, &Baker),
    (notebook, former): (&mut Notebook, &str),
) -> BakeAsked {
    let mut asked = BakeAsked::Nothing;
    let modal = asking(ctx, "bake").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 860.0));
        ui.heading(tr!("The bake"));
        ui.horizontal_wrapped(|ui| {
            for other in BakePart::ALL {
                ui.selectable_value(&mut choice.part, other, other.words());
            }
        });
        ui.add_space(6.0);
        lots::renamed(ui, house, former, notebook);
        if let Some(trouble) = &choice.trouble {
            ui.label(RichText::new(trouble).color(Palette::of(ctx).blocking));
        }
        planner.follow(ctx, house, revision, baker);
        let ways = choice.broke.clone().filter(|_| choice.part == BakePart::Today);
        let ways = ways.and_then(|piece| planner.ways(ctx, house, baker, &piece).cloned());
        let tall = (room.y - 240.0).max(120.0);
        let scroll = ScrollArea::vertical()
            .id_salt(("bake", choice.part.words()))
            .auto_shrink(false)
            .min_scrolled_height(tall)
            .max_height(tall);
        scroll.show(ui, |ui| asked = show(ui, choice, planner, (house, ways), notebook));
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            if ui.button(tr!("Close the bake")).clicked() {
                asked = BakeAsked::Close;
            }
            if planner.is_working() {
                ui.label(tr!("Working it out…"));
            } else if planner.is_lost() {
                ui.label(tr!("The bake could not be planned."));
            }
        });
    });
    if modal.should_close() { BakeAsked::Close } else { asked }
}

fn show(
    ui: &mut Ui,
    choice: &mut BakeChoice,
    planner: &Planner,
    (house, ways): (&House, Option<Found>),
    notebook: &mut Notebook,
) -> BakeAsked {
    let drafts = &mut choice.drafts;
    match choice.part {
        BakePart::Hours => return hours::show(ui, house, notebook, drafts),
        BakePart::Figures => figures::show(ui, notebook, drafts),
        BakePart::Biscuits => choice.biscuits.show(ui, house, notebook, drafts),
        _ => {
            if let Some(planned) = planner.found() {
                return show_planned(ui, choice, (planned, planner), (house, ways), notebook);
            }
        }
    }
    BakeAsked::Nothing
}

/// What can only be shown once it is worked out.
fn show_planned(
    ui: &mut Ui,
    choice: &mut BakeChoice,
    (planned, planner): (&Planned, &Planner),
    (house, ways): (&House, Option<Found>),
    notebook: &mut Notebook,
) -> BakeAsked {
    let (plan, unit) = (&planned.plan, house.unit);
    for problem in &plan.problems {
        ui.label(RichText::new(problem).color(Palette::of(ui.ctx()).blocking));
    }
    match choice.part {
        BakePart::Recipes => recipes::show(ui, plan, notebook, &mut choice.drafts, unit),
        BakePart::Trays => trays::show(ui, plan, unit),
        BakePart::Shopping => return shopping::show(ui, plan, notebook, &mut choice.drafts, unit),
        BakePart::Cautions => plan.caution_words().iter().for_each(|c| chapter(ui, c)),
        BakePart::Days | BakePart::Today => match &planned.days {
            None => _ = ui.label(tr!("Say under 'Who and when' by when the house must stand, and who helps.")),
            Some(Err(error)) => _ = ui.label(RichText::new(error).color(Palette::of(ui.ctx()).blocking)),
            Some(Ok(days)) => {
                let desk = Desk { house, plan, days, now: planner.now() };
                if choice.part == BakePart::Days {
                    return days::show(ui, &desk, notebook, &mut choice.drafts);
                }
                today::show(ui, &desk, notebook);
                today::broke(ui, &mut choice.broke, (&planned.pieces, &desk), ways, notebook);
            }
        },
        BakePart::Amounts | BakePart::Hours | BakePart::Figures | BakePart::Biscuits => {
            if plan.copies() > 1 {
                ui.label(bold(plan.title()));
                ui.add_space(4.0);
            }
            plan.amounts(notebook, unit).iter().for_each(|c| chapter(ui, c));
            chapter(ui, &plan.cost_words(notebook));
        }
    }
    BakeAsked::Nothing
}

/// A drawing as wide as this, with a name for those who do not see it.
fn picture(ui: &mut Ui, picture: &Drawing, across: f32, name: &str) {
    let size = vec2(across, across * (picture.height / picture.width) as f32);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let paper = Paper::fitted(rect, (P2::origin(), P2::new(picture.width, picture.height)), Vec2::splat(2.0));
    drawing(&ui.painter_at(rect), picture, &paper, &Palette::of(ui.ctx()));
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, name));
}
