//! Tables of the rate page: roller speed for rate and driving speed, and rate for the ratio of a ground drive.

use super::asked::Wanted;
use super::at_work::AtWork;
use super::ground::Wheel;
use crate::web::reader::Reader;
use sowmark_core::quantity::{from_si, print_number};
use sowmark_core::rate::{GroundDrive, steps_around};
use sowmark_core::say;
use sowmark_core::words::Words;

/// A table as it is shown.
#[derive(Debug)]
pub struct Table {
    pub heads: Vec<String>,
    pub rows: Vec<Row>,
    /// What blank cells mean, and what the figures are.
    pub note: String,
}

/// A row; a cell is empty where there is nothing to key in.
#[derive(Debug)]
pub struct Row {
    pub head: String,
    pub cells: Vec<String>,
    /// It is what was asked for.
    pub is_asked: bool,
}

/// Roller speeds around a rate (kg/m²) and a driving speed (m/s), for a card in a cab.
#[must_use]
pub fn roller_speeds_around(at_work: &AtWork, rate: f64, speed: f64, reader: Reader) -> Option<Table> {
    speeds(at_work, &Wanted::of(rate, speed, reader.units), reader.words)
}

/// Roller speeds around the rate and the driving speed that were asked for. None without a driving speed.
pub(super) fn speeds(at_work: &AtWork, wanted: &Wanted, words: Words) -> Option<Table> {
    let (rate_unit, speed_unit) = (wanted.rate_unit, wanted.speed_unit);
    let rates = steps_around(from_si(wanted.rate, rate_unit), 0.1);
    let speeds = steps_around(from_si(wanted.speed?, speed_unit), 0.1);
    let in_si = |steps: &[f64], unit: f64| steps.iter().map(|step| step * unit).collect::<Vec<_>>();
    let (rates_si, speeds_si) = (in_si(&rates, rate_unit.in_si()), in_si(&speeds, speed_unit.in_si()));
    let table = at_work.metering.table(&rates_si, &speeds_si, at_work.drive);
    let row = |(place, (rate, cells)): (usize, (&f64, &Vec<Option<f64>>))| Row {
        head: format!("{} {rate_unit}", round(*rate, words)),
        cells: cells.iter().map(|cell| cell.map(|rpm| words.number(rpm, 3)).unwrap_or_default()).collect(),
        is_asked: place == middle(&rates),
    };
    let note = match (at_work.drive, table.has_blanks()) {
        (Some(drive), blanks) => {
            let (least, most) = (words.exactly(drive.min_rpm), words.exactly(drive.max_rpm));
            if blanks {
                say!(words, "rate-table-blank", least = least, most = most)
            } else {
                say!(words, "rate-table-whole", least = least, most = most)
            }
        }
        (None, _) => say!(words, "rate-table-unknown"),
    };
    Some(Table {
        heads: speeds.iter().map(|speed| format!("{} {speed_unit}", round(*speed, words))).collect(),
        rows: rates.iter().zip(&table.rows).enumerate().map(row).collect(),
        note,
    })
}

/// The rates that ratios around the setup's give.
pub(super) fn ratios(at_work: &AtWork, wanted: &Wanted, wheel: Wheel, words: Words) -> Table {
    let setup = at_work.setup.drive_ratio.value();
    let ratios = steps_around(setup, 0.1);
    let row = |(place, ratio): (usize, &f64)| {
        let rate = at_work.metering.ground_rate(GroundDrive { ratio: *ratio, ..wheel.drive });
        let turns = GroundDrive { ratio: *ratio, ..wheel.drive }.revolutions_per_metre();
        Row {
            head: round(*ratio, words),
            cells: vec![
                rate.map(|rate| words.print(rate, wanted.rate_unit, 3)).unwrap_or_default(),
                turns.map(|turns| words.number(turns, 3)).unwrap_or_default(),
            ],
            is_asked: place == middle(&ratios),
        }
    };
    Table {
        heads: vec![say!(words, "rate-ratios-rate", unit = wanted.rate_unit.name()), say!(words, "rate-ratios-turns")],
        rows: ratios.iter().enumerate().map(row).collect(),
        note: say!(words, "rate-ratios-note"),
    }
}

/// Where the asked value stands among steps around it: two small steps may have been left out below.
fn middle(steps: &[f64]) -> usize {
    steps.len().saturating_sub(3)
}

/// A step with the digits that it has, and no zeros behind them: "140", "5.5".
fn round(step: f64, words: Words) -> String {
    let text = print_number(step, 4);
    let short = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    words.decimal(short)
}
