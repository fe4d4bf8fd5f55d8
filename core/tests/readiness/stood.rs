//! What stood and what ended it: timelines worked by hand from the rules, and random ones held against the oracle.

use jiff::{SignedDuration, Timestamp};
use proptest::prelude::*;
use sowmark_core::{
    basis::Setup,
    readiness::{
        Answer, CalibrationFacts, Detail, Stood,
        Trigger::{
            self, ComponentReplaced, ConfigurationChanged, Interval, LotChanged, NewSeason, RollerChanged,
            ScaleUnchecked, SeedWeightChanged,
        },
        stood,
    },
};
use uuid::Uuid;

use crate::{
    fleet::{Fleet, OTHER_WHEAT, WHEAT, at, caught, roller, setup, sown},
    oracle,
    random::{HOURS, fleets, hour},
};

/// Trigger, calibration, since, last seen, and when and by what it ended.
type Told = (Trigger, Option<Uuid>, Timestamp, Timestamp, Option<(Timestamp, Answer)>);

fn told(stood: &Stood) -> Told {
    let end = stood.end.as_ref().map(|end| (end.at, end.answer.clone()));
    (stood.due.trigger, stood.compared_with.map(|id| id.0), stood.since, stood.seen, end)
}

fn between(fleet: &Fleet, from: &str, until: &str) -> Vec<Told> {
    stood(&fleet.history, &fleet.around, Some(at(from)), at(until)).iter().map(told).collect()
}

/// The last microsecond before a minute.
fn before(minute: &str) -> Timestamp {
    at(minute) - SignedDuration::from_micros(1)
}

fn with_roller(number: u128) -> Setup {
    Setup { roller: roller(number), ..setup() }
}

#[test]
fn an_earlier_number_that_fits_again_is_recalled_and_not_caught() {
    let (mut fleet, first) = Fleet::caught_with_wheat();
    fleet.setup("04-07 08:00", with_roller(2));
    let second = fleet.calibration("04-07 12:00", caught(WHEAT));
    fleet.setup("04-08 08:00", with_roller(3));
    fleet.setup("04-09 08:00", setup());
    let caught = Some((at("04-07 12:00"), Answer::Caught(second.into())));
    let recalled = Some((at("04-09 08:00"), Answer::Recalled(first.into())));
    assert_eq!(
        between(&fleet, "04-07 00:00", "04-10 00:00"),
        [
            (RollerChanged, Some(first), at("04-07 08:00"), before("04-07 12:00"), caught),
            (RollerChanged, Some(second), at("04-08 08:00"), before("04-09 08:00"), recalled),
        ]
    );
}

/// Each changed at 8 and changed back at 10, with nothing else recorded: found only if records of this kind are moments. What
/// can only begin a trigger (a service, a season, a scale's failed check) is not among them.
#[test]
fn every_kind_of_record_that_takes_back_what_it_began_ends_it() {
    type Change = fn(&mut Fleet, &'static str, bool);
    let cases: [(&str, Trigger, Change); 6] = [
        ("setup", RollerChanged, |fleet, when, there| {
            fleet.setup(when, with_roller(if there { 2 } else { 1 }));
        }),
        ("configuration", ConfigurationChanged, |fleet, when, there| {
            fleet.configuration(when, if there { 8.0 } else { 6.0 }, 0.125);
        }),
        ("fill", LotChanged, |fleet, when, there| {
            fleet.fill(when, if there { OTHER_WHEAT } else { WHEAT });
        }),
        ("job", LotChanged, |fleet, when, there| {
            fleet.job(when, sown(if there { OTHER_WHEAT } else { WHEAT }));
        }),
        ("lot's test", SeedWeightChanged, |fleet, when, there| {
            fleet.lot_test(when, WHEAT, Some(if there { 850.0 } else { 780.0 }), None);
        }),
        ("policy", Interval, |fleet, when, there| {
            fleet.policy(when, |policy| policy.interval_days = there.then_some(1.0));
        }),
    ];
    for (kind, trigger, change) in cases {
        let (mut fleet, calibration) = Fleet::caught_with_wheat();
        fleet.lot_test("04-05 08:00", WHEAT, Some(780.0), None);
        change(&mut fleet, "04-08 08:00", true);
        change(&mut fleet, "04-08 10:00", false);
        let all = between(&fleet, "04-08 00:00", "04-10 00:00");
        // Of the interval, too: the day after the catch of the 6th was over before, but no limit stood then.
        let since = at("04-08 08:00");
        let end = Some((at("04-08 10:00"), Answer::Gone));
        assert_eq!(all, [(trigger, Some(calibration), since, before("04-08 10:00"), end)], "{kind}");
        let within = between(&fleet, "04-08 00:00", "04-08 09:00");
        assert_eq!(within, [(trigger, Some(calibration), since, at("04-08 09:00"), None)], "{kind}, still there");
    }
}

#[test]
fn a_season_stands_from_its_midnight_until_the_next_catch() {
    let (mut fleet, first) = Fleet::caught_with_wheat();
    fleet.season("2027-04-20", None);
    // Until the very midnight: nothing is recorded on that day.
    let stands = (NewSeason, Some(first), at("04-20 00:00"), at("04-20 00:00"), None);
    assert_eq!(between(&fleet, "04-10 00:00", "04-20 00:00"), [stands]);
    assert_eq!(between(&fleet, "04-10 00:00", "04-19 23:59"), []);
    let again = fleet.calibration("04-21 08:00", caught(WHEAT));
    let end = Some((at("04-21 08:00"), Answer::Caught(again.into())));
    assert_eq!(
        between(&fleet, "04-10 00:00", "04-22 00:00"),
        [(NewSeason, Some(first), at("04-20 00:00"), before("04-21 08:00"), end)]
    );
}

/// A service or a season can only begin a reason, yet by it another ends: a doubt of a recalled number's scale, when that number
/// is no longer what the unit is compared with. It ends at that moment and not at the next record, and no number was recalled: the
/// newest fits no better.
#[test]
fn a_doubt_of_a_recalled_number_ends_when_that_number_no_longer_fits() {
    type Change = fn(&mut Fleet);
    let cases: [(Trigger, &str, Change); 2] = [
        (ComponentReplaced, "04-09 08:00", |fleet| {
            fleet.service("04-09 08:00", true);
        }),
        (NewSeason, "04-09 00:00", |fleet| {
            fleet.season("2027-04-09", None);
        }),
    ];
    for (trigger, when, change) in cases {
        let (mut fleet, first) = Fleet::caught_with_wheat();
        fleet.history.calibrations[0].what.scale = None;
        fleet.setup("04-07 08:00", with_roller(2));
        let second = fleet.calibration("04-07 12:00", caught(WHEAT));
        fleet.setup("04-08 08:00", setup());
        change(&mut fleet);
        let all = between(&fleet, "04-08 09:00", "04-10 00:00");
        let all: Vec<_> =
            all.into_iter().map(|(trigger, against, since, _, end)| (trigger, against, since, end)).collect();
        let mut expected = [
            (ScaleUnchecked, Some(first), at("04-06 08:00"), Some((at(when), Answer::Gone))),
            // The roller is out since the 8th; until now the first number was true with it.
            (RollerChanged, Some(second), at(when), None),
            (trigger, Some(second), at(when), None),
        ];
        expected.sort_by_key(|(trigger, _, since, _)| (*since, *trigger));
        assert_eq!(all, expected);
    }
}

/// Without a fill the lot is known from the catch alone; its tests are moments all the same.
#[test]
fn tests_of_a_lot_that_was_never_filled_count() {
    let (mut fleet, first) = Fleet::caught_with_wheat();
    fleet.history.fills.clear();
    fleet.lot_test("04-05 08:00", WHEAT, Some(780.0), None);
    fleet.lot_test("04-08 08:00", WHEAT, Some(850.0), None);
    fleet.lot_test("04-08 10:00", WHEAT, Some(780.0), None);
    let end = Some((at("04-08 10:00"), Answer::Gone));
    assert_eq!(
        between(&fleet, "04-08 00:00", "04-10 00:00"),
        [(SeedWeightChanged, Some(first), at("04-08 08:00"), before("04-08 10:00"), end)]
    );
}

#[test]
fn a_reason_that_stands_is_told_once_as_it_was_last_due_with_the_lot_of_then() {
    let (mut fleet, _) = Fleet::caught_with_wheat();
    fleet.setup("04-07 08:00", with_roller(2));
    fleet.fill("04-08 08:00", OTHER_WHEAT);
    let all = stood(&fleet.history, &fleet.around, Some(at("04-07 00:00")), at("04-09 00:00"));
    assert_eq!(all.iter().map(|stood| stood.due.trigger).collect::<Vec<_>>(), [RollerChanged, LotChanged]);
    assert!(all.iter().all(|stood| stood.lot == Some(OTHER_WHEAT) && stood.end.is_none()), "{all:?}");
    let then = stood(&fleet.history, &fleet.around, Some(at("04-07 00:00")), at("04-08 07:59"));
    assert_eq!(then.iter().map(|stood| stood.lot).collect::<Vec<_>>(), [Some(WHEAT)]);
    // Two services are one reason, and both are told.
    fleet.service("04-08 09:00", true);
    fleet.service("04-08 10:00", true);
    let all = stood(&fleet.history, &fleet.around, Some(at("04-07 00:00")), at("04-09 00:00"));
    let replaced: Vec<_> = all.iter().filter(|stood| stood.due.trigger == ComponentReplaced).collect();
    assert_eq!((replaced.len(), &replaced[0].due.detail), (1, &Detail::ComponentReplaced { services: 2 }));
    // A time that would begin after its end is that end alone.
    let end = at("04-07 09:00");
    assert!(
        matches!(&between(&fleet, "04-12 00:00", "04-07 09:00")[..], [(RollerChanged, _, _, seen, None)] if *seen == end)
    );
}

#[test]
fn a_catch_with_an_unchecked_scale_ends_what_stood_and_begins_a_doubt_of_its_own() {
    let (mut fleet, first) = Fleet::caught_with_wheat();
    fleet.service("04-07 08:00", true);
    let second = fleet.calibration("04-07 12:00", CalibrationFacts { scale: None, ..caught(WHEAT) });
    let end = Some((at("04-07 12:00"), Answer::Caught(second.into())));
    assert_eq!(
        between(&fleet, "04-07 00:00", "04-08 00:00"),
        [
            (ComponentReplaced, Some(first), at("04-07 08:00"), before("04-07 12:00"), end),
            (ScaleUnchecked, Some(second), at("04-07 12:00"), at("04-08 00:00"), None),
        ]
    );
}

/// The trigger and calibration of all that is due and was not let pass, by the second reading of the rules.
fn due(fleet: &Fleet, at: Timestamp) -> Vec<(Trigger, Option<Uuid>)> {
    let now = oracle::answer(fleet, at);
    now.due.iter().filter(|row| !row.4).map(|row| (row.0, now.compared_with)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(32) })]

    /// What is due at any time is told as standing then, and nothing is told that was not due when it was last seen, or still
    /// was when it is said to have ended.
    #[test]
    fn all_that_was_due_is_told_and_nothing_else(fleet in fleets(), from in 0..HOURS) {
        let (first, until) = (hour(from), hour(HOURS + 30));
        let all = stood(&fleet.history, &fleet.around, Some(first), until);
        let key = |stood: &Stood| (stood.due.trigger, stood.compared_with.map(|id| id.0));
        for half in 0..=2 * (HOURS + 30 - from) {
            let at = first + SignedDuration::from_mins(30 * half);
            for due in due(&fleet, at) {
                let is_told = |stood: &&Stood| {
                    key(stood) == due && stood.since <= at && stood.end.as_ref().is_none_or(|end| at < end.at)
                };
                prop_assert!(all.iter().any(|stood| is_told(&stood)), "{due:?} at {at} is not told: {all:#?}");
            }
        }
        for stood in &all {
            prop_assert!(first <= stood.seen && stood.seen <= until, "{stood:?}");
            prop_assert!(due(&fleet, stood.seen).contains(&key(stood)), "was not due when last seen: {stood:?}");
            if let Some(end) = &stood.end {
                prop_assert!(!due(&fleet, end.at).contains(&key(stood)), "has not ended: {stood:?}");
            } else {
                prop_assert_eq!(stood.seen, until);
            }
        }
        prop_assert!(all.is_sorted_by_key(|stood| stood.since));
    }
}
