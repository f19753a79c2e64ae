use super::{Entry, Fields};
use crate::adapters::sentence;
use crate::theme::Palette;
use egui::text::{CCursor, CCursorRange};
use egui::{Id, Key, Response, RichText, TextEdit, Ui};
use gable_measure::{Finding, Severity, Unit};
use gable_shell::Measured;
use gable_words::tr;

/// A field whose entry was just taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Touched {
    /// Place in the house, such as `parts[0].sides.left.pitch`.
    pub(crate) place: String,
    /// What was typed.
    pub(crate) text: String,
    /// What undo calls it.
    pub(crate) name: String,
}

/// A field whose size follows another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Followed {
    /// Its place in the house.
    pub(crate) place: String,
    /// What it follows, as in 'level with the eave of Main body'.
    pub(crate) words: String,
    /// What it is, as in 'the ridge of Wing'.
    pub(crate) name: String,
    /// What lets go.
    pub(crate) what: Measured,
}

/// Where fields are put: what they need to know, and which one was changed.
pub(crate) struct Form<'a> {
    /// What is typed at the moment.
    pub(crate) fields: &'a mut Fields,
    /// Unit of bare numbers.
    pub(crate) unit: Unit,
    /// What the checks noticed, shown under the field it speaks of.
    pub(crate) findings: &'a [Finding],
    /// The field that was changed in this frame.
    pub(crate) touched: Option<Touched>,
    /// Sizes that follow others, of what is selected.
    pub(crate) followed: Vec<Followed>,
    /// The size that was let go of in this frame.
    pub(crate) let_go: Option<Measured>,
    /// Whether the outline of the selected opening is to come out of a file.
    pub(crate) wants_outline: bool,
}

/// Room for the name of a field, in points.
pub(super) const NAME_WIDTH: f32 = 120.0;

impl Form<'_> {
    /// Notes a change, for undo.
    pub(crate) fn touch(&mut self, place: &str, name: &str) {
        self.touched = Some(Touched { place: place.to_owned(), text: String::new(), name: name.to_owned() });
    }

    /// A name on the left and a control on the right, tied together for assistive technology.
    pub(crate) fn row(&mut self, ui: &mut Ui, label: &str, add: impl FnOnce(&mut Self, &mut Ui) -> Response) {
        ui.horizontal(|ui| {
            let height = ui.spacing().interact_size.y;
            let name = ui
                .allocate_ui_with_layout(
                    egui::vec2(NAME_WIDTH, height),
                    egui::Layout::left_to_right(egui::Align::Center),
                    |ui| {
                        ui.set_min_width(NAME_WIDTH);
                        ui.add(egui::Label::new(label).wrap())
                    },
                )
                .inner;
            add(self, ui).labelled_by(name.id);
        });
    }

    /// A field to type in. Returns what was read once it counts.
    ///
    /// `shown` is the value the house has; `read` explains in a sentence what is wrong with an entry.
    pub(crate) fn entry<T>(
        &mut self,
        ui: &mut Ui,
        (place, label, name): (&str, &str, &str),
        shown: &str,
        read: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        let mut taken = None;
        self.row(ui, label, |form, ui| {
            let width = ui.available_width();
            let (response, value) = form.type_in(ui, (place, name), shown, read, |text| {
                TextEdit::singleline(text).desired_width(width).align(egui::Align2::LEFT_CENTER)
            });
            taken = value;
            response
        });
        self.remarks(ui, place);
        taken
    }

    /// The field itself, without its name and remarks.
    pub(super) fn type_in<T>(
        &mut self,
        ui: &mut Ui,
        (place, name): (&str, &str),
        shown: &str,
        read: impl FnOnce(&str) -> Result<T, String>,
        widget: impl FnOnce(&mut String) -> TextEdit<'_>,
    ) -> (Response, Option<T>) {
        let id = Id::unique(("field", place));
        let mut text = self.fields.entries.get(place).map_or_else(|| shown.to_owned(), |e| e.text.clone());
        let response = ui.add(widget(&mut text).id(id));
        if self.fields.is_sent_back(place) {
            response.request_focus();
        }
        if response.gained_focus() {
            select_all(ui, id, &text);
        }
        if response.changed() {
            let error = self.fields.entries.get(place).and_then(|e| e.error.clone());
            self.fields.entries.insert(place.to_owned(), Entry { text: text.clone(), error, passing: false });
        }
        let mut taken = None;
        if response.lost_focus() && self.fields.entries.contains_key(place) {
            let (given_up, entered) = ui.input(|i| (i.key_pressed(Key::Escape), i.key_pressed(Key::Enter)));
            if entered {
                self.fields.entered = Some(place.to_owned());
            }
            taken = self.take((place, name), text, shown, read, given_up);
        }
        (response, taken)
    }

    fn take<T>(
        &mut self,
        (place, name): (&str, &str),
        text: String,
        shown: &str,
        read: impl FnOnce(&str) -> Result<T, String>,
        given_up: bool,
    ) -> Option<T> {
        if given_up || text == shown {
            self.fields.entries.remove(place);
            return None;
        }
        match read(&text) {
            Ok(value) => {
                self.fields.entries.remove(place);
                self.touched = Some(Touched { place: place.to_owned(), text, name: name.to_owned() });
                Some(value)
            }
            Err(error) => {
                self.fields.refuse(place, text, error);
                None
            }
        }
    }

    /// What is wrong with the entry of a field, and what the checks noticed about it.
    pub(crate) fn remarks(&mut self, ui: &mut Ui, place: &str) {
        self.follows(ui, place);
        let palette = Palette::of(ui.ctx());
        if let Some(error) = self.fields.entries.get(place).and_then(|e| e.error.as_deref()) {
            ui.label(RichText::new(error).color(palette.blocking).small());
        }
        for finding in self.findings.iter().filter(|f| f.place == place && f.severity != Severity::Note) {
            let colour = if finding.severity == Severity::Blocking { palette.blocking } else { palette.caution };
            ui.label(RichText::new(sentence(&finding.what)).color(colour).small());
        }
    }
}

impl Form<'_> {
    /// What the size in a field follows, and the way to let go of it.
    fn follows(&mut self, ui: &mut Ui, place: &str) {
        let Some(followed) = self.followed.iter().find(|f| f.place == place) else { return };
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new(&followed.words).small());
            let button = ui.button(tr!("Let go")).on_hover_text(tr!("Keep this size, whatever the other one does"));
            let name = tr!("Let go of {}", followed.name);
            button.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, &name));
            if button.clicked() {
                self.let_go = Some(followed.what.clone());
            }
        });
    }
}

fn select_all(ui: &Ui, id: Id, text: &str) {
    if let Some(mut state) = TextEdit::load_state(ui.ctx(), id) {
        let end = CCursor::new(text.chars().count());
        state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(0), end)));
        state.store(ui.ctx(), id);
    }
}
