//! The kept repeats as plain numbers: what a slip changes before the sums are made again.
//!
//! A leaner [`crate::factor::Measured`] that keeps gross and tare apart, because slips happen to readings.

use crate::{
    catch::{MAX_CATCHES, MAX_REPEATS, Sheet},
    circumstances::Circumstances,
    factor::measure,
    statistics::{mean, ratio_of_sums},
};

/// The kept repeats, in the order of the sheet.
#[derive(Clone, Debug)]
pub(super) struct Numbers {
    pub(super) repeats: Vec<Turned>,
}

/// A kept repeat.
#[derive(Clone, Debug)]
pub(super) struct Turned {
    /// Roller revolutions.
    pub(super) revolutions: f64,
    /// The step in which they are known.
    pub(super) step: f64,
    pub(super) bags: Vec<Bag>,
}

/// A catch: one or several runs in a container on the scale.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bag {
    pub(super) gross_kg: f64,
    pub(super) tare_kg: f64,
    pub(super) runs: f64,
    /// Of the net mass, from the rounding of both readings, kg².
    pub(super) variance: f64,
}

impl Bag {
    pub(super) fn net_kg(&self) -> f64 {
        self.gross_kg - self.tare_kg
    }

    /// Both readings in another unit or with another decimal sign.
    pub(super) fn scale(&mut self, by: f64) {
        self.gross_kg *= by;
        self.tare_kg *= by;
        self.variance *= by * by;
    }
}

impl Turned {
    pub(super) fn caught_kg(&self) -> f64 {
        self.bags.iter().map(Bag::net_kg).sum()
    }

    pub(super) fn runs(&self) -> f64 {
        self.bags.iter().map(|bag| bag.runs).sum()
    }

    pub(super) fn run_revolutions(&self) -> f64 {
        self.runs() * self.revolutions
    }

    pub(super) fn factor(&self) -> f64 {
        self.caught_kg() / self.run_revolutions()
    }
}

impl Numbers {
    /// The kept repeats of a checked sheet. Beyond the sheet's own limits nothing is looked at.
    pub(super) fn of(sheet: &Sheet, circumstances: &Circumstances) -> Self {
        let measured = measure(sheet, circumstances);
        let kept = sheet.repeats.iter().zip(&measured.repeats).filter(|(repeat, _)| repeat.set_aside.is_none());
        let turned = kept.take(MAX_REPEATS).map(|(repeat, measured)| Turned {
            revolutions: measured.revolutions,
            step: measured.revolution_step,
            bags: repeat
                .catches
                .iter()
                .zip(&measured.catches)
                .take(MAX_CATCHES)
                .map(|(catch, numbers)| Bag {
                    gross_kg: catch.gross.si(),
                    tare_kg: catch.tare.si(),
                    runs: f64::from(catch.runs),
                    variance: numbers.rounding_variance,
                })
                .collect(),
        });
        Self { repeats: turned.collect() }
    }

    /// Ratio of sums over the repeats that `counts` names.
    pub(super) fn factor(&self, counts: impl Fn(usize) -> bool) -> Option<f64> {
        let counted = || self.repeats.iter().enumerate().filter(|(at, _)| counts(*at)).map(|(_, repeat)| repeat);
        ratio_of_sums(counted().map(Turned::caught_kg), counted().map(Turned::run_revolutions))
    }

    /// The few repeats that are farthest from the middle, farthest first, and the first one.
    pub(super) fn farthest_repeats(&self) -> Vec<usize> {
        let logs: Vec<_> = self.repeats.iter().map(|repeat| repeat.factor().ln()).collect();
        let mut farthest = by_distance(&logs, 3);
        if !farthest.contains(&0) {
            farthest.push(0);
        }
        farthest
    }

    /// The few bags that are farthest from the middle of all bags, as repeat and catch.
    pub(super) fn farthest_bags(&self) -> Vec<(usize, usize)> {
        let mut places = Vec::new();
        let mut logs = Vec::new();
        for (at, repeat) in self.repeats.iter().enumerate() {
            for (position, bag) in repeat.bags.iter().enumerate() {
                places.push((at, position));
                logs.push((bag.net_kg() / bag.runs / repeat.revolutions).ln());
            }
        }
        by_distance(&logs, 5).into_iter().filter_map(|index| places.get(index).copied()).collect()
    }

    /// How many bags there are.
    pub(super) fn bags(&self) -> usize {
        self.repeats.iter().map(|repeat| repeat.bags.len()).sum()
    }

    /// The mean tare of the bags that `counts` picks.
    pub(super) fn mean_tare(&self, counts: impl Fn(&Bag) -> bool) -> Option<f64> {
        let tares: Vec<_> = self
            .repeats
            .iter()
            .flat_map(|repeat| &repeat.bags)
            .filter(|bag| counts(bag))
            .map(|bag| bag.tare_kg)
            .collect();
        mean(&tares)
    }
}

/// The middle of some numbers.
pub(super) fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let upper = sorted.get(sorted.len() / 2)?;
    let lower = sorted.get(sorted.len().saturating_sub(1) / 2)?;
    Some(f64::midpoint(*lower, *upper))
}

/// Indices of the `most` values farthest from the median, farthest first.
fn by_distance(values: &[f64], most: usize) -> Vec<usize> {
    let middle = median(values).unwrap_or(0.0);
    let mut order: Vec<_> = (0..values.len()).collect();
    let distance = |index: &usize| values.get(*index).map_or(0.0, |value| (value - middle).abs());
    order.sort_by(|left, right| distance(right).total_cmp(&distance(left)));
    order.truncate(most);
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    fn turned(revolutions: f64, nets: &[(f64, f64)]) -> Turned {
        let bag = |&(net, runs): &(f64, f64)| Bag { gross_kg: net + 0.2, tare_kg: 0.2, runs, variance: 4e-6 };
        Turned { revolutions, step: 1.0, bags: nets.iter().map(bag).collect() }
    }

    /// Four times the reading has four times the step, and so sixteen times the variance.
    #[test]
    fn a_scaled_bag_has_scaled_readings_and_steps() {
        let mut bag = turned(60.0, &[(1.8, 1.0)]).bags[0];
        bag.scale(4.0);
        assert_eq!((bag.gross_kg, bag.tare_kg, bag.variance), (8.0, 0.8, 64e-6));
    }

    #[test]
    fn the_middle_of_some_numbers() {
        assert_eq!(median(&[]), None);
        assert_eq!(median(&[3.0]), Some(3.0));
        assert_eq!(median(&[8.0, 1.0, 4.0, 2.0]), Some(3.0));
        assert_eq!(median(&[8.0, 1.0, 4.0, 2.0, 16.0, 32.0, 64.0]), Some(8.0));
    }

    /// 0.5, 0.8, 1, 1.1 and 3 times about 30 g a revolution: the first repeat is looked at though it is in the middle.
    #[test]
    fn the_farthest_repeats_and_the_first() {
        let of = |nets: &[f64]| {
            let repeats = nets.iter().map(|net| turned(60.0, &[(*net, 1.0)])).collect();
            Numbers { repeats }.farthest_repeats()
        };
        assert_eq!(of(&[1.8, 0.9, 5.4, 1.98, 1.44]), [2, 1, 4, 0]);
        assert_eq!(of(&[5.4, 0.9, 1.8, 1.98, 1.44]), [0, 1, 4]);
        assert_eq!(of(&[1.8]), [0]);
    }

    /// Mass per run and revolution: two runs catch twice as much, and half the revolutions half.
    #[test]
    fn the_farthest_bags_of_all_repeats() {
        let repeats = vec![
            turned(60.0, &[(1.80, 1.0), (7.80, 4.0), (1.70, 1.0)]),
            turned(20.0, &[(0.60, 1.0), (3.60, 2.0), (0.45, 1.0), (0.61, 1.0)]),
        ];
        // 30, 32.5, 28.3 and 30, 90, 22.5, 30.5 g a revolution; the middle is 30.
        let numbers = Numbers { repeats };
        assert_eq!(numbers.farthest_bags(), [(1, 1), (1, 2), (0, 1), (0, 2), (1, 3)]);
        assert_eq!(numbers.bags(), 7);
    }
}
