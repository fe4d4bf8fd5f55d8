//! Each slip made on purpose some hundred times, and calibrations without any: what is suspected of them.
//!
//! Nothing that finds suspicions sees which slip was made. `cargo nextest run -p sowmark-core grid --no-capture` prints
//! the table of DEVELOPERS.md.

use sowmark_core::{
    catch::Sheet,
    circumstances::Circumstances,
    suspicion::{Cause, Suspicion, suspicions},
    verdict::{CheckName, Judgement, Outcome, judge},
    words::Words,
};

use crate::{
    chance::Chance,
    day::{Day, Wanted},
    mistakes,
};

/// Of each cause, with an effect of more than [`MOVES`].
const CASES: u32 = 250;
const SOUND: u32 = 3_000;
/// A slip that moves the factor by less is no matter here.
const MOVES: f64 = 0.08;

/// How a cause fared.
#[derive(Default)]
struct Tally {
    cases: u32,
    noticed: u32,
    first: u32,
    first_three: u32,
}

impl Tally {
    fn add(&mut self, other: &Self) {
        self.cases += other.cases;
        self.noticed += other.noticed;
        self.first += other.first;
        self.first_three += other.first_three;
    }

    fn rate(&self, count: u32) -> f64 {
        100.0 * f64::from(count) / f64::from(self.cases.max(1))
    }

    fn print(&self, name: &str) {
        println!(
            "| `{name}` | {} | {:.1} | {:.1} | {:.1} |",
            self.cases,
            self.rate(self.noticed),
            self.rate(self.first),
            self.rate(self.first_three),
        );
    }
}

fn noticed(judgement: &Judgement) -> bool {
    [CheckName::Plausibility, CheckName::RepeatAgreement, CheckName::RunUniformity]
        .into_iter()
        .any(|name| judgement.check(name).is_some_and(|check| check.outcome != Outcome::Pass))
}

fn suspected(sheet: &Sheet, circumstances: &Circumstances) -> Option<(Judgement, Vec<Suspicion>)> {
    let judgement = judge(sheet, circumstances).ok()?;
    let found = suspicions(sheet, circumstances, &judgement, Words::default());
    Some((judgement, found))
}

fn tally(cause: Cause, seed: u64) -> Tally {
    let mut chance = Chance::new(seed);
    let mut tally = Tally::default();
    let mut tries = 0;
    while tally.cases < CASES {
        tries += 1;
        assert!(tries < 100 * CASES, "{} hardly ever moves the factor", cause.name());
        let Some(mistake) = mistakes::make(cause, &mut chance) else { continue };
        // What is impossible is refused before anyone suspects anything.
        let Some((judgement, found)) = suspected(&mistake.sheet, &mistake.circumstances) else { continue };
        if (judgement.factor / mistake.honest - 1.0).abs() <= MOVES {
            continue;
        }
        tally.cases += 1;
        tally.noticed += u32::from(noticed(&judgement));
        let place = found.iter().position(|suspicion| suspicion.cause == cause);
        tally.first += u32::from(place == Some(0));
        tally.first_three += u32::from(place.is_some_and(|place| place < 3));
    }
    tally
}

#[test]
fn the_true_cause_is_among_the_first_three() {
    let mut all = Tally::default();
    let mut low = Vec::new();
    println!("| slip | cases | a check is off, % | first, % | among the first three, % |");
    println!("| --- | --- | --- | --- | --- |");
    for (seed, cause) in (1_u64..).zip(Cause::ALL) {
        let tally = tally(cause, seed);
        tally.print(cause.name());
        if tally.rate(tally.first_three) < 85.0 {
            low.push(cause.name());
        }
        all.add(&tally);
    }
    all.print("all");
    assert!(all.rate(all.first_three) >= 95.0, "{:.1} %", all.rate(all.first_three));
    assert!(low.is_empty(), "below 85 %: {low:?}");
}

#[test]
fn a_sound_calibration_is_hardly_ever_suspected() {
    let mut chance = Chance::new(2_026);
    let (mut off, mut raised) = (0, 0);
    for _ in 0..SOUND {
        let day = Day::new(&mut chance, Wanted::default());
        let (judgement, found) = suspected(&day.sheet(), &day.circumstances()).expect("a possible sheet");
        off += u32::from(noticed(&judgement));
        raised += u32::from(!found.is_empty());
    }
    let percent = |count: u32| 100.0 * f64::from(count) / f64::from(SOUND);
    println!(
        "sound: {SOUND} sheets, a check is off in {:.1} %, something is suspected in {:.1} %",
        percent(off),
        percent(raised)
    );
    assert!(percent(raised) <= 2.0);
}
