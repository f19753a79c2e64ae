use super::writer::{Places, delete};
use gable_export::{read_text, save};
use gable_words::tr;
use std::fs::{self, File, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Ending of the file that a window holds locked.
const LOCK: &str = "lock";
/// Ending of the file that says which house is open.
const NAMES: &str = "file";
/// Ending of copies of houses without a file.
const COPY: &str = "house.json";

/// The record of this window.
#[derive(Debug)]
pub(super) struct Record {
    folder: PathBuf,
    /// Number of the process and of its window, as in `4711-0`.
    id: String,
    /// The system lets go of it when the program ends.
    lock: File,
}

/// Unsaved work of a window that is gone. Nobody else is offered it as long as this is held.
#[derive(Debug)]
pub(crate) struct Left {
    /// The file of the house, if it had one.
    pub(crate) file: Option<PathBuf>,
    /// The copy with the changes.
    pub(crate) copy: PathBuf,
    /// When the copy was written.
    pub(crate) when: SystemTime,
    /// The record, if there is one: a copy may have come without, from another machine.
    record: Option<(PathBuf, String, File)>,
}

impl Left {
    /// The record of the window that left it.
    pub(super) fn id(&self) -> Option<&str> {
        self.record.as_ref().map(|(_, id, _)| id.as_str())
    }

    /// Throws the work away.
    pub(crate) fn throw_away(&self) {
        delete(&self.copy);
        self.forget();
    }

    /// What cannot be read is put where nothing writes over it; says where.
    pub(crate) fn set_aside(&self) -> PathBuf {
        let mut name = self.copy.clone().into_os_string();
        name.push(".unreadable");
        match fs::rename(&self.copy, &name) {
            Ok(()) => name.into(),
            Err(_) => self.copy.clone(),
        }
    }

    /// Somebody else keeps the work now, where the file is.
    pub(crate) fn forget(&self) {
        if let Some((folder, id, _)) = &self.record {
            wipe(folder, id);
        }
    }
}

impl Record {
    /// Makes a record that no other window has.
    pub(super) fn claim(folder: &Path) -> io::Result<Self> {
        fs::create_dir_all(folder)?;
        let folder = fs::canonicalize(folder)?;
        for number in 0..10_000 {
            let id = format!("{}-{number}", std::process::id());
            let path = folder.join(&id).with_extension(LOCK);
            let lock = match OpenOptions::new().write(true).create_new(true).open(&path) {
                Ok(lock) => lock,
                Err(e) if e.kind() == io::ErrorKind::AlreadyExists => continue,
                Err(e) => return Err(e),
            };
            // Another window that starts at this moment may have taken it for one that was left.
            if lock.try_lock().is_ok() && path.exists() {
                return Ok(Self { folder, id, lock });
            }
        }
        Err(io::Error::other(tr!("there are too many windows; close one of them")))
    }

    /// Says which file is open here.
    pub(super) fn name(&self, file: Option<&Path>) -> Result<(), String> {
        let words = file.map(whole).and_then(|p| p.to_str().map(str::to_owned)).unwrap_or_default();
        let into = self.folder.join(&self.id).with_extension(NAMES);
        save(&into, words.as_bytes()).map_err(|e| tr!("unsaved work may not be found again: {e}"))
    }

    /// Where copies of a house with this file go.
    pub(super) fn places(&self, file: Option<&Path>) -> Places {
        let own = self.folder.join(&self.id).with_extension(COPY);
        Places { beside: file.map(|f| beside(&whole(f))), own }
    }

    /// Removes the record.
    pub(super) fn remove(self) {
        wipe(&self.folder, &self.id);
        drop(self.lock);
    }

    /// The process that has a window with this file.
    pub(super) fn who_has(&self, file: &Path, but: Option<&str>) -> Option<u32> {
        let file = whole(file);
        let there = self.others().find(|id| {
            let path = self.folder.join(id).with_extension(LOCK);
            but != Some(id.as_str())
                && named(&self.folder, id).as_ref() == Some(&file)
                && held(&path).is_none()
                && path.exists()
        })?;
        there.split('-').next()?.parse().ok()
    }

    /// What was left of this file.
    pub(super) fn left_of(&self, file: &Path) -> Option<Left> {
        let file = whole(file);
        let recorded = self.left().into_iter().find(|left| left.file.as_ref() == Some(&file));
        recorded.or_else(|| {
            let copy = beside(&file);
            Some(Left { when: changed(&copy)?, copy, file: Some(file), record: None })
        })
    }

    /// What was left, the latest first. Records without a copy are wiped.
    pub(super) fn left(&self) -> Vec<Left> {
        let mut found: Vec<Left> = self.others().filter_map(|id| self.left_by(&id)).collect();
        found.sort_by_key(|left| std::cmp::Reverse(left.when));
        found
    }

    fn left_by(&self, id: &str) -> Option<Left> {
        let lock = held(&self.folder.join(id).with_extension(LOCK))?;
        let file = named(&self.folder, id);
        let own = self.folder.join(id).with_extension(COPY);
        let copies = [file.as_deref().map(beside), Some(own)].into_iter().flatten();
        let newest = copies.filter_map(|copy| Some((changed(&copy)?, copy))).max();
        let Some((when, copy)) = newest else {
            wipe(&self.folder, id);
            return None;
        };
        Some(Left { file, copy, when, record: Some((self.folder.clone(), id.to_owned(), lock)) })
    }

    /// Records of other windows, in the order of their names.
    fn others(&self) -> impl Iterator<Item = String> {
        let entries = fs::read_dir(&self.folder).into_iter().flatten().filter_map(Result::ok);
        let ids = entries.filter_map(|e| Some(e.file_name().to_str()?.strip_suffix(".lock")?.to_owned()));
        let mut ids: Vec<String> = ids.filter(|id| id != &self.id).collect();
        ids.sort();
        ids.into_iter()
    }
}

/// The lock of a window that is gone; `None` while there is one.
fn held(path: &Path) -> Option<File> {
    let file = OpenOptions::new().write(true).open(path).ok()?;
    file.try_lock().is_ok().then_some(file)
}

fn named(folder: &Path, id: &str) -> Option<PathBuf> {
    let words = read_text(&folder.join(id).with_extension(NAMES)).ok()?;
    (!words.is_empty()).then(|| PathBuf::from(words))
}

/// The lock goes last: until then nobody takes the rest for something else.
fn wipe(folder: &Path, id: &str) {
    for ending in [COPY, NAMES, LOCK] {
        delete(&folder.join(id).with_extension(ending));
    }
}

/// When a file was last written.
fn changed(path: &Path) -> Option<SystemTime> {
    fs::metadata(path).and_then(|m| m.modified()).ok()
}

/// A file under the one name that it has everywhere.
fn whole(file: &Path) -> PathBuf {
    fs::canonicalize(file).or_else(|_| std::path::absolute(file)).unwrap_or_else(|_| file.to_owned())
}

/// Where the copy of a house is: `.hut.unsaved.house.json` beside `hut.house.json`.
fn beside(file: &Path) -> PathBuf {
    let name = file.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let short = name.strip_suffix(".json").unwrap_or(&name);
    let short = short.strip_suffix(".house").unwrap_or(short);
    file.with_file_name(format!(".{short}.unsaved.{COPY}"))
}
