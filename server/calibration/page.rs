//! The catch sheet, the record of a calibration, and the calibrations of a unit as pages.

use super::act;
use super::around;
use super::draft::{Decision, DecisionDraft};
use super::form::{Bags, CatchForm, Choices, Typed};
use super::retyped;
use super::show::{self, Shown};
use super::store::{self, LotRow, ScaleRow, UnitRow};
use super::stored::{Calibration, Status, word};
use crate::access::{Actor, Permission};
use crate::db::kind::Kind as Entry;
use crate::readiness;
use crate::records::head::{self, Head};
use crate::reports::Stamp;
use crate::sync::mend::{Mend, mending};
use crate::web::api::{Asked, PathId};
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted, pairs};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::paging::PageAsked;
use crate::web::quantity::stored;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::Value;
use sowmark_core::basis::basis_at;
use sowmark_core::ids::{CalibrationId, LotId, MeteringUnitId};
use sowmark_core::quantity::unit::{self, dimension};
use sowmark_core::readiness::{self as ready, latest_known_tests, season_in_force};
use sowmark_core::say;
use sowmark_core::words::Words;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/metering-units/{id}/catch", Need::May(Permission::Log), catch_page),
        crate::route!(page POST "/metering-units/{id}/catch", Need::May(Permission::Log), post_catch),
        crate::route!(page GET "/metering-units/{id}/calibrations", Need::May(Permission::ReadFleet), calibrations_page),
        crate::route!(page GET "/calibrations/{id}", Need::May(Permission::ReadFleet), calibration_page),
        crate::route!(page POST "/calibrations/{id}/decisions", Need::May(Permission::Decide), post_decision),
    ]
}

#[derive(Template)]
#[template(path = "calibration/catch.html")]
struct CatchPage {
    page: Page,
    unit: UnitRow,
    fitted: String,
    ratio: f64,
    /// What each scale can weigh, in kg, for the running sums.
    capacities: String,
    treated: Option<(String, String)>,
    form: CatchForm,
    result: Option<Shown>,
    status: &'static str,
}

/// What stands on a catch sheet besides what is typed.
struct Bench {
    unit: UnitRow,
    fitted: String,
    ratio: f64,
    /// What each scale can weigh, in kg, for the running sums.
    capacities: String,
    runs_in_use: u32,
    choices: Choices,
    lots: Vec<LotRow>,
    bags: Option<Bags>,
}

impl Bench {
    /// A sheet that nobody has typed in yet.
    fn blank(&self, actor: &Actor) -> Typed {
        Typed::new(actor.reader(), self.runs_in_use, self.bags.as_ref())
    }
}

async fn bench(signed: &Signed, id: MeteringUnitId) -> Result<Bench, Error> {
    let (actor, now) = (&signed.actor, signed.app.clock.now());
    let words = actor.words();
    let mut conn = signed.app.read().await?;
    let cx = &mut conn.cx();
    let unit = act::find_unit(cx, &actor.scope, id).await?;
    let (history, surroundings) = readiness::act::history(cx, &actor.scope, &actor.time_zone, id).await?;
    let ready = ready::readiness(&history, &surroundings, now);
    let setup = ready.setup.map(|setup| setup.what);
    let roller = match &setup {
        Some(setup) => store::roller(cx, &actor.scope, setup.roller).await?,
        None => None,
    };
    let fitted = match (&setup, roller) {
        (Some(setup), Some(roller)) => {
            let (roller, ratio) = (roller.label, words.decimal(&setup.drive_ratio.to_string()));
            match &setup.gate {
                Some(gate) => {
                    let runs = setup.runs;
                    say!(words, "catch-fitted-gate", roller = roller, ratio = ratio, gate = gate, runs = runs)
                }
                None => say!(words, "catch-fitted", roller = roller, ratio = ratio, runs = setup.runs),
            }
        }
        _ => say!(words, "catch-nothing-fitted"),
    };
    let (lots, scales) = (store::lots(cx, &actor.scope).await?, store::scales(cx, &actor.scope).await?);
    let latest = history.calibrations.iter().max_by_key(|calibration| calibration.moment);
    let scale =
        latest.and_then(|calibration| calibration.what.scale).map(|scale| scale.0).or(match scales.as_slice() {
            [only] => Some(only.id),
            _ => None,
        });
    let choices = Choices {
        action: format!("/metering-units/{id}/catch"),
        reader: actor.reader(),
        now: head::typed(now, &actor.time_zone),
        lots: lots.iter().map(|lot| (lot.id.to_string(), lot_says(lot, words))).collect(),
        lot: ready.lot.map(|lot| lot.to_string()).unwrap_or_default(),
        scales: scales
            .iter()
            .map(|scale| {
                (scale.id.to_string(), format!("{} ({})", scale.name, actor.reader().measured(&scale.readability)))
            })
            .collect(),
        scale: scale.map(|scale| scale.to_string()).unwrap_or_default(),
        begun: Posted(Vec::new()),
    };
    let runs_in_use = setup.as_ref().map_or(u32::try_from(unit.runs).unwrap_or(1), |setup| setup.runs);
    let ratio = setup.as_ref().map_or(1.0, |setup| setup.drive_ratio.value());
    let capacity =
        |scale: &ScaleRow| stored::<dimension::Mass>(&scale.capacity).map(|most| format!("{}:{}", scale.id, most.si()));
    let capacities = scales.iter().map(capacity).collect::<Result<Vec<_>, Error>>()?.join(" ");
    let last = match latest {
        Some(calibration) => act::find_calibration(cx, &actor.scope, CalibrationId(calibration.moment.id)).await.ok(),
        None => None,
    };
    let bags = last.and_then(|calibration| Bags::of(&calibration.sheet, words));
    Ok(Bench { unit, fitted, ratio, capacities, runs_in_use, choices, lots, bags })
}

fn lot_says(lot: &LotRow, words: Words) -> String {
    let (crop, number) = (&lot.crop, &lot.lot_number);
    match &lot.variety {
        Some(variety) => say!(words, "catch-lot-named-variety", crop = crop, variety = variety, number = number),
        None => say!(words, "catch-lot-named", crop = crop, number = number),
    }
}

impl Bench {
    fn page(
        self,
        signed: &Signed,
        cookies: &Cookies,
        form: CatchForm,
        result: Option<(Shown, &'static str)>,
    ) -> CatchPage {
        let chosen = form.head.iter().find(|field| field.name == "lot_id").map(|field| field.value.clone());
        let lot = self.lots.iter().find(|lot| chosen.as_deref() == Some(lot.id.to_string().as_str()));
        let treated = lot.and_then(|lot| {
            let product = lot.treatment_product.clone()?;
            Some((product, lot.treatment_caution.clone().unwrap_or_default()))
        });
        let title = say!(signed.actor.words(), "catch-title", seeder = &self.unit.seeder, unit = &self.unit.label);
        let (result, status) = result.map_or((None, ""), |(shown, status)| (Some(shown), status));
        CatchPage {
            page: Page::new(signed, cookies, title, "/seeders"),
            unit: self.unit,
            fitted: self.fitted,
            ratio: self.ratio,
            capacities: self.capacities,
            treated,
            form,
            result,
            status,
        }
    }
}

async fn catch_page(
    signed: Signed,
    cookies: Cookies,
    PathId(unit): PathId,
    mend: Mend,
    RawQuery(query): RawQuery,
) -> Result<Response, Error> {
    let mut bench = bench(&signed, MeteringUnitId(unit)).await?;
    if let Some(refused) = mend.refilling(&signed, Entry::Calibration)? {
        let sent = retyped::as_typed(&refused.record, &refused.sent, signed.actor.units);
        let (mut typed, id) = (Typed::of(&sent), signed.app.clock.new_id()?);
        if typed.repeats.is_empty() {
            typed.repeats = bench.blank(&signed.actor).repeats;
        }
        let mut form = CatchForm::draw(&bench.choices, &typed, Some(&sent), refused.error.as_ref(), id);
        form.note = refused.note;
        return show(&bench.page(&signed, &cookies, form, None));
    }
    bench.choices.begun = Posted(pairs(query.unwrap_or_default().as_bytes())?);
    let typed = bench.blank(&signed.actor);
    let form = CatchForm::draw(&bench.choices, &typed, None, None, signed.app.clock.new_id()?);
    show(&bench.page(&signed, &cookies, form, None))
}

async fn post_catch(signed: Signed, cookies: Cookies, PathId(unit): PathId, posted: Posted) -> Result<Response, Error> {
    let signed = mending(signed, &posted).await?;
    let unit = MeteringUnitId(unit);
    let mut typed = Typed::of(&posted);
    let asked = posted.text("_do").to_owned();
    let sent = typed.sent(&posted, &signed.actor.time_zone, signed.actor.units);
    let done = if typed.do_as_asked(&asked, signed.actor.words()) {
        Ok(None)
    } else if asked == "save" {
        match act::log_calibration(&signed, unit, sent).await {
            Ok(outcome) => return Ok(Redirect::to(&format!("/calibrations/{}", outcome.id())).into_response()),
            Err(error) => Err(error),
        }
    } else {
        computed(&signed, unit, &sent).await.map(Some)
    };
    let bench = bench(&signed, unit).await?;
    if typed.repeats.is_empty() {
        typed.repeats = bench.blank(&signed.actor).repeats;
    }
    let (result, error) = match done {
        Ok(result) => (result, None),
        Err(error) => (None, Some(error)),
    };
    let form = CatchForm::draw(&bench.choices, &typed, Some(&posted), error.as_ref(), signed.app.clock.new_id()?);
    let status = if error.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    show_with(status, &bench.page(&signed, &cookies, form, result))
}

async fn computed(signed: &Signed, unit: MeteringUnitId, sent: &Value) -> Result<(Shown, &'static str), Error> {
    let (_, weighed) = act::preview(signed, unit, sent).await?;
    let said = act::find_unit(&mut signed.app.read().await?.cx(), &signed.actor.scope, unit).await?.keyed_in;
    let reader = signed.actor.reader();
    let shown = Shown::of(&weighed.sheet, &weighed.circumstances, &weighed.judgement, said, reader)?;
    Ok((shown, Status::by_verdict(weighed.judgement.verdict).word()))
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
        lot: lot.as_ref().map(|lot| lot_says(lot, words)).unwrap_or_default(),
        caught,
        unit,
        status: status.word(),
        no_number: no_number(status, words),
        in_force: if in_force { say!(words, "calibration-in-force") } else { say!(words, "calibration-not-in-force") },
        fallen: head.fallen(&signed.actor),
        doubt: head.doubt(words),
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

#[derive(Template)]
#[template(path = "calibration/list.html")]
struct ListPage {
    page: Page,
    unit: UnitRow,
    may_log: bool,
    rows: Vec<ListRow>,
    next: Option<String>,
}

#[derive(Debug)]
struct ListRow {
    id: Uuid,
    when: String,
    by: String,
    lot: String,
    factor: String,
    uncertainty: String,
    verdict: String,
    status: &'static str,
    fallen: bool,
}

async fn calibrations_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    Asked(asked): Asked<PageAsked>,
) -> Result<Response, Error> {
    let (actor, id) = (&signed.actor, MeteringUnitId(id));
    let mut conn = signed.app.read().await?;
    let cx = &mut conn.cx();
    let unit = act::find_unit(cx, &actor.scope, id).await?;
    let list = act::calibrations_of_unit(cx, &actor.scope, id, &asked).await?;
    let lots = store::lots(cx, &actor.scope).await?;
    let mut found = list.items;
    found.sort_by_key(|calibration| std::cmp::Reverse((calibration.row.head.occurred_at, calibration.row.head.id)));
    let rows = found.iter().map(|calibration| list_row(&signed, calibration, &lots)).collect::<Result<_, Error>>()?;
    let title = say!(actor.words(), "calibrations-title", seeder = &unit.seeder, unit = &unit.label);
    let page = Page::new(&signed, &cookies, title, "/seeders");
    show(&ListPage { page, unit, may_log: actor.may(Permission::Log), rows, next: list.next })
}

fn list_row(signed: &Signed, calibration: &Calibration, lots: &[LotRow]) -> Result<ListRow, Error> {
    let (head, judgement, words) = (&calibration.row.head, &calibration.judgement, signed.actor.words());
    let factor = match signed.actor.units {
        crate::access::Units::Metric => unit::KG_PER_100REV,
        crate::access::Units::Us => unit::LB_PER_100REV,
    };
    let within = judgement.expanded_uncertainty_percent;
    let lot = lots.iter().find(|lot| lot.id == calibration.row.lot_id);
    Ok(ListRow {
        id: head.id,
        when: head.when(&signed.actor.time_zone, words),
        by: head.by(words),
        lot: lot.map(|lot| lot_says(lot, words)).unwrap_or_default(),
        factor: format!("{} {}", words.print_within(judgement.factor, factor, within), words.unit(factor.name())),
        uncertainty: format!("\u{b1} {} %", words.number(within, 2)),
        verdict: word(&judgement.verdict)?,
        status: calibration.status().word(),
        fallen: !head.stands(),
    })
}
