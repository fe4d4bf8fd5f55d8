//! The fleet through the API and on its pages.

mod fitted;
mod labels;
mod pages;
mod roller;
mod seeder;
mod spanish;
mod units;
mod voiding;
mod weighing;
mod yard;
