//! Unsaved work: kept while one works, offered again after the program was killed; and what else happens to the file.

use crate::adapters;
use crate::app::Editor;
use crate::dialogs::{self, Dialog, Differing, Met, Rescue, Rescued, Twice};
use crate::document::Document;
use crate::keep::{Keep, Left};
use crate::panels::Notice;
use egui::Context;
use gable_words::tr;
use std::path::Path;
use std::sync::Arc;

impl Editor {
    /// The same editor, keeping unsaved work with the help of this folder. What killed windows left is offered.
    #[must_use]
    pub fn keeping_in(mut self, folder: &Path) -> Self {
        let woken = self.solver.wakes().cloned();
        match Keep::in_folder(folder, woken.as_ref()) {
            Ok(keep) => self.keep = keep,
            Err(words) => self.notice = Some(Notice::trouble(words)),
        }
        match self.document.take() {
            Some(document) => self.arrive(document),
            // Questions of the first start are asked where nothing else is.
            None => self.offer_left(),
        }
        self
    }

    /// Puts a house on the table unless there is something to ask first: its file is open in another window, or changes of
    /// it were left.
    pub(crate) fn arrive(&mut self, document: Document) {
        let Some(path) = document.path() else { return self.take_up(document) };
        if let Some(process) = self.keep.who_has(path) {
            self.dialog = Some(Dialog::Twice(Arc::new(Twice { document, process })));
            return;
        }
        self.arrive_here(document);
    }

    /// The same for a file that is open nowhere else, or shall be open twice.
    fn arrive_here(&mut self, document: Document) {
        let left = document.path().and_then(|path| self.keep.left_of(path));
        match left.map(|left| Rescued::of(left, Some(document.house()), 0)) {
            Some(Ok(rescued)) => self.dialog = Some(Dialog::Rescue(Arc::new(rescued))),
            Some(Err(None)) | None => self.take_up(document),
            Some(Err(Some(words))) => {
                self.take_up(document);
                self.notice = Some(Notice::trouble(words));
            }
        }
    }

    /// Asks what becomes of the unsaved work of killed windows, one after the other.
    fn offer_left(&mut self) {
        let mut left = self.keep.left();
        while !left.is_empty() {
            let (next, others) = (left.remove(0), left.len());
            match Rescued::found(next, others) {
                Ok(rescued) => {
                    self.dialog = Some(Dialog::Rescue(Arc::new(rescued)));
                    return;
                }
                Err(None) => {}
                Err(Some(words)) => self.notice = Some(Notice::trouble(words)),
            }
        }
    }

    /// What shall become of unsaved work that was found.
    pub(crate) fn settle_rescue(&mut self, ctx: &Context, rescued: Arc<Rescued>) {
        let Some(answer) = dialogs::rescue(ctx, &rescued) else {
            self.dialog = Some(Dialog::Rescue(rescued));
            return;
        };
        match answer {
            Rescue::Changed | Rescue::Saved => {
                self.keep.adopt(&rescued.left);
                let document = rescued.document(answer == Rescue::Changed);
                self.take_up(document);
                // Kept anew before the old copy goes.
                self.keep_work();
                self.keep.flush();
                if answer == Rescue::Changed { rescued.left.forget() } else { rescued.left.throw_away() }
            }
            Rescue::ThrowAway => {
                rescued.left.throw_away();
                self.go_on_choosing(rescued);
            }
            Rescue::Later => self.go_on_choosing(rescued),
        }
    }

    /// Lets go of what is not taken up, and goes on to the next that was left.
    fn go_on_choosing(&mut self, rescued: Arc<Rescued>) {
        let (asked, others) = (rescued.left.when, rescued.others);
        drop(rescued);
        if self.document.is_some() {
            return;
        }
        self.begin_somewhere();
        if others > 0 {
            let older = self.keep.left().into_iter().filter(|left| left.when < asked);
            let mut offers = older.enumerate().map(|(k, left)| Rescued::found(left, others.saturating_sub(k + 1)));
            if let Some(rescued) = offers.find_map(Result::ok) {
                self.dialog = Some(Dialog::Rescue(Arc::new(rescued)));
            }
        }
    }

    /// What to do with a file that is open in another window.
    pub(crate) fn settle_twice(&mut self, ctx: &Context, twice: Arc<Twice>) {
        match dialogs::twice(ctx, &twice) {
            None => self.dialog = Some(Dialog::Twice(twice)),
            Some(Met::Copy) => self.take_up(Document::new(twice.document.house().clone())),
            Some(Met::Both) => self.take_up(twice.document.clone()),
            Some(Met::Neither) => self.begin_somewhere(),
        }
    }

    /// Tells what is kept of whom: another house is on the table, or it has another file.
    pub(crate) fn name_file(&mut self) {
        let path = self.path().map(Path::to_owned);
        let named = self.keep.turn_to(path.as_deref());
        let noted = path.as_deref().map_or(Ok(()), |path| self.person.note(path));
        if let Err(words) = named.and(noted) {
            self.notice = Some(Notice::trouble(adapters::sentence(&words)));
        }
    }

    /// Sees to it that what is kept is the house as it is now.
    pub(crate) fn keep_work(&mut self) {
        if let Some(words) = self.keep.note(self.document.as_ref()) {
            self.notice = Some(Notice::trouble(words));
        }
    }

    /// Notices that something else has changed the file.
    pub(crate) fn hear_of_file(&mut self) {
        if self.dialog.is_none() && self.keep.file_changed() {
            self.look_at_file();
        }
    }

    /// Whether the file may be saved over; if something else has changed it, that is asked first.
    pub(crate) fn may_save_over(&mut self, path: &Path) -> bool {
        let own = self.path() == Some(path);
        if !own || !self.keep.file_changed_now() {
            return true;
        }
        self.look_at_file();
        if self.dialog.is_some() {
            self.after_saving = None;
        }
        self.dialog.is_none()
    }

    /// Reads the file again and says what it has become.
    fn look_at_file(&mut self) {
        let Some(document) = &mut self.document else { return };
        let Some(path) = document.path().map(Path::to_owned) else { return };
        self.keep.file_seen(&path);
        match adapters::read_house(&path) {
            Ok(house) if document.is_saved_as(&house) => {}
            Ok(house) if &house == document.house() => document.mark_saved(path),
            Ok(house) => {
                document.forget_saved();
                let differing = Differing::of(document, house);
                self.dialog = Some(Dialog::Differing(Arc::new(differing)));
            }
            Err(why) => {
                document.forget_saved();
                let words = tr!("The file was changed outside this window. {} ", adapters::sentence(&why));
                self.notice = Some(Notice::trouble(words + tr!("Your house is still here; Save writes it again.")));
            }
        }
    }

    /// What to do about a file that something else has changed.
    pub(crate) fn settle_differing(&mut self, ctx: &Context, differing: Arc<Differing>) {
        let answer = dialogs::differing(ctx, &differing);
        let (Some(takes), Some(document)) = (answer, &mut self.document) else {
            self.dialog = self.document.is_some().then_some(Dialog::Differing(differing));
            return;
        };
        if let (true, Some(path)) = (takes, document.path().map(Path::to_owned)) {
            document.change(tr!("what the file became"), differing.house.clone(), None);
            document.mark_saved(path);
            self.fields.house_changed();
            self.selection = self.selection.within(&differing.house);
            self.company.dismiss();
        }
    }

    /// Nothing of this window needs to be kept any more.
    pub(crate) fn close_up(&mut self) {
        self.keep.close();
    }
}

/// Unsaved work that cannot be read is put aside.
pub(crate) fn unreadable(left: &Left, why: &str) -> String {
    let place = left.set_aside();
    tr!("Unsaved work was found but cannot be read. It lies in {}. {}", place.display(), adapters::sentence(why))
}
