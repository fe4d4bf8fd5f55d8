//! A catch that was sent, as it would be typed on the sheet: the way back from the record to the form's own fields.
//!
//! A sheet counts one thing in all repeats, with one number beside it. A repeat that was counted otherwise stands there
//! without its number, to be given again; nothing is converted.

use super::typed::{MASS_UNITS, length_unit};
use crate::access::Units;
use crate::web::form::Posted;
use serde_json::Value;

/// The fields of the sheet that begin with something: what was not sent must stand empty in them.
const BEGUN: [&str; 5] = ["occurred_at", "lot_id", "scale_id", "roller_speed_rpm", "note"];

/// The fields of a sheet that a record fills; `sent` are the pairs that the record makes as it stands.
pub(super) fn as_typed(record: &Value, sent: &Posted, units: Units) -> Posted {
    let repeats = record.get("repeats").and_then(Value::as_array).map_or(&[][..], Vec::as_slice);
    let mut pairs: Vec<(String, String)> =
        sent.0.iter().filter(|(name, _)| !name.starts_with("repeats")).cloned().collect();
    let mut add = |name: String, text: String| pairs.push((name, text));
    for name in BEGUN.into_iter().filter(|name| sent.text(name).is_empty()) {
        add(name.to_owned(), String::new());
    }
    let mass_unit = mass_unit(repeats, units);
    let counted = repeats.first().map(|repeat| Counted::of(repeat.get("revolutions"), units)).unwrap_or_default();
    add("_mass_unit".to_owned(), mass_unit.to_owned());
    add("_counted".to_owned(), counted.what.to_owned());
    add("_per".to_owned(), counted.per.clone());
    add("_slip".to_owned(), counted.slip.clone());
    for (j, repeat) in repeats.iter().enumerate() {
        let own = Counted::of(repeat.get("revolutions"), units);
        let is_alike = (own.what, &own.per, &own.slip) == (counted.what, &counted.per, &counted.slip);
        add(format!("repeats/{j}/revolutions"), if is_alike { own.number } else { String::new() });
        add(format!("repeats/{j}/set_aside"), plain(repeat.get("set_aside")));
        let catches = repeat.get("catches").and_then(Value::as_array).map_or(&[][..], Vec::as_slice);
        for (i, catch) in catches.iter().enumerate() {
            let row = format!("repeats/{j}/catches/{i}");
            add(format!("{row}/label"), plain(catch.get("label")));
            add(format!("{row}/runs"), plain(catch.get("runs")));
            add(format!("{row}/tare/value"), measured(catch.get("tare"), mass_unit));
            add(format!("{row}/gross/value"), measured(catch.get("gross"), mass_unit));
        }
    }
    Posted(pairs)
}

/// The unit of the first weight that a sheet can be filled in with.
fn mass_unit(repeats: &[Value], units: Units) -> &'static str {
    let catches = repeats.iter().filter_map(|repeat| repeat.get("catches")?.as_array()).flatten();
    let weights = catches.flat_map(|catch| [catch.get("gross"), catch.get("tare")]).flatten();
    let named = |weight: &Value| {
        let unit = weight.get("unit")?.as_str()?;
        MASS_UNITS.into_iter().find(|known| *known == unit)
    };
    weights.into_iter().find_map(named).unwrap_or(match units {
        Units::Metric => "kg",
        Units::Us => "lb",
    })
}

/// What a repeat counts, as the sheet asks for it.
#[derive(Default)]
struct Counted {
    what: &'static str,
    number: String,
    per: String,
    slip: String,
}

impl Counted {
    fn of(revolutions: Option<&Value>, units: Units) -> Self {
        let part = |name: &str| revolutions.and_then(|sent| sent.get(name));
        let length = |name: &str| measured(part(name), length_unit(units));
        if part("turns").is_some() {
            Self { what: "turns", number: plain(part("turns")), ..Self::default() }
        } else if part("pulses").is_some() || part("pulses_per_rev").is_some() {
            let (number, per) = (plain(part("pulses")), plain(part("pulses_per_rev")));
            Self { what: "pulses", number, per, ..Self::default() }
        } else if part("distance").is_some() || part("circumference").is_some() {
            let slip = plain(part("slip_percent"));
            Self { what: "distance", number: length("distance"), per: length("circumference"), slip }
        } else {
            Self { what: "revolutions", number: plain(revolutions), ..Self::default() }
        }
    }
}

/// A text or a number as it stands.
fn plain(value: Option<&Value>) -> String {
    match value {
        Some(Value::String(text)) => text.clone(),
        Some(Value::Number(number)) => number.to_string(),
        _ => String::new(),
    }
}

/// A quantity in a field that has a unit beside it: with its own unit where that is another.
fn measured(value: Option<&Value>, unit: &str) -> String {
    let part = |name: &str| plain(value.and_then(|value| value.get(name)));
    let (number, own) = (part("value"), part("unit"));
    if own == unit || own.is_empty() && !number.is_empty() {
        return number;
    }
    if !number.is_empty() {
        return format!("{number} {own}");
    }
    let parts = [("lb", part("lb")), ("oz", part("oz"))].into_iter().filter(|(_, number)| !number.is_empty());
    let pounds: Vec<String> = parts.map(|(unit, number)| format!("{number} {unit}")).collect();
    if pounds.is_empty() { plain(value) } else { pounds.join(" ") }
}
