//! A trigger as a sentence: what changed, on which local day, who entered it, what the number was caught with, and what
//! to do. The values are `core`'s; nothing is decided here.

use super::names::Names;
use crate::access::Units;
use crate::web::reader::Reader;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use sowmark_core::ids::{CalibrationId, LotId, RollerId};
use sowmark_core::quantity::{Dimension, Unit, print_number, unit};
use sowmark_core::readiness::{
    Cause, CauseKind, Change, Detail, Due, Exceeded, ScaleCheck, ScaleDoubt, Standing, Trigger,
};

/// Tells what is due, to a reader in a zone, on a day.
#[derive(Clone, Copy, Debug)]
pub struct Teller<'n> {
    pub names: &'n Names,
    pub zone: &'n TimeZone,
    pub reader: Reader,
    /// The moment that is asked about: days of its year are told without the year.
    pub at: Timestamp,
}

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

const AGAIN: &str = "Catch again before sowing.";

impl Teller<'_> {
    /// The sentence of a trigger. `compared` is the calibration that the number comes from.
    #[must_use]
    pub fn says(&self, due: &Due, compared: Option<CalibrationId>) -> String {
        let day = self.day(due.since);
        let by = self.by(due.cause);
        match &due.detail {
            Detail::NeverCalibrated { commissioned_on } => format!(
                "No catch of this unit was accepted yet; the seeder was commissioned on {}. Catch before sowing.",
                self.date(*commissioned_on)
            ),
            Detail::NewSeason { season, starts_on } => format!(
                "A new season began on {}: {}; the number was caught before it{}. {AGAIN}",
                self.date(*starts_on),
                self.names.season(season.0),
                self.caught_on(compared)
            ),
            Detail::CropChanged { crop, lot } => format!(
                "Crop changed on {day}: {} ({}){by}; the number was caught with {} ({}). {AGAIN}",
                crop.to,
                self.lot(lot.to),
                crop.from,
                self.lot(lot.from)
            ),
            Detail::LotChanged(lot) => format!(
                "Lot changed on {day}: {}{by}; the number was caught with {}. {AGAIN}",
                self.lot(lot.to),
                self.lot(lot.from)
            ),
            Detail::SeedWeightChanged { lot, bulk_density, thousand_seed_weight, tolerance_percent } => format!(
                "Seed weight of {} changed on {day}{by}: {}; the tolerances allow {} %. {AGAIN}",
                self.lot(*lot),
                self.weights(*bulk_density, *thousand_seed_weight),
                self.short(*tolerance_percent)
            ),
            Detail::ConfigurationChanged { working_width_m, row_spacing_m, runs } => format!(
                "Configuration changed on {day}{by}: {}. {AGAIN}",
                self.configuration(*working_width_m, *row_spacing_m, *runs)
            ),
            Detail::RollerChanged(_) | Detail::DriveRatioChanged(_) | Detail::GateChanged(_) => {
                self.setup(&due.detail, &day, &by)
            }
            Detail::ComponentReplaced { services } => self.service(due.cause, &day, &by, *services),
            Detail::CalibrationInDoubt { standing } => doubt(*standing, &day, &by),
            Detail::RollerSpeedOff { rpm, tolerance_percent } => format!(
                "Roller speed off since the job of {day}: the latest job needed {} rpm, the number was caught at {} rpm, and the \
                 tolerances allow {} %. Check with a catch at the speed you sow at.",
                self.short(rpm.to),
                self.short(rpm.from),
                self.short(*tolerance_percent)
            ),
            Detail::Drift { z, limit, jobs } => self.drift(*z, *limit, *jobs, &day),
            Detail::Interval { area_ha, days } => format!(
                "Since {day} the number is due for a check: {}. Check with a catch.",
                self.interval(*area_ha, *days)
            ),
            Detail::ScaleUnchecked(doubt) => self.scale(doubt, &day, &by, compared),
        }
    }

    /// A day in the reader's zone: "3 April", with the year where it is another than the one asked about.
    #[must_use]
    pub fn day(&self, at: Timestamp) -> String {
        self.date(self.zone.to_datetime(at).date())
    }

    fn date(&self, date: Date) -> String {
        let month =
            usize::from(date.month().unsigned_abs()).checked_sub(1).and_then(|month| MONTHS.get(month)).copied();
        let day = format!("{} {}", date.day(), month.unwrap_or_default());
        if date.year() == self.zone.to_datetime(self.at).year() { day } else { format!("{day} {}", date.year()) }
    }

    /// A lot as it is called: its number, unless the reader may not know it.
    #[must_use]
    pub fn lot(&self, lot: LotId) -> String {
        self.names.lot(lot.0).map_or_else(|| "another lot".to_owned(), |name| format!("lot {}", name.number))
    }

    fn by(&self, cause: Cause) -> String {
        let did = match cause.kind {
            CauseKind::Seeder | CauseKind::Season => return String::new(),
            CauseKind::Setup => "fitted",
            CauseKind::Fill => "filled",
            CauseKind::Emptying => "emptied",
            CauseKind::Calibration => "caught",
            CauseKind::Job => "sown",
            CauseKind::LotTest => "tested",
            CauseKind::ScaleCheck => "checked",
            CauseKind::Configuration | CauseKind::Service => "logged",
        };
        self.names.recorder(cause.id).map(|name| format!(", {did} by {name}")).unwrap_or_default()
    }

    fn caught_on(&self, compared: Option<CalibrationId>) -> String {
        let happened = compared.and_then(|calibration| self.names.happened(calibration.0));
        happened.map(|at| format!(", on {}", self.day(at))).unwrap_or_default()
    }

    fn weights(&self, bulk_density: Option<Change<f64>>, thousand: Option<Change<f64>>) -> String {
        let bulk = bulk_density.map(|change| {
            let unit = if self.reader.units == Units::Us { unit::LB_PER_BU } else { unit::KG_PER_HL };
            let (from, to) = (self.print(change.from, unit, 3), self.print(change.to, unit, 3));
            format!("bulk density {to} {unit}, {from} {unit} at the catch")
        });
        let thousand = thousand.map(|change| {
            let (from, to) = (self.number(change.from, 3), self.number(change.to, 3));
            format!("thousand-seed weight {to} g, {from} g at the catch")
        });
        list(bulk.into_iter().chain(thousand))
    }

    fn number(&self, value: f64, digits: usize) -> String {
        self.reader.words.number(value, digits)
    }

    fn print<D: Dimension>(&self, si: f64, unit: Unit<D>, digits: usize) -> String {
        self.reader.words.print(si, unit, digits)
    }

    /// A number as short as three digits allow.
    fn short(&self, value: f64) -> String {
        self.reader.words.trimmed(&print_number(value, 3))
    }

    fn length(&self, metres: f64) -> String {
        let unit = match self.reader.units {
            Units::Us => unit::FT,
            Units::Metric => unit::M,
        };
        format!("{} {unit}", self.reader.words.short(metres, unit, 4))
    }

    fn spacing(&self, metres: f64) -> String {
        let unit = if self.reader.units == Units::Us { unit::IN } else { unit::CM };
        format!("{} {unit}", self.reader.words.short(metres, unit, 4))
    }

    fn configuration(
        &self,
        width: Option<Change<f64>>,
        spacing: Option<Change<f64>>,
        runs: Option<Change<u32>>,
    ) -> String {
        let was = |what: &str, to: String, from: String| format!("{what} {to}, {from} at the catch");
        list(
            width
                .map(|change| was("working width", self.length(change.to), self.length(change.from)))
                .into_iter()
                .chain(spacing.map(|change| was("row spacing", self.spacing(change.to), self.spacing(change.from))))
                .chain(runs.map(|change| was("runs in use", change.to.to_string(), change.from.to_string()))),
        )
    }

    fn setup(&self, detail: &Detail, day: &str, by: &str) -> String {
        let (what, to, from) = match detail {
            Detail::RollerChanged(roller) => ("Roller", self.roller(roller.to), self.roller(roller.from)),
            Detail::DriveRatioChanged(ratio) => ("Drive ratio", ratio.to.to_string(), ratio.from.to_string()),
            Detail::GateChanged(gate) => ("Gate opening", opening(gate.to.as_deref()), opening(gate.from.as_deref())),
            // Its callers name the three.
            other => return other.trigger().to_string(),
        };
        // A roller is fitted, a ratio and a gate are set.
        let by = if what == "Roller" { by.to_owned() } else { by.replacen("fitted by", "set by", 1) };
        format!("{what} changed on {day}: {to}{by}; the number was caught with {from}. {AGAIN}")
    }

    fn roller(&self, roller: Option<RollerId>) -> String {
        roller.map_or_else(|| "a roller that is not known".to_owned(), |roller| self.names.roller(roller.0).to_owned())
    }

    fn service(&self, cause: Cause, day: &str, by: &str, services: usize) -> String {
        let part = match self.names.component(cause.id) {
            Some("other") | None => "A part".to_owned(),
            Some(component) => capital(&component.replace('_', " ")),
        };
        let more = match services {
            0 | 1 => String::new(),
            2 => " One more service followed.".to_owned(),
            many => format!(" {} more services followed.", many - 1),
        };
        format!("{part} replaced or repaired on {day}{by}, after the number was caught.{more} {AGAIN}")
    }

    fn interval(&self, area_ha: Option<Exceeded>, days: Option<Exceeded>) -> String {
        let area = area_ha.map(|area| {
            let unit = if self.reader.units == Units::Us { unit::AC } else { unit::HA };
            let shown = |ha: f64| self.short(sowmark_core::quantity::from_si(ha * 10_000.0, unit));
            format!("{} {unit} sown, the tolerances allow {} {unit}", shown(area.value), shown(area.limit))
        });
        let days = days
            .map(|days| format!("{} days old, the tolerances allow {}", days.value.floor(), self.short(days.limit)));
        list(area.into_iter().chain(days))
    }

    fn scale(&self, doubt: &ScaleDoubt, day: &str, by: &str, compared: Option<CalibrationId>) -> String {
        match doubt {
            ScaleDoubt::NotNamed => {
                format!(
                    "No scale was named for the catch{}. Name a checked one with the next catch.",
                    on(&self.caught_on(compared))
                )
            }
            ScaleDoubt::NoPassingCheck { scale, interval_days } => format!(
                "The scale {} passed no check in the {} days before the catch{}. Check it with a known mass, then catch again.",
                self.names.scale(scale.0),
                self.short(*interval_days),
                on(&self.caught_on(compared))
            ),
            ScaleDoubt::FailedNext { scale, check } => format!(
                "The scale {} failed its check on {day}{by}: it showed {}. Mend it or take another, then catch again.",
                self.names.scale(scale.0),
                self.reading(check)
            ),
        }
    }

    fn drift(&self, z: f64, limit: f64, jobs: usize, day: &str) -> String {
        let percent = |logarithm: f64| self.number((logarithm.exp() - 1.0).abs() * 100.0, 2);
        let side = if z < 0.0 { "below" } else { "above" };
        let jobs = if jobs == 1 { "one job".to_owned() } else { format!("{jobs} jobs") };
        format!(
            "Seed use has drifted since {day}: over {jobs} it runs {} % {side} target, beyond the limit of {} %. Check with a catch.",
            percent(z),
            percent(limit.abs())
        )
    }

    fn reading(&self, check: &ScaleCheck) -> String {
        let unit = if self.reader.units == Units::Us { unit::LB } else { unit::KG };
        let shown = |kg: f64| self.reader.words.short(kg, unit, 5);
        format!("{} {unit} for {} {unit}", shown(check.reading_kg), shown(check.reference_kg))
    }
}

/// ", on 3 April" as " on 3 April".
fn on(caught_on: &str) -> &str {
    caught_on.trim_start_matches(',')
}

fn doubt(standing: Standing, day: &str, by: &str) -> String {
    match standing {
        Standing::Rejected => format!("A later catch on the same basis, of {day}{by}, was rejected. {AGAIN}"),
        Standing::Held | Standing::Accepted => format!(
            "A later catch on the same basis, of {day}{by}, failed and is held for the office. Decide on it or catch again \
             before sowing."
        ),
    }
}

fn opening(gate: Option<&str>) -> String {
    gate.map(str::trim)
        .filter(|gate| !gate.is_empty())
        .map_or_else(|| "no gate".to_owned(), |gate| format!("gate {gate}"))
}

/// With a capital at its beginning.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

fn list(parts: impl IntoIterator<Item = String>) -> String {
    parts.into_iter().collect::<Vec<_>>().join("; ")
}

/// A trigger in words, for a choice.
pub(super) fn in_words(trigger: Trigger) -> &'static str {
    match trigger {
        Trigger::NeverCalibrated => "Never calibrated",
        Trigger::NewSeason => "New season",
        Trigger::CropChanged => "Crop changed",
        Trigger::LotChanged => "Lot changed",
        Trigger::SeedWeightChanged => "Seed weight changed",
        Trigger::RollerChanged => "Roller changed",
        Trigger::DriveRatioChanged => "Drive ratio changed",
        Trigger::GateChanged => "Gate opening changed",
        Trigger::ConfigurationChanged => "Configuration changed",
        Trigger::ComponentReplaced => "Part replaced",
        Trigger::CalibrationInDoubt => "Number in doubt",
        Trigger::RollerSpeedOff => "Roller speed off",
        Trigger::Drift => "Seed use drifts",
        Trigger::Interval => "Interval over",
        Trigger::ScaleUnchecked => "Scale not checked",
    }
}
