//! A decimal sign one place off: in all readings, in one repeat, in one reading. Ten times the revolutions look the same
//! as a tenth of the mass, so the sentence names both.

use crate::{
    catch::Repeat,
    say,
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
        (3.0, "suspicion-decimal-sign", Bag::scale),
        (2.0, "suspicion-decimal-sign-of-the-grosses", |bag, by| bag.gross_kg *= by),
        (1.0, "suspicion-decimal-sign-of-the-tares", |bag, by| bag.tare_kg *= by),
    ];
    let mut slips = Vec::new();
    for (weight, key, shift) in kinds {
        for by in SHIFTS {
            let change = |_: &Repeat, turned: &Turned| {
                let mut turned = turned.clone();
                let before = turned.caught_kg();
                turned.bags.iter_mut().for_each(|bag| shift(bag, by));
                // Shifting a tare of zero changes nothing.
                (turned.caught_kg().to_bits() != before.to_bits()).then_some(turned)
            };
            let look = |repeat: usize| say!(case.words, key, repeat = repeat);
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
        let look = |repeat: usize| say!(case.words, "suspicion-decimal-sign-of-the-revolutions", repeat = repeat);
        case.everywhere_or_once(Cause::DecimalPoint, 0.5, change, look)
    };
    SHIFTS.into_iter().flat_map(once).collect()
}

fn one_reading(case: &Case<'_>) -> Vec<Slip> {
    let readings = 2.0 * case.numbers.bags() as f64;
    let mut slips = Vec::new();
    for (at, position) in case.numbers.farthest_bags() {
        let kinds: [(&str, Shift); 3] =
            [("gross", |bag, by| bag.gross_kg *= by), ("tare", |bag, by| bag.tare_kg *= by), ("both", Bag::scale)];
        for (field, shift) in kinds {
            for by in SHIFTS {
                let mut numbers = case.numbers.clone();
                let Some(bag) = numbers.repeats.get_mut(at).and_then(|repeat| repeat.bags.get_mut(position)) else {
                    continue;
                };
                shift(bag, by);
                let look = say!(
                    case.words,
                    "suspicion-decimal-sign-of-a-reading",
                    reading = field,
                    catch = case.words.run(&case.label((at, position))),
                    repeat = case.number(at).to_string()
                );
                slips.push(case.slip(Cause::DecimalPoint, 4.0 / readings, numbers, look));
            }
        }
    }
    slips
}
