/// Named roof forms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RoofForm {
    /// placeholder
    Gable,
}
