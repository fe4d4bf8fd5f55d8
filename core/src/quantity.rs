//! Measured values as people enter them: a decimal, a unit, and the exact way from there to SI.
//!
//! What was sent is kept as it was sent ([`Decimal`] keeps every digit, [`Quantity`] keeps the unit), because the last
//! digit of a reading tells how finely the scale could read. Beside it stands the value in SI, converted with one
//! rounding only. Nothing here knows what is weighed or why; limits that depend on the trade live in [`crate::catch`]
//! and [`crate::policy`].
//!
//! # SI here
//!
//! | quantity | `.si()` is in | note |
//! | --- | --- | --- |
//! | [`Mass`] | kg | |
//! | [`Length`] | m | |
//! | [`Area`] | m² | |
//! | [`Volume`] | m³ | a roller's displacement per revolution |
//! | [`Speed`] | m/s | |
//! | [`BulkDensity`] | kg/m³ | |
//! | [`Rate`] | kg/m² | 1 kg/ha is 0.0001 |
//! | [`MeterFactor`] | kg per revolution | |
//! | [`Temperature`] | °C | its scales have zeros of their own: `.celsius()` |
//! | [`SeedWeight`] | g per thousand seeds | the trade's own unit everywhere, so no conversion |
//!
//! ```
//! use sowmark_core::quantity::{Decimal, Mass, print, unit};
//!
//! let gross = Mass::parse_text("12,40 lb")?;
//! assert_eq!(gross.entered(), "12.40 lb");
//! assert_eq!(gross.si(), 5.624545388);
//! assert_eq!(print(gross.si(), unit::KG, 4), "5.625");
//!
//! let tare = Mass::new(Decimal::parse("0.5")?, "stone").unwrap_err();
//! assert!(tare.is_unit());
//! assert_eq!(tare.to_string(), "“stone” is not a unit of mass; allowed are g, kg, t, oz, lb");
//! # Ok::<(), sowmark_core::quantity::QuantityError>(())
//! ```

mod decimal;
mod entered;
mod error;
mod fraction;
mod keyed;
mod print;
mod ratio;
mod temperature;
pub mod unit;

pub use decimal::Decimal;
pub use entered::{Area, BulkDensity, Length, Mass, MeterFactor, Quantity, Rate, SeedWeight, Speed, Volume};
pub use error::QuantityError;
pub use keyed::{KeyedFor, KeyedIn, PerRevolutions};
pub use print::{from_si, print, print_number, print_to_step, significant_digits_for};
pub use ratio::DriveRatio;
pub use temperature::Temperature;
pub use unit::{Dimension, Unit};
