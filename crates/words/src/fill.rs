//! Placeholders in texts that are read while the program runs.

/// Puts what is printed already into a text: `{name}`, `{0}`, and `{}` for one after the other. What is said of the form
/// (`{size:.1}`) counts in English alone; an unknown placeholder stays as it is. `{{` and `}}` are braces.
#[must_use]
pub fn fill(text: &str, values: &[(&str, &str)]) -> String {
    let mut filled = String::with_capacity(text.len() + 24);
    let (mut rest, mut next) = (text, 0);
    while let Some(at) = rest.find(['{', '}']) {
        filled.push_str(&rest[..at]);
        let (brace, after) = rest[at..].split_at(1);
        if after.starts_with(brace) {
            filled.push_str(brace);
            rest = &after[1..];
            continue;
        }
        let Some(end) = after.find('}').filter(|_| brace == "{") else {
            filled.push_str(brace);
            rest = after;
            continue;
        };
        let name = name(&after[..end], &mut next);
        match values.iter().find(|(own, _)| *own == name) {
            Some((_, value)) => filled.push_str(value),
            None => filled.push_str(&rest[at..=at + end + 1]),
        }
        rest = &after[end + 1..];
    }
    filled.push_str(rest);
    filled
}

/// Names of the placeholders of a text, sorted, each once.
pub(crate) fn names(text: &str) -> Vec<String> {
    let mut names = Vec::new();
    let (mut rest, mut next) = (text, 0);
    while let Some(at) = rest.find('{') {
        let after = &rest[at + 1..];
        if let Some(escaped) = after.strip_prefix('{') {
            rest = escaped;
            continue;
        }
        let Some(end) = after.find('}') else { break };
        names.push(name(&after[..end], &mut next));
        rest = &after[end + 1..];
    }
    names.sort();
    names.dedup();
    names
}

fn name(inner: &str, next: &mut usize) -> String {
    let name = inner.split(':').next().unwrap_or_default().trim();
    if name.is_empty() {
        *next += 1;
        return (*next - 1).to_string();
    }
    name.to_owned()
}
