//! The catalogues of texts: every language against English, the keys against the code that says them, and what comes out.
//!
//! A test of core, so that it builds without the server; it reads the server's sources and texts from their folders. The
//! file of a language in `texts/` answers for core and for the pages, English lies in `core/texts/` and `texts/en.ftl`.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic)] // A catalogue that cannot be read has failed.

mod code;
mod ftl;
mod languages;
mod said;
mod spoken;
