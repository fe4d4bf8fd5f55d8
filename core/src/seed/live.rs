//! Pure live seed: the part of a bag that is seed of the kind and alive.

use crate::figure::{Figure, Impossible};

/// Hard or dormant seed: alive, but did not germinate in the test. Percent of the pure seeds.
///
/// Rules differ on whether it counts. US labels state it apart from the germination and must not include it there
/// (7 CFR 201.21), so a germination and a hard seed of 88 % and 5 % are never 93 % germination.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HardSeed {
    /// None is stated.
    NotStated,
    /// Stated, and counted as live: it will come up, if late.
    Counted(f64),
    /// Stated, and left out: it will not come up this season.
    LeftOut(f64),
}

impl HardSeed {
    /// What is stated, in percent.
    pub const fn stated(self) -> Option<f64> {
        match self {
            Self::NotStated => None,
            Self::Counted(percent) | Self::LeftOut(percent) => Some(percent),
        }
    }
}

/// Purity and germination of a lot.
///
/// ```
/// use sowmark_core::seed::{HardSeed, PureLiveSeed};
///
/// // Source: Allamakee SWCD (Iowa): purity 98.75 %, germination 88 % and dormant 5 %: "91.83 %" (truncated).
/// let lot = PureLiveSeed { purity_percent: 98.75, germination_percent: 88.0, hard_seed: HardSeed::Counted(5.0) };
/// assert!((lot.fraction()? - 0.918_375).abs() < 1e-12);
/// let strict = PureLiveSeed { hard_seed: HardSeed::LeftOut(5.0), ..lot };
/// assert!((strict.fraction()? - 0.869).abs() < 1e-12);
/// # Ok::<(), sowmark_core::figure::Impossible>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PureLiveSeed {
    /// Percent of the mass that is seed of the kind.
    pub purity_percent: f64,
    /// Percent of the pure seeds that germinate, without hard or dormant seed.
    pub germination_percent: f64,
    /// Hard or dormant seed, and whether it counts.
    pub hard_seed: HardSeed,
}

impl PureLiveSeed {
    /// Percent of the pure seeds that are alive, as far as they count: above 0, at most 100.
    ///
    /// # Errors
    /// A share outside 0 to 100 %, germination and hard seed of more than 100 % together, and nothing alive.
    pub fn live_percent(&self) -> Result<f64, Impossible> {
        let germination = Figure::Germination.check(self.germination_percent)?;
        let hard = Figure::HardSeed.check(self.hard_seed.stated().unwrap_or(0.0))?;
        // The tenths of labels do not add up exactly in binary.
        if germination + hard > 100.0 + 1e-9 {
            return Err(Impossible::beyond_all(germination, hard));
        }
        let counted = if matches!(self.hard_seed, HardSeed::Counted(_)) { hard } else { 0.0 };
        let live = (germination + counted).min(100.0);
        if live > 0.0 { Ok(live) } else { Err(Impossible::nothing_comes_up(Figure::Germination)) }
    }

    /// The part of the bag's mass that is pure live seed: purity x live / 10 000, above 0 and at most 1.
    ///
    /// # Errors
    /// As [`Self::live_percent`], and a purity outside its bounds.
    pub fn fraction(&self) -> Result<f64, Impossible> {
        Ok(Figure::Purity.check(self.purity_percent)? * self.live_percent()? / 10_000.0)
    }

    /// kg from the bag for a kg of pure live seed: 1 / fraction.
    ///
    /// # Errors
    /// As [`Self::fraction`].
    ///
    /// ```
    /// use sowmark_core::seed::{HardSeed, PureLiveSeed};
    ///
    /// // Source: USGS Northern Prairie Wildlife Research Center, Table 4: purity 85 %, germination 85 %: "1.4".
    /// let lot = PureLiveSeed { purity_percent: 85.0, germination_percent: 85.0, hard_seed: HardSeed::NotStated };
    /// assert!((lot.bulk_per_live()? - 1.4).abs() < 0.05);
    /// # Ok::<(), sowmark_core::figure::Impossible>(())
    /// ```
    pub fn bulk_per_live(&self) -> Result<f64, Impossible> {
        Ok(1.0 / self.fraction()?)
    }

    /// The rate from the bag for a rate of pure live seed: live rate / fraction.
    ///
    /// # Errors
    /// As [`Self::fraction`], and a rate outside its bounds (kg/m²).
    pub fn bulk_rate(&self, live_rate: f64) -> Result<f64, Impossible> {
        Ok(Figure::Rate.check(live_rate)? / self.fraction()?)
    }

    /// The rate of pure live seed in a rate from the bag (kg/m²): bulk rate x fraction.
    ///
    /// # Errors
    /// As [`Self::bulk_rate`].
    pub fn live_rate(&self, bulk_rate: f64) -> Result<f64, Impossible> {
        Ok(Figure::Rate.check(bulk_rate)? * self.fraction()?)
    }

    /// Everything in it that cannot be so.
    pub fn faults(&self) -> Vec<Impossible> {
        let purity = Figure::Purity.check(self.purity_percent).err();
        let germination = Figure::Germination.check(self.germination_percent).err();
        let hard = self.hard_seed.stated().and_then(|percent| Figure::HardSeed.check(percent).err());
        let together = if germination.is_none() && hard.is_none() { self.live_percent().err() } else { None };
        [purity, germination, hard, together].into_iter().flatten().collect()
    }
}
