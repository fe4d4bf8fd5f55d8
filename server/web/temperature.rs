//! Temperatures at the edge: `{"value": "12.5", "unit": "°C"}` in, the same as entered out.

use super::error::Error;
use super::input::{At, Faults, Input, text_of};
use serde::Serialize;
use serde_json::Value;
use sowmark_core::quantity::{Decimal, Temperature};
use sowmark_core::say;
use sowmark_core::words::Words;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, SchemaType, Type};

/// In which air can anybody work, °C. (Ours, no source: beyond it is a slip of the sign or the scale.)
const COLDEST: f64 = -60.0;
const HOTTEST: f64 = 60.0;

impl Input for Temperature {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let fields = faults.object(value, at, &["value", "unit"])?;
        // "12 °F" typed beside a unit comes with the ring left at its number.
        let bare = match fields.get("value") {
            Some(Value::String(text)) => Some(Value::String(text.trim().trim_end_matches('°').trim().to_owned())),
            other => other.cloned(),
        };
        let number = Decimal::read(bare.as_ref(), &at.key("value"), faults);
        let unit = text_of(fields.get("unit"), &at.key("unit"), faults);
        let read = match Self::new(number?, unit?) {
            Ok(read) => read,
            Err(error) => return faults.add(&at.key("unit"), move |words: Words| error.says(words)),
        };
        if (COLDEST..=HOTTEST).contains(&read.celsius()) {
            return Some(read);
        }
        faults.add(at, move |words: Words| say!(words, "fault-no-air", given = words.decimal(&read.entered())))
    }

    fn schema() -> RefOr<Schema> {
        let value = ObjectBuilder::new()
            .schema_type(SchemaType::from_iter([Type::String, Type::Number]))
            .description(Some("A decimal as text, or a number."));
        let unit = ObjectBuilder::new().schema_type(Type::String).enum_values(Some(Self::UNITS));
        ObjectBuilder::new()
            .property("value", value)
            .property("unit", unit)
            .required("value")
            .required("unit")
            .description(Some("A temperature."))
            .into()
    }
}

/// A temperature as it was entered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, utoipa::ToSchema)]
pub struct TemperatureView {
    /// A decimal.
    pub value: String,
    /// `°C` or `°F`.
    pub unit: &'static str,
}

impl TemperatureView {
    /// What is stored.
    ///
    /// # Errors
    /// When it is not what this program writes.
    pub fn stored_if(entered: Option<&str>) -> Result<Option<Self>, Error> {
        let view = |entered: &str| {
            let read = Temperature::from_entered(entered).map_err(|_| Error::inconsistent("a temperature", entered))?;
            Ok(Self { value: read.value_text().to_owned(), unit: read.unit() })
        };
        entered.map(view).transpose()
    }
}
