//! A catch sheet as it is sent.
//!
//! A sheet with a fault in one field is still looked at as a whole (`salvage`): the person at the machine mends it in
//! one go, not one field per attempt.

use crate::clock::Stamp;
use crate::web::input::{At, Faults, Input, Name, Note, Percent, Rpm, Text, Whole};
use crate::{input, saying, words};
use serde_json::Value;
use sowmark_core::catch::{Catch, Repeat, Revolutions, Sheet};
use sowmark_core::circumstances::Planned;
use sowmark_core::ids::{LotId, MeteringUnitId, ScaleId};
use sowmark_core::quantity::{Decimal, Length, Mass, Rate, Speed, Temperature, unit};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, OneOfBuilder, Schema, Type};
use uuid::Uuid;

words! {
    /// How the roller was turned.
    pub enum Method {
        Stationary = "stationary",
        Driven = "driven",
        HandTurned = "hand_turned",
    }
}

words! {
    /// What the office decides about a held calibration.
    pub enum Decision {
        Accepted = "accepted",
        Rejected = "rejected",
    }
}

/// Why a repeat does not count.
pub type Reason = Text<500>;

input! {
    /// A calibration: repeats of roller revolutions, and what was caught of each run.
    pub record struct CalibrationDraft {
        /// The lot that was caught.
        pub lot_id: LotId,
        /// The scale that weighed it.
        pub scale_id: Option<ScaleId>,
        pub method: Method,
        /// Revolutions per minute of the roller while it was caught.
        pub roller_speed_rpm: Option<Rpm>,
        /// What will be sown with it.
        pub planned: Option<PlannedDraft>,
        /// Of the air at the catch.
        pub air_temperature: Option<Temperature>,
        /// Of the air at the catch.
        pub relative_humidity_percent: Option<Percent>,
        /// About how full the tank was.
        pub tank_fill_percent: Option<Percent>,
        /// Where it was caught.
        pub place: Option<Name>,
        /// Who looked over it besides.
        pub checked_by: Option<Name>,
        pub note: Option<Note>,
        pub repeats: Vec<RepeatDraft>,
    }
}

input! {
    /// What will be sown.
    pub struct PlannedDraft {
        pub rate: Rate,
        pub speed: Speed,
    }
}

input! {
    /// A number of roller revolutions and what was caught meanwhile.
    pub struct RepeatDraft {
        /// Roller revolutions, or what they follow from.
        pub revolutions: Revolutions,
        pub catches: Vec<CatchDraft>,
        /// Why this repeat does not count, where it does not.
        pub set_aside: Option<Reason>,
    }
}

input! {
    /// The seed of one or several runs on the scale.
    pub struct CatchDraft {
        /// Which run.
        pub label: Option<Text<120>>,
        /// How many runs it holds.
        pub runs: Whole<1, 1000>,
        /// The empty container.
        pub tare: Mass,
        /// Container and seed.
        pub gross: Mass,
    }
}

input! {
    /// What the office decides about a held calibration, and why.
    pub struct DecisionDraft {
        /// Made by the sender; sent again with the same content it changes nothing.
        pub id: Option<Uuid>,
        /// When it was decided; now unless told.
        pub occurred_at: Option<Stamp>,
        pub decision: Decision,
        pub reason: Note,
    }
}

/// A calibration to be computed and not stored: the same fields, and the metering unit.
#[derive(Clone, Debug)]
pub struct PreviewDraft {
    pub metering_unit_id: MeteringUnitId,
}

impl Input for PreviewDraft {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let Some(Value::Object(fields)) = value else { return faults.object(value, at, &[]).and(None) };
        let metering_unit_id = MeteringUnitId::read(fields.get(UNIT), &at.key(UNIT), faults);
        if metering_unit_id.is_none() {
            // Nobody will read the rest without a unit, so its faults are looked for here.
            CalibrationDraft::read(value.map(Self::calibration).as_ref(), at, faults);
        }
        Some(Self { metering_unit_id: metering_unit_id? })
    }

    fn schema() -> RefOr<Schema> {
        match CalibrationDraft::schema() {
            RefOr::T(Schema::Object(mut object)) => {
                object.properties.insert(UNIT.to_owned(), MeteringUnitId::schema());
                object.required.push(UNIT.to_owned());
                object.into()
            }
            other => other,
        }
    }
}

const UNIT: &str = "metering_unit_id";

impl PreviewDraft {
    /// The calibration without the unit.
    #[must_use]
    pub fn calibration(sent: &Value) -> Value {
        let mut sent = sent.clone();
        if let Value::Object(fields) = &mut sent {
            fields.remove(UNIT);
        }
        sent
    }
}

impl Input for Revolutions {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let Some(Value::Object(fields)) = value else { return Decimal::read(value, at, faults).map(Self::Counted) };
        let has = |name: &str| fields.contains_key(name);
        if has("pulses") || has("pulses_per_rev") {
            let fields = faults.object(value, at, &["pulses", "pulses_per_rev"])?;
            let pulses = Decimal::read(fields.get("pulses"), &at.key("pulses"), faults);
            let pulses_per_rev = Decimal::read(fields.get("pulses_per_rev"), &at.key("pulses_per_rev"), faults);
            Some(Self::Pulses { pulses: pulses?, pulses_per_rev: pulses_per_rev? })
        } else if has("turns") {
            let fields = faults.object(value, at, &["turns"])?;
            Some(Self::Turns { turns: Decimal::read(fields.get("turns"), &at.key("turns"), faults)? })
        } else if has("distance") || has("circumference") {
            let fields = faults.object(value, at, &["distance", "circumference", "slip_percent"])?;
            let distance = Length::read(fields.get("distance"), &at.key("distance"), faults);
            let circumference = Length::read(fields.get("circumference"), &at.key("circumference"), faults);
            let slip_percent = Option::<Decimal>::read(fields.get("slip_percent"), &at.key("slip_percent"), faults)?;
            Some(Self::Distance { distance: distance?, circumference: circumference?, slip_percent })
        } else {
            faults.add(at, saying!("catch-counts-nothing"))
        }
    }

    fn schema() -> RefOr<Schema> {
        let object = |fields: &[(&str, RefOr<Schema>)]| {
            fields.iter().fold(ObjectBuilder::new().schema_type(Type::Object), |object, (name, schema)| {
                object.property(*name, schema.clone()).required(*name)
            })
        };
        // The slip is the one part that may be left out.
        let driven = object(&[("distance", Length::schema()), ("circumference", Length::schema())])
            .property("slip_percent", Decimal::schema());
        let one_of = OneOfBuilder::new()
            .item(Decimal::schema())
            .item(object(&[("pulses", Decimal::schema()), ("pulses_per_rev", Decimal::schema())]))
            .item(object(&[("turns", Decimal::schema())]))
            .item(driven)
            .description(Some("Roller revolutions, or what they follow from."));
        RefOr::T(Schema::OneOf(one_of.build()))
    }
}

impl CalibrationDraft {
    /// The sheet for the computation.
    #[must_use]
    pub fn sheet(&self) -> Sheet {
        Sheet { repeats: self.repeats.iter().map(RepeatDraft::repeat).collect() }
    }

    #[must_use]
    pub fn planned(&self) -> Option<Planned> {
        self.planned.as_ref().map(|planned| Planned { rate: planned.rate.clone(), speed: planned.speed.clone() })
    }
}

impl RepeatDraft {
    fn repeat(&self) -> Repeat {
        Repeat {
            revolutions: self.revolutions.clone(),
            catches: self.catches.iter().map(CatchDraft::weighed).collect(),
            set_aside: self.set_aside.as_ref().map(|reason| reason.0.clone()),
        }
    }
}

impl CatchDraft {
    fn weighed(&self) -> Catch {
        Catch {
            label: self.label.as_ref().map(|label| label.0.clone()).filter(|label| !label.is_empty()),
            runs: self.runs.count(),
            tare: self.tare.clone(),
            gross: self.gross.clone(),
        }
    }
}

/// What can be read of a sheet that has faults: each unreadable field is filled with something harmless.
#[derive(Debug)]
pub(super) struct Salvaged {
    pub(super) occurred_at: Option<Stamp>,
    pub(super) lot: Option<LotId>,
    pub(super) scale: Option<ScaleId>,
    pub(super) roller_speed_rpm: Option<f64>,
    pub(super) planned: Option<Planned>,
    pub(super) sheet: Sheet,
}

pub(super) fn salvage(sent: &Value) -> Option<Salvaged> {
    let one = Decimal::parse("1").ok()?;
    let nothing = Mass::of(Decimal::parse("0").ok()?, unit::KG);
    let weighed = |catch: &Value| Catch {
        label: quietly::<Name>(catch.get("label")).map(|label| label.0),
        runs: quietly::<Whole<1, 1000>>(catch.get("runs")).map_or(0, Whole::count),
        tare: quietly(catch.get("tare")).unwrap_or_else(|| nothing.clone()),
        gross: quietly(catch.get("gross")).unwrap_or_else(|| nothing.clone()),
    };
    let repeat = |repeat: &Value| Repeat {
        revolutions: quietly(repeat.get("revolutions")).unwrap_or_else(|| Revolutions::Counted(one.clone())),
        catches: list(repeat.get("catches")).iter().map(weighed).collect(),
        set_aside: quietly::<Reason>(repeat.get("set_aside")).map(|reason| reason.0),
    };
    let planned = quietly::<PlannedDraft>(sent.get("planned"));
    Some(Salvaged {
        occurred_at: quietly(sent.get("occurred_at")),
        lot: quietly(sent.get("lot_id")),
        scale: quietly(sent.get("scale_id")),
        roller_speed_rpm: quietly::<Rpm>(sent.get("roller_speed_rpm")).map(|rpm| rpm.0.to_f64()),
        planned: planned.map(|planned| Planned { rate: planned.rate, speed: planned.speed }),
        sheet: Sheet { repeats: list(sent.get("repeats")).iter().map(repeat).collect() },
    })
}

fn list(value: Option<&Value>) -> &[Value] {
    value.and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

fn quietly<T: Input>(value: Option<&Value>) -> Option<T> {
    let mut faults = Faults::default();
    let read = T::read(value, &At::default(), &mut faults);
    faults.finish(read).ok()
}
