//! Catch sheets: what a scale shows of seed that a meter of known truth turns out, and the slips that people make with it.

use super::fleet::{Scale, Shows, Unit};
use super::script::quantity;
use crate::clock::Chance;
use serde_json::{Value, json};

/// kg.
const POUND: f64 = 0.453_592_37;
const OUNCE: f64 = POUND / 16.0;

/// What goes wrong with a catch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Slip {
    None,
    /// The bags are weighed in.
    TareLeft,
    /// This bag's run is all but plugged.
    Plugged(u32),
    /// 5 lb 8 oz is typed as 5.8 lb.
    OuncesAsTenths,
    /// Half the revolutions are typed.
    RevolutionsHalved,
    /// A pound scale's reading is typed as kilograms.
    PoundsAsKilograms,
    /// Some of the last repeat is spilt, and it counts all the same.
    Spilt,
    /// Some of the last repeat is spilt, and it is set aside.
    SetAside,
    /// Only the repeats that must be.
    TwoRepeats,
}

/// What is caught: kg per revolution and run in truth, so many revolutions for each repeat, of seed this fine.
pub(super) struct Caught {
    pub(super) factor: f64,
    pub(super) is_small: bool,
    pub(super) runs_in_use: u32,
}

/// A sheet's repeats, and the factor that an honest reading of them gives, kg per revolution and run.
pub(super) struct Sheet {
    pub(super) repeats: Value,
    pub(super) factor: f64,
}

/// Bell-shaped scatter around nothing: the sum of four even draws.
pub(super) fn scatter(chance: &Chance, standard_deviation: f64) -> f64 {
    let sum: f64 = (0..4).map(|_| chance.share()).sum();
    (sum - 2.0) * 3.0_f64.sqrt() * standard_deviation
}

/// Catches with a unit's usual bags. `revolutions` says how a number of roller revolutions is noted down.
pub(super) fn sheet(
    unit: &Unit,
    scale: &Scale,
    caught: &Caught,
    slip: Slip,
    chance: &Chance,
    revolutions: impl Fn(f64) -> Value,
) -> Sheet {
    let turns = turns(unit, scale, caught, slip);
    let (mut net, mut turned, mut repeats) = (0.0, 0.0, Vec::new());
    let count = if slip == Slip::TwoRepeats { 2 } else { 3 };
    for repeat in 0..count {
        let is_last = repeat + 1 == count;
        let is_set_aside = is_last && slip == Slip::SetAside;
        let spilt = if is_last && matches!(slip, Slip::Spilt | Slip::SetAside) { 0.9 } else { 1.0 };
        let of_repeat = caught.factor * turns * spilt * (1.0 + scatter(chance, 0.004));
        let mut catches = Vec::new();
        for bag in 0..unit.bags {
            // A run that delivers a little more or less than its neighbours always does.
            let run = scatter(&Chance::of(&format!("{}/{bag}", unit.key)), 0.009);
            let plugged = if slip == Slip::Plugged(bag) { 0.12 } else { 1.0 };
            let seed = of_repeat * f64::from(unit.runs_in_bag) * plugged * (1.0 + run + scatter(chance, 0.004));
            let tare = bag_kg(unit, scale, caught.is_small) * (1.0 + scatter(chance, 0.01));
            let (tare, gross) = (scale.reads(tare), scale.reads(tare + seed));
            if !is_set_aside {
                net += gross - tare;
                turned += turns * f64::from(unit.runs_in_bag);
            }
            let (tare, gross) = typed(scale, slip, tare, gross);
            catches.push(json!({ "label": label(unit, caught.runs_in_use, bag), "runs": unit.runs_in_bag,
                "tare": tare, "gross": gross }));
        }
        let noted = if slip == Slip::RevolutionsHalved { turns / 2.0 } else { turns };
        let mut sent = json!({ "revolutions": revolutions(noted), "catches": catches });
        if is_set_aside {
            sent["set_aside"] = json!("A bag slipped off its hook.");
        }
        repeats.push(sent);
    }
    Sheet { repeats: Value::Array(repeats), factor: net / turned }
}

/// Revolutions for a catch that is heavy enough; where ounces are to go wrong, for one just about full pounds.
fn turns(unit: &Unit, scale: &Scale, caught: &Caught, slip: Slip) -> f64 {
    let per_turn = caught.factor * f64::from(unit.runs_in_bag);
    if slip == Slip::OuncesAsTenths {
        return (5.97 * POUND / per_turn).round();
    }
    let wanted = match (caught.is_small, scale.shows) {
        (true, _) => 0.28,
        (false, Shows::Grams(_)) => 1.35,
        (false, Shows::PoundsAndOunces) => 2.4,
    };
    (wanted / per_turn / 10.0).ceil() * 10.0
}

fn bag_kg(unit: &Unit, scale: &Scale, is_small: bool) -> f64 {
    match (scale.shows, unit.runs_in_bag, is_small) {
        // The bag is hung on first and the scale set to zero.
        (Shows::PoundsAndOunces, ..) => 0.0,
        (_, 1, true) => 0.046,
        (_, 1, false) => 0.325,
        (_, _, true) => 0.210,
        _ => 1.180,
    }
}

fn label(unit: &Unit, runs_in_use: u32, bag: u32) -> String {
    let first = 1 + bag * (runs_in_use / unit.bags);
    if unit.runs_in_bag == 1 {
        format!("run {first}")
    } else {
        format!("runs {first} to {}", first + unit.runs_in_bag - 1)
    }
}

impl Scale {
    /// The nearest that it can show, kg.
    fn reads(&self, kg: f64) -> f64 {
        let step = match self.shows {
            Shows::Grams(step) => f64::from(step) / 1000.0,
            Shows::PoundsAndOunces => OUNCE,
        };
        (kg / step).round() * step
    }
}

/// Tare and gross as they are typed.
fn typed(scale: &Scale, slip: Slip, tare: f64, gross: f64) -> (Value, Value) {
    let shown = |kg: f64| match (scale.shows, slip) {
        (Shows::Grams(_), Slip::PoundsAsKilograms) => quantity(format!("{:.3}", kg / POUND), "kg"),
        (Shows::Grams(_), _) => quantity(format!("{kg:.3}"), "kg"),
        (Shows::PoundsAndOunces, _) => pounds(kg, slip == Slip::OuncesAsTenths),
    };
    let nothing = || quantity("0", if scale.shows == Shows::PoundsAndOunces { "lb" } else { "kg" });
    let tare = if slip == Slip::TareLeft || tare == 0.0 { nothing() } else { shown(tare) };
    (tare, shown(gross))
}

fn pounds(kg: f64, as_tenths: bool) -> Value {
    let ounces = (kg / OUNCE).round();
    let (pounds, ounces) = ((ounces / 16.0).floor(), ounces % 16.0);
    if as_tenths {
        return quantity(format!("{pounds}.{ounces}"), "lb");
    }
    json!({ "lb": pounds.to_string(), "oz": ounces.to_string() })
}
