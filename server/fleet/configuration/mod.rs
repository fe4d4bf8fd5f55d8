//! Configurations: a seeder's working width and row spacing, from a moment on.

pub mod act;
pub mod store;
