//! How old a germination test is, as the rules of the trade count: in calendar months.

use jiff::civil::Date;

/// The calendar months from the month in which a test was made to the month of a day, whatever the days within them: of a test
/// made in March, any day of November is 8 months later, and any day of March none. None for a day before the test.
///
/// Rules for seed that is sold count so: they name how many calendar months may pass between the last day of the month in which
/// the test was completed and the day on which the seed is shipped (7 CFR 201.30a, vegetable seed). Seed whose test is of March
/// is within 5 such months until the last day of August, which is the fifth month after.
///
/// ```
/// use jiff::civil::date;
/// use sowmark_core::seed::months_since_test;
///
/// let tested = date(2026, 3, 12);
/// assert_eq!(months_since_test(tested, date(2026, 11, 26)), Some(8));
/// assert_eq!(months_since_test(tested, date(2026, 8, 31)), Some(5));
/// assert_eq!(months_since_test(tested, date(2026, 9, 1)), Some(6));
/// assert_eq!(months_since_test(tested, date(2026, 3, 11)), None);
/// ```
pub fn months_since_test(tested: Date, on: Date) -> Option<u32> {
    let month = |day: Date| i32::from(day.year()) * 12 + i32::from(day.month());
    if on < tested { None } else { u32::try_from(month(on) - month(tested)).ok() }
}

/// How many calendar months after the month of the test some rules for seed that is sold name: 5, and 24 where the containers
/// keep moisture out. Others name others; this decides nothing.
///
/// Source: 7 CFR 201.30a, read; for agricultural seed 7 CFR 201.22, from memory.
///
/// ```
/// use sowmark_core::seed::months_in_some_rules;
///
/// assert_eq!((months_in_some_rules(false), months_in_some_rules(true)), (5, 24));
/// ```
pub fn months_in_some_rules(is_hermetic: bool) -> u32 {
    if is_hermetic { 24 } else { 5 }
}
