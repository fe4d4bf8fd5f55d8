//! The form in which the number is keyed in at a unit's controller: as sent, as stored, and as the API shows it. How a
//! number looks in it stands in `key_in.rs`; the arithmetic is core's.

use crate::saying;
use crate::web::input::{At, Faults, Input, Whole, described};
use serde::Serialize;
use serde_json::Value;
use sowmark_core::quantity::unit;
use sowmark_core::quantity::{self, KeyedFor, PerRevolutions};
use sowmark_core::say;
use sowmark_core::words::Words;
use sqlx::{ColumnIndex, Decode, FromRow, Row, Type};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema};

crate::words! {
    /// The masses that controllers take.
    pub enum KeyMass {
        G = "g",
        Kg = "kg",
        Lb = "lb",
        Oz = "oz",
    }
}

impl KeyMass {
    /// As a person reads it.
    #[must_use]
    pub fn says(self, words: Words) -> String {
        let key = match self {
            Self::G => "key-in-g",
            Self::Kg => "key-in-kg",
            Self::Lb => "key-in-lb",
            Self::Oz => "key-in-oz",
        };
        say!(words, key)
    }
}

crate::words! {
    /// What the number is for.
    pub enum KeyFor {
        Run = "run",
        Unit = "unit",
    }
}

/// The form in which the number is keyed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeyedIn {
    pub mass_unit: KeyMass,
    pub per: PerRevolutions,
    pub is_for: KeyFor,
}

impl KeyedIn {
    /// The same for core.
    #[must_use]
    pub fn form(self) -> quantity::KeyedIn {
        let mass_unit = match self.mass_unit {
            KeyMass::G => unit::G,
            KeyMass::Kg => unit::KG,
            KeyMass::Lb => unit::LB,
            KeyMass::Oz => unit::OZ,
        };
        let is_for = match self.is_for {
            KeyFor::Run => KeyedFor::Run,
            KeyFor::Unit => KeyedFor::Unit,
        };
        quantity::KeyedIn { mass_unit, per: self.per, is_for }
    }
}

impl Input for KeyedIn {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let fields = faults.object(value, at, &["mass_unit", "per_revolutions", "for"])?;
        let mass_unit = KeyMass::read(fields.get("mass_unit"), &at.key("mass_unit"), faults);
        let at_count = at.key("per_revolutions");
        let count = Option::<Whole<1, 100>>::read(fields.get("per_revolutions"), &at_count, faults);
        let per = count.and_then(|count| {
            let count = count.map_or(100, |count| count.0);
            let says = saying!("key-in-per-unknown", count = count.to_string());
            PerRevolutions::from_count(count).or_else(|| faults.add(&at_count, says))
        });
        let is_for = Option::<KeyFor>::read(fields.get("for"), &at.key("for"), faults);
        Some(Self { mass_unit: mass_unit?, per: per?, is_for: is_for?.unwrap_or(KeyFor::Run) })
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .property("mass_unit", described::<KeyMass>("The mass that the number is in."))
            .property("per_revolutions", described::<Option<Whole<1, 100>>>("1 or 100; 100 unless told."))
            .property("for", described::<Option<KeyFor>>("For one run or for the whole unit; for one run unless told."))
            .required("mass_unit")
            .description(Some("The form in which the controller takes the number; null where nobody has said."))
            .into()
    }
}

/// The form as it stands in the columns of a metering unit; none where nobody has said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Said(pub Option<KeyedIn>);

impl<'r, R: Row> FromRow<'r, R> for Said
where
    &'static str: ColumnIndex<R>,
    Option<String>: Decode<'r, R::Database> + Type<R::Database>,
    Option<i64>: Decode<'r, R::Database> + Type<R::Database>,
{
    fn from_row(row: &'r R) -> Result<Self, sqlx::Error> {
        let mass: Option<String> = row.try_get("key_mass_unit")?;
        let count: Option<i64> = row.try_get("key_per_revolutions")?;
        let is_for: Option<String> = row.try_get("key_for")?;
        let known = match (&mass, count, &is_for) {
            (None, None, None) => Some(None),
            (Some(mass), Some(count), Some(is_for)) => {
                let words =
                    KeyMass::from_word(mass).zip(PerRevolutions::from_count(count)).zip(KeyFor::from_word(is_for));
                words.map(|((mass_unit, per), is_for)| Some(KeyedIn { mass_unit, per, is_for }))
            }
            _ => None,
        };
        known.map(Self).ok_or_else(|| sqlx::Error::ColumnDecode {
            index: "metering_unit.key_mass_unit".to_owned(),
            source: format!("no form to key in: {mass:?}, {count:?}, {is_for:?}").into(),
        })
    }
}

/// The form as the API shows it.
#[derive(Debug, Serialize, utoipa::ToSchema)]
pub struct KeyedInView {
    /// `g`, `kg`, `lb` or `oz`.
    pub mass_unit: &'static str,
    /// 1 or 100.
    pub per_revolutions: u8,
    /// `run` or `unit`.
    #[serde(rename = "for")]
    pub is_for: &'static str,
}

impl From<KeyedIn> for KeyedInView {
    fn from(form: KeyedIn) -> Self {
        Self { mass_unit: form.mass_unit.word(), per_revolutions: form.per.count(), is_for: form.is_for.word() }
    }
}
