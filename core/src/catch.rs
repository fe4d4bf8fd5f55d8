//! What was weighed: repeats of roller revolutions and the catches of their runs, and everything impossible about them.
//!
//! This is the sheet as a person filled it in, values kept as entered. [`Sheet::check`] collects every fault at once,
//! because a person at the machine corrects a sheet, not one field per attempt. A sheet that passes can still be a bad
//! catch; saying so is [`crate::verdict`]'s work. The sums are in [`crate::factor`].

mod finding;

use serde::{Deserialize, Serialize};

pub use finding::{Finding, Pointer};

use crate::{
    circumstances::Circumstances,
    quantity::{Decimal, Length, Mass},
    rate::Slip,
    say,
    words::Words,
};

/// Most repeats on one sheet.
pub const MAX_REPEATS: usize = 50;
/// Most catches in one repeat.
pub const MAX_CATCHES: usize = 200;
/// Most roller revolutions in one repeat.
pub const MAX_REVOLUTIONS: f64 = 1e6;
/// Heaviest reading, kg: more than any loaded cart.
pub const MAX_MASS_KG: f64 = 100_000.0;

/// The repeats of one calibration, in the order they were caught.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sheet {
    /// The repeats, those set aside among them.
    pub repeats: Vec<Repeat>,
}

/// A number of roller revolutions and what was caught meanwhile.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Repeat {
    /// How the roller revolutions are known.
    pub revolutions: Revolutions,
    /// What was weighed; several to compare the runs, or one poured together.
    pub catches: Vec<Catch>,
    /// Why it is left out of the sums (spilled, plugged), where it is.
    pub set_aside: Option<String>,
}

/// The seed of one or several runs on the scale.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Catch {
    /// Which run: "run 2".
    pub label: Option<String>,
    /// How many runs it holds.
    pub runs: u32,
    /// The empty container; zero when the scale was set to zero with it.
    pub tare: Mass,
    /// Container and seed.
    pub gross: Mass,
}

impl Catch {
    /// Net mass in kg, gross less tare.
    pub fn net_kg(&self) -> f64 {
        self.gross.minus_si(&self.tare)
    }
}

/// How the roller revolutions of a repeat are known, kept as entered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
// A sheet holds few of them; a box around each distance would only be in the way of matching.
#[allow(clippy::large_enum_variant)]
pub enum Revolutions {
    /// Counted on the roller.
    Counted(Decimal),
    /// A sensor's pulses.
    Pulses {
        /// Pulses counted.
        pulses: Decimal,
        /// Pulses of one roller revolution.
        pulses_per_rev: Decimal,
    },
    /// Turns of a crank or wheel ahead of the drive ratio.
    Turns {
        /// Turns counted.
        turns: Decimal,
    },
    /// A distance driven, ground drive.
    Distance {
        /// Distance driven.
        distance: Length,
        /// Rolling circumference of the drive wheel: under load, unless a slip is given besides.
        circumference: Length,
        /// Percent of the distance over which the wheel stood still, where the circumference was measured without load.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        slip_percent: Option<Decimal>,
    },
}

impl Revolutions {
    /// Roller revolutions, with the setup's drive ratio where they were counted ahead of it. Not finite or not positive
    /// for impossible entries, which [`Sheet::check`] finds.
    pub fn count(&self, drive_ratio: f64) -> f64 {
        match self {
            Self::Counted(revolutions) => revolutions.to_f64(),
            Self::Pulses { pulses, pulses_per_rev } => pulses.to_f64() / pulses_per_rev.to_f64(),
            Self::Turns { turns } => turns.to_f64() * drive_ratio,
            Self::Distance { distance, circumference, slip_percent } => {
                distance.si() * rolling_share(slip_percent.as_ref()) / circumference.si() * drive_ratio
            }
        }
    }

    /// The step in which they are known: one unit of the last place entered when counted, one pulse, a quarter turn of
    /// the crank, a tenth of a metre driven.
    pub fn step(&self, drive_ratio: f64) -> f64 {
        match self {
            Self::Counted(revolutions) => revolutions.resolution(),
            Self::Pulses { pulses_per_rev, .. } => pulses_per_rev.to_f64().recip(),
            Self::Turns { .. } => drive_ratio / 4.0,
            Self::Distance { circumference, slip_percent, .. } => {
                drive_ratio * 0.1 * rolling_share(slip_percent.as_ref()) / circumference.si()
            }
        }
    }

    fn check(&self, drive_ratio: f64, at: &Pointer, words: Words) -> Vec<Finding> {
        let parts = match self {
            Self::Counted(revolutions) => vec![("", revolutions.is_positive())],
            Self::Pulses { pulses, pulses_per_rev } => {
                vec![("pulses", pulses.is_positive()), ("pulses_per_rev", pulses_per_rev.is_positive())]
            }
            Self::Turns { turns } => vec![("turns", turns.is_positive())],
            Self::Distance { distance, circumference, slip_percent } => vec![
                ("slip_percent", slip_percent.as_ref().is_none_or(is_slip)),
                ("distance", distance.is_positive()),
                ("circumference", circumference.is_positive()),
            ],
        };
        let mut findings: Vec<_> = parts
            .into_iter()
            .filter(|(_, possible)| !possible)
            .map(|(part, _)| match part {
                "" => Finding::new(at.clone(), say!(words, "sheet-not-above-zero", what = "revolutions")),
                "slip_percent" => Finding::new(at.then(part), say!(words, "sheet-slip")),
                _ => Finding::new(at.then(part), say!(words, "sheet-not-above-zero", what = part)),
            })
            .collect();
        if findings.is_empty() && self.count(drive_ratio) > MAX_REVOLUTIONS {
            let says = say!(words, "sheet-too-many-revolutions", most = words.exactly(MAX_REVOLUTIONS));
            findings.push(Finding::new(at.clone(), says));
        }
        findings
    }
}

/// A wheel that skids or is driven past its own turning: more than that is no slip but a wheel off the ground.
fn is_slip(percent: &Decimal) -> bool {
    Slip::percent(percent.to_f64()).is_ok()
}

/// The share of a distance over which a wheel turns; all of it without a slip.
fn rolling_share(slip_percent: Option<&Decimal>) -> f64 {
    slip_percent.and_then(|percent| Slip::percent(percent.to_f64()).ok()).map_or(1.0, Slip::rolling_share)
}

impl Sheet {
    /// Everything impossible about the sheet and the circumstances it was caught in; empty when it can be judged.
    ///
    /// Pointers name the fields as the API does: `/repeats/0/catches/1/gross`.
    pub fn check(&self, circumstances: &Circumstances) -> Vec<Finding> {
        self.check_in(circumstances, Words::default())
    }

    /// [`Self::check`], said as a person reads.
    pub fn check_in(&self, circumstances: &Circumstances, words: Words) -> Vec<Finding> {
        let mut findings = circumstances.check_in(words);
        let repeats = Pointer::root().then("repeats");
        if self.repeats.is_empty() {
            findings.push(Finding::new(repeats.clone(), say!(words, "sheet-no-repeat")));
        } else if self.repeats.iter().all(|repeat| repeat.set_aside.is_some()) {
            findings.push(Finding::new(repeats.clone(), say!(words, "sheet-all-set-aside")));
        }
        if self.repeats.len() > MAX_REPEATS {
            let says = say!(words, "sheet-too-many-repeats", count = self.repeats.len(), most = MAX_REPEATS);
            findings.push(Finding::new(repeats.clone(), says));
        }
        // Beyond the cap nothing more is looked at, so that a hostile sheet costs no more than the largest honest one.
        for (j, repeat) in self.repeats.iter().take(MAX_REPEATS).enumerate() {
            findings.extend(repeat.check(circumstances, &repeats.then(j), words));
        }
        findings
    }
}

impl Repeat {
    fn check(&self, circumstances: &Circumstances, at: &Pointer, words: Words) -> Vec<Finding> {
        let mut findings = self.revolutions.check(circumstances.drive_ratio.value(), &at.then("revolutions"), words);
        let catches = at.then("catches");
        let runs: u64 = self.catches.iter().map(|catch| u64::from(catch.runs)).sum();
        let in_use = circumstances.runs_in_use;
        if self.catches.is_empty() {
            findings.push(Finding::new(catches.clone(), say!(words, "sheet-no-catch")));
        } else if self.catches.len() > MAX_CATCHES {
            let says = say!(words, "sheet-too-many-catches", count = self.catches.len(), most = MAX_CATCHES);
            findings.push(Finding::new(catches.clone(), says));
        } else if runs > u64::from(in_use) {
            let says = say!(words, "sheet-too-many-runs", runs = runs, in_use = in_use);
            findings.push(Finding::new(catches.clone(), says));
        }
        if self.set_aside.as_ref().is_some_and(|reason| reason.trim().is_empty()) {
            findings.push(Finding::new(at.then("set_aside"), say!(words, "sheet-set-aside-without-reason")));
        }
        for (i, catch) in self.catches.iter().take(MAX_CATCHES).enumerate() {
            findings.extend(catch.check(circumstances, self.set_aside.is_some(), &catches.then(i), words));
        }
        findings
    }
}

impl Catch {
    /// A set-aside repeat may have caught nothing (that may be why it was set aside), a kept one may not.
    fn check(&self, circumstances: &Circumstances, set_aside: bool, at: &Pointer, words: Words) -> Vec<Finding> {
        let Self { runs, tare, gross, .. } = self;
        let net = self.net_kg();
        let (tare_read, gross_read) = (words.entered(tare), words.entered(gross));
        let most = || words.exactly(MAX_MASS_KG);
        let mut findings = Vec::new();
        let mut find = |field: &str, says: String| findings.push(Finding::new(at.then(field), says));
        if *runs < 1 {
            find("runs", say!(words, "sheet-catch-of-no-run"));
        }
        if tare.is_negative() {
            find("tare", say!(words, "sheet-tare-below-zero", tare = &tare_read));
        } else if tare.si() > MAX_MASS_KG {
            find("tare", say!(words, "sheet-tare-too-heavy", tare = &tare_read, most = most()));
        }
        if gross.si() > MAX_MASS_KG {
            find("gross", say!(words, "sheet-gross-too-heavy", gross = &gross_read, most = most()));
        } else if net < 0.0 || (net <= 0.0 && !set_aside) {
            find("gross", say!(words, "sheet-no-seed", gross = &gross_read, tare = &tare_read));
        }
        if let Some(scale) = circumstances.scale.as_ref().filter(|scale| gross.si() > scale.capacity.si()) {
            let capacity = words.entered(&scale.capacity);
            find("gross", say!(words, "sheet-beyond-capacity", gross = &gross_read, capacity = capacity));
        }
        findings
    }
}
