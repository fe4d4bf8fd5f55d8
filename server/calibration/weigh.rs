//! What a judgement depends on besides the weighed seed, gathered from the records that stand.

use super::clues::{Fitted, clues};
use super::draft::{CalibrationDraft, Salvaged, salvage};
use super::store::{self, UnitRow};
use crate::access::Actor;
use crate::db::Cx;
use crate::readiness;
use crate::records::head;
use crate::texts;
use crate::web::error::{Error, Fault};
use crate::web::quantity::stored;
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use sowmark_core::basis::basis_at;
use sowmark_core::catch::{Finding, Sheet};
use sowmark_core::circumstances::{Circumstances, Clues, Expected, Planned, ScaleFacts, ScaleStanding};
use sowmark_core::ids::{LotId, RollerId, ScaleId};
use sowmark_core::moment::{Dated, Moment};
use sowmark_core::policy::Policy;
use sowmark_core::quantity::unit::dimension;
use sowmark_core::quantity::{Decimal, DriveRatio};
use sowmark_core::rate::DriveRange;
use sowmark_core::readiness::{self as ready, Surroundings, UnitHistory, expected_from_history, latest_known_tests};
use sowmark_core::say;
use sowmark_core::texts::Language;
use sowmark_core::verdict::{Judgement, judge, judge_in};
use sowmark_core::words::Words;
use std::collections::BTreeSet;
use std::iter::successors;
use std::sync::{Arc, OnceLock};
use uuid::Uuid;

/// The records that a judgement rests on. Kept beside the circumstances, so that a reader finds them again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[allow(clippy::struct_field_names)] // They are stored under these names, and ids are all that it holds.
pub struct RestsOn {
    /// Null: the tolerances that hold before the office has set any.
    pub policy_id: Option<Uuid>,
    pub setup_id: Option<Uuid>,
    pub configuration_id: Option<Uuid>,
}

/// A judged sheet with everything the judgement followed from.
#[derive(Clone, Debug)]
pub struct Weighed {
    pub sheet: Sheet,
    pub circumstances: Circumstances,
    pub rests_on: RestsOn,
    pub judgement: Judgement,
}

/// What of a calibration decides its circumstances.
struct Event {
    moment: Moment,
    lot: Option<LotId>,
    scale: Option<ScaleId>,
    roller_speed_rpm: Option<f64>,
    planned: Option<Planned>,
}

/// Judges a sheet by the records that stand now.
///
/// # Errors
/// 404 for a lot or scale that is not there; 422 with every finding.
pub(super) async fn weigh(
    cx: &mut Cx<'_>,
    actor: &Actor,
    unit: &UnitRow,
    draft: &CalibrationDraft,
    recorded_at: Timestamp,
    id: Uuid,
) -> Result<Weighed, Error> {
    let event = Event {
        moment: Moment { occurred_at: draft.occurred_at.at, recorded_at, id },
        lot: Some(draft.lot_id),
        scale: draft.scale_id,
        roller_speed_rpm: draft.roller_speed_rpm.as_ref().map(|rpm| rpm.0.to_f64()),
        planned: draft.planned(),
    };
    let (sheet, gathered) = (draft.sheet(), gather(cx, actor, unit, &event).await?);
    if let (Some(missing), None) = (gathered.missing.first(), gathered.faults.first()) {
        return Err(missing.error());
    }
    judged(sheet, gathered.circumstances, gathered.rests_on, gathered.faults)
}

/// Judges a sheet in circumstances that are known, unless something is wrong already.
///
/// # Errors
/// 422 with what was wrong already and every finding.
pub(super) fn judged(
    sheet: Sheet,
    circumstances: Circumstances,
    rests_on: RestsOn,
    faults: Vec<Fault>,
) -> Result<Weighed, Error> {
    match judge(&sheet, &circumstances) {
        Ok(judgement) if faults.is_empty() => Ok(Weighed { sheet, circumstances, rests_on, judgement }),
        judged => {
            let findings = judged.is_err().then(|| {
                faults_found(sheet, circumstances, |sheet, circumstances, words| {
                    judge_in(sheet, circumstances, words).err().unwrap_or_default()
                })
            });
            Err(Error::Faults(faults.into_iter().chain(findings.into_iter().flatten()).collect()))
        }
    }
}

/// Every fault of a body that cannot be read whole: those found by reading it, and those that show in the rest.
///
/// # Errors
/// The database.
pub(super) async fn faults_of(
    cx: &mut Cx<'_>,
    actor: &Actor,
    unit: &UnitRow,
    sent: &Value,
    read: Vec<Fault>,
    now: Timestamp,
) -> Result<Vec<Fault>, Error> {
    let Some(rest) = salvage(sent) else { return Ok(read) };
    let Salvaged { occurred_at, lot, scale, roller_speed_rpm, planned, sheet } = rest;
    let moment = Moment { occurred_at: occurred_at.map_or(now, |stamp| stamp.at), recorded_at: now, id: Uuid::max() };
    let gathered = gather(cx, actor, unit, &Event { moment, lot, scale, roller_speed_rpm, planned }).await?;
    let of_time = gathered.faults.into_iter().filter(|_| occurred_at.is_some());
    let besides = gathered.missing.iter().flat_map(|missing| missing.error().faults()).chain(of_time).collect();
    Ok(with_the_rest(read, besides, sheet, gathered.circumstances))
}

/// The faults found by reading, what is known to be wrong besides, and the findings of the sheet that could be read.
pub(super) fn with_the_rest(
    read: Vec<Fault>,
    besides: Vec<Fault>,
    sheet: Sheet,
    circumstances: Circumstances,
) -> Vec<Fault> {
    let findings = faults_found(sheet, circumstances, Sheet::check_in);
    let known: BTreeSet<&str> = read.iter().map(|fault| fault.pointer.as_str()).collect();
    let of_rest: Vec<Fault> =
        besides.into_iter().chain(findings).filter(|found| !is_known(&known, &found.pointer)).collect();
    read.into_iter().chain(of_rest).collect()
}

/// Whether a finding only repeats a fault that was found by reading: it is at the same field, inside it, or at the value
/// that it is part of. A list is no such value: one bad catch does not excuse too many of them.
///
/// Looked up, not compared one by one: a sheet of ten thousand bad catches would take a hundred million comparisons.
fn is_known(known: &BTreeSet<&str>, finding: &str) -> bool {
    let mut at_or_above = successors(Some(finding), |place| place.rsplit_once('/').map(|(above, _)| above));
    let is_list = finding.ends_with("/catches") || finding.ends_with("/repeats");
    let inside = format!("{finding}/");
    let one_inside = || known.range(inside.as_str()..).next().is_some_and(|fault| fault.starts_with(&inside));
    at_or_above.any(|place| known.contains(place)) || !is_list && one_inside()
}

type Find = fn(&Sheet, &Circumstances, Words) -> Vec<Finding>;

/// What the computation finds of a sheet, in the language of whoever comes to read it.
struct Found {
    sheet: Sheet,
    circumstances: Circumstances,
    find: Find,
    in_english: Vec<Finding>,
    /// By language, each sentence at the place of the English one. Found again when somebody reads one of these.
    in_others: OnceLock<Vec<(Language, Vec<Finding>)>>,
}

impl Found {
    fn says(&self, position: usize, words: Words) -> String {
        let others = || {
            let others = texts::languages().filter(|language| *language != texts::english());
            let found =
                |language| (self.find)(&self.sheet, &self.circumstances, Words { language, ..Words::default() });
            others.map(|language| (language, found(language))).collect()
        };
        let of_language = if words.language == texts::english() {
            None
        } else {
            self.in_others.get_or_init(others).iter().find(|(language, _)| *language == words.language)
        };
        let findings = of_language.map_or(&self.in_english, |(_, findings)| findings);
        words.sentence(&findings.get(position).map(sentence).unwrap_or_default())
    }
}

/// The findings of the computation as faults of the request.
fn faults_found(sheet: Sheet, circumstances: Circumstances, find: Find) -> Vec<Fault> {
    let in_english = find(&sheet, &circumstances, texts::plain());
    let places: Vec<String> = in_english.iter().map(|finding| finding.at.to_string()).collect();
    let found = Arc::new(Found { sheet, circumstances, find, in_english, in_others: OnceLock::new() });
    let fault = |(position, place)| {
        let found = Arc::clone(&found);
        Fault::new(place, move |words: Words| found.says(position, words))
    };
    places.into_iter().enumerate().map(fault).collect()
}

/// What core says is a clause; beside a field it is a sentence.
fn sentence(finding: &Finding) -> String {
    let mut letters = finding.says.chars();
    let mut says: String =
        letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default();
    if !says.ends_with('.') {
        says.push('.');
    }
    says
}

/// Something that the request names and that is not there.
struct Missing {
    pointer: &'static str,
    what: &'static str,
}

impl Missing {
    fn error(&self) -> Error {
        Error::not_there_at(self.pointer, self.what)
    }
}

struct Gathered {
    circumstances: Circumstances,
    rests_on: RestsOn,
    missing: Vec<Missing>,
    faults: Vec<Fault>,
}

async fn gather(cx: &mut Cx<'_>, actor: &Actor, unit: &UnitRow, event: &Event) -> Result<Gathered, Error> {
    let (history, surroundings) = readiness::act::history(cx, &actor.scope, &actor.time_zone, unit.id.into()).await?;
    let mut missing = Vec::new();
    let mut faults = Vec::new();
    let mut lot = event.lot;
    if let Some(id) = lot
        && store::lot(cx, &actor.scope, id).await?.is_none()
    {
        missing.push(Missing { pointer: "/lot_id", what: "lot" });
        lot = None;
    }
    let scale = match event.scale {
        Some(id) => {
            let scale = store::scale(cx, &actor.scope, id).await?;
            if scale.is_none() {
                missing.push(Missing { pointer: "/scale_id", what: "scale" });
            }
            scale
        }
        None => None,
    };
    let (policy_id, policy) = policy_when_recorded(&surroundings, event.moment.recorded_at);
    let basis = basis_at(&history, event.moment);
    if basis.is_none() {
        faults.push(no_setup(event.moment.occurred_at, actor));
    }
    let expected = match (&basis, lot) {
        (Some(basis), Some(lot)) => {
            let roller = basis.setup.what.roller;
            expected(cx, actor, &history, &surroundings, event.moment, roller, lot).await?
        }
        _ => None,
    };
    let clues = match (&basis, lot) {
        (Some(basis), Some(lot)) => {
            let fitted = Fitted {
                unit,
                history: &history,
                surroundings: &surroundings,
                moment: event.moment,
                roller: basis.setup.what.roller,
                drive_ratio: &basis.setup.what.drive_ratio,
                lot,
            };
            clues(cx, &actor.scope, &fitted).await?
        }
        _ => Clues::default(),
    };
    let scale = scale.map(|scale| scale_facts(&scale, &surroundings, event.moment.occurred_at, &policy)).transpose()?;
    let circumstances = Circumstances {
        // Without a setup these two are never judged with; they only let the rest of the sheet be looked at.
        runs_in_use: basis.as_ref().map_or(u32::try_from(unit.runs).unwrap_or(1), |basis| basis.setup.what.runs),
        drive_ratio: match &basis {
            Some(basis) => basis.setup.what.drive_ratio.clone(),
            None => DriveRatio::parse("1").map_err(Error::broken)?,
        },
        drive_range: drive_range(unit)?,
        roller_speed_rpm: event.roller_speed_rpm,
        planned: event.planned.clone(),
        working_width_m: basis.as_ref().map_or(1.0, |basis| basis.configuration.what.working_width_m),
        scale,
        thousand_seed_weight_g: lot
            .and_then(|lot| surroundings.lots.get(&lot))
            .and_then(|facts| latest_known_tests(facts, event.moment.occurred_at).thousand_seed_weight),
        expected,
        policy,
        clues,
    };
    let rests_on = RestsOn {
        policy_id,
        setup_id: basis.as_ref().map(|basis| basis.setup.moment.id),
        configuration_id: basis.as_ref().map(|basis| basis.configuration.moment.id),
    };
    Ok(Gathered { circumstances, rests_on, missing, faults })
}

fn no_setup(at: Timestamp, actor: &Actor) -> Fault {
    let zone = actor.time_zone.clone();
    let says = move |words: Words| say!(words, "catch-without-setup", when = head::said(at, &zone, words));
    Fault::new("/occurred_at", says)
}

/// The policy in force when the calibration is recorded, whenever it happened: what the office wanted of a catch.
fn policy_when_recorded(surroundings: &Surroundings, recorded_at: Timestamp) -> (Option<Uuid>, Policy) {
    let known = surroundings.policies.iter().filter(|policy| policy.moment.recorded_at <= recorded_at);
    match known.max_by_key(|policy| (policy.moment.recorded_at, policy.moment.id)) {
        Some(Dated { moment, what }) => (Some(moment.id), what.clone()),
        None => (None, Policy::default()),
    }
}

/// The unit's own past first, the roller's displacement otherwise.
async fn expected(
    cx: &mut Cx<'_>,
    actor: &Actor,
    history: &UnitHistory,
    surroundings: &Surroundings,
    moment: Moment,
    roller: RollerId,
    lot: LotId,
) -> Result<Option<Expected>, Error> {
    if let Some(earlier) = expected_from_history(history, surroundings, moment, roller, lot) {
        return Ok(Some(Expected::from_last_calibration(earlier.calibration, earlier.factor, earlier.density_ratio)));
    }
    let density =
        surroundings.lots.get(&lot).and_then(|facts| latest_known_tests(facts, moment.occurred_at).bulk_density);
    let displacement = store::roller(cx, &actor.scope, roller).await?.and_then(|roller| roller.displacement);
    match displacement.zip(density) {
        Some((displacement, density)) => {
            let displacement = stored::<dimension::Volume>(&displacement)?;
            Ok(Some(Expected::from_displacement(displacement.si(), density)))
        }
        None => Ok(None),
    }
}

fn scale_facts(
    scale: &store::ScaleRow,
    surroundings: &Surroundings,
    at: Timestamp,
    policy: &Policy,
) -> Result<ScaleFacts, Error> {
    let standing = surroundings.scales.get(&scale.id.into()).map(|facts| ready::scale_standing(facts, at, policy));
    let last_check = match standing {
        None | Some(ready::ScaleStanding::NeverChecked) => ScaleStanding::NeverChecked,
        Some(ready::ScaleStanding::PassedWithin) => ScaleStanding::PassedWithin,
        Some(ready::ScaleStanding::PassedLongAgo) => ScaleStanding::PassedLongAgo,
        Some(ready::ScaleStanding::Failed) => ScaleStanding::Failed,
    };
    let (readability, capacity) = (stored(&scale.readability)?, stored(&scale.capacity)?);
    Ok(ScaleFacts { readability, capacity, last_check })
}

fn drive_range(unit: &UnitRow) -> Result<Option<DriveRange>, Error> {
    let rpm = |text: &str| {
        Decimal::parse(text)
            .map(|rpm| rpm.to_f64())
            .map_err(|_| Error::inconsistent("metering_unit.roller_speed", text))
    };
    match (&unit.roller_speed_min, &unit.roller_speed_max) {
        (Some(min), Some(max)) => Ok(Some(DriveRange { min_rpm: rpm(min)?, max_rpm: rpm(max)? })),
        _ => Ok(None),
    }
}

#[cfg(test)]
mod tests {
    use super::is_known;
    use std::collections::BTreeSet;

    /// Every pair of places: the same, one inside the other, or neither, though the text begins alike.
    #[test]
    fn a_finding_is_known_at_inside_and_around_a_fault() {
        let places =
            ["", "/repeats", "/repeats/1", "/repeats/10", "/repeats/1/catches", "/repeats/1/catches/0", "/planned"];
        let is_inside = |inner: &str, outer: &str| inner.strip_prefix(outer).is_some_and(|rest| rest.starts_with('/'));
        for fault in places {
            // Others about it, so that the one is not simply the first.
            let known = BTreeSet::from([fault, "/a", "/repeats!", "/z"]);
            for finding in places.into_iter().filter(|place| !place.is_empty()) {
                let is_list = finding.ends_with("/catches") || finding.ends_with("/repeats");
                let expected = fault == finding || is_inside(finding, fault) || is_inside(fault, finding) && !is_list;
                assert_eq!(is_known(&known, finding), expected, "{fault:?} {finding:?}");
            }
        }
    }
}
