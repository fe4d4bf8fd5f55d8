//! The reasons why a metering unit must be caught again: their names, their order and their severity.
//!
//! What each one says when it is due stands in `detail.rs`; how it is found, in a file of its own or of its family.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::{say, words::Words};

macro_rules! triggers {
    ($($(#[$doc:meta])* $name:ident = $text:literal, $severity:ident;)*) => {
        /// A reason why the unit must be caught again. They compare and are listed in the order in which they stand here.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum Trigger { $($(#[$doc])* $name,)* }

        impl Trigger {
            /// All of them, in their order.
            pub const ALL: [Trigger; 15] = [$(Trigger::$name),*];

            /// Its name in the API and the database.
            pub fn as_str(self) -> &'static str {
                match self { $(Trigger::$name => $text,)* }
            }

            /// Whether it stops the factor or only asks for a check.
            pub fn severity(self) -> Severity {
                match self { $(Trigger::$name => Severity::$severity,)* }
            }
        }
    };
}

triggers! {
    /// The unit has no accepted calibration at all.
    NeverCalibrated = "never_calibrated", Stop;
    /// The season in force began after the calibration.
    NewSeason = "new_season", Stop;
    /// Another crop is in the tank.
    CropChanged = "crop_changed", Stop;
    /// Another lot of the same crop is in the tank.
    LotChanged = "lot_changed", Stop;
    /// The same lot, but its seed weight is another.
    SeedWeightChanged = "seed_weight_changed", Stop;
    /// Another roller is in.
    RollerChanged = "roller_changed", Stop;
    /// Another drive ratio is set.
    DriveRatioChanged = "drive_ratio_changed", Stop;
    /// Another gate opening is set.
    GateChanged = "gate_changed", Stop;
    /// Working width, row spacing or runs in use differ.
    ConfigurationChanged = "configuration_changed", Stop;
    /// A service that affects metering came after the calibration.
    ComponentReplaced = "component_replaced", Stop;
    /// A later calibration on the same basis was held or rejected, and none accepted since.
    CalibrationInDoubt = "calibration_in_doubt", Stop;
    /// The latest job needed another roller speed than the calibration's.
    RollerSpeedOff = "roller_speed_off", Check;
    /// The usage chart since the calibration is outside its limits.
    Drift = "drift", Check;
    /// More area or more days since the calibration than the policy allows.
    Interval = "interval", Check;
    /// The scale of the calibration was not shown to be right.
    ScaleUnchecked = "scale_unchecked", Check;
}

impl Trigger {
    /// Whether a waiver can let it pass. There is no factor to let pass where the unit was never calibrated.
    pub fn can_be_waived(self) -> bool {
        self != Trigger::NeverCalibrated
    }
}

impl fmt::Display for Trigger {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

impl FromStr for Trigger {
    type Err = UnknownTrigger;

    /// Reads the name that [`Trigger::as_str`] writes.
    ///
    /// ```
    /// use sowmark_core::readiness::Trigger;
    ///
    /// assert_eq!("lot_changed".parse(), Ok(Trigger::LotChanged));
    /// let error = "lot".parse::<Trigger>().unwrap_err();
    /// assert!(error.to_string().starts_with("“lot” is no trigger; use one of never_calibrated, new_season,"));
    /// ```
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::ALL.into_iter().find(|trigger| trigger.as_str() == text).ok_or_else(|| UnknownTrigger(text.to_owned()))
    }
}

/// A text that names no trigger.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownTrigger(String);

impl UnknownTrigger {
    /// What was given and what is allowed, as a person reads.
    pub fn says(&self, words: Words) -> String {
        say!(words, "trigger-unknown", given = &self.0, names = Trigger::ALL.map(Trigger::as_str).join(", "))
    }
}

impl fmt::Display for UnknownTrigger {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says(Words::default()))
    }
}

impl std::error::Error for UnknownTrigger {}

/// How much a trigger matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// The factor is not true for what is there now.
    Stop,
    /// The factor may be keyed in, but something about it should be looked at.
    Check,
}
