//! The page of rollers: the list, and the form that adds one.

use super::act::{self, RollerDraft, RollerKind};
use super::store::RollerRow;
use crate::access::Permission;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, FormPage, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::{IntoResponse, Redirect, Response};
use sowmark_core::say;
use sowmark_core::words::Words;

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/rollers", Need::May(Permission::KeepFleet), rollers_page),
        crate::route!(page GET "/rollers/new", Need::May(Permission::KeepFleet), new_roller_page),
        crate::route!(page POST "/rollers", Need::May(Permission::KeepFleet), post_roller),
    ]
}

/// A roller in the list.
struct Listed {
    roller: RollerRow,
    kind: String,
}

#[derive(Template)]
#[template(path = "fleet/rollers.html")]
struct RollersPage {
    page: Page,
    rollers: Vec<Listed>,
}

async fn rollers_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let words = signed.actor.words();
    let listed = |roller: RollerRow| Listed { kind: said_kind(&roller.kind, words), roller };
    let rollers = act::rollers(&mut conn.cx(), &signed.actor.scope).await?.into_iter().map(listed).collect();
    show(&RollersPage { page: Page::new(&signed, &cookies, say!(words, "rollers-title"), "/keeping"), rollers })
}

fn said_kind(word: &str, words: Words) -> String {
    RollerKind::from_word(word).map_or_else(|| word.to_owned(), |kind| kind.says(words))
}

async fn new_roller_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    page_of(&signed, &cookies, roller_form(&signed)?).show()
}

async fn post_roller(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<RollerDraft>(&sent) {
        Ok(draft) => act::add_roller(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/rollers").into_response()),
        Err(error) => page_of(&signed, &cookies, roller_form(&signed)?.again(&posted, &error)).show(),
    }
}

fn page_of(signed: &Signed, cookies: &Cookies, form: Form) -> FormPage {
    FormPage::new(Page::new(signed, cookies, say!(signed.actor.words(), "rollers-add"), "/keeping"), form)
}

fn roller_form(signed: &Signed) -> Result<Form, Error> {
    let words = signed.actor.words();
    Ok(Form::new("/rollers", say!(words, "roller-submit"), roller_fields(words)).creating(signed.app.clock.new_id()?))
}

pub(super) fn roller_fields(words: Words) -> Vec<FormField> {
    let kinds = RollerKind::ALL.iter().map(|kind| (kind.word(), kind.says(words)));
    vec![
        FormField::new("label", say!(words, "roller-label")).hint(say!(words, "roller-label-hint")),
        FormField::new("kind", say!(words, "roller-kind")).choice(kinds),
        FormField::new("displacement_per_rev", say!(words, "roller-displacement"))
            .hint(say!(words, "roller-displacement-hint"))
            .measured(&["cm3"], "cm3")
            .optional(),
    ]
}
