//! The page that lists the reports, each with the choice of what it is about.

use super::{cab_card, check, lot_card, season};
use crate::access::Permission;
use crate::fleet::seeder::act::seeders;
use crate::seed::lot::act::lots;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::form::Form;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/reports", Need::May(Permission::ReadUsage), reports_page)]
}

#[derive(Template)]
#[template(path = "reports/list.html")]
struct ReportsPage {
    page: Page,
    /// None while there is no seeder to make a card for.
    card: Option<Form>,
    season: Form,
    /// None while there is no lot.
    lot: Option<Form>,
    check: Form,
}

async fn reports_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let words = signed.actor.words();
    let mut conn = signed.app.read().await?;
    let seeders = seeders(&mut conn.cx(), &signed.actor.scope).await?;
    let lots = lots(&mut conn.cx(), &signed.actor.scope).await?;
    let season = season::Choice::of(&mut conn.cx(), &signed).await?.form(words);
    drop(conn);
    show(&ReportsPage {
        page: Page::new(&signed, &cookies, say!(words, "reports-title"), "/reports"),
        card: (!seeders.is_empty()).then(|| cab_card::card_form(&signed, &seeders)),
        season,
        lot: (!lots.is_empty()).then(|| lot_card::lot_form(&signed, &lots)),
        check: check::check_form(words),
    })
}
