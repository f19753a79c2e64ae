//! What is done with everything that is selected.

use super::{Line, Space, count_words, spaced};
use crate::actions::Action;
use crate::app::Editor;
use crate::fields::Touched;
use crate::hosts;
use crate::panels::Notice;
use crate::selection::Selection;
use crate::table::{Gesture, Member, Sheet, members, movers, ornaments};
use gable_plane::V2;
use gable_shell::{House, PartId};
use gable_words::{mark, say, tr};

/// What to do first, where nothing can be lined up.
const CHOOSE: &str = mark!(
    "Choose what it is for first: hold Ctrl and click openings of one wall, parts, or what stands beside the house, on the \
                      drawing table or in the list; or draw a frame round them."
);

impl Editor {
    /// What is selected, of what lies on the table; the one whose sizes are shown first.
    pub(crate) fn held_together(&self) -> Vec<Member> {
        let Some((shown, house)) = self.shown.as_ref().zip(self.house()) else { return Vec::new() };
        let all = self.company.with(&self.selection);
        let on = |sheet: &Sheet| -> Vec<Member> {
            let there = members((&shown.solved, &shown.dressed), house, sheet);
            all.iter().filter_map(|what| there.iter().find(|m| m.what == *what).cloned()).collect()
        };
        // Ornaments may be on several faces.
        if all.iter().all(|s| matches!(s, Selection::Ornament(_))) {
            return all
                .into_iter()
                .filter_map(|what| ornaments::anywhere(&shown.solved, &shown.dressed, what))
                .collect();
        }
        let held = on(&self.table.sheet);
        // Parts are all on the plan.
        if held.len() == all.len() { held } else { on(&Sheet::Plan) }
    }

    /// What cannot be done with what is selected now, for menus.
    pub(crate) fn idle_actions(&self) -> Vec<Action> {
        let opening = matches!(self.selection, Selection::Opening(..));
        let ornament = matches!(self.selection, Selection::Ornament(_));
        let count = self.company.with(&self.selection).len();
        let idle = |action: &Action| match action {
            Action::Remove => matches!(self.selection, Selection::House | Selection::Side(..)),
            Action::LineUp(_) => count < 2 || ornament,
            Action::Space(Space::Ends) => !opening,
            Action::Space(_) => count < 3 || ornament,
            _ => false,
        };
        Action::ALL.into_iter().filter(idle).collect()
    }

    /// Selects everything on the drawing table that is like what is selected: openings, what stands beside the house, or parts
    /// that stand by the same part, because those that stand by each other go along with it in any case.
    pub(crate) fn select_all(&mut self) {
        let Some((shown, house)) = self.shown.as_ref().zip(self.document.as_ref().map(|d| d.house())) else { return };
        let all = members((&shown.solved, &shown.dressed), house, &self.table.sheet);
        let all = alike(all.into_iter().map(|m| m.what).collect(), &self.selection, house);
        let more = all.contains(&self.selection);
        self.company.take(&mut self.selection, all, more, house);
        self.fields.clear();
    }

    /// Brings everything that is selected onto a line of the one whose sizes are shown.
    pub(crate) fn line_up(&mut self, line: Line) {
        let held = self.held_together();
        let Some((lead, others)) = held.split_first().filter(|(_, others)| !others.is_empty()) else {
            self.notice = Some(Notice::passing(say(CHOOSE)));
            return;
        };
        let axis = if line.is_level() { V2::y() } else { V2::x() };
        let moves = others.iter().map(|m| (m, axis * line.shift(m.bounds, lead.bounds))).collect();
        self.move_each(&held, moves, line.undo());
    }

    /// Makes spaces between everything that is selected equal.
    pub(crate) fn space(&mut self, space: Space) {
        let held = self.held_together();
        let upwards = space == Space::Upwards;
        let spans: Vec<(f64, f64)> = held
            .iter()
            .map(|m| m.bounds)
            .map(|(low, high)| if upwards { (low.y, high.y) } else { (low.x, high.x) })
            .collect();
        let ends = (space == Space::Ends).then(|| self.wall_ends()).flatten();
        let moves = spaced(&spans, ends).filter(|_| space != Space::Ends || ends.is_some());
        let Some(moves) = moves else {
            let words = match space {
                Space::Ends => {
                    tr!("Choose openings of one wall first. This spreads them between both ends of the wall.")
                }
                _ => {
                    tr!("Choose three or more first, openings of one wall or parts: the outermost stay where they are.")
                }
            };
            self.notice = Some(Notice::passing(words));
            return;
        };
        let axis = if upwards { V2::y() } else { V2::x() };
        let moves = held.iter().zip(moves).map(|(m, by)| (m, axis * by)).collect();
        self.move_each(&held, moves, space.undo());
    }

    /// Both ends of the wall whose openings are selected, on the drawing table.
    fn wall_ends(&self) -> Option<(f64, f64)> {
        let Selection::Opening(part, id) = &self.selection else { return None };
        let part = self.house()?.part(part)?;
        let opening = part.openings.iter().find(|o| &o.id == id)?;
        let length = crate::openings::wall_length(part, &opening.side)?;
        // Openings are told from the left corner; on the table their wall lies where its piece does.
        let own = opening.layout(length).boxes.first()?.0.x;
        let held = self.held_together();
        let shown = held.first()?.bounds.0.x;
        Some((shown - own, shown - own + length))
    }

    /// Moves each of these so far on the drawing, as one step; says so where one of them cannot go that way.
    fn move_each(&mut self, held: &[Member], moves: Vec<(&Member, V2)>, undo: &str) {
        let Some(mut house) = self.house().cloned() else { return };
        let free: Vec<_> = movers(held, &house).into_iter().map(|m| m.what.clone()).collect();
        for (member, way) in moves {
            if way.norm() < 1e-9 {
                continue;
            }
            if !free.contains(&member.what) || !member.can_go(way) {
                let name = crate::layout::name_of(&member.what, &house);
                let words = tr!("{name} cannot go that way on this drawing, so nothing was moved.");
                self.notice = Some(Notice::trouble(words));
                return;
            }
            if let Some(now) = member.numbers(&house) {
                member.put(&mut house, now + member.growth(way));
            }
        }
        self.take_step(house, undo);
    }

    fn take_step(&mut self, house: House, name: &str) {
        self.fields.clear();
        let touched = Touched { place: String::new(), text: String::new(), name: name.to_owned() };
        self.commit(house, Some(touched), Gesture::default());
    }

    /// Takes away all that is selected, in one step.
    pub(crate) fn remove_selected(&mut self) {
        let Some(mut house) = self.house().cloned() else { return };
        let all = self.company.with(&self.selection);
        let next = match &self.selection {
            Selection::Opening(part, id) => {
                let own = house.part(part).and_then(|p| p.openings.iter().find(|o| &o.id == id));
                own.map_or(Selection::House, |o| Selection::Side(part.clone(), o.side.clone()))
            }
            Selection::Ornament(k) => ornaments::bearer(&house, *k),
            _ => Selection::House,
        };
        if !take_away(&mut house, &all) {
            let words = tr!(
                "Choose doors, windows, parts, ornaments or what stands beside the house first. What is locked stays, and so does the last \
                 part of a house."
            );
            self.notice = Some(Notice::passing(words));
            return;
        }
        self.take_step(house, &tr!("removed {}", count_words(&all)));
        self.company.dismiss();
        self.selection = next;
    }
}

/// Those of all that are like one of them; without one, openings before parts on the board.
fn alike(all: Vec<Selection>, one: &Selection, house: &House) -> Vec<Selection> {
    let host = |s: &Selection| s.part().and_then(|id| house.part(id)).and_then(|p| p.place.host().cloned());
    let (openings, rest): (Vec<_>, Vec<_>) = all.into_iter().partition(|s| matches!(s, Selection::Opening(..)));
    let (extras, rest): (Vec<_>, Vec<_>) = rest.into_iter().partition(|s| matches!(s, Selection::Extra(_)));
    let (ornaments, parts): (Vec<_>, Vec<_>) = rest.into_iter().partition(|s| matches!(s, Selection::Ornament(_)));
    let lead = match one {
        Selection::Extra(_) if !extras.is_empty() => return extras,
        Selection::Ornament(_) if !ornaments.is_empty() => return ornaments,
        Selection::Part(_) => parts.iter().find(|s| *s == one),
        _ => None,
    };
    if lead.is_none() && !openings.is_empty() {
        return openings;
    }
    let wanted = lead.or(parts.first()).and_then(host);
    parts.into_iter().filter(|s| host(s) == wanted).collect()
}

/// Takes openings, ornaments, what stands beside the house, or parts with what stands by them out of a house; false, and nothing is done, where that cannot be.
fn take_away(house: &mut House, all: &[Selection]) -> bool {
    if all.iter().all(|s| matches!(s, Selection::Extra(_))) {
        let mut k = 0;
        house.dressing.extras.retain(|_| (!all.contains(&Selection::Extra(k)), k += 1).0);
        return true;
    }
    if all.iter().all(|s| matches!(s, Selection::Ornament(_))) {
        if all.iter().any(|s| ornaments::is_locked(house, s)) {
            return false;
        }
        let mut k = 0;
        house.dressing.ornaments.retain(|_| (!all.contains(&Selection::Ornament(k)), k += 1).0);
        return true;
    }
    let parts: Vec<&PartId> =
        all.iter().filter_map(|s| if let Selection::Part(id) = s { Some(id) } else { None }).collect();
    if parts.len() == all.len() {
        let gone: Vec<PartId> = parts.iter().flat_map(|id| house.with_guests(id)).collect();
        let stays = |id: &PartId| !gone.contains(id);
        if house.parts.iter().all(|p| !stays(&p.id)) || house.parts.iter().any(|p| p.locked && !stays(&p.id)) {
            return false;
        }
        parts.into_iter().for_each(|id| hosts::remove(house, id));
        return true;
    }
    let locked = |s: &Selection| s.part().and_then(|id| house.part(id)).is_none_or(|p| p.locked);
    if !all.iter().all(|s| matches!(s, Selection::Opening(..)) && !locked(s)) {
        return false;
    }
    for part in &mut house.parts {
        let id = part.id.clone();
        part.openings.retain(|o| !all.contains(&Selection::Opening(id.clone(), o.id.clone())));
    }
    true
}
