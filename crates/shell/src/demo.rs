//! Built-in houses of the harbour pilots of Gannet Sound (invented).

use crate::{House, file};

/// Names and files of the houses, the first one first.
const FILES: [(&str, &str); 5] = [
    ("boat-hut", include_str!("../../../demo/boat-hut.house.json")),
    ("net-store", include_str!("../../../demo/net-store.house.json")),
    ("lookout", include_str!("../../../demo/lookout.house.json")),
    ("pilot-house", include_str!("../../../demo/pilot-house.house.json")),
    ("askew-house", include_str!("../../../demo/askew-house.house.json")),
];

/// Names of the built-in houses, as the command line takes them.
pub fn names() -> impl Iterator<Item = &'static str> {
    FILES.iter().map(|(name, _)| *name)
}

/// The file of a built-in house.
pub fn text(name: &str) -> Option<&'static str> {
    FILES.iter().find(|(n, _)| *n == name).map(|(_, text)| *text)
}

/// A built-in house; `None` for a name that is not in [`names`].
pub fn house(name: &str) -> Option<House> {
    file::parse(text(name)?).ok()
}

#[cfg(test)]
mod tests {
    use gable_measure::Severity;

    #[test]
    fn every_demo_reads_and_can_be_built() {
        for name in super::names() {
            let house = crate::file::parse(super::text(name).unwrap()).unwrap_or_else(|e| panic!("{name}: {e}"));
            let solved = crate::solve(&house);
            let worst = solved.findings.iter().filter(|f| f.severity >= Severity::Caution).collect::<Vec<_>>();
            assert!(worst.is_empty(), "{name}: {worst:?}");
            assert!(!solved.pieces.is_empty());
        }
    }
}
