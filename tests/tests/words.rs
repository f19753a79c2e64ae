//! Every text for people, gathered from the code: the template for catalogues is up to date, and catalogues can be read.

#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise, helpers included")]

use proc_macro2::{Delimiter, TokenStream, TokenTree};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};

/// Set, the template is written instead of compared.
const WRITE: &str = "GABLE_WORDS";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_path_buf()
}

/// Sources of a folder, in the order of their names.
fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    entries.sort();
    for entry in entries {
        let name = entry.file_name().unwrap().to_string_lossy().into_owned();
        if entry.is_dir() && name != "tests" && name != "benches" && name != "examples" {
            sources(&entry, found);
        } else if name.ends_with(".rs") && name != "tests.rs" && !name.ends_with("_tests.rs") {
            found.push(entry);
        }
    }
}

/// Context, text, and its form for many.
type Said = (Option<String>, String, Option<String>);

/// Context and text.
type Key = (Option<String>, String);

/// Texts of one file, in their order: the literals that `tr!` and `mark!` begin with.
fn said(tokens: TokenStream, found: &mut Vec<Said>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    for (k, token) in tokens.iter().enumerate() {
        let TokenTree::Group(group) = token else { continue };
        let called = k >= 2
            && matches!(&tokens[k - 1], TokenTree::Punct(p) if p.as_char() == '!')
            && matches!(&tokens[k - 2], TokenTree::Ident(name) if name == "tr" || name == "mark");
        if called && group.delimiter() == Delimiter::Parenthesis {
            found.extend(call(group.stream()));
        }
        said(group.stream(), found);
    }
}

fn call(tokens: TokenStream) -> Option<Said> {
    let mut tokens = tokens.into_iter().peekable();
    let mut text = literal(&tokens.next()?)?;
    let mut sign = String::new();
    let (mut context, mut many) = (None, None);
    for token in tokens {
        match (&token, sign.as_str()) {
            (TokenTree::Punct(p), _) if p.as_char() != ',' => sign.push(p.as_char()),
            (_, "=>") => context = Some(std::mem::replace(&mut text, literal(&token)?)),
            (_, "|") => many = Some(literal(&token)?),
            _ => break,
        }
        if !matches!(token, TokenTree::Punct(_)) {
            sign.clear();
        }
    }
    Some((context, text, many))
}

fn literal(token: &TokenTree) -> Option<String> {
    let TokenTree::Literal(literal) = token else { return None };
    syn::parse_str::<syn::LitStr>(&literal.to_string()).ok().map(|text| text.value())
}

fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n").replace('\t', "\\t"))
}

/// The template (GNU gettext manual, 'The format of PO files'): each text once, with the files that say it. Lines are left
/// out, so that it changes only when texts do.
fn template() -> String {
    let root = root();
    let mut files = Vec::new();
    sources(&root.join("crates"), &mut files);
    let mut order: Vec<Key> = Vec::new();
    let mut texts: BTreeMap<Key, (Option<String>, Vec<String>)> = BTreeMap::new();
    for file in files {
        let mut found = Vec::new();
        said(std::fs::read_to_string(&file).unwrap().parse().unwrap(), &mut found);
        let name = file.strip_prefix(&root).unwrap().display().to_string().replace('\\', "/");
        if name.starts_with("crates/words") {
            continue;
        }
        for (context, text, many) in found {
            let key = (context, text);
            if !texts.contains_key(&key) {
                order.push(key.clone());
            }
            let entry = texts.entry(key).or_default();
            if many.is_some() {
                assert!(entry.0.is_none() || entry.0 == many, "{:?} and {many:?} go with one text", entry.0);
                entry.0 = many;
            }
            if entry.1.last() != Some(&name) {
                entry.1.push(name.clone());
            }
        }
    }
    let mut out = "# Every text of Gablewright for people. docs/words.md says how it becomes a language.\n\
                   msgid \"\"\nmsgstr \"\"\n\"Project-Id-Version: gablewright\\n\"\n\"Language: \\n\"\n\
                   \"X-Language-Name: \\n\"\n\"Content-Type: text/plain; charset=UTF-8\\n\"\n\
                   \"Content-Transfer-Encoding: 8bit\\n\"\n\"Plural-Forms: nplurals=2; plural=(n != 1);\\n\"\n"
        .to_owned();
    for key in order {
        let (many, files) = &texts[&key];
        writeln!(out, "\n#: {}", files.join(" ")).unwrap();
        if let Some(context) = &key.0 {
            writeln!(out, "msgctxt {}", quoted(context)).unwrap();
        }
        writeln!(out, "msgid {}", quoted(&key.1)).unwrap();
        match many {
            None => out += "msgstr \"\"\n",
            Some(many) => write!(out, "msgid_plural {}\nmsgstr[0] \"\"\nmsgstr[1] \"\"\n", quoted(many)).unwrap(),
        }
    }
    out
}

#[test]
fn the_template_for_languages_has_every_text_of_the_code() {
    let file = root().join("assets/words/gablewright.pot");
    let made = template();
    if std::env::var_os(WRITE).is_some() {
        std::fs::write(&file, &made).unwrap();
    }
    let kept = std::fs::read_to_string(&file).unwrap();
    let other: Vec<&str> =
        made.lines().filter(|line| line.starts_with("msgid") && !kept.contains(line)).take(20).collect();
    assert!(
        kept == made,
        "{} is out of date; write it anew with `{WRITE}=1 cargo test --workspace --test words`. New texts: {other:#?}",
        file.display()
    );
}

/// The template itself as a language, each text said in English, goes through the reader without a fault.
#[test]
fn a_catalogue_made_of_the_template_has_every_text() {
    let (mut whole, mut one, mut many) = (String::new(), "", "");
    let template = template();
    for line in template.lines() {
        let (key, text) = line.split_once(' ').unwrap_or((line, ""));
        match key {
            "msgid" => one = text,
            "msgid_plural" => many = text,
            _ => {}
        }
        let said = match key {
            "msgstr" | "msgstr[0]" => one,
            "msgstr[1]" => many,
            _ => text,
        };
        writeln!(whole, "{key} {said}").unwrap();
    }
    let read = gable_words::Catalogue::read("qq", &whole).unwrap();
    assert!(read.faults().is_empty(), "{:#?}", read.faults());
    let texts = template.lines().filter(|line| line.starts_with("msgid ")).count() - 1;
    assert_eq!(read.len(), texts);
}

#[test]
fn every_language_that_comes_with_the_program_can_be_read() {
    let files = std::fs::read_dir(root().join("assets/words")).unwrap();
    for file in files.map(|f| f.unwrap().path()).filter(|f| f.extension().is_some_and(|e| e == "po")) {
        let code = file.file_stem().unwrap().to_string_lossy();
        let read = gable_words::Catalogue::read(&code, &std::fs::read_to_string(&file).unwrap());
        let read = read.unwrap_or_else(|e| panic!("{}: {e}", file.display()));
        assert!(read.faults().is_empty(), "{}: {:#?}", file.display(), read.faults());
    }
}

#[test]
fn texts_are_found_in_calls_within_calls() {
    let code = r#"fn f() { g(tr!("a" | "{n} b" % tr!("c").len(), x = 1), &[mark!("d\n\"e\""), tr!("on" => "f {}", tr!("g"))]) }"#;
    let mut found = Vec::new();
    said(code.parse().unwrap(), &mut found);
    let own = |s: &str| Some(s.to_owned());
    let all = [
        (None, "a", own("{n} b")),
        (None, "c", None),
        (None, "d\n\"e\"", None),
        (own("on"), "f {}", None),
        (None, "g", None),
    ];
    assert_eq!(found, all.map(|(context, text, many)| (context, text.to_owned(), many)));
}
