use super::log::{Log, meant, meant_or_known, shown};
use super::tree::Tree;
use super::values::{Reader, text, wrong};
use gable_words::tr;
use std::collections::BTreeSet;

/// The entries of one group in braces; remembers what was asked for, so that the rest can be reported.
pub(super) struct Entries<'t> {
    path: String,
    entries: &'t [(String, Tree)],
    asked: Vec<&'static str>,
}

impl<'t> Entries<'t> {
    /// Opens a group; notes a fault when it is none, and one for each key that is there twice.
    pub(super) fn open(tree: &'t Tree, path: &str, log: &mut Log) -> Option<Self> {
        let Tree::Map(entries) = tree else { return wrong(tree, path, log, tr!("a group in braces")) };
        let opened = Self { path: path.to_owned(), entries, asked: Vec::new() };
        let mut seen = BTreeSet::new();
        let twice: BTreeSet<&str> = entries.iter().map(|(k, _)| k.as_str()).filter(|k| !seen.insert(*k)).collect();
        for key in twice {
            log.add(&opened.path_of(key), tr!("it is there more than once"), tr!("keep one of them"));
        }
        Some(opened)
    }

    /// Path of an entry.
    pub(super) fn path_of(&self, key: &str) -> String {
        let key = if key.is_empty() { "\"\"".to_owned() } else { shown(key) };
        if self.path.is_empty() { key } else { format!("{}.{key}", self.path) }
    }

    /// The keys as they are in the file.
    pub(super) fn keys(&self) -> impl Iterator<Item = &'t str> + use<'t> {
        self.entries.iter().map(|(key, _)| key.as_str())
    }

    /// An entry by any key, without marking it as asked for.
    pub(super) fn find(&self, key: &str) -> Option<&'t Tree> {
        self.entries.iter().find(|(own, _)| own == key).map(|(_, tree)| tree)
    }

    /// An entry, if it is there.
    pub(super) fn get(&mut self, key: &'static str) -> Option<&'t Tree> {
        if !self.asked.contains(&key) {
            self.asked.push(key);
        }
        self.find(key)
    }

    /// An entry that must be there; notes a fault if it is not.
    pub(super) fn need(&mut self, key: &'static str, log: &mut Log) -> Option<&'t Tree> {
        self.need_with(key, "", log)
    }

    /// The same, with a hint for whoever left it out.
    pub(super) fn need_with(&mut self, key: &'static str, hint: &str, log: &mut Log) -> Option<&'t Tree> {
        let found = self.get(key);
        if found.is_none() {
            log.add(&self.path_of(key), tr!("it is missing"), hint);
        }
        found
    }

    /// A value, or the default where it is not given or faulty.
    pub(super) fn value<T>(&mut self, key: &'static str, read: Reader<T>, default: T, log: &mut Log) -> T {
        let path = self.path_of(key);
        self.get(key).and_then(|tree| read(tree, &path, log)).unwrap_or(default)
    }

    /// A value that must be there, or a stand-in where it is faulty.
    pub(super) fn needed<T>(&mut self, key: &'static str, read: Reader<T>, stand_in: T, log: &mut Log) -> T {
        let path = self.path_of(key);
        self.need(key, log).and_then(|tree| read(tree, &path, log)).unwrap_or(stand_in)
    }

    /// A value where it is given, or a stand-in where that is faulty.
    pub(super) fn maybe<T>(&mut self, key: &'static str, read: Reader<T>, stand_in: T, log: &mut Log) -> Option<T> {
        let path = self.path_of(key);
        self.get(key).map(|tree| read(tree, &path, log).unwrap_or(stand_in))
    }

    /// One of some words; `None` where it is not given or faulty.
    pub(super) fn word<T: Copy>(&mut self, key: &'static str, words: &[(&str, T)], log: &mut Log) -> Option<T> {
        let path = self.path_of(key);
        let given = text(self.get(key)?, &path, log)?;
        let found = words.iter().find(|(word, _)| *word == given).map(|(_, value)| *value);
        if found.is_none() {
            let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
            let what = tr!("\"{}\" is not known; it may be {}", shown(&given), known.join(", "));
            log.add(&path, what, &meant(&given, &known));
        }
        found
    }

    /// A word that must be given; whoever left it out is told which there are.
    pub(super) fn needed_word<T: Copy>(&mut self, key: &'static str, words: &[(&str, T)], log: &mut Log) -> Option<T> {
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        self.need_with(key, &tr!("it may be {}", known.join(", ")), log)?;
        self.word(key, words, log)
    }

    /// Notes every entry that nobody asked for.
    pub(super) fn close(self, log: &mut Log) {
        for (key, _) in self.entries.iter().filter(|(key, _)| !self.asked.contains(&key.as_str())) {
            let hint = meant_or_known(key, &self.asked, tr!("known here:"));
            log.add(&self.path_of(key), tr!("this key is not known"), &hint);
        }
    }
}
