//! The vectors of `tests/shared/`: core's sums and the reading of a form here, the phone's in `tests/shared/shared.test.mjs`.
//! The expected values were worked out by hand, in fractions.

use jiff::tz::TimeZone;
use serde_json::Value;
use sowmark::web::form::Posted;
use sowmark::web::input::{At, Faults, Input};
use sowmark_core::catch::Revolutions;
use sowmark_core::factor::{Measured, MeasuredCatch, MeasuredRepeat};
use sowmark_core::quantity::{Decimal, Length, Mass};

fn vectors(name: &str) -> Vec<Value> {
    let text = std::fs::read_to_string(format!("{}/tests/shared/{name}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    serde_json::from_str(&text).unwrap()
}

fn decimal(text: &str) -> Decimal {
    Decimal::parse(text).unwrap()
}

fn revolutions(counted: &str, how: &Value) -> f64 {
    let text = |key: &str| how[key].as_str().unwrap();
    let length = |value: &str| Length::new(decimal(value), text("length")).unwrap();
    let counted = match text("counts") {
        "turns" => Revolutions::Turns { turns: decimal(counted) },
        "pulses" => Revolutions::Pulses { pulses: decimal(counted), pulses_per_rev: decimal(text("per")) },
        "distance" => Revolutions::Distance {
            distance: length(counted),
            circumference: length(text("per")),
            slip_percent: Some(text("slip")).filter(|slip| !slip.is_empty()).map(decimal),
        },
        _ => Revolutions::Counted(decimal(counted)),
    };
    counted.count(decimal(text("ratio")).to_f64())
}

fn measured(repeat: &Value, how: &Value) -> MeasuredRepeat {
    let unit = how["unit"].as_str().unwrap();
    let mass = |text: &Value| Mass::parse_text_or(text.as_str().unwrap(), unit).unwrap();
    let catches = repeat["catches"].as_array().unwrap().iter().map(|row| MeasuredCatch {
        label: String::new(),
        runs: row["runs"].as_str().unwrap().parse().unwrap(),
        net_kg: mass(&row["gross"]).minus_si(&mass(&row["tare"])),
        rounding_variance: 0.0,
    });
    MeasuredRepeat {
        revolutions: revolutions(repeat["counted"].as_str().unwrap(), how),
        revolution_step: 0.0,
        catches: catches.collect(),
        set_aside: repeat["set_aside"] != "",
    }
}

#[test]
fn the_phone_and_core_come_to_the_same_sums() {
    for vector in vectors("sums.json") {
        let how = &vector["how"];
        let one = Mass::parse_text_or("1", how["unit"].as_str().unwrap()).unwrap().si();
        let sheet = Measured {
            repeats: vector["repeats"].as_array().unwrap().iter().map(|repeat| measured(repeat, how)).collect(),
        };
        let factors: Vec<f64> = sheet.kept().map(MeasuredRepeat::factor).collect();
        let mean = sowmark_core::statistics::mean(&factors).unwrap();
        let (least, most) = factors.iter().fold((f64::MAX, f64::MIN), |(l, m), f| (l.min(*f), m.max(*f)));
        let spread = (factors.len() > 1).then_some(100.0 * (most - least) / mean);
        let caught: f64 = sheet.kept().map(MeasuredRepeat::caught_kg).sum();
        let expected = &vector["expected"];
        let near = |got: f64, wanted: &Value| (got / wanted.as_f64().unwrap() - 1.0).abs() < 1e-12;
        assert!(near(sheet.factor().unwrap() / one, &expected["factor"]), "{}", vector["name"]);
        assert!(near(caught / one, &expected["caught"]), "{}", vector["name"]);
        assert_eq!(spread.is_some(), !expected["spread"].is_null());
        // A difference of near equals: fewer digits hold.
        assert!(spread.is_none_or(|spread| (spread - expected["spread"].as_f64().unwrap()).abs() < 1e-9));
    }
}

#[test]
fn the_phone_and_the_server_read_a_weight_alike() {
    for vector in vectors("weights.json") {
        let text = |key: &str| vector[key].as_str().unwrap().to_owned();
        let pairs = vec![("a/value".to_owned(), text("typed")), ("a/unit".to_owned(), text("unit"))];
        let tree = Posted(pairs).tree(&TimeZone::UTC);
        let read = Mass::read(tree.get("a"), &At::default(), &mut Faults::default());
        let one = Mass::parse_text_or("1", &text("unit")).unwrap().si();
        match (read, vector["is"].as_str()) {
            (Some(read), Some(wanted)) => {
                let wanted: f64 = wanted.parse().unwrap();
                assert!((read.si() / one - wanted).abs() <= 1e-12 * wanted, "{vector}: {read}");
            }
            (read, wanted) => assert_eq!((read, wanted), (None, None), "{vector}"),
        }
    }
}

#[test]
fn the_phone_and_the_server_read_a_form_alike() {
    for vector in vectors("trees.json") {
        let pairs = vector["pairs"].as_array().unwrap();
        let text = |value: &Value| value.as_str().unwrap().to_owned();
        let posted = Posted(pairs.iter().map(|pair| (text(&pair[0]), text(&pair[1]))).collect());
        let zone = TimeZone::get(vector["zone"].as_str().unwrap()).unwrap();
        assert_eq!(posted.tree(&zone), vector["tree"], "{}", vector["name"]);
    }
}
