use std::io::{self, Write};
use std::process::ExitCode;

/// Exit status of bad usage and of houses that cannot be read.
pub(crate) const BAD_USAGE: u8 = 2;
/// Exit status of houses that cannot be built as they are.
const CANNOT_BE_BUILT: u8 = 1;

/// Why a command stopped.
#[derive(Debug)]
pub(crate) enum Failure {
    /// It was asked wrongly, or something could not be read or written.
    Usage(String),
    /// The house has findings that must be put right first.
    Blocked(String),
    /// Whoever was reading the output has stopped reading.
    NobodyReads,
}

impl Failure {
    /// Says why on `err` and gives the exit status.
    pub(crate) fn report(&self, err: &mut dyn Write) -> ExitCode {
        let (text, status) = match self {
            Self::Usage(text) => (text.as_str(), BAD_USAGE),
            Self::Blocked(text) => (text.as_str(), CANNOT_BE_BUILT),
            Self::NobodyReads => return ExitCode::SUCCESS,
        };
        // If this cannot be said either, the status still tells.
        let _ = writeln!(err, "gablewright: {text}");
        ExitCode::from(status)
    }
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Self::NobodyReads,
            _ => Self::Usage(format!("the output cannot be written: {error}")),
        }
    }
}
