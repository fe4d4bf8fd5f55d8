//! The meter factor: from a checked sheet to mass per revolution per run, per repeat and over all.
//!
//! Numbers only. [`measure`] turns the entries of a [`Sheet`] into SI once; what follows ([`crate::uncertainty::budget`],
//! [`crate::verdict`], a search for slips that computes again with one number changed) works on a [`Measured`] and never
//! looks at the entries again.

use crate::{
    catch::{Catch, Repeat, Sheet},
    circumstances::Circumstances,
    statistics::{coefficient_of_variation, mean, ratio_of_sums},
};

/// A sheet in numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// As on the sheet, those set aside among them.
    pub repeats: Vec<MeasuredRepeat>,
}

/// A repeat in numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasuredRepeat {
    /// Roller revolutions.
    pub revolutions: f64,
    /// The step in which they are known.
    pub revolution_step: f64,
    /// What was weighed.
    pub catches: Vec<MeasuredCatch>,
    /// It is left out of the sums.
    pub set_aside: bool,
}

/// A catch in numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasuredCatch {
    /// Its label, or its position where it has none.
    pub label: String,
    /// Runs it holds.
    pub runs: u32,
    /// kg, gross less tare.
    pub net_kg: f64,
    /// Variance of the net mass from the rounding of its two readings, kg²: `(d_gross² + d_tare²) / 12`.
    pub rounding_variance: f64,
}

/// A sheet in numbers. The sheet must have passed [`Sheet::check`] with the same circumstances.
///
/// The step d of a reading is the scale's readability; without a scale it is one unit of the reading's own last place.
/// A tare of zero was read off the same display as its gross, whatever "0" was typed, so it takes the gross's step.
pub fn measure(sheet: &Sheet, circumstances: &Circumstances) -> Measured {
    let ratio = circumstances.drive_ratio.value();
    let readability = circumstances.scale.as_ref().map(|scale| scale.readability.si());
    let repeats = sheet.repeats.iter().map(|repeat| measure_repeat(repeat, ratio, readability)).collect();
    Measured { repeats }
}

fn measure_repeat(repeat: &Repeat, drive_ratio: f64, readability: Option<f64>) -> MeasuredRepeat {
    let catches = repeat.catches.iter().enumerate();
    MeasuredRepeat {
        revolutions: repeat.revolutions.count(drive_ratio),
        revolution_step: repeat.revolutions.step(drive_ratio),
        catches: catches.map(|(position, catch)| measure_catch(position, catch, readability)).collect(),
        set_aside: repeat.set_aside.is_some(),
    }
}

fn measure_catch(position: usize, catch: &Catch, readability: Option<f64>) -> MeasuredCatch {
    let gross_step = readability.unwrap_or_else(|| catch.gross.resolution_si());
    let tare_step = match readability {
        Some(step) => step,
        None if catch.tare.is_zero() => gross_step,
        None => catch.tare.resolution_si(),
    };
    let label = catch.label.as_deref().map(str::trim).filter(|label| !label.is_empty());
    MeasuredCatch {
        label: label.map_or_else(|| format!("catch {}", position + 1), str::to_owned),
        runs: catch.runs,
        net_kg: catch.net_kg(),
        rounding_variance: (gross_step.powi(2) + tare_step.powi(2)) / 12.0,
    }
}

impl Measured {
    /// The repeats that count.
    pub fn kept(&self) -> impl Iterator<Item = &MeasuredRepeat> + Clone {
        self.repeats.iter().filter(|repeat| !repeat.set_aside)
    }

    /// The meter factor `q = sum(net) / sum(K_j N_j)` over the kept repeats, kg per revolution per run:
    /// a ratio of sums, so that every revolution counts alike (metrology: right when the flow's noise is steady).
    pub fn factor(&self) -> Option<f64> {
        ratio_of_sums(self.kept().map(MeasuredRepeat::caught_kg), self.kept().map(MeasuredRepeat::run_revolutions))
    }
}

impl MeasuredRepeat {
    /// Net mass of all its catches, kg.
    pub fn caught_kg(&self) -> f64 {
        self.catches.iter().map(|catch| catch.net_kg).sum()
    }

    /// Runs caught: `K_j`.
    pub fn runs(&self) -> f64 {
        self.catches.iter().map(|catch| f64::from(catch.runs)).sum()
    }

    /// `K_j N_j`: what the mass is divided by.
    pub fn run_revolutions(&self) -> f64 {
        self.runs() * self.revolutions
    }

    /// Its own factor `q_j`, kg per revolution per run.
    pub fn factor(&self) -> f64 {
        self.caught_kg() / self.run_revolutions()
    }

    /// Mass per run of each catch: `x_i = net_i / K_i`.
    pub fn per_run(&self) -> Vec<f64> {
        self.catches.iter().map(|catch| catch.net_kg / f64::from(catch.runs)).collect()
    }

    /// How much the runs vary: `100 s / m` of the `x_i`, in percent; `None` for a single catch.
    pub fn run_cv_percent(&self) -> Option<f64> {
        coefficient_of_variation(&self.per_run()).map(|cv| 100.0 * cv)
    }

    /// Each catch's difference from the mean of the repeat's, in percent; empty for a single catch.
    pub fn run_differences_percent(&self) -> Vec<(&str, f64)> {
        let per_run = self.per_run();
        match mean(&per_run).filter(|&middle| middle > 0.0 && per_run.len() > 1) {
            Some(middle) => {
                let labels = self.catches.iter().map(|catch| catch.label.as_str());
                labels.zip(per_run.iter().map(|x| 100.0 * (x / middle - 1.0))).collect()
            }
            None => Vec::new(),
        }
    }

    /// Variance of [`Self::caught_kg`] from the rounding of its readings, kg².
    pub fn rounding_variance(&self) -> f64 {
        self.catches.iter().map(|catch| catch.rounding_variance).sum()
    }
}
