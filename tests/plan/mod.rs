//! The rate plan: plants or pure live seed wanted to a rate, as JSON and as a page.

mod answers;
mod pages;
mod refused;
mod spanish;

use serde_json::Value;

/// A number, or the number of a quantity.
pub fn number(value: &Value) -> f64 {
    let value = value.get("value").unwrap_or(value);
    value
        .as_str()
        .map_or_else(|| value.as_f64(), |text| text.parse().ok())
        .unwrap_or_else(|| panic!("{value} is no number"))
}

pub fn near(value: &Value, expected: f64, within: f64) {
    assert!((number(value) - expected).abs() <= within, "{value} is not {expected}");
}
