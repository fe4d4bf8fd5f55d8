//! Pounds for kilograms, kilograms for pounds, ounces for tenths of a pound.
//!
//! A hanging scale changes its unit at the touch of a button. The sheet keeps the unit that was entered and the scale's
//! own is on record: where the two differ, that speaks for the slip.

use crate::{
    catch::{Catch, Repeat},
    quantity::{Mass, unit},
    say,
    suspicion::{
        Cause,
        case::{Case, Slip},
        numbers::Turned,
    },
};

pub(super) fn slips(case: &Case<'_>) -> Vec<Slip> {
    let pound = unit::LB.in_si();
    let mut slips = read_in_another_unit(case, Cause::PoundsEnteredAsKilograms, "kg", pound);
    slips.extend(read_in_another_unit(case, Cause::KilogramsEnteredAsPounds, "lb", pound.recip()));
    slips.extend(ounces_as_tenths(case));
    slips
}

fn read_in_another_unit(case: &Case<'_>, cause: Cause, entered_in: &str, by: f64) -> Vec<Slip> {
    let scale_reads_pounds = case.circumstances.scale.as_ref().map(|scale| in_pounds(&scale.readability));
    let weight = match scale_reads_pounds {
        Some(pounds) if pounds == (entered_in == "kg") => 16.0,
        _ => 4.0,
    };
    let key = if entered_in == "kg" { "suspicion-shown-in-pounds" } else { "suspicion-shown-in-kilograms" };
    let change = |entered: &Repeat, turned: &Turned| {
        let all = entered.catches.iter().all(|catch| {
            catch.gross.unit() == entered_in
                && catch.gross.parts().is_none()
                && (catch.tare.is_zero() || catch.tare.unit() == entered_in)
        });
        let mut turned = turned.clone();
        turned.bags.iter_mut().for_each(|bag| bag.scale(by));
        all.then_some(turned)
    };
    let look = |repeat: usize| say!(case.words, key, repeat = repeat);
    case.everywhere_or_once(cause, weight, change, look)
}

fn in_pounds(mass: &Mass) -> bool {
    matches!(mass.unit(), "lb" | "oz")
}

/// "5.8 lb" for 5 lb 8 oz: every reading has tenths that ounces could be, 0 to 9, or hundredths from 00 to 15.
fn ounces_as_tenths(case: &Case<'_>) -> Vec<Slip> {
    let ounce = unit::OZ.in_si();
    let change = |entered: &Repeat, turned: &Turned| {
        let mut without = turned.clone();
        for (bag, catch) in without.bags.iter_mut().zip(&entered.catches) {
            bag.gross_kg = ounces_meant(&catch.gross)?;
            bag.tare_kg = if catch.tare.is_zero() { 0.0 } else { ounces_meant(&catch.tare)? };
            // Two readings, each to the ounce.
            bag.variance = bag.variance.max(ounce * ounce / 6.0);
        }
        Some(without)
    };
    let readings: Vec<_> = case
        .entered
        .iter()
        .flat_map(|(_, repeat)| &repeat.catches)
        .flat_map(|Catch { gross, tare, .. }| [gross, tare])
        .filter(|reading| !reading.is_zero())
        .collect();
    let places = |wanted: u32| {
        readings.iter().filter(|reading| reading.parts().is_none() && reading.value().places() == wanted).count()
    };
    // A scale in pounds shows one number of decimals. Tens of ounces beside single ones mix two, and hundredths that
    // never go beyond 15 are one chance in six for each reading. Other repeats in pounds and ounces say it as clearly.
    let apart = readings.iter().any(|reading| reading.parts().is_some());
    let mixed = if apart || (places(1) > 0 && places(2) > 0) { 3.0 } else { 0.0 };
    let never_beyond = (1.8 * places(2) as f64).min(6.0);
    let scale = case.circumstances.scale.as_ref().map(|scale| scale.readability.unit());
    let weight = if scale == Some("oz") { 15.0 } else { 3.0 };
    let example = case.words.decimal("5.8");
    let look = |repeat: usize| say!(case.words, "suspicion-ounces-as-tenths", repeat = repeat, example = &example);
    let slips = case.everywhere_or_once(Cause::OuncesEnteredAsTenths, weight, change, look);
    slips.into_iter().map(|slip| slip.with_evidence(mixed + never_beyond)).collect()
}

/// What a reading in decimal pounds is in kg, its decimals read as ounces.
fn ounces_meant(reading: &Mass) -> Option<f64> {
    if reading.unit() != "lb" || reading.parts().is_some() || reading.is_negative() {
        return None;
    }
    let (pounds, decimals) = reading.value_text().split_once('.').unwrap_or((reading.value_text(), "0"));
    let ounces = decimals.parse::<u8>().ok().filter(|ounces| *ounces <= 15 && decimals.len() <= 2)?;
    let pounds = pounds.parse::<f64>().ok()?;
    Some(pounds * unit::LB.in_si() + f64::from(ounces) * unit::OZ.in_si())
}
