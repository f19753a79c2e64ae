use std::fmt;

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Good to know.
    Note,
    /// The house can be built, but something will need care or look odd.
    Caution,
    /// The pieces cannot be built as they are.
    Blocking,
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Note => "note",
            Self::Caution => "caution",
            Self::Blocking => "blocking",
        })
    }
}

/// Something the checks noticed: what, where, how bad, what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Stable name of the kind of finding, such as `side-too-short`.
    pub kind: &'static str,
    /// How bad.
    pub severity: Severity,
    /// Where: a path in the house (`parts[0].sides.left.pitch`) or the id of a piece (`main/wall-left`).
    pub place: String,
    /// What was noticed, with the values.
    pub what: String,
    /// What to do about it.
    pub remedy: String,
}
