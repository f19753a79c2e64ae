//! What is switched on and off in the view, and where one stands.

use super::View;
use super::camera::Direction;
use crate::actions::Action;
use gable_measure::Severity;

impl View {
    /// Looks at the whole house from another direction.
    pub(crate) fn look(&mut self, direction: Direction) {
        self.camera.stand(direction);
        (self.turned, self.fit_asked) = (true, true);
    }

    /// Draws what is far away as large as what is near, or no longer.
    pub(crate) fn switch_parallel(&mut self) {
        self.camera.parallel = !self.camera.parallel;
        self.fit_asked = true;
    }

    /// Shows or hides icing.
    pub(crate) fn switch_icing(&mut self) {
        self.icing = !self.icing;
    }

    /// Shows or hides the letters of joints.
    pub(crate) fn switch_letters(&mut self) {
        self.lettered = !self.lettered;
    }

    /// Shows only what is selected, or everything again.
    pub(crate) fn switch_only(&mut self) {
        self.only = !self.only;
    }

    /// Lights the lamps, or puts them out.
    pub(crate) fn switch_evening(&mut self) {
        self.evening = !self.evening;
    }

    /// Colours pieces by what was noticed of them, or no longer.
    pub(crate) fn switch_noticed(&mut self) {
        self.noticed = !self.noticed;
    }

    /// Says the worst that was noticed of each piece; asked for only while it is shown.
    pub(crate) fn mark(&mut self, marks: impl FnOnce() -> Vec<Option<Severity>>) {
        self.marks = if self.noticed { marks() } else { Vec::new() };
    }

    /// What is switched on, for menus.
    pub(crate) fn switched_on(&self) -> Vec<Action> {
        let switches = [
            (Action::Parallel, self.camera.parallel),
            (Action::Icing, self.icing),
            (Action::Letters, self.lettered),
            (Action::ShowOnly, self.only),
            (Action::Evening, self.evening),
            (Action::Noticed, self.noticed),
        ];
        switches.into_iter().filter(|(_, on)| *on).map(|(action, _)| action).collect()
    }

    /// Which pieces are left out, when only what is selected is shown; none while nothing is selected.
    pub(super) fn hidden(&self, chosen: &[bool]) -> Vec<bool> {
        let some = self.only && chosen.iter().any(|c| *c);
        chosen.iter().map(|chosen| some && !chosen).collect()
    }
}
