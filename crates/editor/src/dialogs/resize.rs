use super::{asking, body};
use crate::adapters::sentence;
use crate::errands::{Errand, Progress};
use crate::theme::{Palette, bold};
use egui::{Align2, Button, ComboBox, Context, Grid, RichText, TextEdit, Ui, WidgetInfo, accesskit::Role};
use gable_export::{Size, Wanted, percent, smallest_sound};
use gable_measure::Unit;
use gable_shell::{House, Resizing, resized};
use gable_words::tr;

/// By what a person tells the size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum By {
    Share,
    Length,
    Tray,
    Board,
    Paper,
    Dough,
}

impl By {
    const ALL: [Self; 6] = [Self::Share, Self::Length, Self::Tray, Self::Board, Self::Paper, Self::Dough];

    fn words(self) -> &'static str {
        match self {
            Self::Share => tr!("So much of its size"),
            Self::Length => tr!("So long over all"),
            Self::Tray => tr!("The largest for my tray"),
            Self::Board => tr!("The largest for my board"),
            Self::Paper => tr!("The largest for my paper"),
            Self::Dough => tr!("The largest for my dough"),
        }
    }

    fn label(self) -> &'static str {
        match self {
            Self::Share => tr!("Share"),
            Self::Length => tr!("Longer side, roof included"),
            Self::Tray => tr!("Flat inside of the tray"),
            Self::Board => tr!("Width and depth of the board"),
            Self::Paper => tr!("Paper"),
            Self::Dough => tr!("Raw dough"),
        }
    }

    fn example(self, unit: Unit) -> &'static str {
        match (self, unit) {
            (Self::Share, _) => "75%",
            (Self::Length, Unit::Millimetre) => tr!("300 mm"),
            (Self::Length, Unit::Inch(_)) => tr!("12 in"),
            (Self::Tray, Unit::Millimetre) => "430x350",
            (Self::Tray, Unit::Inch(_)) => tr!("16 1/2 in x 11 1/2 in"),
            (Self::Board, Unit::Millimetre) => "400x300",
            (Self::Board, Unit::Inch(_)) => tr!("16 in x 12 in"),
            (Self::Paper, Unit::Millimetre) => "a4",
            (Self::Paper, Unit::Inch(_)) => "letter",
            (Self::Dough, Unit::Millimetre) => tr!("1 kg"),
            (Self::Dough, Unit::Inch(_)) => tr!("2 lb"),
        }
    }

    fn read(self, text: &str, unit: Unit) -> Result<Wanted, String> {
        let read = match self {
            Self::Share => Wanted::share(text),
            Self::Length => Wanted::length(text, unit),
            Self::Tray => Wanted::tray(text, unit),
            Self::Board => Wanted::board(text, unit),
            Self::Paper => Wanted::paper(text, unit),
            Self::Dough => Wanted::dough(text),
        };
        read.map_err(|e| sentence(&e.to_string()))
    }
}

/// What a person says of the size that a house shall have.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ResizeChoice {
    by: By,
    text: String,
    rules: Resizing,
}

impl ResizeChoice {
    /// As it is, until something is said.
    pub(crate) fn new() -> Self {
        Self { by: By::Share, text: "100%".to_owned(), rules: Resizing::default() }
    }
}

/// A size beside the one that the house has.
#[derive(Clone, Debug)]
struct Comparison {
    now: Size,
    then: Size,
    /// The smallest size without findings that the house does not have now.
    least: Option<f64>,
    house: House,
}

/// Works out beside the window what a size means.
#[derive(Default)]
pub(crate) struct Resizer {
    /// What it is worked out for: revision of the house, and the choice.
    asked: Option<(u64, Wanted, Resizing)>,
    working: Option<Errand<Result<Comparison, String>>>,
    found: Option<Result<Comparison, String>>,
}

impl Resizer {
    /// Sees to it that what is found is about a house and a choice.
    fn follow(&mut self, ctx: &Context, house: &House, revision: u64, (wanted, rules): (&Wanted, Resizing)) {
        let key = (revision, wanted.clone(), rules);
        if let Some(errand) = self.working.take() {
            match errand.look() {
                Progress::Under => self.working = Some(errand),
                Progress::Done(found, _) => self.found = Some(found),
                Progress::Lost => {
                    self.found = Some(Err(tr!("This size could not be worked out. Try another.").to_owned()))
                }
            }
        }
        // One at a time: what is under way is waited for, and thrown away.
        if self.asked.as_ref() != Some(&key) && self.working.is_none() {
            let (house, wanted) = (house.clone(), wanted.clone());
            let work = move || {
                let factor = wanted.factor(&house, rules).map_err(|e| sentence(&e.to_string()))?;
                let new = resized(&house, factor, rules);
                let (now, then) = (Size::of(&house, 1.0), Size::of(&new, factor));
                Ok(Comparison { now, then, least: smallest_sound(&house, rules), house: new })
            };
            (self.asked, self.found) = (Some(key), None);
            self.working = Some(Errand::start(ctx, work));
        }
    }

    /// What is found for a choice; nothing while it is worked out.
    fn found(&self, key: &(u64, Wanted, Resizing)) -> Option<&Result<Comparison, String>> {
        self.found.as_ref().filter(|_| self.asked.as_ref() == Some(key))
    }
}

/// What the person answered.
pub(crate) enum Resized {
    /// This house instead, with the words for undo.
    Take(Box<House>, String),
    /// Nothing now.
    Leave,
}

/// Height that the answer takes, in points.
const ANSWER: f32 = 245.0;

/// Asks for a size, and shows what it means before it is taken.
pub(crate) fn resize(
    ctx: &Context,
    choice: &mut ResizeChoice,
    resizer: &mut Resizer,
    (house, revision): (&House, u64),
) -> Option<Resized> {
    let mut answer = None;
    let modal = asking(ctx, "resize").show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width((room.x - 80.0).clamp(260.0, 560.0));
        ui.heading(tr!("Make it larger or smaller"));
        let found = body(ui, |ui| asks(ui, choice, resizer, (house, revision)));
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            let takes = found.filter(|c| c.then.overall.is_some() && (c.then.factor - 1.0).abs() > 1e-9);
            if ui.add_enabled(takes.is_some(), Button::new(tr!("Take this size"))).clicked()
                && let Some(comparison) = takes
            {
                let name = tr!("change of size to {}", percent(comparison.then.factor));
                answer = Some(Resized::Take(Box::new(comparison.house.clone()), name));
            }
            if ui.button(tr!("Not now")).clicked() {
                answer = Some(Resized::Leave);
            }
        });
    });
    if modal.should_close() {
        answer = answer.or(Some(Resized::Leave));
    }
    answer
}

/// How large it shall be, and what that means once it is known.
fn asks<'a>(
    ui: &mut Ui,
    choice: &mut ResizeChoice,
    resizer: &'a mut Resizer,
    (house, revision): (&House, u64),
) -> Option<&'a Comparison> {
    ui.label(tr!("Every piece is worked out anew: dough stays as it is rolled, icing as it is piped."));
    if !house.baked.is_empty() {
        ui.label(tr!("It is another house then: what is baked for this one is not baked for that one."));
    }
    ui.add_space(8.0);
    let wanted = question(ui, choice, house.unit);
    ui.add_space(8.0);
    let mut found = None;
    let answered = ui.scope(|ui| match &wanted {
        Ok(wanted) => {
            resizer.follow(ui.ctx(), house, revision, (wanted, choice.rules));
            match resizer.found(&(revision, wanted.clone(), choice.rules)) {
                None => _ = ui.label(tr!("Working it out…")),
                Some(Err(error)) => wrong(ui, error),
                Some(Ok(comparison)) => {
                    compare(ui, comparison, house.unit);
                    found = Some(comparison);
                }
            }
        }
        Err(error) => wrong(ui, error),
    });
    // As high while it is worked out as when it is there, so that nothing moves from under the pointer.
    ui.add_space((ANSWER - answered.response.rect.height()).max(0.0));
    found
}

fn wrong(ui: &mut Ui, error: &str) {
    ui.label(RichText::new(error).color(Palette::of(ui.ctx()).blocking));
}

fn question(ui: &mut Ui, choice: &mut ResizeChoice, unit: Unit) -> Result<Wanted, String> {
    ui.horizontal_wrapped(|ui| {
        let shown = choice.by.words();
        let inner = ComboBox::from_id_salt("size by").selected_text(shown).width(230.0).show_ui(ui, |ui| {
            for by in By::ALL {
                if ui.selectable_label(choice.by == by, by.words()).clicked() && choice.by != by {
                    (choice.by, choice.text) = (by, by.example(unit).to_owned());
                }
            }
        });
        let name = tr!("How large: {shown}");
        inner.response.widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, &name));
    });
    ui.horizontal_wrapped(|ui| {
        let label = ui.label(choice.by.label());
        let field = TextEdit::singleline(&mut choice.text).desired_width(200.0).align(Align2::LEFT_CENTER);
        ui.add(field).labelled_by(label.id);
        ui.label(RichText::new(tr!("such as {}", choice.by.example(unit))).small());
    });
    let tip = tr!("Their middles stay where they are in the wall");
    ui.checkbox(&mut choice.rules.keeps_openings, tr!("Doors and windows keep their size")).on_hover_text(tip);
    let tip = tr!(
        "Else boards, caps and boxes grow or shrink with the house; shutters and sills always follow their windows"
    );
    ui.checkbox(&mut choice.rules.keeps_ornaments, tr!("Ornaments keep their size")).on_hover_text(tip);
    choice.by.read(&choice.text, unit)
}

fn compare(ui: &mut Ui, comparison: &Comparison, unit: Unit) {
    let Comparison { now, then, least, .. } = comparison;
    let pages = |s: &Size| s.pages.map_or_else(|| tr!("pages" => "none").to_owned(), |n| n.to_string());
    let rows = [
        (tr!("Size"), percent(now.factor), percent(then.factor)),
        (tr!("Over all"), now.overall_words(unit), then.overall_words(unit)),
        (tr!("Pieces"), now.pieces.to_string(), then.pieces.to_string()),
        (tr!("Pages of patterns (A4)"), pages(now), pages(then)),
        (tr!("Raw dough"), now.dough.print(unit), then.dough.print(unit)),
        (tr!("Noticed"), now.findings_words(), then.findings_words()),
    ];
    Grid::new("comparison of sizes").num_columns(3).striped(true).spacing([18.0, 4.0]).show(ui, |ui| {
        for head in ["", tr!("As it is"), tr!("As it would be")] {
            ui.label(bold(head));
        }
        ui.end_row();
        for (what, now, then) in rows {
            ui.label(what);
            ui.label(now);
            ui.label(then);
            ui.end_row();
        }
    });
    if let Some(least) = least {
        let words = tr!("Down to {} nothing is noticed that is not noticed now.", percent(*least));
        ui.label(RichText::new(words).small());
    }
}
