use crate::Catalogue;
use std::cell::Cell;

thread_local! {
    static SPOKEN: Cell<Tongue> = const { Cell::new(Tongue::ENGLISH) };
}

/// A language to speak. Catalogues last as long as the program, so that text of them is `'static` as English text is.
#[derive(Clone, Copy, Debug, Default)]
pub struct Tongue(Option<&'static Catalogue>);

impl PartialEq for Tongue {
    fn eq(&self, other: &Self) -> bool {
        self.0.map(std::ptr::from_ref) == other.0.map(std::ptr::from_ref)
    }
}

impl Tongue {
    /// English, in which everything is written.
    pub const ENGLISH: Self = Self(None);

    /// The language of a catalogue.
    #[must_use]
    pub const fn of(catalogue: &'static Catalogue) -> Self {
        Self(Some(catalogue))
    }

    /// Its catalogue, unless it is English.
    #[must_use]
    pub const fn catalogue(self) -> Option<&'static Catalogue> {
        self.0
    }

    /// This thread speaks it from now on.
    pub fn speak(self) {
        SPOKEN.set(self);
    }

    /// This thread speaks it while something is done, and then what it spoke before.
    pub fn while_speaking<T>(self, work: impl FnOnce() -> T) -> T {
        struct Before(Tongue);
        impl Drop for Before {
            fn drop(&mut self) {
                self.0.speak();
            }
        }
        let _before = Before(SPOKEN.replace(self));
        work()
    }
}

/// What this thread speaks; whoever starts another thread hands it over.
#[must_use]
pub fn spoken() -> Tongue {
    SPOKEN.get()
}

/// A text in the language that is spoken, if it is there.
#[must_use]
pub fn look_up(key: &str) -> Option<&'static str> {
    SPOKEN.get().0.and_then(|catalogue| catalogue.text(key))
}

/// A text that goes by a number in the language that is spoken, if it is there.
#[must_use]
pub fn look_up_number(key: &str, count: u64) -> Option<&'static str> {
    SPOKEN.get().0.and_then(|catalogue| catalogue.form(key, count))
}

/// A text that was marked by [`crate::mark!`], in the language that is spoken.
#[must_use]
pub fn say(text: &'static str) -> &'static str {
    look_up(text).unwrap_or(text)
}
