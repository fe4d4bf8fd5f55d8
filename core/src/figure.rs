//! Figures that a plan is made of, what each of them can be, and the error for one that cannot be so.
//!
//! Bounds here are physical, not good practice: a number beyond them is a slip of the finger or of the unit. The error is
//! a value, not a text, because a page names it beside its field and in the reader's own decimal sign.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::words::Words;

/// A figure that a rate, a plan or a setting is computed from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Figure {
    /// Plants per m² that are wanted.
    Plants,
    /// Seeds per m².
    Seeds,
    /// Seeds in a counted sample.
    SeedsCounted,
    /// Mass of a sample in kg.
    SampleMass,
    /// g per thousand seeds.
    SeedWeight,
    /// Seeds in a kg.
    SeedsPerKg,
    /// Percent of the seeds that become plants.
    Establishment,
    /// Percent of the pure seeds that germinate in the test.
    Germination,
    /// Percent of the germinating seeds that come up.
    Emergence,
    /// Percentage points of the seeds that are lost though they germinate.
    Loss,
    /// Percent of the mass that is seed of the kind.
    Purity,
    /// Percent of the pure seeds that are alive and hard or dormant.
    HardSeed,
    /// kg/m².
    Rate,
    /// m between rows.
    RowSpacing,
    /// kg/m³.
    BulkDensity,
    /// Percent, half width, of the seed weight.
    SeedWeightDoubt,
    /// Percentage points, half width, of germination, emergence, loss or establishment.
    ShareDoubt,
    /// Percent of the way over which a driven wheel stands still.
    Slip,
    /// m driven per turn of the wheel.
    MetresPerTurn,
    /// A gate, scale or lever setting.
    Setting,
    /// What a setting gave, in any unit.
    Measured,
    /// What a setting should give, in the same unit.
    Wanted,
}

/// What a figure is called, its unit, its least and greatest value, whether the least counts, and what to do.
struct Nature {
    name: &'static str,
    unit: &'static str,
    least: f64,
    most: f64,
    least_counts: bool,
    remedy: &'static str,
}

impl Figure {
    const fn nature(self) -> Nature {
        const fn above(name: &'static str, unit: &'static str, most: f64, remedy: &'static str) -> Nature {
            Nature { name, unit, least: 0.0, most, least_counts: false, remedy }
        }
        const fn from(name: &'static str, unit: &'static str, least: f64, most: f64, remedy: &'static str) -> Nature {
            Nature { name, unit, least, most, least_counts: true, remedy }
        }
        match self {
            Self::Plants => {
                above("plants wanted", "per m²", 100_000.0, "Give the plants that should stand on a square metre")
            }
            Self::Seeds => {
                above("seeds", "per m²", 100_000.0, "Look at the plants wanted and at the share that comes up")
            }
            Self::SeedsCounted => from("seeds counted", "", 1.0, 1e9, "Count the seeds of a weighed sample"),
            Self::SampleMass => above("mass of the sample", "kg", 1_000.0, "Weigh the seeds that were counted"),
            Self::SeedWeight => above("thousand-seed weight", "g", 10_000.0, "Give the grams of a thousand seeds"),
            Self::SeedsPerKg => above("seeds per kg", "", 1e9, "Give the seeds that make a kilogram or a pound"),
            Self::Establishment => above("establishment", "%", 100.0, "Give the share of the seeds that become plants"),
            Self::Germination => from("germination", "%", 0.0, 100.0, "Give it as the seed test states it"),
            Self::Emergence => {
                from("emergence", "%", 0.0, 100.0, "Give the share of the germinating seeds that come up")
            }
            Self::Loss => from("field loss", "%", 0.0, 100.0, "Give the percentage points taken off the germination"),
            Self::Purity => above("purity", "%", 100.0, "Give it as the seed test states it"),
            Self::HardSeed => from("hard or dormant seed", "%", 0.0, 100.0, "Give it as the label states it"),
            Self::Rate => above("rate", "kg/m²", 10.0, "Look at the rate and its unit"),
            Self::RowSpacing => above("row spacing", "m", 10.0, "Measure from row to row, and look at the unit"),
            Self::BulkDensity => above("bulk density", "kg/m³", 5_000.0, "Look at the bulk density and its unit"),
            Self::SeedWeightDoubt => {
                from("doubt of the thousand-seed weight", "%", 0.0, 100.0, "Give half the width of its range")
            }
            Self::ShareDoubt => from("doubt of a percentage", "points", 0.0, 100.0, "Give half the width of its range"),
            Self::Slip => from("slip", "%", -50.0, 90.0, "Measure it: metres per turn loaded against unloaded"),
            Self::MetresPerTurn => {
                above("way per wheel turn", "m", 100.0, "Drive a measured way and count the turns of the wheel")
            }
            Self::Setting => above("old setting", "", 1e9, "Give the setting as its scale shows it"),
            Self::Measured => above("measured value", "", 1e9, "Give what was caught at the old setting"),
            Self::Wanted => above("wanted value", "", 1e9, "Give it in the unit of what was measured"),
        }
    }

    /// The value, if it can be so.
    ///
    /// ```
    /// use sowmark_core::figure::Figure;
    ///
    /// assert_eq!(Figure::Germination.check(92.0), Ok(92.0));
    /// assert_eq!(
    ///     Figure::Germination.check(108.0).unwrap_err().to_string(),
    ///     "The germination cannot be 108 %; allowed is 0 to 100 %. Give it as the seed test states it."
    /// );
    /// ```
    ///
    /// # Errors
    /// What is outside its bounds, and what is no number.
    pub fn check(self, value: f64) -> Result<f64, Impossible> {
        let Nature { least, most, least_counts, .. } = self.nature();
        let above_least = if least_counts { value >= least } else { value > least };
        if above_least && value <= most {
            Ok(value)
        } else {
            Err(Impossible { figure: self, fault: Fault::Outside(value) })
        }
    }
}

/// A figure that cannot be so, alone or beside another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Impossible {
    figure: Figure,
    fault: Fault,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Fault {
    Outside(f64),
    NothingComesUp,
    NothingLeft { germination: f64, loss: f64 },
    BeyondAll { germination: f64, hard: f64 },
    TooDoubtful(f64),
}

impl Impossible {
    pub(crate) const fn nothing_comes_up(figure: Figure) -> Self {
        Self { figure, fault: Fault::NothingComesUp }
    }

    pub(crate) const fn nothing_left(germination: f64, loss: f64) -> Self {
        Self { figure: Figure::Loss, fault: Fault::NothingLeft { germination, loss } }
    }

    pub(crate) const fn beyond_all(germination: f64, hard: f64) -> Self {
        Self { figure: Figure::HardSeed, fault: Fault::BeyondAll { germination, hard } }
    }

    pub(crate) const fn too_doubtful(figure: Figure, percent: f64) -> Self {
        Self { figure, fault: Fault::TooDoubtful(percent) }
    }

    /// The figure at fault.
    pub const fn figure(&self) -> Figure {
        self.figure
    }

    /// What was given, what is allowed and what to do, for the person who gave it.
    pub fn says(&self, words: Words) -> String {
        let nature = self.figure.nature();
        let Nature { name, remedy, .. } = nature;
        match self.fault {
            Fault::Outside(given) if !given.is_finite() => format!("The {name} is not a number. {remedy}."),
            Fault::Outside(given) => format!(
                "The {name} cannot be {}; allowed is {}. {remedy}.",
                with_unit(short(words, given), nature.unit),
                allowed(words, &nature)
            ),
            Fault::NothingComesUp => format!("With a {name} of 0 % nothing comes up; it must be above 0 %. {remedy}."),
            Fault::NothingLeft { germination, loss } => format!(
                "A field loss of {} % leaves nothing of a germination of {} %; it must be below the germination. {remedy}.",
                short(words, loss),
                short(words, germination)
            ),
            Fault::BeyondAll { germination, hard } => format!(
                "A germination of {} % and {} % of hard or dormant seed are more than 100 % together. Labels that state hard \
                 seed apart leave it out of the germination: give the germination without it.",
                short(words, germination),
                short(words, hard)
            ),
            Fault::TooDoubtful(percent) => format!(
                "The figures are known within {} only, which gives no range; below 100 % is needed. Test the lot again.",
                words.percent(percent)
            ),
        }
    }
}

/// A given number with at most six digits that mean something, and never a line full of zeros.
fn short(words: Words, given: f64) -> String {
    match given.abs() {
        size if size >= 1e12 => "that large".to_owned(),
        size if size > 0.0 && size < 1e-9 => "that small".to_owned(),
        _ => {
            let text = words.number(given, 6);
            let decimals = text.contains(['.', ',']);
            if decimals { text.trim_end_matches('0').trim_end_matches(['.', ',']).to_owned() } else { text }
        }
    }
}

fn with_unit(number: String, unit: &str) -> String {
    if unit.is_empty() || number.starts_with("that") { number } else { format!("{number} {unit}") }
}

fn allowed(words: Words, nature: &Nature) -> String {
    let most = with_unit(words.exactly(nature.most), nature.unit);
    let least = words.exactly(nature.least);
    if nature.least_counts { format!("{least} to {most}") } else { format!("above {least}, up to {most}") }
}

impl fmt::Display for Impossible {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says(Words::default()))
    }
}

impl std::error::Error for Impossible {}
