//! Whatever the order in which records arrive, and whatever comes later: what holds for all of them.

use std::collections::HashMap;

use jiff::SignedDuration;
use proptest::{prelude::*, strategy::ValueTree, test_runner::TestRunner};
use sowmark_core::{
    moment::Dated,
    readiness::{Past, Readiness, Standing, State, Trigger, readiness, tank_at},
};

use crate::{
    fleet::Fleet,
    oracle::{self, Answer},
    random::{HOURS, fleets, hour},
};

/// Puts every list of records in another order, which `seed` decides.
fn shuffled(fleet: &Fleet, seed: u128) -> Fleet {
    fn shuffle<T>(records: &mut [Dated<T>], seed: u128) {
        records.sort_by_key(|record| record.moment.id.as_u128().wrapping_mul(seed | 1) % 1009);
    }
    let mut fleet = fleet.clone();
    let history = &mut fleet.history;
    shuffle(&mut history.laid_up, seed);
    shuffle(&mut history.configurations, seed);
    shuffle(&mut history.setups, seed);
    shuffle(&mut history.services, seed);
    shuffle(&mut history.fills, seed);
    shuffle(&mut history.emptyings, seed);
    shuffle(&mut history.calibrations, seed);
    shuffle(&mut history.jobs, seed);
    shuffle(&mut history.waivers, seed);
    shuffle(&mut fleet.around.policies, seed);
    fleet.around.seasons.sort_by_key(|season| season.id.0.as_u128().wrapping_mul(seed | 1) % 1009);
    fleet.around.lots.values_mut().for_each(|lot| shuffle(&mut lot.tests, seed));
    fleet.around.scales.values_mut().for_each(|scale| shuffle(&mut scale.checks, seed));
    fleet
}

fn summary(now: &Readiness) -> Answer {
    let row = |due: &sowmark_core::readiness::Due| {
        (due.trigger, due.since, due.cause.kind, due.cause.id, due.waived.is_some())
    };
    Answer {
        state: now.state,
        lot: now.lot,
        in_force: now.in_force.map(|factor| (factor.calibration.0, factor.recalled)),
        compared_with: now.compared_with.map(|calibration| calibration.0),
        due: now.due.iter().map(row).collect(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(96) })]

    /// Asked of many moments at once it says what it says of each alone: before every record, between them, after its end.
    #[test]
    fn a_past_says_of_each_moment_what_is_said_of_it_alone(
        mut fleet in fleets(), is_bare in any::<bool>(), until in 0..HOURS + 6,
    ) {
        if is_bare {
            // Then the first configuration, if there is one, comes among the other records.
            fleet.history.configurations.retain(|configuration| configuration.moment.occurred_at >= hour(0));
        }
        let past = Past::new(&fleet.history, &fleet.around, hour(until));
        for half in -10..=2 * (HOURS + 12) {
            let at = hour(0) + SignedDuration::from_mins(30 * half);
            prop_assert_eq!(past.at(at), readiness(&fleet.history, &fleet.around, at), "{}", at);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(1000) })]

    #[test]
    fn it_agrees_with_the_plain_reading_of_the_rules(fleet in fleets(), when in 0..HOURS + 30) {
        let at = hour(when);
        prop_assert_eq!(summary(&readiness(&fleet.history, &fleet.around, at)), oracle::answer(&fleet, at));
    }

    #[test]
    fn the_order_of_arrival_does_not_matter(fleet in fleets(), when in 0..HOURS + 30, seed in any::<u128>()) {
        let other = shuffled(&fleet, seed);
        let at = hour(when);
        let now = readiness(&fleet.history, &fleet.around, at);
        prop_assert_eq!(&now, &readiness(&other.history, &other.around, at));
    }

    #[test]
    fn a_past_moment_ignores_what_happened_after_it(fleet in fleets(), when in 0..HOURS) {
        let at = hour(when);
        let then = oracle::until(&fleet, at);
        let now = readiness(&fleet.history, &fleet.around, at);
        prop_assert_eq!(&now, &readiness(&then.history, &then.around, at));
    }

    #[test]
    fn a_factor_is_the_units_own_and_accepted_and_due_triggers_are_in_order(fleet in fleets(), when in 0..HOURS + 30) {
        let at = hour(when);
        let now = readiness(&fleet.history, &fleet.around, at);
        if let Some(factor) = now.in_force {
            let own = fleet.history.calibrations.iter().find(|own| own.moment.id == factor.calibration.0);
            let own = own.expect("the unit's own calibration");
            prop_assert_eq!(own.what.standing, Standing::Accepted);
            prop_assert!(own.moment.occurred_at <= at);
            prop_assert_eq!(own.what.factor.to_bits(), factor.factor.to_bits());
            prop_assert!(!matches!(now.state, State::Empty | State::Calibrate));
        }
        prop_assert!(now.due.is_sorted_by(|a, b| a.trigger < b.trigger));
        for due in &now.due {
            prop_assert_eq!(due.detail.trigger(), due.trigger);
            prop_assert!(due.since <= at || due.trigger == Trigger::NeverCalibrated);
        }
        let tank = tank_at(&fleet.history, at);
        prop_assert!(!tank.mixed_with.iter().any(|lot| Some(*lot) == tank.lot));
        prop_assert_eq!((tank.lot, tank.mixed_with), (now.lot, now.mixed_with));
    }
}

/// The properties above would hold of nothing at all, so the random records must reach every trigger and every state.
#[test]
fn the_random_records_reach_every_trigger_and_every_state() {
    let mut runner = TestRunner::deterministic();
    let mut triggers: HashMap<Trigger, u32> = HashMap::new();
    let mut states: HashMap<State, u32> = HashMap::new();
    let (mut recalled, mut waived) = (0, 0);
    for _ in 0..2000 {
        let fleet = fleets().new_tree(&mut runner).expect("a fleet").current();
        let now = readiness(&fleet.history, &fleet.around, hour(HOURS + 12));
        *states.entry(now.state).or_default() += 1;
        recalled += u32::from(now.in_force.is_some_and(|factor| factor.recalled));
        for due in &now.due {
            *triggers.entry(due.trigger).or_default() += 1;
            waived += u32::from(due.waived.is_some());
        }
    }
    assert!(Trigger::ALL.iter().all(|trigger| triggers.contains_key(trigger)), "{triggers:?}");
    assert_eq!(states.len(), 5, "{states:?}");
    assert!(recalled > 0 && waived > 0);
}
