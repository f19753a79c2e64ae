use std::fmt;

/// Something that cannot be as it is: where, what, and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Place in the house (`parts[0].sides.left.pitch`), or in the text (`line 3, column 5`).
    pub path: String,
    /// What is wrong, with the value.
    pub what: String,
    /// What to do about it; may be empty.
    pub hint: String,
}

impl Fault {
    pub(super) fn new(path: &str, what: String, hint: &str) -> Self {
        Self { path: path.to_owned(), what, hint: hint.to_owned() }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.path, self.what)?;
        if self.hint.is_empty() { Ok(()) } else { write!(f, "; {}", self.hint) }
    }
}

/// Every fault of a file; never empty. Prints one fault a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileErrors(pub(super) Vec<Fault>);

impl FileErrors {
    /// The faults, in the order of the file where that makes sense.
    pub fn faults(&self) -> &[Fault] {
        &self.0
    }
}

impl fmt::Display for FileErrors {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (k, fault) in self.0.iter().enumerate() {
            if k > 0 {
                f.write_str("\n")?;
            }
            fault.fmt(f)?;
        }
        Ok(())
    }
}

impl std::error::Error for FileErrors {}
