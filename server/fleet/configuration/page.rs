//! The short form for a working width or row spacing that was changed.

use super::act::{self, ConfigurationDraft, ConfigurationRow};
use crate::access::{Permission, Units};
use crate::db::kind::Kind;
use crate::fleet::seeder::act::{SeederRow, find_seeder};
use crate::records::head::moment_field;
use crate::sync::mend::Mend;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page};
use crate::web::quantity::stored;
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::ids::SeederId;
use sowmark_core::quantity::Length;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seeders/{id}/configurations/new", Need::May(Permission::KeepFleet), new_configuration_page),
        crate::route!(page POST "/seeders/{id}/configurations", Need::May(Permission::KeepFleet), post_configuration),
    ]
}

async fn known(signed: &Signed, id: Uuid) -> Result<(SeederRow, Option<ConfigurationRow>), Error> {
    let (scope, id) = (&signed.actor.scope, SeederId(id));
    let mut conn = signed.app.read().await?;
    let seeder = find_seeder(&mut conn.cx(), scope, id).await?;
    let now = act::in_force(&mut conn.cx(), scope, id, signed.app.clock.now()).await?;
    Ok((seeder, now))
}

async fn new_configuration_page(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    mend: Mend,
) -> Result<Response, Error> {
    let (seeder, now) = known(&signed, id).await?;
    let form = configuration_form(&signed, &seeder, now.as_ref())?;
    page_of(&signed, &cookies, &seeder, mend.form(&signed, Kind::Configuration, form)?).show()
}

async fn post_configuration(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let (seeder, now) = known(&signed, id).await?;
    let form = configuration_form(&signed, &seeder, now.as_ref())?;
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match form.still_stands(&posted).and_then(|()| input::read::<ConfigurationDraft>(&sent)) {
        Ok(draft) => act::add_configuration(&signed, SeederId(id), draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to(&format!("/seeders/{id}")).into_response()),
        Err(error) => page_of(&signed, &cookies, &seeder, form.again(&posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, seeder: &SeederRow, form: Form) -> FormPage {
    let words = signed.actor.words();
    let title = say!(words, "configuration-title", seeder = &seeder.name);
    FormPage::new(Page::new(signed, cookies, title, "/seeders"), form).intro(say!(words, "configuration-intro"))
}

fn configuration_form(signed: &Signed, seeder: &SeederRow, now: Option<&ConfigurationRow>) -> Result<Form, Error> {
    let (wide, narrow): (&[&str], &[&str]) = match signed.actor.units {
        Units::Metric => (&["m", "ft"], &["cm", "mm", "in"]),
        Units::Us => (&["ft", "m"], &["in", "cm", "mm"]),
    };
    let words = signed.actor.words();
    let measured = |name: &str, label: String, units: &[&str], entered: Option<&str>| -> Result<FormField, Error> {
        let known: Option<Length> = entered.map(stored).transpose()?;
        let chosen = known.as_ref().map(Length::unit).filter(|unit| units.contains(unit)).unwrap_or(units[0]);
        let value = known.as_ref().map(|known| known.value_text().to_owned()).unwrap_or_default();
        Ok(FormField::new(name, label).measured(units, chosen).value(value))
    };
    let fields = vec![
        moment_field(signed, "occurred_at", &say!(words, "record-from-when")),
        measured(
            "working_width",
            say!(words, "seeder-working-width"),
            wide,
            now.map(|row| row.working_width.as_str()),
        )?,
        measured("row_spacing", say!(words, "seeder-row-spacing"), narrow, now.map(|row| row.row_spacing.as_str()))?,
    ];
    let form = Form::new(format!("/seeders/{}/configurations", seeder.id), say!(words, "setup-submit"), fields);
    Ok(form.creating(signed.app.clock.new_id()?).showing_alone(&["working_width", "row_spacing"]))
}
