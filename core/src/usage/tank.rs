//! The balance of a metering unit's tank: filled - emptied against the sum sown, from one time that it was empty to the next.

use jiff::Timestamp;

use super::{Sown, Total};
use crate::{
    ids::LotId,
    moment::{Dated, in_order},
    policy::Policy,
    readiness::SeedUsedBasis,
};

/// What changes the seed in a tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TankFlow {
    /// Seed was put in: kg, `None` where nobody weighed it.
    Filled(Option<f64>),
    /// Seed was taken out.
    Emptied {
        /// How much, kg; `None` where nobody weighed it.
        kg: Option<f64>,
        /// Whether nothing was left in.
        to_empty: bool,
    },
    /// A job sowed of it.
    Sown {
        /// The seed used, kg.
        kg: f64,
        /// How that is known.
        basis: SeedUsedBasis,
    },
}

/// A tank from one time that it was empty to the next, or until now.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TankSpan {
    /// The first record of it.
    pub began: Option<Timestamp>,
    /// When it was emptied to empty; `None` while seed should be in it.
    pub ended: Option<Timestamp>,
    /// The lots that were in it, the first at the front.
    pub lots: Vec<LotId>,
    /// Put in.
    pub filled: Total,
    /// Taken out.
    pub emptied: Total,
    /// Sown of it.
    pub sown: Sown,
    /// Fills and emptyings that nobody weighed: the balance does not know them.
    pub unweighed: u32,
}

impl TankSpan {
    /// Filled - emptied - sown: what should still be in the tank; of a tank that was emptied to empty, the seed that nobody can
    /// account for.
    pub fn left(&self) -> Total {
        self.filled - self.emptied - self.sown.all()
    }

    /// The seed that nobody can account for, above zero if more was put in than came out: of a tank that was emptied to empty,
    /// with everything weighed.
    pub fn unaccounted(&self) -> Option<Total> {
        (self.ended.is_some() && self.unweighed == 0).then(|| self.left())
    }

    fn add(&mut self, record: &Dated<(LotId, TankFlow)>, policy: &Policy) {
        let at = record.moment.occurred_at;
        let (lot, flow) = record.what;
        self.began.get_or_insert(at);
        if !self.lots.contains(&lot) {
            self.lots.push(lot);
        }
        let uncertainty_kg = policy.weighed_balance_uncertainty_kg;
        let (total, kg) = match flow {
            TankFlow::Filled(kg) => (&mut self.filled, kg),
            TankFlow::Emptied { kg, .. } => (&mut self.emptied, kg),
            TankFlow::Sown { kg, basis } => {
                self.sown = self.sown.and(kg, basis, policy);
                return;
            }
        };
        match kg {
            Some(kg) => total.add(kg, uncertainty_kg),
            None => self.unweighed += 1,
        }
        if matches!(flow, TankFlow::Emptied { to_empty: true, .. }) {
            self.ended = Some(at);
        }
    }
}

/// The spans of a tank, oldest first: each ends when it was emptied to empty. Another lot filled on top of what is left
/// belongs to the same span.
///
/// ```
/// use sowmark_core::{
///     moment::{Dated, Moment},
///     policy::Policy,
///     readiness::SeedUsedBasis,
///     usage::{TankFlow, tank_spans},
/// };
/// use uuid::Uuid;
///
/// let lot = Uuid::from_u128(24).into();
/// let record = |id, at: &str, flow| {
///     let at = at.parse().unwrap();
///     Dated::new(Moment { occurred_at: at, recorded_at: at, id: Uuid::from_u128(id) }, (lot, flow))
/// };
/// let records = [
///     record(1, "2025-10-02T05:00:00Z", TankFlow::Filled(Some(1500.0))),
///     record(2, "2025-10-02T06:05:00Z", TankFlow::Sown { kg: 2247.0, basis: SeedUsedBasis::MachineTotal }),
///     record(3, "2025-10-02T08:30:00Z", TankFlow::Filled(Some(1000.0))),
///     record(4, "2025-10-02T11:30:00Z", TankFlow::Emptied { kg: Some(240.0), to_empty: true }),
/// ];
/// let spans = tank_spans(&records, &Policy::default());
/// // 2260 kg left the tank; the machine believes that it sowed 2247 kg.
/// assert_eq!(spans[0].unaccounted().unwrap().kg, 13.0);
/// ```
pub fn tank_spans(records: &[Dated<(LotId, TankFlow)>], policy: &Policy) -> Vec<TankSpan> {
    let mut sorted: Vec<_> = records.iter().collect();
    sorted.sort_by(in_order);
    let mut spans: Vec<TankSpan> = Vec::new();
    for record in sorted {
        if spans.last().is_none_or(|span| span.ended.is_some()) {
            spans.push(TankSpan::default());
        }
        if let Some(span) = spans.last_mut() {
            span.add(record, policy);
        }
    }
    spans
}
