//! The fleet through the API.

mod roller;
