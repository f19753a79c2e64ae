//! Fields that a person types into. What is typed counts on Enter or when the field is left; a wrong entry stays, with
//! the reason under it, and the house stays as it was.

mod form;
mod kinds;

pub(crate) use form::{Followed, Form, Touched};

use std::collections::BTreeMap;

/// What is typed in fields that do not show the house's own value, by place in the house.
#[derive(Clone, Debug, Default)]
pub(crate) struct Fields {
    entries: BTreeMap<String, Entry>,
    /// The field in which Return was just pressed: if its entry will not do, the cursor stays there.
    entered: Option<String>,
}

/// A field that is being typed in, or that holds a wrong entry.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Entry {
    text: String,
    error: Option<String>,
    /// It says something of the house as it is, not of what was typed.
    passing: bool,
}

impl Fields {
    /// Forgets every entry: fields show the house again.
    pub(crate) fn clear(&mut self) {
        self.entries.clear();
        self.entered = None;
    }

    /// Says under a field why its entry cannot be had; the text stays.
    pub(crate) fn refuse(&mut self, place: &str, text: String, error: String) {
        self.entries.insert(place.to_owned(), Entry { text, error: Some(error), passing: false });
    }

    /// Says something in a place until the house changes.
    pub(crate) fn say(&mut self, place: &str, words: String) {
        self.entries.insert(place.to_owned(), Entry { text: String::new(), error: Some(words), passing: true });
    }

    /// The house has changed: what was said of it may not be so any more.
    pub(crate) fn house_changed(&mut self) {
        self.entries.retain(|_, e| !e.passing);
    }

    /// Takes back what was said under a field.
    pub(crate) fn accept(&mut self, place: &str) {
        self.entries.remove(place);
    }

    /// Why the entry of a field will not do, if it will not.
    pub(crate) fn error(&self, place: &str) -> Option<&str> {
        self.entries.get(place).and_then(|e| e.error.as_deref())
    }

    /// Whether the cursor is to go back into a field, because what was entered there will not do.
    fn is_sent_back(&mut self, place: &str) -> bool {
        let entered = self.entered.take_if(|p| p == place).is_some();
        entered && self.entries.get(place).is_some_and(|e| e.error.is_some())
    }

    /// Whether something is typed that does not count yet.
    pub(crate) fn is_typing(&self) -> bool {
        self.entries.values().any(|e| e.error.is_none())
    }
}
