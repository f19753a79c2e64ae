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

/// What stands between single stars on a page of the handbook: names of what is seen in the window.
fn named(page: &str) -> Vec<String> {
    let page = page.replace("**", "").replace('\n', " ");
    // What is to be typed, such as `200 - 2*9`, and commands stand between backticks.
    let words: String = page.split('`').step_by(2).collect();
    words.split('*').skip(1).step_by(2).map(str::to_owned).collect()
}

/// Whether the window says this: whole, before a colon, or with something put in for what stands in braces.
fn is_said(name: &str, texts: &[String]) -> bool {
    texts.iter().any(|text| match text.split_once('{').zip(text.rsplit_once('}')) {
        Some(((before, _), (_, after))) => {
            !before.is_empty() && name.len() > before.len() && name.starts_with(before) && name.ends_with(after)
        }
        None => text == name || text.split_once(':').is_some_and(|(head, _)| head == name),
    })
}

#[test]
fn every_name_in_the_handbook_is_seen_in_the_window() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_path_buf();
    let list = std::fs::read_to_string(root.join("assets/words/gablewright.pot")).unwrap();
    let said = list.lines().filter_map(|line| line.strip_prefix("msgid \"")?.strip_suffix('"'));
    let said: Vec<String> = said.filter(|text| !text.is_empty()).map(str::to_owned).collect();
    let mut unknown = Vec::new();
    let mut count = 0;
    for page in texts().into_iter().filter(|file| file.parent().is_some_and(|f| f.ends_with("handbook"))) {
        for name in named(&std::fs::read_to_string(&page).unwrap()) {
            count += 1;
            if !is_said(&name, &said) {
                unknown.push(format!("{}: {name}", page.display()));
            }
        }
    }
    assert!(count > 40, "only {count} names were found");
    assert_eq!(unknown, Vec::<String>::new());
}
