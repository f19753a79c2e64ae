use crate::adapters;
use crate::document::Document;
use gable_shell::House;
use std::path::PathBuf;

/// What the window opens with.
#[derive(Clone, Debug, Default)]
pub enum Start {
    /// The page of small houses to start from.
    #[default]
    Choose,
    /// A house that is not in a file yet, such as a built-in one.
    House(Box<House>),
    /// A house file.
    File(PathBuf),
}

impl Start {
    /// The document to show; `None` when the person is to choose.
    pub(crate) fn document(self) -> Result<Option<Document>, String> {
        match self {
            Self::Choose => Ok(None),
            Self::House(house) => Ok(Some(Document::new(*house))),
            Self::File(path) => adapters::read_house(&path).map(|house| Some(Document::from_file(house, path))),
        }
    }
}
