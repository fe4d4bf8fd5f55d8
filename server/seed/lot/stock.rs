//! How much of a lot should be there, for [`sowmark_core::usage`]: every record that moved it.

use super::store::LotRow;
use crate::access::Scope;
use crate::db::Cx;
use crate::readiness::policy;
use crate::records::head;
use crate::web::error::Error;
use crate::web::reader::Reader;
use crate::{args, queries};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use sowmark_core::ids::LotId;
use sowmark_core::moment::{Dated, Moment, midnight};
use sowmark_core::say;
use sowmark_core::usage::{Count, Flow, LotBalance, Moved, Period};
use std::collections::HashMap;
use uuid::Uuid;

queries! {
    MOVED = "select m.lot_id, m.kind as flow, m.mass_kg as kg, s.id, s.occurred_at, s.recorded_at from movement m
        join standing s on s.organization_id = m.organization_id and s.id = m.id where m.organization_id = $1
        union all select f.lot_id, 'filled', f.mass_kg, s.id, s.occurred_at, s.recorded_at from fill f
        join standing s on s.organization_id = f.organization_id and s.id = f.id where f.organization_id = $1
        union all select y.lot_id, 'emptied', y.mass_kg, s.id, s.occurred_at, s.recorded_at from emptying y
        join standing s on s.organization_id = y.organization_id and s.id = y.id where y.organization_id = $1";
    MOVED_OF = "select m.lot_id, m.kind as flow, m.mass_kg as kg, s.id, s.occurred_at, s.recorded_at from movement m
        join standing s on s.organization_id = m.organization_id and s.id = m.id
        where m.organization_id = $1 and m.lot_id = $2
        union all select f.lot_id, 'filled', f.mass_kg, s.id, s.occurred_at, s.recorded_at from fill f
        join standing s on s.organization_id = f.organization_id and s.id = f.id
        where f.organization_id = $1 and f.lot_id = $2
        union all select y.lot_id, 'emptied', y.mass_kg, s.id, s.occurred_at, s.recorded_at from emptying y
        join standing s on s.organization_id = y.organization_id and s.id = y.id
        where y.organization_id = $1 and y.lot_id = $2";
}

/// Something that changed a stock.
#[derive(Clone, Debug, sqlx::FromRow)]
struct FlowRow {
    lot_id: Uuid,
    /// A kind of movement, `filled` or `emptied`.
    flow: String,
    /// None: not weighed.
    kg: Option<f64>,
    id: Uuid,
    occurred_at: i64,
    recorded_at: i64,
}

impl FlowRow {
    fn record(&self) -> Result<Dated<Moved>, Error> {
        let flow = match self.flow.as_str() {
            "received" => Flow::Received,
            "filled" => Flow::Filled,
            "emptied" => Flow::Emptied,
            "returned" => Flow::Returned,
            "sold" => Flow::Sold,
            "discarded" => Flow::Discarded,
            "counted" => Flow::Counted,
            other => return Err(Error::inconsistent("movement.kind", other)),
        };
        let moment = Moment {
            occurred_at: head::moment(self.occurred_at),
            recorded_at: head::moment(self.recorded_at),
            id: self.id,
        };
        Ok(Dated::new(moment, Moved { flow, kg: self.kg }))
    }
}

/// What the lot came with, on the day that it was received; before everything else where that is not known.
fn delivered(lot: &LotRow, zone: &TimeZone) -> Result<Option<Dated<Moved>>, Error> {
    let Some(kg) = lot.received_mass_kg else { return Ok(None) };
    let day = lot.received_on.as_deref().map(str::parse::<Date>).transpose();
    let day =
        day.map_err(|_| Error::inconsistent("lot.received_on", lot.received_on.as_deref().unwrap_or_default()))?;
    let at = day.map_or(Timestamp::UNIX_EPOCH, |day| midnight(day, zone));
    let moment = Moment { occurred_at: at, recorded_at: at, id: lot.id };
    Ok(Some(Dated::new(moment, Moved { flow: Flow::Received, kg: Some(kg) })))
}

/// The balance of one lot up to now.
///
/// # Errors
/// The database.
pub async fn balance_of(cx: &mut Cx<'_>, scope: &Scope, zone: &TimeZone, lot: &LotRow) -> Result<LotBalance, Error> {
    let rows: Vec<FlowRow> = cx.fetch_all(MOVED_OF, args![scope.organization, LotId(lot.id)]).await?;
    let policy = policy::in_force(cx, scope).await?.policy;
    let moved = rows.iter().map(FlowRow::record).chain(delivered(lot, zone)?.map(Ok));
    Ok(LotBalance::of(&moved.collect::<Result<Vec<_>, Error>>()?, Period::default(), &policy))
}

/// The balances of lots over a period.
///
/// # Errors
/// The database.
pub async fn balances(
    cx: &mut Cx<'_>,
    scope: &Scope,
    zone: &TimeZone,
    lots: &[LotRow],
    period: Period,
) -> Result<HashMap<Uuid, LotBalance>, Error> {
    let rows: Vec<FlowRow> = cx.fetch_all(MOVED, args![scope.organization]).await?;
    let policy = policy::in_force(cx, scope).await?.policy;
    let mut of_lot: HashMap<Uuid, Vec<Dated<Moved>>> = HashMap::new();
    for row in &rows {
        of_lot.entry(row.lot_id).or_default().push(row.record()?);
    }
    lots.iter()
        .map(|lot| {
            let mut moved = of_lot.remove(&lot.id).unwrap_or_default();
            moved.extend(delivered(lot, zone)?);
            Ok((lot.id, LotBalance::of(&moved, period, &policy)))
        })
        .collect()
}

/// What was counted, and on which day.
#[must_use]
pub fn counted(count: Count, reader: Reader, zone: &TimeZone) -> String {
    let day = zone.to_datetime(count.at).date().to_string();
    say!(reader.words, "stock-count", mass = reader.mass(count.found.kg), day = head::said_day(&day, reader.words))
}
