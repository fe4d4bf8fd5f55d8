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
    FormPage::new(Page::new(signed, cookies, format!("{}: add a metering unit", seeder.name), "/seeders"), form).intro(
        "A metering unit is one roller line under one tank. It has no number until its setup is logged and a catch accepted.",
    )
}

fn unit_form(signed: &Signed, seeder: &SeederRow) -> Result<Form, Error> {
    let fields = vec![
        FormField::new("label", "Label")
            .hint("What your people call it; another than those of the machine's other units."),
        FormField::new("runs", "Runs").kind(Kind::Whole).hint("How many seed lines it feeds."),
        FormField::new("drive", "Drive")
            .value("electric")
            .choice(Drive::ALL.iter().map(|drive| (drive.word(), drive.said()))),
        FormField::new("roller_speed_rpm/min", "Lowest roller speed, 1/min")
            .kind(Kind::Number)
            .optional()
            .hint("The roller speeds that the drive can hold, where known."),
        FormField::new("roller_speed_rpm/max", "Highest roller speed, 1/min").kind(Kind::Number).optional(),
    ];
    let form = Form::new(format!("/seeders/{}/metering-units", seeder.id), "Add the metering unit", fields);
    Ok(form.creating(signed.app.clock.new_id()?))
}
