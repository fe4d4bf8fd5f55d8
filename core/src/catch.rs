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

    fn check(&self, drive_ratio: f64, at: &Pointer) -> Vec<Finding> {
        let parts = match self {
            Self::Counted(revolutions) => vec![("", "revolutions", revolutions.is_positive())],
            Self::Pulses { pulses, pulses_per_rev } => vec![
                ("pulses", "pulses", pulses.is_positive()),
                ("pulses_per_rev", "pulses per revolution", pulses_per_rev.is_positive()),
            ],
            Self::Turns { turns } => vec![("turns", "turns", turns.is_positive())],
            Self::Distance { distance, circumference, slip_percent } => vec![
                ("slip_percent", "slip", slip_percent.as_ref().is_none_or(is_slip)),
                ("distance", "distance", distance.is_positive()),
                ("circumference", "rolling circumference", circumference.is_positive()),
            ],
        };
        let mut findings: Vec<_> = parts
            .into_iter()
            .filter(|(_, _, positive)| !positive)
            .map(|(part, words, _)| {
                let at = if part.is_empty() { at.clone() } else { at.then(part) };
                let must = if part == "slip_percent" { "from -50 to 90 %" } else { "above zero" };
                Finding::new(at, format!("the {words} must be {must}"))
            })
            .collect();
        if findings.is_empty() && self.count(drive_ratio) > MAX_REVOLUTIONS {
            let says = format!("more than {MAX_REVOLUTIONS} roller revolutions; no catch takes that many, count again");
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
        let mut findings = circumstances.check();
        let repeats = Pointer::root().then("repeats");
        if self.repeats.is_empty() {
            findings
                .push(Finding::new(repeats.clone(), "there is no repeat; a calibration needs at least one".to_owned()));
        } else if self.repeats.iter().all(|repeat| repeat.set_aside.is_some()) {
            let says = "every repeat is set aside; at least one must be kept to compute a factor".to_owned();
            findings.push(Finding::new(repeats.clone(), says));
        }
        if self.repeats.len() > MAX_REPEATS {
            let says = format!("{} repeats; at most {MAX_REPEATS} are taken", self.repeats.len());
            findings.push(Finding::new(repeats.clone(), says));
        }
        // Beyond the cap nothing more is looked at, so that a hostile sheet costs no more than the largest honest one.
        for (j, repeat) in self.repeats.iter().take(MAX_REPEATS).enumerate() {
            findings.extend(repeat.check(circumstances, &repeats.then(j)));
        }
        findings
    }
}

impl Repeat {
    fn check(&self, circumstances: &Circumstances, at: &Pointer) -> Vec<Finding> {
        let mut findings = self.revolutions.check(circumstances.drive_ratio.value(), &at.then("revolutions"));
        let catches = at.then("catches");
        let runs: u64 = self.catches.iter().map(|catch| u64::from(catch.runs)).sum();
        let in_use = circumstances.runs_in_use;
        if self.catches.is_empty() {
            findings.push(Finding::new(catches.clone(), "there is no catch; weigh at least one".to_owned()));
        } else if self.catches.len() > MAX_CATCHES {
            let says = format!("{} catches; at most {MAX_CATCHES} are taken", self.catches.len());
            findings.push(Finding::new(catches.clone(), says));
        } else if runs > u64::from(in_use) {
            let says = format!("the catches hold {runs} runs together; the unit has {in_use} runs in use");
            findings.push(Finding::new(catches.clone(), says));
        }
        if self.set_aside.as_ref().is_some_and(|reason| reason.trim().is_empty()) {
            let says = "a repeat is set aside with a reason, such as spilled or plugged".to_owned();
            findings.push(Finding::new(at.then("set_aside"), says));
        }
        for (i, catch) in self.catches.iter().take(MAX_CATCHES).enumerate() {
            findings.extend(catch.check(circumstances, self.set_aside.is_some(), &catches.then(i)));
        }
        findings
    }
}

impl Catch {
    /// A set-aside repeat may have caught nothing (that may be why it was set aside), a kept one may not.
    fn check(&self, circumstances: &Circumstances, set_aside: bool, at: &Pointer) -> Vec<Finding> {
        let Self { runs, tare, gross, .. } = self;
        let net = self.net_kg();
        let mut findings = Vec::new();
        let mut find = |field: &str, says: String| findings.push(Finding::new(at.then(field), says));
        if *runs < 1 {
            find("runs", "a catch holds the seed of at least one run".to_owned());
        }
        if tare.is_negative() {
            find("tare", format!("a tare of {tare} is below zero"));
        } else if tare.si() > MAX_MASS_KG {
            find("tare", format!("a tare of {tare} is heavier than any machine; the most taken is {MAX_MASS_KG} kg"));
        }
        if gross.si() > MAX_MASS_KG {
            find(
                "gross",
                format!("a gross of {gross} is heavier than any machine; the most taken is {MAX_MASS_KG} kg"),
            );
        } else if net < 0.0 || (net <= 0.0 && !set_aside) {
            find(
                "gross",
                format!("a gross of {gross} leaves no seed above the tare of {tare}; weigh again or swap the two"),
            );
        }
        if let Some(scale) = circumstances.scale.as_ref().filter(|scale| gross.si() > scale.capacity.si()) {
            find("gross", format!("a gross of {gross} is above the scale's capacity of {}", scale.capacity));
        }
        findings
    }
}
