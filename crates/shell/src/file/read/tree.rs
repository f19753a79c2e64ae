use crate::file::fault::Fault;
use gable_words::tr;
use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// JSON as it stands in the file: keys in their order, also those that are there twice.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Tree {
    Null,
    Flag(bool),
    Number(f64),
    Text(String),
    List(Vec<Tree>),
    Map(Vec<(String, Tree)>),
}

impl Tree {
    /// What it is, in words.
    pub(super) fn words(&self) -> String {
        match self {
            Self::Null => "null".to_owned(),
            Self::Flag(flag) => flag.to_string(),
            Self::Number(number) => crate::file::figure::digits(*number),
            Self::Text(text) => format!("\"{}\"", super::log::shown(text)),
            Self::List(_) => tr!("a list").to_owned(),
            Self::Map(_) => tr!("a group in braces").to_owned(),
        }
    }
}

/// Reads JSON; the fault says line and column.
pub(super) fn parse(text: &str) -> Result<Tree, Fault> {
    let mut reader = serde_json::Deserializer::from_str(text);
    Tree::deserialize(&mut reader).and_then(|tree| reader.end().map(|()| tree)).map_err(|error| fault(&error))
}

fn fault(error: &serde_json::Error) -> Fault {
    let path = tr!("line {}, column {}", error.line(), error.column());
    let place = format!(" at line {} column {}", error.line(), error.column());
    let what = error.to_string().replace(&place, "");
    let (what, hint) = match what.as_str() {
        _ if error.is_eof() => (
            tr!("the file ends too early").to_owned(),
            tr!("it may have been cut off while it was saved or sent; look for a copy"),
        ),
        "trailing characters" => (tr!("something follows after the end of the house").to_owned(), tr!("delete it")),
        "recursion limit exceeded" => (tr!("braces within braces within braces, too deep for a house").to_owned(), ""),
        "number out of range" => (tr!("this number is too large").to_owned(), ""),
        other => (tr!("this is not JSON: {other}"), tr!("look at what stands just before")),
    };
    Fault::new(&path, what, hint)
}

impl<'de> Deserialize<'de> for Tree {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(TreeVisitor)
    }
}

struct TreeVisitor;

impl<'de> Visitor<'de> for TreeVisitor {
    type Value = Tree;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(tr!("a value"))
    }

    fn visit_unit<E>(self) -> Result<Tree, E> {
        Ok(Tree::Null)
    }

    fn visit_bool<E>(self, flag: bool) -> Result<Tree, E> {
        Ok(Tree::Flag(flag))
    }

    fn visit_i64<E>(self, number: i64) -> Result<Tree, E> {
        Ok(Tree::Number(number as f64))
    }

    fn visit_u64<E>(self, number: u64) -> Result<Tree, E> {
        Ok(Tree::Number(number as f64))
    }

    fn visit_f64<E>(self, number: f64) -> Result<Tree, E> {
        Ok(Tree::Number(number))
    }

    fn visit_str<E>(self, text: &str) -> Result<Tree, E> {
        Ok(Tree::Text(text.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Tree, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Tree::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Tree, A::Error> {
        let mut map = Vec::new();
        while let Some(entry) = entries.next_entry()? {
            map.push(entry);
        }
        Ok(Tree::Map(map))
    }
}
