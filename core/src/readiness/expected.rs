//! What factor a unit's own past leads one to expect, for the plausibility of a new calibration.

use jiff::Timestamp;

use crate::{
    basis::basis_at,
    ids::{CalibrationId, LotId, RollerId},
    moment::{Moment, in_order},
    readiness::{Standing, Surroundings, UnitHistory, latest_known_tests, same_crop},
};

/// An earlier factor of the unit, and how the seed's bulk density has changed since.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// The earlier calibration.
    pub calibration: CalibrationId,
    /// Its lot.
    pub lot: LotId,
    /// Its factor, kg per revolution per run.
    pub factor: f64,
    /// Bulk density of the new lot over that of the earlier one; `None` if either is not known.
    pub density_ratio: Option<f64>,
}

impl Expected {
    /// The factor to expect, kg per revolution per run: the earlier one times the ratio of bulk densities, which is taken as 1 where
    /// it is not known: a meter delivers volume, so mass goes with density.
    pub fn expected_factor(&self) -> f64 {
        self.factor * self.density_ratio.unwrap_or(1.0)
    }
}

/// The unit's last accepted calibration before `moment` with the same roller and a lot of the same crop as `lot`.
///
/// `roller` is the one in the setup in force at `moment` (see [`basis_at`]). `None` if there is no such calibration; a lot whose
/// crop is not known matches only itself.
pub fn expected_from_history(
    history: &UnitHistory,
    surroundings: &Surroundings,
    moment: Moment,
    roller: RollerId,
    lot: LotId,
) -> Option<Expected> {
    let density = |lot, at: Timestamp| latest_known_tests(surroundings.lots.get(&lot)?, at).bulk_density;
    let same_seed = |other| {
        let crop = |lot| surroundings.lots.get(&lot).map(|facts| &facts.crop);
        other == lot || crop(other).zip(crop(lot)).is_some_and(|(a, b)| same_crop(a, b))
    };
    let same_roller = |at| basis_at(history, at).is_some_and(|basis| basis.setup.what.roller == roller);
    let mut candidates: Vec<_> = history
        .calibrations
        .iter()
        .filter(|earlier| earlier.what.standing == Standing::Accepted && earlier.moment < moment)
        .filter(|earlier| same_seed(earlier.what.lot))
        .collect();
    candidates.sort_by(in_order);
    let earlier = candidates.into_iter().rev().find(|earlier| same_roller(earlier.moment))?;
    let now = density(lot, moment.occurred_at);
    let then = density(earlier.what.lot, earlier.moment.occurred_at);
    Some(Expected {
        calibration: earlier.moment.id.into(),
        lot: earlier.what.lot,
        factor: earlier.what.factor,
        density_ratio: now.zip(then).map(|(now, then)| now / then),
    })
}
