//! A test's age in calendar months: against the rule's own words, told with another calendar arithmetic, for any days.

use jiff::{ToSpan, civil::Date};
use proptest::prelude::*;
use sowmark_core::seed::months_since_test;

fn any_day() -> impl Strategy<Value = Date> {
    (0_i64..80_000).prop_map(|days| Date::constant(1950, 1, 1) + days.days())
}

proptest! {
    /// The rule: at most so many calendar months between the last day of the month of the test and the day of shipping.
    #[test]
    fn a_day_is_within_a_limit_until_the_last_day_of_that_month(tested in any_day(), on in any_day(), limit in 0_u32..60) {
        let last = (tested.first_of_month() + i64::from(limit).months()).last_of_month();
        let is_within = months_since_test(tested, on).is_some_and(|months| months <= limit);
        prop_assert_eq!(is_within, tested <= on && on <= last);
    }

    /// A day later it is as old or a month older, and older by one exactly where a month begins.
    #[test]
    fn it_grows_by_one_with_each_month_that_begins(tested in any_day(), after in 0_i64..4000) {
        let (on, next) = (tested + after.days(), tested + (after + 1).days());
        let (now, then) = (months_since_test(tested, on).unwrap(), months_since_test(tested, next).unwrap());
        prop_assert_eq!(then - now, u32::from(next.day() == 1));
        let backwards = months_since_test(next, on);
        prop_assert_eq!(backwards, None);
    }

    /// Which day of its month the test was made decides nothing.
    #[test]
    fn all_days_of_a_month_are_alike(tested in any_day(), months in 0_i64..60) {
        let later = tested.first_of_month() + months.months();
        let of = |day: Date| months_since_test(day, later.last_of_month());
        prop_assert_eq!(of(tested.first_of_month()), of(tested.last_of_month()));
        prop_assert_eq!(of(tested), u32::try_from(months).ok());
    }
}
