//! Text for people in the language that they speak. English text is the key; other languages are catalogues (`.po`).
//!
//! [`tr!`] marks text where it is said, [`mark!`] where it is only kept, to be said by [`say`]. A language is spoken by a
//! thread, English until something else is set, so that whatever nobody asked for in another language stays as it is:
//! files, pages and the command line.

// The macro names this crate from outside.
extern crate self as gable_words;

mod catalogue;
mod fill;
mod languages;
mod plural;
mod tongue;

pub use catalogue::{Catalogue, CatalogueError};
pub use fill::fill;
pub use gable_words_macros::tr;
pub use languages::{built_in, kept_in, suits, system};
pub use plural::Count;
pub use tongue::{Tongue, look_up, look_up_number, say, spoken};

/// Marks text that is kept in a table and said later, with [`say`].
#[macro_export]
macro_rules! mark {
    ($text:literal) => {
        $text
    };
}

#[cfg(test)]
mod tests;
