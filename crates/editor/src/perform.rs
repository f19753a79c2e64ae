//! What happens when something is asked for: files, undo, the pack, closing.

use crate::actions::Action;
use crate::adapters::{self, NoPack};
use crate::app::Editor;
use crate::dialogs::{self, Answer, Dialog, PathBox, PathUse, ResizeChoice, Resized, Resizer, Then, TrayChoice};
use crate::document::Document;
use crate::errands::{Errand, NO_DIALOG, Progress, Writing, ask_desktop};
use crate::fields::Touched;
use crate::marks::Marking;
use crate::panels::Notice;
use crate::selection::Selection;
use crate::starting::other_look;
use crate::table::{Gesture, Sheet};
use crate::view::Direction;
use egui::{Context, ViewportCommand};
use gable_measure::Severity;
use gable_words::tr;
use std::path::{Path, PathBuf};

impl Editor {
    /// Performs an action once what is typed counts: leaving the field comes first.
    pub(crate) fn perform_when_typed(&mut self, ctx: &Context, action: Action) {
        if !action.is_look() && self.fields.is_typing() {
            if let Some(focused) = ctx.memory(|m| m.focused()) {
                ctx.memory_mut(|m| m.surrender_focus(focused));
                self.waiting = Some(action);
                ctx.request_repaint();
                return;
            }
            self.fields.clear();
        }
        self.perform(ctx, action);
    }

    fn perform(&mut self, ctx: &Context, action: Action) {
        egui::Popup::close_all(ctx);
        match action {
            Action::New => self.unless_changed(ctx, Then::New),
            Action::Open => self.unless_changed(ctx, Then::Open),
            Action::Quit => self.unless_changed(ctx, Then::Quit),
            Action::Save => self.save(ctx),
            Action::SaveAs => self.ask_path(ctx, PathUse::Save),
            _ if action.needs_house() && self.document.is_none() => {}
            Action::MakePack => self.dialog = Some(Dialog::Pack(Box::new(self.pack.clone()))),
            Action::WriteFiles => self.ask_for_files(ctx),
            Action::SavePicture => self.ask_path(ctx, PathUse::Picture),
            Action::Resize => self.dialog = Some(Dialog::Resize(ResizeChoice::new())),
            Action::Bake => self.begin_bake(),
            Action::Stand => self.begin_stand(),
            Action::Trays => {
                self.dialog = Some(Dialog::Trays(TrayChoice::of(
                    self.home.kitchen(),
                    self.house().map_or(self.person.settings().unit, |h| h.unit),
                )))
            }
            Action::Undo | Action::Redo => self.step(action),
            Action::SelectAll => self.select_all(),
            Action::Remove => self.remove_selected(),
            Action::LineUp(line) => self.line_up(line),
            Action::Space(space) => self.space(space),
            Action::SwitchTheme => {
                let look = other_look(ctx);
                self.change_look(|settings| settings.look = look);
            }
            Action::FitView => self.view.fit(),
            Action::LookCorner | Action::LookFront | Action::LookRight | Action::LookBack => self.stand_before(action),
            Action::LookLeft | Action::LookDown => self.stand_before(action),
            Action::Parallel => self.view.switch_parallel(),
            Action::Flat => self.view.fold_to(0.0),
            Action::Standing => self.view.fold_to(1.0),
            Action::Icing => self.view.switch_icing(),
            Action::Letters => self.view.switch_letters(),
            Action::Clear => self.view.switch_clear(),
            Action::Cut => self.view.switch_cut(),
            Action::Stages => self.view.switch_stages(),
            Action::ShowOnly => self.view.switch_only(),
            Action::Noticed => self.view.switch_marking(Marking::Noticed),
            Action::Weak => self.view.switch_marking(Marking::Standing),
            Action::Alike => self.view.switch_marking(Marking::Alike),
            Action::Narrow => self.view.switch_marking(Marking::Narrow),
            Action::Evening => self.view.switch_evening(),
            Action::FitTable => self.table.fit(),
            Action::Measure => self.table.switch_measuring(),
            Action::LayPlan => self.table.lay(Sheet::Plan),
            Action::Keys => self.dialog = Some(Dialog::Keys),
            Action::KeyCard => self.ask_path(ctx, PathUse::KeyCard),
            Action::Larger => self.change_look(|settings| settings.text = settings.text_after(true)),
            Action::Smaller => self.change_look(|settings| settings.text = settings.text_after(false)),
            Action::UsualSize => self.change_look(|settings| settings.text = 100),
            Action::Settings => self.ask_settings(),
        }
        if action.is_look() {
            // What was drawn before in this frame is still as it was.
            ctx.request_repaint();
        }
    }

    fn stand_before(&mut self, action: Action) {
        self.view.look(match action {
            Action::LookFront => Direction::Front,
            Action::LookRight => Direction::Right,
            Action::LookBack => Direction::Back,
            Action::LookLeft => Direction::Left,
            Action::LookDown => Direction::Above,
            _ => Direction::Corner,
        });
    }

    fn step(&mut self, action: Action) {
        self.go_through_history(if action == Action::Undo { -1 } else { 1 });
    }

    /// Takes so many steps back (below zero) or does them again.
    pub(crate) fn go_through_history(&mut self, steps: isize) {
        self.fields.clear();
        let Some(document) = &mut self.document else { return };
        for _ in 0..steps.unsigned_abs() {
            if steps < 0 { document.undo() } else { document.redo() }
        }
        self.selection = self.selection.within(document.house());
        self.company.settle(&self.selection, document.house());
    }

    /// Goes on at once when nothing can be lost, else asks.
    pub(crate) fn unless_changed(&mut self, ctx: &Context, then: Then) {
        if self.is_changed() {
            self.dialog = Some(Dialog::Unsaved(then));
        } else {
            self.go_on(ctx, then);
        }
    }

    fn go_on(&mut self, ctx: &Context, then: Then) {
        match then {
            Then::New => self.dialog = Some(Dialog::New),
            Then::Open => self.ask_path(ctx, PathUse::Open),
            Then::OpenThis(path) => self.open_this(path),
            Then::Quit => {
                self.leaving = true;
                self.close_up();
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }

    fn save(&mut self, ctx: &Context) {
        match self.document.as_ref().and_then(Document::path).map(Path::to_owned) {
            Some(path) => self.save_to(ctx, path, false),
            None => self.ask_path(ctx, PathUse::Save),
        }
    }

    /// Saves; a name that was just `asked` for is asked for again when it will not do.
    fn save_to(&mut self, ctx: &Context, path: PathBuf, asked: bool) {
        if !self.may_save_over(&path) {
            return;
        }
        if self.path() != Some(&path) && self.keep.who_has(&path).is_some() {
            self.refuse_to_save(
                path,
                asked,
                tr!("This house is open in another window. Choose another name.").to_owned(),
            );
            return;
        }
        let Some(document) = &mut self.document else { return };
        match adapters::write_house(&path, document.house()) {
            Ok(()) => {
                self.notice = Some(Notice::passing(tr!("Saved as {}.", path.display())));
                document.mark_saved(path);
                self.name_file();
                if let Some(then) = self.after_saving.take() {
                    self.go_on(ctx, then);
                }
            }
            Err(error) => self.refuse_to_save(path, asked, error),
        }
    }

    fn refuse_to_save(&mut self, path: PathBuf, asked: bool, error: String) {
        if asked && !self.desktop {
            self.dialog = Some(Dialog::Path(PathBox::new(PathUse::Save, &path).again(error)));
        } else {
            self.after_saving = None;
            self.notice = Some(Notice::trouble(error));
        }
    }

    pub(crate) fn ask_path(&mut self, ctx: &Context, purpose: PathUse) {
        let begin = self.path_to_begin(purpose);
        if self.desktop {
            self.asking = Some((purpose, ask_desktop(ctx, purpose, &begin)));
        } else {
            self.dialog = Some(Dialog::Path(PathBox::new(purpose, &begin)));
        }
    }

    fn path_to_begin(&self, purpose: PathUse) -> PathBuf {
        let path = self.path().map(Path::to_owned);
        let here = std::env::current_dir().unwrap_or_default();
        let folder = path.as_deref().and_then(Path::parent).map_or(here, Path::to_owned);
        match purpose {
            PathUse::Open | PathUse::Another | PathUse::Outline | PathUse::PackFolder | PathUse::FilesFolder => folder,
            PathUse::Picture => {
                let title = self.document.as_ref().map_or_else(String::new, Document::title);
                folder.join(format!("{}.png", gable_export::file_name(&title)))
            }
            PathUse::KeyCard => folder.join("gablewright-keys.pdf"),
            PathUse::Calendar | PathUse::Table | PathUse::ShoppingList => {
                let title = self.document.as_ref().map_or_else(String::new, Document::title);
                let ending = match purpose {
                    PathUse::Calendar => ".ics",
                    PathUse::Table => ".csv",
                    _ => "-shopping.csv",
                };
                folder.join(gable_export::file_name(&title) + ending)
            }
            PathUse::Save => path.unwrap_or_else(|| {
                let title = self.document.as_ref().map_or_else(String::new, Document::title);
                folder.join(format!("{}.house.json", gable_export::file_name(&title)))
            }),
        }
    }

    /// What the person and the desktop have answered since the last frame.
    pub(crate) fn hear_errands(&mut self, ctx: &Context) {
        if let Some((purpose, errand)) = self.asking.take() {
            match errand.look() {
                Progress::Under => self.asking = Some((purpose, errand)),
                Progress::Done(Some(path), _) => self.use_path(ctx, purpose, path),
                Progress::Done(None, after) if after > NO_DIALOG => self.after_saving = None,
                Progress::Done(None, _) | Progress::Lost => {
                    self.desktop = false;
                    self.ask_path(ctx, purpose);
                }
            }
        }
        self.hear_of_writing();
    }

    fn hear_of_writing(&mut self) {
        let Some(writing) = self.writing.take() else { return };
        self.notice = match writing.errand.look() {
            Progress::Under => {
                self.writing = Some(writing);
                return;
            }
            Progress::Done(Ok(words), _) => Some(Notice::done(words)),
            Progress::Done(Err(NoPack::Folder(error)), _) if !self.desktop && self.dialog.is_none() => {
                self.dialog = Some(Dialog::Path(PathBox::new(writing.purpose, &writing.folder).again(error)));
                None
            }
            Progress::Done(Err(NoPack::Folder(error) | NoPack::House(error)), _) => Some(Notice::trouble(error)),
            Progress::Lost => Some(Notice::trouble(tr!("That could not be written, which is a fault of the program."))),
        };
    }

    fn use_path(&mut self, ctx: &Context, purpose: PathUse, path: PathBuf) {
        match purpose {
            PathUse::Save => self.save_to(ctx, path, true),
            PathUse::PackFolder => self.make_pack(ctx, path),
            PathUse::FilesFolder => self.write_files(ctx, path),
            PathUse::Outline => self.take_outline(path),
            PathUse::Another => match self.bake_another(&path) {
                Ok(()) => self.begin_bake_at_hours(),
                Err(error) => self.dialog = Some(Dialog::Path(PathBox::new(purpose, &path).again(error))),
            },
            PathUse::Picture => self.begin_picture(ctx, path),
            PathUse::KeyCard => self.make_key_card(ctx, &path),
            PathUse::Calendar | PathUse::Table | PathUse::ShoppingList => match self.write_plan(purpose, &path) {
                Ok(()) => self.begin_bake(),
                Err(error) => self.dialog = Some(Dialog::Path(PathBox::new(purpose, &path).again(error))),
            },
            PathUse::Open => match adapters::read_house(&path) {
                Ok(house) => self.arrive(Document::from_file(house, path)),
                Err(error) if self.desktop => self.notice = Some(Notice::trouble(error)),
                Err(error) => self.dialog = Some(Dialog::Path(PathBox::new(purpose, &path).again(error))),
            },
        }
    }

    /// Asks for a drawing, for the opening that is selected.
    pub(crate) fn ask_outline(&mut self, ctx: &Context) {
        self.outline_for = Some(self.selection.clone());
        self.ask_path(ctx, PathUse::Outline);
    }

    fn take_outline(&mut self, path: PathBuf) {
        let Some(Selection::Opening(part, id)) = self.outline_for.clone() else { return };
        let Some(mut house) = self.house().cloned() else { return };
        let part = house.parts.iter_mut().find(|p| p.id == part && !p.locked);
        let Some(opening) = part.and_then(|p| p.openings.iter_mut().find(|o| o.id == id)) else { return };
        match adapters::take_outline(opening, &path) {
            Ok(()) => {
                let touched =
                    Touched { place: String::new(), text: String::new(), name: tr!("outline from a file").to_owned() };
                self.commit(house, Some(touched), Gesture::default());
            }
            Err(error) if self.desktop => self.notice = Some(Notice::trouble(error)),
            Err(error) => self.dialog = Some(Dialog::Path(PathBox::new(PathUse::Outline, &path).again(error))),
        }
    }

    fn make_pack(&mut self, ctx: &Context, folder: PathBuf) {
        let Some(document) = &self.document else { return };
        let (house, name) = (document.house().clone(), document.pack_name());
        let (options, into) = (self.pack.options, folder.clone());
        self.notice = Some(Notice::done(tr!("Making the pack…")));
        let baker = gable_export::Baker { now: Some(self.planner.now()), ..self.home.baker() };
        let make = move || adapters::make_pack(&house, &name, (&options, &baker), &into);
        self.writing = Some(Writing { purpose: PathUse::PackFolder, folder, errand: Errand::start(ctx, make) });
    }

    /// Asks where files for other programs go, if the house can be built.
    fn ask_for_files(&mut self, ctx: &Context) {
        if self.findings.iter().any(|f| f.severity == Severity::Blocking) {
            let words = tr!("As it is the house cannot be built. Mend what 'What we noticed' says first.");
            self.notice = Some(Notice::trouble(words));
            return;
        }
        self.ask_path(ctx, PathUse::FilesFolder);
    }

    fn write_files(&mut self, ctx: &Context, folder: PathBuf) {
        let Some(document) = &self.document else { return };
        let (house, name, into) = (document.house().clone(), document.pack_name(), folder.clone());
        self.notice = Some(Notice::done(tr!("Writing the files…")));
        let write = move || adapters::write_files(&house, &name, &into);
        self.writing = Some(Writing { purpose: PathUse::FilesFolder, folder, errand: Errand::start(ctx, write) });
    }

    /// Shows the question that is open, and does what the answer says.
    pub(crate) fn show_dialog(&mut self, ctx: &Context) {
        match self.dialog.take() {
            None => {}
            Some(Dialog::New) => self.choose_house(ctx),
            Some(Dialog::Keys) => self.settle_keys(ctx),
            Some(Dialog::First(choice)) => self.settle_first(ctx, choice),
            Some(Dialog::Settings(choice)) => self.settle_settings(ctx, choice),
            Some(Dialog::Rescue(rescued)) => self.settle_rescue(ctx, rescued),
            Some(Dialog::Twice(twice)) => self.settle_twice(ctx, twice),
            Some(Dialog::Differing(differing)) => self.settle_differing(ctx, differing),
            Some(Dialog::Unsaved(then)) => self.settle_changes(ctx, then),
            Some(Dialog::Path(mut question)) => match dialogs::path_box(ctx, &mut question) {
                None => self.dialog = Some(Dialog::Path(question)),
                Some(Some(path)) => self.use_path(ctx, question.purpose, path),
                Some(None) => {
                    self.after_saving = None;
                    self.begin_somewhere();
                }
            },
            Some(Dialog::Bake(choice)) => self.bake(ctx, choice),
            Some(Dialog::Stand(choice)) => self.stand(ctx, choice),
            Some(Dialog::Resize(mut choice)) => {
                let Some(document) = &self.document else { return };
                let house = (document.house(), document.revision());
                match dialogs::resize(ctx, &mut choice, &mut self.resizer, house) {
                    None => self.dialog = Some(Dialog::Resize(choice)),
                    Some(answer) => self.settle_size(answer),
                }
            }
            Some(Dialog::Trays(choice)) => self.settle_trays(ctx, choice),
            Some(Dialog::Pack(mut choice)) => {
                let Some(document) = &self.document else { return };
                let blocked = self.findings.iter().any(|f| f.severity == Severity::Blocking);
                // The timetable is seen as it would be saved now.
                let baker = gable_export::Baker { now: Some(self.planner.now()), ..self.home.baker() };
                let house = (document.house(), document.revision(), &*document.pack_name(), &baker);
                match dialogs::pack(ctx, &mut choice, &mut self.preview, house, blocked) {
                    None => self.dialog = Some(Dialog::Pack(choice)),
                    Some(go) => {
                        self.preview.forget();
                        if go {
                            self.pack = choice.settled();
                            self.ask_path(ctx, PathUse::PackFolder);
                        }
                    }
                }
            }
        }
    }

    fn settle_size(&mut self, answer: Resized) {
        self.resizer = Resizer::default();
        if let Resized::Take(house, name) = answer {
            self.fields.clear();
            let touched = Touched { place: String::new(), text: String::new(), name };
            self.commit(*house, Some(touched), Gesture::default());
            self.view.fit();
            self.table.fit();
        }
    }

    fn settle_trays(&mut self, ctx: &Context, mut choice: TrayChoice) {
        let unit = self.house().map_or(self.person.settings().unit, |h| h.unit);
        match dialogs::trays(ctx, &mut choice, unit) {
            None => self.dialog = Some(Dialog::Trays(choice)),
            Some(keep) => {
                if keep {
                    self.furnish(choice.kitchen());
                }
                self.begin_somewhere();
            }
        }
    }

    /// Without a house there is nothing to do but choose one.
    pub(crate) fn begin_somewhere(&mut self) {
        if self.document.is_none() {
            self.dialog = Some(Dialog::New);
            self.ask_first();
        }
    }

    fn settle_changes(&mut self, ctx: &Context, then: Then) {
        let title = self.document.as_ref().map_or_else(String::new, Document::title);
        match dialogs::unsaved(ctx, &title) {
            None => self.dialog = Some(Dialog::Unsaved(then)),
            Some(Answer::Stay) => {}
            Some(Answer::Drop) => self.go_on(ctx, then),
            Some(Answer::Save) => {
                self.after_saving = Some(then);
                self.save(ctx);
            }
        }
    }
}
