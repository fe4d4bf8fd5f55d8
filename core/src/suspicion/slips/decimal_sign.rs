//! A decimal sign one place off: in all readings, in one repeat, in one reading. Ten times the revolutions look the same
//! as a tenth of the mass, so the sentence names both.

use crate::{
    catch::Repeat,
    suspicion::{
        Cause,
        case::{Case, Slip},
        numbers::{Bag, Turned},
    },
};

type Shift = fn(&mut Bag, f64);

const SHIFTS: [f64; 2] = [10.0, 0.1];

pub(super) fn slips(case: &Case<'_>) -> Vec<Slip> {
    let mut slips = readings(case);
    slips.extend(revolutions(case));
    slips.extend(one_reading(case));
    slips
}

/// Both readings of every catch, or all grosses with honest tares, or all tares.
fn readings(case: &Case<'_>) -> Vec<Slip> {
    let kinds: [(f64, &str, Shift); 3] = [
        (3.0, "in the masses or the revolutions", Bag::scale),
        (2.0, "in the grosses", |bag, by| bag.gross_kg *= by),
        (1.0, "in the tares", |bag, by| bag.tare_kg *= by),
    ];
    let mut slips = Vec::new();
    for (weight, place, shift) in kinds {
        for by in SHIFTS {
            let change = |_: &Repeat, turned: &Turned| {
                let mut turned = turned.clone();
                let before = turned.caught_kg();
                turned.bags.iter_mut().for_each(|bag| shift(bag, by));
                // Shifting a tare of zero changes nothing.
                (turned.caught_kg().to_bits() != before.to_bits()).then_some(turned)
            };
            let look = |at: &str| {
                format!("The decimal sign may be one place off {place}{at}: read the sheet against the scale.")
            };
            slips.extend(case.everywhere_or_once(Cause::DecimalPoint, weight / 2.0, change, look));
        }
    }
    slips
}

fn revolutions(case: &Case<'_>) -> Vec<Slip> {
    let once = |by: f64| {
        let change = |_: &Repeat, turned: &Turned| {
            Some(Turned { revolutions: turned.revolutions * by, step: turned.step * by, ..turned.clone() })
        };
        let look = |at: &str| format!("The decimal sign of the revolutions may be one place off{at}: read it again.");
        case.everywhere_or_once(Cause::DecimalPoint, 0.5, change, look)
    };
    SHIFTS.into_iter().flat_map(once).collect()
}

fn one_reading(case: &Case<'_>) -> Vec<Slip> {
    let readings = 2.0 * case.numbers.bags() as f64;
    let mut slips = Vec::new();
    for (at, position) in case.numbers.farthest_bags() {
        let kinds: [(&str, Shift); 3] = [
            ("gross", |bag, by| bag.gross_kg *= by),
            ("tare", |bag, by| bag.tare_kg *= by),
            ("gross and tare", Bag::scale),
        ];
        for (field, shift) in kinds {
            for by in SHIFTS {
                let mut numbers = case.numbers.clone();
                let Some(bag) = numbers.repeats.get_mut(at).and_then(|repeat| repeat.bags.get_mut(position)) else {
                    continue;
                };
                shift(bag, by);
                let look = format!(
                    "The decimal sign of the {field} of {} in repeat {} may be one place off: read it against the scale.",
                    case.label((at, position)),
                    case.number(at)
                );
                slips.push(case.slip(Cause::DecimalPoint, 4.0 / readings, numbers, look));
            }
        }
    }
    slips
}
