//! A store and two tanks, simulated in whole grams: the balances must find what the simulation knows.

use proptest::prelude::*;
use sowmark_core::{
    ids::LotId,
    moment::Dated,
    policy::Policy,
    readiness::SeedUsedBasis,
    usage::{Flow, LotBalance, Moved, Period, TankFlow, tank_spans},
};
use uuid::Uuid;

use crate::{hour, record};

const LOT: LotId = LotId(Uuid::from_u128(24));
const TANKS: usize = 2;
const GRAM: f64 = 0.001;

/// What is there, in grams, and every record of how it came to be so.
#[derive(Debug, Default)]
struct Farm {
    store: i64,
    tanks: [i64; TANKS],
    /// Spilt in each tank's present span, which no record tells.
    spilt: [i64; TANKS],
    /// Spilt in the spans that have ended.
    ended: [Vec<i64>; TANKS],
    /// Stolen from the store since the beginning, which only a count can show.
    stolen: i64,
    unaccounted: Option<i64>,
    of_lot: Vec<Dated<Moved>>,
    of_tanks: [Vec<Dated<(LotId, TankFlow)>>; TANKS],
}

/// A share of what there is.
fn part(of: i64, tenths: i64) -> i64 {
    of * tenths / 10
}

fn kg(grams: i64) -> f64 {
    grams as f64 * GRAM
}

impl Farm {
    fn log(&mut self, hours: i64, flow: Flow, grams: i64) {
        let id = self.of_lot.len();
        self.of_lot.push(record(hours, id, Moved { flow, kg: Some(kg(grams)) }));
    }

    fn log_tank(&mut self, hours: i64, tank: usize, flow: TankFlow) {
        let id = self.of_tanks[tank].len();
        self.of_tanks[tank].push(record(hours, id, (LOT, flow)));
    }

    /// One more thing happens: which, how many tenths of what is there, and a mass for what comes from outside.
    fn happens(&mut self, hours: i64, (which, tenths, mass): (u8, i64, i64)) {
        let tank = usize::from(which) % TANKS;
        match which {
            0 | 1 => {
                self.store += mass;
                self.log(hours, Flow::Received, mass);
            }
            2..=4 => {
                let grams = part(self.store, tenths);
                self.store -= grams;
                self.tanks[tank] += grams;
                self.log(hours, Flow::Filled, grams);
                self.log_tank(hours, tank, TankFlow::Filled(Some(kg(grams))));
            }
            5..=7 => {
                let grams = part(self.tanks[tank], tenths);
                self.tanks[tank] -= grams;
                let basis = [SeedUsedBasis::Weighed, SeedUsedBasis::Bags, SeedUsedBasis::MachineTotal];
                self.log_tank(hours, tank, TankFlow::Sown { kg: kg(grams), basis: basis[usize::from(which) - 5] });
            }
            8 | 9 => self.empty(hours, tank, tenths),
            10 => {
                let grams = part(self.store, tenths);
                self.store -= grams;
                self.log(hours, if mass % 2 == 0 { Flow::Sold } else { Flow::Discarded }, grams);
            }
            11 => {
                self.store += mass;
                self.log(hours, Flow::Returned, mass);
            }
            12 => {
                self.unaccounted = Some(-self.stolen);
                let there = self.store - self.stolen;
                self.log(hours, Flow::Counted, there.max(0));
                if there < 0 {
                    self.unaccounted = Some(-self.store);
                }
            }
            13 => self.stolen += part(self.store - self.stolen, tenths).max(0),
            _ => {
                let grams = part(self.tanks[tank], tenths);
                self.tanks[tank] -= grams;
                self.spilt[tank] += grams;
            }
        }
    }

    fn empty(&mut self, hours: i64, tank: usize, tenths: i64) {
        let to_empty = tenths > 5;
        let grams = if to_empty { self.tanks[tank] } else { part(self.tanks[tank], tenths) };
        self.tanks[tank] -= grams;
        self.store += grams;
        self.log(hours, Flow::Emptied, grams);
        self.log_tank(hours, tank, TankFlow::Emptied { kg: Some(kg(grams)), to_empty });
        if to_empty {
            let spilt = std::mem::take(&mut self.spilt[tank]);
            self.ended[tank].push(spilt);
        }
    }
}

fn farms() -> impl Strategy<Value = (Farm, u64)> {
    let event = (0..15_u8, 0..=10_i64, 0..30_000_000_i64);
    (prop::collection::vec(event, 0..60), any::<u64>()).prop_map(|(events, order)| {
        let mut farm = Farm::default();
        for (hours, event) in events.into_iter().enumerate() {
            farm.happens(i64::try_from(hours).expect("few"), event);
        }
        (farm, order)
    })
}

/// In the order in which phones happened to send them.
fn arrived<T: Clone>(records: &[T], order: u64) -> Vec<T> {
    let mut late: Vec<(u64, T)> = records
        .iter()
        .enumerate()
        .map(|(at, record)| ((at as u64 + 1).wrapping_mul(order | 1).rotate_left(29), record.clone()))
        .collect();
    late.sort_by_key(|(key, _)| *key);
    late.into_iter().map(|(_, record)| record).collect()
}

fn is(found: f64, grams: i64) -> bool {
    (found - kg(grams)).abs() < GRAM / 2.0
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10_000, ..ProptestConfig::default() })]

    #[test]
    fn balances_close_to_the_gram_in_any_order_of_arrival((farm, order) in farms()) {
        let policy = Policy::default();
        let balance = LotBalance::of(&arrived(&farm.of_lot, order), Period::default(), &policy);
        prop_assert!(is(balance.expected_on_hand().kg, farm.store), "{balance:?}, in store {}", farm.store);
        let unaccounted = balance.counted.map(|count| count.unaccounted().kg);
        match (unaccounted, farm.unaccounted) {
            (Some(found), Some(grams)) => prop_assert!(is(found, grams), "{found} for {grams}"),
            (found, known) => prop_assert_eq!(found.is_none(), known.is_none()),
        }
        for tank in 0..TANKS {
            let spans = tank_spans(&arrived(&farm.of_tanks[tank], order), &policy);
            let (ended, open): (Vec<_>, Vec<_>) = spans.iter().partition(|span| span.ended.is_some());
            prop_assert_eq!(ended.len(), farm.ended[tank].len());
            for (span, spilt) in ended.iter().zip(&farm.ended[tank]) {
                prop_assert!(is(span.unaccounted().expect("all was weighed").kg, *spilt));
            }
            let there = farm.tanks[tank] + farm.spilt[tank];
            let left: f64 = open.iter().map(|span| span.left().kg).sum();
            prop_assert!(open.len() <= 1 && is(left, there), "{left} for {there}");
        }
    }

}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_000, ..ProptestConfig::default() })]

    /// A balance of a part begins with what the part before it left.
    #[test]
    fn periods_join_up((farm, order) in farms(), cut in 0..60_i64) {
        let policy = Policy::default();
        let records = arrived(&farm.of_lot, order);
        let all = LotBalance::of(&records, Period::default(), &policy);
        let before = LotBalance::of(&records, Period { from: None, to: Some(hour(cut)) }, &policy);
        let after = LotBalance::of(&records, Period { from: Some(hour(cut)), to: None }, &policy);
        prop_assert!((after.opening.kg - before.expected_on_hand().kg).abs() < GRAM / 2.0);
        let (joined, whole) = (after.expected_on_hand(), all.expected_on_hand());
        prop_assert!((joined.kg - whole.kg).abs() < GRAM / 2.0);
        prop_assert!((joined.uncertainty_kg() - whole.uncertainty_kg()).abs() < 1e-6);
        prop_assert!((before.received.kg + after.received.kg - all.received.kg).abs() < GRAM / 2.0);
        let latest = after.counted.or(before.counted);
        prop_assert_eq!(latest.map(|count| count.at), all.counted.map(|count| count.at));
    }
}

#[test]
fn what_nobody_weighed_is_counted_and_not_guessed() {
    let records = [
        record(0, 0, Moved { flow: Flow::Received, kg: Some(1000.0) }),
        record(1, 1, Moved { flow: Flow::Filled, kg: None }),
    ];
    let balance = LotBalance::of(&records, Period::default(), &Policy::default());
    assert!((balance.expected_on_hand().kg - 1000.0).abs() < 1e-9);
    assert_eq!(balance.unweighed, 1);
    // What nobody weighed before a period is not known in it either.
    let later = LotBalance::of(&records, Period { from: Some(hour(2)), to: None }, &Policy::default());
    assert_eq!((later.unweighed, later.opening.kg), (1, 1000.0));
    let tank = [
        record(0, 0, (LOT, TankFlow::Filled(None))),
        record(1, 1, (LOT, TankFlow::Emptied { kg: Some(20.0), to_empty: true })),
    ];
    let spans = tank_spans(&tank, &Policy::default());
    assert_eq!((spans.len(), spans[0].unweighed, spans[0].unaccounted()), (1, 1, None));
}

#[test]
fn another_lot_on_top_stays_in_the_span_and_is_named() {
    let other = LotId(Uuid::from_u128(25));
    let tank = [
        record(0, 0, (LOT, TankFlow::Filled(Some(300.0)))),
        record(1, 1, (other, TankFlow::Filled(Some(200.0)))),
        record(2, 2, (other, TankFlow::Sown { kg: 450.0, basis: SeedUsedBasis::Bags })),
        record(3, 3, (other, TankFlow::Emptied { kg: Some(40.0), to_empty: true })),
        record(4, 4, (other, TankFlow::Filled(Some(100.0)))),
    ];
    let spans = tank_spans(&tank, &Policy::default());
    assert_eq!(spans.iter().map(|span| span.lots.clone()).collect::<Vec<_>>(), [vec![LOT, other], vec![other]]);
    assert_eq!((spans[0].began, spans[0].ended, spans[1].ended), (Some(hour(0)), Some(hour(3)), None));
    let unaccounted = spans[0].unaccounted().expect("all was weighed");
    // 300 + 200 - 450 - 40; three weighings of ± 10 kg and one bag of 25 kg.
    assert!((unaccounted.kg - 10.0).abs() < 1e-9);
    assert!((unaccounted.uncertainty_kg() - 925.0_f64.sqrt()).abs() < 1e-9);
}
