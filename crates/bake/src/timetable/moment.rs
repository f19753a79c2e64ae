//! Civil moments as whole minutes. Clocks that are put forward or back are not regarded: hours are those on the wall.

use jiff::ToSpan;
use jiff::civil::{DateTime, date};

/// Midnight from which minutes are counted; any would do.
const ZERO: DateTime = date(2000, 1, 1).at(0, 0, 0, 0);

/// Whole minutes since midnight of the first of January 2000, seconds left out.
pub(super) fn minute(moment: DateTime) -> i64 {
    let days = ZERO.date().until(moment.date()).map_or(0, |span| i64::from(span.get_days()));
    days * 1440 + i64::from(moment.hour()) * 60 + i64::from(moment.minute())
}

/// The moment of a minute; the last that can be written for one too far away.
pub(super) fn moment(minute: i64) -> DateTime {
    let hours = minute.rem_euclid(1440);
    let day = i32::try_from(minute.div_euclid(1440)).ok().and_then(|days| ZERO.date().checked_add(days.days()).ok());
    let at = |h: i64| i8::try_from(h).unwrap_or(0);
    day.map_or(DateTime::MAX, |day| day.at(at(hours / 60), at(hours % 60), 0, 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minutes_and_moments_are_the_same() {
        for (y, m, d, h, min) in
            [(2000, 1, 1, 0, 0), (2026, 11, 27, 18, 5), (2028, 2, 29, 23, 59), (1999, 12, 31, 23, 59)]
        {
            let at = date(y, m, d).at(h, min, 0, 0);
            assert_eq!(moment(minute(at)), at);
        }
        assert_eq!(minute(date(2000, 1, 2).at(1, 1, 30, 0)), 1501);
        assert_eq!(moment(i64::MAX), DateTime::MAX);
    }
}
