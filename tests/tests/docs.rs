//! What is written for people: links lead somewhere.

#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise, helpers included")]

use std::path::{Path, PathBuf};

/// Every text in Markdown of the project.
fn texts() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_path_buf();
    let mut found = vec![root.join("README.md"), root.join("DEVELOPERS.md")];
    for folder in ["docs", "docs/handbook"] {
        let files = std::fs::read_dir(root.join(folder)).unwrap().map(|entry| entry.unwrap().path());
        found.extend(files.filter(|file| file.extension().is_some_and(|end| end == "md")));
    }
    found
}

/// Where the links and pictures of a text lead, other places of the network left out.
fn links(text: &str) -> impl Iterator<Item = &str> {
    let targets = text.split("](").skip(1).filter_map(|rest| rest.split(')').next());
    targets.map(|target| target.split('#').next().unwrap_or(target)).filter(|t| !t.is_empty() && !t.contains("://"))
}

#[test]
fn every_link_and_picture_is_there() {
    let texts = texts();
    assert!(texts.len() > 12, "{texts:?}");
    let mut lost = Vec::new();
    let mut count = 0;
    for file in texts {
        let text = std::fs::read_to_string(&file).unwrap();
        for link in links(&text) {
            count += 1;
            if !file.parent().unwrap().join(link).exists() {
                lost.push(format!("{}: {link}", file.display()));
            }
        }
    }
    assert!(count > 30, "only {count} links were found");
    assert_eq!(lost, Vec::<String>::new());
}
