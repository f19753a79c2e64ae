use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
use std::thread;
use std::time::{Duration, SystemTime};

/// How often a file is looked at.
const EVERY: Duration = Duration::from_secs(2);

/// Notices that a file is no longer what it was when it was read or saved here.
#[derive(Debug, Default)]
pub(super) struct Watch {
    shared: Arc<Shared>,
    /// Whether a thread does the looking.
    aside: bool,
}

#[derive(Debug, Default)]
struct Shared {
    seen: Mutex<Option<Seen>>,
    changed: AtomicBool,
}

/// A file, and when it was written and how long it was; `None` when there was none.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Seen {
    path: PathBuf,
    stamp: Option<(SystemTime, u64)>,
}

impl Seen {
    fn of(path: &Path) -> Self {
        let data = std::fs::metadata(path).ok();
        Self { stamp: data.and_then(|d| Some((d.modified().ok()?, d.len()))), path: path.to_owned() }
    }
}

impl Shared {
    fn seen(&self) -> MutexGuard<'_, Option<Seen>> {
        self.seen.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn differs(&self) -> bool {
        self.seen().as_ref().is_some_and(|seen| Seen::of(&seen.path) != *seen)
    }
}

impl Watch {
    /// Looks beside the window, which costs no frames, and wakes it when something has changed.
    pub(super) fn aside(ctx: &egui::Context) -> Self {
        let watch = Self { aside: true, ..Self::default() };
        let (shared, ctx) = (Arc::downgrade(&watch.shared), ctx.clone());
        thread::spawn(move || look(&shared, &ctx));
        watch
    }

    /// Watches this file from now on.
    pub(super) fn turn_to(&self, file: Option<&Path>) {
        *self.shared.seen() = file.map(Seen::of);
        self.shared.changed.store(false, Ordering::Relaxed);
    }

    /// Whether the file has changed, as far as is known.
    pub(super) fn has_changed(&self) -> bool {
        if self.aside { self.shared.changed.load(Ordering::Relaxed) } else { self.differs() }
    }

    /// Whether the file has changed, looked at now.
    pub(super) fn differs(&self) -> bool {
        self.shared.differs()
    }
}

/// Looks until nobody wants to know any more.
fn look(shared: &Weak<Shared>, ctx: &egui::Context) {
    loop {
        thread::sleep(EVERY);
        let Some(shared) = shared.upgrade() else { return };
        if shared.differs() && !shared.changed.swap(true, Ordering::Relaxed) {
            ctx.request_repaint();
        }
    }
}
