//! What is sent about a seeder and its metering units.

use super::keyed_in::KeyedIn;
use crate::fleet::configuration::act::check_width;
use crate::web::input::{At, Faults, Input, Name, Rpm, Whole, described, part, text_of};
use crate::web::saying::Saying;
use crate::{input, saying, words};
use jiff::civil::Date;
use serde_json::{Map, Value};
use sowmark_core::quantity::Length;
use sowmark_core::say;
use sowmark_core::words::Words;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use uuid::Uuid;

words! {
    /// What a seeder is.
    pub enum SeederKind {
        BoxDrill = "box_drill",
        AirDrill = "air_drill",
        AirCart = "air_cart",
    }
}

impl SeederKind {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        let key = match self {
            Self::BoxDrill => "seeder-kind-box-drill",
            Self::AirDrill => "seeder-kind-air-drill",
            Self::AirCart => "seeder-kind-air-cart",
        };
        say!(words, key)
    }
}

words! {
    /// What turns the rollers of a metering unit.
    pub enum Drive {
        Ground = "ground",
        Electric = "electric",
        Hydraulic = "hydraulic",
    }
}

impl Drive {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        let key = match self {
            Self::Ground => "drive-ground",
            Self::Electric => "drive-electric",
            Self::Hydraulic => "drive-hydraulic",
        };
        say!(words, key)
    }
}

/// A serial number; an empty one is none.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SerialNumber(pub Option<String>);

impl Input for SerialNumber {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        if text_of(value, at, faults)?.trim().is_empty() {
            return Some(Self(None));
        }
        Name::read(value, at, faults).map(|name| Self(Some(name.0)))
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new().schema_type(Type::String).max_length(Some(120)).into()
    }
}

/// The roller speeds that a drive can hold, in revolutions per minute, as entered.
#[derive(Clone, Debug, PartialEq)]
pub struct SpeedRange {
    pub min: String,
    pub max: String,
}

impl Input for SpeedRange {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let fields = faults.object(value, at, &["min", "max"])?;
        let min = Rpm::read(fields.get("min"), &at.key("min"), faults);
        let max = Rpm::read(fields.get("max"), &at.key("max"), faults);
        let (min, max) = (min?.0, max?.0);
        if min.to_f64() < max.to_f64() {
            Some(Self { min: min.as_str().to_owned(), max: max.as_str().to_owned() })
        } else {
            let says = move |words: Words| {
                let (least, most) = (words.decimal(min.as_str()), words.decimal(max.as_str()));
                say!(words, "seeder-speed-most-too-low", most = most, least = least)
            };
            faults.add(&at.key("max"), Saying::from(says))
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .property("min", described::<Rpm>("The lowest, above zero."))
            .property("max", described::<Rpm>("The highest, above the lowest."))
            .required("min")
            .required("max")
            .description(Some("The roller speeds that the drive can hold, in revolutions per minute."))
            .into()
    }
}

input! {
    /// A metering unit of a new seeder: one roller line under one tank.
    pub struct UnitDraft {
        /// Made by the sender, or else by the server.
        pub id: Option<Uuid>,
        pub label: Name,
        /// How many seed lines it feeds.
        pub runs: Whole<1, 500>,
        pub drive: Drive,
        pub roller_speed_rpm: Option<SpeedRange>,
        /// The form in which its controller takes the number.
        pub keyed_in: Option<KeyedIn>,
    }
}

input! {
    /// A seeder with its metering units and its first configuration, which holds from its commissioning on.
    pub entry struct SeederDraft {
        pub name: Name,
        pub serial_number: Option<SerialNumber>,
        pub kind: SeederKind,
        pub commissioned_on: Date,
        pub working_width: Length,
        pub row_spacing: Length,
        pub metering_units: Vec<UnitDraft>,
    } with check_whole
}

input! {
    /// What may be changed of a metering unit.
    pub struct UnitChange {
        /// Which of the seeder's.
        pub id: Uuid,
        /// The form in which its controller takes the number; null takes back what was said.
        pub keyed_in: Option<KeyedIn>,
    }
}

input! {
    /// What may be changed of a seeder; what is absent stays.
    pub struct SeederChange {
        pub name: Option<Name>,
        /// An empty text takes it away.
        pub serial_number: Option<SerialNumber>,
        /// Those that change.
        pub metering_units: Option<Vec<UnitChange>>,
    }
}

/// Rows no further apart than the machine is wide, and units that can be told apart.
fn check_whole(fields: &Map<String, Value>, at: &At, faults: &mut Faults) {
    check_width(fields, at, faults);
    let (units, place) = (fields.get("metering_units").and_then(Value::as_array), at.key("metering_units"));
    let units: Vec<_> = units.into_iter().flatten().map(|unit| unit.as_object().cloned().unwrap_or_default()).collect();
    if units.is_empty() && fields.get("metering_units").is_some_and(Value::is_array) {
        faults.add::<()>(&place, saying!("seeder-units-none"));
    }
    let labels: Vec<_> = units.iter().map(|unit| part::<Name>(unit, "label").map(|label| label.0)).collect();
    let ids: Vec<_> = units.iter().map(|unit| part::<Uuid>(unit, "id")).collect();
    for i in 0..units.len() {
        // Two units of one label on a machine: somebody keys the number into the wrong one.
        if let Some(label) = labels[i].as_ref().filter(|_| labels[..i].contains(&labels[i])) {
            faults.add::<()>(&place.index(i).key("label"), label_taken(label));
        }
        if ids[i].is_some() && ids[..i].contains(&ids[i]) {
            faults.add::<()>(&place.index(i).key("id"), saying!("seeder-unit-id-taken"));
        }
    }
}

/// That a unit of the machine has the label already.
pub(super) fn label_taken(label: &str) -> Saying {
    let label = label.to_owned();
    saying!("seeder-unit-label-taken", label = &label)
}
