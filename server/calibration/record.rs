//! The record of a calibration as a page, with what the office decided about it.

use super::act;
use super::around;
use super::draft::{Decision, DecisionDraft};
use super::show::{self, Shown};
use super::store::{self, UnitRow};
use super::stored::{Calibration, Status};
use super::weigh::RestsOn;
use crate::access::Permission;
use crate::readiness;
use crate::records::head::{self, Head};
use crate::reports::Stamp;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::basis::basis_at;
use sowmark_core::ids::{CalibrationId, LotId, MeteringUnitId};
use sowmark_core::quantity::unit::{self};
use sowmark_core::readiness::{self as ready, UnitHistory, latest_known_tests, season_in_force};
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/calibrations/{id}", Need::May(Permission::ReadFleet), calibration_page),
        crate::route!(page POST "/calibrations/{id}/decisions", Need::May(Permission::Decide), post_decision),
    ]
}

#[derive(Template)]
#[template(path = "calibration/record.html")]
struct RecordPage {
    page: Page,
    unit: UnitRow,
    lot_id: Uuid,
    lot: String,
    caught: String,
    status: &'static str,
    no_number: String,
    in_force: String,
    fallen: Option<String>,
    /// Why its times may be off.
    doubt: Option<String>,
    /// That it was judged with what has been corrected since.
    outdated: Option<String>,
    shown: Shown,
    facts: Vec<(String, String)>,
    expected: Option<Expectation>,
    note: String,
    decisions: Vec<DecisionRow>,
    form: Option<Form>,
    /// What went wrong with a decision for which there is no form any more.
    wrong: Option<String>,
    /// Where its reader takes it back; none for who may not.
    void: Option<String>,
    foot: String,
    stamp: Stamp,
}

/// What was expected of it, with the calibration that this comes from.
#[derive(Debug)]
struct Expectation {
    says: String,
    from: Option<(String, Uuid)>,
}

#[derive(Debug)]
struct DecisionRow {
    when: String,
    by: String,
    decision: String,
    reason: String,
    fallen: Option<String>,
}

async fn calibration_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    headers: HeaderMap,
) -> Result<Response, Error> {
    let page = record(&signed, &cookies, CalibrationId(id), &headers, None).await?;
    show(&page)
}

async fn post_decision(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    headers: HeaderMap,
    posted: Posted,
) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let decided = match input::read::<DecisionDraft>(&sent) {
        Ok(draft) => act::decide(&signed, CalibrationId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match decided {
        Ok(_) => Ok(Redirect::to(&format!("/calibrations/{id}")).into_response()),
        Err(Error::NotThere { what, pointer }) => Err(Error::NotThere { what, pointer }),
        Err(error) => {
            let page = record(&signed, &cookies, CalibrationId(id), &headers, Some((&posted, &error))).await?;
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &page)
        }
    }
}

async fn record(
    signed: &Signed,
    cookies: &Cookies,
    id: CalibrationId,
    headers: &HeaderMap,
    back: Option<(&Posted, &Error)>,
) -> Result<RecordPage, Error> {
    let (actor, now) = (&signed.actor, signed.app.clock.now());
    let mut snapshot = signed.app.snapshot().await?;
    let cx = &mut snapshot.cx();
    let calibration = act::find_calibration(cx, &actor.scope, id).await?;
    let unit = act::find_unit(cx, &actor.scope, MeteringUnitId(calibration.row.metering_unit_id)).await?;
    let lot = store::lot(cx, &actor.scope, LotId(calibration.row.lot_id)).await?;
    let scale = match calibration.row.scale_id {
        Some(scale) => store::scale(cx, &actor.scope, scale.into()).await?,
        None => None,
    };
    let said = unit.keyed_in;
    let facts = facts(signed, cx, &calibration, scale.map(|scale| scale.name)).await?;
    let (history, surroundings) =
        readiness::act::history(cx, &actor.scope, &actor.time_zone, MeteringUnitId(unit.id)).await?;
    let in_force = ready::readiness(&history, &surroundings, now).in_force.is_some_and(|found| found.calibration == id);
    let was_corrected = rests_on_what_fell(&calibration, &history);
    let expected = match show::expectation(&calibration.circumstances, actor.reader()) {
        Some((says, Some(earlier))) => {
            let found = act::find_calibration(cx, &actor.scope, earlier).await.ok();
            let from = found.map(|found| (found.row.head.when(&actor.time_zone, actor.words()), earlier.0));
            Some(Expectation { says, from })
        }
        Some((says, None)) => Some(Expectation { says, from: None }),
        None => None,
    };
    let status = calibration.status();
    let Calibration { row, sheet, circumstances, judgement, decisions, .. } = calibration;
    let head = &row.head;
    let (zone, words) = (&actor.time_zone, actor.words());
    let form = (status == Status::Held && actor.may(Permission::Decide))
        .then(|| decision_form(id, signed.app.clock.new_id().unwrap_or_default(), back, words));
    let caught = say!(
        words,
        "calibration-caught",
        seeder = &unit.seeder,
        unit = &unit.label,
        when = head.when(zone, words),
        who = head.by(words)
    );
    Ok(RecordPage {
        stamp: Stamp::of(cx, signed, headers, now, None).await?,
        page: Page::new(signed, cookies, say!(words, "calibration-title", when = head.when(zone, words)), "/seeders"),
        lot_id: row.lot_id,
        lot: lot.as_ref().map(|lot| lot.says(words)).unwrap_or_default(),
        caught,
        unit,
        status: status.word(),
        no_number: no_number(status, words),
        in_force: if in_force { say!(words, "calibration-in-force") } else { say!(words, "calibration-not-in-force") },
        fallen: head.fallen(&signed.actor),
        doubt: head.doubt(words),
        outdated: was_corrected.then(|| say!(words, "calibration-fitted-corrected")),
        shown: Shown::of(&sheet, &circumstances, &judgement, said, actor.reader())?,
        facts,
        expected,
        decisions: decisions
            .into_iter()
            .map(|decided| decision_row(&decided.head, decided.decision, decided.reason, signed))
            .collect(),
        wrong: back.filter(|_| form.is_none()).map(|(_, error)| error.detail(words)),
        form,
        void: head.may_void(signed).then(|| format!("/records/{id}/void")),
        foot: say!(
            words,
            "calibration-record",
            id = id.to_string(),
            when = head::said(head::moment(head.recorded_at), zone, words)
        ),
        note: row.note,
    })
}

fn no_number(status: Status, words: Words) -> String {
    match status {
        Status::Accepted => String::new(),
        Status::Held => say!(words, "calibration-waits"),
        Status::Rejected => say!(words, "calibration-was-rejected"),
        Status::Void => say!(words, "calibration-does-not-stand"),
    }
}

fn decision_row(head: &Head, decision: String, reason: String, signed: &Signed) -> DecisionRow {
    let (zone, words) = (&signed.actor.time_zone, signed.actor.words());
    let fallen = head.fallen(&signed.actor);
    DecisionRow { when: head.when(zone, words), by: head.by(words), decision, reason, fallen }
}

/// Whether the setup or the configuration that it was judged with stands no more.
fn rests_on_what_fell(calibration: &Calibration, history: &UnitHistory) -> bool {
    let RestsOn { setup_id, configuration_id, .. } = calibration.rests_on;
    let setup_stands = |id: Uuid| history.setups.iter().any(|setup| setup.moment.id == id);
    let configuration_stands = |id: Uuid| history.configurations.iter().any(|known| known.moment.id == id);
    !(setup_id.is_none_or(setup_stands) && configuration_id.is_none_or(configuration_stands))
}

/// What the number is valid for: the records of the machine and the seed as known now, and what it was judged with.
async fn facts(
    signed: &Signed,
    cx: &mut crate::db::Cx<'_>,
    calibration: &Calibration,
    scale: Option<String>,
) -> Result<Vec<(String, String)>, Error> {
    let actor = &signed.actor;
    let row = &calibration.row;
    let unit = MeteringUnitId(row.metering_unit_id);
    let records = readiness::act::histories(cx, &actor.scope, &actor.time_zone, Some(unit)).await?;
    let at = row.head.stamp().at;
    let moment = sowmark_core::moment::Moment {
        occurred_at: at,
        recorded_at: head::moment(row.head.recorded_at),
        id: row.head.id,
    };
    let mut facts = Vec::new();
    let words = actor.words();
    let basis = records.units.first().and_then(|(_, history)| basis_at(history, moment));
    if let Some(basis) = &basis {
        facts.push((say!(words, "calibration-roller"), records.names.roller(basis.setup.what.roller.0).to_owned()));
        if let Some(gate) = &basis.setup.what.gate {
            facts.push((say!(words, "calibration-gate"), gate.clone()));
        }
        let spacing = show::short_length(basis.configuration.what.row_spacing_m, actor.reader());
        facts.push((say!(words, "calibration-row-spacing"), spacing));
    }
    let lot = records.surroundings.lots.get(&LotId(row.lot_id));
    let season = season_in_force(&records.surroundings.seasons, &actor.time_zone, at, lot.map(|lot| lot.crop.as_str()));
    if let Some(season) = season {
        facts.push((say!(words, "calibration-season"), records.names.season(season.id.0).to_owned()));
    }
    if let Some(density) = lot.and_then(|lot| latest_known_tests(lot, at).bulk_density) {
        let (metric, us) = (words.short(density, unit::KG_PER_HL, 4), words.short(density, unit::LB_PER_BU, 4));
        facts.push((say!(words, "calibration-bulk-density"), format!("{metric} kg/hL ({us} lb/bu)")));
    }
    let turned = say!(words, "calibration-method-was", method = &row.method);
    facts.push((say!(words, "calibration-method"), turned));
    if let Some(scale) = scale {
        facts.push((say!(words, "calibration-scale"), scale));
    }
    facts.extend(show::circumstance_facts(&calibration.circumstances, actor.reader()));
    facts.extend(around::facts(cx, &actor.scope, row, actor.reader()).await?);
    Ok(facts)
}

fn decision_form(id: CalibrationId, new: Uuid, back: Option<(&Posted, &Error)>, words: Words) -> Form {
    let choices = Decision::ALL.iter().map(|decision| {
        let says = match decision {
            Decision::Accepted => say!(words, "calibration-decision-accept"),
            Decision::Rejected => say!(words, "calibration-decision-reject"),
        };
        (decision.word(), says)
    });
    let fields = vec![
        FormField::new("decision", say!(words, "calibration-decision"))
            .choice(std::iter::once(("", say!(words, "choose"))).chain(choices)),
        FormField::new("reason", say!(words, "calibration-decision-reason"))
            .hint(say!(words, "calibration-decision-reason-hint"))
            .kind(Kind::Area),
    ];
    let submit = say!(words, "calibration-decision-submit");
    let form = Form::new(format!("/calibrations/{id}/decisions"), submit, fields).creating(new);
    match back {
        Some((posted, error)) => form.again(posted, error),
        None => form,
    }
}
