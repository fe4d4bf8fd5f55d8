//! Which season is in force, and whether it began after a calibration (`new_season`).

use jiff::{Timestamp, tz::TimeZone};

use crate::{
    moment::midnight,
    readiness::{
        Cause, CauseKind, Detail, Season,
        due::Finding,
        seed::crop_key,
        timeline::{Calibrated, Timeline},
    },
};

/// A season that has begun, and the midnight at which it did.
#[derive(Clone, Debug)]
pub(super) struct Started<'a> {
    pub(super) at: Timestamp,
    pub(super) season: &'a Season,
    /// Its crops in the form in which crops compare; none for all crops.
    crops: Vec<String>,
}

impl Started<'_> {
    fn is_for(&self, crop: Option<&str>) -> bool {
        self.crops.is_empty() || crop.is_some_and(|crop| self.crops.iter().any(|own| own == crop))
    }
}

/// The seasons that have begun by `at`, in the order in which they did; of two that began together the one with the greater id
/// counts as the later.
pub(super) fn started<'a>(seasons: &'a [Season], zone: &TimeZone, at: Timestamp) -> Vec<Started<'a>> {
    let mut started: Vec<Started<'a>> = seasons
        .iter()
        .map(|season| Started {
            at: midnight(season.starts_on, zone),
            season,
            crops: season.crops.iter().flatten().map(|crop| crop_key(crop)).collect(),
        })
        .filter(|season| season.at <= at)
        .collect();
    started.sort_by_key(|season| (season.at, season.season.id));
    started
}

/// The season in force at `at` for `crop`: the one that began last, among those for all crops and those for this crop.
///
/// Without a crop (an empty tank) only seasons for all crops count.
pub fn season_in_force<'a>(
    seasons: &'a [Season],
    zone: &TimeZone,
    at: Timestamp,
    crop: Option<&str>,
) -> Option<&'a Season> {
    let crop = crop.map(crop_key);
    started(seasons, zone, at).into_iter().rev().find(|season| season.is_for(crop.as_deref())).map(|found| found.season)
}

/// The season in force at `at` for `crop`, if it began after the calibration.
pub(super) fn new_season<'t, 'a>(
    line: &'t Timeline<'a>,
    calibration: &Calibrated<'a>,
    crop: Option<&str>,
    at: Timestamp,
) -> Option<&'t Started<'a>> {
    let in_force = line.seasons.iter().rev().filter(|season| season.at <= at).find(|season| season.is_for(crop))?;
    (in_force.at > calibration.moment().occurred_at).then_some(in_force)
}

pub(super) fn finding(line: &Timeline<'_>, calibration: &Calibrated<'_>) -> Option<Finding> {
    let season = new_season(line, calibration, line.crop(line.now.lot), line.at)?;
    Some(Finding {
        since: season.at,
        cause: Cause { kind: CauseKind::Season, id: season.season.id.into() },
        detail: Detail::NewSeason { season: season.season.id, starts_on: season.season.starts_on },
    })
}
