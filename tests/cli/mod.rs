//! The command line, as a person at the host uses it: the real program, on both databases.

mod commands;
mod demo;
pub mod place;
mod starting;
mod watching;
mod whole;
