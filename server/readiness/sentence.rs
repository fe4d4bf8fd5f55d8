//! A trigger as a sentence: what changed, on which local day, who entered it, what the number was caught with, and what
//! to do. The values are `core`'s; nothing is decided here.

use super::names::Names;
use crate::access::Units;
use crate::web::reader::Reader;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use sowmark_core::ids::{CalibrationId, LotId, RollerId};
use sowmark_core::quantity::{from_si, print_number, unit};
use sowmark_core::readiness::{CauseKind, Change, Detail, Due, Exceeded, ScaleDoubt, Standing, Trigger};
use sowmark_core::say;
use sowmark_core::words::Words;

/// Tells what is due, to a reader in a zone, on a day.
#[derive(Clone, Copy, Debug)]
pub struct Teller<'n> {
    pub names: &'n Names,
    pub zone: &'n TimeZone,
    pub reader: Reader,
    /// The moment that is asked about: days of its year are told without the year.
    pub at: Timestamp,
}

impl Teller<'_> {
    /// The sentence of a trigger. `compared` is the calibration that the number comes from.
    #[must_use]
    pub fn says(&self, due: &Due, compared: Option<CalibrationId>) -> String {
        let words = self.reader.words;
        let day = self.day(due.since);
        let (did, who) = self.by(due);
        match &due.detail {
            Detail::NeverCalibrated { commissioned_on } => {
                say!(words, "trigger-never-calibrated", day = self.date(*commissioned_on))
            }
            Detail::NewSeason { season, starts_on } => {
                let (caught, caught_on) = self.caught_on(compared);
                say!(
                    words,
                    "trigger-new-season",
                    day = self.date(*starts_on),
                    season = self.names.season(season.0),
                    caught = caught,
                    caught_on = caught_on
                )
            }
            Detail::CropChanged { crop, lot } => say!(
                words,
                "trigger-crop-changed",
                day = day,
                crop = &crop.to,
                lot = self.lot(lot.to),
                before = if self.names.lot(lot.from.0).is_some() { "known" } else { "unknown" },
                crop_before = &crop.from,
                lot_before = self.lot(lot.from),
                did = did,
                who = who
            ),
            Detail::LotChanged(lot) => say!(
                words,
                "trigger-lot-changed",
                day = day,
                lot = self.lot(lot.to),
                lot_before = self.lot(lot.from),
                did = did,
                who = who
            ),
            Detail::SeedWeightChanged { lot, bulk_density, thousand_seed_weight, tolerance_percent } => say!(
                words,
                "trigger-seed-weight-changed",
                lot = self.lot(*lot),
                day = day,
                weights = self.weights(*bulk_density, *thousand_seed_weight),
                limit = self.short(*tolerance_percent),
                did = did,
                who = who
            ),
            Detail::ConfigurationChanged { working_width_m, row_spacing_m, runs } => say!(
                words,
                "trigger-configuration-changed",
                day = day,
                what = self.configuration(*working_width_m, *row_spacing_m, *runs),
                did = did,
                who = who
            ),
            Detail::RollerChanged(roller) => say!(
                words,
                "trigger-roller-changed",
                day = day,
                roller = self.roller(roller.to),
                before = self.roller(roller.from),
                did = did,
                who = who
            ),
            Detail::DriveRatioChanged(ratio) => say!(
                words,
                "trigger-drive-ratio-changed",
                day = day,
                ratio = words.decimal(&ratio.to.to_string()),
                before = words.decimal(&ratio.from.to_string()),
                did = did,
                who = who
            ),
            Detail::GateChanged(gate) => say!(
                words,
                "trigger-gate-changed",
                day = day,
                gate = self.opening(gate.to.as_deref()),
                before = self.opening(gate.from.as_deref()),
                did = did,
                who = who
            ),
            Detail::ComponentReplaced { services } => self.service(due, &day, *services),
            Detail::CalibrationInDoubt { standing: Standing::Rejected } => {
                say!(words, "trigger-doubt-rejected", day = day, did = did, who = who)
            }
            Detail::CalibrationInDoubt { standing: Standing::Held | Standing::Accepted } => {
                say!(words, "trigger-doubt-held", day = day, did = did, who = who)
            }
            Detail::RollerSpeedOff { rpm, tolerance_percent } => say!(
                words,
                "trigger-roller-speed-off",
                day = day,
                needed = self.short(rpm.to),
                caught = self.short(rpm.from),
                limit = self.short(*tolerance_percent)
            ),
            Detail::Drift { z, limit, jobs } => say!(
                words,
                "trigger-drift",
                day = day,
                jobs = *jobs,
                off = self.off(*z),
                side = if *z < 0.0 { "below" } else { "above" },
                limit = self.off(limit.abs())
            ),
            Detail::Interval { area_ha, days } => {
                say!(words, "trigger-interval", day = day, what = self.interval(*area_ha, *days))
            }
            Detail::ScaleUnchecked(doubt) => self.scale(doubt, due, &day, compared),
        }
    }

    /// A day in the reader's zone: "3 April", with the year where it is another than the one asked about.
    #[must_use]
    pub fn day(&self, at: Timestamp) -> String {
        self.date(self.zone.to_datetime(at).date())
    }

    fn date(&self, date: Date) -> String {
        let words = self.reader.words;
        let (day, month) = (date.day().to_string(), u32::from(date.month().unsigned_abs()));
        if date.year() == self.zone.to_datetime(self.at).year() {
            say!(words, "date-day", day = day, month = month)
        } else {
            say!(words, "date-day-of-year", day = day, month = month, year = date.year().to_string())
        }
    }

    /// A lot as it is called: its number, unless the reader may not know it.
    #[must_use]
    pub fn lot(&self, lot: LotId) -> String {
        let words = self.reader.words;
        match self.names.lot(lot.0) {
            Some(name) => say!(words, "trigger-lot", number = &name.number),
            None => say!(words, "trigger-lot-unknown"),
        }
    }

    /// What somebody did that began it, and who.
    fn by(&self, due: &Due) -> (&'static str, &str) {
        let did = match (due.cause.kind, &due.detail) {
            (CauseKind::Seeder | CauseKind::Season, _) => "unknown",
            // A roller is fitted, a ratio and a gate are set.
            (CauseKind::Setup, Detail::DriveRatioChanged(_) | Detail::GateChanged(_)) => "set",
            (CauseKind::Setup, _) => "fitted",
            (CauseKind::Fill, _) => "filled",
            (CauseKind::Emptying, _) => "emptied",
            (CauseKind::Calibration, _) => "caught",
            (CauseKind::Job, _) => "sown",
            (CauseKind::LotTest, _) => "tested",
            (CauseKind::ScaleCheck, _) => "checked",
            (CauseKind::Configuration | CauseKind::Service, _) => "logged",
        };
        self.names.recorder(due.cause.id).map_or(("unknown", ""), |name| (did, name))
    }

    /// Whether it is known when the number was caught, and the day.
    fn caught_on(&self, compared: Option<CalibrationId>) -> (&'static str, String) {
        let happened = compared.and_then(|calibration| self.names.happened(calibration.0));
        happened.map_or_else(|| ("unknown", String::new()), |at| ("known", self.day(at)))
    }

    fn weights(&self, bulk_density: Option<Change<f64>>, thousand: Option<Change<f64>>) -> String {
        let words = self.reader.words;
        let bulk = bulk_density.map(|change| {
            let unit = if self.reader.units == Units::Us { unit::LB_PER_BU } else { unit::KG_PER_HL };
            let shown = |si: f64| format!("{} {unit}", words.print(si, unit, 3));
            say!(words, "trigger-bulk-density", now = shown(change.to), before = shown(change.from))
        });
        let thousand = thousand.map(|change| {
            let (now, before) = (words.number(change.to, 3), words.number(change.from, 3));
            say!(words, "trigger-thousand-seed-weight", now = now, before = before)
        });
        list(bulk.into_iter().chain(thousand))
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
        let words = self.reader.words;
        let width = width.map(|width| {
            let (now, before) = (self.length(width.to), self.length(width.from));
            say!(words, "trigger-working-width", now = now, before = before)
        });
        let spacing = spacing.map(|spacing| {
            let (now, before) = (self.spacing(spacing.to), self.spacing(spacing.from));
            say!(words, "trigger-row-spacing", now = now, before = before)
        });
        let runs = runs.map(|runs| {
            let (now, before) = (runs.to.to_string(), runs.from.to_string());
            say!(words, "trigger-runs-in-use", now = now, before = before)
        });
        list(width.into_iter().chain(spacing).chain(runs))
    }

    fn roller(&self, roller: Option<RollerId>) -> String {
        match roller {
            Some(roller) => self.names.roller(roller.0).to_owned(),
            None => say!(self.reader.words, "trigger-roller-unknown"),
        }
    }

    fn opening(&self, gate: Option<&str>) -> String {
        match gate.map(str::trim).filter(|gate| !gate.is_empty()) {
            Some(opening) => say!(self.reader.words, "trigger-gate", opening = opening),
            None => say!(self.reader.words, "trigger-gate-none"),
        }
    }

    fn service(&self, due: &Due, day: &str, services: usize) -> String {
        let words = self.reader.words;
        let (did, who) = self.by(due);
        let part = self.names.component(due.cause.id).unwrap_or("other");
        let replaced = say!(words, "trigger-part-replaced", part = part, day = day, did = did, who = who);
        let more = services.checked_sub(1).filter(|more| *more > 0);
        let more = more.map(|more| say!(words, "trigger-more-services", count = more));
        let again = say!(words, "trigger-again");
        [Some(replaced), more, Some(again)].into_iter().flatten().collect::<Vec<_>>().join(" ")
    }

    fn interval(&self, area_ha: Option<Exceeded>, days: Option<Exceeded>) -> String {
        let words = self.reader.words;
        let area = area_ha.map(|area| {
            let unit = if self.reader.units == Units::Us { unit::AC } else { unit::HA };
            let shown = |ha: f64| format!("{} {unit}", self.short(from_si(ha * 10_000.0, unit)));
            say!(words, "trigger-interval-area", sown = shown(area.value), limit = shown(area.limit))
        });
        let days = days.map(|days| {
            // Days since a calibration: a count, never below zero.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let old = days.value as u64;
            say!(words, "trigger-interval-days", days = old, limit = self.short(days.limit))
        });
        list(area.into_iter().chain(days))
    }

    fn scale(&self, doubt: &ScaleDoubt, due: &Due, day: &str, compared: Option<CalibrationId>) -> String {
        let words = self.reader.words;
        let (caught, caught_on) = self.caught_on(compared);
        match doubt {
            ScaleDoubt::NotNamed => {
                say!(words, "trigger-scale-not-named", caught = caught, caught_on = caught_on)
            }
            ScaleDoubt::NoPassingCheck { scale, interval_days } => say!(
                words,
                "trigger-scale-without-check",
                scale = self.names.scale(scale.0),
                days = self.short(*interval_days),
                caught = caught,
                caught_on = caught_on
            ),
            ScaleDoubt::FailedNext { scale, check } => {
                let (did, who) = self.by(due);
                say!(
                    words,
                    "trigger-scale-failed",
                    scale = self.names.scale(scale.0),
                    day = day,
                    did = did,
                    who = who,
                    reading = self.mass(check.reading_kg),
                    reference = self.mass(check.reference_kg)
                )
            }
        }
    }

    /// A logarithm as the percentage that it is off by.
    fn off(&self, logarithm: f64) -> String {
        self.reader.words.number((logarithm.exp() - 1.0).abs() * 100.0, 2)
    }

    fn mass(&self, kg: f64) -> String {
        let unit = if self.reader.units == Units::Us { unit::LB } else { unit::KG };
        format!("{} {unit}", self.reader.words.short(kg, unit, 5))
    }
}

fn list(parts: impl IntoIterator<Item = String>) -> String {
    parts.into_iter().collect::<Vec<_>>().join("; ")
}

/// A trigger in words, for a choice.
pub(crate) fn in_words(trigger: Trigger, words: Words) -> String {
    words.say(&format!("trigger-name-{trigger}"), &[])
}
