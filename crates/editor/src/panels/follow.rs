//! Which sizes follow which.

use super::part_sizes::words;
use crate::adapters::sentence;
use crate::fields::{Followed, Form};
use egui::{CollapsingHeader, Ui};
use gable_shell::{Gives, House, Measure, Measured, Outline, PartId, Relation, SideId};
use gable_words::tr;

/// The fields of a part whose sizes follow others.
pub(crate) fn followed(house: &House, part: Option<&PartId>) -> Vec<Followed> {
    let own = house.relations.iter().filter(|r| Some(&r.follower.part) == part);
    own.flat_map(|relation| {
        let (what, words) = (relation.follower.clone(), relation.words(house));
        fields(house, &what).into_iter().map(move |(field, place)| Followed {
            place,
            words: sentence(&words),
            name: field.words(house),
            what: what.clone(),
        })
    })
    .collect()
}

/// Where a measure is shown: the height of all walls also at each of them.
fn fields(house: &House, what: &Measured) -> Vec<(Measured, String)> {
    let sides = match (&what.measure, house.part(&what.part)) {
        (Measure::Eave(None), Some(part)) => part.sides.iter().map(|s| s.id.clone()).collect(),
        _ => Vec::new(),
    };
    let side = |id: SideId| Measured { measure: Measure::Eave(Some(id)), ..what.clone() };
    let measures = std::iter::once(what.clone()).chain(sides.into_iter().map(side));
    measures.filter_map(|m| house.field_of(&m).map(|place| (m, place))).collect()
}

/// Lets go of the size whose button was pressed.
pub(super) fn let_go(form: &mut Form<'_>, house: &mut House) {
    let Some(what) = form.let_go.take() else { return };
    house.let_go(&what);
    let place = house.field_of(&what).unwrap_or_default();
    form.touch(&place, tr!("letting go of a size"));
}

/// Height of the ridge: worked out, not typed.
pub(super) fn ridge(ui: &mut Ui, form: &mut Form<'_>, house: &House, k: usize) {
    let Some(part) = house.parts.get(k) else { return };
    let ridge = Measured { part: part.id.clone(), measure: Measure::Ridge };
    let Some(height) = house.size_of(&ridge) else { return };
    let shown = tr!("{} above the foot", form.unit.print(height));
    form.row(ui, tr!("Ridge"), |_, ui| ui.label(shown));
    form.remarks(ui, &format!("parts[{k}].sides.ridge"));
}

/// What the sizes of a part follow, to choose; out of sight in a house of one part.
pub(super) fn part(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize) {
    let Some(part) = house.parts.get(k) else { return };
    let of = |measure| Measured { part: part.id.clone(), measure };
    let plan = match part.outline {
        Outline::Free { .. } => vec![],
        // Width and depth of a regular plan are one size.
        Outline::Polygon { .. } | Outline::HalfPolygon { .. } => vec![(of(Measure::Width), tr!("Width follows"))],
        Outline::Rectangle { .. } => {
            vec![(of(Measure::Width), tr!("Width follows")), (of(Measure::Depth), tr!("Depth follows"))]
        }
    };
    let has_eave = house.size_of(&of(Measure::Eave(None))).is_some();
    let eave = has_eave.then(|| (of(Measure::Eave(None)), tr!("Wall height follows")));
    let others = [(of(Measure::Ridge), tr!("Ridge follows")), (of(Measure::Lid), tr!("Plate follows"))];
    let others = others.into_iter().filter(|(m, _)| house.size_of(m).is_some());
    let measures: Vec<_> = plan.into_iter().chain(eave).chain(others).collect();
    section(ui, form, house, &measures);
}

/// What the height of one wall follows.
pub(super) fn side(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize, id: &SideId) {
    let Some(part) = house.parts.get(k) else { return };
    let own = Measured { part: part.id.clone(), measure: Measure::Eave(Some(id.clone())) };
    if house.size_of(&own).is_some() {
        section(ui, form, house, &[(own, tr!("Wall height follows"))]);
    }
}

fn section(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, measures: &[(Measured, &str)]) {
    if house.parts.len() < 2 && house.relations.is_empty() {
        return;
    }
    ui.add_space(6.0);
    CollapsingHeader::new(tr!("Let sizes follow other parts")).id_salt("follow").show(ui, |ui| {
        for (what, name) in measures {
            choose(ui, form, house, what, name);
        }
    });
}

fn choose(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, what: &Measured, name: &str) {
    let Some(field) = house.field_of(what) else { return };
    let old = house.followed(what).cloned();
    let relation = |leader: Measured| match &old {
        Some(old) if &old.follower == what => Relation { leader, ..old.clone() },
        _ => Relation { follower: what.clone(), leader, offset: gable_measure::Length::ZERO, gives: Gives::default() },
    };
    let say = |leader: &Measured| {
        let plain = Relation { offset: gable_measure::Length::ZERO, ..relation(leader.clone()) };
        sentence(&plain.words(house)).trim_end_matches('.').to_owned()
    };
    let own = tr!("A size of its own");
    let now = old.as_ref().map(|r| r.leader.clone());
    let shown = now.as_ref().map_or_else(|| own.to_owned(), say);
    let choices = || {
        let own = std::iter::once((None, own.to_owned()));
        own.chain(house.could_follow(what).into_iter().map(|m| (Some(m.clone()), say(&m)))).collect()
    };
    let mut leader = now.clone();
    let field_of_choice = format!("{field}.follows");
    form.choice_among(ui, (&field_of_choice, name, tr!("change of what a size follows")), &mut leader, &shown, choices);
    if leader != now {
        match leader {
            Some(leader) => house.follow(relation(leader)),
            None => house.let_go(old.as_ref().map_or(what, |old| &old.follower)),
        }
    }
    if let Some(k) = house.relations.iter().position(|r| &r.follower == what) {
        details(ui, form, house, k, &field);
    }
}

/// By how much a size differs from what it follows, and what gives way under a ridge.
fn details(ui: &mut Ui, form: &mut Form<'_>, house: &mut House, k: usize, field: &str) {
    let relation = &mut house.relations[k];
    let more = if relation.follower.measure.is_height() { tr!("Higher by") } else { tr!("Larger by") };
    let place = format!("{field}.offset");
    form.length(ui, (&place, more, tr!("change of a difference")), &mut relation.offset);
    if relation.follower.measure == Measure::Ridge {
        let ways =
            words(&[(Gives::Walls, tr!("The height of the walls")), (Gives::Pitch, tr!("The pitch of the roof"))]);
        form.choice(
            ui,
            (&format!("{field}.gives"), tr!("What changes"), tr!("change of what gives")),
            &mut relation.gives,
            &ways,
        );
    }
}
