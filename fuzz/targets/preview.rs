//! The preview of a calibration, with whatever libFuzzer comes upon.
#![no_main]

#[path = "../shared/mod.rs"]
mod shared;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| shared::look_at(bytes));
