//! A ground drive: the way per turn of its wheel, and what follows from it.

use super::asked::Wanted;
use super::at_work::AtWork;
use crate::access::Scope;
use crate::calibration::act::find_calibration;
use crate::db::Cx;
use crate::readiness::names::Names;
use crate::web::error::Error;
use sowmark_core::catch::Revolutions;
use sowmark_core::quantity::unit;
use sowmark_core::rate::{GroundDrive, Slip};

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
    pub(super) slip: Slip,
    pub(super) source: Source,
    /// At work, with slip.
    pub(super) drive: GroundDrive,
}

/// A wheel as the calibration in force was entered with it: the way per turn, m, and the slip at which that holds. One says
/// nothing without the other.
#[derive(Clone, Copy, Debug)]
pub(super) struct EnteredWheel {
    pub(super) circumference: f64,
    pub(super) slip: Slip,
}

impl Wheel {
    /// The wheel, where its circumference is known. A slip that was asked with is taken as it is; else a way that was asked
    /// with is one under load, and the calibration's way has the calibration's slip.
    pub(super) fn of(at_work: &AtWork, wanted: &Wanted, entered: Option<EnteredWheel>) -> Option<Self> {
        let asked = wanted.circumference.map(|asked| (asked, Slip::default(), Source::Asked));
        let entered = entered.map(|entered| (entered.circumference, entered.slip, Source::Calibration));
        let (circumference, usual, source) = asked.or(entered)?;
        let slip = wanted.slip.unwrap_or(usual);
        let drive = GroundDrive { ratio: at_work.setup.drive_ratio.value(), rolling_circumference_m: circumference };
        Some(Self { circumference, slip, source, drive: drive.with_slip(slip)? })
    }
}

/// The wheel that the calibration in force was entered with. None where its revolutions were not told by a distance, or where
/// the reader may not see that calibration.
pub(super) async fn entered_wheel(
    cx: &mut Cx<'_>,
    scope: &Scope,
    names: &Names,
    at_work: &AtWork,
) -> Result<Option<EnteredWheel>, Error> {
    let calibration = at_work.in_force.calibration;
    if !at_work.is_ground || names.told(calibration.0).is_none() {
        return Ok(None);
    }
    let calibration = find_calibration(cx, scope, calibration).await?;
    let entered = calibration.sheet.repeats.iter().find_map(|repeat| match &repeat.revolutions {
        Revolutions::Distance { circumference, slip_percent, .. } => Some((circumference.si(), slip_percent.as_ref())),
        _ => None,
    });
    let Some((circumference, percent)) = entered else { return Ok(None) };
    let slip = percent.map_or(Ok(Slip::default()), |percent| {
        Slip::percent(percent.to_f64()).map_err(|_| Error::inconsistent("slip_percent", percent.as_str()))
    });
    Ok(Some(EnteredWheel { circumference, slip: slip? }))
}

/// The areas that are cranked by custom, m², with what people call them: 1/100 ha, 1/25 ha, a tenth of an acre.
pub(super) fn customary() -> [(&'static str, f64); 3] {
    [("1/100 ha", 100.0), ("1/25 ha", 400.0), ("1/10 ac", unit::AC.in_si() / 10.0)]
}
