use gable_measure::{Length, Unit, decimal};

/// Decimals kept, trailing zeros not counted.
pub(super) const DECIMALS: usize = 4;

/// Columns of lengths: in the unit of the house, and in mm as well where that is another.
#[derive(Clone, Copy)]
pub(super) struct Sizes(pub(super) Unit);

impl Sizes {
    /// Names of the columns of some lengths.
    pub(super) fn head(self, names: &[&str]) -> Vec<String> {
        let columns = |unit: &str| names.iter().map(|name| format!("{name}_{unit}")).collect::<Vec<_>>();
        match self.0 {
            Unit::Millimetre => columns("mm"),
            Unit::Inch(_) => [columns("in"), columns("mm")].concat(),
        }
    }

    /// The lengths themselves, in the order of [`Self::head`].
    pub(super) fn row(self, lengths: &[Length]) -> Vec<String> {
        let millimetres = lengths.iter().map(|l| decimal(l.mm(), DECIMALS));
        match self.0 {
            Unit::Millimetre => millimetres.collect(),
            unit => lengths.iter().map(|l| decimal(unit.number(*l), DECIMALS)).chain(millimetres).collect(),
        }
    }
}

/// A table of a head and rows.
pub(super) fn table(head: &[String], rows: impl IntoIterator<Item = Vec<String>>) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(head)?;
    for row in rows {
        writer.write_record(row)?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
