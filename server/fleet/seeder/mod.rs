//! Seeders: the machines and their metering units.

pub mod act;
mod draft;
pub mod store;
