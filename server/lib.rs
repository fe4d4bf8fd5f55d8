//! Sowmark's server: HTTP pages and a JSON API over `sowmark-core`, on SQLite or PostgreSQL.
//!
//! One way through: `web/` reads a request into a draft, a feature's `act.rs` does what is asked (asking `core` to
//! compute and judge), its `store.rs` keeps it in one transaction with its audit line, and a page or JSON comes back.
//! `app.rs` knows all features; features know `web`, `access`, `audit`, `db` and `core`; those know no feature. `demo/`
//! makes up a fleet through the features' acts.

pub mod access;
pub mod app;
pub mod audit;
pub mod calibration;
pub mod chart;
pub mod cli;
pub mod clock;
pub mod config;
pub mod db;
pub mod demo;
pub mod digest;
pub mod exchange;
pub mod feeds;
pub mod fleet;
pub mod hex;
pub mod mail;
pub mod metrics;
pub mod people;
pub mod phone;
pub mod plan;
pub mod readiness;
pub mod records;
pub mod reports;
pub mod seed;
pub mod sync;
pub mod texts;
pub mod usage;
pub mod web;
