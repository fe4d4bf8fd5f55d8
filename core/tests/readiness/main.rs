//! Readiness against tables made by hand from the rules, and against a second, plainer reading of them on random records.
#![allow(clippy::expect_used, reason = "a test that cannot be set up has failed")]

mod bounds;
mod check_triggers;
mod expected;
mod fleet;
mod late_records;
mod machine_triggers;
mod oracle;
mod random;
mod recall;
mod seed_triggers;
mod states;
mod stood;
mod waivers;
