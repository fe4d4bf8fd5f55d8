//! What each slip changes, how often it is taken to happen and what speaks for it: the rules as they are written beside
//! the slips, on small sheets by hand. Which suspicion comes first of all is tested from outside.

use super::{
    case::{Case, Slip},
    cause::Cause,
    numbers::{Bag, Turned},
    slips,
};
use crate::{
    catch::{Catch, Repeat, Revolutions, Sheet},
    circumstances::{Circumstances, Clues, Expected, OtherRoller, ScaleFacts, ScaleStanding},
    ids::{CalibrationId, RollerId},
    policy::Policy,
    quantity::{Decimal, DriveRatio, Mass},
    words::Words,
};

const POUND: f64 = 0.453_592_37;

fn mass(text: &str) -> Mass {
    Mass::parse_text(text).expect(text)
}

fn counted(revolutions: &str) -> Revolutions {
    Revolutions::Counted(Decimal::parse(revolutions).expect("a decimal"))
}

/// Revolutions; runs, gross and tare of each catch.
type Turn<'a> = (&'a str, &'a [(u32, &'a str, &'a str)]);

fn sheet(repeats: &[Turn<'_>]) -> Sheet {
    let catch =
        |&(runs, gross, tare): &(u32, &str, &str)| Catch { label: None, runs, tare: mass(tare), gross: mass(gross) };
    let repeat = |(revolutions, catches): &Turn<'_>| Repeat {
        revolutions: counted(revolutions),
        catches: catches.iter().map(catch).collect(),
        set_aside: None,
    };
    Sheet { repeats: repeats.iter().map(repeat).collect() }
}

fn known() -> Circumstances {
    Circumstances {
        runs_in_use: 8,
        drive_ratio: DriveRatio::parse("2:1").expect("a ratio"),
        drive_range: None,
        roller_speed_rpm: None,
        planned: None,
        working_width_m: 6.0,
        scale: None,
        thousand_seed_weight_g: None,
        expected: Some(Expected::from_last_calibration(CalibrationId(uuid::Uuid::nil()), 0.030, Some(1.0))),
        policy: Policy::default(),
        clues: Clues::default(),
    }
}

fn weighed_in(step: &str) -> Circumstances {
    let scale =
        ScaleFacts { readability: mass(step), capacity: mass("100 kg"), last_check: ScaleStanding::PassedWithin };
    Circumstances { scale: Some(scale), ..known() }
}

fn of(sheet: &Sheet, circumstances: &Circumstances, cause: Cause) -> Vec<Slip> {
    let case = Case::of(sheet, circumstances, Words::default());
    slips::all(&case).filter(|slip| slip.cause == cause).collect()
}

fn weights(slips: &[Slip]) -> Vec<f64> {
    slips.iter().map(|slip| slip.weight).collect()
}

fn evidence(slips: &[Slip]) -> Vec<f64> {
    slips.iter().map(|slip| slip.evidence).collect()
}

/// One number of each repeat.
fn each(slip: &Slip, number: impl Fn(&Turned) -> f64) -> Vec<f64> {
    slip.numbers.repeats.iter().map(number).collect()
}

/// One number of the only catch of the first repeat, of each slip.
fn of_the_first(slips: &[Slip], number: fn(&Bag) -> f64) -> Vec<f64> {
    slips.iter().map(|slip| number(&slip.numbers.repeats[0].bags[0])).collect()
}

#[track_caller]
fn near(found: &[f64], expected: &[f64]) {
    let apart = |(found, expected): (&f64, &f64)| (found - expected).abs() > 1e-12 * expected.abs().max(1.0);
    assert!(found.len() == expected.len() && !found.iter().zip(expected).any(apart), "{found:?} is not {expected:?}");
}

fn three_alike() -> Sheet {
    let catch: &[_] = &[(1, "1.800 kg", "0 kg")];
    sheet(&[("60", catch), ("60", catch), ("60", catch)])
}

#[test]
fn a_slip_in_one_repeat_is_half_as_likely_and_each_may_be_the_one() {
    let slips = of(&three_alike(), &known(), Cause::HalfOfEachRun);
    near(&weights(&slips), &[4.0, 4.0 / 6.0, 4.0 / 6.0, 4.0 / 6.0]);
    near(&each(&slips[0], Turned::caught_kg), &[3.6, 3.6, 3.6]);
    near(&each(&slips[2], Turned::caught_kg), &[1.8, 3.6, 1.8]);
    assert!(slips[2].look.contains("repeat 2"), "{}", slips[2].look);
    // With one repeat alone, all and one are the same.
    let one = sheet(&[("60", &[(1, "1.800 kg", "0 kg")])]);
    near(&weights(&of(&one, &known(), Cause::HalfOfEachRun)), &[4.0]);
}

#[test]
fn odd_revolutions_speak_for_a_slip_in_counting_and_against_any_other() {
    let odd = sheet(&[
        ("60", &[(1, "1.800 kg", "0 kg")]),
        ("60", &[(1, "1.802 kg", "0 kg")]),
        ("120", &[(1, "1.801 kg", "0 kg")]),
    ]);
    // All; then the third, which is farthest off. What the others turned is no rule for the first two, where one is odd.
    near(&evidence(&of(&odd, &known(), Cause::RevolutionsDoubled)), &[0.0, 2.0, 0.0, 0.0]);
    near(&evidence(&of(&odd, &known(), Cause::HalfOfEachRun)), &[0.0, -1.5, 0.0, 0.0]);
    let even = three_alike();
    near(&evidence(&of(&even, &known(), Cause::RevolutionsDoubled)), &[0.0, -2.0, -2.0, -2.0]);
    near(&evidence(&of(&even, &known(), Cause::HalfOfEachRun)), &[0.0; 4]);
}

#[test]
fn a_repeat_keeps_its_number_when_another_is_set_aside() {
    let mut sheet = three_alike();
    sheet.repeats[0].set_aside = Some("not primed".to_owned());
    let slips = of(&sheet, &known(), Cause::HalfOfEachRun);
    assert!(slips[1].look.contains("repeat 2") && slips[2].look.contains("repeat 3"));
}

#[test]
fn revolutions_are_known_as_finely_as_they_were_counted() {
    let (doubled, halved) = (Cause::RevolutionsDoubled, Cause::RevolutionsHalved);
    let turned = |cause| {
        let slips = of(&three_alike(), &known(), cause);
        (slips[0].numbers.repeats[0].revolutions, slips[0].numbers.repeats[0].step, slips[0].weight)
    };
    assert_eq!((turned(doubled), turned(halved)), ((30.0, 0.5, 3.0), (120.0, 2.0, 3.0)));
    // Told wrongly how many pulses make a revolution, or cranked with a gear.
    let mut sheet = three_alike();
    for by in [
        Revolutions::Turns { turns: Decimal::from(30) },
        Revolutions::Pulses { pulses: Decimal::from(600), pulses_per_rev: Decimal::from(10) },
    ] {
        sheet.repeats[0].revolutions = by;
        near(&weights(&of(&sheet, &known(), doubled)[..1]), &[4.0]);
    }
}

/// 20 turns at 2:1 are 40 revolutions, known to half a one; at 3:1 they are 60. What was counted on the roller stays.
#[test]
fn another_drive_ratio_turns_what_was_counted_ahead_of_it() {
    let mut sheet = three_alike();
    sheet.repeats[0].revolutions = Revolutions::Turns { turns: Decimal::from(20) };
    let mut known = known();
    let names = ["3:1", "2:1", "5:2", "3:1", "7:2"];
    known.clues.other_drive_ratios = names.map(|name| DriveRatio::parse(name).expect(name)).to_vec();
    let slips = of(&sheet, &known, Cause::OtherDriveRatio);
    // Four different ones are about, of which one is on record; last the one on record turned round.
    near(&weights(&slips), &[4.0, 4.0, 4.0, 2.0]);
    let three = slips.iter().find(|slip| slip.look.contains("may be 3:1")).expect("3:1 is about");
    near(&each(three, |repeat| repeat.revolutions), &[60.0, 60.0, 60.0]);
    near(&each(three, |repeat| repeat.step), &[0.75, 1.0, 1.0]);
    near(&each(&slips[3], |repeat| repeat.revolutions), &[10.0, 60.0, 60.0]);
}

/// 48 g a revolution at 2:1 and 30 g expected: it was about 16:5, and of many ratios the five nearest to that are tried.
#[test]
fn of_many_drive_ratios_the_likeliest_are_tried() {
    let mut sheet = sheet(&[("60", &[(1, "1.920 kg", "0 kg")])]);
    sheet.repeats[0].revolutions = Revolutions::Turns { turns: Decimal::from(20) };
    let mut known = known();
    let names = ["1:4", "1:3", "1:2", "10:1", "16:5", "12:1", "3:1", "7:2", "4:1", "5:2"];
    known.clues.other_drive_ratios = names.map(|name| DriveRatio::parse(name).expect(name)).to_vec();
    let slips = of(&sheet, &known, Cause::OtherDriveRatio);
    let tried: Vec<_> = slips.iter().map(|slip| slip.numbers.repeats[0].revolutions).collect();
    near(&tried, &[64.0, 60.0, 70.0, 80.0, 50.0, 10.0]);
}

/// One run is hardly ever miscounted, many easily: half a sheet in a thousand for each run, to four.
#[test]
fn many_runs_are_easily_miscounted() {
    let of_runs = |runs| {
        let slips = of(&sheet(&[("60", &[(runs, "14.400 kg", "0 kg")])]), &known(), Cause::RunsMiscounted);
        slips.iter().map(|slip| (slip.weight, slip.numbers.repeats[0].runs())).collect::<Vec<_>>()
    };
    assert_eq!(of_runs(1), [(0.5, 2.0)], "no catch is of no runs");
    assert_eq!(of_runs(4), [(2.0, 5.0), (2.0, 3.0)]);
    assert_eq!(of_runs(8), [(4.0, 7.0)], "no ninth run is in use");
    let more = of(&sheet(&[("60", &[(4, "7.200 kg", "0 kg")])]), &known(), Cause::RunsMiscounted);
    assert!(more[0].look.starts_with("One run more than entered"), "{}", more[0].look);
    assert!(more[1].look.starts_with("One run fewer than entered"), "{}", more[1].look);
    // Of unlike catches the smallest says how easily.
    let unlike = sheet(&[("60", &[(2, "3.600 kg", "0 kg"), (3, "5.400 kg", "0 kg")])]);
    near(&weights(&of(&unlike, &known(), Cause::RunsMiscounted)[..1]), &[1.0]);
}

#[test]
fn one_catch_alone_may_be_miscounted() {
    let two = sheet(&[("60", &[(2, "3.600 kg", "0 kg"), (5, "9.300 kg", "0 kg")])]);
    let slips: Vec<_> = of(&two, &known(), Cause::RunsMiscounted);
    let runs = |slip: &Slip| slip.numbers.repeats[0].bags.iter().map(|bag| bag.runs).collect::<Vec<_>>();
    let mut found: Vec<_> = slips.iter().map(|slip| (runs(slip), slip.weight)).collect();
    // One run more is tried before one fewer.
    assert!(found[..2].iter().all(|(runs, _)| runs.iter().sum::<f64>() > 7.0), "{found:?}");
    found.sort_by(|left, right| left.partial_cmp(right).expect("numbers"));
    // All catches one more are nine runs, of eight; one catch more is just the eight.
    let expected = [
        (vec![1.0, 4.0], 1.0),
        (vec![1.0, 5.0], 0.5),
        (vec![2.0, 4.0], 1.25),
        (vec![2.0, 6.0], 1.25),
        (vec![3.0, 5.0], 0.5),
    ];
    assert_eq!(found, expected);
    let six = slips.iter().find(|slip| runs(slip) == [2.0, 6.0]).expect("is among them");
    assert_eq!(six.look, "Catch 2 of repeat 1 may hold 6 runs, not 5: count the runs that ended in it.");
    let full = Circumstances { runs_in_use: 7, ..known() };
    assert_eq!(of(&two, &full, Cause::RunsMiscounted).len(), 3, "seven runs are all there are");
    let single = sheet(&[("60", &[(1, "1.800 kg", "0 kg"), (4, "7.700 kg", "0 kg")])]);
    let fewer = of(&single, &known(), Cause::RunsMiscounted);
    assert!(fewer.iter().all(|slip| runs(slip)[0] >= 1.0), "no catch is of no runs");
    // The only catch of a repeat is the repeat.
    assert_eq!(of(&three_alike(), &known(), Cause::RunsMiscounted).len(), 4);
}

#[test]
fn the_decimal_sign_of_readings_moves_both_ways() {
    let one = sheet(&[("60", &[(1, "2.120 kg", "0.320 kg")])]);
    let slips = of(&one, &known(), Cause::DecimalPoint);
    // Both readings, grosses, tares; the revolutions; then the only catch's gross, tare and both.
    let weight = [1.5, 1.5, 1.0, 1.0, 0.5, 0.5, 0.5, 0.5, 2.0, 2.0, 2.0, 2.0, 2.0, 2.0];
    near(&weights(&slips), &weight);
    let (up, down) = (21.2, 0.212);
    let grosses = [up, down, up, down, 2.12, 2.12, 2.12, 2.12, up, down, 2.12, 2.12, up, down];
    near(&of_the_first(&slips, |bag| bag.gross_kg), &grosses);
    let (up, down) = (3.2, 0.032);
    let tares = [up, down, 0.32, 0.32, up, down, 0.32, 0.32, 0.32, 0.32, up, down, up, down];
    near(&of_the_first(&slips, |bag| bag.tare_kg), &tares);
    near(&each(&slips[6], |repeat| repeat.revolutions / repeat.step), &[60.0]);
    assert_eq!((slips[6].numbers.repeats[0].revolutions, slips[7].numbers.repeats[0].revolutions), (600.0, 6.0));
    assert!(slips[8].look.starts_with("The decimal sign of the gross of catch 1 in repeat 1"), "{}", slips[8].look);
    // A tare of zero has no decimal sign to be off by.
    let none = sheet(&[("60", &[(1, "2.120 kg", "0 kg")])]);
    assert_eq!(of(&none, &known(), Cause::DecimalPoint).len(), 12);
    // The more readings there are, the less likely it is one of them; two catches are four.
    let two = sheet(&[("60", &[(1, "2.120 kg", "0.320 kg"), (1, "2.130 kg", "0.320 kg")])]);
    near(&weights(&of(&two, &known(), Cause::DecimalPoint)[8..9]), &[1.0]);
}

#[test]
fn a_low_run_is_taken_out() {
    let low = sheet(&[
        ("60", &[(1, "1.800 kg", "0 kg"), (1, "0.900 kg", "0 kg"), (2, "3.600 kg", "0 kg"), (1, "1.800 kg", "0 kg")]),
        ("60", &[(1, "1.800 kg", "0 kg"), (1, "0.900 kg", "0 kg"), (2, "3.600 kg", "0 kg"), (1, "1.800 kg", "0 kg")]),
        ("60", &[(1, "1.800 kg", "0 kg"), (1, "1.800 kg", "0 kg"), (2, "3.600 kg", "0 kg"), (1, "1.800 kg", "0 kg")]),
    ]);
    let slips = of(&low, &known(), Cause::OneRunLow);
    // One of four catches; an even spread over four in logarithms, and a second repeat as low as the first.
    near(&weights(&slips), &[5.0]);
    near(&evidence(&slips), &[0.5 - 4_f64.ln()]);
    near(&each(&slips[0], Turned::caught_kg), &[7.2, 7.2, 9.0]);
    let look = &slips[0].look;
    assert!(look.starts_with("Catch 2 gave only 50.0 % of the others in 2 repeats:"), "{look}");
    // A name that stands twice in a repeat is no run.
    let mut twice = low.clone();
    for position in [0, 1] {
        twice.repeats[0].catches[position].label = Some("run 2".to_owned());
        twice.repeats[0].catches[position].gross = mass("0.900 kg");
    }
    let runs = of(&twice, &known(), Cause::OneRunLow);
    assert!(!runs.iter().any(|slip| slip.look.starts_with("run 2")), "only repeat 2's catch is left");
    assert_eq!(runs.len(), 1);
}

#[test]
fn a_run_is_called_by_its_name() {
    let mut low = sheet(&[("60", &[(1, "1.800 kg", "0 kg"), (1, "0.900 kg", "0 kg"), (1, "1.800 kg", "0 kg")])]);
    let look = |low: &Sheet| of(low, &known(), Cause::OneRunLow)[0].look.clone();
    low.repeats[0].catches[1].label = Some(" row 7".to_owned());
    assert!(look(&low).starts_with("Row 7 gave only 50.0 % of the others in repeat 1:"), "{}", look(&low));
    low.repeats[0].catches[1].label = Some(" ".to_owned());
    assert!(look(&low).starts_with("Catch 2 gave only 50.0 % of the others in repeat 1:"), "{}", look(&low));
}

#[test]
fn an_empty_meter_is_likely_at_the_first_repeat_of_all() {
    let mut filling = sheet(&[
        ("60", &[(1, "1.500 kg", "0 kg")]),
        ("60", &[(1, "1.500 kg", "0 kg")]),
        ("60", &[(1, "1.800 kg", "0 kg")]),
        ("60", &[(1, "1.800 kg", "0 kg")]),
    ]);
    let of = |sheet: &Sheet| {
        of(sheet, &known(), Cause::NotPrimed)
            .iter()
            .map(|slip| (slip.weight, slip.evidence, slip.left_out))
            .collect::<Vec<_>>()
    };
    assert_eq!(of(&filling), [(12.0, 0.0, Some(0))]);
    // One that was set aside has filled the meter.
    filling.repeats[0].set_aside = Some("not primed".to_owned());
    assert_eq!(of(&filling), [(2.0, 0.0, Some(0))]);
}

#[test]
fn of_many_rollers_one_fits_by_chance() {
    let mut known = known();
    let roller = |expected_factor| OtherRoller {
        roller_id: RollerId(uuid::Uuid::nil()),
        label: "fine".to_owned(),
        expected_factor,
    };
    known.clues.other_rollers = [0.02, 0.031, 0.05, 0.06].map(roller).to_vec();
    let slips = of(&three_alike(), &known, Cause::OtherRoller);
    near(&weights(&slips), &[4.0]);
    assert_eq!(slips[0].target.map(|target| target.factor), Some(0.031));
}

#[test]
fn bags_without_a_tare_are_held_against_those_of_the_last_calibration() {
    let with = |tare: &str| {
        let mut known = known();
        known.clues.usual_tare_kg = Some(0.32);
        let slips = of(&sheet(&[("60", &[(1, "2.120 kg", tare)])]), &known, Cause::TareLeftIn);
        slips.iter().map(|slip| (slip.weight, slip.numbers.repeats[0].bags[0].tare_kg)).collect::<Vec<_>>()
    };
    assert_eq!(with("0 kg"), [(100.0, 0.32)]);
    assert_eq!(with("0.159 kg"), [(60.0, 0.32)]);
    // Half of it is not far less.
    assert_eq!(with("0.160 kg"), []);
    assert_eq!(with("0.300 kg"), []);
}

#[test]
fn bags_without_a_tare_are_held_against_the_others_of_the_sheet() {
    let tares = |repeats: &[Turn<'_>]| {
        let slips = of(&sheet(repeats), &known(), Cause::TareLeftIn);
        let tares = |slip: &Slip| {
            slip.numbers.repeats.iter().flat_map(|repeat| &repeat.bags).map(|bag| bag.tare_kg).collect::<Vec<_>>()
        };
        slips.iter().map(|slip| (slip.weight, tares(slip))).collect::<Vec<_>>()
    };
    // A whole repeat of one bag, one bag of two, both bags of a repeat.
    let (tared, bare) = ((1, "2.120 kg", "0.320 kg"), (1, "2.120 kg", "0 kg"));
    assert_eq!(tares(&[("60", &[tared]), ("60", &[bare])]), [(20.0, vec![0.32, 0.32])]);
    assert_eq!(tares(&[("60", &[tared, tared]), ("60", &[tared, bare])]), [(2.0, vec![0.32; 4])]);
    assert_eq!(tares(&[("60", &[tared, tared]), ("60", &[bare, bare])]), [(20.0, vec![0.32; 4])]);
    assert_eq!(tares(&[("60", &[tared, bare]), ("60", &[tared, bare])]), [(20.0, vec![0.32; 4])]);
    // Half of the mean, 0.2 kg here, is not far less; nor is half of the others'.
    assert_eq!(tares(&[("60", &[(1, "2.100 kg", "0.300 kg"), (1, "2.100 kg", "0.100 kg")])]), []);
    assert_eq!(tares(&[("60", &[tared, (1, "2.120 kg", "0.160 kg")])]), []);
    // What is far less than the others is no measure of a bag, however many bags have no tare at all.
    let little = (1, "2.120 kg", "0.100 kg");
    assert_eq!(tares(&[("60", &[tared, tared, little]), ("60", &[bare, bare, bare])]), [(20.0, vec![0.32; 6])],);
}

/// A scale on record in the unit that was not entered speaks for the slip, four times as loud.
#[test]
fn the_unit_of_the_scale_on_record_speaks() {
    let weight = |entered: &str, cause, circumstances: &Circumstances| {
        let gross = format!("1.80 {entered}");
        let slips = of(&sheet(&[("60", &[(1, &gross, "0 kg")])]), circumstances, cause);
        weights(&slips)
    };
    let (to_pounds, to_kilograms) = (Cause::PoundsEnteredAsKilograms, Cause::KilogramsEnteredAsPounds);
    for (step, of_kilograms, of_pounds) in [("0.01 lb", 16.0, 4.0), ("1 oz", 16.0, 4.0), ("5 g", 4.0, 16.0)] {
        assert_eq!(weight("kg", to_pounds, &weighed_in(step)), [of_kilograms], "{step}");
        assert_eq!(weight("lb", to_kilograms, &weighed_in(step)), [of_pounds], "{step}");
    }
    assert_eq!((weight("kg", to_pounds, &known()), weight("lb", to_kilograms, &known())), (vec![4.0], vec![4.0]));
    assert_eq!((weight("lb", to_pounds, &known()), weight("kg", to_kilograms, &known())), (vec![], vec![]));
}

fn in_pounds(readings: &[(&str, &str)]) -> Sheet {
    let catches: Vec<_> = readings.iter().map(|(gross, tare)| [(1, *gross, *tare)]).collect();
    sheet(&catches.iter().map(|catch| ("60", catch.as_slice())).collect::<Vec<_>>())
}

/// 3.15 lb for 3 lb 15 oz, 0.05 lb for 5 oz; each reading to the ounce, so both together to sqrt(1/6) of one.
#[test]
fn ounces_are_read_out_of_the_decimals() {
    let slips = of(&in_pounds(&[("3.15 lb", "0.05 lb")]), &known(), Cause::OuncesEnteredAsTenths);
    let Bag { gross_kg, tare_kg, variance, .. } = slips[0].numbers.repeats[0].bags[0];
    let ounce = POUND / 16.0;
    near(&[gross_kg, tare_kg, variance / ounce / ounce], &[63.0 * ounce, 5.0 * ounce, 1.0 / 6.0]);
    // A coarser scale stays as coarse: steps of 1 lb for both readings are 1/6 lb².
    let whole = of(&in_pounds(&[("3 lb", "1 lb")]), &weighed_in("1 lb"), Cause::OuncesEnteredAsTenths);
    near(&[whole[0].numbers.repeats[0].bags[0].variance / POUND / POUND], &[1.0 / 6.0]);
    for other in ["3.16 lb", "3.015 lb", "1.12 kg", "3 lb 8 oz", "-3.1 lb"] {
        assert!(of(&in_pounds(&[(other, "0 lb")]), &known(), Cause::OuncesEnteredAsTenths).is_empty(), "{other}");
    }
}

/// Tenths beside hundredths are seldom decimals; hundredths that never go beyond 15 are one chance in six each, to a limit.
#[test]
fn readings_that_could_all_be_ounces_speak_for_them() {
    let said = |readings: &[(&str, &str)]| of(&in_pounds(readings), &known(), Cause::OuncesEnteredAsTenths)[0].evidence;
    near(&[said(&[("3.1 lb", "0 lb")]), said(&[("3.1 lb", "0.5 lb")])], &[0.0, 0.0]);
    near(&[said(&[("3.11 lb", "0 lb")]), said(&[("3.11 lb", "0.10 lb")])], &[1.8, 3.6]);
    near(&[said(&[("3.11 lb", "0.10 lb"), ("3.12 lb", "0.10 lb")])], &[6.0]);
    near(&[said(&[("3.11 lb", "0.5 lb")])], &[4.8]);
    // Another repeat in pounds and ounces says it as clearly; of that one nothing was typed as tenths.
    let apart = of(&in_pounds(&[("3.1 lb", "0 lb"), ("3 lb 2 oz", "0 lb")]), &known(), Cause::OuncesEnteredAsTenths);
    near(&evidence(&apart), &[3.0]);
    near(&each(&apart[0], Turned::caught_kg), &[3.0625 * POUND, 3.125 * POUND]);
    near(&weights(&apart), &[0.75]);
    let in_ounces = of(&in_pounds(&[("3.1 lb", "0 lb")]), &weighed_in("1 oz"), Cause::OuncesEnteredAsTenths);
    near(&weights(&in_ounces), &[15.0]);
    let tenths = of(&in_pounds(&[("3.1 lb", "0 lb")]), &weighed_in("0.1 lb"), Cause::OuncesEnteredAsTenths);
    near(&weights(&tenths), &[3.0]);
}
