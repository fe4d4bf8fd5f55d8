//! Lists of other programs and spreadsheets, taken in: a file is checked entry by entry, shown with its faults, and stored
//! by the acts of the API once a person has said so.
//!
//! `sheet.rs` reads the file, `kind.rs` names the columns, `entry.rs` puts rows together to what the API takes, `there.rs`
//! knows what is there already, `act.rs` checks and stores. Numbers and rules are the acts' own; nothing here judges a record.

pub mod act;
pub mod entry;
pub mod kind;
pub mod names;
pub(super) mod page;
pub mod sheet;
pub mod store;
mod there;

pub(super) use act::recent;
