//! A record put into a form's fields and read back from them is the same record.

use jiff::tz::TimeZone;
use proptest::prelude::*;
use serde_json::{Map, Value, json};
use sowmark::web::form::Posted;

fn zone() -> TimeZone {
    TimeZone::get("Europe/Vienna").unwrap()
}

fn round_trip(value: &Value) -> Value {
    Posted::of_tree(value, &zone()).tree(&zone())
}

fn pairs(value: &Value) -> Vec<(String, String)> {
    Posted::of_tree(value, &zone()).0
}

/// Values as a form makes them: texts, quantities, and lists and objects of those.
fn values() -> impl Strategy<Value = Value> {
    let quantity = ("[0-9]{1,4}(\\.[0-9]{1,3})?", prop_oneof!["kg", "lb", "t", "ha"])
        .prop_map(|(value, unit)| json!({ "value": value, "unit": unit }));
    let pounds = (0_u8..99, 0_u8..15).prop_map(|(lb, oz)| json!({ "lb": lb.to_string(), "oz": oz.to_string() }));
    let leaf = prop_oneof!["[a-z0-9 äß.,:&=/%+]{0,12}[a-z0-9ä]".prop_map(Value::from), quantity, pounds];
    leaf.prop_recursive(3, 40, 5, |inner| {
        prop_oneof![prop::collection::vec(inner.clone(), 1..5).prop_map(Value::from), objects(inner),]
    })
}

fn objects(inner: impl Strategy<Value = Value>) -> impl Strategy<Value = Value> {
    // A name that ends in `_at` is a moment's; two of the names of a quantity would make one.
    prop::collection::btree_map("[a-z][a-z_]{1,8}x", inner, 1..5)
        .prop_map(|fields| Value::Object(fields.into_iter().collect::<Map<String, Value>>()))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    #[test]
    fn what_a_form_can_make_comes_back(value in objects(values())) {
        prop_assert_eq!(round_trip(&value), value);
    }

    #[test]
    fn anything_goes_in_without_a_panic(text in "\\PC{0,40}", key in "\\PC{0,10}") {
        let mut fields = Map::new();
        fields.insert(key.clone(), json!([text, { (key): [null, true, 7, text] }]));
        let _ = round_trip(&Value::Object(fields));
    }
}

#[test]
fn a_catch_comes_back() {
    let sent = json!({ "id": "0196d2a0-0000-7000-8000-000000000001", "lot_id": "0196d2a0-0000-7000-8000-000000000002",
        "note": "windy\nand cold", "planned": { "rate": { "value": "140", "unit": "kg/ha" }, "speed": { "value": "9", "unit": "km/h" } },
        "repeats": [
            { "revolutions": "60", "catches": [{ "label": "run 2", "runs": "1", "tare": { "lb": "0", "oz": "11" }, "gross": { "lb": "4", "oz": "10.5" } }] },
            { "revolutions": "60", "set_aside": "spilled", "catches": [
                { "runs": "1", "tare": { "value": "0.32", "unit": "kg" }, "gross": { "value": "2110", "unit": "g" } }] }] });
    assert_eq!(round_trip(&sent), sent);
}

#[test]
fn twelve_rows_stay_in_order() {
    let rows: Vec<String> = (0..12).map(|row| format!("row {row}")).collect();
    let sent = json!({ "rows": rows });
    assert_eq!(round_trip(&sent), sent);
}

#[test]
fn numbers_and_flags_become_texts_and_nothing_stays_away() {
    let sent = r#"{ "runs": 8, "ratio": 2.50, "affects_metering": false, "gate": null, "note": "", "repeats": [] }"#;
    let back = round_trip(&serde_json::from_str(sent).unwrap());
    assert_eq!(back, json!({ "runs": "8", "ratio": "2.50", "affects_metering": "false" }));
}

#[test]
fn a_moment_is_told_in_the_zone_of_the_organization() {
    for (sent, shown, back) in [
        ("2027-04-06T07:40:00Z", "2027-04-06T09:40", "2027-04-06T09:40:00+02:00"),
        ("2027-04-06T09:40:12+02:00", "2027-04-06T09:40:12", "2027-04-06T09:40:12+02:00"),
        ("2027-01-06T09:40:12.25+02:00", "2027-01-06T08:40:12.250", "2027-01-06T08:40:12.25+01:00"),
        // What is no moment stays as it is, for somebody to mend.
        ("yesterday", "yesterday", "yesterday"),
    ] {
        let sent = json!({ "occurred_at": sent });
        assert_eq!(pairs(&sent), [("occurred_at".to_owned(), shown.to_owned())]);
        assert_eq!(round_trip(&sent), json!({ "occurred_at": back }));
    }
}

#[test]
fn names_that_no_field_has_are_left_out() {
    let sent = json!({ "a/b": "1", "_do": "save", "c": { "_x": "1", "d": "2" } });
    assert_eq!(pairs(&sent), [("c/d".to_owned(), "2".to_owned())]);
    assert_eq!(pairs(&json!("text")), [(String::new(), "text".to_owned())]);
    assert_eq!(pairs(&json!([])), []);
}
