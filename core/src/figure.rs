//! Figures that a plan is made of, what each of them can be, and the error for one that cannot be so.
//!
//! Bounds here are physical, not good practice: a number beyond them is a slip of the finger or of the unit. The error is
//! a value, not a text, because a page names it beside its field and in the reader's own decimal sign.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::{say, words::Words};

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

/// A figure's name in the keys of its texts, its unit, its least and greatest value, and whether the least counts.
struct Nature {
    name: &'static str,
    unit: &'static str,
    least: f64,
    most: f64,
    least_counts: bool,
}

impl Figure {
    const fn nature(self) -> Nature {
        const fn above(name: &'static str, unit: &'static str, most: f64) -> Nature {
            Nature { name, unit, least: 0.0, most, least_counts: false }
        }
        const fn from(name: &'static str, unit: &'static str, least: f64, most: f64) -> Nature {
            Nature { name, unit, least, most, least_counts: true }
        }
        match self {
            Self::Plants => above("plants", "per m²", 100_000.0),
            Self::Seeds => above("seeds", "per m²", 100_000.0),
            Self::SeedsCounted => from("seeds-counted", "", 1.0, 1e9),
            Self::SampleMass => above("sample-mass", "kg", 1_000.0),
            Self::SeedWeight => above("seed-weight", "g", 10_000.0),
            Self::SeedsPerKg => above("seeds-per-kg", "", 1e9),
            Self::Establishment => above("establishment", "%", 100.0),
            Self::Germination => from("germination", "%", 0.0, 100.0),
            Self::Emergence => from("emergence", "%", 0.0, 100.0),
            Self::Loss => from("loss", "%", 0.0, 100.0),
            Self::Purity => above("purity", "%", 100.0),
            Self::HardSeed => from("hard-seed", "%", 0.0, 100.0),
            Self::Rate => above("rate", "kg/m²", 10.0),
            Self::RowSpacing => above("row-spacing", "m", 10.0),
            Self::BulkDensity => above("bulk-density", "kg/m³", 5_000.0),
            Self::SeedWeightDoubt => from("seed-weight-doubt", "%", 0.0, 100.0),
            Self::ShareDoubt => from("share-doubt", "points", 0.0, 100.0),
            Self::Slip => from("slip", "%", -50.0, 90.0),
            Self::MetresPerTurn => above("metres-per-turn", "m", 100.0),
            Self::Setting => above("setting", "", 1e9),
            Self::Measured => above("measured", "", 1e9),
            Self::Wanted => above("wanted", "", 1e9),
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
        let text = |ending: &str| words.say(&format!("figure-{}{ending}", nature.name), &[]);
        let what = match self.fault {
            Fault::Outside(given) if !given.is_finite() => say!(words, "figure-no-number", figure = text("")),
            Fault::Outside(given) => say!(
                words,
                "figure-outside",
                figure = text(""),
                given = with_unit(short(words, given), nature.unit, words),
                size = size(given),
                bounds = if nature.least_counts { "from" } else { "above" },
                least = words.exactly(nature.least),
                most = with_unit(words.exactly(nature.most), nature.unit, words)
            ),
            Fault::NothingComesUp => say!(words, "figure-nothing-comes-up", figure = nature.name),
            Fault::NothingLeft { germination, loss } => {
                say!(words, "figure-nothing-left", loss = short(words, loss), germination = short(words, germination))
            }
            // These two say what to do themselves.
            Fault::BeyondAll { germination, hard } => {
                let (germination, hard) = (short(words, germination), short(words, hard));
                return say!(words, "figure-beyond-all", germination = germination, hard = hard);
            }
            Fault::TooDoubtful(percent) => {
                return say!(words, "figure-too-doubtful", within = words.percent(percent));
            }
        };
        format!("{what} {}", text("-remedy"))
    }
}

/// A line full of zeros tells nobody anything.
fn size(given: f64) -> &'static str {
    match given.abs() {
        size if size >= 1e12 => "large",
        size if size > 0.0 && size < 1e-9 => "small",
        _ => "plain",
    }
}

/// A given number with at most six digits that mean something.
fn short(words: Words, given: f64) -> String {
    let text = words.number(given, 6);
    let decimals = text.contains(['.', ',']);
    if decimals { text.trim_end_matches('0').trim_end_matches(['.', ',']).to_owned() } else { text }
}

fn with_unit(number: String, unit: &str, words: Words) -> String {
    match unit {
        "" => number,
        "per m²" => say!(words, "figure-per-square-metre", number = number),
        "points" => say!(words, "figure-points", number = number),
        unit => format!("{number} {unit}"),
    }
}

impl fmt::Display for Impossible {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says(Words::default()))
    }
}

impl std::error::Error for Impossible {}
