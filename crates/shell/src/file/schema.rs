use super::types::HouseEntry;
use schemars::Schema;
use schemars::transform::{RecursiveTransform, Transform};
use serde_json::Value;

/// JSON Schema of the house file, made from the types that write it.
///
/// The schema knows shapes and words; sizes, names and how they fit together are checked by [`super::parse`].
pub fn schema() -> String {
    let mut schema = schemars::schema_for!(HouseEntry);
    RecursiveTransform(without_null).transform(&mut schema);
    // Serialising a schema cannot fail: its keys are text and its numbers finite.
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}

/// What may be left out is an `Option` to serde, but the reader takes no `null` for it.
fn without_null(schema: &mut Schema) {
    let null = Value::from("null");
    if let Some(Value::Array(types)) = schema.get_mut("type") {
        types.retain(|t| *t != null);
        if let [only] = types.as_slice() {
            let only = only.clone();
            schema.insert("type".to_owned(), only);
        }
    }
    let Some(Value::Array(choices)) = schema.get_mut("anyOf") else { return };
    choices.retain(|choice| choice.get("type") != Some(&null));
    if let [Value::Object(only)] = choices.as_slice() {
        let only = only.clone();
        schema.remove("anyOf");
        for (key, value) in only {
            schema.insert(key, value);
        }
    }
}
