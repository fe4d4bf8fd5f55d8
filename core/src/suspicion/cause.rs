//! The known slips, by name.

use serde::{Deserialize, Serialize};

/// What most likely went wrong at the machine, on the scale or on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// The bags were weighed in: no tare was taken off, or far less than the bags weigh.
    TareLeftIn,
    /// One catch alone has no tare.
    TareMissing,
    /// The scale showed pounds, kilograms were written down.
    PoundsEnteredAsKilograms,
    /// The scale showed kilograms, pounds were written down.
    KilogramsEnteredAsPounds,
    /// "5.8 lb" meant 5 lb 8 oz.
    OuncesEnteredAsTenths,
    /// A decimal sign is one place off.
    DecimalPoint,
    /// A run that splits in two was caught on one branch only.
    HalfOfEachRun,
    /// One run more or one run fewer was caught than is written down.
    RunsMiscounted,
    /// Twice the true revolutions were written down.
    RevolutionsDoubled,
    /// Half the true revolutions were written down.
    RevolutionsHalved,
    /// Another drive ratio was in.
    OtherDriveRatio,
    /// One run alone gave too little: plugged, or its hose end sealed.
    OneRunLow,
    /// The first repeat began with an empty meter.
    NotPrimed,
    /// Another roller was in.
    OtherRoller,
}

impl Cause {
    /// Every cause.
    pub const ALL: [Self; 14] = [
        Self::TareLeftIn,
        Self::TareMissing,
        Self::PoundsEnteredAsKilograms,
        Self::KilogramsEnteredAsPounds,
        Self::OuncesEnteredAsTenths,
        Self::DecimalPoint,
        Self::HalfOfEachRun,
        Self::RunsMiscounted,
        Self::RevolutionsDoubled,
        Self::RevolutionsHalved,
        Self::OtherDriveRatio,
        Self::OneRunLow,
        Self::NotPrimed,
        Self::OtherRoller,
    ];

    /// As the API and the database write it: `tare_left_in`.
    ///
    /// ```
    /// use sowmark_core::suspicion::Cause;
    ///
    /// assert!(Cause::ALL.iter().all(|cause| serde_json::to_value(cause).unwrap() == cause.name()));
    /// ```
    pub const fn name(self) -> &'static str {
        match self {
            Self::TareLeftIn => "tare_left_in",
            Self::TareMissing => "tare_missing",
            Self::PoundsEnteredAsKilograms => "pounds_entered_as_kilograms",
            Self::KilogramsEnteredAsPounds => "kilograms_entered_as_pounds",
            Self::OuncesEnteredAsTenths => "ounces_entered_as_tenths",
            Self::DecimalPoint => "decimal_point",
            Self::HalfOfEachRun => "half_of_each_run",
            Self::RunsMiscounted => "runs_miscounted",
            Self::RevolutionsDoubled => "revolutions_doubled",
            Self::RevolutionsHalved => "revolutions_halved",
            Self::OtherDriveRatio => "other_drive_ratio",
            Self::OneRunLow => "one_run_low",
            Self::NotPrimed => "not_primed",
            Self::OtherRoller => "other_roller",
        }
    }
}
