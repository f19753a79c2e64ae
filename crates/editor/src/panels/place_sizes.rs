use super::opening::placing;
use super::part_sizes::words;
use super::parts::side_name;
use super::sizes::heading;
use crate::fields::Form;
use crate::hosts;
use egui::Ui;
use gable_measure::{Angle, Length};
use gable_shell::{Behind, House, PartId, Place, SideId, Spot};
use gable_words::tr;

/// Where a part of a house of several stands, and what happens where it meets the others.
pub(super) fn place(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) {
    let hosts = hosts::possible(house, k);
    let Some(part) = house.parts.get_mut(k) else { return };
    if hosts.is_empty() && part.place.host().is_none() {
        return;
    }
    let at = |what: &str| format!("parts[{k}].{what}");
    let mut place = part.place.clone();
    heading(ui, tr!("Where it stands"));
    kind(ui, form, &mut place, &hosts, &at("place"));
    host(ui, form, &mut place, &hosts, &at("place"));
    sizes(ui, form, &mut place, &at("place"));
    part.place = place;
    if matches!(part.place, Place::Ground(_) | Place::Against { .. }) {
        form.length(
            ui,
            (&at("raised"), tr!("Foot above the board"), tr!("change of the foot's height")),
            &mut part.raised,
        );
    }
    let field = (&*at("stays_whole"), tr!("Stays whole, others are cut to it"), tr!("change of what stays whole"));
    form.tick(ui, field, &mut part.stays_whole);
    if part.place.host().is_some() {
        behind(ui, form, &mut part.behind, &at("behind"));
    }
}

fn kind(ui: &mut Ui, form: &mut Form<'_>, place: &mut Place, hosts: &[hosts::Host], at: &str) {
    let kinds = words(&[
        (0, tr!("On the board")),
        (1, tr!("Against a wall of")),
        (2, tr!("On a slope of")),
        (3, tr!("Astride the ridge of")),
        (4, tr!("On top of")),
    ]);
    let old = match place {
        Place::Ground(_) => 0,
        Place::Against { .. } => 1,
        Place::OnSlope { .. } => 2,
        Place::Astride { .. } => 3,
        Place::OnTop { .. } => 4,
    };
    let mut kind = old;
    form.choice(ui, (&format!("{at}.kind"), tr!("Stands"), tr!("change of place")), &mut kind, &kinds);
    if kind != old
        && let Some(new) = hosts::converted(place, kind, hosts)
    {
        *place = new;
    }
}

/// The part it stands by and, where that counts, its side.
fn host(ui: &mut Ui, form: &mut Form<'_>, place: &mut Place, hosts: &[hosts::Host], at: &str) {
    let names: Vec<(PartId, String)> = hosts.iter().map(|h| (h.id.clone(), h.name.clone())).collect();
    let (host, side) = match place {
        Place::Ground(_) => return,
        Place::Against { host, side, .. } | Place::OnSlope { host, side, .. } => (host, Some(side)),
        Place::Astride { host, .. } | Place::OnTop { host, .. } => (host, None),
    };
    form.choice(ui, (&format!("{at}.part"), tr!("Part"), tr!("change of what it stands by")), host, &names);
    let Some((side, found)) = side.zip(hosts.iter().find(|h| &h.id == host)) else { return };
    if let Some(first) = found.sides.first().filter(|_| !found.sides.contains(side)) {
        *side = first.clone();
    }
    let sides: Vec<(SideId, String)> = found.sides.iter().map(|s| (s.clone(), side_name(&s.0))).collect();
    form.choice(ui, (&format!("{at}.side"), tr!("Side of it"), tr!("change of the side it stands by")), side, &sides);
}

fn sizes(ui: &mut Ui, form: &mut Form<'_>, place: &mut Place, at: &str) {
    let key = |what: &str| format!("{at}.{what}");
    match place {
        Place::Ground(spot) | Place::OnTop { spot, .. } => self::spot(ui, form, spot, at),
        Place::Against { along, out, turn: angle, .. } => {
            placing(ui, form, along, &key("along"));
            form.length(ui, (&key("out"), tr!("Reaches out"), tr!("move of a part")), out);
            turn(ui, form, angle, &key("turn"));
        }
        Place::OnSlope { along, up, turn: angle, .. } => {
            placing(ui, form, along, &key("along"));
            form.length(ui, (&key("up"), tr!("In from the wall"), tr!("move of a part")), up);
            turn(ui, form, angle, &key("turn"));
        }
        Place::Astride { along, turn: angle, .. } => {
            form.length(ui, (&key("along"), tr!("Along the ridge"), tr!("move of a part")), along);
            turn(ui, form, angle, &key("turn"));
        }
    }
}

fn spot(ui: &mut Ui, form: &mut Form<'_>, spot: &mut Spot, at: &str) {
    form.length(ui, (&format!("{at}.x"), tr!("Across"), tr!("move of a part")), &mut spot.x);
    form.length(ui, (&format!("{at}.y"), tr!("Back"), tr!("move of a part")), &mut spot.y);
    turn(ui, form, &mut spot.turn, &format!("{at}.turn"));
}

fn turn(ui: &mut Ui, form: &mut Form<'_>, turn: &mut Angle, at: &str) {
    let old = turn.deg();
    let mut degrees = old;
    form.number(ui, (at, tr!("Turned by degrees"), tr!("turn of a part")), &mut degrees);
    if degrees != old {
        *turn = Angle::degrees(degrees);
    }
}

/// Whether a passage is cut behind the part, and how wide its rim is.
fn behind(ui: &mut Ui, form: &mut Form<'_>, behind: &mut Behind, at: &str) {
    let mut open = matches!(behind, Behind::Passage { .. });
    let was = open;
    form.tick(ui, (at, tr!("Passage behind it"), tr!("change of the passage")), &mut open);
    if open != was {
        *behind = if open {
            Behind::Passage { rim: crate::table::rounded(Length::mm_of(4.0), form.unit) }
        } else {
            Behind::Whole
        };
    }
    if let Behind::Passage { rim } = behind {
        form.length(ui, (&format!("{at}.rim"), tr!("Rim round the passage"), tr!("change of the rim")), rim);
    }
}
