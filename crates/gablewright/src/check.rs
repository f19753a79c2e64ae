use crate::args::CheckArgs;
use crate::failure::Failure;
use crate::house;
use gable_measure::Finding;
use serde::Serialize;
use std::io::Write;

#[derive(Serialize)]
struct FindingData<'a> {
    kind: &'a str,
    severity: String,
    place: &'a str,
    what: &'a str,
    remedy: &'a str,
}

impl<'a> From<&'a Finding> for FindingData<'a> {
    fn from(finding: &'a Finding) -> Self {
        Self {
            kind: finding.kind,
            severity: finding.severity.to_string(),
            place: &finding.place,
            what: &finding.what,
            remedy: &finding.remedy,
        }
    }
}

/// Lists what the checks noticed.
pub(crate) fn run(args: &CheckArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let house = house::load(&args.house)?;
    let solved = gable_shell::solve(&house);
    let dressed = gable_dress::dress(&house, &solved);
    let findings: Vec<&Finding> = solved.findings.iter().chain(&dressed.findings).collect();
    if args.json {
        let data: Vec<FindingData<'_>> = findings.iter().map(|f| FindingData::from(*f)).collect();
        let text = serde_json::to_string_pretty(&data).map_err(|e| Failure::Usage(e.to_string()))?;
        writeln!(out, "{text}")?;
    } else {
        for finding in &findings {
            writeln!(out, "{}", house::line(finding))?;
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

fn counted(findings: usize) -> String {
    match findings {
        0 => "no findings".into(),
        1 => "1 finding".into(),
        n => format!("{n} findings"),
    }
}
