//! Charts as inline SVG, made on the server: scales with ticks, marks, labels beside what they name, a table behind each.
//!
//! A feature says what to draw in its own units and words; nothing here knows a calibration. A chart carries no style:
//! every mark has a class of the style sheet, so that it is readable in light, dark and print. What cannot be drawn (a
//! number that is none) is left out, never an error: the table has it all.

pub mod axis;
pub mod figure;
pub mod label;
pub mod plot;
pub mod scale;

pub use axis::{numbers, whole_days};
pub use figure::{Column, Figure, Table};
pub use plot::{Mark, Plot, Stroke};
pub use scale::Scale;
