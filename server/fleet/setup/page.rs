//! The short form for a roller, ratio or gate that was changed.

use super::act::{self, SetupDraft, SetupRow};
use crate::access::Permission;
use crate::db::kind::Kind as Entry;
use crate::fleet::roller::act::rollers;
use crate::fleet::roller::store::RollerRow;
use crate::fleet::seeder::act::{UnitRow, find_unit};
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
use sowmark_core::ids::MeteringUnitId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/metering-units/{id}/setups/new", Need::May(Permission::Log), new_setup_page),
        crate::route!(page POST "/metering-units/{id}/setups", Need::May(Permission::Log), post_setup),
    ]
}

/// What the form is made from.
struct Known {
    unit: UnitRow,
    rollers: Vec<RollerRow>,
    /// What is fitted now: most changes change one thing.
    now: Option<SetupRow>,
}

async fn known(signed: &Signed, id: Uuid) -> Result<Known, Error> {
    let (scope, id) = (&signed.actor.scope, MeteringUnitId(id));
    let mut conn = signed.app.read().await?;
    let unit = find_unit(&mut conn.cx(), scope, id).await?;
    let now = act::in_force(&mut conn.cx(), scope, id, signed.app.clock.now()).await?;
    Ok(Known { unit, rollers: rollers(&mut conn.cx(), scope).await?, now })
}

async fn new_setup_page(signed: Signed, cookies: Cookies, PathId(id): PathId, mend: Mend) -> Result<Response, Error> {
    let known = known(&signed, id).await?;
    let form = mend.form(&signed, Entry::Setup, setup_form(&signed, &known)?)?;
    page_of(&signed, &cookies, &known, form).show()
}

async fn post_setup(signed: Signed, cookies: Cookies, PathId(id): PathId, posted: Posted) -> Result<Response, Error> {
    let signed = mending(signed, &posted).await?.as_of_now(&posted).await?;
    let known = known(&signed, id).await?;
    let form = setup_form(&signed, &known)?;
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match form.still_stands(&posted).and_then(|()| input::read::<SetupDraft>(&sent)) {
        Ok(draft) => act::add_setup(&signed, known.unit.id(), draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to(&format!("/seeders/{}", known.unit.seeder_id)).into_response()),
        Err(error) => page_of(&signed, &cookies, &known, form.again(&posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, known: &Known, form: Form) -> FormPage {
    let words = signed.actor.words();
    let title = say!(words, "setup-title", seeder = &known.unit.seeder, unit = &known.unit.label);
    FormPage::new(Page::new(signed, cookies, title, "/seeders"), form).intro(say!(words, "setup-intro"))
}

fn setup_form(signed: &Signed, known: &Known) -> Result<Form, Error> {
    let (now, words) = (known.now.as_ref(), signed.actor.words());
    let roller = FormField::new("roller_id", say!(words, "setup-roller"))
        .value(now.map(|setup| setup.roller_id.to_string()).unwrap_or_default())
        .choice(
            std::iter::once((String::new(), say!(words, "setup-roller-choose")))
                .chain(known.rollers.iter().map(|roller| (roller.id.to_string(), roller.label.clone()))),
        );
    let roller = if known.rollers.is_empty() { roller.hint(say!(words, "setup-roller-none")) } else { roller };
    let fields = vec![
        moment_field(signed, "occurred_at", &say!(words, "record-from-when")),
        roller,
        FormField::new("drive_ratio", say!(words, "setup-ratio"))
            .value(now.map(|setup| setup.drive_ratio.clone()).unwrap_or_default())
            .hint(say!(words, "setup-ratio-hint")),
        FormField::new("gate", say!(words, "setup-gate-opening"))
            .value(now.and_then(|setup| setup.gate.clone()).unwrap_or_default())
            .hint(say!(words, "setup-gate-opening-hint"))
            .optional(),
        FormField::new("runs", say!(words, "setup-runs"))
            .kind(Kind::Whole)
            .value(now.map_or(known.unit.runs, |setup| setup.runs).to_string())
            .hint(say!(words, "setup-runs-hint", runs = known.unit.runs.to_string())),
        FormField::new("note", say!(words, "record-note")).kind(Kind::Area).optional(),
    ];
    let form = Form::new(format!("/metering-units/{}/setups", known.unit.id), say!(words, "setup-submit"), fields)
        .showing_alone(&["roller_id", "drive_ratio", "gate", "runs"]);
    Ok(form.creating(signed.app.clock.new_id()?).back(format!("/seeders/{}", known.unit.seeder_id)))
}
