//! The answers in words: chapters with their lines, the same on screen and on paper.

use crate::carry::{Carry, Section};
use crate::stuff::Stuff;
use crate::told::{between, short};
use crate::{Class, Matter, Range, Report, Site, Told};
use gable_bake::{Chapter, Figure};
use gable_measure::{Length, Unit, decimal};
use gable_plane::V3;
use gable_words::{mark, say, tr};

/// Under everything that is said.
pub const ABOUT_CAKE: &str = mark!(
    "This is about cake: strengths of gingerbread are hardly published, no batch is like another, and none of this is a promise. Keep hands, children and pets from under what could fall; local rules come first."
);

/// Figures of the notebook that the answers depend on most.
const FIGURES: [Figure; 8] = [
    Figure::BiscuitStrength,
    Figure::BiscuitStiffness,
    Figure::SoftAt,
    Figure::SoftOver,
    Figure::IcingYield,
    Figure::BondStrength,
    Figure::Bead,
    Figure::DoughDensity,
];

fn chapter(title: impl Into<String>, lines: Vec<String>) -> Chapter {
    Chapter { title: title.into(), lines }
}

impl Report {
    /// All of it.
    pub fn chapters(&self, site: &Site<'_>) -> Vec<Chapter> {
        let mut all = vec![self.in_short()];
        all.extend(Matter::ALL.map(|matter| self.of_matter(matter)));
        all.extend(self.others(site));
        all
    }

    /// What is not about one matter: what was tried, bows that joints forgive, spares, the room, carrying, sections, assumptions.
    pub fn others(&self, site: &Site<'_>) -> [Chapter; 7] {
        let unit = site.about.solved.unit;
        let tried = self.tried.iter().map(|t| t.line(site.about.house)).collect();
        [
            chapter(tr!("Tried, and helps"), tried),
            chapter(tr!("How much bow joints forgive"), bows(self, site)),
            chapter(tr!("Bake one more of"), self.spares.iter().map(|s| spare(s, site)).collect()),
            chapter(tr!("In this room"), self.advice.clone()),
            chapter(tr!("To carry it"), carry(&self.carry, unit)),
            chapter(tr!("In sections"), sections(&self.sections, site)),
            assumptions(site),
        ]
    }

    /// How many answers there are of each class, and what is said about the room.
    pub fn in_short(&self) -> Chapter {
        let line = |class: Class| format!("{}: {}", class.words(), self.count(class));
        let mut lines: Vec<String> = [Class::Breaks, Class::Care, Class::Sound].map(line).to_vec();
        let percent = short(self.ask.air.humidity * 100.0);
        lines.push(tr!("in a room of {percent} % humidity, for a day"
            | "in a room of {percent} % humidity, for {n} days" % self.ask.air.days));
        chapter(tr!("In short"), lines)
    }

    /// The answers about one matter: each that is not sound, and the others in one line.
    pub fn of_matter(&self, matter: Matter) -> Chapter {
        let own = || self.told.iter().filter(move |t| t.matter == matter);
        let says_more = |t: &&Told| t.class() > Class::Sound || !matter.is_many();
        let mut lines = together(own().filter(says_more));
        let sound: Vec<&Told> = own().filter(|t| !says_more(t)).collect();
        if let Some(most) = sound.iter().max_by(|a, b| a.answer.share.usual.total_cmp(&b.answer.share.usual)) {
            let others = if lines.is_empty() { tr!("answers" => "all") } else { tr!("answers" => "others") };
            lines.push(tr!(
                "{} – {others} ({}); most is asked of {}: {}",
                Class::Sound.words(),
                sound.len(),
                most.answer.place.name,
                most.answer.reason
            ));
        }
        chapter(matter.title(), lines)
    }
}

impl Matter {
    /// Whether it is asked of so many things that only those that are not sound are told one by one.
    const fn is_many(self) -> bool {
        matches!(
            self,
            Self::Slides
                | Self::Tips
                | Self::Pushes
                | Self::Lifted
                | Self::Bridge
                | Self::Bends
                | Self::Buckles
                | Self::Travels
        )
    }
}

/// A line each, those that say the same of several pieces on one.
fn together<'t>(all: impl Iterator<Item = &'t Told>) -> Vec<String> {
    let mut groups: Vec<(&Told, Vec<&str>)> = Vec::new();
    for told in all {
        let same = |other: &Told| {
            (other.class(), &other.answer.reason, &other.remedy) == (told.class(), &told.answer.reason, &told.remedy)
        };
        match groups.iter_mut().find(|(first, _)| same(first)) {
            Some((_, names)) => names.push(&told.answer.place.name),
            None => groups.push((told, vec![&told.answer.place.name])),
        }
    }
    groups.into_iter().map(|(told, names)| told.line_for(&joined(&names))).collect()
}

/// 'Tower: side 1 roof, side 3 roof; Porch: roof'.
fn joined(names: &[&str]) -> String {
    let mut said = String::new();
    let mut last = None;
    for name in names {
        let (part, own) = name.split_once(": ").map_or((None, *name), |(part, own)| (Some(part), own));
        if said.is_empty() {
            said.push_str(name);
        } else if part.is_some() && part == last {
            said.push_str(&format!(", {own}"));
        } else {
            said.push_str(&format!("; {name}"));
        }
        last = part;
    }
    said
}

/// Joints that forgive alike on one line: 'A to D: up to 3.2 mm, with a thin bead 1.5, with a thick one 5'.
fn bows(report: &Report, site: &Site<'_>) -> Vec<String> {
    let joints = &site.about.solved.joints;
    let print = |mm: f64| site.about.solved.unit.print(Length::mm_of(mm));
    let mut alike: Vec<(Range, Vec<&str>)> = Vec::new();
    for bow in &report.bows {
        let same = |r: &Range| (r.usual - bow.forgives.usual).abs() < 0.05 && (r.low - bow.forgives.low).abs() < 0.05;
        let letter = joints[bow.joint].letter.as_str();
        match alike.iter_mut().find(|(range, _)| same(range)) {
            Some((_, letters)) => letters.push(letter),
            None => alike.push((bow.forgives, vec![letter])),
        }
    }
    alike.sort_by(|a, b| a.0.usual.total_cmp(&b.0.usual));
    let line = |(range, letters): (Range, Vec<&str>)| {
        let which = match letters.len() {
            1 => tr!("joint {}", letters[0]),
            n if n <= 12 => tr!("joints {}", letters.join(", ")),
            n => tr!("{n} joints"),
        };
        let (usual, low, high) = (print(range.usual), print(range.low), print(range.high));
        if low == high {
            return tr!("{which}: the middle may stand off by {usual}");
        }
        tr!("{which}: the middle may stand off by {usual} ({low} with a thin bead, {high} with a thick one)")
    };
    alike.into_iter().map(line).collect()
}

fn spare(spare: &crate::lift::Spare, site: &Site<'_>) -> String {
    let names: Vec<&str> = spare.pieces.iter().map(|&k| site.about.solved.pieces[k].name.as_str()).collect();
    tr!("template {} ({}): {}", spare.template, names.join(", "), spare.because)
}

fn carry(carry: &Carry, unit: Unit) -> Vec<String> {
    let mut lines = vec![tr!(
        "{} with the board: the house {}, the board {} ({})",
        (carry.house + carry.board).print(unit),
        carry.house.print(unit),
        carry.board.print(unit),
        say(carry.kind.name)
    )];
    if let Some(middle) = carry.middle {
        let aside = |by: Length, more: &str, less: &str| {
            let word = if by > Length::ZERO { more } else { less };
            (by.mm().abs() >= 1.0).then(|| format!("{} {word}", unit.print(by.abs())))
        };
        let off: Vec<String> = [
            aside(carry.off.0, tr!("to the right"), tr!("to the left")),
            aside(carry.off.1, tr!("to the back"), tr!("to the front")),
        ]
        .into_iter()
        .flatten()
        .collect();
        let off = if off.is_empty() {
            tr!("over the middle of the board").to_owned()
        } else {
            tr!("{} of the middle of the board", off.join(tr!(" and ")))
        };
        lines.push(tr!(
            "its weight acts {off}, {} above it: two hands there lift it level",
            unit.print(Length::mm_of(middle.z.max(0.0)))
        ));
    }
    if let Some(sag) = carry.better() {
        let edges = if carry.by_sides_is_better() { tr!("left and right") } else { tr!("front and back") };
        lines.push(tr!(
            "hold it by its {edges} edges, never by the house: the board sags by {}",
            between(sag.most, "mm")
        ));
    }
    if let Some((width, depth)) = carry.board_size {
        lines.push(tr!(
            "board {} × {}, {} high with the house",
            unit.print_bare(width),
            unit.print(depth),
            unit.print(carry.height)
        ));
    }
    let [w, d, h] = carry.box_size;
    lines.push(tr!("box, inside: {} × {} × {} high at least", unit.print_bare(w), unit.print_bare(d), unit.print(h)));
    lines
}

fn sections(all: &[Section], site: &Site<'_>) -> Vec<String> {
    if all.len() < 2 {
        return Vec::new();
    }
    let unit = site.about.solved.unit;
    let house = site.about.house;
    let line = |section: &Section| {
        let with: Vec<&str> = section
            .parts
            .iter()
            .filter_map(|id| house.part(id))
            .map(|p| p.name.as_str())
            .filter(|name| *name != section.name)
            .collect();
        let with = if with.is_empty() { String::new() } else { tr!(" with {}", with.join(", ")) };
        let letters: Vec<&str> = section.seams.iter().map(|&j| site.about.solved.joints[j].letter.as_str()).collect();
        let seams = if letters.is_empty() {
            String::new()
        } else {
            tr!("; leave its seams ({}) without icing until the place", letters.join(", "))
        };
        let way = section.way.as_ref().map_or_else(
            || tr!("no straight way off while the others stand: put it up with them").to_owned(),
            |way| tr!("comes away {}{seams}", towards(way)),
        );
        format!("{}{with}, {}: {way}", section.name, section.mass.print(unit))
    };
    all.iter().map(line).collect()
}

/// 'straight up', 'to the front', 'to the back and right'.
fn towards(way: &V3) -> String {
    if way.z > 0.9 {
        return tr!("straight up").to_owned();
    }
    let (along, aside) = (way.y.abs() > 0.38, way.x.abs() > 0.38);
    let said = match (along, way.y > 0.0, aside, way.x > 0.0) {
        (true, true, false, _) => tr!("to the back"),
        (true, false, false, _) => tr!("to the front"),
        (false, _, _, true) => tr!("to the right"),
        (false, _, _, false) => tr!("to the left"),
        (true, true, true, true) => tr!("to the back and right"),
        (true, true, true, false) => tr!("to the back and left"),
        (true, false, true, true) => tr!("to the front and right"),
        (true, false, true, false) => tr!("to the front and left"),
    };
    said.to_owned()
}

/// Figures that nobody has measured for this kitchen.
fn assumptions(site: &Site<'_>) -> Chapter {
    let figures = &site.notebook.figures;
    let doughs = &site.about.house.doughs;
    // Strips that were broken take the place of two of them.
    let snapped = |figure: Figure| {
        !doughs.is_empty()
            && doughs.iter().map(|d| Stuff::of(site.notebook, &d.id)).all(|stuff| match figure {
                Figure::BiscuitStrength => stuff.strength.is_own(),
                Figure::BiscuitStiffness => stuff.stiffness.is_own(),
                _ => false,
            })
    };
    let assumed = FIGURES.into_iter().filter(|f| figures.basis(*f).is_assumption() && !snapped(*f));
    let line = |figure: Figure| {
        let known = figure.known();
        let [value, low, high] =
            [figures.get(figure), known.range.0, known.range.1].map(|v| decimal(known.shown(v), 2));
        tr!("{}: {value} {}, {low} to {high} ({})", known.words, known.unit, known.founded())
    };
    chapter(tr!("Taken as, until your notebook says otherwise"), assumed.map(line).collect())
}
