//! Charts of factors: of a unit over time and over the roller speed, of a lot across the fleet.

mod over_speed;
mod over_time;

use super::past::{self, MOST, Past};
use super::runs;
use super::stored::Status;
use crate::access::Units;
use crate::chart::Figure;
use crate::db::Cx;
use crate::readiness;
use crate::records::head;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::reader::Reader;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use sowmark_core::basis::basis_at;
use sowmark_core::ids::{LotId, MeteringUnitId, RollerId};
use sowmark_core::moment::Moment;
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::quantity::{Unit, from_si};
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

/// A calibration on a chart.
struct Point {
    id: Uuid,
    at: Timestamp,
    /// What its series is called.
    series: String,
    /// Of the unit, as entered.
    machine: String,
    lot: String,
    roller: String,
    /// The roller and the gate opening, where known.
    fitted: Option<(RollerId, String)>,
    rpm: Option<f64>,
    factor: f64,
    expanded_percent: f64,
    is_held: bool,
    past: Past,
}

/// What a calibration is called on a chart.
#[derive(Default)]
struct Described {
    series: String,
    lot: String,
    roller: String,
    fitted: Option<(RollerId, String)>,
}

/// The points of a chart, oldest first, and how many calibrations are left out.
struct Points {
    shown: Vec<Point>,
    void: usize,
    rejected: usize,
    /// There are older ones that were not looked at.
    more: bool,
}

impl Points {
    /// Those that count or may count yet.
    fn of(past: Vec<Past>, describe: impl Fn(&Past) -> Described) -> Self {
        let mut all = Self { shown: Vec::new(), void: 0, rejected: 0, more: past.len() >= MOST };
        for past in past.into_iter().rev() {
            let status = past.calibration.status();
            match status {
                Status::Void => all.void += 1,
                Status::Rejected => all.rejected += 1,
                Status::Accepted | Status::Held => {
                    let Described { series, lot, roller, fitted } = describe(&past);
                    let judgement = &past.calibration.judgement;
                    all.shown.push(Point {
                        id: past.calibration.row.head.id,
                        at: past.calibration.row.head.stamp().at,
                        series,
                        machine: format!("{}, {}", past.seeder, past.unit),
                        lot,
                        roller,
                        fitted,
                        rpm: past.calibration.circumstances.roller_speed_rpm,
                        factor: judgement.factor,
                        expanded_percent: judgement.expanded_uncertainty_percent,
                        is_held: status == Status::Held,
                        past,
                    });
                }
            }
        }
        all
    }

    /// What is not drawn as the others, a sentence each.
    fn left_out(&self, words: Words) -> Vec<String> {
        let held = self.shown.iter().filter(|point| point.is_held).count();
        let counted = [
            (held, say!(words, "chart-held", count = held)),
            (self.rejected, say!(words, "chart-rejected", count = self.rejected)),
            (self.void, say!(words, "chart-void", count = self.void)),
            (self.more.into(), say!(words, "chart-older")),
        ];
        counted.into_iter().filter(|(count, _)| *count > 0).map(|(_, says)| says).collect()
    }
}

/// The charts of a unit: its factors over time, over the roller speed where it was caught at two or more, and the runs of its
/// newest catch side by side.
///
/// # Errors
/// 404 when the unit is not there or out of scope; the database.
pub async fn of_unit(cx: &mut Cx<'_>, signed: &Signed, unit: MeteringUnitId) -> Result<Vec<Figure>, Error> {
    let actor = &signed.actor;
    let past = past::of_unit(cx, &actor.scope, unit).await?;
    if past.is_empty() {
        return Ok(Vec::new());
    }
    let mut records = readiness::act::histories(cx, &actor.scope, &actor.time_zone, Some(unit)).await?;
    let Some((_, history)) = records.units.pop() else { return Err(Error::not_there("metering unit")) };
    let names = &records.names;
    let points = Points::of(past, |past| {
        let row = &past.calibration.row;
        let moment = Moment {
            occurred_at: row.head.stamp().at,
            recorded_at: head::moment(row.head.recorded_at),
            id: row.head.id,
        };
        let setup = basis_at(&history, moment).map(|basis| basis.setup.what);
        let roller = setup.as_ref().map_or_else(String::new, |setup| names.roller(setup.roller.0).to_owned());
        let lot = names.lot(row.lot_id).map_or_else(String::new, |lot| lot.number.clone());
        let fitted = setup.map(|setup| (setup.roller, setup.gate.unwrap_or_default().trim().to_owned()));
        Described { series: joined(&[&lot, &roller]), lot, roller, fitted }
    });
    let paper = Paper { reader: actor.reader(), zone: &actor.time_zone, id: format!("unit-{unit}") };
    let mut figures: Vec<Figure> =
        over_time::of_unit(&points, &history, names, &actor.scope, &paper).into_iter().collect();
    figures.extend(over_speed::of_unit(&points, &paper));
    // The newest catch whose runs were caught one by one.
    figures.extend(points.shown.iter().rev().find_map(|point| {
        let (calibration, words) = (&point.past.calibration, paper.reader.words);
        let figure = runs::figure(&calibration.sheet, &calibration.circumstances, words)?;
        let title = say!(words, "chart-runs-caught", day = paper.day(point.at));
        Some(Figure { id: format!("runs-{unit}"), title, ..figure })
    }));
    Ok(figures)
}

/// The factors of a lot across the fleet, over time, as far as somebody sees the machines.
///
/// # Errors
/// The database.
pub async fn of_lot(cx: &mut Cx<'_>, signed: &Signed, lot: LotId) -> Result<Option<Figure>, Error> {
    let actor = &signed.actor;
    let (past, _) = past::of_lot(cx, &actor.scope, lot, past::NEWEST, MOST).await?;
    let points = Points::of(past, |past| Described {
        series: format!("{}, {}", past.seeder, past.unit),
        ..Described::default()
    });
    let paper = Paper { reader: actor.reader(), zone: &actor.time_zone, id: format!("lot-{lot}") };
    Ok(over_time::of_lot(&points, &paper))
}

/// For whom a chart is drawn, and what it is called on its page.
struct Paper<'a> {
    reader: Reader,
    zone: &'a TimeZone,
    id: String,
}

impl Paper<'_> {
    fn unit(&self) -> Unit<dimension::MeterFactor> {
        match self.reader.units {
            Units::Metric => unit::KG_PER_100REV,
            Units::Us => unit::LB_PER_100REV,
        }
    }

    /// What the unit is called.
    fn unit_name(&self) -> String {
        self.reader.words.unit(self.unit().name())
    }

    /// A factor as the charts draw it.
    fn value(&self, factor: f64) -> f64 {
        from_si(factor, self.unit())
    }

    /// A factor with the digits that mean something.
    fn factor(&self, factor: f64, expanded_percent: f64) -> String {
        self.reader.words.print_within(factor, self.unit(), expanded_percent)
    }

    fn uncertainty(&self, expanded_percent: f64) -> String {
        format!("\u{b1} {}", self.reader.words.percent(expanded_percent))
    }

    fn rpm(&self, rpm: Option<f64>) -> String {
        rpm.map_or_else(|| "\u{2013}".to_owned(), |rpm| self.reader.words.number(rpm, 3))
    }

    fn day(&self, at: Timestamp) -> String {
        let date = self.zone.to_datetime(at).date();
        let (day, month) = (date.day().to_string(), u32::from(date.month().unsigned_abs()));
        say!(self.reader.words, "date-day-of-year", day = day, month = month, year = date.year().to_string())
    }
}

/// Parts that are known, with a comma between.
fn joined(parts: &[&str]) -> String {
    parts.iter().copied().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}
