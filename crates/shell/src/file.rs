//! The house file.
