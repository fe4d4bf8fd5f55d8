//! Numbers in the sentences of a verdict: always with a unit, with the digits a person can use.

use crate::quantity::{print, print_number, unit};

/// Two digits below ten, three from there: "1.2 %", "12.3 %".
pub(super) fn percent(value: f64) -> String {
    format!("{} %", print_number(value, if value.abs() < 10.0 { 2 } else { 3 }))
}

/// A mass for readers of either system: "0.204 kg (0.450 lb)".
pub(super) fn mass(kg: f64) -> String {
    format!("{} kg ({} lb)", print(kg, unit::KG, 3), print(kg, unit::LB, 3))
}

/// A roller speed: "42.0 1/min".
pub(super) fn rpm(value: f64) -> String {
    format!("{} 1/min", print_number(value, 3))
}

/// "1 repeat", "2 repeats".
pub(super) fn repeats(count: usize) -> String {
    format!("{count} repeat{}", if count == 1 { "" } else { "s" })
}
