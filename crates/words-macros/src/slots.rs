//! The placeholders of a text.

use syn::LitStr;

/// One placeholder.
pub(crate) struct Slot {
    /// Its name, or its place among the arguments, counted from 0.
    pub(crate) name: String,
    /// How it is printed, with the colon; may be empty.
    pub(crate) form: String,
}

/// Placeholders of a text, each name once.
///
/// # Errors
/// When a brace has no partner, or one name is printed in two ways.
pub(crate) fn slots(text: &LitStr) -> syn::Result<Vec<Slot>> {
    let value = text.value();
    let wrong = |what: &str| syn::Error::new(text.span(), what);
    let mut found: Vec<Slot> = Vec::new();
    let (mut rest, mut next) = (value.as_str(), 0);
    while let Some(at) = rest.find(['{', '}']) {
        let (brace, after) = rest[at..].split_at(1);
        if after.starts_with(brace) {
            rest = &after[1..];
            continue;
        }
        let end = after.find('}').filter(|_| brace == "{").ok_or_else(|| wrong("a brace without a partner"))?;
        let inner = &after[..end];
        let (name, form) = inner.find(':').map_or((inner, ""), |colon| inner.split_at(colon));
        let name = if name.is_empty() { next.to_string() } else { name.to_owned() };
        next += usize::from(inner.is_empty() || inner.starts_with(':'));
        match found.iter().find(|slot| slot.name == name) {
            None => found.push(Slot { name, form: form.to_owned() }),
            Some(slot) if slot.form == form => {}
            Some(_) => return Err(wrong("one placeholder is printed in two ways; give it two names")),
        }
        rest = &after[end + 1..];
    }
    Ok(found)
}
