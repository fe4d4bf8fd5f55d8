//! A ground drive: the way per turn of its wheel, and what follows from it.

use super::asked::Wanted;
use super::at_work::AtWork;
use crate::access::Scope;
use crate::calibration::act::find_calibration;
use crate::db::Cx;
use crate::web::error::Error;
use sowmark_core::catch::Revolutions;
use sowmark_core::quantity::unit;
use sowmark_core::rate::GroundDrive;

/// Where the way per turn of the wheel comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Source {
    /// It was asked with.
    Asked,
    /// It was entered with the calibration in force.
    Calibration,
}

impl Source {
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Asked => "asked",
            Self::Calibration => "calibration",
        }
    }
}

/// The wheel that drives a unit's roller.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wheel {
    /// Without slip, m.
    pub(super) circumference: f64,
    pub(super) source: Source,
    /// At work, with slip.
    pub(super) drive: GroundDrive,
}

impl Wheel {
    /// The wheel, where its circumference is known.
    pub(super) fn of(at_work: &AtWork, wanted: &Wanted, entered: Option<f64>) -> Option<Self> {
        let known = wanted.circumference.map(|asked| (asked, Source::Asked));
        let (circumference, source) = known.or(entered.map(|entered| (entered, Source::Calibration)))?;
        let drive = GroundDrive { ratio: at_work.setup.drive_ratio.value(), rolling_circumference_m: circumference };
        Some(Self { circumference, source, drive: drive.with_slip(wanted.slip)? })
    }
}

/// The way per turn of the wheel that the calibration in force was entered with, m. None where its revolutions were not
/// told by a distance.
pub(super) async fn entered_circumference(
    cx: &mut Cx<'_>,
    scope: &Scope,
    at_work: &AtWork,
) -> Result<Option<f64>, Error> {
    if !at_work.is_ground {
        return Ok(None);
    }
    let calibration = find_calibration(cx, scope, at_work.in_force.calibration).await?;
    Ok(calibration.sheet.repeats.iter().find_map(|repeat| match &repeat.revolutions {
        Revolutions::Distance { circumference, .. } => Some(circumference.si()),
        _ => None,
    }))
}

/// The areas that are cranked by custom, m², with what people call them: 1/100 ha, 1/25 ha, a tenth of an acre.
pub(super) fn customary() -> [(&'static str, f64); 3] {
    [("1/100 ha", 100.0), ("1/25 ha", 400.0), ("1/10 ac", unit::AC.in_si() / 10.0)]
}
