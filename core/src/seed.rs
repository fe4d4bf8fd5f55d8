//! From plants wanted to seed on a scale: how many seeds, how many kilograms, how much of what is in the bag is alive.
//!
//! Rates are kg/m², areas m², lengths m; the seed weight stays in g per thousand, the trade's unit everywhere, and shares
//! are in percent as tests and labels state them. Two conventions for the expected stand are in use and differ by the
//! product of the losses, so the convention is part of every answer ([`Establishment`]). Nothing here knows of machines;
//! [`crate::rate`] takes a rate on to the roller.
//!
//! ```
//! use sowmark_core::{
//!     quantity::{print, unit},
//!     seed::{Convention, Establishment, Plan},
//! };
//!
//! // Source: Teagasc, spring cereals: 280 plants/m², 50.9 g, germination 95 %, losses 10 %: "168 kg/ha".
//! let plan = Plan {
//!     plants_per_m2: 280.0,
//!     thousand_seed_weight_g: 50.9,
//!     establishment: Establishment::Subtracted { germination_percent: 95.0, loss_percent: 10.0 },
//! };
//! let sown = plan.work_out()?;
//! assert_eq!(sown.convention, Convention::Subtracted);
//! assert_eq!(sown.establishment_percent, 85.0);
//! assert_eq!(print(sown.rate, unit::KG_PER_HA, 6), "167.671");
//! # Ok::<(), sowmark_core::figure::Impossible>(())
//! ```

mod age;
mod count;
mod doubt;
mod establishment;
mod label;
mod live;

pub use age::{months_in_some_rules, months_since_test};
pub use count::{
    US_BUSHEL_M3, bushels_per_m2, per_m2_of_row, per_metre_of_row, seeds_per_kg, seeds_per_lb,
    thousand_seed_weight_counted, thousand_seed_weight_from_per_kg, thousand_seed_weight_from_per_lb,
};
pub use doubt::{Doubt, germination_doubt};
pub use establishment::{Convention, Establishment};
pub use label::beyond_whole;
pub use live::{HardSeed, PureLiveSeed};

use serde::{Deserialize, Serialize};

use crate::{
    figure::{Figure, Impossible},
    rate::Range,
};

/// Seeds to sow per m² for plants wanted per m²: plants / (establishment / 100).
///
/// # Errors
/// A figure that cannot be so.
///
/// ```
/// use sowmark_core::seed::{Establishment, seeds_per_m2};
///
/// assert_eq!(seeds_per_m2(340.0, Establishment::Given { percent: 85.0 }), Ok(400.0));
/// ```
pub fn seeds_per_m2(plants_per_m2: f64, establishment: Establishment) -> Result<f64, Impossible> {
    Ok(Figure::Plants.check(plants_per_m2)? * 100.0 / establishment.percent()?)
}

/// The rate in kg/m² of seeds per m²: seeds x g per thousand / 1 000 000 (in kg/ha: seeds x g / 100).
///
/// # Errors
/// A figure that cannot be so.
///
/// ```
/// use sowmark_core::{quantity::{print, unit}, seed::rate};
///
/// assert_eq!(print(rate(400.0, 45.0)?, unit::KG_PER_HA, 3), "180");
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
pub fn rate(seeds_per_m2: f64, thousand_seed_weight_g: f64) -> Result<f64, Impossible> {
    Ok(Figure::Seeds.check(seeds_per_m2)? * Figure::SeedWeight.check(thousand_seed_weight_g)? / 1e6)
}

/// Seeds per m² that a rate (kg/m²) puts there, with everything that was weighed counted as seed.
///
/// # Errors
/// A figure that cannot be so: of the two given, or the seeds that they come to.
///
/// ```
/// use sowmark_core::{figure::Figure, seed::seeds_at};
///
/// assert!((seeds_at(0.018, 45.0)? - 400.0).abs() < 1e-9);
/// // each can be so, but not together: 25 million seeds on a square metre
/// assert_eq!(seeds_at(1.0, 0.04).unwrap_err().figure(), Figure::Seeds);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
pub fn seeds_at(rate: f64, thousand_seed_weight_g: f64) -> Result<f64, Impossible> {
    Figure::Seeds.check(Figure::Rate.check(rate)? * 1e6 / Figure::SeedWeight.check(thousand_seed_weight_g)?)
}

/// Plants per m² to be expected of a rate (kg/m²) that was really sown: seeds per m² x establishment / 100.
///
/// # Errors
/// A figure that cannot be so.
///
/// ```
/// use sowmark_core::seed::{Establishment, plants_expected};
///
/// // 180 kg/ha of seed of 45 g per thousand, of which 85 % come up
/// let plants = plants_expected(0.018, 45.0, Establishment::Given { percent: 85.0 })?;
/// assert!((plants - 340.0).abs() < 1e-9);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
pub fn plants_expected(
    rate: f64,
    thousand_seed_weight_g: f64,
    establishment: Establishment,
) -> Result<f64, Impossible> {
    Ok(seeds_at(rate, thousand_seed_weight_g)? * establishment.percent()? / 100.0)
}

/// Plants wanted of a lot of seed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// Plants that should stand.
    pub plants_per_m2: f64,
    /// The lot's, g.
    pub thousand_seed_weight_g: f64,
    /// How much of the seed becomes plants, and how that was said.
    pub establishment: Establishment,
}

/// What a [`Plan`] comes to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sown {
    /// Seeds per m².
    pub seeds_per_m2: f64,
    /// kg/m².
    pub rate: f64,
    /// Percent of the seeds that become plants, whichever way it was said.
    pub establishment_percent: f64,
    /// Which way it was said.
    pub convention: Convention,
}

impl Plan {
    /// Seeds and rate.
    ///
    /// # Errors
    /// The first figure that cannot be so; [`Self::faults`] has them all.
    pub fn work_out(&self) -> Result<Sown, Impossible> {
        let seeds = seeds_per_m2(self.plants_per_m2, self.establishment)?;
        Ok(Sown {
            seeds_per_m2: seeds,
            rate: rate(seeds, self.thousand_seed_weight_g)?,
            establishment_percent: self.establishment.percent()?,
            convention: self.establishment.convention(),
        })
    }

    /// Every figure that cannot be so; nothing where [`Self::work_out`] answers.
    pub fn faults(&self) -> Vec<Impossible> {
        let mut faults: Vec<_> = [
            Figure::Plants.check(self.plants_per_m2).err(),
            Figure::SeedWeight.check(self.thousand_seed_weight_g).err(),
        ]
        .into_iter()
        .flatten()
        .chain(self.establishment.faults())
        .collect();
        if faults.is_empty() {
            // Each figure can be so; together they may still ask for more seeds than lie on a square metre.
            faults.extend(self.work_out().err());
        }
        faults
    }

    /// The rates (kg/m²) between which the right one lies, when weight and tests of the lot are known within `doubt`.
    /// The formula is told at [`Doubt`].
    ///
    /// # Errors
    /// A figure that cannot be so, and doubts of 100 % of the rate and more.
    pub fn range(&self, doubt: Doubt) -> Result<Range, Impossible> {
        let middle = self.work_out()?.rate;
        let share = doubt.of_the_rate(self)?;
        Ok(Range { min: middle * (1.0 - share), max: middle * (1.0 + share) })
    }
}
