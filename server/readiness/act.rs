//! What is asked of readiness: the records of units gathered for `core`, and `core`'s answer with its sentences.

use super::gather;
use super::names::Names;
use super::sentence::Teller;
use super::store::{self, Span, UnitRow};
use crate::access::{Actor, Scope};
use crate::clock::Stamp;
use crate::db::Cx;
use crate::fleet::seeder::key_in::{Factor, KeyIn};
use crate::input;
use crate::web::error::Error;
use crate::web::reader::Reader;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use sowmark_core::ids::{LotId, MeteringUnitId, SeederId};
use sowmark_core::moment::{Dated, Moment};
use sowmark_core::readiness::{self, Emptying, Fill, Readiness, Surroundings, UnitHistory};
use uuid::Uuid;

/// The units that somebody sees, what was recorded of each, and what surrounds them.
#[derive(Clone, Debug)]
pub struct Records {
    pub units: Vec<(UnitRow, UnitHistory)>,
    pub surroundings: Surroundings,
    pub names: Names,
}

/// The one read model: every record that stands, of the units in scope, or of one of them. A unit out of scope is not
/// there. The surroundings are the whole organization's whatever the scope, because a judgement must not depend on who
/// asks; the names are those that the scope may know.
///
/// # Errors
/// The database.
pub async fn histories(
    cx: &mut Cx<'_>,
    scope: &Scope,
    zone: &TimeZone,
    only: Option<MeteringUnitId>,
) -> Result<Records, Error> {
    let organization = scope.organization;
    let span = only.map_or(Span::ALL, |unit| Span::only(unit.0));
    let mut units = store::units(cx, organization, span).await?;
    units.retain(|unit| scope.seeders.includes(&SeederId(unit.seeder_id)));
    let seeders = match (only, units.first()) {
        (Some(_), Some(unit)) => Span::only(unit.seeder_id),
        _ => Span::ALL,
    };
    let rows = store::records(cx, organization, seeders, span).await?;
    let around = store::surroundings(cx, organization).await?;
    let (rollers, people) = (store::rollers(cx, organization).await?, store::people(cx, organization).await?);
    let histories = gather::histories(scope, &units, &rows)?;
    Ok(Records {
        units: units.into_iter().zip(histories).collect(),
        surroundings: gather::surroundings(zone, &around)?,
        names: Names::new(scope, &around, &rows, rollers, people)?,
    })
}

/// The units that somebody sees, read one after the other, and what surrounds them read once: for reports, whose memory must
/// not grow with the fleet.
#[derive(Debug)]
pub struct OneByOne {
    rows: store::SurroundingRows,
    rollers: Vec<store::NameRow>,
    people: Vec<store::NameRow>,
    units: Vec<UnitRow>,
    /// Of the unit that was read last.
    records: Records,
}

impl OneByOne {
    /// What surrounds the units, and which there are; of one seeder, or of all.
    ///
    /// # Errors
    /// The database.
    pub async fn new(cx: &mut Cx<'_>, scope: &Scope, zone: &TimeZone, seeder: Option<SeederId>) -> Result<Self, Error> {
        let organization = scope.organization;
        let mut units = store::units(cx, organization, Span::ALL).await?;
        units.retain(|unit| scope.seeders.includes(&SeederId(unit.seeder_id)));
        units.retain(|unit| seeder.is_none_or(|only| only.0 == unit.seeder_id));
        let rows = store::surroundings(cx, organization).await?;
        let (rollers, people) = (store::rollers(cx, organization).await?, store::people(cx, organization).await?);
        let nothing = store::UnitRecordRows::default();
        let names = Names::new(scope, &rows, &nothing, rollers.clone(), people.clone())?;
        let surroundings = gather::surroundings(zone, &rows)?;
        Ok(Self { rows, rollers, people, units, records: Records { units: Vec::new(), surroundings, names } })
    }

    /// The units, in the order of the board.
    #[must_use]
    pub fn units(&self) -> &[UnitRow] {
        &self.units
    }

    /// What surrounds them.
    #[must_use]
    pub fn surroundings(&self) -> &Surroundings {
        &self.records.surroundings
    }

    /// The records of one of the units, and of no other.
    ///
    /// # Errors
    /// The database.
    pub async fn read(&mut self, cx: &mut Cx<'_>, scope: &Scope, unit: &UnitRow) -> Result<&Records, Error> {
        let (seeder, only) = (Span::only(unit.seeder_id), Span::only(unit.id));
        let rows = store::records(cx, scope.organization, seeder, only).await?;
        let units = std::slice::from_ref(unit);
        let histories = gather::histories(scope, units, &rows)?;
        self.records.units = units.iter().cloned().zip(histories).collect();
        self.records.names = Names::new(scope, &self.rows, &rows, self.rollers.clone(), self.people.clone())?;
        Ok(&self.records)
    }
}

/// What surrounds the units of an organization.
///
/// # Errors
/// The database.
pub async fn surroundings(cx: &mut Cx<'_>, scope: &Scope, zone: &TimeZone) -> Result<Surroundings, Error> {
    gather::surroundings(zone, &store::surroundings(cx, scope.organization).await?)
}

/// One unit's records and what surrounds it, for whoever computes with them: a new calibration's basis, the usage audit.
///
/// # Errors
/// 404 when the unit is not there or out of scope.
pub async fn history(
    cx: &mut Cx<'_>,
    scope: &Scope,
    zone: &TimeZone,
    unit: MeteringUnitId,
) -> Result<(UnitHistory, Surroundings), Error> {
    let row = find_unit(cx, scope, unit).await?;
    let rows = store::records(cx, scope.organization, Span::only(row.seeder_id), Span::only(unit.0)).await?;
    let history = gather::histories(scope, &[row], &rows)?.pop().ok_or_else(|| Error::not_there("metering unit"))?;
    Ok((history, surroundings(cx, scope, zone).await?))
}

input! {
    /// At which moment.
    pub struct ReadinessAsked {
        /// RFC 3339; now unless told. Any moment, past or to come, is answered from what is known now.
        pub at: Option<Stamp>,
    }
}

/// A unit and its seeder.
///
/// # Errors
/// 404 when the unit is not there or out of scope.
pub async fn find_unit(cx: &mut Cx<'_>, scope: &Scope, unit: MeteringUnitId) -> Result<UnitRow, Error> {
    let mut units = store::units(cx, scope.organization, Span::only(unit.0)).await?;
    units.retain(|unit| scope.seeders.includes(&SeederId(unit.seeder_id)));
    units.pop().ok_or_else(|| Error::not_there("metering unit"))
}

/// A unit at a moment, with a sentence for each trigger that is due.
#[derive(Clone, Debug)]
pub struct UnitNow {
    pub unit: UnitRow,
    pub readiness: Readiness,
    /// One for each of `readiness.due`, in its order.
    pub says: Vec<String>,
}

impl UnitNow {
    /// The factor in force, and how well it is known.
    #[must_use]
    pub fn factor(&self, names: &Names) -> Option<Factor> {
        self.readiness.in_force.as_ref().map(|number| Factor {
            per_run: number.factor,
            whole_unit: number.factor_unit_total,
            expanded_uncertainty_percent: names.uncertainty_percent(number.calibration.0),
        })
    }

    /// The number to key in, in the form that the controller wants.
    #[must_use]
    pub fn key_in(&self, names: &Names, reader: Reader) -> Option<KeyIn> {
        self.factor(names).map(|factor| KeyIn::of(self.unit.keyed_in.0, &factor, reader))
    }
}

/// Every unit that somebody sees, at a moment.
#[derive(Clone, Debug)]
pub struct Board {
    pub at: Timestamp,
    pub units: Vec<UnitNow>,
    pub names: Names,
}

/// The readiness of every unit in scope at a moment, or of one of them. Who is limited to some clients sees the units
/// that hold those clients' seed at that moment.
///
/// # Errors
/// The database.
pub async fn board(
    cx: &mut Cx<'_>,
    actor: &Actor,
    at: Timestamp,
    only: Option<MeteringUnitId>,
) -> Result<Board, Error> {
    board_for(cx, actor, actor.reader(), at, only).await
}

/// The same, told to another reader than the actor.
///
/// # Errors
/// The database.
pub async fn board_for(
    cx: &mut Cx<'_>,
    actor: &Actor,
    reader: Reader,
    at: Timestamp,
    only: Option<MeteringUnitId>,
) -> Result<Board, Error> {
    let Records { units, surroundings, names } = histories(cx, &actor.scope, &actor.time_zone, only).await?;
    let teller = Teller { names: &names, zone: &actor.time_zone, reader, at };
    let units = units
        .into_iter()
        .map(|(unit, history)| (unit, readiness::readiness(&history, &surroundings, at)))
        .filter(|(_, readiness)| may_see(&actor.scope, readiness.lot))
        .map(|(unit, readiness)| {
            let says = readiness.due.iter().map(|due| teller.says(due, readiness.compared_with)).collect();
            UnitNow { unit, readiness, says }
        })
        .collect();
    Ok(Board { at, units, names })
}

/// One unit at a moment, told to a reader.
///
/// # Errors
/// 404 when it is not there, out of scope, or holds another client's seed.
pub async fn unit_now(
    cx: &mut Cx<'_>,
    actor: &Actor,
    reader: Reader,
    at: Timestamp,
    unit: MeteringUnitId,
) -> Result<(UnitNow, Names), Error> {
    let mut board = board_for(cx, actor, reader, at, Some(unit)).await?;
    let now = board.units.pop().ok_or_else(|| Error::not_there("metering unit"))?;
    Ok((now, board.names))
}

/// What a unit would be with a lot, were its tank emptied and filled with it at this moment and nothing else changed.
#[must_use]
pub fn if_filled(history: &UnitHistory, around: &Surroundings, at: Timestamp, lot: LotId) -> Readiness {
    let mut history = history.clone();
    // After every record of the same moment.
    let moment = |last: u128| Moment { occurred_at: at, recorded_at: Timestamp::MAX, id: Uuid::from_u128(last) };
    history.emptyings.push(Dated::new(moment(u128::MAX - 1), Emptying { lot, to_empty: true }));
    history.fills.push(Dated::new(moment(u128::MAX), Fill { lot }));
    readiness::readiness(&history, around, at)
}

/// Whether somebody may see a unit that holds this lot.
pub(crate) fn may_see(scope: &Scope, lot: Option<LotId>) -> bool {
    Names::is_whole(scope) || lot.is_some_and(|lot| scope.lots.includes(&lot))
}
