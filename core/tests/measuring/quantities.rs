//! Entries that come back as they were made, and those that are refused. Factors are held against their definitions in
//! `tests/published`.

use sowmark_core::quantity::{
    Decimal, Dimension, DriveRatio, Length, Mass, MeterFactor, Quantity, SeedWeight, Unit, Volume, unit,
};

use crate::sheets::close;

#[test]
fn every_dimension_lists_its_units_and_refuses_others_by_name() {
    fn listed<D: Dimension>(expected: &str) {
        let names: Vec<_> = Quantity::<D>::units().iter().map(Unit::name).collect();
        assert_eq!(names.join(" "), expected);
        for name in names {
            assert_eq!(Quantity::<D>::new(Decimal::from(1), name).expect(name).unit(), name);
        }
        let refused = Quantity::<D>::new(Decimal::from(1), "furlong").expect_err("no unit of ours");
        assert!(refused.is_unit() && !refused.is_number());
        assert!(refused.to_string().contains("furlong") && refused.to_string().contains(D::NAME));
    }
    use unit::dimension as of;
    listed::<of::Mass>("g kg t oz lb");
    listed::<of::Length>("mm cm m in ft");
    listed::<of::Area>("m2 ha ac");
    listed::<of::Speed>("km/h mph m/s");
    listed::<of::SeedWeight>("g");
    listed::<of::BulkDensity>("kg/hL g/L lb/bu");
    listed::<of::Rate>("kg/ha lb/ac");
    listed::<of::MeterFactor>("kg/rev g/rev kg/100rev lb/100rev");
    listed::<of::Volume>("cm3");
    assert_eq!(
        Mass::parse_text("5").unwrap_err().to_string(),
        "no unit is not a unit of mass; allowed are g, kg, t, oz, lb"
    );
}

#[test]
fn entries_are_read_the_way_people_write_them() {
    for (text, entered) in [
        ("5 lb 8 oz", "5 lb 8 oz"),
        ("5lb8oz", "5 lb 8 oz"),
        ("5 lb 8,25 oz", "5 lb 8.25 oz"),
        ("5.5 lb", "5.5 lb"),
        ("2,11 kg", "2.11 kg"),
        ("2.11kg", "2.11 kg"),
        ("\u{2009}12.40\u{a0}lb ", "12.40 lb"),
        ("8 oz", "8 oz"),
    ] {
        let mass = Mass::parse_text(text).expect(text);
        assert_eq!(mass.entered(), entered);
        assert_eq!(Mass::from_entered(entered).expect(entered), mass);
        let stored = serde_json::to_string(&mass).expect("a string");
        assert_eq!(serde_json::from_str::<Mass>(&stored).expect("reads back"), mass);
    }
    assert_eq!(MeterFactor::parse_text("1.2 lb/100rev").unwrap().entered(), "1.2 lb/100rev");
    assert_eq!(Volume::parse_text("38 cm3").unwrap().entered(), "38 cm3");
    assert_eq!(SeedWeight::parse_text("45.2 g").unwrap().si().to_bits(), 45.2_f64.to_bits());
    for text in
        ["", "kg", "5 lb 16 oz", "5.5 lb 8 oz", "-5 lb 8 oz", "5 lb -8 oz", "5 lb 8", "5 kg 8 oz", "1e400 kg", "5 LB"]
    {
        assert!(Mass::parse_text(text).is_err(), "{text:?}");
    }
    assert!(Length::parse_text("5 lb 8 oz").is_err());
}

/// 5 lb 8 oz is 5.5 lb, and its step is that of its ounces.
#[test]
fn pounds_and_ounces_are_exact() {
    let mass = Mass::parse_text("5 lb 8 oz").unwrap();
    assert_eq!(mass.value_text(), "5.5000");
    assert_eq!(mass.si().to_bits(), Mass::parse_text("5.5 lb").unwrap().si().to_bits());
    assert_eq!(mass.parts().map(|(lb, oz)| (lb.as_str(), oz.as_str())), Some(("5", "8")));
    close(mass.resolution_si(), 0.028_349_523_125, 1e-15);
}

/// The same seed in another container is the same net mass to the last bit.
#[test]
fn a_container_cannot_make_a_scatter() {
    let net = |gross: &str, tare: &str| Mass::parse_text(gross).unwrap().minus_si(&Mass::parse_text(tare).unwrap());
    assert_eq!(net("1.730 kg", "0.455 kg").to_bits(), net("1.745 kg", "470 g").to_bits());
    assert_eq!(net("1 lb", "16 oz").to_bits(), 0);
    assert!(net("1 lb", "453.59238 g") < 0.0);
}

#[test]
fn a_ratio_is_stored_as_entered() {
    let ratio = DriveRatio::parse(" 2,50 : 1 ").unwrap();
    assert_eq!(serde_json::to_string(&ratio).expect("a string"), "\"2.50:1\"");
    assert_eq!(serde_json::from_str::<DriveRatio>("\"2.5\"").expect("reads back"), ratio);
    assert_eq!(
        (ratio.as_str(), ratio.to_string(), format!("{ratio:>7}")),
        ("2.50:1", "2.50:1".to_owned(), " 2.50:1".to_owned())
    );
    let plain = DriveRatio::parse("2,5").unwrap();
    assert_eq!((plain.as_str(), plain.to_string()), ("2.5", "2.5".to_owned()));
    close(plain.value(), 2.5, 0.0);
}

/// An entry is looked at up to 64 characters; zeros in front do not count as digits.
#[test]
fn an_entry_has_a_length() {
    let padded = |length: usize| format!("{}{}", "0".repeat(length - 3), "1.5");
    assert_eq!(Decimal::parse(&padded(64)).map(|number| number.as_str().to_owned()), Ok("1.5".to_owned()));
    let says = |text: &str| Decimal::parse(text).expect_err(text).to_string();
    assert!(says(&padded(65)).ends_with("is too long; enter at most 18 digits"));
    let json = |text: &str| Decimal::parse_json_number(text).map(|number| number.as_str().to_owned());
    assert_eq!(json(&padded(64)), Ok("1.5".to_owned()));
    assert!(json(&padded(65)).is_err());
    assert_eq!(json(&format!("{}e1", "0".repeat(60) + "15")), Ok("150".to_owned()));
    assert!(json(&format!("{}e1", "0".repeat(61) + "15")).is_err());
    assert_eq!(json("0e30"), Ok("0".to_owned()));
    assert!(json("0e31").unwrap_err().to_string().contains("an exponent out of bounds"));
    assert!(json("0e-31").unwrap_err().to_string().contains("an exponent out of bounds"));
    assert_eq!(json("1e-18"), Ok("0.000000000000000001".to_owned()));
    assert!(Decimal::parse("0.000000000000000001").is_ok(), "eighteen decimals");
}

#[test]
fn a_refusal_says_what_to_write() {
    let says = |text: &str| Decimal::parse(text).expect_err(text).to_string();
    let no_number = "is not a number; write digits with one decimal sign, like 12.40";
    assert_eq!(says("NaN"), format!("“NaN” {no_number}"));
    assert_eq!(says("1.x"), format!("“1.x” {no_number}"));
    assert_eq!(says("x.1"), format!("“x.1” {no_number}"));
    assert_eq!(says("1.2a,5"), format!("“1.2a,5” {no_number}"));
    let two_signs = "has more than one decimal sign; write it without thousands separators, like 1234.5";
    assert_eq!(says("1,234.5"), format!("“1,234.5” {two_signs}"));
    assert_eq!(says("1.2.3"), format!("“1.2.3” {two_signs}"));
    // Forty characters are shown, more are cut.
    let long = |count: usize| says(&"x".repeat(count));
    assert_eq!(long(40), format!("“{}” {no_number}", "x".repeat(40)));
    assert_eq!(long(41), format!("“{}…” {no_number}", "x".repeat(40)));
    let number = Decimal::parse("x").unwrap_err();
    assert!(number.is_number() && !number.is_unit() && !number.is_ratio());
    let unit = Mass::parse_text("5 m").unwrap_err();
    assert!(unit.is_unit() && !unit.is_number() && !unit.is_ratio());
    let ratio = DriveRatio::parse("0:1").unwrap_err();
    assert!(ratio.is_ratio() && !ratio.is_number() && !ratio.is_unit());
    assert_eq!(ratio.to_string(), "“0:1” is not a drive ratio; both numbers must be above zero");
    let says = |text: &str| DriveRatio::parse(text).unwrap_err().to_string();
    assert_eq!(says("1:0"), "“1:0” is not a drive ratio; both numbers must be above zero");
    assert_eq!(says("0.0009"), "“0.0009” is out of bounds; a drive ratio lies between 0.001 and 1000");
    assert!(says("a").ends_with("is not a drive ratio; write roller to drive revolutions, like 5:2 or 2.5"));
    assert!(DriveRatio::parse("0.001").is_ok() && DriveRatio::parse("1000").is_ok(), "the bounds themselves");
}

/// Halfway between two floats the even one is meant, and anything beyond halfway the next.
#[test]
fn a_decimal_is_rounded_once_and_to_even() {
    for (entered, float) in [
        ("9007199254740993", 9_007_199_254_740_992.0),
        ("9007199254740995", 9_007_199_254_740_996.0),
        ("9007199254740993.01", 9_007_199_254_740_994.0),
        ("900719925474099.25", 900_719_925_474_099.25),
        ("0.1", 0.1),
        ("0.000000000000000001", 1e-18),
        ("-0.3", -0.3),
        ("0", 0.0),
    ] {
        assert_eq!(Decimal::parse(entered).unwrap().to_f64().to_bits(), f64::to_bits(float), "{entered}");
    }
}

#[test]
fn ratios_of_one_value_are_one_key() {
    use std::hash::{BuildHasher, RandomState};
    let state = RandomState::new();
    let hash = |text: &str| state.hash_one(DriveRatio::parse(text).expect(text));
    assert_eq!(hash("5:2"), hash("10:4"));
    assert_eq!(hash("5:2"), hash("2,5"));
    assert_ne!(hash("5:2"), hash("2:5"));
    assert_ne!(DriveRatio::parse("5:2").unwrap(), DriveRatio::parse("2:5").unwrap());
}

/// Equal is what was entered alike: number, unit and how it was split.
#[test]
fn quantities_are_equal_by_entry() {
    let mass = |text: &str| Mass::parse_text(text).expect(text);
    assert_eq!(mass("5.5 lb"), mass("5,5lb"));
    assert_ne!(mass("5.5 lb"), mass("5.50 lb"));
    assert_ne!(mass("5.5 lb"), mass("5.5 kg"));
    assert_ne!(mass("5.5000 lb"), mass("5 lb 8 oz"));
    assert_ne!(unit::G, unit::KG);
    assert_eq!(unit::G, unit::G);
    assert_eq!((mass("0.0 kg").is_zero(), mass("0.1 kg").is_zero()), (true, false));
    let signs = |text: &str| (mass(text).is_positive(), mass(text).is_negative());
    assert_eq!((signs("0 kg"), signs("1 kg"), signs("-1 kg")), ((false, false), (true, false), (false, true)));
}

#[test]
fn pounds_and_ounces_stand_together_or_not_at_all() {
    let says = |text: &str| Mass::parse_text(text).expect_err(text).to_string();
    assert!(says("-5 lb 8 oz").contains("has a sign"));
    assert!(says("5 lb -8 oz").contains("has a sign"));
    assert!(says("5.5 lb 8 oz").contains("a fraction of a pound and ounces"));
    assert!(says("5 lb 16 oz").contains("has 16 ounces or more"));
    assert!(Mass::parse_text("5 lb 15.999 oz").is_ok());
    assert!(says("123456789012345678 lb 8 oz").contains("has too many digits"));
    assert_eq!(Mass::parse_text("5 lb +8 oz").unwrap().entered(), "5 lb 8 oz");
    assert_eq!(Mass::parse_text("0 lb .5 oz").unwrap().entered(), "0 lb 0.5 oz");
    close(Mass::parse_text("5 lb 8 oz").unwrap().si(), 5.5 * 0.453_592_37, 1e-15);
    close(Mass::parse_text("5 lb 8.25 oz").unwrap().resolution_si(), 0.01 * 0.028_349_523_125, 1e-15);
}

/// The digits that a value keeps end where the second digit of its uncertainty does.
#[test]
fn digits_that_mean_something() {
    use sowmark_core::quantity::{print_number, significant_digits_for};
    for (value, percent, digits) in [
        (63.9375, 1.26, 4),
        (63.9375, 0.126, 5),
        (0.030, 1.8, 4),
        (100.0, 1.0, 4),
        (1.0, 99.0, 3),
        (1.0, 1e-9, 8),
        (1.0, 1e9, 2),
        (1.0, 0.0, 6),
        (1.0, -1.0, 6),
        (1.0, f64::NAN, 6),
        (1.0, f64::INFINITY, 6),
        (0.0, 1.0, 6),
    ] {
        assert_eq!(significant_digits_for(value, percent), digits, "{value} {percent}");
    }
    for (value, digits, text) in [
        (0.012_345, 3, "0.0123"),
        (9.996, 3, "10.0"),
        (123_456.0, 2, "123456"),
        (-0.000_04, 1, "-0.00004"),
        (0.0, 3, "0"),
        (-0.0, 3, "0"),
        (1.0, 0, "1"),
        (1.0, 1, "1"),
        (1.0, 2, "1.0"),
        (f64::NAN, 3, "–"),
        (f64::INFINITY, 3, "–"),
    ] {
        assert_eq!(print_number(value, digits), text);
    }
    assert_eq!(print_number(1.0 / 3.0, 40).len(), "0.".len() + 17, "no more than a float has");
}

/// A difference of two readings is known to the step of the finer one, whatever unit it is shown in.
#[test]
fn a_difference_ends_where_its_finer_reading_does() {
    use sowmark_core::quantity::{print_to_step, unit};
    use sowmark_core::words::{DecimalSign, Words};
    for (kg, step, in_kg, in_lb) in [
        (1.79, 0.001, "1.790", "3.946"),
        (12.345, 0.005, "12.345", "27.22"),
        (0.085, 0.001, "0.085", "0.187"),
        (1.5, 0.01, "1.50", "3.31"),
        (820.0, 1.0, "820", "1808"),
        (820.0, 10.0, "820", "1808"),
        (-0.25, 0.01, "-0.25", "-0.55"),
        (2.0, 1e-15, "2.000000000000", "4.409245243698"),
        (2.5, f64::NAN, "2", "6"),
        (2.5, f64::INFINITY, "2", "6"),
        (f64::NAN, 0.001, "–", "–"),
        (f64::INFINITY, 0.001, "–", "–"),
    ] {
        assert_eq!(print_to_step(kg, unit::KG, step), in_kg, "{kg} kg by {step}");
        assert_eq!(print_to_step(kg, unit::LB, step), in_lb, "{kg} kg by {step}, in lb");
    }
    let comma = Words { decimal: DecimalSign::Comma, ..Words::default() };
    assert_eq!(comma.to_step(1.79, unit::KG, 0.001), "1,790");
    // The same factor has three digits before the point's end in one unit and two in another: 9.96 ± 0.21 lb, 4.520 ± 0.095 kg.
    assert_eq!(comma.print_within(0.0452, unit::LB_PER_100REV, 2.1), "9,96");
    assert_eq!(comma.print_within(0.0452, unit::KG_PER_100REV, 2.1), "4,520");
}

/// Source: NIST Special Publication 811, B.8: t/°C = (t/°F - 32)/1.8. Absolute zero, the triple point of water and the reference
/// temperature of ISO 1 (20 °C, 68 °F) are the same points on both scales.
#[test]
fn a_temperature_is_the_same_on_both_scales() {
    use sowmark_core::quantity::{Decimal, Temperature};
    for (celsius, fahrenheit) in
        [("-273.15", "-459.67"), ("-17.5", "0.5"), ("0.01", "32.018"), ("20", "68"), ("25", "77"), ("37.0", "98.6")]
    {
        let close = |value: f64, text: &str| (value - text.parse::<f64>().expect("a number")).abs() < 1e-9;
        for (number, unit) in [(celsius, "°C"), (fahrenheit, "°F")] {
            let read = Temperature::new(Decimal::parse(number).expect("a number"), unit).expect("a temperature");
            assert_eq!((read.value_text(), read.unit()), (number, unit));
            assert_eq!((read.entered(), read.to_string()), (format!("{number} {unit}"), format!("{number} {unit}")));
            assert_eq!(Temperature::from_entered(&read.entered()), Ok(read.clone()));
            assert!(close(read.celsius(), celsius), "{read} is {} °C", read.celsius());
            assert!(close(read.fahrenheit(), fahrenheit), "{read} is {} °F", read.fahrenheit());
        }
    }
    // Read without the ring, written with it.
    let read = |entered: &str| Temperature::from_entered(entered).map(|read| (read.unit(), read.on_the_other_scale()));
    assert_eq!(read("68 F"), Ok(("°F", "20 °C".to_owned())));
    assert_eq!(read("20.0 C"), Ok(("°C", "68.0 °F".to_owned())));
    // Two decimals at most, and no zero below zero: 31.999 °F are -0.00056 °C.
    assert_eq!(read("0.0100 °C"), Ok(("°C", "32.02 °F".to_owned())));
    assert_eq!(read("31.999 °F"), Ok(("°F", "0.00 °C".to_owned())));
    assert!(read("285 K").is_err_and(|refused| refused.is_unit()));
}
