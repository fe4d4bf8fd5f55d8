//! Bags weighed in.
//!
//! A tare of zero is no slip by itself: many set the scale to zero with the bag on it. It is one when the bags of the
//! last calibration, or the other bags on the sheet, had a tare.

use crate::{
    say,
    suspicion::{
        Cause,
        case::{Case, Slip},
        numbers::{Bag, Numbers},
    },
};

/// A tare below this share of the usual one is far less.
const FAR_LESS: f64 = 0.5;

pub(super) fn slips(case: &Case<'_>) -> Vec<Slip> {
    let mut slips = against_the_other_bags(case);
    slips.extend(against_the_usual_bag(case));
    slips
}

/// All tares on the sheet are far less than the last calibration's.
fn against_the_usual_bag(case: &Case<'_>) -> Option<Slip> {
    let usual = case.circumstances.clues.usual_tare_kg?;
    let light = |bag: &Bag| bag.tare_kg < FAR_LESS * usual;
    if !case.numbers.repeats.iter().flat_map(|repeat| &repeat.bags).all(light) {
        return None;
    }
    let none = case.numbers.mean_tare(|_| true)? <= 0.0;
    let look = say!(
        case.words,
        "suspicion-bags-of-the-last-calibration",
        tare = if none { "none" } else { "little" },
        usual = case.words.mass(usual)
    );
    // Whoever took tares the last time seldom sets the scale to zero this time.
    let weight = if none { 100.0 } else { 60.0 };
    Some(case.slip(Cause::TareLeftIn, weight, with_tare(&case.numbers, usual, light), look))
}

/// Some tares on the sheet are far less than the others.
fn against_the_other_bags(case: &Case<'_>) -> Vec<Slip> {
    let Some(any) = case.numbers.mean_tare(|bag| bag.tare_kg > 0.0) else { return Vec::new() };
    let Some(usual) = case.numbers.mean_tare(|bag| bag.tare_kg >= FAR_LESS * any) else { return Vec::new() };
    let light = |bag: &Bag| bag.tare_kg < FAR_LESS * usual;
    let places: Vec<_> = case
        .numbers
        .repeats
        .iter()
        .enumerate()
        .flat_map(|(at, repeat)| repeat.bags.iter().enumerate().map(move |(position, bag)| (at, position, bag)))
        .filter(|(_, _, bag)| light(bag))
        .map(|(at, position, _)| (at, position))
        .collect();
    let Some(&(first, position)) = places.first() else { return Vec::new() };
    let numbers = with_tare(&case.numbers, usual, light);
    let words = case.words;
    let bags = words.mass(usual);
    let repeat = case.number(first);
    let mut slips = Vec::new();
    if places.len() == 1 {
        let look = say!(
            words,
            "suspicion-tare-missing",
            catch = words.run(&case.label((first, position))),
            repeat = repeat.to_string(),
            bags = &bags
        );
        slips.push(case.slip(Cause::TareMissing, 60.0, numbers.clone(), look));
    }
    let whole = case.numbers.repeats.get(first).is_some_and(|repeat| repeat.bags.len() == places.len());
    let look = if places.iter().all(|(at, _)| *at == first) {
        say!(words, "suspicion-bags-of-a-repeat", repeat = repeat.to_string(), bags = &bags)
    } else {
        say!(words, "suspicion-some-bags", count = places.len(), bags = &bags)
    };
    // One catch alone is the other slip, unless it is a whole repeat.
    let weight = if places.len() == 1 && !whole { 2.0 } else { 20.0 };
    slips.push(case.slip(Cause::TareLeftIn, weight, numbers, look));
    slips
}

fn with_tare(numbers: &Numbers, tare_kg: f64, light: impl Fn(&Bag) -> bool) -> Numbers {
    let mut numbers = numbers.clone();
    for bag in numbers.repeats.iter_mut().flat_map(|repeat| &mut repeat.bags).filter(|bag| light(bag)) {
        bag.tare_kg = tare_kg;
    }
    numbers
}
