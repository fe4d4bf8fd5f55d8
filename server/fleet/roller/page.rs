//! The page of rollers: the list, and the form that adds one.

use super::act::{self, RollerDraft, RollerKind};
use super::store::RollerRow;
use crate::access::Permission;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::{Form, FormField, Posted};
use crate::web::input;
use crate::web::page::{Cookies, Page, show, show_with};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

pub(super) fn routes() -> Vec<Route> {
    vec![
        crate::route!(page GET "/rollers", Need::May(Permission::KeepFleet), rollers_page),
        crate::route!(page GET "/rollers/new", Need::May(Permission::KeepFleet), new_roller_page),
        crate::route!(page POST "/rollers", Need::May(Permission::KeepFleet), post_roller),
    ]
}

#[derive(Template)]
#[template(path = "fleet/rollers.html")]
struct RollersPage {
    page: Page,
    rollers: Vec<RollerRow>,
}

async fn rollers_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let mut conn = signed.app.read().await?;
    let rollers = act::rollers(&mut conn.cx(), &signed.actor.scope).await?;
    show(&RollersPage { page: Page::new(&signed, &cookies, "Meter rollers", "/keeping"), rollers })
}

async fn new_roller_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let form = roller_form().creating(signed.app.clock.new_id()?);
    show(&crate::web::page::FormPage::new(Page::new(&signed, &cookies, "Add a meter roller", "/keeping"), form))
}

async fn post_roller(signed: Signed, cookies: Cookies, posted: Posted) -> Result<Response, Error> {
    let sent = posted.tree(&signed.actor.time_zone);
    let added = match input::read::<RollerDraft>(&sent) {
        Ok(draft) => act::add_roller(&signed, draft, sent).await,
        Err(error) => Err(error),
    };
    match added {
        Ok(_) => Ok(Redirect::to("/rollers").into_response()),
        Err(error) => {
            let page = Page::new(&signed, &cookies, "Add a meter roller", "/keeping");
            let form = roller_form().creating(signed.app.clock.new_id()?).again(&posted, &error);
            show_with(StatusCode::UNPROCESSABLE_ENTITY, &crate::web::page::FormPage::new(page, form))
        }
    }
}

fn roller_form() -> Form {
    Form::new(
        "/rollers",
        "Add the roller",
        vec![
            FormField::new("label", "Label").hint("What your people call it, such as \u{201c}fine fluted\u{201d}."),
            FormField::new("kind", "Kind").choice(RollerKind::ALL.iter().map(|kind| (kind.word(), kind.word()))),
            FormField::new("displacement_per_rev", "Displacement per revolution and run")
                .hint("Where the maker states it. It lets Sowmark tell a catch that cannot be right.")
                .measured(&["cm3"], "cm3")
                .optional(),
        ],
    )
}
