//! The measuring and judging behind Sowmark: pure functions, SI inside, no clock, no randomness, no I/O.
//!
//! Two questions are answered here. *What is the factor, and how good is it?* goes from a [`catch`] over
//! the [`factor`] and its [`uncertainty`] to a [`verdict`], and where that is bad to a [`suspicion`]. *Is it true for this machine now?* goes from
//! records over a [`basis`] to [`readiness`], with [`drift`] watching what the fields took. [`seed`] and [`rate`] go
//! on from there: plants wanted to a rate, and a rate to the roller. [`quantity`] keeps what
//! people enter as they entered it; [`policy`] holds every limit with its reason.
//!
//! # From a catch to a number to key in
//!
//! ```
//! use sowmark_core::{
//!     catch::{Catch, Repeat, Revolutions, Sheet},
//!     circumstances::{Circumstances, Clues, Planned, ScaleFacts, ScaleStanding},
//!     policy::Policy,
//!     quantity::{Decimal, DriveRatio, Mass, Rate, Speed, print, significant_digits_for, unit},
//!     rate::{DriveRange, Metering},
//!     verdict::{CheckName, Verdict, judge},
//! };
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! // Three times sixty revolutions, two of eight runs caught and weighed apart.
//! let weighed = |label: &str, tare: &str, gross: &str| -> Result<Catch, Box<dyn std::error::Error>> {
//!     Ok(Catch {
//!         label: Some(label.to_owned()),
//!         runs: 1,
//!         tare: Mass::parse_text(tare)?,
//!         gross: Mass::parse_text(gross)?,
//!     })
//! };
//! let repeat = |catches| -> Result<Repeat, Box<dyn std::error::Error>> {
//!     Ok(Repeat { revolutions: Revolutions::Counted(Decimal::parse("60.0")?), catches, set_aside: None })
//! };
//! let sheet = Sheet {
//!     repeats: vec![
//!         repeat(vec![weighed("run 2", "0.320 kg", "2.110 kg")?, weighed("run 7", "0.322 kg", "2.136 kg")?])?,
//!         repeat(vec![weighed("run 2", "0.320 kg", "2.124 kg")?, weighed("run 7", "0.322 kg", "2.141 kg")?])?,
//!         repeat(vec![weighed("run 2", "0.320 kg", "2.117 kg")?, weighed("run 7", "0.322 kg", "2.129 kg")?])?,
//!     ],
//! };
//! let circumstances = Circumstances {
//!     runs_in_use: 8,
//!     drive_ratio: DriveRatio::parse("5:2")?,
//!     drive_range: Some(DriveRange { min_rpm: 10.0, max_rpm: 120.0 }),
//!     roller_speed_rpm: Some(50.0),
//!     planned: Some(Planned { rate: Rate::parse_text("140 kg/ha")?, speed: Speed::parse_text("9 km/h")? }),
//!     working_width_m: 6.0,
//!     scale: Some(ScaleFacts {
//!         readability: Mass::parse_text("1 g")?,
//!         capacity: Mass::parse_text("15 kg")?,
//!         last_check: ScaleStanding::PassedWithin,
//!     }),
//!     thousand_seed_weight_g: Some(45.2),
//!     expected: None,
//!     policy: Policy::default(),
//!     clues: Clues::default(),
//! };
//!
//! let judgement = judge(&sheet, &circumstances).map_err(|findings| format!("{findings:?}"))?;
//! assert_eq!(judgement.verdict, Verdict::Pass);
//!
//! // The number to key in, with the digits that mean something, in the unit that the machine's screen asks for.
//! let digits = significant_digits_for(judgement.factor, judgement.expanded_uncertainty_percent);
//! assert_eq!(print(judgement.factor, unit::G_PER_REV, digits), "30.09");
//! assert_eq!(print(judgement.factor_unit_total, unit::LB_PER_100REV, digits), "53.06");
//! assert_eq!(
//!     judgement.check(CheckName::Uncertainty).map(|check| check.says.as_str()),
//!     Some("The factor is known within 1.8 % (95 %); the limit is 5 %.")
//! );
//!
//! // And what it means in the field: the roller speed that the planned rate needs.
//! let unit = Metering { factor: judgement.factor, runs_in_use: 8, working_width_m: 6.0 };
//! let planned = circumstances.planned.ok_or("planned above")?;
//! let roller_speed = unit.roller_speed_rpm(planned.rate.si(), planned.speed.si()).ok_or("a factor above zero")?;
//! assert!((roller_speed - 52.35).abs() < 0.01);
//! # Ok(())
//! # }
//! ```
//!
//! A sheet that cannot be so is given back with everything that is wrong, each fault at its field:
//!
//! ```
//! use sowmark_core::catch::{Finding, Pointer};
//!
//! let at = Pointer::root().then("repeats").then(0).then("catches").then(1).then("gross");
//! let finding = Finding::new(at, "a gross of 300 g leaves no seed above the tare of 300 g".to_owned());
//! assert_eq!(finding.to_string(), "/repeats/0/catches/1/gross: a gross of 300 g leaves no seed above the tare of 300 g");
//! ```
#![deny(missing_docs)]
#![forbid(unsafe_code)]

pub mod advice;
pub mod basis;
pub mod catch;
pub mod circumstances;
pub mod drift;
pub mod factor;
pub mod figure;
pub mod ids;
pub mod line;
pub mod moment;
pub mod policy;
pub mod quantity;
pub mod rate;
pub mod readiness;
pub mod runs;
pub mod seed;
pub mod speed;
pub mod statistics;
pub mod suspicion;
pub mod task_data;
pub mod texts;
pub mod uncertainty;
pub mod unlikely;
pub mod usage;
pub mod verdict;
pub mod words;
