//! What a plan comes to: everything that the answer and the page tell, in SI.

use super::asked::{Asked, Wanted};
use crate::web::error::Error;
use sowmark_core::figure::Impossible;
use sowmark_core::rate::Range;
use sowmark_core::say;
use sowmark_core::seed::{self, Convention, HardSeed, PureLiveSeed};
use sowmark_core::words::Words;

/// What a plan comes to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Answer {
    /// By the seeds wanted, or from the bag for pure live seed; kg/m².
    pub(super) rate: f64,
    /// From the bag, where a purity was given beside plants.
    pub(super) rate_from_bag: Option<f64>,
    pub(super) seeds_per_m2: Option<f64>,
    pub(super) live_seeds_per_m2: Option<f64>,
    pub(super) establishment: Option<(Convention, f64)>,
    pub(super) live: Option<(PureLiveSeed, f64)>,
    pub(super) thousand_seed_weight_g: Option<f64>,
    pub(super) per_metre_of_row: Option<f64>,
    pub(super) bushels_per_m2: Option<f64>,
    pub(super) range: Option<Range>,
}

impl Answer {
    /// What goes through the meter: from the bag where that differs.
    pub(super) fn sown_rate(&self) -> f64 {
        self.rate_from_bag.unwrap_or(self.rate)
    }

    pub(super) fn of(asked: &Asked) -> Result<Self, Error> {
        // What was read was checked; a refusal here is a figure that only follows from the others.
        Self::work_out(asked).map_err(|impossible| Error::fault("", move |words: Words| impossible.says(words)))
    }

    fn work_out(asked: &Asked) -> Result<Self, Impossible> {
        let mut answer = match asked.wanted {
            Wanted::Plants { plan, purity, doubt } => {
                let sown = plan.work_out()?;
                Self {
                    rate: sown.rate,
                    rate_from_bag: purity.map(|percent| sown.rate / (percent / 100.0)),
                    seeds_per_m2: Some(sown.seeds_per_m2),
                    live_seeds_per_m2: None,
                    establishment: Some((sown.convention, sown.establishment_percent)),
                    live: None,
                    thousand_seed_weight_g: Some(plan.thousand_seed_weight_g),
                    per_metre_of_row: None,
                    bushels_per_m2: None,
                    range: doubt.map(|doubt| plan.range(doubt)).transpose()?,
                }
            }
            Wanted::Live { lot, rate, thousand_seed_weight_g } => {
                let bulk = lot.bulk_rate(rate)?;
                let seeds = |rate: f64| thousand_seed_weight_g.map(|weight| rate * 1e6 / weight);
                Self {
                    rate: bulk,
                    rate_from_bag: None,
                    seeds_per_m2: seeds(bulk),
                    live_seeds_per_m2: seeds(rate),
                    establishment: None,
                    live: Some((lot, lot.fraction()?)),
                    thousand_seed_weight_g,
                    per_metre_of_row: None,
                    bushels_per_m2: None,
                    range: None,
                }
            }
        };
        let along = asked.row_spacing.zip(answer.seeds_per_m2);
        answer.per_metre_of_row = along.map(|(spacing, seeds)| seed::per_metre_of_row(seeds, spacing)).transpose()?;
        answer.bushels_per_m2 =
            asked.bulk_density.map(|density| seed::bushels_per_m2(answer.sown_rate(), density)).transpose()?;
        Ok(answer)
    }

    /// How it was reckoned, named for the person who reads it.
    pub(super) fn says(&self, words: Words) -> String {
        if let Some((convention, percent)) = self.establishment {
            let how = convention.says(words);
            return say!(words, "plan-says-establishment", percent = words.percent(percent), how = how);
        }
        let Some((lot, fraction)) = self.live else { return String::new() };
        let hard = match lot.hard_seed {
            HardSeed::NotStated => "not-stated",
            HardSeed::Counted(_) => "counted",
            HardSeed::LeftOut(_) => "left-out",
        };
        say!(words, "plan-says-live", percent = words.percent(100.0 * fraction), hard = hard)
    }
}
