//! Which lot is in a metering unit's tank, and what it is mixed with.

use jiff::Timestamp;

use crate::{
    ids::LotId,
    readiness::{
        UnitHistory,
        timeline::{Happening, happenings},
    },
};

/// What is in a tank.
///
/// The lot of the latest fill, calibration or job counts as in the tank, until it is emptied to empty. A fill of another lot onto
/// what is left is a mix with the lots that were in. A calibration or job that names a lot of which no fill is known tells that
/// somebody changed the seed without logging it: that lot replaces what was there, and no mix is claimed. If the named lot is
/// already part of a mix, the mix stays and the named lot counts.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tank {
    /// The lot that counts as in the tank; `None` when it is empty.
    pub lot: Option<LotId>,
    /// The other lots that are in, the one that came first at the front.
    pub mixed_with: Vec<LotId>,
}

impl Tank {
    /// What a record does to the tank; most do nothing.
    pub(super) fn after(&mut self, happening: &Happening<'_>) {
        match happening {
            Happening::Fill(fill) => self.filled(fill.what.lot),
            Happening::Emptying(emptying) if emptying.what.to_empty => *self = Self::default(),
            Happening::Calibration(calibration) => self.named(calibration.what.lot),
            Happening::Job(job) => self.named(job.what.lot),
            _ => {}
        }
    }

    fn filled(&mut self, lot: LotId) {
        if let Some(top) = self.lot.filter(|top| *top != lot) {
            self.mixed_with.retain(|other| *other != lot);
            self.mixed_with.push(top);
        }
        self.lot = Some(lot);
    }

    fn named(&mut self, lot: LotId) {
        if self.mixed_with.contains(&lot) {
            self.filled(lot);
        } else if self.lot != Some(lot) {
            *self = Self { lot: Some(lot), mixed_with: Vec::new() };
        }
    }
}

/// What was in the unit's tank at `at`, records of that instant included.
pub fn tank_at(history: &UnitHistory, at: Timestamp) -> Tank {
    let mut tank = Tank::default();
    for happening in happenings(history, at) {
        tank.after(&happening);
    }
    tank
}
