//! Calibrations: a catch through the API and through the page, and what becomes of it.

mod bench;
mod hostile;
mod pages;
mod recording;
mod refused;
mod standing;
