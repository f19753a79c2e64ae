use crate::actions::Action;
use crate::dialogs::{Dialog, PackChoice, PathUse, Planner, Preview, Resizer};
use crate::document::Document;
use crate::errands::{Errand, Writing};
use crate::fields::{Fields, Touched};
use crate::home::Home;
use crate::keep::Keep;
use crate::marks::{Noticed, Sorted, Strips};
use crate::panels::Notice;
use crate::person::{Look, Person};
use crate::picturing::Picturing;
use crate::selection::Selection;
use crate::several::Company;
use crate::solving::Solver;
use crate::standing::Asker;
use crate::start::Start;
use crate::starting::Offer;
use crate::table::{Gesture, Table};
use crate::view::{Shown, View};
use crate::{adapters, theme, view};
use egui::{Context, Ui, ViewportCommand};
use gable_measure::{Finding, Severity};
use gable_shell::kitchen::Kitchen;
use gable_shell::{House, Relation, Remedy, file, settle};
use gable_words::{Tongue, tr};
use std::path::{Path, PathBuf};

/// A remedy that is looked at before it is taken.
#[derive(Clone, Debug)]
pub(crate) struct Trial {
    pub(crate) remedy: Remedy,
    /// Revision of the house that it was found for.
    revision: u64,
    /// Number of the question about the changed house.
    question: u64,
}

/// The whole window: a house, what is shown of it, and what the person is doing.
pub struct Editor {
    pub(crate) document: Option<Document>,
    pub(crate) shown: Option<Shown>,
    /// Whether what is shown is older than the house, because the house as it is cannot be built.
    pub(crate) stale: bool,
    pub(crate) findings: Vec<Finding>,
    /// What would put some of the findings right, tried with the solver.
    pub(crate) remedies: Vec<Remedy>,
    /// What is tried: the house is shown as it would be, and stays as it is.
    pub(crate) trying: Option<Trial>,
    pub(crate) selection: Selection,
    /// What is selected beside it.
    pub(crate) company: Company,
    pub(crate) fields: Fields,
    pub(crate) table: Table,
    pub(crate) view: View,
    pub(crate) dialog: Option<Dialog>,
    pub(crate) notice: Option<Notice>,
    /// Houses to start from, once they have been asked for.
    pub(crate) offer: Offer,
    pub(crate) layout: crate::layout::Layout,
    /// Whether there is a graphics driver.
    pub(crate) drawn: bool,
    /// Whether the desktop is asked for file names.
    pub(crate) desktop: bool,
    pub(crate) asking: Option<(PathUse, Errand<Option<PathBuf>>)>,
    /// The opening that a drawing is asked for.
    pub(crate) outline_for: Option<Selection>,
    /// The pack or the files that are being made.
    pub(crate) writing: Option<Writing>,
    pub(crate) pack: PackChoice,
    /// The pages of the pack, while they are looked at.
    pub(crate) preview: Preview,
    /// The picture that is being saved.
    pub(crate) picturing: Picturing,
    /// What a size means, while one is asked for.
    pub(crate) resizer: Resizer,
    /// How the house is baked, while that is looked at.
    pub(crate) planner: Planner,
    /// What was noticed of each piece, once that is looked at.
    pub(crate) noticed: Noticed,
    /// What bakes alike, once that is looked at.
    pub(crate) sorted: Sorted,
    /// The narrowest strips, once these are looked at.
    pub(crate) strips: Strips,
    /// What will stand and travel, once that is looked at.
    pub(crate) asker: Asker,
    /// What to do once the file is saved.
    pub(crate) after_saving: Option<crate::dialogs::Then>,
    /// Asked for, but a field is still being typed in.
    pub(crate) waiting: Option<Action>,
    pub(crate) leaving: bool,
    pub(crate) home: Home,
    pub(crate) keep: Keep,
    pub(crate) person: Person,
    /// How the window looks at the moment, by the settings.
    pub(crate) worn: Option<(Look, u16, bool)>,
    /// The language of the window.
    pub(crate) tongue: Tongue,
    pub(crate) solver: Solver,
    /// Number of the house whose order of assembly is among the findings, or does not belong there.
    raised: Option<u64>,
    questions: u64,
    first_question: u64,
    asked: Option<(u64, Option<usize>)>,
    dressed: bool,
    window_title: String,
}

impl Editor {
    /// An editor without a window of its own: houses are worked out at once, the view is a plain sheet, and file names
    /// are asked for by the editor itself.
    ///
    /// # Errors
    /// When the file of `start` cannot be read.
    pub fn without_window(start: Start) -> Result<Self, String> {
        Ok(Self::new(start.document()?, Solver::here(), false, false))
    }

    /// The same, but houses are worked out on a thread of their own, as in a window; it wakes `ctx`.
    ///
    /// # Errors
    /// When the file of `start` cannot be read.
    pub fn beside(ctx: &Context, start: Start) -> Result<Self, String> {
        Ok(Self::new(start.document()?, Solver::aside(ctx.clone()), false, false))
    }

    /// An editor that fills a window.
    pub(crate) fn in_window(ctx: &Context, document: Option<Document>, drawn: bool) -> Self {
        theme::install(ctx);
        let editor = Self::new(document, Solver::aside(ctx.clone()), drawn, crate::errands::desktop_asks());
        let editor = Self { dressed: true, ..editor };
        let editor = match Home::usual_file() {
            Some(file) => editor.at_home(file),
            None => editor,
        };
        match Keep::usual_folder() {
            Some(folder) => editor.keeping_in(&folder),
            None => editor,
        }
    }

    /// Says what went wrong before there was a window.
    pub fn telling(self, trouble: Option<String>) -> Self {
        let notice = trouble.map(Notice::trouble).or(self.notice);
        Self { notice, ..self }
    }

    fn new(document: Option<Document>, solver: Solver, drawn: bool, desktop: bool) -> Self {
        let dialog = document.is_none().then_some(Dialog::New);
        let mut editor = Self {
            document: None,
            shown: None,
            stale: false,
            findings: Vec::new(),
            remedies: Vec::new(),
            trying: None,
            selection: Selection::House,
            company: Company::default(),
            fields: Fields::default(),
            table: Table::default(),
            view: View::default(),
            dialog,
            notice: None,
            offer: Offer::default(),
            layout: crate::layout::Layout::default(),
            drawn,
            desktop,
            asking: None,
            outline_for: None,
            writing: None,
            pack: PackChoice::default(),
            preview: Preview::default(),
            picturing: Picturing::default(),
            resizer: Resizer::default(),
            planner: Planner::default(),
            noticed: Noticed::default(),
            sorted: Sorted::default(),
            strips: Strips::default(),
            asker: Asker::default(),
            after_saving: None,
            waiting: None,
            leaving: false,
            home: Home::default(),
            keep: Keep::default(),
            person: Person::default(),
            worn: None,
            tongue: Tongue::ENGLISH,
            solver,
            raised: None,
            questions: 0,
            first_question: 0,
            asked: None,
            dressed: false,
            window_title: String::new(),
        };
        if let Some(document) = document {
            editor.take_up(document);
        }
        editor
    }

    /// The same editor, with what is kept for a person between houses, such as trays, in this file.
    #[must_use]
    pub fn at_home(self, file: PathBuf) -> Self {
        let (person, unread) = file.parent().map(Person::kept_in).unwrap_or_default();
        let tongue = person.tongue();
        tongue.speak();
        let (home, mut troubles) = Home::kept_in(file);
        troubles.extend(unread);
        let notice = (!troubles.is_empty()).then(|| Notice::trouble(troubles.join("; ")));
        let mut editor = Self { home, person, tongue, notice: None, ..self };
        editor.pack = std::mem::take(&mut editor.pack).on(editor.person.settings().paper);
        editor.take_tools();
        editor.ask_first();
        Self { notice: notice.or(editor.notice.take()), ..editor }
    }

    /// The house as it is now.
    pub fn house(&self) -> Option<&House> {
        self.document.as_ref().map(Document::house)
    }

    /// The file of the house, once it has one.
    pub fn path(&self) -> Option<&Path> {
        self.document.as_ref().and_then(Document::path)
    }

    /// Whether the house has changes that are in no file.
    pub fn is_changed(&self) -> bool {
        self.document.as_ref().is_some_and(Document::is_changed)
    }

    /// Whether the person has agreed to close the window.
    pub fn is_leaving(&self) -> bool {
        self.leaving
    }

    /// How many pieces are shown. The last house that could be built stays when the house as it is cannot.
    pub fn pieces_shown(&self) -> usize {
        self.shown.as_ref().map_or(0, |s| s.solved.pieces.len())
    }

    /// Makes the meshes that the graphics card is given, as the window does whenever the house has changed, and says how
    /// many corners they have: none when they were made before. Without a window this is the one part of a frame that is
    /// left out.
    pub fn prepare_picture(&mut self) -> usize {
        self.shown.as_ref().map_or(0, |shown| self.view.prepare(shown))
    }

    /// Speaks another language from now on; what was worked out in words is worked out anew.
    pub(crate) fn speak(&mut self, tongue: Tongue) {
        if self.tongue != tongue {
            tongue.speak();
            self.tongue = tongue;
            self.asked = None;
            self.planner.forget();
            self.asker = Asker::default();
            self.preview = Preview::default();
            self.resizer = Resizer::default();
        }
    }

    /// Puts another house on the table.
    pub(crate) fn take_up(&mut self, document: Document) {
        self.document = Some(document);
        self.first_question = self.questions + 1;
        self.asked = None;
        self.shown = None;
        self.stale = false;
        self.findings.clear();
        self.remedies.clear();
        self.trying = None;
        self.fields.clear();
        let parts = self.house().map(|h| h.parts.as_slice()).unwrap_or_default();
        self.selection = parts.first().map_or(Selection::House, |p| Selection::Part(p.id.clone()));
        self.company.dismiss();
        self.table = Table::default();
        self.view.clear();
        self.dialog = None;
        (self.noticed, self.sorted, self.strips) = (Noticed::default(), Sorted::default(), Strips::default());
        self.offer.forget();
        self.name_file();
        self.take_tools();
    }

    /// Draws the whole window and does what the person asks for.
    pub fn ui(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        if !std::mem::replace(&mut self.dressed, true) {
            theme::install(&ctx);
            // Faces of type are there from the next frame on.
            ctx.request_repaint();
            return;
        }
        self.tongue.speak();
        self.wear(&ctx);
        self.hear(&ctx);
        self.prepare_offer(&ctx);
        let mut asked = self.waiting.take();
        asked = asked.or_else(|| Action::pressed(&ctx, self.dialog.is_some() && !self.is_opening()));
        self.mind_close_button(&ctx);
        self.mind_drops(&ctx);
        self.clear_picture();
        asked = crate::layout::show(self, ui).or(asked);
        self.take_picture(&ctx);
        if let Some(action) = asked {
            self.perform_when_typed(&ctx, action);
        }
        self.show_dialog(&ctx);
        self.ask_solver(&ctx);
        self.keep_work();
        self.entitle(&ctx);
    }

    /// Takes a changed house, or says why it cannot be.
    ///
    /// Sizes that follow others are set to what they follow; one that was changed by hand lets go.
    pub(crate) fn commit(&mut self, mut house: House, touched: Option<Touched>, gesture: Gesture) {
        let Some(document) = &mut self.document else { return };
        if &house == document.house() {
            return;
        }
        house.drop_lost_dressing();
        house.keep_credit(document.opened(), document.house(), &self.home.kitchen().name);
        let gone = house.let_go_of_changed(document.house());
        let house = if house.relations.is_empty() { house } else { settle(&house).0 };
        let name = touched.as_ref().map_or(tr!("change"), |t| t.name.as_str());
        let faults = file::check(&house);
        if faults.is_empty() {
            document.change(name, house, gesture.0);
            self.fields.house_changed();
            self.tell_of_gone(&gone);
            return;
        }
        let mut words: Vec<String> = Vec::new();
        for said in faults.iter().map(adapters::words_of) {
            if !words.contains(&said) {
                words.push(said);
            }
        }
        let words = words.join(" ");
        match touched {
            Some(t) if !t.text.is_empty() => self.fields.refuse(&t.place, t.text, words),
            _ if gesture.0.is_some() => {}
            _ => self.notice = Some(Notice::trouble(words)),
        }
    }

    /// Says of sizes that were changed by hand that they follow no longer.
    fn tell_of_gone(&mut self, gone: &[Relation]) {
        let Some(house) = self.house().filter(|_| !gone.is_empty()) else { return };
        let say = |r: &Relation| {
            let what = r.follower.words(house);
            adapters::sentence(&tr!("{what} was {} and follows no longer, because you changed it", r.words(house)))
        };
        let words: Vec<String> = gone.iter().map(say).collect();
        self.notice = Some(Notice::passing(tr!("{} Undo takes it back.", words.join(" "))));
    }

    /// What has come in since the last frame.
    fn hear(&mut self, ctx: &Context) {
        if let Some(answer) = self.solver.answer().filter(|a| a.number >= self.first_question) {
            let latest = answer.number == self.questions;
            match answer.shown {
                Some(shown) => self.show_answer(shown),
                None if latest => {
                    self.stale = true;
                    self.notice = Some(Notice::trouble(tr!(
                        "this house could not be worked out, which is a fault of the program. \
                         Undo the last change; nothing is lost."
                    )));
                }
                None => {}
            }
            ctx.request_repaint();
        }
        if let Some(shown) = self.shown.as_ref().filter(|_| self.trying.is_none() && !self.stale)
            && self.remedies != shown.remedies()
        {
            self.remedies = shown.remedies().to_vec();
        }
        // What is found beside the window comes in later.
        if let Some(shown) = self.shown.as_ref().filter(|_| self.trying.is_none() && !self.stale)
            && self.raised != Some(shown.number)
            && shown.guide().is_some()
        {
            self.raised = Some(shown.number);
            self.findings = self.home.findings(shown);
        }
        self.hear_errands(ctx);
        self.hear_of_file();
    }

    /// Shows the house as it would be with a remedy; the same again ends that.
    pub(crate) fn try_out(&mut self, remedy: Remedy) {
        let Some(revision) = self.document.as_ref().map(Document::revision) else { return };
        let ends = self.trying.as_ref().is_some_and(|t| t.remedy == remedy);
        self.trying = (!ends).then_some(Trial { remedy, revision, question: u64::MAX });
    }

    fn show_answer(&mut self, shown: Shown) {
        if self.trying.as_ref().is_some_and(|t| shown.number >= t.question) {
            // The findings stay those of the house as it is, so that they can be gone through.
            self.raised = Some(shown.number);
            self.shown = Some(shown);
            return;
        }
        self.findings = self.home.findings(&shown);
        self.remedies = shown.remedies().to_vec();
        let blocked = self.findings.iter().any(|f| f.severity == Severity::Blocking);
        let empty = shown.solved.pieces.is_empty();
        self.stale = empty && (blocked || self.shown.is_some());
        if !self.stale {
            self.shown = Some(shown);
        }
    }

    /// Takes what the person bakes with, keeps it, and looks at the house again.
    pub(crate) fn furnish(&mut self, kitchen: Kitchen) {
        if let Err(error) = self.home.furnish(kitchen) {
            self.notice = Some(Notice::trouble(error));
        }
        // Tools decide what is too fine, which is found anew.
        self.asked = None;
        if let Some(shown) = self.shown.as_ref().filter(|_| !self.stale) {
            self.findings = self.home.findings(shown);
        }
    }

    /// Takes over what the file of a house says of tools, which belong to the kitchen.
    fn take_tools(&mut self) {
        let mut kitchen = self.home.kitchen().clone();
        let Some(words) = self.house().and_then(|house| kitchen.take_over(house)) else { return };
        self.notice = Some(Notice::done(adapters::sentence(&words)));
        if &kitchen != self.home.kitchen() {
            self.furnish(kitchen);
        }
    }

    fn ask_solver(&mut self, ctx: &Context) {
        if !ctx.input(|i| i.pointer.any_down())
            && let Some(document) = &mut self.document
        {
            document.end_gesture();
        }
        let Some(document) = &self.document else { return };
        // Another change ends a trial.
        self.trying = self.trying.take().filter(|t| t.revision == document.revision());
        let wanted = Some((document.revision(), self.trying.as_ref().map(|t| t.remedy.finding)));
        if self.asked != wanted {
            self.asked = wanted;
            self.questions += 1;
            let mut house = self.home.kitchen().equip(document.house());
            if let Some(trial) = &mut self.trying {
                trial.question = self.questions;
                trial.remedy.change.apply(&mut house);
            }
            self.solver.ask(self.questions, &house);
            ctx.request_repaint();
        }
    }

    /// Closing the window must not lose anything.
    fn mind_close_button(&mut self, ctx: &Context) {
        if ctx.input(|i| i.viewport().close_requested()) && !self.leaving && self.is_changed() {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.waiting = Some(Action::Quit);
        }
    }

    fn entitle(&mut self, ctx: &Context) {
        let mark = if self.is_changed() { " *" } else { "" };
        let title = self.document.as_ref().map_or_else(String::new, |d| format!("{}{mark} – ", d.title()));
        let title = format!("{title}Gablewright");
        if title != self.window_title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.window_title = title;
        }
    }
}

impl eframe::App for Editor {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        Self::ui(self, ui);
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        // Ended by the desktop without being asked: what is unsaved is offered again.
        if !self.is_changed() {
            self.close_up();
        }
        view::close();
    }
}
