//! How old the test is by which the germination of a lot is known: said in a sentence, and judged by nobody here.

use super::store::LotRow;
use crate::access::Actor;
use crate::seed::lot_test::act::Measured;
use jiff::Timestamp;
use jiff::civil::Date;
use sowmark_core::say;
use sowmark_core::seed::{months_in_some_rules, months_since_test};

/// When the test was made, how many calendar months ago, and what some rules name.
#[derive(Clone, Debug)]
pub struct Age {
    pub says: String,
    /// Only where the label says what containers the seed is in.
    pub rule: Option<String>,
}

impl Age {
    /// Of the test in use: the latest that measured the germination, else the label's. None where there is none, or nobody said
    /// when it was made. Days are those of the organization's time zone.
    #[must_use]
    pub fn of(lot: &LotRow, latest: Option<&Measured>, actor: &Actor, now: Timestamp) -> Option<Self> {
        let day = |at: Timestamp| actor.time_zone.to_datetime(at).date();
        let (of, tested): (_, Date) = if let Some(measured) = latest {
            ("test", day(measured.test.head.stamp().at))
        } else {
            lot.germination_percent.as_ref()?;
            ("label", lot.tested_on.as_ref()?.parse().ok()?)
        };
        let words = actor.words();
        let (month, year) = (u32::from(tested.month().unsigned_abs()), tested.year().to_string());
        let says = match months_since_test(tested, day(now)) {
            Some(months) => say!(words, "germination-age", of = of, month = month, year = year, months = months),
            None => say!(words, "germination-to-come", of = of, month = month, year = year),
        };
        let rule = lot.label.hermetic.map(|is_hermetic| {
            let hermetic = if is_hermetic { "yes" } else { "no" };
            say!(words, "germination-rules", months = months_in_some_rules(is_hermetic), hermetic = hermetic)
        });
        Some(Self { says, rule })
    }
}
