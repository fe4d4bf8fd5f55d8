//! Seed that takes up water fills a meter with less: the mass a meter turns out follows the bulk density.
//!
//! Dursun and others, Journal of Stored Products Research 43 (2007) 149-155: sugar beet seed from 8.4 to 14.0 % moisture, bulk density
//! from 447 to 418 kg/m³. That a factor follows it is the first-order rule by which core expects a factor.

use sowmark_core::{circumstances::Expected, ids::CalibrationId};

use crate::check::{Seen, Source, check};

pub(crate) fn source() -> Source {
    let expected = |ratio: f64| Expected::from_last_calibration(CalibrationId(uuid::Uuid::nil()), 1.0, Some(ratio)).factor;
    Source {
        title: "sugar beet seed and moisture",
        address: "Journal of Stored Products Research 43 (2007) 149-155",
        seen: Seen::Read,
        checks: vec![
            check("percent of change of the expected factor", "447 to 418 kg/m³", 100.0 * (expected(418.0 / 447.0) - 1.0))
                .prints("-6.5 %")
                .computed(-6.487_695_749_440_716, 1e-12, "exact fractions; less one leaves fewer digits"),
            check("percent of change of the expected factor", "77.2 to 72.1 kg/hL", 100.0 * (expected(72.1 / 77.2) - 1.0))
                .computed(-6.606_217_616_580_311, 1e-12, "exact fractions; less one leaves fewer digits"),
        ],
    }
}
