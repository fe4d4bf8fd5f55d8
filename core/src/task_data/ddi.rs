//! The entries of the data dictionary (ISO 11783-11) that matter for sowing, each with the unit of its number.
//!
//! There is none for a calibration factor. Numbers and units as in two public tables that were generated from the standard's
//! online data base: the npm package `isoxml` 1.11.2 and github.com/Open-Agriculture/AgIsoStack-plus-plus.

/// Volume per area, setpoint; 0.01 mm³/m².
pub const VOLUME_PER_AREA_SETPOINT: u16 = 0x0001;
/// Mass per area, setpoint; mg/m².
pub const MASS_PER_AREA_SETPOINT: u16 = 0x0006;
/// Count per area, setpoint; 0.001/m².
pub const COUNT_PER_AREA_SETPOINT: u16 = 0x000B;
/// Actual working width; mm.
pub const WORKING_WIDTH: u16 = 0x0043;
/// Working width as the device is built; mm.
pub const DEFAULT_WORKING_WIDTH: u16 = 0x0044;
/// Working width, largest; mm.
pub const MAXIMUM_WORKING_WIDTH: u16 = 0x0046;
/// Mass in a tank; g.
pub const CONTENT_MASS: u16 = 0x004B;
/// Volume applied; L.
pub const TOTAL_VOLUME: u16 = 0x0050;
/// Mass applied; kg.
pub const TOTAL_MASS: u16 = 0x0051;
/// Count applied; 1.
pub const TOTAL_COUNT: u16 = 0x0052;
/// Area worked; m².
pub const TOTAL_AREA: u16 = 0x0074;
/// Time at work; s.
pub const EFFECTIVE_TOTAL_TIME: u16 = 0x0077;
/// Volume applied, fine; mL.
pub const TOTAL_VOLUME_FINE: u16 = 0x015F;
/// Mass applied, fine; g.
pub const TOTAL_MASS_FINE: u16 = 0x0160;
/// Revolutions of a meter; 0.0001.
pub const TOTAL_REVOLUTIONS_FRACTIONAL: u16 = 0x0183;
/// Revolutions of a meter; 1.
pub const TOTAL_REVOLUTIONS: u16 = 0x0184;

/// How many grams one step of a mass is; `None` for what is no mass.
///
/// ```
/// use sowmark_core::task_data::ddi;
///
/// assert_eq!(ddi::grams_per_step(ddi::TOTAL_MASS), Some(1000));
/// assert_eq!(ddi::grams_per_step(ddi::TOTAL_AREA), None);
/// ```
pub const fn grams_per_step(ddi: u16) -> Option<i64> {
    match ddi {
        CONTENT_MASS | TOTAL_MASS_FINE => Some(1),
        TOTAL_MASS => Some(1000),
        _ => None,
    }
}
