//! The calibrations of a unit or of a lot as a history, newest first: what charts are made of.

use super::store;
use super::stored::{Calibration, Decided, Row};
use crate::access::Scope;
use crate::db::Cx;
use crate::web::error::Error;
use crate::{args, queries};
use sowmark_core::ids::{LotId, MeteringUnitId};
use std::collections::HashMap;
use std::collections::hash_map::Entry;
use uuid::Uuid;

/// So many of the newest are looked at: more no chart can show.
pub(super) const MOST: usize = 200;

queries! {
    OF_UNIT = "select r.*, c.metering_unit_id, u.seeder_id, c.lot_id, c.scale_id, c.method, c.roller_speed_rpm, c.planned_rate,
            c.planned_speed, c.air_temperature, c.relative_humidity_percent, c.tank_fill_percent, c.place, c.checked_by, c.note,
            c.sheet, c.circumstances, c.judgement, c.verdict, s.name as seeder, u.label as unit
        from calibration c
        join metering_unit u on u.organization_id = c.organization_id and u.id = c.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.metering_unit_id = $2
        order by r.occurred_at desc, r.recorded_at desc, c.id desc limit 200";
    OF_LOT = "select r.*, c.metering_unit_id, u.seeder_id, c.lot_id, c.scale_id, c.method, c.roller_speed_rpm, c.planned_rate,
            c.planned_speed, c.air_temperature, c.relative_humidity_percent, c.tank_fill_percent, c.place, c.checked_by, c.note,
            c.sheet, c.circumstances, c.judgement, c.verdict, s.name as seeder, u.label as unit
        from calibration c
        join metering_unit u on u.organization_id = c.organization_id and u.id = c.metering_unit_id
        join seeder s on s.organization_id = u.organization_id and s.id = u.seeder_id
        join recorded r on r.organization_id = c.organization_id and r.id = c.id
        where c.organization_id = $1 and c.lot_id = $2 and (r.occurred_at, r.recorded_at, r.id) < ($3, $4, $5)
        order by r.occurred_at desc, r.recorded_at desc, c.id desc limit $6";
}

#[derive(Clone, Debug, sqlx::FromRow)]
struct PastRow {
    #[sqlx(flatten)]
    row: Row,
    seeder: String,
    unit: String,
}

/// A calibration, with the names of its machine.
#[derive(Clone, Debug)]
pub(super) struct Past {
    pub(super) calibration: Calibration,
    pub(super) seeder: String,
    pub(super) unit: String,
}

/// The calibrations of a unit that somebody sees.
pub(super) async fn of_unit(cx: &mut Cx<'_>, scope: &Scope, unit: MeteringUnitId) -> Result<Vec<Past>, Error> {
    let rows = cx.fetch_all(OF_UNIT, args![scope.organization, unit]).await?;
    read(cx, scope, rows).await
}

/// A calibration's place among those with its lot: when it happened, when it came in, its id.
pub(super) type Place = (i64, i64, Uuid);

/// Before every calibration, newest first.
pub(super) const NEWEST: Place = (i64::MAX, i64::MAX, Uuid::max());

/// Those calibrations with a lot that somebody sees, on whichever machine, among the next `most` that come after a place, newest
/// first; and the place after which there are more.
pub(super) async fn of_lot(
    cx: &mut Cx<'_>,
    scope: &Scope,
    lot: LotId,
    (occurred, recorded, id): Place,
    most: usize,
) -> Result<(Vec<Past>, Option<Place>), Error> {
    let limit = i64::try_from(most).unwrap_or(i64::MAX);
    let rows: Vec<PastRow> =
        cx.fetch_all(OF_LOT, args![scope.organization, lot, occurred, recorded, id, limit]).await?;
    let last = rows.last().filter(|_| rows.len() == most).map(|found| &found.row.head);
    let more = last.map(|head| (head.occurred_at, head.recorded_at, head.id));
    Ok((read(cx, scope, rows).await?, more))
}

async fn read(cx: &mut Cx<'_>, scope: &Scope, mut rows: Vec<PastRow>) -> Result<Vec<Past>, Error> {
    rows.retain(|found| store::is_seen(scope, &found.row));
    let mut decisions: HashMap<Uuid, Vec<Decided>> = HashMap::new();
    for found in &rows {
        let unit = found.row.metering_unit_id;
        if let Entry::Vacant(unread) = decisions.entry(unit) {
            unread.insert(store::decisions(cx, scope, unit).await?);
        }
    }
    let past = rows.into_iter().map(|PastRow { row, seeder, unit }| {
        let decided = decisions.get(&row.metering_unit_id).map_or(&[][..], Vec::as_slice);
        Ok(Past { calibration: Calibration::read(row, decided)?, seeder, unit })
    });
    past.collect()
}
