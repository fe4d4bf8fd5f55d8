//! The mass balance of a lot: received - filled + returned - sold - discarded = expected on hand.
//!
//! What was put into a tank has left the store; what was taken out of one again has come back. What was sown is no part of
//! it: that is what the tanks are asked ([`super::tank_spans`]).

use jiff::Timestamp;

use super::Total;
use crate::{
    moment::{Dated, in_order},
    policy::Policy,
};

/// What changes the stock of a lot, or tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Flow {
    /// Came from the supplier.
    Received,
    /// Put into a tank.
    Filled,
    /// Taken out of a tank again, back into the store.
    Emptied,
    /// Came back otherwise.
    Returned,
    /// Sold or given away.
    Sold,
    /// Thrown away, fed, dressed wrong.
    Discarded,
    /// Weighed or counted where it lies; changes nothing.
    Counted,
}

/// A record of a lot's stock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// What it was.
    pub flow: Flow,
    /// How much, kg; `None` for a fill or emptying that nobody weighed.
    pub kg: Option<f64>,
}

/// From when, the instant included, until when, the instant left out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Period {
    /// Open where there is none.
    pub from: Option<Timestamp>,
    /// Open where there is none.
    pub to: Option<Timestamp>,
}

impl Period {
    /// Whether `at` lies in it.
    pub fn holds(self, at: Timestamp) -> bool {
        self.from.is_none_or(|from| from <= at) && self.to.is_none_or(|to| at < to)
    }
}

/// What was found when the stock was counted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Count {
    /// When.
    pub at: Timestamp,
    /// What was there.
    pub found: Total,
    /// What should have been there at that moment.
    pub expected: Total,
}

impl Count {
    /// Counted - expected: above zero there was too much, below it seed is missing.
    pub fn unaccounted(&self) -> Total {
        self.found - self.expected
    }
}

/// The balance of a lot over a period.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LotBalance {
    /// Expected on hand when the period began.
    pub opening: Total,
    /// Received in it.
    pub received: Total,
    /// Put into tanks in it.
    pub filled: Total,
    /// Come back in it, out of tanks or otherwise.
    pub returned: Total,
    /// Sold in it.
    pub sold: Total,
    /// Discarded in it.
    pub discarded: Total,
    /// The latest count in it.
    pub counted: Option<Count>,
    /// Fills and emptyings, up to the period's end, that nobody weighed: the balance does not know them.
    pub unweighed: u32,
}

impl LotBalance {
    /// The balance of a lot's records. Each mass has the standard uncertainty that the policy gives a weighed balance.
    ///
    /// ```
    /// use sowmark_core::{
    ///     moment::{Dated, Moment},
    ///     policy::Policy,
    ///     usage::{Flow, LotBalance, Moved, Period},
    /// };
    /// use uuid::Uuid;
    ///
    /// let record = |id, at: &str, flow, kg| {
    ///     let at = at.parse().unwrap();
    ///     let moment = Moment { occurred_at: at, recorded_at: at, id: Uuid::from_u128(id) };
    ///     Dated::new(moment, Moved { flow, kg: Some(kg) })
    /// };
    /// let records = [
    ///     record(1, "2027-03-01T08:00:00Z", Flow::Received, 4000.0),
    ///     record(2, "2027-04-06T06:00:00Z", Flow::Filled, 1500.0),
    ///     record(3, "2027-04-06T18:00:00Z", Flow::Emptied, 240.0),
    ///     record(4, "2027-04-07T09:00:00Z", Flow::Counted, 2725.0),
    /// ];
    /// let balance = LotBalance::of(&records, Period::default(), &Policy::default());
    /// assert_eq!(balance.expected_on_hand().kg, 2740.0);
    /// let missing = balance.counted.unwrap().unaccounted();
    /// // 15 kg too little, and four weighings of ± 10 kg each: nothing that would need to be explained.
    /// assert_eq!((missing.kg, missing.uncertainty_kg()), (-15.0, 20.0));
    /// ```
    pub fn of(records: &[Dated<Moved>], period: Period, policy: &Policy) -> Self {
        let mut balance = period.from.map_or_else(Self::default, |from| {
            let before = Self::of(records, Period { from: None, to: Some(from) }, policy);
            Self { opening: before.expected_on_hand(), unweighed: before.unweighed, ..Self::default() }
        });
        let mut sorted: Vec<_> = records.iter().filter(|record| period.holds(record.moment.occurred_at)).collect();
        sorted.sort_by(in_order);
        for record in sorted {
            balance.add(record, policy.weighed_balance_uncertainty_kg);
        }
        balance
    }

    fn add(&mut self, record: &Dated<Moved>, uncertainty_kg: f64) {
        let Some(kg) = record.what.kg else {
            self.unweighed += 1;
            return;
        };
        let part = match record.what.flow {
            Flow::Received => &mut self.received,
            Flow::Filled => &mut self.filled,
            Flow::Emptied | Flow::Returned => &mut self.returned,
            Flow::Sold => &mut self.sold,
            Flow::Discarded => &mut self.discarded,
            Flow::Counted => {
                let mut found = Total::default();
                found.add(kg, uncertainty_kg);
                let at = record.moment.occurred_at;
                self.counted = Some(Count { at, found, expected: self.expected_on_hand() });
                return;
            }
        };
        part.add(kg, uncertainty_kg);
    }

    /// What should be there when the period ends: opening + received - filled + returned - sold - discarded.
    pub fn expected_on_hand(&self) -> Total {
        self.opening + self.received - self.filled + self.returned - self.sold - self.discarded
    }
}
