use crate::fill::names;
use crate::plural::Rule;
use std::collections::BTreeMap;
use std::fmt;
use std::panic::catch_unwind;

/// One language: text by its English text.
#[derive(Debug)]
pub struct Catalogue {
    code: String,
    name: String,
    /// By the English text, after its context and U+0004 where it has one; a form for each kind of number.
    texts: BTreeMap<String, Vec<String>>,
    rule: Rule,
    faults: Vec<String>,
}

/// Why a catalogue cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CatalogueError(String);

impl fmt::Display for CatalogueError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "it is no catalogue of words (.po): {}", self.0)
    }
}

impl std::error::Error for CatalogueError {}

/// Languages have six forms at most; the reader would make room for whatever number stands there.
const MOST_FORMS: usize = 20;

fn names_too_many_forms(line: &str) -> bool {
    let form = line.trim_start().strip_prefix("msgstr[").and_then(|rest| rest.split(']').next());
    form.is_some_and(|form| form.trim().parse().map_or(true, |form: usize| form > MOST_FORMS))
}

impl Catalogue {
    /// Reads a catalogue (GNU gettext manual, 'The format of PO files'). `code` is the language if the header has none,
    /// usually the name of the file.
    ///
    /// What is not translated, or marked as doubtful (`fuzzy`), stays English. So does what has other placeholders than the
    /// English text, and [`Self::faults`] says so.
    ///
    /// # Errors
    /// When it cannot be taken apart, or its formula for numbers is none.
    pub fn read(code: &str, text: &str) -> Result<Self, CatalogueError> {
        // The reader may panic on what is no catalogue; a person's file must not cost the person the program.
        // An empty line before it, or the reader would take a text that names a file for that file.
        // An editor may have put a mark of the byte order first.
        let content = format!("\n{}", text.trim_start_matches('\u{feff}'));
        if content.lines().any(names_too_many_forms) {
            return Err(CatalogueError("it has a form of a text that no language has".to_owned()));
        }
        let read = catch_unwind(|| rspolib::pofile(content.as_str()).map_err(|e| e.to_string()));
        let file = read.unwrap_or_else(|_| Err("it breaks off, or a quotation mark is missing".to_owned()));
        let file = file.map_err(CatalogueError)?;
        let head = |name: &str| file.metadata.get(name).map(|v| v.trim().to_owned()).filter(|v| !v.is_empty());
        let code = head("Language").unwrap_or_else(|| code.to_owned());
        let forms = head("Plural-Forms");
        let rule = match &forms {
            None => (2, Rule::english()),
            Some(forms) => {
                Rule::read(forms).ok_or_else(|| CatalogueError(format!("'{forms}' is no formula for plural forms")))?
            }
        };
        let name = head("X-Language-Name").unwrap_or_else(|| code.clone());
        let mut own = Self { code, name, texts: BTreeMap::new(), rule: rule.1, faults: Vec::new() };
        file.entries.iter().for_each(|entry| own.take(entry, rule.0));
        Ok(own)
    }

    fn take(&mut self, entry: &rspolib::POEntry, count: usize) {
        let said: Vec<String> = match &entry.msgid_plural {
            None => entry.msgstr.iter().cloned().collect(),
            Some(_) => entry.msgstr_plural.clone(),
        };
        let whole =
            said.iter().all(|text| !text.is_empty()) && said.len() >= entry.msgid_plural.as_ref().map_or(1, |_| count);
        if entry.msgid.is_empty() || !whole || entry.obsolete || entry.flags.iter().any(|flag| flag == "fuzzy") {
            return;
        }
        let mut known = names(&entry.msgid);
        known.extend(entry.msgid_plural.iter().flat_map(|many| names(many)));
        // One form may say the number in a word: 'a piece', '{n} pieces'. Of a text without forms it stays in.
        let may_lack = |name: &str| name == "n" && entry.msgid_plural.is_some() && said.len() > 1;
        let wrong = said.iter().any(|text| {
            let used = names(text);
            used.iter().any(|name| !known.contains(name))
                || known.iter().any(|name| !may_lack(name) && !used.contains(name))
        });
        let lost = known.iter().any(|name| said.iter().all(|text| !names(text).contains(name)));
        if wrong || lost {
            self.faults.push(format!(
                "'{}' has other placeholders than '{}', and stays English",
                said.join("' and '"),
                entry.msgid
            ));
            return;
        }
        let key = entry.msgctxt.iter().fold(entry.msgid.clone(), |text, context| format!("{context}\u{4}{text}"));
        self.texts.insert(key, said);
    }

    /// The language, as systems name it: `de`, `pt_BR`.
    #[must_use]
    pub fn code(&self) -> &str {
        &self.code
    }

    /// The language in its own words, from `X-Language-Name` in the header.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Texts that cannot be used, and why.
    #[must_use]
    pub fn faults(&self) -> &[String] {
        &self.faults
    }

    /// How many texts it has.
    #[must_use]
    pub fn len(&self) -> usize {
        self.texts.len()
    }

    /// Whether it has none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.texts.is_empty()
    }

    /// What an English text is in this language.
    #[must_use]
    pub fn text(&self, key: &str) -> Option<&str> {
        self.texts.get(key).and_then(|forms| forms.first()).map(String::as_str)
    }

    /// What an English text that goes by a number is in this language.
    #[must_use]
    pub fn form(&self, key: &str, count: u64) -> Option<&str> {
        let forms = self.texts.get(key)?;
        usize::try_from(self.rule.form(count)).ok().and_then(|form| forms.get(form)).map(String::as_str)
    }
}
