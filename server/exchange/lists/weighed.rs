//! Calibrations: what each came to, a row each; and what was caught for them, a row for each catch.

use super::fleet::{all_units, scale_names, unit_names};
use super::out::Out;
use super::seed::lot_names;
use super::sheet::Sheet;
use crate::calibration::act;
use crate::calibration::stored::{Calibration, Decided, word};
use crate::fleet::seeder::act::UnitRow;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::input::Whole;
use crate::web::paging::PageAsked;
use sowmark_core::catch::{Catch, Revolutions};
use sowmark_core::ids::{LotId, MeteringUnitId};
use sowmark_core::quantity::unit::dimension::{Length, Mass, MeterFactor, Rate, Speed};
use std::collections::HashMap;
use std::sync::Arc;
use uuid::Uuid;

type Pairs = HashMap<Uuid, (String, String)>;

/// What ids are called.
struct Named {
    units: Pairs,
    lots: Pairs,
    scales: HashMap<Uuid, String>,
}

impl Named {
    async fn of(signed: &Signed) -> Result<Self, Error> {
        let (units, lots) = (unit_names(signed).await?, lot_names(signed).await?);
        Ok(Self { units, lots, scales: scale_names(signed).await? })
    }
}

fn first(names: &Pairs, id: Uuid) -> Option<String> {
    names.get(&id).map(|(first, _)| first.clone())
}

fn second(names: &Pairs, id: Uuid) -> Option<String> {
    names.get(&id).map(|(_, second)| second.clone())
}

/// A row that belongs to a calibration.
trait OfCalibration: 'static {
    fn calibration(&self) -> &Calibration;
}

impl OfCalibration for Calibration {
    fn calibration(&self) -> &Calibration {
        self
    }
}

/// What both lists begin with.
fn begun<'a, R: OfCalibration>(out: &Out, signed: &'a Signed, named: &'a Named) -> Sheet<'a, R> {
    let row = |line: &R| line.calibration().row.clone();
    Sheet::<R>::new(out.way())
        .head(&signed.actor.scope, |line: &R| &line.calibration().row.head)
        .text("seeder", move |line| first(&named.units, line.calibration().row.metering_unit_id))
        .text("metering_unit", move |line| second(&named.units, line.calibration().row.metering_unit_id))
        .text("lot_number", move |line| first(&named.lots, line.calibration().row.lot_id))
        .text("crop", move |line| second(&named.lots, line.calibration().row.lot_id))
        .text("scale", move |line| named.scales.get(&line.calibration().row.scale_id?).cloned())
        .text("method", move |line| Some(row(line).method))
        .number("roller_speed [rpm]", move |line| row(line).roller_speed_rpm)
        .measured::<Rate>("planned_rate", |line: &R| line.calibration().row.planned_rate.as_deref())
        .measured::<Speed>("planned_speed", |line: &R| line.calibration().row.planned_speed.as_deref())
        .temperature("air_temperature", |line: &R| line.calibration().row.air_temperature.as_deref())
        .number("relative_humidity [%]", move |line| row(line).relative_humidity_percent)
        .number("tank_fill [%]", move |line| row(line).tank_fill_percent)
        .text("place", move |line| row(line).place)
        .text("checked_by", move |line| row(line).checked_by)
        .text("note", move |line| Some(row(line).note))
}

/// The calibrations of all units, as far as somebody sees their lots: a page of a unit's at a time, a connection for each.
struct Pages<'a> {
    signed: &'a Signed,
    units: std::vec::IntoIter<UnitRow>,
    /// The unit whose pages are read, and where the next one begins.
    at: Option<(MeteringUnitId, Option<Uuid>)>,
}

impl<'a> Pages<'a> {
    async fn of(signed: &'a Signed) -> Result<Self, Error> {
        Ok(Self { signed, units: all_units(signed).await?.into_iter(), at: None })
    }

    async fn next(&mut self) -> Result<Option<Vec<Arc<Calibration>>>, Error> {
        let Some((unit, after)) = self.at.take().or_else(|| Some((self.units.next()?.id(), None))) else {
            return Ok(None);
        };
        let scope = &self.signed.actor.scope;
        let asked = PageAsked { limit: Some(Whole(100)), after };
        let mut conn = self.signed.app.read().await?;
        let list = act::calibrations_of_unit(&mut conn.cx(), scope, unit, &asked).await?;
        self.at = list.next.and_then(|next| next.parse().ok()).map(|next| (unit, Some(next)));
        let seen = list.items.into_iter().filter(|found| scope.lots.includes(&LotId(found.row.lot_id)));
        Ok(Some(seen.map(Arc::new).collect()))
    }
}

pub(super) async fn calibrations(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let named = Named::of(signed).await?;
    let sheet = begun::<Calibration>(out, signed, &named)
        .text("status", |line| Some(line.status().word().to_owned()))
        .text("verdict", |line| word(&line.judgement.verdict).ok())
        .computed::<MeterFactor>("factor_per_run", |line| Some(line.judgement.factor))
        .computed::<MeterFactor>("factor_unit_total", |line| Some(line.judgement.factor_unit_total))
        .plain("expanded_uncertainty [%]", |line| Some(line.judgement.expanded_uncertainty_percent))
        .plain("coverage_factor", |line| Some(line.judgement.coverage_factor))
        .plain("effective_degrees_of_freedom", |line| line.judgement.effective_degrees_of_freedom)
        .plain("repeat_spread [%]", |line| line.judgement.repeat_spread_percent)
        .plain("run_cv [%]", |line| line.judgement.run_cv_percent)
        .number("repeats", |line| Some(line.sheet.repeats.len().to_string()))
        .number("repeats_set_aside", |line| {
            Some(line.sheet.repeats.iter().filter(|repeat| repeat.set_aside.is_some()).count().to_string())
        });
    out.head(&sheet).await?;
    let mut pages = Pages::of(signed).await?;
    while let Some(found) = pages.next().await? {
        for line in &found {
            if out.is_asked(line.row.head.occurred_at) {
                out.row(&sheet, line).await?;
            }
        }
    }
    Ok(())
}

/// A decision, with the calibration that it is about.
struct DecisionLine {
    of: Arc<Calibration>,
    decided: Decided,
}

pub(super) async fn decisions(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let named = Named::of(signed).await?;
    let sheet = Sheet::<DecisionLine>::new(out.way())
        .head(&signed.actor.scope, |line| &line.decided.head)
        .text("calibration_id", |line| Some(line.of.row.head.id.to_string()))
        .text("seeder", |line| first(&named.units, line.of.row.metering_unit_id))
        .text("metering_unit", |line| second(&named.units, line.of.row.metering_unit_id))
        .text("lot_number", |line| first(&named.lots, line.of.row.lot_id))
        .text("crop", |line| second(&named.lots, line.of.row.lot_id))
        .text("caught_at", |line| Some(line.of.row.head.stamp().rfc3339()))
        .text("verdict", |line| word(&line.of.judgement.verdict).ok())
        .text("decision", |line| Some(line.decided.decision.clone()))
        .text("reason", |line| Some(line.decided.reason.clone()));
    out.head(&sheet).await?;
    let mut pages = Pages::of(signed).await?;
    while let Some(found) = pages.next().await? {
        for of in &found {
            for decided in &of.decisions {
                if out.is_asked(decided.head.occurred_at) {
                    out.row(&sheet, &DecisionLine { of: Arc::clone(of), decided: decided.clone() }).await?;
                }
            }
        }
    }
    Ok(())
}

/// A catch, with the repeat and the calibration that it belongs to. Measured values as entered.
struct CatchLine {
    of: Arc<Calibration>,
    repeat: usize,
    catch: usize,
    tare: String,
    gross: String,
    distance: Option<String>,
    circumference: Option<String>,
}

impl OfCalibration for CatchLine {
    fn calibration(&self) -> &Calibration {
        &self.of
    }
}

impl CatchLine {
    fn new(of: &Arc<Calibration>, repeat: usize, number: usize, catch: &Catch) -> Self {
        let (distance, circumference) = match of.sheet.repeats.get(repeat).map(|repeat| &repeat.revolutions) {
            Some(Revolutions::Distance { distance, circumference, .. }) => {
                (Some(distance.entered()), Some(circumference.entered()))
            }
            _ => (None, None),
        };
        Self {
            of: Arc::clone(of),
            repeat,
            catch: number,
            tare: catch.tare.entered(),
            gross: catch.gross.entered(),
            distance,
            circumference,
        }
    }

    fn turned(&self) -> Option<&Revolutions> {
        self.of.sheet.repeats.get(self.repeat).map(|repeat| &repeat.revolutions)
    }

    fn caught(&self) -> Option<&Catch> {
        self.of.sheet.repeats.get(self.repeat)?.catches.get(self.catch)
    }
}

fn counted(line: &CatchLine) -> Option<String> {
    match line.turned()? {
        Revolutions::Counted(revolutions) => Some(revolutions.as_str().to_owned()),
        _ => None,
    }
}

fn pulses(line: &CatchLine) -> Option<String> {
    match line.turned()? {
        Revolutions::Pulses { pulses, .. } => Some(pulses.as_str().to_owned()),
        _ => None,
    }
}

fn pulses_per_rev(line: &CatchLine) -> Option<String> {
    match line.turned()? {
        Revolutions::Pulses { pulses_per_rev, .. } => Some(pulses_per_rev.as_str().to_owned()),
        _ => None,
    }
}

fn turns(line: &CatchLine) -> Option<String> {
    match line.turned()? {
        Revolutions::Turns { turns } => Some(turns.as_str().to_owned()),
        _ => None,
    }
}

fn slip(line: &CatchLine) -> Option<String> {
    match line.turned()? {
        Revolutions::Distance { slip_percent, .. } => slip_percent.as_ref().map(|slip| slip.as_str().to_owned()),
        _ => None,
    }
}

pub(super) async fn catches(out: &mut Out, signed: &Signed) -> Result<(), Error> {
    let named = Named::of(signed).await?;
    let sheet = begun::<CatchLine>(out, signed, &named)
        .number("repeat", |line| Some((line.repeat + 1).to_string()))
        .number("revolutions", counted)
        .number("pulses", pulses)
        .number("pulses_per_rev", pulses_per_rev)
        .number("turns", turns)
        .measured::<Length>("distance", |line| line.distance.as_deref())
        .measured::<Length>("circumference", |line| line.circumference.as_deref())
        .number("slip [%]", slip)
        .text("set_aside", |line| line.of.sheet.repeats.get(line.repeat)?.set_aside.clone())
        .text("catch", |line| line.caught()?.label.clone())
        .number("runs", |line| Some(line.caught()?.runs.to_string()))
        .measured::<Mass>("tare", |line| Some(&line.tare))
        .measured::<Mass>("gross", |line| Some(&line.gross));
    out.head(&sheet).await?;
    let mut pages = Pages::of(signed).await?;
    while let Some(found) = pages.next().await? {
        for line in &found {
            if !out.is_asked(line.row.head.occurred_at) {
                continue;
            }
            for (at, repeat) in line.sheet.repeats.iter().enumerate() {
                for (number, catch) in repeat.catches.iter().enumerate() {
                    out.row(&sheet, &CatchLine::new(line, at, number, catch)).await?;
                }
            }
        }
    }
    Ok(())
}
