use gable_shell::House;

/// One thing a person did, with the house as it was before.
#[derive(Clone, Debug)]
struct Step {
    name: String,
    before: House,
}

/// Everything that can be taken back and done again.
///
/// A step is a copy of the house before it. Steps that belong to one gesture (a drag) are one step.
#[derive(Clone, Debug, Default)]
pub(crate) struct History {
    done: Vec<Step>,
    undone: Vec<Step>,
    gesture: Option<egui::Id>,
}

impl History {
    /// Notes that `before` is about to be replaced. Within one gesture only the first call makes a step.
    pub(crate) fn record(&mut self, name: &str, before: &House, gesture: Option<egui::Id>) {
        let goes_on = gesture.is_some() && gesture == self.gesture;
        self.gesture = gesture;
        if goes_on {
            return;
        }
        self.undone.clear();
        self.done.push(Step { name: name.to_owned(), before: before.clone() });
    }

    /// Ends the running gesture, so that the next change is a step of its own.
    pub(crate) fn end_gesture(&mut self) {
        self.gesture = None;
    }

    /// Takes the last step back: swaps `house` with what it was.
    pub(crate) fn undo(&mut self, house: &mut House) -> bool {
        self.gesture = None;
        Self::swap(&mut self.done, &mut self.undone, house)
    }

    /// Does the last undone step again.
    pub(crate) fn redo(&mut self, house: &mut House) -> bool {
        self.gesture = None;
        Self::swap(&mut self.undone, &mut self.done, house)
    }

    fn swap(from: &mut Vec<Step>, to: &mut Vec<Step>, house: &mut House) -> bool {
        let Some(mut step) = from.pop() else { return false };
        std::mem::swap(&mut step.before, house);
        to.push(step);
        true
    }

    /// Names of everything that can be taken back, the last thing first.
    pub(crate) fn done(&self) -> impl Iterator<Item = &str> {
        self.done.iter().rev().map(|s| s.name.as_str())
    }

    /// Names of everything that can be done again, the next thing first.
    pub(crate) fn undone(&self) -> impl Iterator<Item = &str> {
        self.undone.iter().rev().map(|s| s.name.as_str())
    }

    /// Name of what undo would take back.
    pub(crate) fn undo_name(&self) -> Option<&str> {
        self.done.last().map(|s| s.name.as_str())
    }

    /// Name of what redo would do again.
    pub(crate) fn redo_name(&self) -> Option<&str> {
        self.undone.last().map(|s| s.name.as_str())
    }
}
