//! Quantities at the edge: `{"value": "12.40", "unit": "lb"}` or `{"lb": 5, "oz": 8}` in, the same as entered out.

use super::input::{At, Faults, Input, kind_of, text_of};
use super::saying::Saying;
use crate::saying;
use serde::Serialize;
use serde_json::{Value, json};
use sowmark_core::quantity::unit::dimension;
use sowmark_core::quantity::{self, Decimal, Dimension, Quantity, Unit};
use sowmark_core::say;
use sowmark_core::words::Words;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, SchemaType, Type};

/// What a quantity can physically be, in SI: larger is a slip of the decimal sign, whoever made it. (Ours, no source.)
trait Bounds: Dimension {
    const LARGEST: f64;
    /// Smaller, and not nothing, is a slip as well.
    const SMALLEST: f64 = 0.0;
    /// A mass may be nothing (a tare, a count); a width, a rate, a density may not.
    const MAY_BE_ZERO: bool = false;
}

impl Bounds for dimension::Mass {
    const LARGEST: f64 = 1e6;
    const MAY_BE_ZERO: bool = true;
}
impl Bounds for dimension::Length {
    const LARGEST: f64 = 1e5;
}
impl Bounds for dimension::Area {
    const LARGEST: f64 = 1e9;
}
impl Bounds for dimension::Speed {
    const LARGEST: f64 = 20.0;
}
impl Bounds for dimension::SeedWeight {
    const LARGEST: f64 = 10_000.0;
}
impl Bounds for dimension::BulkDensity {
    const LARGEST: f64 = 5_000.0;
    // The fluffiest grass seed weighs several times as much.
    const SMALLEST: f64 = 10.0;
}
/// What is sown on a square metre at most, kg: ten times what the heaviest dressing of a seeder is.
pub const LARGEST_RATE: f64 = 1.0;

impl Bounds for dimension::Rate {
    const LARGEST: f64 = LARGEST_RATE;
}
impl Bounds for dimension::MeterFactor {
    const LARGEST: f64 = 1_000.0;
}
impl Bounds for dimension::Volume {
    const LARGEST: f64 = 1.0;
}

impl<D: Bounds> Input for Quantity<D> {
    fn read(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Self> {
        let quantity = read_quantity::<D>(value, at, faults)?;
        let si = quantity.si();
        if quantity.is_negative() {
            faults.add(at, of_quantity(quantity, "fault-quantity-negative"))
        } else if si == 0.0 && !D::MAY_BE_ZERO {
            faults.add(at, of_quantity(quantity, "fault-quantity-nothing"))
        } else if si < D::SMALLEST {
            faults.add(at, of_quantity(quantity, "fault-quantity-too-small"))
        } else if si > D::LARGEST {
            faults.add(at, of_quantity(quantity, "fault-quantity-too-large"))
        } else {
            Some(quantity)
        }
    }

    fn schema() -> RefOr<Schema> {
        let value = ObjectBuilder::new()
            .schema_type(SchemaType::from_iter([Type::String, Type::Number]))
            .description(Some("A decimal as text, or a number."));
        let unit = ObjectBuilder::new().schema_type(Type::String).enum_values(Some(D::units().iter().map(Unit::name)));
        ObjectBuilder::new()
            .property("value", value)
            .property("unit", unit)
            .required("value")
            .required("unit")
            .description(Some(format!("A {}.", D::NAME)))
            .into()
    }
}

/// A text on a quantity that cannot be.
fn of_quantity<D: Dimension>(quantity: Quantity<D>, key: &'static str) -> Saying {
    Saying::from(move |words: Words| {
        say!(words, key, given = words.entered(&quantity), dimension = words.dimension(D::NAME))
    })
}

fn read_quantity<D: Dimension>(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Quantity<D>> {
    let fields = match value {
        Some(Value::Object(fields)) => fields,
        None | Some(Value::Null) => return faults.add(at, saying!("fault-missing")),
        Some(other) => {
            let (given, unit) = (kind_of(other), D::units().first().map_or("", Unit::name));
            let example = format!("{{\"value\": \"12.40\", \"unit\": \"{unit}\"}}");
            return faults.add(at, move |words: Words| {
                let dimension = words.dimension(D::NAME);
                say!(words, "fault-no-quantity", given = given, dimension = dimension, example = &example)
            });
        }
    };
    if fields.contains_key("lb") || fields.contains_key("oz") {
        return read_pounds_ounces(value, at, faults);
    }
    faults.object(value, at, &["value", "unit"])?;
    let number = Decimal::read(fields.get("value"), &at.key("value"), faults);
    let unit = text_of(fields.get("unit"), &at.key("unit"), faults);
    match D::unit_named(unit?) {
        Ok(unit) => Some(Quantity::of(number?, unit)),
        Err(error) => faults.add(&at.key("unit"), move |words: Words| error.says(words)),
    }
}

fn read_pounds_ounces<D: Dimension>(value: Option<&Value>, at: &At, faults: &mut Faults) -> Option<Quantity<D>> {
    let fields = faults.object(value, at, &["lb", "oz"])?;
    let pounds = Decimal::read(fields.get("lb"), &at.key("lb"), faults);
    let ounces = Decimal::read(fields.get("oz"), &at.key("oz"), faults);
    match Quantity::from_entered(&format!("{} lb {} oz", pounds?.as_str(), ounces?.as_str())) {
        Ok(quantity) => Some(quantity),
        Err(error) => faults.add(at, move |words: Words| error.says(words)),
    }
}

/// A number and its unit as a query sends them: `rate` and `rate_unit`. The unit is the default where none was sent. None
/// when a fault was noted, at the part of the query that it is about.
pub fn asked<D: Dimension>(
    faults: &mut Faults,
    name: &str,
    value: Option<&str>,
    unit: Option<&str>,
    default: Unit<D>,
) -> Option<(f64, Unit<D>)>
where
    Quantity<D>: Input,
{
    let unit = unit.unwrap_or(default.name());
    let tree = serde_json::json!({ "value": value, "unit": unit });
    let mut found = Faults::default();
    let read = Quantity::<D>::read(Some(&tree), &At::default(), &mut found);
    match found.finish(read) {
        Ok(quantity) => D::unit_named(unit).ok().map(|unit| (quantity.si(), unit)),
        Err(error) => {
            for fault in error.faults() {
                let part = if fault.pointer == "/unit" { "_unit" } else { "" };
                faults.add::<()>(&At::default().key(&format!("{name}{part}")), move |words: Words| fault.says(words));
            }
            None
        }
    }
}

/// A quantity as it is answered: what was entered, as it was entered; or what was computed, in one unit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, utoipa::ToSchema)]
pub struct Q {
    /// A decimal.
    pub value: String,
    pub unit: &'static str,
    /// Whole pounds, where pounds and ounces were entered.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lb: Option<String>,
    /// The ounces beside them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub oz: Option<String>,
}

impl<D: Dimension> From<&Quantity<D>> for Q {
    fn from(quantity: &Quantity<D>) -> Self {
        let (lb, oz) = match quantity.parts() {
            Some((lb, oz)) => (Some(lb.as_str().to_owned()), Some(oz.as_str().to_owned())),
            None => (None, None),
        };
        Self { value: quantity.value_text().to_owned(), unit: quantity.unit(), lb, oz }
    }
}

impl Q {
    /// A computed value, to the last digit that it has: a program rounds for itself.
    #[must_use]
    pub fn computed<D: Dimension>(si: f64, unit: Unit<D>) -> Self {
        Self { value: format!("{}", quantity::from_si(si, unit)), unit: unit.name(), lb: None, oz: None }
    }

    /// What was stored as entered.
    ///
    /// # Errors
    /// When it is not what this program writes.
    pub fn stored<D: Dimension>(entered: &str) -> Result<Self, super::error::Error> {
        Ok(Self::from(&stored::<D>(entered)?))
    }

    /// The same of what may be absent.
    ///
    /// # Errors
    /// When it is not what this program writes.
    pub fn stored_if<D: Dimension>(entered: Option<&str>) -> Result<Option<Self>, super::error::Error> {
        entered.map(Self::stored::<D>).transpose()
    }
}

/// What was stored as entered, as it would be sent.
///
/// # Errors
/// When it is not what this program writes.
pub fn as_sent<D: Dimension>(entered: &str) -> Result<Value, super::error::Error> {
    let quantity = stored::<D>(entered)?;
    Ok(match quantity.parts() {
        Some((lb, oz)) => json!({ "lb": lb.as_str(), "oz": oz.as_str() }),
        None => json!({ "value": quantity.value_text(), "unit": quantity.unit() }),
    })
}

/// The same of what may be absent; null where it is.
///
/// # Errors
/// When it is not what this program writes.
pub fn as_sent_if<D: Dimension>(entered: Option<&str>) -> Result<Value, super::error::Error> {
    entered.map_or(Ok(Value::Null), as_sent::<D>)
}

/// The quantity that was stored as entered.
///
/// # Errors
/// When it is not what this program writes.
pub fn stored<D: Dimension>(entered: &str) -> Result<Quantity<D>, super::error::Error> {
    Quantity::from_entered(entered).map_err(|_| super::error::Error::inconsistent("a measured value", entered))
}
