//! What is switched on and off in the view, and where one stands.

use super::View;
use super::camera::Direction;
use crate::actions::Action;
use crate::marks::{Marking, Marks};
use egui::Rect;

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

    /// Colours pieces by what is told of them, or no longer.
    pub(crate) fn switch_marking(&mut self, marking: Marking) {
        self.marking = if self.marking == Some(marking) { None } else { Some(marking) };
    }

    /// By what pieces are coloured, if they are.
    pub(crate) const fn marking(&self) -> Option<Marking> {
        self.marking
    }

    /// Says what is told of each piece.
    pub(crate) fn mark(&mut self, marks: Marks) {
        self.marks = marks;
    }

    /// Shows nothing but the picture, without buttons over it, or no longer.
    pub(crate) fn show_bare(&mut self, bare: bool) {
        self.bare = (bare, None);
    }

    /// Where the picture was drawn with nothing over it.
    pub(crate) const fn drawn_bare(&self) -> Option<Rect> {
        self.bare.1
    }

    /// What is switched on, for menus.
    pub(crate) fn switched_on(&self) -> Vec<Action> {
        let switches = [
            (Action::Parallel, self.camera.parallel),
            (Action::Icing, self.icing),
            (Action::Letters, self.lettered),
            (Action::Clear, self.clear),
            (Action::Cut, self.cut.is_some()),
            (Action::Stages, self.stage.is_some()),
            (Action::ShowOnly, self.only),
            (Action::Evening, self.evening),
            (Action::Noticed, self.marking == Some(Marking::Noticed)),
            (Action::Weak, self.marking == Some(Marking::Standing)),
            (Action::Alike, self.marking == Some(Marking::Alike)),
            (Action::Narrow, self.marking == Some(Marking::Narrow)),
        ];
        switches.into_iter().filter(|(_, on)| *on).map(|(action, _)| action).collect()
    }

    /// Which pieces are left out, when only what is selected is shown; none while nothing is selected.
    pub(super) fn hidden(&self, chosen: &[bool]) -> Vec<bool> {
        let some = self.only && chosen.iter().any(|c| *c);
        chosen.iter().map(|chosen| some && !chosen).collect()
    }
}
