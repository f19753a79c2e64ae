use crate::adapters;
use gable_shell::House;
use gable_words::tr;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

/// How long a change may wait for others before it is written: so much is lost at most, and what writing takes.
const REST: Duration = Duration::from_secs(1);

/// Where a copy goes: beside the file, or where that cannot be, into the program's own folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Places {
    pub(super) beside: Option<PathBuf>,
    pub(super) own: PathBuf,
}

impl Places {
    fn write(&self, house: &House) -> Result<(), String> {
        if self.beside.as_ref().is_some_and(|path| adapters::write_house(path, house).is_ok()) {
            return Ok(());
        }
        let done = adapters::write_house(&self.own, house);
        done.map_err(|why| tr!("Your changes could not be kept, so save them soon. {why}"))
    }

    fn remove(&self) {
        self.beside.iter().chain([&self.own]).for_each(|path| delete(path));
    }
}

/// Removes a file that need not be there.
pub(super) fn delete(path: &Path) {
    // What cannot be removed is found again and asked about; it is never wrong to have it.
    let _ = std::fs::remove_file(path);
}

/// Writes copies.
#[derive(Debug)]
pub(super) enum Writer {
    /// At once, with what went wrong last.
    Here(Option<String>),
    /// On a thread of its own.
    Aside(Sender<Order>, Receiver<String>),
}

impl Default for Writer {
    fn default() -> Self {
        Self::Here(None)
    }
}

/// What the thread is told.
#[derive(Debug)]
pub(super) enum Order {
    Keep(Places, Box<House>),
    Remove(Places),
    Flush(Sender<()>),
}

impl Writer {
    /// Writes beside the window, which is woken when something goes wrong.
    pub(super) fn aside(ctx: &egui::Context) -> Self {
        let (orders, inbox) = channel();
        let (outbox, trouble) = channel();
        let ctx = ctx.clone();
        thread::spawn(move || {
            work(&inbox, |why| {
                // Nobody listens any more if the window is gone.
                let _ = outbox.send(why);
                ctx.request_repaint();
            });
        });
        Self::Aside(orders, trouble)
    }

    /// Writes a copy, soon.
    pub(super) fn keep(&mut self, places: Places, house: &House) {
        match self {
            Self::Here(trouble) => *trouble = places.write(house).err(),
            Self::Aside(..) => self.tell(Order::Keep(places, Box::new(house.clone()))),
        }
    }

    /// Removes a copy.
    pub(super) fn remove(&mut self, places: Places) {
        match self {
            Self::Here(_) => places.remove(),
            Self::Aside(..) => self.tell(Order::Remove(places)),
        }
    }

    /// Waits until all that was asked for is done.
    pub(super) fn flush(&self) {
        let (done, wait) = channel();
        self.tell(Order::Flush(done));
        let _ = wait.recv();
    }

    fn tell(&self, order: Order) {
        if let Self::Aside(orders, _) = self {
            // The thread ends only with the window.
            let _ = orders.send(order);
        }
    }

    /// What went wrong since the last call.
    pub(super) fn trouble(&mut self) -> Option<String> {
        match self {
            Self::Here(trouble) => trouble.take(),
            Self::Aside(_, trouble) => trouble.try_iter().last(),
        }
    }
}

/// Does what it is told until nobody is left to tell it anything.
fn work(inbox: &Receiver<Order>, complain: impl Fn(String)) {
    let mut waiting: Option<(Places, Box<House>, Instant)> = None;
    let write = |waiting: &mut Option<(Places, Box<House>, Instant)>| {
        if let Some(Err(why)) = waiting.take().map(|(places, house, _)| places.write(&house)) {
            complain(why);
        }
    };
    loop {
        let left = waiting.as_ref().map(|(.., due)| due.saturating_duration_since(Instant::now()));
        let order = match left {
            Some(Duration::ZERO) => Err(RecvTimeoutError::Timeout),
            Some(left) => inbox.recv_timeout(left),
            None => inbox.recv().map_err(|_| RecvTimeoutError::Disconnected),
        };
        match order {
            // What comes while another waits does not make it wait longer.
            Ok(Order::Keep(places, house)) => {
                let due = waiting.take().map_or_else(|| Instant::now() + REST, |(.., due)| due);
                waiting = Some((places, house, due));
            }
            Ok(Order::Remove(places)) => {
                waiting = None;
                places.remove();
            }
            Ok(Order::Flush(done)) => {
                write(&mut waiting);
                let _ = done.send(());
            }
            Err(RecvTimeoutError::Timeout) => write(&mut waiting),
            Err(RecvTimeoutError::Disconnected) => return write(&mut waiting),
        }
    }
}
