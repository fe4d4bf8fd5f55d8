//! Tables of the rate page: roller speed for rate and driving speed, and rate for the ratio of a ground drive.

use super::asked::Wanted;
use super::at_work::AtWork;
use super::ground::Wheel;
use crate::web::reader::Reader;
use sowmark_core::policy::Policy;
use sowmark_core::quantity::{from_si, print_number};
use sowmark_core::rate::{GroundDrive, steps_around, whole_steps_around};
use sowmark_core::readiness::{InForce, UnitHistory};
use sowmark_core::say;
use sowmark_core::words::Words;

/// How far apart steps are, about, as a share of the middle.
const STEP: f64 = 0.1;

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

/// Where the middle of a table's axis lies, in SI.
#[derive(Clone, Copy, Debug)]
pub struct Middle {
    pub si: f64,
    /// Somebody asked for just this; else it is one of the reader's round steps that lies nearest.
    pub is_asked: bool,
}

/// The roller speeds, in revolutions per minute, at which the tolerances take a number for true: so many percent around the catch's.
#[derive(Clone, Copy, Debug)]
pub struct Near {
    pub caught: f64,
    pub least: f64,
    pub most: f64,
    pub percent: f64,
}

impl Near {
    /// Around the catch that a number comes from; none where nobody noted how fast the roller turned.
    #[must_use]
    pub fn of(in_force: InForce, history: &UnitHistory, policy: &Policy) -> Option<Self> {
        let made = history.calibrations.iter().find(|made| made.moment.id == in_force.calibration.0)?;
        let (caught, percent) = (made.what.roller_speed_rpm?, policy.roller_speed_tolerance_percent);
        let share = percent / 100.0;
        Some(Self { caught, least: (caught * (1.0 - share)).max(0.0), most: caught * (1.0 + share), percent })
    }

    fn holds(self, rpm: f64) -> bool {
        (self.least..=self.most).contains(&rpm)
    }

    /// That a roller speed lies beyond it, and what to do.
    fn beyond(self, words: Words) -> String {
        say!(words, "rate-far-from-catch", percent = words.exactly(self.percent))
    }

    /// The same of one roller speed, where it does.
    pub(super) fn warns(self, rpm: f64, words: Words) -> Option<String> {
        (!self.holds(rpm)).then(|| self.beyond(words))
    }
}

/// Stands before a roller speed at which the number was not shown to be true.
const BEYOND: &str = "*";

/// Roller speeds around a rate (kg/m²) and a driving speed (m/s), for a card in a cab; what lies beyond `near` is marked.
#[must_use]
pub fn roller_speeds_around(
    at_work: &AtWork,
    (rate, speed): (Middle, Middle),
    near: Option<Near>,
    reader: Reader,
) -> Option<Table> {
    let wanted = Wanted::of(rate.si, speed.si, reader.units);
    let steps = |middle: Middle, value: f64| {
        if middle.is_asked { steps_around(value, STEP) } else { whole_steps_around(value, STEP) }
    };
    let rates = steps(rate, from_si(wanted.rate, wanted.rate_unit));
    let speeds = steps(speed, from_si(wanted.speed?, wanted.speed_unit));
    Some(table(at_work, &wanted, (&rates, &speeds), near, reader.words))
}

/// Roller speeds around the rate and the driving speed that were asked for, marked like those of the card. None without a driving
/// speed.
pub(super) fn speeds(at_work: &AtWork, wanted: &Wanted, near: Option<Near>, words: Words) -> Option<Table> {
    let rates = steps_around(from_si(wanted.rate, wanted.rate_unit), STEP);
    let speeds = steps_around(from_si(wanted.speed?, wanted.speed_unit), STEP);
    Some(table(at_work, wanted, (&rates, &speeds), near, words))
}

fn table(
    at_work: &AtWork,
    wanted: &Wanted,
    (rates, speeds): (&[f64], &[f64]),
    near: Option<Near>,
    words: Words,
) -> Table {
    let (rate_unit, speed_unit) = (wanted.rate_unit, wanted.speed_unit);
    let in_si = |steps: &[f64], unit: f64| steps.iter().map(|step| step * unit).collect::<Vec<_>>();
    let (rates_si, speeds_si) = (in_si(rates, rate_unit.in_si()), in_si(speeds, speed_unit.in_si()));
    let table = at_work.metering.table(&rates_si, &speeds_si, at_work.drive);
    let is_beyond = |rpm: f64| near.is_some_and(|near| !near.holds(rpm));
    let cell = |rpm: f64| {
        let says = words.number(rpm, 3);
        if is_beyond(rpm) { format!("{BEYOND} {says}") } else { says }
    };
    let asked = from_si(wanted.rate, rate_unit);
    let row = |(rate, cells): (&f64, &Vec<Option<f64>>)| Row {
        head: format!("{} {rate_unit}", round(*rate, words)),
        cells: cells.iter().map(|rpm| rpm.map(cell).unwrap_or_default()).collect(),
        is_asked: (rate - asked).abs() < asked * 1e-6,
    };
    let blanks = match at_work.drive {
        Some(drive) => {
            let (least, most) = (words.exactly(drive.min_rpm), words.exactly(drive.max_rpm));
            if table.has_blanks() {
                say!(words, "rate-table-blank", least = least, most = most)
            } else {
                say!(words, "rate-table-whole", least = least, most = most)
            }
        }
        None => say!(words, "rate-table-unknown"),
    };
    let has_beyond = table.rows.iter().flatten().flatten().any(|rpm| is_beyond(*rpm));
    let beyond = near.filter(|_| has_beyond).map(|near| format!("{BEYOND} {}", near.beyond(words)));
    Table {
        heads: speeds.iter().map(|speed| format!("{} {speed_unit}", round(*speed, words))).collect(),
        rows: rates.iter().zip(&table.rows).map(row).collect(),
        note: beyond.into_iter().chain([blanks]).collect::<Vec<_>>().join(" "),
    }
}

/// The rates that ratios around the setup's give.
pub(super) fn ratios(at_work: &AtWork, wanted: &Wanted, wheel: Wheel, words: Words) -> Table {
    let setup = at_work.setup.drive_ratio.value();
    let ratios = steps_around(setup, STEP);
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
