//! The form that adds a metering unit to a seeder that is there.

use super::act::{self, Drive, SeederRow, UnitDraft, find_seeder};
use crate::access::Permission;
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
        crate::route!(page GET "/seeders/{id}/metering-units/new", Need::May(Permission::KeepFleet), new_unit_page),
        crate::route!(page POST "/seeders/{id}/metering-units", Need::May(Permission::KeepFleet), post_unit),
    ]
}

async fn found(signed: &Signed, id: Uuid) -> Result<SeederRow, Error> {
    find_seeder(&mut signed.app.read().await?.cx(), &signed.actor.scope, SeederId(id)).await
}

async fn new_unit_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let seeder = found(&signed, id).await?;
    page_of(&signed, &cookies, &seeder, unit_form(&signed, &seeder)?).show()
}

async fn post_unit(signed: Signed, cookies: Cookies, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let seeder = found(&signed, id).await?;
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<UnitDraft>(&sent) {
        Ok(draft) => act::add_unit(&signed, SeederId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to(&format!("/seeders/{id}")).into_response()),
        Err(error) => page_of(&signed, &cookies, &seeder, unit_form(&signed, &seeder)?.again(&posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, seeder: &SeederRow, form: Form) -> FormPage {
    let words = signed.actor.words();
    let title = say!(words, "unit-title", seeder = &seeder.name);
    FormPage::new(Page::new(signed, cookies, title, "/seeders"), form).intro(say!(words, "unit-intro"))
}

fn unit_form(signed: &Signed, seeder: &SeederRow) -> Result<Form, Error> {
    let words = signed.actor.words();
    let fields = vec![
        FormField::new("label", say!(words, "unit-label")).hint(say!(words, "unit-label-hint")),
        FormField::new("runs", say!(words, "unit-runs")).kind(Kind::Whole).hint(say!(words, "unit-runs-hint")),
        FormField::new("drive", say!(words, "unit-drive"))
            .value("electric")
            .choice(Drive::ALL.iter().map(|drive| (drive.word(), drive.says(words)))),
        FormField::new("roller_speed_rpm/min", say!(words, "unit-speed-least"))
            .kind(Kind::Number)
            .optional()
            .hint(say!(words, "unit-speed-hint")),
        FormField::new("roller_speed_rpm/max", say!(words, "unit-speed-most")).kind(Kind::Number).optional(),
    ];
    let form = Form::new(format!("/seeders/{}/metering-units", seeder.id), say!(words, "unit-submit"), fields);
    Ok(form.creating(signed.app.clock.new_id()?))
}
