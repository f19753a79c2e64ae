use crate::args::CheckArgs;
use crate::failure::Failure;
use crate::house;
use gable_measure::{Finding, Length, Severity, Unit};
use gable_shell::kitchen::{self, Kitchen, Tools, Tray};
use gable_shell::{Altered, Extent, House, Solved};
use serde::Serialize;
use std::io::Write;

#[derive(Serialize)]
struct FindingData<'a> {
    kind: &'a str,
    severity: String,
    place: &'a str,
    what: &'a str,
    remedy: &'a str,
    /// A change that was tried and puts it right.
    #[serde(skip_serializing_if = "Option::is_none")]
    cure: Option<String>,
    /// The pieces that a finding of the kind 'worked-anew' is about.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pieces: Vec<ChangeData<'a>>,
}

/// A piece that is not as planned; lengths in mm.
#[derive(Serialize)]
struct ChangeData<'a> {
    piece: &'a str,
    baked: bool,
    before: Option<[f64; 3]>,
    after: Option<[f64; 3]>,
    moved: f64,
}

impl<'a> From<&'a Altered> for ChangeData<'a> {
    fn from(change: &'a Altered) -> Self {
        let sizes = |e: Extent| [e.width.mm(), e.height.mm(), e.thickness.mm()];
        Self {
            piece: &change.piece.0,
            baked: change.baked,
            before: change.before.map(sizes),
            after: change.after.map(sizes),
            moved: change.moved.mm(),
        }
    }
}

impl<'a> FindingData<'a> {
    fn new(finding: &'a Finding, solved: &'a Solved) -> Self {
        let changes: &[Altered] = if finding.kind == "worked-anew" { &solved.changes } else { &[] };
        Self {
            pieces: changes.iter().map(ChangeData::from).collect(),
            kind: finding.kind,
            severity: finding.severity.to_string(),
            place: &finding.place,
            what: &finding.what,
            remedy: &finding.remedy,
            cure: None,
        }
    }
}

/// Lists what the checks noticed.
pub(crate) fn run(args: &CheckArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let house = house::load(&args.house)?;
    let kitchen = Kitchen {
        trays: args.trays.iter().map(|t| tray(t, house.unit)).collect::<Result<_, _>>()?,
        tools: tools(args, house.unit)?,
        ..Kitchen::default()
    };
    // Older files speak of tools; that counts unless the person says what there is.
    let said = kitchen.clone().take_over(&house).and_then(|_| said_by(&house, kitchen.tools));
    let house = kitchen.equip(&house);
    let solved = gable_shell::solve(&house);
    let dressed = gable_dress::dress(&house, &solved);
    let trays = kitchen::check(&solved, &kitchen);
    let order = gable_raise::check(&solved);
    let findings: Vec<&Finding> =
        solved.findings.iter().chain(&dressed.findings).chain(&order).chain(&trays).chain(&said).collect();
    let remedies = gable_shell::remedies(&house, &solved, || true);
    // The solver's findings come first, so that they have the same numbers here.
    let cure = |k: usize| remedies.iter().find(|r| r.finding == k).map(|r| r.change.words(&house));
    if args.json {
        let data: Vec<FindingData<'_>> = findings
            .iter()
            .enumerate()
            .map(|(k, f)| FindingData { cure: cure(k), ..FindingData::new(f, &solved) })
            .collect();
        let text = serde_json::to_string_pretty(&data).map_err(|e| Failure::Usage(e.to_string()))?;
        writeln!(out, "{text}")?;
    } else {
        for (k, finding) in findings.iter().enumerate() {
            writeln!(out, "{}", house::line(finding))?;
            if let Some(words) = cure(k) {
                writeln!(out, "    tried, and it helps: {words}")?;
            }
        }
        for line in gable_dress::finish_amounts(&house, &dressed).iter().map(|a| a.sentence(&house)) {
            writeln!(out, "{line}")?;
        }
        for amount in gable_dress::glass_amounts(&dressed) {
            writeln!(out, "{}", amount.sentence())?;
        }
        for change in &solved.changes {
            writeln!(out, "{} {}", change.piece.0, change.words(solved.unit))?;
        }
        let (pieces, joints) = (solved.pieces.len(), solved.joints.len());
        let counts = [counted(pieces, "piece"), counted(joints, "joint"), counted(findings.len(), "finding")];
        writeln!(out, "{}", counts.join(", "))?;
    }
    out.flush()?;
    match solved.blocking().count() {
        0 => Ok(()),
        n => Err(Failure::Blocked(format!("{}: {} blocking", args.house, counted(n, "finding")))),
    }
}

/// What the person cuts with, if they say so.
fn tools(args: &CheckArgs, unit: Unit) -> Result<Option<Tools>, Failure> {
    if args.blade.is_none() && args.bridge.is_none() {
        return Ok(None);
    }
    let width = |option: &str, text: &Option<String>| -> Result<Option<Length>, Failure> {
        let Some(text) = text else { return Ok(None) };
        let wrong = |why: String| Failure::Usage(format!("--{option} {text}: {why}"));
        let length = gable_measure::read_length(text, unit).map_err(|e| wrong(e.to_string()))?;
        if (Length::ZERO..=Tools::WIDEST).contains(&length) {
            return Ok(Some(length));
        }
        Err(wrong(format!("give up to {}", unit.print(Tools::WIDEST))))
    };
    let blade = width("blade", &args.blade)?.unwrap_or(Tools::default().blade);
    Ok(Some(Tools { blade, bridge: width("bridge", &args.bridge)? }))
}

/// That the file of a house speaks of tools, and what counts.
fn said_by(house: &House, own: Option<Tools>) -> Option<Finding> {
    let said = Tools::said_by(house)?.words(house.unit);
    let counts = if own.is_some() { "what you gave counts" } else { "it counts as long as you give none" };
    Some(Finding {
        kind: "tools-in-house",
        severity: Severity::Note,
        place: "glazing".to_owned(),
        what: format!("the file of this house speaks of {said}; {counts}"),
        remedy: "say what you cut with as --blade and --bridge, or keep it in your kitchen in the window".to_owned(),
    })
}

pub(crate) fn tray(text: &str, unit: Unit) -> Result<Tray, Failure> {
    gable_export::flat(text, unit).map_err(|e| Failure::Usage(format!("--tray {text}: {e}")))
}

/// 'no findings', '1 finding', '3 findings'.
fn counted(count: usize, what: &str) -> String {
    match count {
        0 => format!("no {what}s"),
        1 => format!("1 {what}"),
        n => format!("{n} {what}s"),
    }
}
