//! The page behind each check: what it is for, where it comes from, and the tolerances it is held against here.

use super::show::check_name;
use crate::access::Permission;
use crate::readiness::policy;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::extract::Path;
use axum::response::Response;
use sowmark_core::policy::{Policy, PolicyField};
use sowmark_core::say;
use sowmark_core::verdict::CheckName;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/checks", Need::May(Permission::ReadFleet), checks_page),
        crate::route!(page GET "/checks/{name}", Need::May(Permission::ReadFleet), check_page),
    ]
}

#[derive(Template)]
#[template(path = "calibration/explained.html")]
struct ExplainedPage {
    page: Page,
    /// Alone on its page.
    alone: bool,
    checks: Vec<CheckPart>,
    may_change: bool,
}

struct CheckPart {
    name: String,
    href: String,
    says: String,
    source: String,
    tolerances: Vec<Tolerance>,
}

struct Tolerance {
    name: String,
    value: String,
    because: String,
}

impl CheckPart {
    fn of(check: CheckName, policy: &Policy, words: Words) -> Self {
        let explained = check.explained(words);
        let tolerances = explained.tolerances.iter();
        let fields = tolerances.filter_map(|name| Policy::fields().iter().find(|field| field.name == *name));
        Self {
            name: check_name(check, words),
            href: format!("/checks/{}", check.name()),
            says: explained.says,
            source: explained.source,
            tolerances: fields.map(|field| Tolerance::of(field, policy, words)).collect(),
        }
    }
}

impl Tolerance {
    fn of(field: &PolicyField, policy: &Policy, words: Words) -> Self {
        let value = policy.get(field.name).flatten();
        Self {
            name: field.label(words),
            value: value
                .map_or_else(|| say!(words, "checks-tolerance-off"), |value| policy::with_unit(&value, field, words)),
            because: field.because(words),
        }
    }
}

async fn checks_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let title = say!(signed.actor.words(), "checks-title");
    explain(&signed, &cookies, title, &CheckName::ALL).await
}

async fn check_page(signed: Signed, cookies: Cookies, Path(name): Path<String>) -> Result<Response, Error> {
    let check = CheckName::named(&name).ok_or_else(|| Error::not_there("check"))?;
    let words = signed.actor.words();
    let title = say!(words, "checks-one-title", name = check_name(check, words));
    explain(&signed, &cookies, title, &[check]).await
}

async fn explain(signed: &Signed, cookies: &Cookies, title: String, checks: &[CheckName]) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let in_force = policy::in_force(&mut conn.cx(), &signed.actor.scope).await?;
    let words = signed.actor.words();
    show(&ExplainedPage {
        page: Page::new(signed, cookies, title, "/seeders"),
        alone: checks.len() == 1,
        checks: checks.iter().map(|check| CheckPart::of(*check, &in_force.policy, words)).collect(),
        may_change: signed.actor.may(Permission::KeepFleet),
    })
}
