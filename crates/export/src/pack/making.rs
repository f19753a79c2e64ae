//! The pages of each section, worked out side by side and put together in their order.

use super::cover::About;
use super::sheet::Sheet;
use super::{
    Baker, Draft, PackError, bake, biscuits, board, board_size, calibration, cover, days, gauges, guide, mockup,
    next_number, others, patterns, printed, ruler, tables, travel,
};
use crate::Section;
use gable_bake::BakePlan;
use gable_bake::timetable::{Timetable, Work};
use gable_raise::{Guide, Stuck};
use rayon::prelude::*;

/// What all sections are made from.
pub(super) struct Making<'a> {
    pub(super) about: About<'a>,
    /// Upright and lying paper.
    pub(super) sheets: &'a [Sheet; 2],
    pub(super) baker: &'a Baker,
}

impl Making<'_> {
    /// All pages that are chosen.
    pub(super) fn drafts(&self) -> Result<Vec<Draft>, PackError> {
        let guide = self.guide();
        let chosen: Vec<Section> = Section::ALL.into_iter().filter(|s| self.holds(*s)).collect();
        let planned = [Section::BakePlan, Section::Cautions];
        let drawn = || {
            let pages = |s: &Section| if planned.contains(s) { Ok(Vec::new()) } else { self.pages(*s, &guide) };
            chosen.par_iter().map(pages).collect::<Result<Vec<_>, _>>()
        };
        let picture = || self.holds(Section::Cover).then(|| cover::picture(&self.about));
        let plan = || planned.iter().any(|s| self.holds(*s)).then(|| self.plan(&guide));
        let (sections, (plan, picture)) = rayon::join(drawn, || rayon::join(plan, picture));
        let mut drafts = Vec::new();
        for (section, mut pages) in chosen.iter().zip(sections?) {
            match (section, &plan) {
                (Section::BakePlan, Some((plan, days))) => {
                    drafts.append(&mut bake::pages(&self.about, plan, &self.baker.notebook, &self.sheets[0]));
                    days.iter().for_each(|(work, table)| drafts.append(&mut days::pages(work, table, &self.sheets[0])));
                    if plan.has_kits() {
                        drafts.append(&mut days::labels(plan, self.about.solved.unit, &self.sheets[0]));
                    }
                }
                (Section::Cautions, Some((plan, _))) => drafts.append(&mut bake::cautions(plan, &self.sheets[0])),
                _ => drafts.append(&mut pages),
            }
        }
        if let Some(picture) = picture {
            // It says on which page everything is.
            drafts.splice(0..0, cover::pages(&self.about, &picture, &self.sheets[0], &drafts));
        }
        Ok(drafts)
    }

    fn holds(&self, section: Section) -> bool {
        self.about.options.sections.holds(section)
    }

    /// The order of assembly, where it is needed: gauges need it for the heights of props.
    fn guide(&self) -> Result<Guide, Stuck> {
        let needed = [Section::BakePlan, Section::Cautions, Section::Guide, Section::Gauges, Section::Stand];
        if needed.iter().any(|s| self.holds(*s)) { Guide::of(self.about.solved) } else { Ok(Guide::default()) }
    }

    fn plan(&self, guide: &Result<Guide, Stuck>) -> (BakePlan, Option<(Work, Timetable)>) {
        days::planned(&self.baked(guide), self.baker)
    }

    /// The house with its order of assembly and its base board.
    fn baked<'a>(&'a self, guide: &'a Result<Guide, Stuck>) -> gable_bake::About<'a> {
        let About { house, solved, dressed, .. } = self.about;
        let board = board_size(house, solved);
        gable_bake::About { house, solved, dressed, guide: guide.as_ref().ok(), board }
    }

    /// The pages of one section that needs neither the plan of the bake nor the other pages.
    fn pages(&self, section: Section, guide: &Result<Guide, Stuck>) -> Result<Vec<Draft>, PackError> {
        let (about, sheets) = (&self.about, self.sheets);
        Ok(match section {
            Section::Cover | Section::BakePlan | Section::Cautions => Vec::new(),
            Section::Calibration => vec![calibration::page(about, &sheets[0])],
            Section::Patterns => patterns(&printed(about), sheets, about.options.fewer_pages)?,
            Section::Board => board::pages(about, sheets)?,
            Section::Guide => guide::pages(about, guide.as_ref(), &sheets[0]),
            Section::Ruler => ruler::pages(about, &sheets[0]),
            Section::Gauges => {
                let gauges = gauges::templates(about, guide.as_ref().ok(), next_number(about.templates));
                others(&gauges, sheets, "Card gauges")?
            }
            Section::Tables => tables::pages(about, &sheets[0]),
            Section::TestBiscuits => biscuits::page(about, &sheets[0]),
            Section::Stand => travel::pages(&self.baked(guide), &self.baker.notebook, &sheets[0]),
            Section::SnapTest => travel::snap_test(about, &sheets[0]),
            Section::MockUp => {
                let nets = mockup::templates(about, about.options.mock_up.0, 1);
                others(&nets, sheets, "Paper mock-up")?
            }
        })
    }
}
