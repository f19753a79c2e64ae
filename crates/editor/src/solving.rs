use crate::view::Shown;
use gable_shell::House;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;

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
        thread::spawn(move || work(&inbox, &outbox, &ctx));
        Self::Aside(Aside { questions, answers })
    }

    /// Asks for a house to be worked out.
    pub(crate) fn ask(&mut self, number: u64, house: &House) {
        let question = Question { number, house: house.clone() };
        match self {
            Self::Here(answer) => *answer = Some(answer_to(&question)),
            Self::Aside(aside) => {
                // The thread ends only with the program: a question that cannot be sent has nobody to answer to.
                let _ = aside.questions.send(question);
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

fn work(inbox: &Receiver<Question>, outbox: &Sender<Answer>, ctx: &egui::Context) {
    while let Ok(first) = inbox.recv() {
        let latest = inbox.try_iter().last().unwrap_or(first);
        if outbox.send(answer_to(&latest)).is_err() {
            return;
        }
        ctx.request_repaint();
    }
}

/// A fault of the program must not cost the person the house: it is caught here and told.
fn answer_to(question: &Question) -> Answer {
    let number = question.number;
    let shown = catch_unwind(AssertUnwindSafe(|| Shown::of(number, &question.house)));
    Answer { number, shown: shown.ok() }
}
