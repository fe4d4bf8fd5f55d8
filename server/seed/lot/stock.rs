//! How much of a lot should be there: received - filled + returned - sold - discarded = expected on hand.
//!
//! What was put into a tank has left the store; what was taken out of one again has come back. Nothing here tells what
//! was sown: that is the usage's matter.

use super::store::LotRow;
use crate::access::Scope;
use crate::db::{Cx, Result};
use crate::{args, queries};
use sowmark_core::ids::LotId;
use std::collections::HashMap;
use uuid::Uuid;

queries! {
    MOVED = "select m.lot_id, m.kind as flow, m.mass_kg as kg, s.occurred_at from movement m
        join standing s on s.organization_id = m.organization_id and s.id = m.id where m.organization_id = $1
        union all select f.lot_id, 'filled', f.mass_kg, s.occurred_at from fill f
        join standing s on s.organization_id = f.organization_id and s.id = f.id where f.organization_id = $1
        union all select y.lot_id, 'emptied', y.mass_kg, s.occurred_at from emptying y
        join standing s on s.organization_id = y.organization_id and s.id = y.id where y.organization_id = $1
        order by 4";
    MOVED_OF = "select m.lot_id, m.kind as flow, m.mass_kg as kg, s.occurred_at from movement m
        join standing s on s.organization_id = m.organization_id and s.id = m.id
        where m.organization_id = $1 and m.lot_id = $2
        union all select f.lot_id, 'filled', f.mass_kg, s.occurred_at from fill f
        join standing s on s.organization_id = f.organization_id and s.id = f.id
        where f.organization_id = $1 and f.lot_id = $2
        union all select y.lot_id, 'emptied', y.mass_kg, s.occurred_at from emptying y
        join standing s on s.organization_id = y.organization_id and s.id = y.id
        where y.organization_id = $1 and y.lot_id = $2
        order by 4";
}

/// Something that changed a stock.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Flow {
    pub lot_id: Uuid,
    /// A kind of movement, `filled` or `emptied`.
    pub flow: String,
    /// None: not weighed.
    pub kg: Option<f64>,
    pub occurred_at: i64,
}

/// The balance of a lot, in kg.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stock {
    pub received: f64,
    pub filled: f64,
    pub returned: f64,
    pub sold: f64,
    pub discarded: f64,
    /// What the latest count found.
    pub counted: Option<f64>,
    /// What was expected to be there at that count.
    pub expected_when_counted: f64,
    /// Fills and emptyings that nobody weighed: the balance does not know them.
    pub unweighed: u32,
}

impl Stock {
    /// The balance of a lot whose flows come in the order in which they happened.
    #[must_use]
    pub fn of<'f>(lot: &LotRow, flows: impl IntoIterator<Item = &'f Flow>) -> Self {
        let mut stock = Self { received: lot.received_mass_kg.unwrap_or(0.0), ..Self::default() };
        for flow in flows {
            stock.add(flow);
        }
        stock
    }

    fn add(&mut self, flow: &Flow) {
        let Some(kg) = flow.kg else {
            self.unweighed += 1;
            return;
        };
        match flow.flow.as_str() {
            "received" => self.received += kg,
            "filled" => self.filled += kg,
            "returned" | "emptied" => self.returned += kg,
            "sold" => self.sold += kg,
            "discarded" => self.discarded += kg,
            _ => {
                self.expected_when_counted = self.expected();
                self.counted = Some(kg);
            }
        }
    }

    /// Expected on hand.
    #[must_use]
    pub fn expected(&self) -> f64 {
        self.received - self.filled + self.returned - self.sold - self.discarded
    }

    /// What the latest count found too much (above zero) or too little, against what was expected then.
    #[must_use]
    pub fn unaccounted(&self) -> Option<f64> {
        self.counted.map(|counted| counted - self.expected_when_counted)
    }
}

/// The balance of one lot.
///
/// # Errors
/// The database.
pub async fn stock_of(cx: &mut Cx<'_>, scope: &Scope, lot: &LotRow) -> Result<Stock> {
    let flows: Vec<Flow> = cx.fetch_all(MOVED_OF, args![scope.organization, LotId(lot.id)]).await?;
    Ok(Stock::of(lot, &flows))
}

/// The balances of lots.
///
/// # Errors
/// The database.
pub async fn stocks(cx: &mut Cx<'_>, scope: &Scope, lots: &[LotRow]) -> Result<HashMap<Uuid, Stock>> {
    let flows: Vec<Flow> = cx.fetch_all(MOVED, args![scope.organization]).await?;
    let mut of_lot: HashMap<Uuid, Vec<&Flow>> = HashMap::new();
    for flow in &flows {
        of_lot.entry(flow.lot_id).or_default().push(flow);
    }
    Ok(lots.iter().map(|lot| (lot.id, Stock::of(lot, of_lot.remove(&lot.id).unwrap_or_default()))).collect())
}
