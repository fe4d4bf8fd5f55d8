//! Ticks: round numbers at steps of 1, 2 or 5, and dates at whole days, weeks, months or years.

use super::scale::Scale;
use jiff::civil::Weekday;
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp, ToSpan, Unit, ZonedDateTime};
use sowmark_core::quantity::print_number;
use sowmark_core::say;
use sowmark_core::words::Words;

/// A tick: its value on the scale, and what is written beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// The value; an instant counts in seconds.
    pub value: f64,
    /// What is written there.
    pub says: String,
}

/// More ticks than this are never made, whatever was asked.
const MOST: usize = 30;

/// Round values within the scale, about `wanted` of them, at a step of 1, 2 or 5 times a power of ten.
#[must_use]
pub fn numbers(scale: &Scale, wanted: usize, words: Words) -> Vec<Tick> {
    let wanted = wanted.clamp(1, MOST / 3) as f64;
    let stretch = (scale.high() / wanted) - (scale.low() / wanted);
    let Some(step) = round_step(stretch) else { return Vec::new() };
    let first = (scale.low() / step - 1e-9).ceil();
    let values = (0..MOST).map(|i| (first + i as f64) * step);
    values
        .take_while(|value| *value <= scale.high() + step * 1e-9)
        .filter(|value| value.is_finite() && *value >= scale.low() - step * 1e-9)
        .map(|value| Tick { value, says: said(value, step, words) })
        .collect()
}

/// The least of 1, 2, 5 times a power of ten that is no less than `stretch`.
fn round_step(stretch: f64) -> Option<f64> {
    if !(stretch.is_finite() && stretch > 0.0) {
        return None;
    }
    let power = 10_f64.powf(stretch.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|times| times * power)
        .find(|step| *step >= stretch * (1.0 - 1e-9))
        .filter(|step| step.is_finite() && *step > 0.0)
}

/// With as many decimals as the step has.
fn said(value: f64, step: f64, words: Words) -> String {
    let places = -(step.log10() + 1e-9).floor();
    if !(-6.0..=9.0).contains(&places) {
        return words.decimal(&print_number(value, 3));
    }
    // Within 0 to 9, so nothing is lost.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let places = places.max(0.0) as usize;
    let text = format!("{value:.places$}");
    let is_zero = text.chars().all(|c| matches!(c, '-' | '0' | '.'));
    words.decimal(if is_zero { text.trim_start_matches('-') } else { &text })
}

/// An instant as the number that a scale takes.
#[must_use]
pub fn seconds(at: Timestamp) -> f64 {
    at.as_second() as f64
}

/// A scale of time that holds all `instants`, with three days of air at least, so that a tick falls inside.
#[must_use]
pub fn whole_days(instants: impl IntoIterator<Item = Timestamp>, from: f64, to: f64) -> Scale {
    let (mut first, mut last) = (f64::INFINITY, f64::NEG_INFINITY);
    for at in instants {
        (first, last) = (first.min(seconds(at)), last.max(seconds(at)));
    }
    if first > last {
        (first, last) = (0.0, 0.0);
    }
    let air = ((last - first) * 0.04).max(3.0 * 86_400.0);
    Scale::between(first - air, last + air, from, to)
}

/// What ticks may be apart, finest first: so many of a unit, and in seconds about.
const STEPS: [(i64, Unit, f64); 13] = [
    (1, Unit::Day, 86_400.0),
    (2, Unit::Day, 172_800.0),
    (1, Unit::Week, 604_800.0),
    (2, Unit::Week, 1_209_600.0),
    (1, Unit::Month, 2_629_800.0),
    (2, Unit::Month, 5_259_600.0),
    (3, Unit::Month, 7_889_400.0),
    (6, Unit::Month, 15_778_800.0),
    (1, Unit::Year, 31_557_600.0),
    (2, Unit::Year, 63_115_200.0),
    (5, Unit::Year, 157_788_000.0),
    (10, Unit::Year, 315_576_000.0),
    (50, Unit::Year, 1_577_880_000.0),
];

/// Whole days, weeks (from Monday), months or years of a zone within a scale of time, `most` at most.
#[must_use]
pub fn dates(scale: &Scale, most: usize, zone: &TimeZone, words: Words) -> Vec<Tick> {
    let most = most.clamp(1, MOST);
    let fits = |(_, _, apart): &&(i64, Unit, f64)| (scale.high() - scale.low()) / apart <= most as f64;
    let (count, unit, _) = STEPS.iter().find(fits).unwrap_or(&STEPS[STEPS.len() - 1]);
    let Some(mut tick) = instant(scale.low()).and_then(|at| before(&at.to_zoned_datetime(zone.clone()), *count, *unit))
    else {
        return Vec::new();
    };
    let mut ticks = Vec::new();
    // One more than fits: the first may lie before the scale.
    for _ in 0..=MOST + 1 {
        let value = seconds(tick.timestamp());
        if value > scale.high() || ticks.len() > most {
            break;
        }
        if value >= scale.low() {
            ticks.push(Tick { value, says: date(&tick, *unit, words) });
        }
        match span(*count, *unit).and_then(|step| tick.checked_add(step).ok()) {
            Some(next) => tick = next,
            None => break,
        }
    }
    ticks
}

/// As finely as its step: "4 Apr", "Apr 2027", "2027".
fn date(at: &ZonedDateTime, step: Unit, words: Words) -> String {
    let (month, year) = (u32::from(at.month().unsigned_abs()), at.year().to_string());
    match step {
        Unit::Year => year,
        Unit::Month => say!(words, "chart-month-of-year", month = month, year = year),
        _ => say!(words, "chart-day-of-month", day = at.day().to_string(), month = month),
    }
}

fn instant(seconds: f64) -> Option<Timestamp> {
    // A scale of time holds instants that were whole seconds; what lies beyond the calendar is refused.
    #[allow(clippy::cast_possible_truncation)]
    let whole = seconds.floor().clamp(-3e11, 3e11) as i64;
    Timestamp::from_second(whole).ok()
}

fn span(count: i64, unit: Unit) -> Option<Span> {
    match unit {
        Unit::Day => Some(count.days()),
        Unit::Week => Some(count.weeks()),
        Unit::Month => Some(count.months()),
        Unit::Year => Some(count.years()),
        _ => None,
    }
}

/// The last tick of such a step at or before a moment.
fn before(at: &ZonedDateTime, count: i64, unit: Unit) -> Option<ZonedDateTime> {
    let day = at.start_of_day().ok()?;
    match unit {
        Unit::Week => {
            let since_monday = i64::from(at.weekday().since(Weekday::Monday));
            day.checked_sub(since_monday.days()).ok()
        }
        Unit::Month => {
            let months = (i64::from(at.month()) - 1) % count;
            day.first_of_month().ok()?.checked_sub(months.months()).ok()
        }
        Unit::Year => {
            let years = i64::from(at.year()).rem_euclid(count);
            day.first_of_year().ok()?.checked_sub(years.years()).ok()
        }
        _ => Some(day),
    }
}
