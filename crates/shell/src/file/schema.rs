use super::types::HouseEntry;

/// JSON Schema of the house file, made from the types that write it.
///
/// The schema knows shapes and words; sizes, names and how they fit together are checked by [`super::parse`].
pub fn schema() -> String {
    let schema = schemars::schema_for!(HouseEntry);
    // Serialising a schema cannot fail: its keys are text and its numbers finite.
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}
