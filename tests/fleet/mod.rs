//! The fleet through the API and on its pages.

mod changed;
mod fitted;
mod labels;
pub(crate) mod pages;
mod roller;
mod seeder;
mod spanish;
mod units;
mod voiding;
mod weighing;
mod yard;
