//! Readiness through the API: what is due, since when and by what, and which number is in force.

mod board;
mod farm;
mod orders;
mod policy;
mod rate;
mod sequence;
mod sight;
mod triggers;
mod waivers;
