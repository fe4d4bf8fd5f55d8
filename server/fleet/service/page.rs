//! The short form for a part that was replaced or repaired.

use super::act::{self, Component, ServiceDraft};
use crate::access::Permission;
use crate::db::kind::Kind as Entry;
use crate::fleet::seeder::act::{SeederRow, UnitRow, find_seeder, units_of};
use crate::records::head::moment_field;
use crate::sync::mend::{Mend, mending};
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Kind, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::SeederId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seeders/{id}/services/new", Need::May(Permission::Log), new_service_page),
        crate::route!(page POST "/seeders/{id}/services", Need::May(Permission::Log), post_service),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(SeederRow, Vec<UnitRow>), Error> {
    let mut conn = signed.app.read().await?;
    let seeder = find_seeder(&mut conn.cx(), &signed.actor.scope, SeederId(id)).await?;
    let units = units_of(&mut conn.cx(), &signed.actor.scope, SeederId(id)).await?;
    Ok((seeder, units))
}

async fn new_service_page(signed: Signed, cookies: Cookies, PathId(id): PathId, mend: Mend) -> Result<Response, Error> {
    let (seeder, units) = known(&signed, id).await?;
    let form = mend.form(&signed, Entry::Service, service_form(&signed, &seeder, &units)?)?;
    page_of(&signed, &cookies, &seeder, form).show()
}

async fn post_service(signed: Signed, cookies: Cookies, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let signed = mending(signed, &posted).await?;
    let (seeder, units) = known(&signed, id).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<ServiceDraft>(&sent) {
        Ok(draft) => act::add_service(&signed, SeederId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to(&format!("/seeders/{id}")).into_response()),
        Err(error) => {
            page_of(&signed, &cookies, &seeder, service_form(&signed, &seeder, &units)?.again(&posted, &error)).show()
        }
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, seeder: &SeederRow, form: Form) -> FormPage {
    let words = signed.actor.words();
    let title = say!(words, "service-title", seeder = &seeder.name);
    FormPage::new(Page::new(signed, cookies, title, "/seeders"), form).intro(say!(words, "service-intro"))
}

fn service_form(signed: &Signed, seeder: &SeederRow, units: &[UnitRow]) -> Result<Form, Error> {
    let words = signed.actor.words();
    let whole = std::iter::once((String::new(), say!(words, "service-unit-all")));
    let parts = Component::ALL.iter().map(|part| (part.word(), part.says(words)));
    let fields = vec![
        moment_field(signed, "occurred_at", &say!(words, "record-when")),
        FormField::new("metering_unit_id", say!(words, "service-unit"))
            .choice(whole.chain(units.iter().map(|unit| (unit.id.to_string(), unit.label.clone()))))
            .optional(),
        FormField::new("component", say!(words, "service-part")).choice(parts),
        FormField::new("affects_metering", say!(words, "service-affects"))
            .value("true")
            .choice([("true", say!(words, "service-affects-yes")), ("false", say!(words, "service-affects-no"))]),
        FormField::new("note", say!(words, "record-note")).kind(Kind::Area).optional(),
    ];
    let form = Form::new(format!("/seeders/{}/services", seeder.id), say!(words, "service-submit"), fields);
    Ok(form.creating(signed.app.clock.new_id()?).back(format!("/seeders/{}", seeder.id)))
}
