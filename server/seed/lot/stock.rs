//! How much of a lot should be there, for [`sowmark_core::usage`]: every record that moved it.

use super::store::LotRow;
use crate::access::{Actor, Permission, Scope};
use crate::db::Cx;
use crate::readiness::policy;
use crate::records::head;
use crate::web::error::Error;
use crate::web::reader::Reader;
use crate::{args, queries};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use sowmark_core::ids::{LotId, SeederId};
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
    CAME_IN = "select m.lot_id, m.mass_kg as kg, s.occurred_at, cast(null as text) as received_on from movement m
        join standing s on s.organization_id = m.organization_id and s.id = m.id
        where m.organization_id = $1 and m.kind in ('received', 'returned') and m.lot_id in (
            select f.lot_id from fill f
            join metering_unit u on u.organization_id = f.organization_id and u.id = f.metering_unit_id
            where f.organization_id = $1 and f.lot_id between $2 and $3 and u.seeder_id between $4 and $5)
        union all select l.id, l.received_mass_kg, cast(null as bigint), l.received_on from lot l
        where l.organization_id = $1 and l.received_mass_kg is not null and l.id in (
            select f.lot_id from fill f
            join metering_unit u on u.organization_id = f.organization_id and u.id = f.metering_unit_id
            where f.organization_id = $1 and f.lot_id between $2 and $3 and u.seeder_id between $4 and $5)";
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
    let at = delivered_at(lot.received_on.as_deref(), zone)?;
    let moment = Moment { occurred_at: at, recorded_at: at, id: lot.id };
    Ok(Some(Dated::new(moment, Moved { flow: Flow::Received, kg: Some(kg) })))
}

fn delivered_at(day: Option<&str>, zone: &TimeZone) -> Result<Timestamp, Error> {
    let Some(day) = day else { return Ok(Timestamp::UNIX_EPOCH) };
    let date = day.parse::<Date>().map_err(|_| Error::inconsistent("lot.received_on", day))?;
    Ok(midnight(date, zone))
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

/// Seed that came into a store: with the lot, or later.
#[derive(Clone, Debug, sqlx::FromRow)]
struct CameInRow {
    lot_id: Uuid,
    kg: f64,
    /// Of a movement; what a lot came with has the day that it was received.
    occurred_at: Option<i64>,
    received_on: Option<String>,
}

/// What came in of lots, and when. Of a lot that is not among them nothing is known.
#[derive(Clone, Debug, Default)]
pub struct CameIn(HashMap<Uuid, Vec<(i64, f64)>>);

impl CameIn {
    /// Of every lot that a seeder was filled with; nothing for who does not see stock.
    ///
    /// # Errors
    /// The database.
    pub async fn of_seeder(cx: &mut Cx<'_>, actor: &Actor, seeder: SeederId) -> Result<Self, Error> {
        Self::between(cx, actor, [Uuid::nil(), Uuid::max(), seeder.0, seeder.0]).await
    }

    /// Of a lot, where any seeder was filled with it; nothing for who does not see stock.
    ///
    /// # Errors
    /// The database.
    pub async fn of_lot(cx: &mut Cx<'_>, actor: &Actor, lot: LotId) -> Result<Self, Error> {
        Self::between(cx, actor, [lot.0, lot.0, Uuid::nil(), Uuid::max()]).await
    }

    async fn between(cx: &mut Cx<'_>, actor: &Actor, ids: [Uuid; 4]) -> Result<Self, Error> {
        if !actor.may(Permission::ReadStock) {
            return Ok(Self::default());
        }
        let [first_lot, last_lot, first, last] = ids;
        let values = args![actor.organization(), first_lot, last_lot, first, last];
        let rows: Vec<CameInRow> = cx.fetch_all(CAME_IN, values).await?;
        let mut of_lot: HashMap<Uuid, Vec<(i64, f64)>> = HashMap::new();
        for row in rows {
            let at = match row.occurred_at {
                Some(at) => at,
                None => delivered_at(row.received_on.as_deref(), &actor.time_zone)?.as_microsecond(),
            };
            of_lot.entry(row.lot_id).or_default().push((at, row.kg));
        }
        Ok(Self(of_lot))
    }

    /// All of a lot that had come in until a moment, kg.
    #[must_use]
    pub fn until(&self, lot: LotId, at: i64) -> f64 {
        let came = self.0.get(&lot.0).into_iter().flatten();
        came.filter(|(when, _)| *when <= at).map(|(_, kg)| kg).sum()
    }
}

/// What was counted, and on which day.
#[must_use]
pub fn counted(count: Count, reader: Reader, zone: &TimeZone) -> String {
    let day = zone.to_datetime(count.at).date().to_string();
    say!(reader.words, "stock-count", mass = reader.mass(count.found.kg), day = head::said_day(&day, reader.words))
}
