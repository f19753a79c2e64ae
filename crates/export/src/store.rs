//! Reading text with clear errors, and saving so that a crash leaves the old file or the new one.

use crate::EnclosureError;
use crate::pdf::take_enclosure;
use gable_words::tr;
use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Whatever is longer than a house file may be is something else.
const LONGEST: u64 = gable_shell::file::limits::LONGEST_FILE as u64;
/// Longest PDF that is searched for a house, in bytes.
const LONGEST_PDF: u64 = 256 << 20;
/// What the names of house files end in.
pub(crate) const HOUSE_ENDING: &str = ".house.json";

/// Why a file could not be read or saved.
#[derive(Debug, Error)]
pub enum StoreError {
    /// There is no such file.
    #[error("{}", tr!("{}: there is no such file; check the name", .0.display()))]
    Missing(PathBuf),
    /// It is a directory.
    #[error("{}", tr!("{}: this is a folder, not a file; choose a file in it", .0.display()))]
    Directory(PathBuf),
    /// It is far too long for what it should be.
    #[error("{}", tr!("{}: it is too long: {found} bytes, and {longest} at most can be read", .path.display()))]
    TooLong {
        /// The file.
        path: PathBuf,
        /// Its length in bytes.
        found: u64,
        /// The most that is read, in bytes.
        longest: u64,
    },
    /// It is not text.
    #[error("{}", tr!("{}: this is no text file (byte {place} is not UTF-8); choose another file", .path.display()))]
    NotText {
        /// The file.
        path: PathBuf,
        /// Where the first bad byte is, from 0.
        place: usize,
    },
    /// It is a PDF without a house in it.
    #[error("{}: {error}", .path.display())]
    Enclosure {
        /// The file.
        path: PathBuf,
        /// Why nothing could be taken out.
        error: EnclosureError,
    },
    /// The system refused to read it.
    #[error("{}", tr!("{}: cannot be read: {}", .path.display(), plain_reason(.error)))]
    Read {
        /// The file.
        path: PathBuf,
        /// What the system said.
        error: io::Error,
    },
    /// The system refused to write it. What stood there before is untouched.
    #[error("{}", tr!("{}: cannot be saved: {}; nothing there was changed", .path.display(), plain_reason(.error)))]
    Write {
        /// The file.
        path: PathBuf,
        /// What the system said.
        error: io::Error,
    },
}

/// Why the system refused, in plain words.
pub fn plain_reason(error: &io::Error) -> String {
    use io::ErrorKind::{
        AlreadyExists, InvalidFilename, NotADirectory, NotFound, PermissionDenied, ReadOnlyFilesystem, StorageFull,
    };
    let words = match error.kind() {
        NotFound => "there is no such folder",
        PermissionDenied => "you have no permission there",
        NotADirectory | AlreadyExists => "a file stands where a folder should be",
        StorageFull => "there is no room left on the disk",
        ReadOnlyFilesystem => "that disk can be read but not written",
        InvalidFilename => "the name will not do, it may be too long",
        other => return other.to_string(),
    };
    words.to_owned()
}

/// The text of a file.
pub fn read_text(path: &Path) -> Result<String, StoreError> {
    text_of(path, read(path, LONGEST)?)
}

/// The text of a house file, or of the house file that rides inside a pack.
pub fn read_house_text(path: &Path) -> Result<String, StoreError> {
    if !begins_as_pdf(path) {
        return read_text(path);
    }
    let bytes = read(path, LONGEST_PDF)?;
    take_enclosure(&bytes, HOUSE_ENDING, LONGEST as usize)
        .map_err(|error| StoreError::Enclosure { path: path.into(), error })
}

/// Whether a file begins as every PDF does.
fn begins_as_pdf(path: &Path) -> bool {
    let mut start = [0; 5];
    File::open(path).and_then(|mut file| file.read_exact(&mut start)).is_ok() && &start == b"%PDF-"
}

fn text_of(path: &Path, bytes: Vec<u8>) -> Result<String, StoreError> {
    String::from_utf8(bytes).map_err(|e| StoreError::NotText { path: path.into(), place: e.utf8_error().valid_up_to() })
}

fn read(path: &Path, longest: u64) -> Result<Vec<u8>, StoreError> {
    let failed = |error: io::Error| match error.kind() {
        io::ErrorKind::NotFound => StoreError::Missing(path.into()),
        io::ErrorKind::IsADirectory => StoreError::Directory(path.into()),
        _ => StoreError::Read { path: path.into(), error },
    };
    if fs::metadata(path).map_err(failed)?.is_dir() {
        return Err(StoreError::Directory(path.into()));
    }
    let mut bytes = Vec::new();
    File::open(path).map_err(failed)?.take(longest + 1).read_to_end(&mut bytes).map_err(failed)?;
    let found = bytes.len() as u64;
    if found > longest {
        let found = fs::metadata(path).map_or(found, |m| m.len().max(found));
        return Err(StoreError::TooLong { path: path.into(), found, longest });
    }
    Ok(bytes)
}

/// A title as the name of a file: lower case, words joined by hyphens.
pub fn file_name(title: &str) -> String {
    let words = title.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
    let name = words.map(str::to_lowercase).collect::<Vec<_>>().join("-");
    if name.is_empty() { "house".to_owned() } else { name }
}

/// Saves bytes: written beside the target, forced to the disk and then renamed over it.
///
/// Whatever interrupts this, the old file or the new one is there, whole. A link is followed, and the permissions of the
/// old file are kept.
pub fn save(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    // Through a link, so that the link itself is not replaced by a file.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    if target.is_dir() {
        return Err(StoreError::Directory(path.into()));
    }
    replace(&target, bytes).map_err(|error| StoreError::Write { path: path.into(), error })
}

fn replace(target: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = match target.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    builder.prefix(".gablewright-").suffix(".tmp");
    let old = fs::metadata(target).ok().map(|m| m.permissions());
    #[cfg(unix)]
    if old.is_none() {
        use std::os::unix::fs::PermissionsExt;
        // Temporary files are private; a new file gets what any new file gets (the system takes its mask off).
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(bytes)?;
    if let Some(permissions) = old {
        if permissions.readonly() {
            return Err(io::Error::new(io::ErrorKind::PermissionDenied, "the file is write-protected"));
        }
        file.as_file().set_permissions(permissions)?;
    }
    file.as_file().sync_all()?;
    file.persist(target).map_err(|e| e.error)?;
    #[cfg(unix)]
    File::open(folder)?.sync_all()?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_saved_file_reads_back_and_leaves_nothing_beside_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("hütte.house.json");
        save(&path, b"one").unwrap();
        save(&path, "zwei ½".as_bytes()).unwrap();
        assert_eq!(read_text(&path).unwrap(), "zwei ½");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn permissions_and_links_survive_and_a_protected_file_is_left_alone() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let (path, link) = (folder.path().join("a"), folder.path().join("b"));
        fs::write(&path, "old").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
        std::os::unix::fs::symlink(&path, &link).unwrap();
        save(&link, b"new").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
        assert_eq!(read_text(&path).unwrap(), "new");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o440)).unwrap();
        assert!(matches!(save(&path, b"lost"), Err(StoreError::Write { .. })));
        assert_eq!(read_text(&path).unwrap(), "new");
    }

    #[test]
    fn what_is_no_readable_text_says_why() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::write(at("bytes"), b"abc\xff").unwrap();
        File::create(at("long")).unwrap().set_len(LONGEST + 5).unwrap();
        let said = |name: &str| {
            let error = read_text(&at(name)).unwrap_err().to_string();
            error.replace(&at(name).display().to_string(), "F")
        };
        assert_eq!(said("bytes"), "F: this is no text file (byte 3 is not UTF-8); choose another file");
        assert_eq!(said("none"), "F: there is no such file; check the name");
        assert_eq!(said("."), "F: this is a folder, not a file; choose a file in it");
        assert_eq!(said("long"), "F: it is too long: 16777221 bytes, and 16777216 at most can be read");
        assert!(matches!(save(folder.path(), b""), Err(StoreError::Directory(_))));
        let error = save(&at("no/such/folder"), b"").unwrap_err().to_string();
        assert!(error.contains("cannot be saved") && error.contains("nothing there was changed"), "{error}");
    }
}
