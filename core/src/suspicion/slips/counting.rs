//! Runs and revolutions that were not what was written down.

use crate::{
    catch::{Repeat, Revolutions},
    quantity::DriveRatio,
    say,
    suspicion::{
        Cause,
        case::{Case, Slip},
        numbers::{Numbers, Turned},
    },
};

pub(super) fn slips(case: &Case<'_>) -> Vec<Slip> {
    let mut slips = half_of_each_run(case);
    slips.extend(runs_miscounted(case));
    slips.extend(revolutions(case, Cause::RevolutionsDoubled, 0.5, "suspicion-revolutions-doubled"));
    slips.extend(revolutions(case, Cause::RevolutionsHalved, 2.0, "suspicion-revolutions-halved"));
    slips.extend(other_drive_ratio(case));
    slips
}

fn half_of_each_run(case: &Case<'_>) -> Vec<Slip> {
    let change = |_: &Repeat, turned: &Turned| {
        let mut turned = turned.clone();
        turned.bags.iter_mut().for_each(|bag| bag.scale(2.0));
        Some(turned)
    };
    let look = |repeat: usize| say!(case.words, "suspicion-half-of-each-run", repeat = repeat);
    case.everywhere_or_once(Cause::HalfOfEachRun, 4.0, change, look)
}

/// One run is hardly ever miscounted, many easily.
fn miscounting(runs: f64) -> f64 {
    (0.5 * runs).clamp(0.5, 4.0)
}

/// By one, in every catch alike, in one repeat, or in one catch.
fn runs_miscounted(case: &Case<'_>) -> Vec<Slip> {
    let mut slips = Vec::new();
    for (by, key) in [(1.0, "suspicion-one-run-more"), (-1.0, "suspicion-one-run-fewer")] {
        let in_use = f64::from(case.circumstances.runs_in_use);
        let change = |_: &Repeat, turned: &Turned| {
            let mut turned = turned.clone();
            turned.bags.iter_mut().for_each(|bag| bag.runs += by);
            (turned.bags.iter().all(|bag| bag.runs >= 1.0) && turned.runs() <= in_use).then_some(turned)
        };
        let fewest = case
            .numbers
            .repeats
            .iter()
            .flat_map(|repeat| &repeat.bags)
            .map(|bag| bag.runs)
            .fold(f64::INFINITY, f64::min);
        let look = |repeat: usize| say!(case.words, key, repeat = repeat);
        slips.extend(case.everywhere_or_once(Cause::RunsMiscounted, miscounting(fewest), change, look));
        for (at, position) in case.numbers.farthest_bags() {
            slips.extend(one_catch_miscounted(case, at, position, by));
        }
    }
    slips
}

fn one_catch_miscounted(case: &Case<'_>, at: usize, position: usize, by: f64) -> Option<Slip> {
    let mut numbers = case.numbers.clone();
    let repeat = numbers.repeats.get_mut(at).filter(|repeat| repeat.bags.len() > 1)?;
    let bag = repeat.bags.get_mut(position)?;
    let entered = bag.runs;
    bag.runs += by;
    let true_runs = bag.runs;
    if true_runs < 1.0 || repeat.runs() > f64::from(case.circumstances.runs_in_use) {
        return None;
    }
    let look = say!(
        case.words,
        "suspicion-runs-of-a-catch",
        catch = case.words.run(&case.label((at, position))),
        repeat = case.number(at).to_string(),
        runs = format!("{true_runs:.0}"),
        entered = format!("{entered:.0}")
    );
    let weight = miscounting(entered) / case.numbers.bags() as f64;
    Some(case.slip(Cause::RunsMiscounted, weight, numbers, capital(&look)))
}

/// A sentence begins with a capital, labels need not.
pub(super) fn capital(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// `by` leads from the revolutions on the sheet to the true ones.
fn revolutions(case: &Case<'_>, cause: Cause, by: f64, key: &str) -> Vec<Slip> {
    let change = |_: &Repeat, turned: &Turned| {
        Some(Turned { revolutions: turned.revolutions * by, step: turned.step * by, ..turned.clone() })
    };
    let look = |repeat: usize| say!(case.words, key, repeat = repeat);
    // Pulses are counted by a machine that is told how many make a revolution; cranks are geared.
    let weight = match case.entered.first().map(|(_, repeat)| &repeat.revolutions) {
        Some(Revolutions::Pulses { .. } | Revolutions::Turns { .. }) => 4.0,
        _ => 3.0,
    };
    case.everywhere_or_once(cause, weight, change, look)
}

/// Revolutions that were counted ahead of the drive ratio, with another ratio known to be about, or the one on record
/// written the wrong way round.
fn other_drive_ratio(case: &Case<'_>) -> Vec<Slip> {
    let ahead =
        |revolutions: &Revolutions| matches!(revolutions, Revolutions::Turns { .. } | Revolutions::Distance { .. });
    if !case.entered.iter().any(|(_, repeat)| ahead(&repeat.revolutions)) {
        return Vec::new();
    }
    let used = &case.circumstances.drive_ratio;
    let with = |ratio: f64| {
        let entered = case.entered.iter().map(|(_, repeat)| &repeat.revolutions);
        let repeats = case.numbers.repeats.iter().zip(entered).map(|(turned, entered)| {
            let by = if ahead(entered) { ratio / used.value() } else { 1.0 };
            Turned { revolutions: turned.revolutions * by, step: turned.step * by, ..turned.clone() }
        });
        Numbers { repeats: repeats.collect() }
    };
    let differs = |ratio: f64| (ratio / used.value()).ln().abs() > 0.01;
    let slip = |weight: f64, ratio: f64, name: &str| {
        let look = say!(
            case.words,
            "suspicion-other-drive-ratio",
            ratio = case.words.decimal(name),
            on_record = case.words.decimal(used.as_str())
        );
        case.slip(Cause::OtherDriveRatio, weight, with(ratio), look)
    };
    let known = likeliest(case, &case.circumstances.clues.other_drive_ratios);
    let share = (known.len().max(1) as f64).sqrt();
    let mut slips: Vec<_> = known
        .into_iter()
        .filter(|ratio| differs(ratio.value()))
        .map(|ratio| slip(8.0 / share, ratio.value(), ratio.as_str()))
        .collect();
    if differs(used.value().recip()) {
        slips.push(slip(2.0, used.value().recip(), &turned_round(used)));
    }
    slips
}

/// A few of the ratios that are about, each once: those that would bring the factor nearest to the expected one.
fn likeliest<'r>(case: &Case<'_>, ratios: &'r [DriveRatio]) -> Vec<&'r DriveRatio> {
    let mut known: Vec<&DriveRatio> = Vec::new();
    for ratio in ratios.iter().take(1_000) {
        if !known.contains(&ratio) {
            known.push(ratio);
        }
    }
    if let Some((target, measured)) = case.target.zip(case.numbers.factor(|_| true)) {
        let used = case.circumstances.drive_ratio.value();
        let distance = |ratio: &DriveRatio| target.distance(measured * used / ratio.value());
        known.sort_by(|left, right| distance(left).total_cmp(&distance(right)));
    }
    known.truncate(5);
    known
}

fn turned_round(ratio: &DriveRatio) -> String {
    let (roller, drive) = ratio.as_str().split_once(':').unwrap_or((ratio.as_str(), "1"));
    format!("{drive}:{roller}")
}
