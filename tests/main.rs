//! Sowmark from the outside, through HTTP, on both databases.
//!
//! `world.rs` makes a server with people in it; each module tells one part of the job. A test is an
//! `async fn(world: World)` listed in [`on_both!`]; it runs once on SQLite and once on PostgreSQL, whose throw-away
//! server `scripts/with-postgres` starts. Without one the PostgreSQL half fails; it is never skipped.
#![allow(clippy::unwrap_used, clippy::expect_used)]
// Nothing outside can reach into a test program; `pub` says what the modules share.
#![allow(unreachable_pub)]

mod spanish;
mod world;

mod calibration;
mod chart;
mod cli;
mod demo;
mod digest;
mod exchange;
mod feeds;
mod fleet;
mod house;
mod people;
mod plan;
mod readiness;
mod reports;
mod seed;
mod sync;
mod usage;
