use crate::failure::Failure;
use gable_measure::Finding;
use gable_shell::{House, Solved, demo, file};
use std::path::Path;

/// A house by the name of its file or by a built-in name. A file wins, so that nothing hides it; a folder does not.
/// Sizes that follow others are set to what they follow.
pub(crate) fn load(name: &str) -> Result<House, Failure> {
    let path = Path::new(name);
    if path.exists() && !(path.is_dir() && demo::text(name).is_some()) {
        let text = gable_export::read_house_text(path).map_err(|e| Failure::Usage(e.to_string()))?;
        let house = file::parse(&text).map_err(|e| Failure::Usage(format!("{name} cannot be read:\n{e}")))?;
        return Ok(gable_shell::settle(&house).0);
    }
    demo::house(name).ok_or_else(|| {
        if let Some(failure) = crate::meant::command(Some(name)) {
            return failure;
        }
        let names: Vec<&str> = demo::names().collect();
        Failure::Usage(format!(
            "{name}: there is no such file, and no built-in house of that name ({})",
            names.join(", ")
        ))
    })
}

/// One finding as a line of text.
pub(crate) fn line(finding: &Finding) -> String {
    let remedy = if finding.remedy.is_empty() { String::new() } else { format!("; {}", finding.remedy) };
    format!("{}: {}: {}{remedy}", finding.severity, finding.place, finding.what)
}

/// Refuses a house with blocking findings, listing them.
pub(crate) fn refuse_blocked(name: &str, solved: &Solved) -> Result<(), Failure> {
    let lines: Vec<String> = solved.blocking().map(|f| format!("  {}", line(f))).collect();
    if lines.is_empty() {
        return Ok(());
    }
    Err(Failure::Blocked(format!("{name} cannot be built as it is:\n{}", lines.join("\n"))))
}
