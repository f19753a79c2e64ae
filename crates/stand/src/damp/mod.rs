//! Damp air: how far it gets into biscuit in some days on show, what is left of strength, how much long pieces grow, what becomes
//! of panes, and what to do.

#[cfg(test)]
mod tests;

use crate::stuff::{Softened, Stuff};
use crate::told::{Matter, Told, between, short};
use crate::{Answer, Class, Range, Site};
use gable_measure::Length;
use gable_shell::Glass;
use gable_words::tr;

/// Water activity of crisp biscuit as it leaves the kitchen: 0.12 to 0.24 lie on the dry plateau (published, copy; Peleg 1994 and
/// Heidenreich et al. 2004 as cited).
const CRISP: f64 = 0.2;
/// Hours in which biscuit 6.5 mm thick goes 63 % of the way to the air of a room. Derived: a step of humidity stretches semi-sweet
/// biscuit by 1e-2 in the end and by 1e-5 a minute at first (Saleem et al., Measurement Science and Technology, 2003), so that the first rate
/// would get there in 1000 minutes; the thickness of that biscuit is from memory.
const SOAKS: Range = Range { low: 8.0, usual: 17.0, high: 50.0 };
/// Thickness to which that belongs, mm.
const SOAKS_AT: f64 = 6.5;
/// With icing all over one face water comes in from the other alone: as through twice the thickness (diffusion in a slab).
const SEALED: f64 = 4.0;
/// Stretch in a step of humidity (Saleem et al., 2003), 1 % at most.
const GROWS: Range = Range { low: 0.005, usual: 0.0075, high: 0.01 };
/// The step to which that belongs, from crisp to about 60 % (an assumption: the abstract names none).
const GROWS_OVER: f64 = 0.4;
/// Seams open or close by so much before it is seen, mm (an assumption).
const SEEN: f64 = 1.0;
/// Above this mould is possible on what stands long: 60 to 64 % (Cervenka et al., J. Food Engineering, 2007; New York State
/// Department of Agriculture and Markets, 'Water Activity').
pub const MOULD: f64 = 0.6;
/// Humidity from which panes of sugar turn sticky, and leaves of gelatine curl (assumptions, no source: both draw damp, published).
const STICKY: Range = Range { low: 0.35, usual: 0.45, high: 0.6 };
const CURLS: Range = Range { low: 0.55, usual: 0.65, high: 0.75 };

/// The air of the room where a house is on show.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Relative humidity, from 0 to 1.
    pub humidity: f64,
    /// How many days.
    pub days: f64,
}

/// A room of 50 %, for a week.
impl Default for Air {
    fn default() -> Self {
        Self { humidity: 0.5, days: 7.0 }
    }
}

/// Hours in which biscuit of a thickness goes 63 % of the way to the air; as the square of its thickness (Fick's law in a slab).
pub fn soaking_hours(thickness: Length, sealed: bool) -> Range {
    let times = (thickness.mm() / SOAKS_AT).powi(2) * if sealed { SEALED } else { 1.0 };
    SOAKS * times
}

/// The water activity that biscuit of a thickness has reached after its days on show.
pub fn reached(air: Air, thickness: Length, sealed: bool) -> Range {
    let hours = air.days.max(0.0) * 24.0;
    let after = |soak: f64| air.humidity + (CRISP - air.humidity) * (-hours / soak.max(1e-9)).exp();
    soaking_hours(thickness, sealed).map(after)
}

/// What is left of biscuit of a thickness after its days on show.
pub fn softened(stuff: &Stuff, air: Air, thickness: Length, sealed: bool) -> Softened {
    let wet = reached(air, thickness, sealed);
    let [dry, usual, damp] = [wet.low, wet.usual, wet.high].map(|a| stuff.at(a));
    let of =
        |get: fn(&Softened) -> Range| Range { low: get(&damp).low, usual: get(&usual).usual, high: get(&dry).high };
    Softened { left: of(|s| s.left), strength: of(|s| s.strength), stiffness: of(|s| s.stiffness) }
}

/// The highest humidity, in whole per cent, at which a share that is asked for of crisp biscuit stays sound however long it stands;
/// nothing if it is not sound when crisp.
pub fn keep_below(stuff: &Stuff, crisp: Range) -> Option<f64> {
    let sound = |humidity: f64| Class::of(crisp / stuff.at(humidity).left) == Class::Sound;
    (20..=80).rev().map(|percent| f64::from(percent) / 100.0).find(|humidity| sound(*humidity))
}

/// How much a length grows from crisp to what it reaches, mm.
pub fn growth(length: Length, reached: Range) -> Range {
    let share = |a: f64| ((a - CRISP) / GROWS_OVER).max(0.0) * length.mm();
    Range {
        low: GROWS.low * share(reached.low),
        usual: GROWS.usual * share(reached.usual),
        high: GROWS.high * share(reached.high),
    }
}

/// What this air does to panes and to the longest piece.
pub fn answers(site: &Site<'_>, air: Air) -> Vec<Told> {
    let mut all = panes(site, air);
    all.extend(grows(site, air));
    all
}

fn panes(site: &Site<'_>, air: Air) -> Vec<Told> {
    let kinds = [
        (
            Glass::Leaf,
            CURLS,
            tr!("leaves of gelatine curl"),
            tr!("glue them all round, and keep them away from fresh icing"),
        ),
        (
            Glass::Poured,
            STICKY,
            tr!("panes of sugar turn sticky and cloud"),
            tr!("make them last, and keep the house dry until it is shown"),
        ),
        (
            Glass::Crushed,
            STICKY,
            tr!("panes of melted sweets turn sticky and cloud"),
            tr!("make them last, and keep the house dry until it is shown"),
        ),
    ];
    let one = |(glass, limit, what, do_what): (Glass, Range, &str, &str)| {
        let own: Vec<_> = site.about.dressed.panes.iter().filter(|p| p.glass == glass).collect();
        let first = own.first()?;
        let class = if air.humidity < limit.low { Class::Sound } else { Class::Care };
        let percent = |a: f64| a * 100.0;
        let reason = tr!(
            "{what} from about {} on; here it is {} %",
            between(limit.map(percent), "%"),
            short(percent(air.humidity))
        );
        let remedy = if class == Class::Sound { String::new() } else { do_what.to_owned() };
        let mut place = site.piece_spot(first.piece, None);
        place.name = tr!("1 pane" | "{n} panes" % own.len());
        let number = Range::exactly(percent(air.humidity));
        let answer = Answer { class, number, share: Range::exactly(air.humidity) / limit, reason, place };
        Some(Told { matter: Matter::Panes, answer, unit: "%", remedy })
    };
    kinds.into_iter().filter_map(one).collect()
}

/// The piece that grows most.
fn grows(site: &Site<'_>, air: Air) -> Option<Told> {
    let longest = |k: &usize| {
        let (width, height) = site.pieces()[*k].size();
        width.max(height).mm()
    };
    let k = (0..site.pieces().len()).max_by(|a, b| longest(a).total_cmp(&longest(b)))?;
    let piece = &site.pieces()[k];
    let length = Length::mm_of(longest(&k));
    let by = growth(length, reached(air, piece.thickness, false));
    let print = |mm: f64| site.about.solved.unit.print(Length::mm_of(mm));
    let class = if by.high < SEEN { Class::Sound } else { Class::Care };
    let reason = tr!(
        "the longest piece, {}: grows by {} to {} until then, if the air reaches it from both faces",
        print(length.mm()),
        print(by.low),
        print(by.high)
    );
    let remedy = match class {
        Class::Sound => String::new(),
        _ => tr!("leave the seams their icing gap, and cover seams that show with a piped line that may crack")
            .to_owned(),
    };
    let answer = Answer { class, number: by, share: by * (1.0 / SEEN), reason, place: site.piece_spot(k, None) };
    Some(Told { matter: Matter::Grows, answer, unit: "mm", remedy })
}

/// What to do in this air, a line each.
pub fn advice(stuff: &Stuff, air: Air, thickness: Length, keep_below: Option<f64>) -> Vec<String> {
    let percent = |a: f64| short(a * 100.0);
    let left = softened(stuff, air, thickness, false).left;
    let sealed = softened(stuff, air, thickness, true).left;
    let days = tr!("a day" | "{n} days" % air.days);
    let mut lines = vec![tr!(
        "After {days} in air of {} % biscuit keeps {} % of its strength, likely between {} and {} %.",
        percent(air.humidity),
        percent(left.usual),
        percent(left.low),
        percent(left.high)
    )];
    if sealed.usual > left.usual + 0.02 {
        lines.push(tr!(
            "Icing all over the inside keeps damp out: it would keep {} %, likely between {} and {} %.",
            percent(sealed.usual),
            percent(sealed.low),
            percent(sealed.high)
        ));
    }
    match keep_below {
        Some(limit) if limit < air.humidity => {
            lines.push(tr!(
                "Keep it below {} %: up to there all joints and roofs are sound, however long it stands.",
                percent(limit)
            ));
        }
        None => {
            lines.push(tr!("Even crisp, a joint or a roof is asked for much: dry air alone does not help.").to_owned())
        }
        Some(_) => {}
    }
    if left.usual < 0.8 {
        lines.push(
            tr!("Biscuit that has softened before it is put up is dried again: 15 to 20 minutes at 95 °C (200 °F), and left to cool \
             (published household recipe). Not with panes of sugar or with icing on it.")
                .to_owned(),
        );
    }
    if air.humidity >= MOULD {
        lines.push(
            tr!("From 60 to 64 % mould can grow on what stands for long: look at it, and throw away what is mouldy; it is not scraped off.")
                .to_owned(),
        );
    }
    lines
}
