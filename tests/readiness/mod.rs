//! Readiness through the API: what is due, since when and by what, and which number is in force.

mod board;
mod changed;
pub mod farm;
mod gate;
mod ground;
mod keyed_in;
mod orders;
mod policy;
mod rate;
mod sequence;
mod sight;
mod spanish;
mod triggers;
mod waivers;
