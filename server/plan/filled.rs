//! What is known of a lot and a unit before anybody types: the lot's latest figures, the unit's width, rows and number.

use crate::access::Permission;
use crate::db::Cx;
use crate::readiness::act::{UnitNow, board};
use crate::readiness::rate::{AtWork, no_number};
use crate::seed::lot::act::{lots, lots_in_choice};
use crate::seed::lot::age::Age;
use crate::seed::lot::store::LotRow;
use crate::seed::lot_test::act::{Known, Measured, known};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{FormOption, Posted};
use sowmark_core::ids::LotId;
use sowmark_core::quantity::unit::dimension;
use sowmark_core::quantity::{Dimension, Quantity, Unit, from_si, print_number};
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

/// A lot and a unit as far as they were chosen, with what is known of them.
pub(super) struct Filled {
    lots: Vec<LotRow>,
    pub(super) units: Vec<UnitNow>,
    pub(super) lot: Option<LotRow>,
    known: Known,
    /// The chosen one's place in `units`.
    unit: Option<usize>,
    pub(super) words: Words,
    /// Whether this person logs catches.
    pub(super) may_log: bool,
    zone: jiff::tz::TimeZone,
    /// How old the test is by which the lot's germination is known.
    pub(super) age: Option<Age>,
}

/// A value to fill in, and where it comes from.
#[derive(Default)]
pub(super) struct Value {
    pub(super) text: String,
    pub(super) unit: &'static str,
    pub(super) from: String,
}

impl Filled {
    /// Reads `lot_id` and `unit_id`. Without a lot, the unit's own is taken.
    ///
    /// # Errors
    /// 404 for what is not there, or not for this person.
    pub(super) async fn of(cx: &mut Cx<'_>, signed: &Signed, posted: &Posted) -> Result<Self, Error> {
        let (actor, at) = (&signed.actor, signed.app.clock.now());
        let units = board(cx, actor, at, None).await?.units;
        let lots: Vec<_> = lots(cx, &actor.scope).await?.into_iter().filter(LotRow::is_seed).collect();
        let unit = chosen(posted, "unit_id", "metering unit")?
            .map(|id| units.iter().position(|now| now.unit.id == id).ok_or_else(|| Error::not_there("metering unit")))
            .transpose()?;
        let lot = match chosen(posted, "lot_id", "seed lot")? {
            Some(id) => Some(find(&lots, id).ok_or_else(|| Error::not_there("seed lot"))?),
            None => unit
                .and_then(|unit| units.get(unit))
                .and_then(|now| now.readiness.lot)
                .and_then(|in_tank| find(&lots, in_tank.0)),
        };
        let known = match &lot {
            Some(lot) => known(cx, &actor.scope, LotId(lot.id)).await?,
            None => Known::default(),
        };
        let (words, may_log, zone) = (actor.words(), actor.may(Permission::Log), actor.time_zone.clone());
        let tested = known.germination_percent.as_ref();
        let age = lot.as_ref().and_then(|lot| Age::of(lot, tested, actor, at));
        Ok(Self { lots, units, lot, known, unit, words, may_log, zone, age })
    }

    pub(super) fn unit(&self) -> Option<&UnitNow> {
        self.unit.and_then(|unit| self.units.get(unit))
    }

    /// The chosen unit's number, if it is true for the chosen lot; otherwise why not. None without a unit.
    pub(super) fn at_work(&self) -> Option<Result<AtWork, String>> {
        let now = self.unit()?;
        let at_work = match AtWork::of(now) {
            Ok(Some(at_work)) => at_work,
            Ok(None) => return Some(Err(no_number(now, self.words))),
            Err(error) => return Some(Err(error.detail(self.words))),
        };
        let in_tank = now.readiness.lot.map(|lot| lot.0);
        match &self.lot {
            Some(lot) if in_tank != Some(lot.id) => Some(Err(say!(
                self.words,
                "plan-another-lot",
                seeder = &now.unit.seeder,
                unit = &now.unit.label,
                lot = lot.in_words(self.words)
            ))),
            _ => Some(Ok(at_work)),
        }
    }

    pub(super) fn lot_options(&self) -> Vec<FormOption> {
        let chosen = self.lot.as_ref().map(|lot| lot.id.to_string()).unwrap_or_default();
        options(say!(self.words, "plan-no-lot"), lots_in_choice(&self.lots, self.words), &chosen)
    }

    pub(super) fn unit_options(&self) -> Vec<FormOption> {
        let chosen = self.unit().map(|now| now.unit.id.to_string()).unwrap_or_default();
        let label = |now: &UnitNow| (now.unit.id.to_string(), format!("{}, {}", now.unit.seeder, now.unit.label));
        options(say!(self.words, "plan-no-unit"), self.units.iter().map(label), &chosen)
    }

    pub(super) fn seed_weight(&self) -> Value {
        self.tested::<dimension::SeedWeight>(self.known.thousand_seed_weight.as_ref())
    }

    pub(super) fn bulk_density(&self) -> Value {
        self.tested::<dimension::BulkDensity>(self.known.bulk_density.as_ref())
    }

    pub(super) fn germination(&self) -> Value {
        self.percent(self.known.germination_percent.as_ref(), |lot| lot.germination_percent.as_deref())
    }

    pub(super) fn purity(&self) -> Value {
        self.percent(self.known.purity_percent.as_ref(), |lot| lot.purity_percent.as_deref())
    }

    /// No test of the API states it: it stands on the label alone.
    pub(super) fn hard_seed(&self) -> Value {
        self.percent(None, |lot| lot.label.hard_seed_percent.as_deref())
    }

    /// The row spacing of the unit's seeder.
    pub(super) fn row_spacing(&self, unit: Unit<dimension::Length>) -> Value {
        let configuration = self.unit().and_then(|now| now.readiness.configuration.as_ref());
        configuration.map_or_else(Value::default, |configuration| Value {
            text: trimmed(from_si(configuration.what.row_spacing_m, unit), self.words),
            unit: unit.name(),
            from: say!(self.words, "plan-from-seeder"),
        })
    }

    fn tested<D: Dimension>(&self, measured: Option<&Measured>) -> Value {
        let Some((measured, quantity)) =
            measured.and_then(|measured| Some((measured, Quantity::<D>::from_entered(&measured.entered).ok()?)))
        else {
            return Value::default();
        };
        Value {
            text: self.words.decimal(quantity.value_text()),
            unit: quantity.unit(),
            from: say!(self.words, "plan-from-test", when = measured.test.head.when(&self.zone, self.words)),
        }
    }

    fn percent(&self, measured: Option<&Measured>, label: impl Fn(&LotRow) -> Option<&str>) -> Value {
        match (measured, self.lot.as_ref().and_then(label)) {
            (Some(measured), _) => Value {
                text: self.words.decimal(&measured.entered),
                unit: "%",
                from: say!(self.words, "plan-from-test", when = measured.test.head.when(&self.zone, self.words)),
            },
            (None, Some(text)) => {
                Value { text: self.words.decimal(text), unit: "%", from: say!(self.words, "plan-from-label") }
            }
            (None, None) => Value::default(),
        }
    }
}

fn find(lots: &[LotRow], id: Uuid) -> Option<LotRow> {
    lots.iter().find(|lot| lot.id == id).cloned()
}

/// The id that was chosen; none for the empty choice.
fn chosen(posted: &Posted, name: &str, what: &'static str) -> Result<Option<Uuid>, Error> {
    let text = posted.text(name).trim();
    if text.is_empty() {
        return Ok(None);
    }
    Uuid::try_parse(text).map(Some).map_err(|_| Error::not_there(what))
}

fn options(none: String, choices: impl IntoIterator<Item = (String, String)>, chosen: &str) -> Vec<FormOption> {
    std::iter::once((String::new(), none))
        .chain(choices)
        .map(|(value, label)| FormOption { selected: value == chosen, value, label })
        .collect()
}

/// A number with at most four digits, and no zeros behind them.
fn trimmed(value: f64, words: Words) -> String {
    let text = print_number(value, 4);
    let short = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    words.decimal(short)
}
