//! The catalogues of texts: every language against English, the keys against the code that says them, and what comes out.
//!
//! A test of core, so that it builds without the server; it reads the server's sources and texts from their folders. The
//! file of a language in `texts/` answers for core and for the pages, English lies in `core/texts/` and `texts/en.ftl`.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)] // A catalogue that cannot be read has failed.

mod bare;
#[allow(dead_code, reason = "shared with the tests of suspicions, which need all of it")]
#[path = "../../core/tests/suspicion/chance.rs"]
mod chance;
mod code;
#[allow(dead_code, reason = "shared with the tests of suspicions, which need all of it")]
#[path = "../../core/tests/suspicion/day.rs"]
mod day;
mod ftl;
mod languages;
mod leftovers;
#[allow(dead_code, reason = "shared with the tests of suspicions, which need all of it")]
#[path = "../../core/tests/suspicion/mistakes.rs"]
mod mistakes;
mod said;
mod spoken;
