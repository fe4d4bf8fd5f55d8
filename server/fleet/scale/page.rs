//! The pages of scales: the list with the latest check of each, and the forms that add a scale or a check.

use super::act::{self, CheckDraft, CheckRow, ScaleDraft, ScaleRow};
use crate::access::{Permission, Units};
use crate::db::kind::Kind;
use crate::readiness::act::surroundings;
use crate::records::head::moment_field;
use crate::sync::mend::{Mend, mending};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::ScaleId;
use sowmark_core::moment::latest_by;
use sowmark_core::policy::Policy;
use sowmark_core::readiness::{Surroundings, passes};
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/scales", Need::May(Permission::Log), scales_page),
        crate::route!(page GET "/scales/new", Need::May(Permission::KeepFleet), new_scale_page),
        crate::route!(page POST "/scales", Need::May(Permission::KeepFleet), post_scale),
        crate::route!(page GET "/scales/{id}/checks/new", Need::May(Permission::Log), new_check_page),
        crate::route!(page POST "/scales/{id}/checks", Need::May(Permission::Log), post_check),
    ]
}

/// A scale in the list.
struct Listed {
    scale: ScaleRow,
    checks: Vec<Told>,
}

/// A check as the list tells it.
struct Told {
    id: Uuid,
    when: String,
    says: String,
    /// `pass` or `fail` by the tolerances in force then; empty of one that does not stand.
    outcome: &'static str,
    /// How far it could have been off then; empty unless it was further off.
    allowed: String,
    /// By what its known mass is traced to a standard; empty where that is not known.
    traced: String,
    by: String,
    fallen: Option<String>,
    may_void: bool,
}

#[derive(Template)]
#[template(path = "fleet/scales.html")]
struct ScalesPage {
    page: Page,
    scales: Vec<Listed>,
    may_keep: bool,
}

async fn scales_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let scope = &signed.actor.scope;
    let mut conn = signed.app.read().await?;
    let around = surroundings(&mut conn.cx(), scope, &signed.actor.time_zone).await?;
    let mut scales = Vec::new();
    for scale in act::scales(&mut conn.cx(), scope).await? {
        let checks = act::latest_checks(&mut conn.cx(), scope, ScaleId(scale.id)).await?;
        scales.push(Listed { scale, checks: checks.iter().map(|check| Told::of(check, &around, &signed)).collect() });
    }
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "scales-title"), "/keeping");
    show(&ScalesPage { page, scales, may_keep: signed.actor.may(Permission::KeepFleet) })
}

impl Told {
    fn of(row: &CheckRow, around: &Surroundings, signed: &Signed) -> Self {
        let (zone, reader) = (&signed.actor.time_zone, signed.actor.reader());
        let (reading, reference) = (reader.measured(&row.reading), reader.measured(&row.reference));
        let mut traced = Vec::new();
        if let Some(identity) = &row.reference_identity {
            traced.push(say!(reader.words, "scale-check-known-mass", identity = identity));
        }
        if let Some(certificate) = &row.certificate {
            traced.push(say!(reader.words, "scale-check-certified", certificate = certificate));
        }
        let judged = judged(row, around);
        let limit = judged.as_ref().filter(|(passed, _)| !passed).map(|(_, policy)| policy.scale_error_limit_percent);
        Self {
            id: row.head.id,
            when: row.head.when(zone, reader.words),
            says: say!(reader.words, "scale-read", reading = reading, reference = reference),
            outcome: judged.map_or("", |(passed, _)| if passed { "pass" } else { "fail" }),
            allowed: limit
                .map(|percent| say!(reader.words, "scale-allowed", percent = reader.words.exactly(percent)))
                .unwrap_or_default(),
            traced: traced.join(" "),
            by: row.head.by_line(reader.words),
            fallen: row.head.fallen(&signed.actor),
            may_void: row.head.may_void(signed),
        }
    }
}

/// Whether a check that stands passed, and the tolerances by which: those in force when it was made.
fn judged(row: &CheckRow, around: &Surroundings) -> Option<(bool, Policy)> {
    let scale = around.scales.get(&ScaleId(row.scale_id))?;
    let check = scale.checks.iter().find(|check| check.moment.id == row.head.id)?;
    let then = latest_by(&around.policies, check.moment.occurred_at);
    let policy = then.map_or_else(Policy::default, |policy| policy.what.clone());
    Some((passes(&check.what, scale.readability_kg, &policy), policy))
}

/// The units that somebody weighs in, their own first.
fn mass_units(signed: &Signed, small: bool) -> &'static [&'static str] {
    match (signed.actor.units, small) {
        (Units::Metric, true) => &["g", "kg", "oz", "lb"],
        (Units::Metric, false) => &["kg", "g", "lb", "oz"],
        (Units::Us, true) => &["oz", "lb", "g", "kg"],
        (Units::Us, false) => &["lb", "oz", "kg", "g"],
    }
}

async fn new_scale_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    scale_page(&signed, &cookies, scale_form(&signed)?).show()
}

async fn post_scale(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<ScaleDraft>(&sent) {
        Ok(draft) => act::add_scale(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/scales").into_response()),
        Err(error) => scale_page(&signed, &cookies, scale_form(&signed)?.again(&posted, &error)).show(),
    }
}

fn scale_page(signed: &Signed, cookies: &Cookies, form: Form) -> FormPage {
    FormPage::new(Page::new(signed, cookies, say!(signed.actor.words(), "scales-add"), "/keeping"), form)
}

fn scale_form(signed: &Signed) -> Result<Form, Error> {
    let form = Form::new("/scales", say!(signed.actor.words(), "scale-submit"), scale_fields(signed));
    Ok(form.creating(signed.app.clock.new_id()?))
}

pub(super) fn scale_fields(signed: &Signed) -> Vec<FormField> {
    let (small, large, words) = (mass_units(signed, true), mass_units(signed, false), signed.actor.words());
    vec![
        FormField::new("name", say!(words, "scale-name")).hint(say!(words, "scale-name-hint")),
        FormField::new("readability", say!(words, "scale-step"))
            .hint(say!(words, "scale-step-hint"))
            .measured(small, small[0]),
        FormField::new("capacity", say!(words, "scale-capacity"))
            .hint(say!(words, "scale-capacity-hint"))
            .measured(large, large[0]),
    ]
}

async fn new_check_page(signed: Signed, cookies: Cookies, PathId(id): PathId, mend: Mend) -> Result<Response, Error> {
    let scale = act::find_scale(&mut signed.app.read().await?.cx(), &signed.actor.scope, ScaleId(id)).await?;
    let form = mend.form(&signed, Kind::ScaleCheck, check_form(&signed, &scale)?)?;
    check_page(&signed, &cookies, &scale, form).show()
}

async fn post_check(signed: Signed, cookies: Cookies, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let signed = mending(signed, &posted).await?;
    let scale = act::find_scale(&mut signed.app.read().await?.cx(), &signed.actor.scope, ScaleId(id)).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<CheckDraft>(&sent) {
        Ok(draft) => act::add_check(&signed, ScaleId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/scales").into_response()),
        Err(error) => check_page(&signed, &cookies, &scale, check_form(&signed, &scale)?.again(&posted, &error)).show(),
    }
}

fn check_page(signed: &Signed, cookies: &Cookies, scale: &ScaleRow, form: Form) -> FormPage {
    let words = signed.actor.words();
    let title = say!(words, "scale-check-title", scale = &scale.name);
    FormPage::new(Page::new(signed, cookies, title, "/keeping"), form).intro(say!(words, "scale-check-intro"))
}

fn check_form(signed: &Signed, scale: &ScaleRow) -> Result<Form, Error> {
    let (units, words) = (mass_units(signed, false), signed.actor.words());
    let fields = vec![
        moment_field(signed, "occurred_at", &say!(words, "record-when")),
        FormField::new("reference", say!(words, "scale-check-reference")).measured(units, units[0]),
        FormField::new("reading", say!(words, "scale-check-reading")).measured(units, units[0]),
        FormField::new("reference_identity", say!(words, "scale-check-identity"))
            .hint(say!(words, "scale-check-identity-hint"))
            .optional(),
        FormField::new("certificate", say!(words, "scale-check-certificate"))
            .hint(say!(words, "scale-check-certificate-hint"))
            .optional(),
    ];
    let form = Form::new(format!("/scales/{}/checks", scale.id), say!(words, "scale-check-submit"), fields);
    Ok(form.creating(signed.app.clock.new_id()?).back("/scales"))
}
