//! The form that changes what is kept of a seeder: its name, its serial number, and what each unit's controller wants.

use super::act::{self, SeederChange, SeederRow, UnitRow, find_seeder, units_of};
use super::key_in;
use super::keyed_in::{KeyFor, KeyMass};
use crate::access::Permission;
use crate::db::kind::Kind;
use crate::web::api::PathId;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page};
use crate::web::routes::{Need, Route};
use axum::response::{IntoResponse, Redirect, Response};
use serde_json::{Value, json};
use sowmark_core::ids::SeederId;
use sowmark_core::say;
use uuid::Uuid;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/seeders/{id}/change", Need::May(Permission::KeepFleet), change_seeder_page),
        crate::route!(page POST "/seeders/{id}/change", Need::May(Permission::KeepFleet), post_seeder_change),
    ]
}

/// What the form is made from.
struct Known {
    seeder: SeederRow,
    units: Vec<UnitRow>,
}

async fn known(signed: &Signed, id: Uuid) -> Result<Known, Error> {
    let mut conn = signed.app.read().await?;
    let (scope, id) = (&signed.actor.scope, SeederId(id));
    let seeder = find_seeder(&mut conn.cx(), scope, id).await?;
    Ok(Known { seeder, units: units_of(&mut conn.cx(), scope, id).await? })
}

async fn change_seeder_page(signed: Signed, cookies: Cookies, PathId(id): PathId) -> Result<Response, Error> {
    let known = known(&signed, id).await?;
    page_of(&signed, &cookies, &known, change_form(&signed, &known)).show()
}

async fn post_seeder_change(
    signed: Signed,
    cookies: Cookies,
    PathId(id): PathId,
    posted: Posted,
) -> Result<Response, Error> {
    let signed = signed.as_of_now(&posted).await?;
    let known = known(&signed, id).await?;
    let form = change_form(&signed, &known);
    let mine = form.mine(&signed, (Kind::Seeder, Some(id)), &posted).await?;
    let wished = mine.may_be_stored().and_then(|()| input::read::<SeederChange>(&wished(&mine.posted, &known)));
    let changed = match wished {
        Ok(change) => act::change_seeder(&signed, SeederId(id), change).await,
        Err(error) => Err(error),
    };
    match changed {
        Ok(()) => Ok(Redirect::to(&format!("/seeders/{id}")).into_response()),
        Err(error) => page_of(&signed, &cookies, &known, form.again(&mine.posted, &error)).show(),
    }
}

/// The name of a unit's field, which is its place in what is sent.
fn field(number: usize, name: &str) -> String {
    format!("metering_units/{number}/keyed_in/{name}")
}

/// What the form wishes. Its fields show what there is, so one that was emptied is to be taken away, not to be left. Of a
/// unit that was not in it nothing is wished.
fn wished(posted: &Posted, known: &Known) -> Value {
    let mut wished = json!({ "name": posted.text("name"), "serial_number": posted.text("serial_number") });
    let sent = |number: usize| posted.0.iter().any(|(name, _)| *name == field(number, "mass_unit"));
    if (0..known.units.len()).any(sent) {
        let units = known.units.iter().enumerate().filter(|(number, _)| sent(*number));
        wished["metering_units"] = units.map(|(number, unit)| wished_unit(posted, number, unit.id)).collect();
    }
    wished
}

fn wished_unit(posted: &Posted, number: usize, id: Uuid) -> Value {
    let text = |name: &str| posted.text(&field(number, name));
    let keyed_in = match text("mass_unit") {
        "" => Value::Null,
        mass => json!({ "mass_unit": mass, "per_revolutions": text("per_revolutions"), "for": text("for") }),
    };
    json!({ "id": id, "keyed_in": keyed_in })
}

fn page_of(signed: &Signed, cookies: &Cookies, known: &Known, form: Form) -> FormPage {
    let words = signed.actor.words();
    let title = say!(words, "seeder-change-title", seeder = &known.seeder.name);
    FormPage::new(Page::new(signed, cookies, title, "/seeders"), form).intro(say!(words, "seeder-change-intro"))
}

fn change_form(signed: &Signed, known: &Known) -> Form {
    let (seeder, words) = (&known.seeder, signed.actor.words());
    let serial = seeder.serial_number.clone().unwrap_or_default();
    let mut fields = vec![
        FormField::new("name", say!(words, "seeder-name"))
            .value(seeder.name.clone())
            .hint(say!(words, "seeder-name-hint")),
        FormField::new("serial_number", say!(words, "seeder-serial-number")).value(serial).optional(),
    ];
    for (number, unit) in known.units.iter().enumerate() {
        fields.extend(unit_fields(signed, number, unit));
    }
    Form::new(format!("/seeders/{}/change", seeder.id), say!(words, "seeder-change-submit"), fields).showing(&[])
}

fn unit_fields(signed: &Signed, number: usize, unit: &UnitRow) -> [FormField; 3] {
    let (form, words) = (unit.keyed_in.0, signed.actor.words());
    let named = |of: &str, label: String| FormField::new(field(number, of), label);
    let usual = key_in::in_words(None, signed.actor.reader());
    let unsaid = say!(words, "key-in-mass-not-said", form = usual);
    let masses = KeyMass::ALL.iter().map(|mass| (mass.word(), mass.says(words)));
    let (one_run, whole_unit) = (say!(words, "key-in-for-run"), say!(words, "key-in-for-unit"));
    let per = if form.is_some_and(|form| form.per.count() == 1) { "1" } else { "100" };
    [
        named("mass_unit", say!(words, "key-in-mass", unit = &unit.label))
            .choice(std::iter::once(("", unsaid)).chain(masses))
            .value(form.map(|form| form.mass_unit.word()).unwrap_or_default()),
        named("per_revolutions", say!(words, "key-in-per", unit = &unit.label))
            .choice([("1", say!(words, "key-in-per-one")), ("100", say!(words, "key-in-per-hundred"))])
            .value(per),
        named("for", say!(words, "key-in-for", unit = &unit.label))
            .choice([(KeyFor::Run.word(), one_run), (KeyFor::Unit.word(), whole_unit)])
            .value(form.map_or(KeyFor::Run, |form| form.is_for).word()),
    ]
}
