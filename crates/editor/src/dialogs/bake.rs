use super::asking;
use crate::errands::{Errand, Progress};
use crate::table::{Paper, drawing};
use crate::theme::{Palette, bold};
use egui::{Context, RichText, ScrollArea, Sense, Ui, Vec2, WidgetInfo, accesskit::Role, vec2};
use gable_bake::{About, BakePlan, Chapter, Shelf, tray_drawing};
use gable_export::Baker;
use gable_measure::Unit;
use gable_plane::P2;
use gable_shell::House;

/// What is looked at of a bake.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum BakePart {
    /// How much of everything.
    #[default]
    Amounts,
    /// What goes in.
    Recipes,
    /// What lies on which tray.
    Trays,
    /// What to buy.
    Shopping,
    /// Where someone could be hurt.
    Cautions,
    /// What nobody has measured.
    Assumptions,
}

impl BakePart {
    const ALL: [Self; 6] =
        [Self::Amounts, Self::Recipes, Self::Trays, Self::Shopping, Self::Cautions, Self::Assumptions];

    const fn words(self) -> &'static str {
        match self {
            Self::Amounts => "How much",
            Self::Recipes => "Recipes",
            Self::Trays => "Trays",
            Self::Shopping => "Shopping",
            Self::Cautions => "Cautions",
            Self::Assumptions => "Assumptions",
        }
    }
}

/// Plans a bake beside the window.
#[derive(Default)]
pub(crate) struct Planner {
    /// What it is planned for: revision of the house, and the baker.
    asked: Option<(u64, Baker)>,
    working: Option<Errand<BakePlan>>,
    found: Option<BakePlan>,
    lost: bool,
}

impl Planner {
    fn follow(&mut self, ctx: &Context, house: &House, revision: u64, baker: &Baker) {
        if let Some(errand) = self.working.take() {
            match errand.look() {
                Progress::Under => self.working = Some(errand),
                Progress::Done(found, _) => self.found = Some(found),
                Progress::Lost => self.lost = true,
            }
        }
        let key = (revision, baker.clone());
        // One at a time: what is under way is waited for, and thrown away.
        if self.asked.as_ref() != Some(&key) && self.working.is_none() {
            let (house, baker) = (house.clone(), baker.clone());
            *self = Self { asked: Some(key), ..Self::default() };
            self.working = Some(Errand::start(ctx, move || planned(&house, &baker)));
        }
    }

    fn found(&self, revision: u64, baker: &Baker) -> Option<&BakePlan> {
        let current = self.asked.as_ref().is_some_and(|(r, b)| *r == revision && b == baker);
        self.found.as_ref().filter(|_| current)
    }
}

fn planned(house: &House, baker: &Baker) -> BakePlan {
    let house = baker.notebook.baked_here(house);
    let solved = gable_shell::solve(&house);
    let dressed = gable_dress::dress(&house, &solved);
    let guide = gable_raise::Guide::of(&solved).ok();
    let board = gable_export::board_size(&house, &solved);
    let about = About { house: &house, solved: &solved, dressed: &dressed, guide: guide.as_ref(), board };
    BakePlan::of(&about, &baker.kitchen, &baker.notebook, 1)
}

/// Shows how the house is baked; true once the person has seen enough.
pub(crate) fn bake(
    ctx: &Context,
    part: &mut BakePart,
    planner: &mut Planner,
    (house, revision, baker): (&House, u64, &Baker),
) -> bool {
    let mut done = false;
    let modal = asking(ctx, "bake").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 640.0));
        ui.heading("The bake");
        ui.horizontal_wrapped(|ui| {
            for other in BakePart::ALL {
                ui.selectable_value(part, other, other.words());
            }
        });
        ui.add_space(6.0);
        planner.follow(ctx, house, revision, baker);
        let tall = (room.y - 220.0).max(120.0);
        match planner.found(revision, baker) {
            Some(plan) => {
                let scroll = ScrollArea::vertical()
                    .id_salt("bake")
                    .auto_shrink(false)
                    .min_scrolled_height(tall)
                    .max_height(tall);
                scroll.show(ui, |ui| show(ui, *part, plan, baker, house.unit));
            }
            None if planner.lost => _ = ui.label("The bake could not be planned."),
            None => _ = ui.label("Working it out…"),
        }
        ui.add_space(10.0);
        done = ui.button("Close the bake").clicked();
    });
    done || modal.should_close()
}

fn show(ui: &mut Ui, part: BakePart, plan: &BakePlan, baker: &Baker, unit: Unit) {
    for problem in &plan.problems {
        ui.label(RichText::new(problem).color(Palette::of(ui.ctx()).blocking));
    }
    match part {
        BakePart::Amounts => plan.amounts(&baker.notebook, unit).iter().for_each(|c| chapter(ui, c)),
        BakePart::Recipes => plan.recipe_cards(&baker.notebook, unit).iter().for_each(|c| chapter(ui, c)),
        BakePart::Trays => trays(ui, plan, unit),
        BakePart::Shopping => shopping(ui, plan, unit),
        BakePart::Cautions => plan.caution_words().iter().for_each(|c| chapter(ui, c)),
        BakePart::Assumptions => chapter(ui, &plan.assumption_words()),
    }
}

fn chapter(ui: &mut Ui, chapter: &Chapter) {
    if chapter.lines.is_empty() {
        return;
    }
    ui.label(bold(&chapter.title));
    for line in &chapter.lines {
        ui.label(line);
    }
    ui.add_space(8.0);
}

/// Every tray from above with its line, and how dough is rolled.
fn trays(ui: &mut Ui, plan: &BakePlan, unit: Unit) {
    let [ovenfuls, rolled] = &plan.trays(unit)[..] else { return };
    ui.label(bold(&ovenfuls.title));
    if plan.ovenfuls.assumed_tray {
        ui.label("Say under House, 'Your kitchen…', which trays you have.");
    }
    for (tray, line) in plan.ovenfuls.trays.iter().zip(&ovenfuls.lines) {
        let (width, depth) = (tray.tray.width, tray.tray.depth);
        // On paper of this size the numbers have the size of text.
        let scale = 100.0 / width.mm();
        let picture = tray_drawing(width, depth, &tray.pieces, scale);
        let across = ui.available_width().min(420.0);
        let size = vec2(across, across * (picture.height / picture.width) as f32);
        let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
        let paper = Paper::fitted(rect, (P2::origin(), P2::new(picture.width, picture.height)), Vec2::splat(2.0));
        drawing(&ui.painter_at(rect), &picture, &paper, &Palette::of(ui.ctx()));
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, format!("Picture of tray {line}")));
        ui.label(line);
        ui.add_space(8.0);
    }
    chapter(ui, rolled);
}

fn shopping(ui: &mut Ui, plan: &BakePlan, unit: Unit) {
    for shelf in Shelf::ALL {
        let own = plan.shopping.lines.iter().filter(|line| line.shelf == shelf);
        let lines = own.map(|line| {
            let note = if line.note.is_empty() { String::new() } else { format!(" ({})", line.note) };
            format!("{}  {}{note}", line.amount.print(unit), line.name)
        });
        chapter(ui, &Chapter { title: shelf.words().to_owned(), lines: lines.collect() });
    }
    if ui.button("Copy the list").on_hover_text("To paste it into a message or a note").clicked() {
        ui.ctx().copy_text(plan.shopping.text(unit));
    }
}
