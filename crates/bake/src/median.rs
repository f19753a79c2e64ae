/// The middle of some values in order, or half way between the two in the middle; none of none.
pub(crate) fn median(sorted: &[f64]) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    Some((sorted[last / 2] + sorted[sorted.len() / 2]) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_is_found_of_even_and_odd_many() {
        assert_eq!(median(&[]), None);
        assert_eq!(median(&[3.0]), Some(3.0));
        assert_eq!(median(&[1.0, 2.0, 9.0]), Some(2.0));
        assert_eq!(median(&[1.0, 2.0, 4.0, 9.0]), Some(3.0));
    }
}
