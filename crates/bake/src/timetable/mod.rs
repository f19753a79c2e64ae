//! Who does what when, from the first dough to the house that stands.

pub mod plan;
