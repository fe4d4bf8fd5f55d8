//! The scales that catches are weighed on, and how they were checked.

pub mod act;
pub mod store;
