//! The catch sheet as a page.

use super::act;
use super::form::{CatchForm, Choices};
use super::retyped;
use super::show::Shown;
use super::store::{self, LotRow, ScaleRow, UnitRow};
use super::stored::Status;
use super::typed::{Bags, Typed};
use crate::access::{Actor, Permission};
use crate::db::kind::Kind as Entry;
use crate::readiness;
use crate::records::head::{self};
use crate::sync::mend::{Mend, mending};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Posted, pairs};
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::quantity::stored;
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::RawQuery;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::Value;
use sowmark_core::ids::{CalibrationId, MeteringUnitId};
use sowmark_core::quantity::unit::dimension;
use sowmark_core::readiness::{self as ready};
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/metering-units/{id}/catch", Need::May(Permission::Log), catch_page),
        crate::route!(page POST "/metering-units/{id}/catch", Need::May(Permission::Log), post_catch),
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
        lots: lots.iter().map(|lot| (lot.id.to_string(), lot.says(words))).collect(),
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
