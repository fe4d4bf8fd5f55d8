//! Drawings for any numbers: round ticks, finite places, labels apart. What the pages draw is told by their own tests.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use proptest::collection::vec;
use proptest::prelude::*;
use sowmark::chart::axis::{dates, numbers, whole_days};
use sowmark::chart::label::{self, apart, in_rows, within};
use sowmark::chart::plot::Frame;
use sowmark::chart::{Mark, Plot, Scale, Stroke};
use sowmark::texts;
use sowmark_core::words::{DecimalSign, Words};

fn says(scale: &Scale, wanted: usize) -> Vec<String> {
    numbers(scale, wanted, Words::default()).into_iter().map(|tick| tick.says).collect()
}

#[test]
fn ticks_are_round_numbers() {
    let of = |low, high| says(&Scale::between(low, high, 0.0, 100.0), 5);
    assert_eq!(of(2.71, 3.42), ["2.8", "3.0", "3.2", "3.4"]);
    assert_eq!(of(-0.3, 0.25), ["\u{2212}0.2", "0.0", "0.2"]);
    assert_eq!(of(0.0, 100.0), ["0", "20", "40", "60", "80", "100"]);
    assert_eq!(of(1234.0, 5678.0), ["2000", "3000", "4000", "5000"]);
    let comma =
        numbers(&Scale::between(0.0, 1.0, 0.0, 1.0), 5, Words { decimal: DecimalSign::Comma, ..Words::default() });
    assert_eq!(comma[1].says, "0,2");
}

#[test]
fn one_value_lies_in_the_middle() {
    for value in [3.0, -3.0, 0.0, 1e300, 1e-300, -1e-12] {
        let scale = Scale::holding([value, value], 0.0, 100.0);
        let at = scale.at(value).unwrap();
        assert!((at - 50.0).abs() < 1e-6, "{value}: {at}");
        assert!(!numbers(&scale, 5, Words::default()).is_empty() || value.abs() > 1e100 || value.abs() < 1e-100);
    }
    assert_eq!(Scale::holding([], 0.0, 100.0).at(0.5), Some(50.0));
    assert_eq!(Scale::holding([f64::NAN, f64::INFINITY], 0.0, 100.0).at(f64::NAN), None);
}

/// A whole spring, a day, ten years; in a zone whose clocks change between.
#[test]
fn ticks_of_time_are_whole_days_months_or_years() {
    let zone = TimeZone::get("America/Winnipeg").unwrap();
    let of = |first: &str, last: &str| {
        let instants: [Timestamp; 2] = [first.parse().unwrap(), last.parse().unwrap()];
        let scale = whole_days(instants, 0.0, 500.0);
        dates(&scale, 7, &zone, texts::plain()).into_iter().map(|tick| tick.says).collect::<Vec<_>>()
    };
    assert_eq!(of("2027-03-02T12:00:00Z", "2027-06-20T12:00:00Z"), ["Mar 2027", "Apr 2027", "May 2027", "Jun 2027"]);
    assert_eq!(
        of("2027-04-06T12:00:00Z", "2027-04-06T12:00:00Z"),
        ["4 Apr", "5 Apr", "6 Apr", "7 Apr", "8 Apr", "9 Apr"]
    );
    assert_eq!(of("2017-04-06T12:00:00Z", "2027-04-06T12:00:00Z"), ["2018", "2020", "2022", "2024", "2026"]);
}

#[test]
fn labels_are_shortened_and_kept_apart() {
    assert_eq!(within("fine fluted", 200.0), "fine fluted");
    assert_eq!(within("fine fluted roller, lot 24-117", 70.0), "fine flut\u{2026}");
    assert_eq!(apart(&[50.0, 50.0, 10.0], 0.0, 100.0), [50.0, 66.0, 10.0]);
    assert_eq!(apart(&[100.0, 100.0], 0.0, 100.0), [84.0, 100.0]);
    let rows = in_rows(&[(0.0, 91.0), (20.0, 69.0), (30.0, 72.0), (200.0, 249.0)], 2);
    assert_eq!(rows, [Some(0), Some(1), None, Some(0)]);
}

/// Every number in a path's commands.
fn places(d: &str) -> Vec<f64> {
    let number = |c: char| c.is_ascii_digit() || c == '-' || c == '.';
    d.split(|c: char| !number(c)).filter(|text| !text.is_empty()).map(|text| text.parse().unwrap()).collect()
}

fn hostile() -> impl Strategy<Value = f64> {
    prop_oneof![
        any::<f64>(),
        -1e3_f64..1e3,
        Just(0.0),
        Just(f64::MAX),
        Just(f64::MIN),
        Just(f64::MIN_POSITIVE),
        Just(f64::NAN),
        Just(f64::INFINITY),
    ]
}

proptest! {
    #[test]
    fn ticks_step_by_one_two_or_five_within_the_scale(low in -1e6_f64..1e6, span in 1e-6_f64..1e6, wanted in 3_usize..9) {
        let scale = Scale::between(low, low + span, 0.0, 500.0);
        let ticks = numbers(&scale, wanted, Words::default());
        prop_assert!(ticks.len() >= 2 || wanted < 5, "{:?}", ticks);
        prop_assert!(ticks.len() <= wanted + 1, "{:?}", ticks);
        let air = span * 1e-6 + low.abs() * 1e-9;
        prop_assert!(ticks.iter().all(|tick| tick.value >= low - air && tick.value <= low + span + air));
        for pair in ticks.windows(2) {
            let step = pair[1].value - pair[0].value;
            let lead = step / 10_f64.powf((step.log10() + 1e-6).floor());
            prop_assert!([1.0, 2.0, 5.0].iter().any(|round| (lead - round).abs() < 1e-3), "{}", step);
            prop_assert_ne!(&pair[0].says, &pair[1].says);
        }
    }

    #[test]
    fn ticks_of_time_are_few_and_inside(first in -4e9_f64..4e9, days in 0_u32..20_000) {
        // Whole seconds of this century fit.
        #[allow(clippy::cast_possible_truncation)]
        let at = |seconds: f64| Timestamp::from_second(seconds.round() as i64).unwrap();
        let scale = whole_days([at(first), at(first + f64::from(days) * 86_400.0)], 0.0, 500.0);
        let ticks = dates(&scale, 7, &TimeZone::get("Pacific/Auckland").unwrap(), texts::plain());
        prop_assert!(!ticks.is_empty() && ticks.len() <= 8, "{:?}", ticks);
        prop_assert!(ticks.iter().all(|tick| tick.value >= scale.low() && tick.value <= scale.high()));
        prop_assert!(ticks.windows(2).all(|pair| pair[0].value < pair[1].value));
    }

    #[test]
    fn whatever_is_drawn_lies_on_the_paper(
        points in vec((hostile(), hostile(), hostile()), 0..8), events in vec(hostile(), 0..5), wanted in 0_usize..50,
    ) {
        let frame = Frame::WIDE;
        let x = Scale::holding(points.iter().map(|p| p.0), frame.left, frame.right);
        let y = Scale::holding(points.iter().flat_map(|p| [p.1, p.2]), frame.bottom, frame.top);
        let mut plot = Plot::new(frame, x, y);
        plot.across(&numbers(&y, wanted, Words::default()));
        plot.along(&numbers(&x, wanted, Words::default()));
        plot.along(&dates(&x, wanted, &TimeZone::UTC, texts::plain()));
        plot.band(&points);
        plot.line(Stroke::Series(1), &points.iter().map(|p| (p.0, p.1)).collect::<Vec<_>>());
        plot.level(Stroke::Limit, points.first().map_or(1.0, |p| p.1));
        let names: Vec<_> = points.iter().map(|p| (p.0, p.1, "a lot, an extra coarse fluted roller".to_owned())).collect();
        plot.names(&names);
        plot.names_at(&names);
        plot.events(&events.iter().map(|at| (*at, "roller".to_owned())).collect::<Vec<_>>());
        for (number, (at, low, high)) in points.iter().enumerate() {
            plot.bar(*at, *low, *high);
            plot.mark(Mark::of(number), *at, *low);
            plot.note(*at, *high, "here");
        }
        let (size, paths, texts) = plot.drawn();
        for path in &paths {
            for place in places(&path.d) {
                prop_assert!(place.abs() <= size.0 + 20.0, "{} in {:?}", place, path);
            }
        }
        for text in &texts {
            let (x, y): (f64, f64) = (text.x.parse().unwrap(), text.y.parse().unwrap());
            prop_assert!((0.0..=size.0).contains(&x) && (0.0..=size.1 + 20.0).contains(&y), "{:?}", text);
        }
    }

    #[test]
    fn labels_keep_their_order_and_distance(wanted in vec(-50.0_f64..250.0, 0..10)) {
        let places = apart(&wanted, 0.0, 200.0);
        for (i, a) in places.iter().enumerate() {
            prop_assert!((0.0..=200.0).contains(a));
            for (j, b) in places.iter().enumerate().skip(i + 1) {
                prop_assert!((a - b).abs() >= label::LINE - 1e-9);
                prop_assert!(wanted[i].total_cmp(&wanted[j]).is_eq() || (wanted[i] < wanted[j]) == (a < b));
            }
        }
    }
}
