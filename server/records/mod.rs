//! Append-only records of every kind: what they have in common, how one is voided, and a seeder's timeline.

pub mod head;
