//! What the records know that could explain an odd result: how heavy the bags were, which ratios the seeder had, which
//! rollers there are. Only suspicions look at it.

use super::store;
use crate::access::Scope;
use crate::db::Cx;
use crate::web::error::Error;
use crate::web::quantity::stored;
use sowmark_core::catch::Sheet;
use sowmark_core::circumstances::{Clues, OtherRoller};
use sowmark_core::ids::{LotId, RollerId};
use sowmark_core::moment::Moment;
use sowmark_core::quantity::DriveRatio;
use sowmark_core::quantity::unit::dimension;
use sowmark_core::readiness::{Surroundings, UnitHistory, expected_from_history, latest_known_tests};
use uuid::Uuid;

/// Where and with what a catch was made.
pub(super) struct Fitted<'r> {
    pub(super) unit: &'r store::UnitRow,
    pub(super) history: &'r UnitHistory,
    pub(super) surroundings: &'r Surroundings,
    pub(super) moment: Moment,
    pub(super) roller: RollerId,
    pub(super) drive_ratio: &'r DriveRatio,
    pub(super) lot: LotId,
}

/// The clues for a catch.
///
/// # Errors
/// The database.
pub(super) async fn clues(cx: &mut Cx<'_>, scope: &Scope, fitted: &Fitted<'_>) -> Result<Clues, Error> {
    Ok(Clues {
        usual_tare_kg: usual_tare(cx, scope, fitted).await?,
        other_drive_ratios: other_ratios(cx, scope, fitted).await?,
        other_rollers: other_rollers(cx, scope, fitted).await?,
    })
}

/// The mean tare of the unit's latest calibration that has any: a bag that is not weighed out again is as heavy as then.
async fn usual_tare(cx: &mut Cx<'_>, scope: &Scope, fitted: &Fitted<'_>) -> Result<Option<f64>, Error> {
    let Moment { occurred_at, id, .. } = fitted.moment;
    for text in store::sheets_before(cx, scope, fitted.unit.id, occurred_at, id).await? {
        let sheet: Sheet = serde_json::from_str(&text).map_err(|_| Error::inconsistent("calibration.sheet", &text))?;
        let catches = sheet.repeats.iter().flat_map(|repeat| &repeat.catches);
        let tares: Vec<f64> = catches.map(|catch| catch.tare.si()).filter(|tare| *tare > 0.0).collect();
        if let Some(mean) = sowmark_core::statistics::mean(&tares) {
            return Ok(Some(mean));
        }
    }
    Ok(None)
}

/// The ratios that the seeder's units were set up with at any time, but the one in use.
async fn other_ratios(cx: &mut Cx<'_>, scope: &Scope, fitted: &Fitted<'_>) -> Result<Vec<DriveRatio>, Error> {
    let mut others: Vec<DriveRatio> = Vec::new();
    for text in store::ratios_of_seeder(cx, scope, fitted.unit.seeder_id).await? {
        let ratio = DriveRatio::parse(&text).map_err(|_| Error::inconsistent("setup.drive_ratio", &text))?;
        let is_new = |known: &DriveRatio| (known.value() / ratio.value() - 1.0).abs() > 1e-9;
        if is_new(fitted.drive_ratio) && others.iter().all(is_new) {
            others.push(ratio);
        }
    }
    Ok(others)
}

/// What each other roller should turn out of this seed: by the unit's own past with it, or by its displacement.
async fn other_rollers(cx: &mut Cx<'_>, scope: &Scope, fitted: &Fitted<'_>) -> Result<Vec<OtherRoller>, Error> {
    let Fitted { history, surroundings, moment, roller, lot, .. } = *fitted;
    let density =
        surroundings.lots.get(&lot).and_then(|facts| latest_known_tests(facts, moment.occurred_at).bulk_density);
    let mut others = Vec::new();
    for row in store::rollers(cx, scope).await? {
        let roller_id = RollerId(row.id);
        if roller_id == roller {
            continue;
        }
        let from_past = expected_from_history(history, surroundings, moment, roller_id, lot);
        let expected_factor = match (from_past, row.displacement.as_deref(), density) {
            (Some(past), _, _) => past.expected_factor(),
            (None, Some(displacement), Some(density)) => stored::<dimension::Volume>(displacement)?.si() * density,
            _ => continue,
        };
        others.push(OtherRoller { roller_id, label: row.label, expected_factor });
    }
    Ok(others)
}

/// A roller of the organization.
#[derive(Clone, Debug, sqlx::FromRow)]
pub(super) struct RollerRow {
    pub(super) id: Uuid,
    pub(super) label: String,
    pub(super) displacement: Option<String>,
}
