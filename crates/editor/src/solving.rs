use crate::view::Shown;
use gable_shell::House;
use gable_words::{Tongue, spoken};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::Duration;

/// What came of a question.
#[derive(Clone, Debug)]
pub(crate) struct Answer {
    /// Number of the question.
    pub(crate) number: u64,
    /// The house worked out; `None` when that failed altogether.
    pub(crate) shown: Option<Shown>,
}

struct Question {
    number: u64,
    /// The language of the window.
    tongue: Tongue,
    house: House,
}

/// Works houses out without holding up the window. Only the latest house counts: older ones that wait are dropped.
#[derive(Debug)]
pub(crate) enum Solver {
    /// At once, on the caller's thread.
    Here(Option<Answer>),
    /// On a thread of its own.
    Aside(Aside),
}

/// A thread that works houses out.
#[derive(Debug)]
pub(crate) struct Aside {
    questions: Sender<Question>,
    answers: Receiver<Answer>,
    /// Whether houses are looked at folded.
    folded: Arc<AtomicBool>,
    /// Number of the latest question.
    latest: Arc<AtomicU64>,
    /// What is woken.
    ctx: egui::Context,
}

impl std::fmt::Debug for Question {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Question({})", self.number)
    }
}

impl Solver {
    /// A solver that answers before [`Self::ask`] returns.
    pub(crate) fn here() -> Self {
        Self::Here(None)
    }

    /// A solver on a thread of its own, which wakes the window when it is done.
    pub(crate) fn aside(ctx: egui::Context) -> Self {
        let (questions, inbox) = channel();
        let (outbox, answers) = channel();
        let folded = Arc::new(AtomicBool::new(false));
        let latest = Arc::new(AtomicU64::new(0));
        let worker =
            Worker { inbox, outbox, folded: Arc::clone(&folded), latest: Arc::clone(&latest), ctx: ctx.clone() };
        thread::spawn(move || worker.work());
        Self::Aside(Aside { questions, answers, folded, latest, ctx })
    }

    /// The window that is woken by what is done beside it, if anything is.
    pub(crate) fn wakes(&self) -> Option<&egui::Context> {
        match self {
            Self::Here(_) => None,
            Self::Aside(aside) => Some(&aside.ctx),
        }
    }

    /// Asks for a house to be worked out.
    pub(crate) fn ask(&mut self, number: u64, house: &House) {
        let question = Question { number, tongue: spoken(), house: house.clone() };
        match self {
            Self::Here(answer) => {
                let found = answer_to(&question);
                if let Some(shown) = &found.shown {
                    shown.find_raising();
                    shown.find_remedies(&question.house, || true);
                }
                *answer = Some(found);
            }
            Self::Aside(aside) => {
                aside.latest.store(number, Ordering::Relaxed);
                // The thread ends only with the program: a question that cannot be sent has nobody to answer to.
                let _ = aside.questions.send(question);
            }
        }
    }

    /// Says whether houses are looked at folded; true if the way of folding is found beside the window.
    pub(crate) fn finds_fold(&self, folded: bool) -> bool {
        match self {
            Self::Here(_) => false,
            Self::Aside(aside) => {
                aside.folded.store(folded, Ordering::Relaxed);
                true
            }
        }
    }

    /// The latest answer that has come in since the last call.
    pub(crate) fn answer(&mut self) -> Option<Answer> {
        match self {
            Self::Here(answer) => answer.take(),
            Self::Aside(aside) => aside.answers.try_iter().last(),
        }
    }
}

/// How long nothing is asked before the way of folding, the order of assembly and remedies are sought, which would keep the next question waiting.
const QUIET: Duration = Duration::from_millis(400);

/// What the thread has in hand.
struct Worker {
    inbox: Receiver<Question>,
    outbox: Sender<Answer>,
    folded: Arc<AtomicBool>,
    latest: Arc<AtomicU64>,
    ctx: egui::Context,
}

impl Worker {
    fn work(&self) {
        let mut next = self.inbox.recv().ok();
        while let Some(question) = next.take() {
            let latest = self.inbox.try_iter().last().unwrap_or(question);
            latest.tongue.speak();
            let answer = answer_to(&latest);
            let shown = answer.shown.clone();
            if self.outbox.send(answer).is_err() {
                return;
            }
            self.ctx.request_repaint();
            let wait = if self.folded.load(Ordering::Relaxed) { Duration::ZERO } else { QUIET };
            next = match self.inbox.recv_timeout(wait) {
                Ok(question) => Some(question),
                Err(RecvTimeoutError::Disconnected) => None,
                Err(RecvTimeoutError::Timeout) => {
                    self.go_deeper(&latest, shown.as_ref());
                    self.inbox.recv().ok()
                }
            };
        }
    }

    /// What takes longer: the way of folding, the order of assembly, and remedies until the next question comes.
    fn go_deeper(&self, question: &Question, shown: Option<&Shown>) {
        let Some(shown) = shown else { return };
        shown.find_fold();
        self.ctx.request_repaint();
        shown.find_raising();
        self.ctx.request_repaint();
        shown.find_remedies(&question.house, || self.latest.load(Ordering::Relaxed) == question.number);
        self.ctx.request_repaint();
    }
}

/// A fault of the program must not cost the person the house: it is caught here and told.
fn answer_to(question: &Question) -> Answer {
    let number = question.number;
    let shown = catch_unwind(AssertUnwindSafe(|| Shown::of(number, &question.house)));
    Answer { number, shown: shown.ok() }
}
