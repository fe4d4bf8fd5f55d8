//! What the office keeps: a page that leads to each list, with a line on what it is for.

use crate::access::Permission;
use crate::web::door::Signed;
use crate::web::error::Error;
use crate::web::page::{Cookies, Page, show};
use crate::web::routes::{Need, Route};
use askama::Template;
use axum::response::Response;
use sowmark_core::say;

pub(super) fn routes() -> Vec<Route> {
    vec![crate::route!(page GET "/keeping", Need::May(Permission::KeepFleet), keeping_page)]
}

/// One list that the office keeps; the texts as their keys.
struct Kept {
    href: &'static str,
    name: &'static str,
    what_for: &'static str,
}

const KEPT: &[Kept] = &[
    Kept { href: "/rollers", name: "rollers-title", what_for: "keeping-rollers" },
    Kept { href: "/scales", name: "scales-title", what_for: "keeping-scales" },
    Kept { href: "/seasons", name: "seasons-title", what_for: "keeping-seasons" },
    Kept { href: "/tolerances", name: "keeping-tolerances", what_for: "keeping-tolerances-what" },
    Kept { href: "/fields", name: "keeping-fields", what_for: "keeping-fields-what" },
    Kept { href: "/clients", name: "keeping-clients", what_for: "keeping-clients-what" },
    Kept { href: "/exchange/task-data", name: "task-file-title", what_for: "task-file-what" },
    Kept { href: "/people", name: "keeping-people", what_for: "keeping-people-what" },
];

#[derive(Template)]
#[template(path = "fleet/keeping.html")]
struct KeepingPage {
    page: Page,
    kept: &'static [Kept],
}

async fn keeping_page(signed: Signed, cookies: Cookies) -> Result<Response, Error> {
    let page = Page::new(&signed, &cookies, say!(signed.actor.words(), "nav-keeping"), "/keeping");
    show(&KeepingPage { page, kept: KEPT })
}
