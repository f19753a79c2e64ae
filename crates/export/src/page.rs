use gable_drawing::Drawing;

/// One page of a document.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// What is printed on it; its size is the size of the page.
    pub drawing: Drawing,
    /// What a viewer shows instead of the page number, such as `3` or `cover`.
    pub label: String,
    /// Title in the list of contents; `None` leaves the page out of it.
    pub bookmark: Option<String>,
}

/// What a document says of itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DocInfo {
    /// Title.
    pub title: String,
    /// Who made it.
    pub author: String,
    /// What it is about.
    pub subject: String,
    /// Words to find it by.
    pub keywords: Vec<String>,
    /// Terms under which it is shared.
    pub rights: String,
    /// A file that rides inside it.
    pub enclosure: Option<Enclosure>,
}

/// A file that rides inside a document, for programs to take out again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Enclosure {
    /// Name of the file.
    pub name: String,
    /// What it is, for people.
    pub about: String,
    /// What is in it.
    pub text: String,
}
