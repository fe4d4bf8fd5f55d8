//! Calibrations: a catch through the API and through the page, and what becomes of it.

mod around;
mod bench;
mod charts;
mod hostile;
mod pages;
mod recording;
mod refused;
mod shared;
mod spanish;
mod standing;
mod suspicions;
