use crate::args::CheckArgs;
use crate::failure::Failure;
use crate::house;
use gable_measure::{Finding, Unit};
use gable_shell::kitchen::{self, Kitchen, Tray};
use gable_shell::{Altered, Extent, Solved};
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
        ..Kitchen::default()
    };
    let solved = gable_shell::solve(&house);
    let dressed = gable_dress::dress(&house, &solved);
    let trays = kitchen::check(&solved, &kitchen);
    let order = gable_raise::check(&solved);
    let findings: Vec<&Finding> = solved.findings.iter().chain(&dressed.findings).chain(&order).chain(&trays).collect();
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
        writeln!(out, "{pieces} pieces, {joints} joints, {}", counted(findings.len()))?;
    }
    out.flush()?;
    match solved.blocking().count() {
        0 => Ok(()),
        n => Err(Failure::Blocked(format!("{}: {} blocking", args.house, counted(n)))),
    }
}

pub(crate) fn tray(text: &str, unit: Unit) -> Result<Tray, Failure> {
    gable_export::flat(text, unit).map_err(|e| Failure::Usage(format!("--tray {text}: {e}")))
}

fn counted(findings: usize) -> String {
    match findings {
        0 => "no findings".into(),
        1 => "1 finding".into(),
        n => format!("{n} findings"),
    }
}
