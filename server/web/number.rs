//! Numbers that are sent, each within its bounds.

use super::input::{At, Faults, Input};
use serde_json::Value;
use sowmark_core::quantity::Decimal;
use sowmark_core::say;
use sowmark_core::words::Words;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, SchemaType, Type};

/// A whole number between two bounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Whole<const LEAST: i64, const MOST: i64>(pub i64);

impl<const LEAST: i64, const MOST: i64> Whole<LEAST, MOST> {
    /// As a count; the bounds of every count in use are within `u32`.
    #[must_use]
    pub fn count(self) -> u32 {
        u32::try_from(self.0).unwrap_or(0)
    }
}

impl<const LEAST: i64, const MOST: i64> Input for Whole<LEAST, MOST> {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let decimal = Decimal::read(value, at, faults)?;
        let number = decimal.to_f64();
        #[allow(clippy::cast_possible_truncation)]
        if number.fract() != 0.0 {
            faults.add(at, move |words: Words| say!(words, "fault-not-whole", given = words.decimal(decimal.as_str())))
        } else if number < LEAST as f64 || number > MOST as f64 {
            faults.add(at, move |words: Words| {
                let given = words.decimal(decimal.as_str());
                say!(words, "fault-out-of-range", given = given, least = LEAST.to_string(), most = MOST.to_string())
            })
        } else {
            Some(Self(number as i64))
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::Integer)
            .minimum(Some(utoipa::Number::Int(isize::try_from(LEAST).unwrap_or(isize::MIN))))
            .maximum(Some(utoipa::Number::Int(isize::try_from(MOST).unwrap_or(isize::MAX))))
            .into()
    }
}

/// A decimal as text, or a JSON number, whose own digits are kept.
impl Input for Decimal {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let parsed = match value {
            Some(Value::String(text)) => Decimal::parse(text),
            Some(Value::Number(number)) => Decimal::parse_json_number(&number.to_string()),
            other => return faults.wrong_kind(other, at, "number"),
        };
        match parsed {
            Ok(decimal) => Some(decimal),
            Err(error) => faults.add(at, move |words: Words| error.says(words)),
        }
    }

    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(SchemaType::from_iter([Type::String, Type::Number]))
            .description(Some("A decimal as text, or a number."))
            .into()
    }
}

/// A percentage between 0 and 100.
#[derive(Clone, Debug, PartialEq)]
pub struct Percent(pub Decimal);

impl Input for Percent {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let decimal = Decimal::read(value, at, faults)?;
        if (0.0..=100.0).contains(&decimal.to_f64()) {
            Some(Self(decimal))
        } else {
            faults.add(at, move |words: Words| say!(words, "fault-no-share", given = words.decimal(decimal.as_str())))
        }
    }

    fn schema() -> RefOr<Schema> {
        Decimal::schema()
    }
}

/// A number above zero, at most `MOST`.
#[derive(Clone, Debug, PartialEq)]
pub struct Positive<const MOST: i64>(pub Decimal);

/// A roller speed in revolutions per minute. No meter roller turns ten thousand times a minute.
pub type Rpm = Positive<10_000>;

impl<const MOST: i64> Input for Positive<MOST> {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let decimal = Decimal::read(value, at, faults)?;
        let number = decimal.to_f64();
        if number > 0.0 && number <= MOST as f64 {
            Some(Self(decimal))
        } else {
            faults.add(at, move |words: Words| {
                let given = words.decimal(decimal.as_str());
                say!(words, "fault-not-above-zero", given = given, most = MOST.to_string())
            })
        }
    }

    fn schema() -> RefOr<Schema> {
        Decimal::schema()
    }
}
